package press

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"hembook/internal/disk"
	"hembook/internal/fault"
)

// accountName is where the account of the last press is kept in a workroom.
const accountName = ".hembook/pressed/last"

// Grounds sums up all that a press of a workroom rests on: the records with their
// pictures and outlines, its own themes, the plans of lays that are kept, and how it is
// asked for. The zero Grounds is unlike every other.
type Grounds struct {
	room    string
	records string // what all but the plans say
	plans   string
	moment  string // when its files were changed last
}

// grounds lists the folders of a workroom that a press reads.
var grounds = []string{"content", "themes"}

// GroundsOf sums up what a press rests on now. how says what of the program and of the
// command makes another notebook of the same records. Where a folder cannot be read
// through, or leads elsewhere, the result is the zero Grounds.
func GroundsOf(room, how string) Grounds {
	said, moment := sha256.New(), sha256.New()
	fmt.Fprintf(said, "%q\n", how)
	for _, folder := range grounds {
		if sumUp(said, moment, filepath.Join(room, folder)) != nil {
			return Grounds{}
		}
	}
	plans := sha256.New()
	if sumUp(plans, io.Discard, filepath.Join(room, ".hembook", "lays")) != nil {
		return Grounds{}
	}
	return Grounds{room, sumOf(said), sumOf(plans), sumOf(moment)}
}

func sumOf(h hash.Hash) string { return hex.EncodeToString(h.Sum(nil)) }

// sumUp adds what the files of a folder are called and hold, and when each was
// changed. A folder that is not there has no files.
func sumUp(said, moment io.Writer, dir string) error {
	return filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		switch {
		case err != nil && path == dir && !there(dir):
			return nil
		case err != nil:
			return err
		case e.IsDir():
			fmt.Fprintf(said, "folder %q\n", path)
			return nil
		case !e.Type().IsRegular():
			return fmt.Errorf("%s is no plain file", path)
		}
		info, err := e.Info()
		if err != nil {
			return err
		}
		data, err := disk.ReadFile(path)
		if err != nil {
			return err
		}
		fmt.Fprintf(said, "%q %d\n", path, len(data))
		said.Write(data)
		_, err = fmt.Fprintf(moment, "%q %d\n", path, info.ModTime().UnixNano())
		return err
	})
}

// An account says of a notebook that was put in place what it was made from and what
// was told then. It is one file of a workroom, and may be deleted at any time.
type account struct {
	To      string // the folder it was pressed to
	Records string // what it was made from
	Plans   string
	List    string // the sum of its list of files
	Report  Report
	Told    []warned
}

// A warned is a warning as it is kept.
type warned struct {
	File          string
	Line, Column  int32
	Message, Hint string
}

// Account keeps what a press that rested on g said, so that the next one need not be
// made where nothing changed: it is one with nothing wrong. Where something changed
// while it was made nothing is kept.
func (g Grounds) Account(how, to string, rep Report, faults []fault.Fault) {
	now := GroundsOf(g.room, how)
	text, err := os.ReadFile(filepath.Join(to, markerName))
	at, err2 := filepath.Abs(to)
	if err != nil || err2 != nil || g.records == "" || now.records != g.records || now.moment != g.moment || fault.HasErrors(faults) || rep.Before != "" {
		return
	}
	rep.Written, rep.Made, rep.Removed, rep.Kept, rep.Yours = 0, 0, 0, rep.Files, nil
	a := account{To: at, Records: now.records, Plans: now.plans, List: hashOf(text), Report: rep}
	for _, f := range faults {
		a.Told = append(a.Told, warned{f.At.File(), f.At.Line, f.At.Column, f.Message, f.Hint})
	}
	body, err := json.Marshal(a)
	if err != nil || disk.MkdirAll(filepath.Join(g.room, ".hembook", "pressed"), 0o777) != nil {
		return
	}
	// half written it is not relied on, by its sum
	_ = disk.Remove(filepath.Join(g.room, accountName))
	_ = disk.WriteFile(filepath.Join(g.room, accountName), append([]byte(hashOf(body)+"\n"), body...), 0o600)
}

// Unchanged is what a press into a folder would report and warn of where it would write
// nothing: the last one was to that folder, all it rested on is as it was, and so is each
// file that it wrote. In doubt it is not.
func (g Grounds) Unchanged(to string) (Report, []fault.Fault, bool) {
	text, err := disk.ReadFile(filepath.Join(g.room, accountName))
	at, err2 := filepath.Abs(to)
	if err != nil || err2 != nil || g.records == "" {
		return Report{}, nil, false
	}
	sum, body, _ := bytes.Cut(text, []byte("\n"))
	var a account
	if string(sum) != hashOf(body) || json.Unmarshal(body, &a) != nil || a.To != at || a.Records != g.records || a.Plans != g.plans {
		return Report{}, nil, false
	}
	list, err := os.ReadFile(filepath.Join(to, markerName))
	if err != nil || hashOf(list) != a.List {
		return Report{}, nil, false
	}
	was, listed := readList(to)
	if !listed || !was.stand(to) {
		return Report{}, nil, false
	}
	more, err := hers(to, was, nil)
	if err != nil {
		return Report{}, nil, false
	}
	a.Report.Carried = len(more)
	var faults []fault.Fault
	for _, f := range a.Told {
		faults = append(faults, fault.Fault{At: fault.Pos{Source: &fault.Source{Path: f.File}, Line: f.Line, Column: f.Column}, Message: f.Message, Hint: f.Hint})
	}
	return a.Report, faults, true
}

// stand reports whether each file of a list is in a folder as it was written.
func (l list) stand(dir string) bool {
	for name, m := range l {
		path := filepath.Join(dir, filepath.FromSlash(string(name)))
		info, err := os.Lstat(path)
		if err != nil || !info.Mode().IsRegular() || info.Size() != m.size {
			return false
		}
		if data, err := os.ReadFile(path); err != nil || markOf(data) != m {
			return false
		}
	}
	return true
}
