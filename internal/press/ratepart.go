package press

import (
	"cmp"
	"html/template"
	"slices"
	"strings"

	"hembook/internal/draw"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/notebook"
)

func (p *printer) printRates(r *notebook.RatesPage) error {
	v := &ListView{Frame: p.begin(r.Head), Page: r}
	for _, h := range []template.HTML{
		p.ratesOfAll("The metre of seam", "Minutes for a metre of seam, by technique", r.PerMetre),
		p.ratesOfAll("The piece", "Minutes for a piece, by technique", r.PerPiece),
		p.cutOfAll(r),
	} {
		if h != "" {
			v.Tables = append(v.Tables, h)
		}
	}
	return p.print("rates", v)
}

// ratesOfAll draws the rates of all techniques side by side and tables them.
func (p *printer) ratesOfAll(heading, caption string, list []notebook.Spread) template.HTML {
	if len(list) == 0 {
		return ""
	}
	w := p.paper("")
	var strips []draw.Strip
	for i := range list {
		if s := &list[i]; s.Known {
			one := p.strip(w, s.Technique.Name, &s.Median)
			one.Lower, one.Upper = s.Lower.Value.Number, s.Upper.Value.Number
			strips = append(strips, one)
		}
	}
	slices.SortStableFunc(strips, func(a, b draw.Strip) int { return cmp.Compare(b.Long, a.Long) })
	w.raw("<h2>").say(heading).raw("</h2>\n<div class=\"beside\">")
	w.strips(strips, caption+": median, and from quartile to quartile")
	w.raw("<div>")
	t := w.table(caption, words("technique"), fig("observations"), fig("median"), fig("lower quartile"), fig("upper quartile"), fig("least to most, "+list[0].Unit.Symbol()))
	for i := range list {
		s := &list[i]
		t.rowLink(p.href(s.Technique.Address), s.Technique.Name)
		t.html(func(w *paper) { w.int(s.Count) }).fig(&s.Median)
		if s.Known {
			t.fig(&s.Lower).fig(&s.Upper).html(func(w *paper) { w.measured(p.rangeWords(s)) })
		}
	}
	t.end()
	return w.raw("</div></div>\n").done()
}

// cutOfAll draws and tables what was cut for each build.
func (p *printer) cutOfAll(r *notebook.RatesPage) template.HTML {
	if len(r.Builds) == 0 {
		return ""
	}
	w := p.paper("")
	var cut, share []draw.Strip
	for i := range r.Builds {
		b := &r.Builds[i]
		cut = append(cut, p.strip(w, b.Name, &b.Cut))
		if b.Share.Value.Known() {
			share = append(share, p.strip(w, b.Name, &b.Share))
		}
	}
	w.raw("<h2>Cloth</h2>\n<div class=\"beside\">")
	w.strips(cut, "Cloth cut for each build, all its cloths together")
	w.strips(share, "How much of it is allowance")
	w.raw("</div>\n")
	t := w.table("Cloth cut and its allowances, by build", words("build"), words("garment"), fig("area cut"), fig("of it allowance"))
	for i := range r.Builds {
		b := &r.Builds[i]
		t.rowLink(p.href(b.Address), b.Name).words(b.Garment).fig(&b.Cut).fig(&b.Share)
	}
	t.end()
	if r.More > 0 {
		w.raw("<p>and ").int(r.More).raw(" earlier ones, in ").link(p.href(notebook.BuildsAddress), "the list of builds").raw(".</p>")
	}
	return w.done()
}

// strip is a figure to be drawn beside others; its value in one unit only,
// since a strip has one length.
func (p *printer) strip(w *paper, name string, f *figure.Figure) draw.Strip {
	value, _, _ := strings.Cut(w.value(f.Value), " (")
	return draw.Strip{Name: name, Value: value, Long: f.Value.Number}
}

// strips adds a drawing of values side by side.
func (w *paper) strips(list []draw.Strip, title string) {
	if d := draw.Strips(list, title); d != nil {
		w.raw(`<figure class="tissue" tabindex="0">`).drawn(d).raw("<figcaption>").say(title).raw("</figcaption></figure>")
	}
}

// rangeWords is from the least to the most of what was observed.
func (p *printer) rangeWords(s *notebook.Spread) string {
	return p.style.Number(s.Least, 1) + " to " + p.style.Number(s.Most, 1)
}

// rates tables the spreads of one technique.
func (p *printer) rates(caption string, list []notebook.Spread) template.HTML {
	if len(list) == 0 {
		return ""
	}
	w := p.paper("")
	from, to := 0.0, 0.0
	for _, s := range list {
		to = max(to, s.Most)
	}
	t := w.table(caption, words("by"), fig("observations"), fig("median"), fig("lower quartile"),
		fig("upper quartile"), words("spread"))
	for _, s := range list {
		t.row(unitWords(s.Unit))
		t.html(func(w *paper) { w.int(s.Count) }).fig(&s.Median)
		if !s.Known {
			continue
		}
		t.fig(&s.Lower).fig(&s.Upper)
		t.html(func(w *paper) {
			title := "from " + p.rangeWords(&s) + " " + s.Unit.Symbol()
			w.drawn(draw.Spread(s.Least, s.Lower.Value.Number, s.Median.Value.Number, s.Upper.Value.Number, s.Most, from, to, title))
		})
	}
	t.end()
	return w.done()
}

func unitWords(u measure.Unit) string {
	switch u {
	case measure.UnitMinPerM:
		return "the metre of seam"
	case measure.UnitMinPerPiece:
		return "the piece"
	}
	return u.Symbol()
}
