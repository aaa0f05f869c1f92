package cutting

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"path/filepath"

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
type store struct{ dir string }

// A keptPlan is what stands in a file of the store.
type keptPlan struct {
	Asked int // the most places that a search for it was asked to try
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
	text, err := disk.ReadFile(s.file(p))
	if err != nil {
		return keptPlan{}
	}
	sum, body, found := bytes.Cut(text, []byte("\n"))
	if want := sha256.Sum256(body); !found || string(sum) != hex.EncodeToString(want[:]) {
		return keptPlan{}
	}
	var kept keptPlan
	if json.Unmarshal(body, &kept) != nil || kept.Laid == nil || checked(p, kept.Laid) != nil {
		return keptPlan{}
	}
	return kept
}

// plan returns the plan of a problem: as it is kept, or made and kept. Where a
// plan of less work is kept and no longer than the one made, it stays. A plan
// that was broken off by the context is the best so far and is not kept. That
// a plan could not be written down is no error: it can be made again.
func (s *store) plan(ctx context.Context, p *lay.Problem, opt lay.Options) (*lay.Plan, error) {
	if opt.Tries <= 0 {
		opt.Tries = lay.DefaultTries
	}
	kept := s.read(p)
	if kept.Laid != nil && kept.Asked >= opt.Tries {
		return kept.Laid, nil
	}
	plan, err := lay.Make(ctx, *p, opt)
	if err != nil {
		return nil, err
	}
	if err := checked(p, plan); err != nil {
		return nil, err
	}
	if kept.Laid != nil && !shorter(plan, kept.Laid) {
		plan = kept.Laid
	}
	if ctx.Err() == nil && s.dir != "" {
		_ = s.keep(p, keptPlan{opt.Tries, plan})
	}
	return plan, nil
}

// shorter reports whether a is the better plan of the same problem: it has
// more of the pieces, or takes less length.
func shorter(a, b *lay.Plan) bool {
	if a.Fits != b.Fits {
		return a.Fits
	}
	if n, m := len(a.Unplaced), len(b.Unplaced); n != m {
		return n < m
	}
	return a.Length < b.Length-tolerance
}

// file is where the plan of a problem is kept.
func (s *store) file(p *lay.Problem) string {
	text, err := json.Marshal(struct {
		Engine  string
		Problem *lay.Problem
	}{lay.Version, p})
	if err != nil { // numbers that are none; the engine refuses them
		return filepath.Join(s.dir, "none")
	}
	sum := sha256.Sum256(text)
	return filepath.Join(s.dir, hex.EncodeToString(sum[:16])+".json")
}

// keep writes a plan beside its place and then moves it there.
func (s *store) keep(p *lay.Problem, plan keptPlan) error {
	body, err := json.Marshal(plan)
	if err != nil {
		return err
	}
	if err := disk.MkdirAll(s.dir, 0o777); err != nil {
		return err
	}
	root, err := disk.OpenRoot(s.dir)
	if err != nil {
		return err
	}
	defer root.Close()
	root.Sweep(".") // what one that was stopped left
	sum := sha256.Sum256(body)
	return root.Replace(filepath.Base(s.file(p)), append(append([]byte(hex.EncodeToString(sum[:])), '\n'), body...), 0o600)
}
