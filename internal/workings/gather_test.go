package workings

import (
	"context"
	"reflect"
	"testing"
	"time"

	"hembook/internal/derive"
	"hembook/internal/figure"
	"hembook/internal/order"

	"hembook/internal/cutting"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/record"
)

// A collector walks through what the program knows of a build and keeps every
// figure it meets, whether a list names it or not.
type collector struct {
	style measure.Style
	list  []entry
	seen  map[any]bool
	byID  map[string][]int
}

func newCollector(style measure.Style) *collector {
	return &collector{style: style, seen: map[any]bool{}, byID: map[string][]int{}}
}

// asked is the moment that the order of work is looked at from.
var asked = time.Date(2026, 9, 1, 9, 0, 0, 0, time.UTC)

// places to try for a lay: enough for a plan, not for a good one.
const layWork = 200

// gather fills a room with the figures of its builds, their lays, their order
// of work and the maker's rates.
func (r *room) gather(t *testing.T) {
	opened, _, err := record.Open(r.dir)
	if err != nil {
		t.Fatal(err)
	}
	defer opened.Close()
	style := opened.Workroom.Style()
	tailor, faults := derive.NewTailor(opened)
	r.noErrors(t, faults)
	cutter := cutting.NewCutter(context.Background(), opened, tailor, cutting.Options{Tries: layWork})
	rates := &order.Rates{Style: style}
	var cuts []*cutting.Cutting
	for _, bf := range opened.Builds {
		b, faults := opened.ReadBuild(bf)
		r.noErrors(t, faults)
		cut := cutter.Cut(b)
		r.noErrors(t, cut.Garment.Faults)
		rates.Add(cut.Garment.Order)
		cuts = append(cuts, cut)
	}
	for i, bf := range opened.Builds {
		c := newCollector(style)
		g := cuts[i].Garment
		content := tailor.Content(g)
		c.walk(reflect.ValueOf(g.Figures()))
		c.walk(reflect.ValueOf(g.PrivateFigures()))
		c.walk(reflect.ValueOf(g))
		c.walk(reflect.ValueOf(cuts[i].Lays))
		c.walk(reflect.ValueOf(tailor.Timing(g, order.Standing{Now: asked, Rates: rates})))
		c.walk(reflect.ValueOf(content))
		c.walk(reflect.ValueOf(tailor.Worn(g)))
		c.walk(reflect.ValueOf(tailor.Customs(g, content)))
		c.walk(reflect.ValueOf(tailor.Through(g.Garment)))
		if cuts[i].Rounds != nil {
			c.walk(reflect.ValueOf(cuts[i].Rounds.Figures()))
		}
		late, own := tailor.LateFigures(g, order.Standing{Now: asked, Rates: rates})
		var private []figure.Figure
		for _, p := range append(g.PrivateFigures(), own...) {
			private = append(private, p.Open(record.ToTheMaker))
		}
		lineage := figure.NewLineage(cuts[i].Figures(), late, private)
		r.builds = append(r.builds, build{slug: bf.Slug, entries: c.list, byID: c.byID, lineage: lineage})
	}
	c := newCollector(style)
	for _, technique := range rates.Techniques() {
		for _, rate := range rates.Of(technique) {
			c.walk(reflect.ValueOf(rate.Figures()))
		}
	}
	r.builds = append(r.builds, build{slug: "rates", entries: c.list, byID: c.byID, shared: true})
	book := notebook.New(opened)
	var all []*notebook.BuildLine
	for i := range opened.Builds {
		all = append(all, book.BuildLine(i, cuts[i].Garment))
	}
	c = newCollector(style)
	shelf := book.Gather(all)
	c.walk(reflect.ValueOf(shelf))
	c.walk(reflect.ValueOf(shelf.Cloths()))
	for _, p := range shelf.Techniques() { // its rates are among those above
		c.walk(reflect.ValueOf(p.Builds))
		for _, f := range []figure.Figure{p.Metres, p.Spent} {
			if f.Value.Known() {
				c.walk(reflect.ValueOf(f))
			}
		}
	}
	r.builds = append(r.builds, build{slug: "shelf", entries: c.list, byID: c.byID, shared: true})
}

var (
	figureType = reflect.TypeFor[figure.Figure]()
	recordPath = reflect.TypeFor[record.Build]().PkgPath()
)

// walk keeps the figures that a value holds. It does not go into records.
func (c *collector) walk(v reflect.Value) {
	c.walkAs(v, false)
}

func (c *collector) walkAs(v reflect.Value, private bool) {
	if !v.IsValid() {
		return
	}
	switch t := v.Type(); {
	case t == figureType:
		f := v.Interface().(figure.Figure)
		if f.ID != "" && f.ID != "kept" { // what is kept for lists has its working on the build's page
			c.keep(entryOf(&f, private, c.style))
		}
		return
	case t.Kind() == reflect.Struct && t.PkgPath() == recordPath:
		if open := v.MethodByName("Open"); open.IsValid() && v.CanInterface() {
			c.walkAs(open.Call([]reflect.Value{reflect.ValueOf(record.ToTheMaker)})[0], true)
		}
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() || c.seen[v.Pointer()] {
			return
		}
		c.seen[v.Pointer()] = true
		c.walkAs(v.Elem(), private)
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			c.walkAs(v.Index(i), private)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				c.walkAs(v.Field(i), private)
			}
		}
	}
}

// keep adds a figure, once if it was met before just as it is now.
func (c *collector) keep(e entry) {
	for _, i := range c.byID[e.ID] {
		was := c.list[i]
		was.Private = e.Private // a public figure stands among private ones too
		if reflect.DeepEqual(was, e) {
			return
		}
	}
	c.byID[e.ID] = append(c.byID[e.ID], len(c.list))
	c.list = append(c.list, e)
}
