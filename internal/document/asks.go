package document

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"strconv"
)

// Asks is a form that is sent home, filled in and comes back: on paper with room to
// write, in a browser with fields whose answers become one short text.
type Asks struct {
	Begins []string // lines the answer begins with, as "garment: coat"
	Unit   string   // of every length: cm
	Apart  float64  // by how much two readings may differ, in that unit
	Items  []Ask
	Free   []FreeAsk // answered in words
	Photos bool      // photographs may come with it, in a browser
	Words  AskWords
	File   string // the answer's name as a file
}

// An Ask is one length, measured twice.
type Ask struct {
	Name        string  // in the answer
	Title, How  string  // in the reader's words
	Least, Most float64 // beyond them it is asked about once more; 0 for no bound
}

// A FreeAsk is answered in words, or by one of some answers.
type FreeAsk struct {
	Name, Title string
	Long        bool
	Options     []AskOption
}

// An AskOption is one answer: its name in what is sent back, and what the reader sees.
type AskOption struct{ Name, Title string }

// AskWords are the fixed words of a form, in its language. What differs by how much is
// said with {much}.
type AskWords struct {
	What, How, First, Again, Third        string
	Differ, Agree, Unusual                string
	Make, Save, Copy, Copied, Send, Plain string
	Photos                                string // what photographs are asked for with
}

func (Asks) block() {}

//go:embed look/answer.js
var answerScript string

// answerHash lets a page run that script and no other.
func answerHash() string {
	sum := sha256.Sum256([]byte(answerScript))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// asks writes the form; what makes the answer is hidden until a script runs.
func (h *HTML) asks(b Asks) {
	if h.alone == nil { // a page of the notebook asks nothing
		return
	}
	h.alone.asks = true
	h.Put(`<div class="asks"`).attribute("data-unit", b.Unit).attribute("data-apart", decimal(b.Apart)).
		attribute("data-differ", b.Words.Differ).attribute("data-agree", b.Words.Agree).attribute("data-unusual", b.Words.Unusual).
		attribute("data-copied", b.Words.Copied).attribute("data-file", b.File).Put(">\n")
	for _, line := range b.Begins {
		h.Put(`<input type="hidden" data-begin`).attribute("value", line).Put(">")
	}
	for i := range b.Items {
		h.ask(b, i)
	}
	h.Put(`<div class="free">`)
	for i, f := range b.Free {
		id := "w" + strconv.Itoa(i)
		if len(f.Options) > 0 {
			h.choice(f, id)
			continue
		}
		h.Put("<label").attribute("for", id).Put(">").Say(f.Title).Put("</label>")
		if f.Long {
			h.Put("<textarea rows=\"3\"").attribute("id", id).attribute("data-word", f.Name).Put("></textarea>")
		} else {
			h.Put(`<input type="text"`).attribute("id", id).attribute("data-word", f.Name).Put(">")
		}
	}
	if b.Photos {
		h.Put(`<div class="photos" hidden><label for="photos">`).Say(b.Words.Photos).Put(`</label><input type="file" id="photos" accept="image/*" multiple><p class="shown"></p></div>`)
	}
	h.Put("</div>\n<p class=\"plain\">").Say(b.Words.Plain).Put("</p>\n").
		Put(`<p><button type="button" class="make" hidden>`).Say(b.Words.Make).Put("</button></p>\n<div class=\"answer\" hidden><pre tabindex=\"0\"></pre>").
		Put(`<p><button type="button" class="save">`).Say(b.Words.Save).Put(`</button> <button type="button" class="copy">`).Say(b.Words.Copy).Put("</button></p>\n")
	if b.Words.Send != "" {
		h.Put("<p>").Say(b.Words.Send).Put("</p>")
	}
	h.Put("</div>\n</div>\n")
}

// choice writes answers of which one is taken.
func (h *HTML) choice(f FreeAsk, id string) {
	h.Put(`<fieldset class="choice"`).attribute("data-choice", f.Name).Put("><legend>").Say(f.Title).Put("</legend><div>")
	for _, o := range f.Options {
		h.Put(`<label><input type="radio"`).attribute("name", id).attribute("value", o.Name).Put("> ").Say(o.Title).Put("</label>")
	}
	h.Put("</div></fieldset>\n")
}

func (h *HTML) ask(b Asks, i int) {
	a := &b.Items[i]
	n := strconv.Itoa(i + 1)
	h.Put(`<fieldset`).attribute("data-name", a.Name).attribute("data-least", decimal(a.Least)).attribute("data-most", decimal(a.Most)).
		Put("><legend><b>").Say(n).Put("</b> ").Say(a.Title).Put("</legend><p>").Say(a.How).Put("</p><div>")
	for k, word := range []string{b.Words.First, b.Words.Again, b.Words.Third} {
		h.Put("<label")
		if k == 2 {
			h.Put(` class="third" hidden`)
		}
		h.Put("><span>").Say(word).Put(`</span><input type="text" inputmode="decimal" autocomplete="off"> `).Say(b.Unit).Put("</label>")
	}
	h.Put(`</div><p class="say" role="status"></p></fieldset>` + "\n")
}

// decimal is a number as an attribute has it; "" for none.
func decimal(v float64) string {
	if v == 0 {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
