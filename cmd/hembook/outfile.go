package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"hembook/internal/disk"
	"hembook/internal/say"
)

// outFile follows the links of the name a file is to be written under, and
// refuses what is no file, so that it is told before the work is done. example
// is the file's name in a folder that was named instead.
func outFile(name, example string) (string, error) {
	if real, err := filepath.EvalSymlinks(name); err == nil {
		name = real
	} else if leads, err := os.Readlink(name); err == nil {
		return "", errors.New(say.Of("hembook.is-a-link-to-which-is-not", name, leads))
	}
	switch info, err := os.Stat(name); {
	case err == nil && info.IsDir():
		return "", errors.New(say.Of("hembook.is-a-folder-name-a-file-in", name, filepath.Join(name, example)))
	case err == nil && !info.Mode().IsRegular():
		return "", errors.New(say.Of("hembook.is-there-already-and-it-is-no", name))
	}
	dir := filepath.Dir(name)
	switch info, err := os.Stat(dir); {
	case errors.Is(err, fs.ErrNotExist):
		return "", errors.New(say.Of("hembook.there-is-no-folder-make-it-first", dir))
	case err == nil && !info.IsDir():
		return "", errors.New(say.Of("hembook.is-no-folder", dir))
	}
	return name, nil
}

// writeWhole writes a file whole or not at all, where its links lead.
func writeWhole(name string, text []byte) error {
	name, err := outFile(name, "")
	if err != nil {
		return err
	}
	root, err := disk.OpenRoot(filepath.Dir(name))
	if err != nil {
		return err
	}
	defer root.Close()
	root.Sweep(".") // what one that was stopped left
	return root.Keep(filepath.Base(name), text, 0o644)
}
