package press

import (
	"context"
	"path/filepath"
	"reflect"
	"slices"
	"sync"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/proof"
	"hembook/internal/prose"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// A Memory is what one press of a workroom leaves behind for the next one to
// the same folder: of every page what it was made from and which files came of
// it. A page is made again where any of that is not as it was; in doubt it is.
// A press that came to nothing leaves it as it is. It serves one press at a time.
type Memory struct {
	memo     memo
	standing *standing
}

// Close removes what lies beside the pressed folder.
func (m *Memory) Close() { m.forget() }

// Look looks whether each file of the pressed folder is still as the last press left
// it. It is for the time between two presses, and leaves off where its context ends
// before it has seen all. A press that comes after a look at all of them looks at the
// folders alone, whose times tell of what came, went or was put in another's place;
// what somebody wrote into a file in its place since is noticed by the next look.
func (m *Memory) Look(ctx context.Context) {
	if p := m.standing; p != nil {
		if whole := p.whole(ctx); ctx.Err() == nil {
			p.looked = whole
		}
	}
}

func (m *Memory) forget() {
	if m != nil {
		m.standing.forget()
		m.memo, m.standing = memo{}, nil
	}
}

// placed is the notebook that was put in place. It is safe to ask a nil Memory.
func (m *Memory) placed() *standing {
	if m == nil {
		return nil
	}
	return m.standing
}

// learn notes a press that was put in place.
func (m *Memory) learn(r *pressing) {
	if m == nil {
		return
	}
	was := m.standing
	if m.standing = r.out.remember(); m.standing != was {
		was.forget()
	}
	if m.memo = r.now; m.standing == nil {
		m.memo = memo{}
	}
}

// A memo is what is known of one press.
type memo struct {
	book     *notebook.Book
	room     *record.Room
	theme    string
	lays     record.Stamp // of the folder of kept plans
	rates    *order.Rates
	imprints map[notebook.Address]*imprint // those that were printed
	pictures map[string]*hanging
	builds   []*imprint // those of the builds, in the order of the room
	index    *index
	web      []notebook.Address // files for programs that read the web
	card     notebook.Address   // the picture that stands for pages that have none
	proved   *proof.Secrets     // what its files were searched for
}

// put keeps an imprint.
func (m *memo) put(a notebook.Address, l *imprint, mu *sync.Mutex) {
	mu.Lock()
	defer mu.Unlock()
	m.imprints[a] = l
}

// begin looks at what holds for all pages. Where that is not as it was, every
// page is made again.
func (r *pressing) begin(m *Memory) {
	r.before = &memo{}
	r.now = memo{
		book: r.book, room: r.room, theme: string(r.theme.sum.Sum(nil)), imprints: map[notebook.Address]*imprint{},
		lays: record.StampOf(filepath.Join(r.room.Dir, ".hembook", "lays")),
	}
	if m != nil && r.out.standing != nil {
		r.before = &m.memo
		if !r.sameForAll() {
			r.before = &memo{pictures: m.memo.pictures, index: m.memo.index}
		}
	}
	r.other = differences(r.before, &r.now)
	r.pictures = newGallery(r.room, r.out, r.before.pictures, r.workers, r.tell)
	r.now.pictures = r.pictures.hung
	r.style = r.book.Style
}

func (r *pressing) sameForAll() bool {
	was := r.before
	return was.book != nil && was.theme == r.now.theme && reflect.DeepEqual(was.room.Workroom, r.room.Workroom) &&
		reflect.DeepEqual(was.book.Foot(), r.book.Foot())
}

// A imprint is what is known of one page, or of the pages of one build.
type imprint struct {
	// what a build was made from, the files of its folder first
	stamps     *record.Stamps
	link       notebook.Link
	name       string
	cloths     []string
	techniques []string
	types      []string // of its seams and finishes, each of which may have a technique
	steps      []string // the names of its steps, each of which may be called after one
	wearer     record.Private[record.Text]
	lays       bool     // it has lays, of which the plans may be kept
	asks       []string // the techniques that it asks the rates of
	// what any other page was made from
	page any
	// what either was made from besides
	links    map[prose.Link]bool // without places
	pictures map[string]*hanging

	// what came of it
	files    []notebook.Address // its own
	cards    []notebook.Address // pictures that others may have too
	pages    int
	faults   []fault.Fault
	line     *notebook.BuildLine
	observed []order.Observation
	found    found
	secrets  []record.Private[record.Secret]

	printed bool
	held    *cutting.Cutting // until it is printed
	err     error
}

func newImprint() *imprint {
	return &imprint{links: map[prose.Link]bool{}, pictures: map[string]*hanging{}}
}

// rest notes what a build rests on beside its own files.
func (l *imprint) rest(g *derive.Garment, c *cutting.Cutting) {
	b := g.Build
	for i := range b.Cloth {
		l.cloths = append(l.cloths, b.Cloth[i].V.Use.V)
	}
	for i := range b.Seams {
		l.techniques, l.types = append(l.techniques, b.Seams[i].Technique.V), append(l.types, b.Seams[i].Type.V)
	}
	for i := range b.Finishes {
		l.techniques, l.types = append(l.techniques, b.Finishes[i].Technique.V), append(l.types, b.Finishes[i].Type.V)
	}
	for i := range b.Work {
		s := &b.Work[i]
		l.techniques, l.steps = append(l.techniques, s.Technique.V), append(l.steps, s.Do.V)
		if !s.Takes.Given() && s.Technique.Given() {
			l.asks = append(l.asks, s.Technique.V)
		}
	}
	l.steps = append(l.steps, trade.Topstitch, trade.EdgeStitch)
	slices.Sort(l.types)
	l.types = slices.Compact(l.types)
	l.wearer = b.Wearer
	l.lays = len(c.Lays) > 0
}

// kept reports whether the imprint is one of the press before.
func (l *imprint) kept(r *pressing) bool { return r.before.imprints[l.link.Address] == l }

// freshBuild reports whether all that a build was made from, the rates apart,
// is as it was. It is safe to ask a nil imprint.
func (l *imprint) freshBuild(r *pressing, i int, stamps *record.Stamps) bool {
	if l == nil || !l.stamps.Same(stamps) || l.link != r.book.BuildLink(i) || l.name != r.room.Builds[i].Name ||
		l.lays && !r.before.lays.Same(r.now.lays) {
		return false
	}
	for _, slug := range l.cloths {
		if r.other.cloths[slug] {
			return false
		}
	}
	for _, slug := range l.techniques {
		if r.other.techniques[slug] {
			return false
		}
	}
	return record.SameWearer(r.before.room, r.room, l.wearer) && l.sameLinks(r) && l.sameWays(r)
}

// sameWays reports whether what is sewn and done is told on the pages it was told on.
func (l *imprint) sameWays(r *pressing) bool {
	was, now := r.before.room, r.room
	return !r.other.ways ||
		!slices.ContainsFunc(l.types, func(t string) bool { return was.PageMaking(t) != now.PageMaking(t) }) &&
			!slices.ContainsFunc(l.steps, func(s string) bool { return was.PageCalled(s) != now.PageCalled(s) })
}

// sameLinks reports whether the links by name lead where they did.
func (l *imprint) sameLinks(r *pressing) bool {
	if !r.other.names {
		return true
	}
	for to := range l.links {
		a, had := r.before.book.Leads(to)
		b, has := r.now.book.Leads(to)
		if a != b || had != has {
			return false
		}
	}
	return true
}

// sameRates reports whether the rates that a build asks are as they were.
func (l *imprint) sameRates(r *pressing) bool {
	for _, name := range l.asks {
		if !r.before.rates.SameOf(r.rates, name) {
			return false
		}
	}
	return true
}

// samePictures reports whether the pictures of a page are as they were. Those
// of a build are among its stamps.
func (l *imprint) samePictures(r *pressing) bool {
	for path, h := range l.pictures {
		if !h.stamp.Same(r.pictures.stamp(path)) {
			return false
		}
	}
	return true
}
