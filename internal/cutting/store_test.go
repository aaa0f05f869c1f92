package cutting

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hembook/internal/lay"
)

// somePieces is a small problem with curves and pairs to search in.
const somePieces = `pieces:
  front:
    cut: 1 on fold
    outline: {from: [0, 0], waist: [172, 0], side: [236, 208], armhole: {to: [198, 372], curve: [[196, 236], [190, 320]]}, shoulder: [92, 408], neck: {to: [0, 318], curve: [[84, 340], [40, 318]]}, centre: {to: [0, 0], fold: true}}
  sleeve:
    cut: 2
    outline: {from: [0, 0], hem: [220, 0], seam: [330, 400], head: {to: [-90, 380], curve: [[250, 560], [20, 540]]}, under: [0, 0]}
  band: {cut: 1, rectangle: [70, 640]}
  pocket: {cut: 2, grain: any, rectangle: [140, 160]}
`

func problemOf(t testing.TB) *lay.Problem {
	t.Helper()
	l := benchWith(t, "width: 900\nselvedge: 10\n", somePieces).lay()
	if l.Problem == nil {
		t.Fatal(l.Why)
	}
	return &l.Problem.Lay
}

const someWork = 30_000

func TestStoreRoundTrip(t *testing.T) {
	p, dir := problemOf(t), t.TempDir()
	s := newStore(dir)
	if _, ok := s.kept(p, someWork); ok {
		t.Fatal("an empty store keeps a plan")
	}
	made, err := s.plan(t.Context(), p, lay.Options{Tries: someWork})
	if err != nil {
		t.Fatal(err)
	}
	kept, ok := s.kept(p, someWork)
	if !ok {
		t.Fatal("the plan was not kept")
	}
	if diff := cmp.Diff(made, kept); diff != "" {
		t.Errorf("the plan kept is another one:\n%s", diff)
	}
	if _, ok := s.kept(p, someWork+1); ok {
		t.Error("a plan of less work is taken for it")
	}
	other := *p
	other.Cloth.Width++
	if _, ok := s.kept(&other, someWork); ok {
		t.Error("a plan for another cloth is taken for it")
	}
	if less, ok := s.kept(p, someWork/10); !ok || less.Length != made.Length {
		t.Error("a plan of more work is not good enough for less")
	}
	if err := os.RemoveAll(filepath.Join(dir, ".hembook")); err != nil {
		t.Fatal(err)
	}
	again, err := s.plan(t.Context(), p, lay.Options{Tries: someWork})
	if diff := cmp.Diff(made, again); err != nil || diff != "" {
		t.Errorf("made anew after deleting, the plan is another one: %v\n%s", err, diff)
	}
}

// TestSameBytes: two runs, and one or two cores, keep the same bytes.
func TestSameBytes(t *testing.T) {
	p := problemOf(t)
	var first []byte
	for i, cores := range []int{1, 1, 2} {
		s := newStore(t.TempDir())
		if _, err := s.plan(t.Context(), p, lay.Options{Tries: someWork, Cores: cores}); err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(s.file(p))
		if err != nil {
			t.Fatal(err)
		}
		if i == 0 {
			first = text
		} else if string(text) != string(first) {
			t.Errorf("run %d on %d cores keeps other bytes", i+1, cores)
		}
	}
}

// TestCorruptedPlans: whatever is wrong with a kept plan, it is not used, and
// a sound one takes its place.
func TestCorruptedPlans(t *testing.T) {
	p := problemOf(t)
	s := newStore(t.TempDir())
	good, err := s.plan(t.Context(), p, lay.Options{Tries: someWork})
	if err != nil {
		t.Fatal(err)
	}
	file := s.file(p)
	sound, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	resealed := func(change func(*lay.Plan)) []byte {
		var kept keptPlan
		if err := json.Unmarshal(sound[65:], &kept); err != nil {
			t.Fatal(err)
		}
		change(kept.Laid)
		body, err := json.Marshal(kept)
		if err != nil {
			t.Fatal(err)
		}
		sum := sha256.Sum256(body)
		return append([]byte(hex.EncodeToString(sum[:])+"\n"), body...)
	}
	flipped := append([]byte(nil), sound...)
	flipped[len(flipped)/2] ^= 1
	for name, text := range map[string][]byte{
		"empty":         {},
		"half":          sound[:len(sound)/2],
		"one bit":       flipped,
		"no JSON":       []byte("cloth"),
		"moved":         resealed(func(q *lay.Plan) { q.Placements[0].X, q.Placements[0].Y = q.Placements[1].X, q.Placements[1].Y }),
		"off the cloth": resealed(func(q *lay.Plan) { q.Placements[0].Y -= 5000 }),
		"one too few":   resealed(func(q *lay.Plan) { q.Placements = q.Placements[1:] }),
		"no such piece": resealed(func(q *lay.Plan) { q.Placements[0].Piece = 99 }),
		"too long":      resealed(func(q *lay.Plan) { q.Length += 50 }),
		"too short":     resealed(func(q *lay.Plan) { q.Length -= 50 }),
		"wrong turn":    resealed(func(q *lay.Plan) { q.Placements[0].Turn = 17 }),
	} {
		if err := os.WriteFile(file, text, 0o666); err != nil {
			t.Fatal(err)
		}
		if _, ok := s.kept(p, someWork); ok {
			t.Errorf("%s: the plan is used", name)
		}
		plan, err := s.plan(t.Context(), p, lay.Options{Tries: someWork})
		if diff := cmp.Diff(good, plan); err != nil || diff != "" {
			t.Errorf("%s: %v\n%s", name, err, diff)
		}
		if now, _ := os.ReadFile(file); string(now) != string(sound) {
			t.Errorf("%s: the file was not replaced", name)
		}
	}
}

// TestRemnantsAreCheckedToo: what is kept as left over must not lie under a
// piece.
func TestRemnantsAreCheckedToo(t *testing.T) {
	p := problemOf(t)
	plan, err := (&store{}).plan(t.Context(), p, lay.Options{Tries: someWork})
	if err != nil {
		t.Fatal(err)
	}
	n := len(plan.Remnants)
	plan.Remnants = append(plan.Remnants, p.Placed(plan.Placements[0]))
	if err := checked(p, plan); err != nil || len(plan.Remnants) != n {
		t.Errorf("%d remnants, want %d: %v", len(plan.Remnants), n, err)
	}
}

// TestNowhereToKeep: a workroom that cannot be written to is laid all the same.
func TestNowhereToKeep(t *testing.T) {
	p, dir := problemOf(t), t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, ".hembook"), nil, 0o666); err != nil {
		t.Fatal(err)
	}
	if plan, err := newStore(dir).plan(t.Context(), p, lay.Options{Tries: someWork}); err != nil || plan == nil {
		t.Errorf("%v", err)
	}
}

// TestBrokenOff: a search that is broken off gives the best so far, which is
// sound and not kept.
func TestBrokenOff(t *testing.T) {
	b := benchWith(t, "width: 900\nselvedge: 10\n", somePieces)
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	b.ctx = ctx
	b.opt = Options{Tries: 5_000_000, Progress: func(p Progress) {
		if p.Length < p.Bound || p.Part != "shell" || p.Build != "test" {
			t.Errorf("%+v", p)
		}
		stop()
	}}
	l := b.lay()
	if l.Plan == nil || !l.Stopped {
		t.Fatalf("plan %v, stopped %v: %s", l.Plan != nil, l.Stopped, l.Why)
	}
	if files, _ := os.ReadDir(filepath.Join(b.dir, ".hembook", "lays")); len(files) > 0 {
		t.Errorf("it was kept: %v", files)
	}
	if l = b.lay(); l.Plan != nil || l.Why != errStopped.Error() {
		t.Errorf("a lay was begun after the end: %q", l.Why)
	}
}

// TestLongerSearch: the usual work is answered with the shorter plan that a
// longer search found, and a longer search never takes a better plan away.
func TestLongerSearch(t *testing.T) {
	p, s := problemOf(t), newStore(t.TempDir())
	first, err := s.plan(t.Context(), p, lay.Options{Tries: 500})
	if err != nil {
		t.Fatal(err)
	}
	long, err := s.plan(t.Context(), p, lay.Options{Tries: 20 * someWork})
	if err != nil || long.Length > first.Length {
		t.Fatalf("%v: %v with little work, %v with much", err, first.Length, long.Length)
	}
	if now, ok := s.kept(p, 500); !ok || now.Length != long.Length {
		t.Errorf("the plan kept is %v long, the better one %v", now.Length, long.Length)
	}
	if err := s.keep(p, keptPlan{Asked: 1, Laid: long}); err != nil {
		t.Fatal(err)
	}
	again, err := s.plan(t.Context(), p, lay.Options{Tries: 500})
	if err != nil || again.Length > long.Length {
		t.Errorf("%v: a worse plan of %v took the place of %v", err, again.Length, long.Length)
	}
}
