package garment

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// Machine needles are numbered by the thickness of their blade in hundredths of a
// millimetre (common practice, no source): those of a household machine lie between these
// (from memory). Another numbering, in which 9 to 16 are the usual ones (thread and needle
// chart in a sewing machine's manual, model 415, page 6), begins at 8 (from memory).
const (
	finestNeedle    = 55
	thickestNeedle  = 200
	leastOldNeedles = 8
)

// needlePoints are what the points and uses of machine needles are called (terms of the trade).
var needlePoints = []string{"universal", "stretch", "jersey", "ballpoint", "leather", "jeans", "denim", "sharp", "topstitch", "embroidery", "quilting", "twin", "overlock"}

// cuttingPoints are those of them that part or cut the threads of a knit: knits take a ball
// point (common practice, no source).
var cuttingPoints = []string{"leather", "jeans", "denim", "sharp", "quilting"}

// needleSaid takes a needle apart that is said as a number, with its other number or
// without, and what it is for.
var needleSaid = regexp.MustCompile(`^(\d+)(/\d+)?(?:\s+(\pL+))?$`)

// needles asks about needles that no machine has, whose point is mistyped, or that spoil
// the knit they are to sew.
func (w *doubter) needles() {
	told := map[fault.Pos]bool{}
	for i := range w.g.Rows {
		r := &w.g.Rows[i]
		said, ok := w.needleOf(r)
		if !ok || told[said.At] {
			continue
		}
		told[said.At] = w.needleMistyped(said) || w.needleOnKnit(r, said)
	}
}

// needleMistyped asks about one needle whose number or point is probably a slip.
func (w *doubter) needleMistyped(said record.Text) bool {
	m := needleSaid.FindStringSubmatch(said.V)
	if m == nil {
		return false
	}
	number, _ := strconv.Atoi(m[1])
	now := number
	for now > thickestNeedle && now%10 == 0 {
		now /= 10
	}
	if number < leastOldNeedles && 10*number >= finestNeedle {
		now = 10 * number
	}
	if now != number && now >= finestNeedle && now <= thickestNeedle {
		w.needleMeant(said, strconv.Itoa(now)+said.V[len(m[1]):], say.Of("garment.no-machine-needle-is-a", m[1]))
		return true
	}
	point := strings.ToLower(m[3])
	near := meant.Nearest(point, needlePoints)
	if point == "" || near == "" || isPoint(needlePoints, point) {
		return false
	}
	w.needleMeant(said, strings.TrimSuffix(said.V, m[3])+near, say.Of("garment.no-needle-is-called", say.Quoted(m[3])))
	return true
}

// needleOnKnit asks about a needle whose point cuts the knit that a row sews, and about a
// universal one on a knit with elastane, where it is apt to skip stitches (both common
// practice, no source).
func (w *doubter) needleOnKnit(r *Row, said record.Text) bool {
	m := needleSaid.FindStringSubmatch(said.V)
	if m == nil || m[3] == "" {
		return false
	}
	cuts := isPoint(cuttingPoints, m[3])
	for _, p := range r.Pieces() {
		c := w.clothOf(p)
		if c == nil || c.Structure.V != "knitted" {
			continue
		}
		now := strings.TrimSuffix(said.V, m[3])
		switch {
		case c.Elastic() && (cuts || isPoint([]string{"universal"}, m[3])):
			now += "stretch"
		case cuts:
			now += "jersey"
		default:
			continue
		}
		says := say.Of("garment.needle-skips-stitches-on-an-elastic-knit", said.V, c.Name.V)
		if cuts {
			says = say.Of("garment.needle-cuts-the-threads-of-a-knit", said.V, c.Name.V)
		}
		w.needleMeant(said, now, says)
		return true
	}
	return false
}

// isPoint reports whether a word is one of the names of points, in the singular or plural.
func isPoint(names []string, word string) bool {
	return slices.ContainsFunc(names, func(name string) bool { return words.Stem(name) == words.Stem(strings.ToLower(word)) })
}

func (w *doubter) needleMeant(said record.Text, now, says string) {
	w.faults.LookAgain(said.At, say.Of("garment.did-you-mean-if-not-leave-it", now), says).InsteadAt(said.At, "", now)
}

// needleOf is where the needle of a row is said: by the row itself or its seam or finish,
// by a step that sews it, or by its thread.
func (w *doubter) needleOf(r *Row) (record.Text, bool) {
	if r.Set.Needle == "" {
		return record.Text{}, false
	}
	var all []*record.Setting
	if r.set != nil {
		all = append(all, r.set)
	}
	for _, s := range w.g.Seams {
		if r.Kind == SeamRow && s.Name == r.Of {
			all = append(all, &s.Record.Setting)
		}
	}
	for _, f := range w.g.Finishes {
		if r.Kind == FinishRow && f.Name == r.Of {
			all = append(all, &f.Record.Setting)
		}
	}
	for _, k := range r.steps {
		all = append(all, &w.b.Work[k].Setting)
	}
	for i := range w.b.Thread {
		if w.b.Thread[i].Name.V == r.Thread {
			all = append(all, &w.b.Thread[i].V.Setting)
		}
	}
	k := slices.IndexFunc(all, func(s *record.Setting) bool { return s.Needle.V == r.Set.Needle && s.Needle.At.Given() })
	if k < 0 {
		return record.Text{}, false
	}
	return all[k].Needle, true
}
