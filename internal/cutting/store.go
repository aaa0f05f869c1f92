package cutting

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"

	"hembook/internal/disk"
	"hembook/internal/lay"
)

// folder is where plans are kept in a workroom.
const folder = ".hembook/lays"

// A store keeps the best plan met of each problem, by the hash of the problem
// and the engine's version, with the work it is good for: a longer search
// replaces it where it is shorter. It may be used by many goroutines at once,
// and its files may be deleted at any time; pages then tell of the lay that
// the usual work gives.
//
// Plans of the same pieces lie in one folder, whatever else was asked of them. A
// search begins from those that hold for its problem too, so that asking less never
// gives a longer lay.
type store struct{ dir string }

// A keptPlan is what stands in a file of the store.
type keptPlan struct {
	Asked int     // the most places that a search for it was asked to try
	Begun float64 // length of the shortest plan that its search could begin from; 0 for none
	Laid  *lay.Plan
}

// newStore is the store of the workroom in that folder; one without a folder
// keeps nothing.
func newStore(room string) *store {
	if room == "" {
		return &store{}
	}
	return &store{filepath.Join(room, filepath.FromSlash(folder))}
}

// kept reads the plan of a problem, checked again; false where none of so much
// work is kept or what is kept is not sound.
func (s *store) kept(p *lay.Problem, work int) (*lay.Plan, bool) {
	kept := s.read(p)
	if kept.Laid == nil || kept.Asked < work {
		return nil, false
	}
	return kept.Laid, true
}

// read is the sound plan that is kept of a problem, if any.
func (s *store) read(p *lay.Problem) keptPlan {
	if s.dir == "" {
		return keptPlan{}
	}
	kept := readPlan(s.file(p))
	if kept.Laid == nil || checked(p, kept.Laid) != nil {
		return keptPlan{}
	}
	return kept
}

// readPlan is what stands in one file; no plan where it is not whole.
func readPlan(file string) keptPlan {
	text, err := disk.ReadFile(file)
	if err != nil {
		return keptPlan{}
	}
	sum, body, found := bytes.Cut(text, []byte("\n"))
	if want := sha256.Sum256(body); !found || string(sum) != hex.EncodeToString(want[:]) {
		return keptPlan{}
	}
	var kept keptPlan
	if json.Unmarshal(body, &kept) != nil {
		return keptPlan{}
	}
	return kept
}

// begins are the plans kept of the same pieces that hold for a problem too, in the
// order of their files' names, and the best of them; nil where there is none.
func (s *store) begins(p *lay.Problem) (plans []*lay.Plan, best *lay.Plan) {
	if s.dir == "" {
		return nil, nil
	}
	own := s.file(p)
	files, err := os.ReadDir(filepath.Dir(own))
	if err != nil {
		return nil, nil
	}
	for _, f := range files {
		name := filepath.Join(filepath.Dir(own), f.Name())
		if name == own {
			continue
		}
		for _, plan := range holding(p, readPlan(name).Laid) {
			plans = append(plans, plan)
			if best == nil || plan.Better(best, tolerance) {
				best = plan
			}
		}
	}
	return plans, best
}

// holding are those of a plan and its lay the other way that hold for a problem, as
// they are or opened out.
func holding(p *lay.Problem, plan *lay.Plan) (out []*lay.Plan) {
	known := func(at lay.Placement) bool { return at.Piece >= 0 && at.Piece < len(p.Pieces) }
	for ; plan != nil; plan = plan.Other {
		if len(plan.Placements) == 0 || len(plan.Unplaced) > 0 || slices.ContainsFunc(plan.Placements, func(at lay.Placement) bool { return !known(at) }) {
			continue
		}
		lying := []*lay.Plan{plan}
		if plan.Folded() {
			lying = append(lying, p.Opened(plan))
		}
		if moved := p.WithSelvedges(plan); moved != nil {
			lying = append(lying, moved)
		}
		for _, one := range lying {
			if !p.Cloth.Fold.Holds(one) {
				continue
			}
			alone := p.OnThis(one)
			alone.Other, alone.Untied = nil, p.Untied(one)
			if checked(p, alone) == nil {
				alone.Fits = p.Cloth.Length <= 0 || alone.Length <= p.Cloth.Length
				out = append(out, alone)
			}
		}
	}
	return out
}

// plan returns the plan of a problem: as it is kept, or made and kept. It is made again
// where another question about the same pieces has found a better one meanwhile. Where
// a plan of less work is kept and no longer than the one made, it stays. A plan
// that was broken off by the context is the best so far and is not kept. That
// a plan could not be written down is no error: it can be made again.
func (s *store) plan(ctx context.Context, p *lay.Problem, opt lay.Options) (*lay.Plan, error) {
	if opt.Tries <= 0 {
		opt.Tries = lay.DefaultTries
	}
	kept := s.read(p)
	var best *lay.Plan
	opt.Begin, best = s.begins(p)
	if kept.Laid != nil && kept.Asked >= opt.Tries && !kept.isBeaten(best) {
		return kept.Laid, nil
	}
	plan, err := lay.Make(ctx, *p, opt)
	if err != nil {
		return nil, err
	}
	if err := checked(p, plan); err != nil {
		return nil, err
	}
	if kept.Laid != nil && !plan.Better(kept.Laid, tolerance) {
		plan = kept.Laid
	}
	if ctx.Err() == nil && s.dir != "" {
		now := keptPlan{Asked: max(opt.Tries, kept.Asked), Laid: plan}
		if best != nil {
			now.Begun = best.Length
		}
		_ = s.keep(p, now)
	}
	return plan, nil
}

// isBeaten reports whether a plan to begin from is better than the one kept, and its
// search could not begin from one like it.
func (k *keptPlan) isBeaten(best *lay.Plan) bool {
	if best == nil || !best.Better(k.Laid, tolerance) {
		return false
	}
	return k.Begun == 0 || best.Length < k.Begun-tolerance || len(best.Untied) < len(k.Laid.Untied)
}

// file is where the plan of a problem is kept: in the folder of its pieces.
func (s *store) file(p *lay.Problem) string {
	type cut struct {
		Outline  []lay.Point
		Quantity int
	}
	pieces := make([]cut, len(p.Pieces))
	for i := range p.Pieces {
		pieces[i] = cut{p.Pieces[i].Outline, p.Pieces[i].Quantity}
	}
	return filepath.Join(s.dir, hashOf(pieces), hashOf(p)+".json")
}

// hashOf names what an engine was given; "none" where numbers are none, which the
// engine refuses.
func hashOf(given any) string {
	text, err := json.Marshal(struct {
		Engine string
		Given  any
	}{lay.Version, given})
	if err != nil {
		return "none"
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:16])
}

// keep writes a plan beside its place and then moves it there.
func (s *store) keep(p *lay.Problem, plan keptPlan) error {
	body, err := json.Marshal(plan)
	if err != nil {
		return err
	}
	file := s.file(p)
	if err := disk.MkdirAll(filepath.Dir(file), 0o777); err != nil {
		return err
	}
	root, err := disk.OpenRoot(filepath.Dir(file))
	if err != nil {
		return err
	}
	defer root.Close()
	root.Sweep(".") // what one that was stopped left
	sum := sha256.Sum256(body)
	return root.Replace(filepath.Base(file), append(append([]byte(hex.EncodeToString(sum[:])), '\n'), body...), 0o600)
}
