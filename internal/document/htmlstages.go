package document

import "strconv"

// stages writes stages as radio buttons, each followed by what it shows: a style
// sheet lets that of the chosen one be seen where there is a screen, and all of them
// elsewhere. No script is needed for it.
func (h *HTML) stages(b Stages) {
	h.Put(`<fieldset class="stages"><legend>`).Say(b.Choose).Put("</legend><ol>\n")
	for i, s := range b.Of {
		h.Put("<li>")
		if len(b.Of) > 1 && h.alone == nil {
			h.Put(`<input type="radio" name="`).Say(b.ID).Put(`"`).anchor(stageID(b.ID, i))
			if i == 0 {
				h.Put(" checked")
			}
			h.Put(`><label for="`).Say(stageID(b.ID, i)).Put(`">`).phrase(s.Phrase).Put("</label>")
		} else {
			h.Put("<p>").phrase(s.Phrase).Put("</p>")
		}
		h.Put("<div>")
		h.drawings(s.Of)
		h.Put("</div></li>\n")
	}
	h.Put("</ol></fieldset>\n")
}

// drawings writes drawings below each other, each with what is said of it.
func (h *HTML) drawings(list []Sketch) {
	for _, k := range list {
		h.Put("<figure>")
		h.drawn(k.Draw)
		if k.Caption != "" {
			h.Put("<figcaption>").Say(k.Caption).Put("</figcaption>")
		}
		h.Put("</figure>")
	}
}

// stageID is the anchor of a stage.
func stageID(id string, i int) string { return id + "-" + strconv.Itoa(i+1) }
