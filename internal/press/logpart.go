package press

import (
	"time"

	"hembook/internal/notebook"
)

func (p *printer) work(w *paper, b *notebook.BuildPage) {
	if len(b.Steps) == 0 {
		return
	}
	number := map[string]int{}
	for i, s := range b.Steps {
		number[s.ID] = i + 1
	}
	t := w.table("Steps", words("step"), words("stage"), words("technique"), words("after"),
		fig("planned"), fig("then wait"), fig("clocked"), fig("seam"), fig("rate")).long()
	for i := range b.Steps {
		s := &b.Steps[i]
		t.head(func(w *paper) { w.int(i + 1).raw(". ").say(s.Do) }).words(s.Stage)
		t.html(func(w *paper) {
			if s.Technique.Address != "" {
				w.link(p.href(s.Technique.Address), s.Technique.Name)
			}
		})
		t.html(func(w *paper) {
			for k, id := range s.After {
				if k > 0 {
					w.raw(", ")
				}
				if n := number[id]; n > 0 {
					w.int(n)
				} else {
					w.say(id)
				}
			}
		})
		t.html(func(w *paper) { p.planned(w, b, i) }).html(func(w *paper) { w.measured(p.time(s.Wait)) })
		t.fig(&s.Spent).fig(&s.Metres).fig(&s.Rate)
	}
	t.end()
}

// planned is how long a step is to take: what the record guesses, called a
// guess, or what the maker's own rates say, with half of what was observed
// between the quartiles.
func (p *printer) planned(w *paper, b *notebook.BuildPage, i int) {
	s := &b.Steps[i]
	if b.Timing == nil || i >= len(b.Timing.Steps) {
		w.measured(p.time(s.Takes))
		return
	}
	e := &b.Timing.Steps[i].Estimate
	switch {
	case e.Guess && s.Takes == 0: // it only lets time pass
	case e.Guess:
		w.figure(&e.Figure)
		w.raw(" <small>guess</small>")
	case e.LowFigure.ID != "":
		w.figure(&e.Figure)
		w.raw(`<div class="likely">likely `).figure(&e.LowFigure).raw(" to ").figure(&e.HighFigure).raw("</div>")
	default:
		w.figure(&e.Figure)
	}
}

// time prints a duration that was written; nothing where none was.
func (p *printer) time(d time.Duration) string {
	if d == 0 {
		return ""
	}
	return p.style.Duration(d)
}

func (p *printer) journal(w *paper, b *notebook.BuildPage) {
	if len(b.Journal) == 0 {
		return
	}
	w.raw("<ol>")
	for i, e := range b.Journal {
		if i > 0 && i%longTable == 0 {
			w.raw("</ol>\n").mayTurn().raw("<ol>")
		}
		w.raw(`<li><p><time datetime="`)
		stamp := e.When.Format("2006-01-02")
		words := e.When.Format("2 January 2006")
		if e.When.Hour()+e.When.Minute() > 0 {
			stamp = e.When.Format("2006-01-02T15:04")
			words = e.When.Format("2 January 2006, 15:04")
		}
		w.say(stamp).raw(`">`).say(words).raw("</time>")
		if e.Did != "" {
			w.raw(" ").say(e.Did)
		}
		if e.For > 0 {
			w.raw(", ").say(p.style.Duration(e.For))
		}
		w.raw("</p>")
		if e.Note.Given() {
			p.proseTo(w, e.Note, 4)
		}
		if e.Picture != nil {
			p.photo(w, *e.Picture, columnSizes)
		}
		w.raw("</li>\n")
	}
	w.raw("</ol>\n")
}
