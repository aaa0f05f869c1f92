package press

import (
	"context"
	"reflect"
	"slices"
	"sync"
	"sync/atomic"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/draw"
	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A pressing is one making of a notebook.
type pressing struct {
	room     *record.Room
	tailor   Tailor
	theme    *Theme
	book     *notebook.Book
	style    measure.Style
	out      *target
	pictures *gallery
	workers  int
	builds   []*imprint // in the order of the room
	before   *memo      // of the press before this one; never nil
	now      memo       // of this one
	other    others     // in which the two are not the same
	rates    *order.Rates
	held     atomic.Int64

	remembered bool // a later press will begin from what this one leaves

	frontCard notebook.Address // the picture of the notebook: that of the latest build

	progress func(Progress)
	done     atomic.Int64
	begun    atomic.Pointer[string] // the name of the build that was begun last

	mu     sync.Mutex
	faults fault.Faults
	failed atomic.Bool // a record has errors: go on checking, write no more
}

// all presses every page: the builds first, then the pages that gather from
// them. Builds whose page needs the maker's rates wait until all are derived.
func (r *pressing) all(ctx context.Context) error {
	defer r.pictures.close()
	if err := r.theme.writeFiles(r.out); err != nil {
		return err
	}
	n := len(r.room.Builds)
	r.builds = make([]*imprint, n)
	if err := r.each(ctx, n, r.derive); err != nil {
		return err
	}
	r.rates = &order.Rates{Style: r.room.Workroom.Style()}
	for _, l := range r.builds {
		r.rates.AddObserved(l.observed...)
	}
	r.now.rates = r.rates
	if err := r.each(ctx, n, r.finish); err != nil {
		return err
	}
	r.now.builds = r.builds
	if r.sameGathered() {
		return r.keepGathered()
	}
	lines := make([]*notebook.BuildLine, n)
	for i, l := range r.builds {
		lines[i] = l.line
	}
	return r.gathered(ctx, r.book.Gather(lines))
}

// each runs do for every number below n, many at once, and stops at the first
// error.
func (r *pressing) each(ctx context.Context, n int, do func(p *printer, i int) error) error {
	var (
		next  atomic.Int64
		wait  sync.WaitGroup
		once  sync.Once
		first error
	)
	stop := func(err error) { once.Do(func() { first = err; next.Store(int64(n)) }) }
	for range min(r.workers, n) {
		wait.Go(func() {
			p := newPrinter(r)
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				if err := ctx.Err(); err != nil {
					stop(fault.Wrapping(err, say.Of("press.stopped", err)))
					return
				}
				if err := do(p, i); err != nil {
					stop(err)
					return
				}
			}
		})
	}
	wait.Wait()
	return first
}

// derive reads and derives one build and prints it where nothing else is
// needed for that. A build that is as it was before is kept.
func (r *pressing) derive(p *printer, i int) error {
	stamps := r.stamps(i)
	if was := r.before.imprints[r.book.BuildAddress(i)]; was.freshBuild(r, i, stamps) {
		r.builds[i] = was
		r.fault(was.faults...)
		return nil
	}
	l := newImprint()
	l.stamps = stamps
	r.builds[i] = l
	return r.cut(p, i)
}

// stamps are those of a build's folder; nil where no later press will ask.
func (r *pressing) stamps(i int) *record.Stamps {
	if !r.remembered {
		return nil
	}
	if r.before.room == r.room { // what the room knows is older than the press before
		return record.StampsOf(r.room.BuildFolder(r.room.Builds[i].Slug))
	}
	return r.room.BuildStamps(i)
}

// cut reads a build, derives its figures, and prints it unless it has to wait
// for the rates.
func (r *pressing) cut(p *printer, i int) error {
	l := r.builds[i]
	r.begun.Store(&r.room.Builds[i].Name)
	r.tell()
	b, faults := r.room.ReadBuild(r.room.Builds[i])
	p.imprint = l
	l.secrets = b.Secrets
	p.fault(faults...)
	if fault.HasErrors(faults) { // its figures would only repeat the trouble
		l.line, l.printed = &notebook.BuildLine{}, true
		return nil
	}
	c := r.tailor.Cut(b)
	g := c.Garment
	p.fault(g.Faults...)
	p.fault(c.Short()...)
	l.rest(g, c)
	if !r.remembered { // nobody will ask whether it is as it was
		l.cloths, l.techniques, l.types, l.steps = nil, nil, nil, nil
	}
	l.link, l.name = r.book.BuildLink(i), r.room.Builds[i].Name
	l.observed = order.Observe(g.Order)
	l.line = r.book.BuildLine(i, g)
	if len(l.asks) > 0 && r.rates == nil {
		r.hold(l, c)
		return nil
	}
	return r.print(p, i, c)
}

// mostHeld is how many builds are kept in memory until the rates are known;
// any more are derived once more then.
const mostHeld = 256

func (r *pressing) hold(l *imprint, c *cutting.Cutting) {
	if r.held.Add(1) <= mostHeld {
		l.held = c
	}
}

// finish sees to it that a build is printed, now that the rates are known.
func (r *pressing) finish(p *printer, i int) error {
	l := r.builds[i]
	switch {
	case !l.printed && l.held != nil:
		c := l.held
		l.held = nil
		if err := r.print(p, i, c); err != nil {
			return err
		}
	case !l.printed || len(l.asks) > 0 && l.kept(r) && !l.sameRates(r):
		fresh := newImprint()
		fresh.stamps = l.stamps
		r.builds[i] = fresh
		if err := r.cut(p, i); err != nil {
			return err
		}
	case l.kept(r):
		if err := r.keep(l); err != nil {
			return err
		}
		r.step()
	}
	r.now.put(r.book.BuildAddress(i), r.builds[i], &r.mu)
	return nil
}

// step tells of one more build that is done.
func (r *pressing) step() {
	r.done.Add(1)
	r.tell()
}

// tell says how far the press is.
func (r *pressing) tell() {
	if r.progress == nil {
		return
	}
	p := Progress{Done: int(r.done.Load()), All: len(r.builds), Pictures: int(r.pictures.made.Load())}
	if name := r.begun.Load(); name != nil {
		p.Name = *name
	}
	r.progress(p)
}

// print lays out and prints the pages of a build.
func (r *pressing) print(p *printer, i int, c *cutting.Cutting) error {
	l := r.builds[i]
	p.imprint = l
	l.printed = true
	defer r.step()
	page := r.book.Build(i, c, r.timing(c.Garment))
	page.Content, page.Care = r.tailor.Content(c.Garment), r.tailor.Care(c.Garment)
	for k, lay := range c.Lays {
		if lay.Plan != nil {
			page.Lays[k].Drawing = draw.Lay(lay, draw.LayStyle{Wide: layWide, High: layRoom(lay), Measure: r.style, Screen: true}).SVG(nil)
			page.Lays[k].Narrow = draw.LayNarrow(lay, r.style).SVG(nil)
			waysDrawn(page.Lays[k].Ways, lay)
		}
	}
	if err := p.printBuild(page); err != nil {
		return err
	}
	l.found = p.foundInBuild(page)
	return nil
}

// waysDrawn draws the first ways to get by with too little cloth that lay it otherwise,
// small and to one scale.
func waysDrawn(ways []notebook.LayWay, l *cutting.Lay) {
	const most, wide = 3, 100
	scale := max(l.Plan.Length, l.Plan.Width) / wide
	drawn := 0
	for i := range ways {
		if laid := l.Ways[i].Laid; laid != nil && drawn < most {
			drawn++
			d := draw.LayPlain(laid, scale, func(piece string) string { return piece })
			d.Title = ways[i].What
			ways[i].Drawing = d.SVG(nil)
		}
	}
}

// timing looks at the order of work from the record's own last moment, so that
// a page says the same whenever it is pressed.
func (r *pressing) timing(g *derive.Garment) *order.Timing {
	now, known := g.LastMoment()
	if !known || len(g.Steps) == 0 {
		return nil
	}
	return r.tailor.Timing(g, order.Standing{Now: now, Rates: r.rates})
}

// gathered prints the pages that gather from the builds.
func (r *pressing) gathered(ctx context.Context, shelf *notebook.Gathered) error {
	techniques := asBefore(r, shelf.Techniques(), func(t *notebook.TechniquePage) notebook.Address { return t.Address })
	cloths := asBefore(r, shelf.Cloths(), func(c *notebook.ClothPage) notebook.Address { return c.Address })
	r.frontCard = r.latestCard(shelf)
	r.now.card = r.frontCard
	var jobs []func(p *printer) error
	for _, t := range techniques {
		jobs = append(jobs, gather(t.Head, t, (*printer).printTechnique))
	}
	for _, c := range cloths {
		jobs = append(jobs, gather(c.Head, c, (*printer).printCloth))
	}
	for _, l := range shelf.BuildLists() {
		jobs = append(jobs, gather(l.Head, l, (*printer).printBuildList))
	}
	for _, t := range append(r.book.TextPages(), r.book.Missing()) {
		jobs = append(jobs, gather(t.Head, t, (*printer).printText))
	}
	ways, cloth, rates := r.book.TechniqueList(techniques), r.book.ClothList(cloths), shelf.Rates(techniques)
	words, front := r.book.Glossary(), shelf.Front(techniques, cloths)
	jobs = append(jobs,
		gather(ways.Head, ways, (*printer).printTechniqueList), gather(cloth.Head, cloth, (*printer).printClothList),
		gather(rates.Head, rates, (*printer).printRates), gather(words.Head, words, (*printer).printGlossary),
		gather(front.Head, front, (*printer).printFront))
	if !r.failed.Load() {
		jobs = slices.Insert(jobs, 0, func(p *printer) error { return r.search(p, shelf, techniques, cloths) })
	}
	if err := r.each(ctx, len(jobs), func(p *printer, i int) error { return jobs[i](p) }); err != nil {
		return err
	}
	return r.webFiles(shelf)
}

// asBefore are pages of which those that are as they were stand as those of before:
// several others are made from each of them, and that they are alike is told at once then.
func asBefore[T any](r *pressing, pages []*T, at func(*T) notebook.Address) []*T {
	for i, p := range pages {
		if l := r.before.imprints[at(p)]; l != nil {
			if had, ok := l.page.(*T); ok && reflect.DeepEqual(had, p) {
				pages[i] = had
			}
		}
	}
	return pages
}

// gather is the printing of a page that is made from its data alone.
func gather[T any](h notebook.Head, page T, print func(*printer, T) error) func(*printer) error {
	return func(p *printer) error {
		return p.unless(h, page, func() error { return print(p, page) })
	}
}

// fault notes what is wrong.
func (r *pressing) fault(list ...fault.Fault) {
	if len(list) == 0 {
		return
	}
	r.mu.Lock()
	r.faults.Add(list...)
	r.mu.Unlock()
	if fault.HasErrors(list) {
		r.failed.Store(true)
	}
}

func (r *pressing) report() Report {
	rep := r.out.report()
	for a, l := range r.now.imprints {
		rep.Pages += l.pages
		if r.before.imprints[a] != l {
			rep.Made += l.pages
		}
	}
	rep.Pictures = r.pictures.count()
	return rep
}
