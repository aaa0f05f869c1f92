package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"hembook/internal/disk"
)

// outFile follows the links of the name a file is to be written under, and
// refuses what is no file, so that it is told before the work is done. example
// is the file's name in a folder that was named instead.
func outFile(name, example string) (string, error) {
	if real, err := filepath.EvalSymlinks(name); err == nil {
		name = real
	} else if leads, err := os.Readlink(name); err == nil {
		return "", fmt.Errorf("%s is a link to %s, which is not there\n    remove the link, or name another file", name, leads)
	}
	switch info, err := os.Stat(name); {
	case err == nil && info.IsDir():
		return "", fmt.Errorf("%s is a folder\n    name a file in it: %s", name, filepath.Join(name, example))
	case err == nil && !info.Mode().IsRegular():
		return "", fmt.Errorf("%s is there already, and it is no file\n    name another", name)
	}
	dir := filepath.Dir(name)
	switch info, err := os.Stat(dir); {
	case errors.Is(err, fs.ErrNotExist):
		return "", fmt.Errorf("there is no folder %s\n    make it first", dir)
	case err == nil && !info.IsDir():
		return "", fmt.Errorf("%s is no folder", dir)
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
