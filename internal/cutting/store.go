package cutting

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"

	"hembook/internal/lay"
)

// engineVersion stands for the way the engine lays. Raise it when package lay
// gives another plan for the same problem: plans kept before are then made
// anew.
const engineVersion = "1"

// folder is where plans are kept in a workroom.
const folder = ".hembook/lays"

// A Store keeps plans by the hash of what they follow from: the problem, the
// work and the engine's version. It may be used by many goroutines at once,
// and its files may be deleted at any time.
type Store struct{ dir string }

// NewStore is the store of the workroom in that folder; one without a folder
// keeps nothing.
func NewStore(room string) *Store {
	if room == "" {
		return &Store{}
	}
	return &Store{filepath.Join(room, filepath.FromSlash(folder))}
}

// Kept reads the plan of a problem, checked again; false where none is kept
// or what is kept is not sound.
func (s *Store) Kept(p *lay.Problem, work int) (*lay.Plan, bool) {
	if s.dir == "" {
		return nil, false
	}
	text, err := os.ReadFile(s.file(p, work))
	if err != nil {
		return nil, false
	}
	sum, body, found := bytes.Cut(text, []byte("\n"))
	if want := sha256.Sum256(body); !found || string(sum) != hex.EncodeToString(want[:]) {
		return nil, false
	}
	plan := new(lay.Plan)
	if json.Unmarshal(body, plan) != nil || checked(p, plan) != nil {
		return nil, false
	}
	return plan, true
}

// Plan returns the plan of a problem: as it is kept, or made and kept. A plan
// that was broken off by the context is the best so far and is not kept. That
// a plan could not be written down is no error: it can be made again.
func (s *Store) Plan(ctx context.Context, p *lay.Problem, opt lay.Options) (*lay.Plan, error) {
	if opt.Work <= 0 {
		opt.Work = lay.DefaultWork
	}
	if plan, ok := s.Kept(p, opt.Work); ok {
		return plan, nil
	}
	plan, err := makePlan(ctx, p, opt)
	if err != nil {
		return nil, err
	}
	if err := checked(p, plan); err != nil {
		return nil, err
	}
	if ctx.Err() == nil && s.dir != "" {
		_ = s.keep(p, opt.Work, plan)
	}
	return plan, nil
}

// file is where the plan of a problem is kept.
func (s *Store) file(p *lay.Problem, work int) string {
	text, err := json.Marshal(struct {
		Engine  string
		Work    int
		Problem *lay.Problem
	}{engineVersion, work, p})
	if err != nil { // numbers that are none; the engine refuses them
		return filepath.Join(s.dir, "none")
	}
	sum := sha256.Sum256(text)
	return filepath.Join(s.dir, hex.EncodeToString(sum[:16])+".json")
}

// keep writes a plan beside its place and then moves it there.
func (s *Store) keep(p *lay.Problem, work int, plan *lay.Plan) error {
	body, err := json.Marshal(plan)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(s.dir, 0o777); err != nil {
		return err
	}
	beside, err := os.CreateTemp(s.dir, ".plan-*")
	if err != nil {
		return err
	}
	sum := sha256.Sum256(body)
	_, err = beside.Write(append(append([]byte(hex.EncodeToString(sum[:])), '\n'), body...))
	err = errors.Join(err, beside.Sync(), beside.Close())
	if err == nil {
		err = os.Rename(beside.Name(), s.file(p, work))
	}
	if err != nil {
		os.Remove(beside.Name())
	}
	return err
}
