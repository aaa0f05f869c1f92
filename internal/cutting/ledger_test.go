package cutting

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/record"
	"hembook/internal/shape"
)

// A drawnDown is a made-up workroom whose builds are cut from one cloth, one after the
// other, in an order of their own.
type drawnDown struct {
	*bench
	rng                         *rand.Rand
	came                        int // mm, all of it
	width, selvedge             float64
	along, across, straightened float64 // shrinkage in shares; what is straightened at both ends, mm
	builds                      []string
}

func drawnDownRoom(t *testing.T, seed uint64) *drawnDown {
	r := &drawnDown{rng: rand.New(rand.NewPCG(seed, 22)), straightened: 50}
	wide, edge, along, across := 700+r.rng.IntN(900), r.rng.IntN(15), r.rng.IntN(9), r.rng.IntN(5)
	r.width, r.selvedge, r.along, r.across = float64(wide), float64(edge), float64(along)/100, float64(across)/100
	text := fmt.Sprintf("width: %d\nselvedge: %d\nshrink: {along: %d, across: %d}\nfaces: %s\ncame:\n", wide, edge, along, across, []string{"one", "two"}[r.rng.IntN(2)])
	for i := range 1 + r.rng.IntN(3) {
		long := 4000 + r.rng.IntN(3000)
		r.came += long
		text += fmt.Sprintf("  2026-0%d-11: %d\n", 1+(i*4+2)%9, long) // not in the order of the days
	}
	r.bench = benchWith(t, text, rectangles("1", "[100, 100]"))
	r.opt.Tries = 3000
	for i := range 2 + r.rng.IntN(3) {
		name := fmt.Sprintf("build-%d", i+1)
		r.builds = append(r.builds, name)
		var pieces strings.Builder
		for k := range 1 + r.rng.IntN(3) {
			fmt.Fprintf(&pieces, "  p%d: {cut: %s, allowance: %d, trapezoid: {bottom: %d, top: %d, height: %d}}\n", k, []string{"1", "2", "4"}[r.rng.IntN(3)], r.rng.IntN(20), 120+r.rng.IntN(200), 60+r.rng.IntN(200), 80+r.rng.IntN(250))
		}
		r.file("content/builds/"+name+"/build.yaml", fmt.Sprintf("name: %s\ngarment: dress\nstate: cutting\ncloth: {shell: {use: linen, fold: %s}}\npieces:\n%s", name, []string{"open", "folded", "lengthwise"}[r.rng.IntN(3)], pieces.String()))
	}
	r.rng.Shuffle(len(r.builds), func(i, j int) { r.builds[i], r.builds[j] = r.builds[j], r.builds[i] })
	return r
}

// cutFrom lays a build, cuts it on a day and keeps its remnants; ok is false where it
// cannot be laid.
func (r *drawnDown) cutFrom(name string, day int) (l *Lay, ok bool) {
	c := r.cutter()
	bf, _ := r.room.BuildNamed(name)
	b, faults := r.room.ReadBuild(bf)
	r.clean(faults)
	l = c.Cut(b).Lays[0]
	if l.Plan == nil {
		return l, false // no fold, or too wide
	}
	if _, err := Keep(r.room, b, l, record.Day{Year: 2026, Month: 10, Day: day}); err != nil {
		r.t.Fatal(err)
	}
	return l, true
}

// clothShares are how the cloth of a lay is shared out, in mm² of washed cloth.
type clothShares struct{ pieces, waste float64 }

// sharesOf counts, of a fine grid of places on the cloth as it lies, how many layers
// the pieces take, and how many nobody takes: with the outlines alone, layer by layer,
// and nothing of what the program adds up. Where more is taken than lies there it says so.
func (r *drawnDown) sharesOf(l *Lay) (out clothShares) {
	const cell = 3.0
	plan, long := l.Plan, l.Plan.Length/l.Plan.Layers()
	zones := plan.Zones(l.Problem.Lay.Cloth.Width)
	for x := cell / 2; x < long; x += cell {
		for y := cell / 2; y < plan.Width; y += cell {
			at, layers := shape.Point{X: x, Y: y}, 0 // beside a fold over part of the length lies nothing
			for _, z := range zones {
				if x >= z.From && x <= z.To && y >= z.Near && y <= z.Far {
					if layers = 1; z.Double {
						layers = 2
					}
				}
			}
			taken, kept := 0, 0
			for i := range l.Chalked {
				if q := &l.Chalked[i]; shape.Ring(q.Outline).Contains(at) {
					if taken++; q.Pair || q.OnFold {
						taken++
					}
				}
			}
			for i := range l.Left {
				if shape.Ring(l.Left[i].On).Contains(at) {
					kept += layers
				}
			}
			if taken+kept > layers {
				r.t.Fatalf("%d pieces and %d remnants at %v, in %d layers", taken, kept, at, layers)
			}
			out.pieces += float64(taken) * cell * cell
			out.waste += float64(layers-taken-kept) * cell * cell
		}
	}
	return out
}

// remnantsOf is the area of the remnants that the record of the cloth has of a build.
func remnantsOf(c *record.Cloth, build string) (area float64) {
	for i := range c.Remnants {
		if c.Remnants[i].From.V == build {
			area += areaOf(cornersOf(c.Remnants[i].Outline, 0))
		}
	}
	return area
}

// TestClothComesToWhatBecameOfIt: in made-up workrooms whose builds are cut one after
// the other, in any order, all cloth that came in is what the pieces take, the remnants
// in the record, waste, what shrank, the selvedges, what was straightened, and what is
// left; the last is never below nothing. The pieces and the waste are counted on a grid,
// the rest is worked out from the record's numbers. HEMBOOK_LEDGERS=500 for many.
func TestClothComesToWhatBecameOfIt(t *testing.T) {
	many := 12
	if n, err := strconv.Atoi(os.Getenv("HEMBOOK_LEDGERS")); err == nil {
		many = n
	}
	cuts := 0
	for seed := range uint64(many) {
		r := drawnDownRoom(t, seed)
		wide := r.width * (1 - r.across) // washed
		var became, waste float64        // mm² of washed cloth
		for i, name := range r.builds {
			l, ok := r.cutFrom(name, i+1)
			if !ok {
				continue
			}
			cuts++
			of := r.sharesOf(l)
			if least := piecesOf(l); math.Abs(of.pieces-least) > 0.01*least+500 {
				t.Errorf("seed %d, %s: the pieces take %.0f mm², and are %.0f", seed, name, of.pieces, least)
			}
			edges := l.Plan.Length*2*r.selvedge + r.straightened*(1-r.along)*wide
			r.cutter() // reads the record again
			cloth, _ := r.room.Cloth("linen")
			became += of.pieces + of.waste + remnantsOf(cloth, name) + edges
			waste += of.waste
		}
		r.cutter()
		cloth, _ := r.room.Cloth("linen")
		list := cloth.Movements()
		left := list[len(list)-1].Left.MM()
		if shelf := garment.OnShelfOf(new(figure.Pad), cloth).MM(); shelf != left || left < 0 {
			t.Fatalf("seed %d: the ledger ends with %v mm, and %v are on the shelf", seed, left, shelf)
		}
		// the whole of it, washed
		came, there := float64(r.came)*(1-r.along)*wide, left*(1-r.along)*wide
		off := came - there - became
		if most := 0.004*(came-there) + float64(len(r.builds))*wide; math.Abs(off) > most || waste < 0 { // the grid, and a whole mm for each cut
			t.Errorf("seed %d: %.0f mm² came, %.0f are left and %.0f were cut: %.0f are missing", seed, came, there, became, off)
		}
	}
	if cuts < 2*many {
		t.Errorf("only %d cuts in %d workrooms", cuts, many)
	}
}

// piecesOf is the area of all pieces of a lay as they are cut, by the figures of the garment.
func piecesOf(l *Lay) float64 {
	return l.Cloth.CutArea.Value.Number * 1e6
}
