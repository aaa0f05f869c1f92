package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/give"
	"hembook/internal/paper"
	"hembook/internal/press"
	"hembook/internal/record"
	"hembook/internal/sheet"
)

// A place is where a word of construction must be seen. What it shows is looked at with the
// word in the record and without it: a place that shows the same has not heard of it.
type place string

const (
	sewnPlace   place = "sewn garment"
	pagePlace   place = "drawing on the page"
	printPlace  place = "full-size print"
	filePlace   place = "files out"
	backPlace   place = "files read back"
	rowPlace    place = "rows"
	threadPlace place = "thread"
	timePlace   place = "time"
	layPlace    place = "lay"
	remakePlace place = "remake sheet"

	readerPlace place = "reader"
	schemaPlace place = "schema"
	guidePlace  place = "guide"
	faultPlace  place = "fault message"
	likePlace   place = "like:"
	roundPlace  place = "fitting round"
	handPlace   place = "case by hand"
)

// shows is what each place that follows from the garment shows of it.
var shows = map[place]func(*made, *testing.T) string{
	sewnPlace: (*made).sewn, pagePlace: (*made).page, printPlace: (*made).print, filePlace: (*made).files, backPlace: (*made).back,
	rowPlace: (*made).rows, threadPlace: (*made).thread, timePlace: (*made).time, layPlace: (*made).lays, remakePlace: (*made).remake,
}

// A made is a garment worked out, with its workroom.
type made struct {
	room    *record.Room
	tailor  *derive.Tailor
	cutter  *cutting.Cutter
	cut     *cutting.Cutting
	g       *derive.Garment
	faults  []fault.Fault
	notions string // of a record that reads its pieces back: what lies along them
	to      string // the folder of its pages
	pressed bool
}

func makeIn(t *testing.T, a *txtar.Archive) *made {
	t.Helper()
	room, faults, err := record.Open(writtenOut(t, a))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { room.Close() })
	m := &made{room: room, to: filepath.Join(t.TempDir(), "pressed")}
	more := []fault.Fault(nil)
	m.tailor, more = derive.NewTailor(room)
	b, own := room.ReadBuild(room.Builds[0])
	m.cutter = cutting.NewCutter(t.Context(), room, m.tailor, cutting.Options{Mode: cutting.KeptOnly})
	m.cut = m.cutter.Cut(b)
	m.g = m.cut.Garment
	m.faults = slices.Concat(faults, more, own, m.g.Faults)
	return m
}

// pageOf is a page of the garment, pressed.
func (m *made) pageOf(t *testing.T, name string) string {
	t.Helper()
	if !m.pressed {
		m.pressed = true
		theme, err := roomTheme(m.room)
		if err != nil {
			t.Fatal(err)
		}
		if _, _, err := press.Press(context.Background(), m.room, m.cutter, theme, press.Options{To: m.to}); err != nil {
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile(filepath.Join(m.to, "builds", m.room.Builds[0].Slug, name+".html"))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

var drawnOn = regexp.MustCompile(`(?s)<svg.*?</svg>`)

// sewn is the garment put together: its net, what it measures, where it opens, how its
// seams meet.
func (m *made) sewn(t *testing.T) string {
	return strings.Join(drawnOn.FindAllString(m.pageOf(t, "together"), -1), "\n") + figuresBegun(m, "level.", "seam.", "opening.", "fit.")
}

// figuresBegun are the figures whose IDs begin so.
func figuresBegun(m *made, begins ...string) string {
	var out strings.Builder
	for _, f := range m.cut.Figures() {
		if slices.ContainsFunc(begins, func(b string) bool { return strings.HasPrefix(f.ID, b) }) {
			fmt.Fprintln(&out, f.ID, saidOf(&f))
		}
	}
	return out.String()
}

func saidOf(f *figure.Figure) string {
	if f == nil || !f.Value.Known() {
		return "not known"
	}
	return fmt.Sprintf("%.4f", f.Value.Number)
}

var mainOf = regexp.MustCompile(`(?s)<main.*</main>`)

// page is the page of the pieces: their drawings, and how often each is cut.
func (m *made) page(t *testing.T) string { return mainOf.FindString(m.pageOf(t, "pieces")) }

// print is what is drawn on the sheets, piece by piece.
func (m *made) print(t *testing.T) string {
	t.Helper()
	sheets, err := printed(m.room, m.g, m.g.Pieces, paper.Stock{Wide: 914}, document.A4).Set()
	if err != nil {
		return err.Error()
	}
	var out strings.Builder
	for _, large := range sheets.Plan.Larges {
		out.WriteString(large.Name + "\n")
		out.Write(large.Drawing.SVGFile(&drawing.FullSize))
	}
	return out.String()
}

func (m *made) given(t *testing.T, as give.Format) []byte {
	t.Helper()
	f, err := give.Pieces(m.g.Garment, nil, as)
	if err != nil {
		t.Fatal(err)
	}
	return f.Text
}

// files are those of both kinds: what one of them leaves out is left out.
func (m *made) files(t *testing.T) string {
	return string(m.given(t, give.SVG)) + string(m.given(t, give.DXF))
}

// back is what a record reads in them, of both kinds, to 0.1 mm.
func (m *made) back(t *testing.T) string {
	t.Helper()
	var all []string
	for _, as := range []give.Format{give.SVG, give.DXF} {
		var text strings.Builder
		text.WriteString("name: Back\ngarment: blouse\nstate: sewing\npieces:\n")
		for _, p := range m.g.Pieces {
			cut := "1"
			if p.OnFold {
				cut = "1 on fold"
			} else if p.Count > 1 {
				cut = "2 alike"
			}
			fmt.Fprintf(&text, "  %s: {cut: %s, outline: \"pattern.%s#%s\"}\n", p.Name, cut, as, p.Name)
		}
		text.WriteString(m.notions)
		a := &txtar.Archive{Files: []txtar.File{
			{Name: "content/workroom.yaml", Data: []byte("name: Test room\n")},
			{Name: "content/builds/blouse/build.yaml", Data: []byte(text.String())},
			{Name: "content/builds/blouse/pattern." + string(as), Data: m.given(t, as)},
		}}
		all = append(all, pieceForms(makeIn(t, a).g))
	}
	if all[0] != all[1] {
		t.Errorf("SVG and DXF do not come back alike:\n%s\n%s", all[0], all[1])
	}
	return all[0]
}

// pieceForms lists what is drawn on the pieces: how many lines, folds, rows, places and
// notches, and how large the outline is.
func pieceForms(g *derive.Garment) string {
	var out strings.Builder
	for _, p := range g.Pieces {
		rows := len(p.Beside)
		for _, b := range p.Gathered {
			rows += len(b.Lines)
		}
		fmt.Fprintf(&out, "%s: %d edges, %d lines, %d folds, %d rows, %d places, %d notches, area %.1f\n", p.Name, len(p.Edges), len(p.Lines), len(p.PleatFolds), rows, len(p.Chalked), len(p.NotchesAlong()), math.Round(p.Area.Value.Number*10)/10)
	}
	return out.String()
}

func (m *made) rows(t *testing.T) string {
	var out strings.Builder
	for i := range m.g.Rows {
		r := &m.g.Rows[i]
		fmt.Fprintln(&out, r.Kind, r.Of, r.Pass, r.Stitch, r.Rows, r.Hand, r.Temporary, r.Beside, saidOf(r.Length))
	}
	return out.String()
}

func (m *made) thread(t *testing.T) string { return figuresBegun(m, "thread.") }

// time is how much each step sews or handles, from which its minutes follow.
func (m *made) time(t *testing.T) string { return figuresBegun(m, "step.", "time.") }

// lays are the pieces that are laid on each cloth, and how many.
func (m *made) lays(t *testing.T) string {
	var out strings.Builder
	for _, l := range m.cut.Lays {
		if l.Problem == nil {
			continue
		}
		for _, p := range l.Problem.Lay.Pieces {
			fmt.Fprintln(&out, l.Part, p.Name, p.Quantity, p.OnFold, p.Outline)
		}
	}
	return out.String()
}

// remake is the sheet for whoever makes the garment again.
func (m *made) remake(t *testing.T) string {
	t.Helper()
	packet, err := sheet.Make(m.room, m.tailor, m.cut, m.g.Faults, sheet.Options{Language: "en", For: []string{"maker"}})
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range packet.Sheets {
		if s.Name == "remake" {
			html, err := document.OneFile(document.Alone(s.Document))
			if err != nil {
				t.Fatal(err)
			}
			return string(html)
		}
	}
	t.Fatal("there is no such sheet")
	return ""
}

// schemaHas reports whether the schema of a kind of file has a word under another.
func schemaHas(t *testing.T, kind, word string) bool {
	t.Helper()
	text, err := record.Schema(kind)
	if err != nil {
		t.Fatal(err)
	}
	var all any
	if err := json.Unmarshal(text, &all); err != nil {
		t.Fatal(err)
	}
	found := false
	var walk func(any)
	walk = func(v any) {
		switch v := v.(type) {
		case map[string]any:
			if props, ok := v["properties"].(map[string]any); ok && props[word] != nil {
				found = true
			}
			for _, one := range v {
				walk(one)
			}
		case []any:
			for _, one := range v {
				found = found || one == word
				walk(one)
			}
		}
	}
	walk(all)
	return found
}

// answered reports whether a slip of the broken records is about a word: it stands in what
// is edited or in the answer, and there is an answer.
func answered(t *testing.T, name, word string) bool {
	t.Helper()
	if file, title, ok := strings.Cut(name, "/"); ok {
		text, err := os.ReadFile(filepath.Join(newcomerDir, file+".txt"))
		if err != nil {
			t.Fatal(err)
		}
		_, slips := parseSlips(t, string(text))
		return slices.ContainsFunc(slips, func(s newSlip) bool {
			return s.title == title && s.answer != "" && strings.Contains(s.old+s.now+s.answer, word)
		})
	}
	a := readArchive(t, filepath.Join(brokenDir, name+".txtar"))
	answer := a.Files[len(a.Files)-1].Data
	return len(bytes.TrimSpace(answer)) > 0 && bytes.Contains(txtar.Format(a), []byte(word))
}
