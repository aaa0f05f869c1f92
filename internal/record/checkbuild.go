package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A buildCheck looks at what one build says of itself and of the workroom.
type buildCheck struct {
	r      *Room
	b      *Build
	faults *fault.Faults
	cloths listed
	sewn   listed
	pieces map[string]*Piece
	edges  map[string][]string // by piece; nil where the piece's form is not known
}

func (r *Room) checkBuild(b *Build, faults *fault.Faults) {
	c := &buildCheck{r: r, b: b, faults: faults, pieces: map[string]*Piece{}, edges: map[string][]string{}}
	c.cloths = listed{"cloth", say.Of("record.in-this-garments-cloth"), b.Cloth.Names()}
	c.sewn = listed{say.Of("record.seam-or-finish"), say.Of("record.in-this-garment"), b.sewn()}
	c.dates()
	c.uses()
	c.usual()
	c.checkPieces()
	c.checkLike()
	c.checkSeams()
	c.checkNotions()
	c.checkMatch()
	c.shared()
	c.smallWords()
	c.checkWork()
	c.checkHang()
	c.checkLater()
	c.checkNouns()
	c.checkFittings()
	c.away()
	c.checkLay()
	for _, p := range b.allPhotos() {
		r.checkPhoto(b.Folder, p, faults)
	}
}

// allPhotos lists every picture the record names.
func (b *Build) allPhotos() []Photo {
	out := append([]Photo{b.Picture.Photo(), b.Packet.Spares}, b.Pictures...)
	for i := range b.Fittings {
		out = append(out, b.Fittings[i].Photo)
	}
	for i := range b.Journal {
		out = append(out, b.Journal[i].Photo)
	}
	return out
}

func (c *buildCheck) dates() {
	b := c.b
	for _, pair := range [][2]Date{{b.Begun, b.Due}, {b.Begun, b.Sent}} {
		if pair[0].Given() && pair[1].Given() && pair[1].V.before(pair[0].V) {
			c.faults.Wrong(pair[1].At, say.Of("record.is-the-year-right"), say.Of("record.comes-before-the-garment-was-begun-on", pair[1].V, pair[0].V))
		}
	}
	for i := range b.Fittings {
		if day := b.Fittings[i].On; day.Given() && b.Begun.Given() && day.V.Year < b.Begun.V.Year && b.Begun.V.Year-day.V.Year <= 1 && day.V.Month >= b.Begun.V.Month {
			now := day.V
			now.Year = b.Begun.V.Year
			c.faults.LookAgain(day.At, say.Of("record.did-you-mean", now.String()), say.Of("record.comes-before-the-garment-was-begun-on", day.V, b.Begun.V)).Instead(day.V.String(), now.String())
		}
	}
	if w := b.Wearer.Open(ToCheck); w.Given() {
		if _, ok := c.r.Wearers[w.V]; !ok {
			c.faults.Wrong(w.At, say.Of("record.correct-the-name-or-write-a-file"), say.Of("record.there-is-no-such-wearer"))
		}
	}
}

// usual checks what the build says is usual.
func (c *buildCheck) usual() {
	c.threadAndStrip(c.b.Usual.Thread, c.b.Usual.Seam.Strip)
	c.threadAndStrip(Text{}, c.b.Usual.Hem.Strip)
	for _, u := range []*UsualSewing{&c.b.Usual.Seam, &c.b.Usual.Hem} {
		c.beside(&u.Topstitch, &u.EdgeStitch)
	}
}

func (c *buildCheck) uses() {
	slugs := make([]string, len(c.r.Cloths))
	for i, cl := range c.r.Cloths {
		slugs[i] = cl.Slug
	}
	for i := range c.b.Cloth {
		use := &c.b.Cloth[i]
		if known(use.V.Use, listed{"cloth", say.Of("record.in-content-cloth"), slugs}, c.faults) {
			c.noted(use.Name, use.V.Use.V)
		}
	}
}

func (r *Room) techniqueList() listed {
	slugs := make([]string, len(r.Techniques))
	for i, t := range r.Techniques {
		slugs[i] = t.Slug
	}
	return listed{"technique", say.Of("record.in-content-techniques"), slugs}
}

// noted asks what a part took of its cloth, where the build is past cutting, the
// cloth's ledger is kept and does not say it.
func (c *buildCheck) noted(part Text, slug string) {
	cloth, ok := c.r.Cloth(slug)
	if !ok || len(cloth.Came) == 0 || !c.b.HasCut(cloth, part.V) {
		return
	}
	what := c.b.Slug + " " + part.V
	if !slices.ContainsFunc(cloth.Cut, func(k CutOff) bool { return k.For.V == what }) {
		c.faults.LookAgain(part.At, say.Of("record.hembook-lay-cloth-keep-remnants-or-add", c.b.Slug, part.V, what),
			say.Of("record.does-not-say-how-much-of-it", cloth.At.File(), part.V))
	}
}

// technique checks a reference; the list is only made where it leads nowhere.
func (c *buildCheck) technique(t Text) {
	if _, ok := c.r.techniques[t.V]; !ok {
		known(t, c.r.techniqueList(), c.faults)
	}
}

func (c *buildCheck) checkNotions() {
	c.placesDrawn()
	c.linesLaid()
	for i := range c.b.Notions {
		n := &c.b.Notions[i]
		c.holesOn(n)
		if n.Along.Given() && !c.alongAll(n) {
			c.edgeRef(n.Along.V)
		}
		c.kindOf(n)
		c.spread(n)
		for _, in := range n.In {
			if !c.ofLost(in.V) {
				known(in, c.sewn, c.faults)
			}
		}
	}
	for i := range c.b.Bias {
		s := &c.b.Bias[i]
		if s.From.Given() {
			known(s.From, c.cloths, c.faults)
		}
		if s.At.Given() && s.Cut.Given() == s.Finished.Given() {
			c.faults.Wrong(s.At, say.Of("record.write-finished-10-mm-with-binding"), say.Of("record.a-bias-strip-has-a-finished-or"))
		}
	}
}

// noKind is what: of a notion that is of none of the trade's kinds.
const noKind = "other"

// kindOf tells of a notion of which neither its name nor its what: says what it is:
// whether it closes, hangs or may come off rests on that.
func (c *buildCheck) kindOf(n *Notion) {
	said := n.What
	if !said.Given() {
		said = n.Name
	}
	_, is := trade.NotionKind(said.V)
	if is || !said.Given() || n.What.V == noKind || !n.What.Given() && (n.Kind.Given() || slices.Contains(c.sewn.names, n.Name.V)) {
		return // or its name is told to be another's
	}
	near := meant.Nearest(said.V, trade.NotionKinds())
	if said := strings.Fields(said.V); near == "" && len(said) > 1 {
		near = meant.Nearest(said[len(said)-1], trade.NotionKinds())
	}
	if n.What.Given() {
		c.faults.LookAgain(n.What.At, meant.Or(n.What.V, trade.NotionKinds(), say.Of("record.as-what-button-or-what-other-where")), say.Of("record.is-no-known-kind", say.Quoted(fault.Shorten(n.What.V)))).Instead(n.What.V, near)
		return
	}
	hint := say.Of("record.as-what-button-or-what-other-where")
	if near != "" {
		hint = say.Of("record.as-what-or-what-other-where-it", near)
	}
	c.faults.LookAgain(n.Name.At, hint, say.Of("record.is-no-known-kind-say-what", say.Quoted(fault.Shorten(n.Name.V))))
}

// spread looks at how a notion is set out along its edge.
func (c *buildCheck) spread(n *Notion) {
	for _, said := range []struct {
		word  string
		where Where
	}{{"at", n.Place}, {"first", n.First}, {"last", n.Last}, {"every", Where{At: n.Every.At}}} {
		switch p := c.pieceMeant(n.Along.V.Piece); {
		case !said.where.Given():
		case !n.Along.Given() && !n.unread:
			c.faults.Wrong(said.where.At, say.Of("record.add-along-and-the-edge-as-along"), say.Of("record.of-says-where-on-an-edge-and", said.word, say.Quoted(fault.Shorten(n.Name.V))))
		case p != nil:
			c.where(n.Along.V.Edge, said.where, p)
		}
	}
	if n.Place.Given() && (n.First.Given() || n.Last.Given() || n.Every.Given()) {
		c.faults.Wrong(n.Place.At, say.Of("record.keep-at-or-first-last-and-every"), say.Of("record.is-at-one-place-and-set-out", say.Quoted(fault.Shorten(n.Name.V))))
	}
}

func (c *buildCheck) checkLay() {
	for _, l := range c.b.CutOrder {
		known(l.Name, c.cloths, c.faults)
		var laid []Text
		for _, stage := range l.V {
			for _, p := range stage {
				if c.isPiece(p, "") {
					laid = append(laid, p)
				}
			}
		}
		twice(laid, "piece", c.faults)
	}
}
