package press

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"

	"hembook/internal/disk"
)

// stageEnd stands between a target's name and the rest of the name of a folder
// beside it.
const stageEnd = ".new-"

// Recover clears away what presses that were stopped left beside a folder that
// is pressed to. What in it is the maker's is put back into the folder; it
// returns what had to be given another name there. It errs where something must
// stay as it is until there is a notebook in that folder again.
func Recover(to string) (kept []string, err error) {
	for _, s := range disk.Abandoned(to + stageEnd) {
		if there(s.Dir + oldEnd) {
			endByTwo(s.Dir, to)
		}
		more, bad := clearStage(s, to)
		kept = append(kept, more...)
		if bad == nil {
			_ = s.Close()
			continue
		}
		s.Leave()
		err = errors.Join(err, bad)
	}
	return kept, err
}

// clearStage removes a stage. Before it has its list nothing of the maker's is
// in it; what has no marker at all was a folder of hers.
func clearStage(s *disk.Filling, to string) (kept []string, err error) {
	if !there(s.Dir) {
		return nil, nil
	}
	if isUnfinished(s.Dir) {
		return nil, disk.RemoveAll(s.Dir)
	}
	was, listed := readList(s.Dir)
	if !there(to) {
		if (listed || !there(filepath.Join(s.Dir, markerName))) && onlyOurs(s.Dir, was) {
			return nil, disk.RemoveAll(s.Dir)
		}
		return nil, fs.ErrNotExist // where would hers go? it is asked again once there is a notebook
	}
	if there(filepath.Join(s.Dir, markerName)) && !listed {
		_, err := setAside(s, to)
		return nil, err
	}
	now, _ := readList(to)
	return clearOld(s.Dir, to, was, now, nil)
}

// onlyOurs reports whether a folder holds what is on its list, as it was
// written, and nothing else.
func onlyOurs(dir string, was list) bool {
	if more, err := hers(dir, was, nil); err != nil || len(more) > 0 {
		return false
	}
	for name, m := range was {
		path := filepath.Join(dir, filepath.FromSlash(string(name)))
		info, err := os.Lstat(path)
		if err == nil && !(info.Mode().IsRegular() && unchanged(path, info, m, false, "")) {
			return false
		}
	}
	return true
}

// setAside keeps an earlier notebook that has no list under a name in sight,
// which it returns.
func setAside(s *disk.Filling, to string) (string, error) {
	name := to + ".before"
	for n := 2; ; n++ {
		if !there(name) {
			return name, disk.Rename(s.Dir, name)
		}
		name = to + ".before-" + strconv.Itoa(n)
	}
}
