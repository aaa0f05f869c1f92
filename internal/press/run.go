package press

import (
	"context"
	"fmt"
	"sync"
	"sync/atomic"

	"hembook/internal/draw"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/record"
)

// A run is one pressing.
type run struct {
	room     *record.Room
	tailor   Tailor
	theme    *Theme
	book     *notebook.Book
	style    measure.Style
	out      *target
	pictures *gallery
	workers  int
	found    []found // of each build, for the search

	frontCard notebook.Address // the picture of the notebook: that of the latest build

	progress func(done, all int)
	done     atomic.Int64

	mu     sync.Mutex
	faults record.Faults
	failed atomic.Bool // a record has errors: go on checking, write no more
	pages  atomic.Int64
}

// all presses every page: the builds first, one at a time in each worker, then
// the pages that gather from them.
func (r *run) all(ctx context.Context) error {
	if err := r.theme.writeFiles(r.out); err != nil {
		return err
	}
	summaries := make([]*notebook.Summary, len(r.room.Builds))
	r.found = make([]found, len(r.room.Builds))
	err := r.each(ctx, len(summaries), func(p *printer, i int) error {
		s, err := r.build(p, i)
		summaries[i] = s
		return err
	})
	if err != nil {
		return err
	}
	return r.gathered(ctx, r.book.Gather(summaries))
}

// each runs do for every number below n, many at once, and stops at the first
// error.
func (r *run) each(ctx context.Context, n int, do func(p *printer, i int) error) error {
	var (
		next  atomic.Int64
		wait  sync.WaitGroup
		once  sync.Once
		first error
	)
	stop := func(err error) { once.Do(func() { first = err; next.Store(int64(n)) }) }
	for range min(r.workers, n) {
		wait.Go(func() {
			p := &printer{run: r}
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				if err := ctx.Err(); err != nil {
					stop(fmt.Errorf("stopped: %w", err))
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

// build reads, derives and prints one build and returns what is kept of it.
func (r *run) build(p *printer, i int) (*notebook.Summary, error) {
	b, faults := r.room.ReadBuild(r.room.Builds[i])
	if record.HasErrors(faults) { // its figures would only repeat the trouble
		r.fault(faults...)
		g := &notebook.Summary{}
		return g, nil
	}
	c := r.tailor.Cut(b)
	g := c.Garment
	r.fault(append(faults, g.Faults...)...)
	page := r.book.Build(i, c, r.timing(g))
	for k, l := range c.Lays {
		if l.Plan != nil {
			page.Lays[k].Drawing = draw.Lay(nil, l, draw.LayStyle{Measure: r.style})
		}
	}
	if err := p.printBuild(page); err != nil {
		return nil, err
	}
	r.found[i] = found{page.Words(), page.SeamTitles(), p.buildsCard}
	if r.progress != nil {
		r.progress(int(r.done.Add(1)), len(r.room.Builds))
	}
	return r.book.Summarise(i, g), nil
}

// timing looks at the order of work from the record's own last moment, so that
// a page says the same whenever it is pressed.
func (r *run) timing(g *garment.Garment) *garment.Timing {
	now, known := g.LastMoment()
	if !known || len(g.Steps) == 0 {
		return nil
	}
	return r.tailor.Timing(g, garment.Standing{Now: now})
}

// gathered prints the pages that gather from the builds.
func (r *run) gathered(ctx context.Context, shelf *notebook.Shelf) error {
	techniques, cloths := shelf.Techniques(), shelf.Cloths()
	r.frontCard = r.latestCard(shelf)
	var jobs []func(p *printer) error
	add := func(job func(p *printer) error) { jobs = append(jobs, job) }
	for _, t := range techniques {
		add(func(p *printer) error { return p.printTechnique(t) })
	}
	for _, c := range cloths {
		add(func(p *printer) error { return p.printCloth(c) })
	}
	for _, l := range shelf.BuildLists() {
		add(func(p *printer) error { return p.printBuildList(l) })
	}
	for _, t := range r.book.TextPages() {
		add(func(p *printer) error { return p.printText(t) })
	}
	add(func(p *printer) error { return p.printText(r.book.Missing()) })
	add(func(p *printer) error { return p.printTechniqueList(r.book.TechniqueList(techniques)) })
	add(func(p *printer) error { return p.printClothList(r.book.ClothList(cloths)) })
	add(func(p *printer) error { return p.printRates(r.book.Rates(techniques)) })
	add(func(p *printer) error { return p.printGlossary(r.book.Glossary()) })
	add(func(p *printer) error { return p.printFront(shelf.Front(techniques, cloths)) })
	if !r.failed.Load() {
		add(func(p *printer) error { return r.search(p, shelf, techniques, cloths) })
	}
	if err := r.each(ctx, len(jobs), func(p *printer, i int) error { return jobs[i](p) }); err != nil {
		return err
	}
	return r.webFiles(shelf)
}

// fault notes what is wrong.
func (r *run) fault(list ...record.Fault) {
	if len(list) == 0 {
		return
	}
	r.mu.Lock()
	r.faults.Add(list...)
	r.mu.Unlock()
	if record.HasErrors(list) {
		r.failed.Store(true)
	}
}

func (r *run) report() Report {
	rep := r.out.report()
	rep.Pages = int(r.pages.Load())
	rep.Pictures = r.pictures.count()
	return rep
}
