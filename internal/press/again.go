package press

import (
	"reflect"
	"slices"

	"hembook/internal/notebook"
	"hembook/internal/record"
)

// The others are what of a workroom is not as it was at the press before. It is
// found out once, because a thousand builds ask for the same few cloths and
// techniques.
type others struct {
	cloths     map[string]bool
	techniques map[string]bool // in what builds know of them
	names      bool            // some link by name leads elsewhere
	ways       bool            // another technique belongs to something that is done
	shelf      bool            // some cloth, technique or page, texts included
}

// differences compares two presses.
func differences(was, now *memo) others {
	o := others{cloths: map[string]bool{}, techniques: map[string]bool{}}
	if was.book == nil {
		return o // nothing is kept, so nobody asks
	}
	for _, m := range []*memo{was, now} {
		for _, c := range m.room.Cloths {
			if !sameCloth(was, now, c.Slug) {
				o.cloths[c.Slug] = true
			}
		}
		for _, t := range m.room.Techniques {
			if !sameTechnique(was, now, t.Slug) {
				o.techniques[t.Slug] = true
			}
		}
	}
	o.names, o.ways = !was.book.SameNames(now.book), !record.SameWays(was.room, now.room)
	o.shelf = !reflect.DeepEqual(was.room.Cloths, now.room.Cloths) || !reflect.DeepEqual(was.room.Techniques, now.room.Techniques) ||
		!reflect.DeepEqual(was.room.Pages, now.room.Pages)
	return o
}

func sameCloth(a, b *memo, slug string) bool {
	x, _ := a.room.Cloth(slug)
	y, _ := b.room.Cloth(slug)
	to, _ := a.book.Cloth(slug)
	now, _ := b.book.Cloth(slug)
	return to == now && reflect.DeepEqual(x, y)
}

// sameTechnique compares what builds know of a technique: all but its text.
func sameTechnique(a, b *memo, slug string) bool {
	to, _ := a.book.Technique(slug)
	now, _ := b.book.Technique(slug)
	x, had := a.room.Technique(slug)
	y, has := b.room.Technique(slug)
	if to != now || had != has {
		return false
	}
	if !had {
		return true
	}
	p, q := *x, *y
	p.Body, q.Body = nil, nil
	return reflect.DeepEqual(p, q)
}

// sameGathered reports whether all that pages gather from is as it was: the
// shelf, the names, and what every build tells the others.
func (r *pressing) sameGathered() bool {
	was := r.before
	if was.book == nil || was.index == nil || r.other.shelf || r.other.names || len(was.builds) != len(r.builds) {
		return false
	}
	for i, l := range r.builds {
		if had := was.builds[i]; l != had && !l.tellsLike(had) {
			return false
		}
	}
	for _, l := range was.imprints {
		if l.page != nil && !l.samePictures(r) {
			return false
		}
	}
	return true
}

// tellsLike reports whether a build that was printed again has the same pages
// and tells other pages the same.
func (l *imprint) tellsLike(had *imprint) bool {
	return reflect.DeepEqual(l.line, had.line) && reflect.DeepEqual(l.found, had.found) && slices.Equal(l.files, had.files)
}

// keepGathered takes over every page that gathers from the builds, with the
// index of the search and the files for programs that read the web.
func (r *pressing) keepGathered() error {
	r.now.index, r.now.web, r.now.card = r.before.index, r.before.web, r.before.card
	for a, l := range r.before.imprints {
		if l.page == nil {
			continue
		}
		r.fault(l.faults...)
		r.now.put(a, l, &r.mu)
		if err := r.keep(l); err != nil {
			return err
		}
	}
	return r.carryAll(r.now.index.files, r.now.web)
}

func (r *pressing) carryAll(lists ...[]notebook.Address) error {
	for _, list := range lists {
		for _, a := range list {
			if err := r.out.carry(a); err != nil {
				return err
			}
		}
	}
	return nil
}

// keep takes over all that came of an imprint in the press before. Its faults are
// noted already.
func (r *pressing) keep(l *imprint) error {
	if err := r.carryAll(l.files); err != nil {
		return err
	}
	for _, a := range l.cards {
		if err := r.pictures.carry([]shot{{address: a}}); err != nil {
			return err
		}
	}
	for path, h := range l.pictures {
		if err := r.pictures.carry(h.set); err != nil {
			return err
		}
		r.pictures.keep(path, h)
	}
	return nil
}

// unless prints a page that is made from its data alone, unless these and all
// that they lead to are as they were before.
func (p *printer) unless(h notebook.Head, page any, print func() error) error {
	r := p.pressing
	was := r.before.imprints[h.Address]
	if was != nil && r.before.card == r.frontCard && reflect.DeepEqual(was.page, page) && was.sameLinks(r) && was.samePictures(r) {
		r.fault(was.faults...)
		r.now.put(h.Address, was, &r.mu)
		return r.keep(was)
	}
	l := newImprint()
	l.page, l.link = page, notebook.Link{Address: h.Address, Name: h.Heading}
	p.imprint = l
	r.now.put(h.Address, l, &r.mu)
	return print()
}
