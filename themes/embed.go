// Package themes carries the looks that the program comes with, so that one
// file is enough to press a notebook. It holds files and nothing else.
package themes

import (
	"embed"
	"io/fs"
)

//go:embed plainweave
var files embed.FS

// Plainweave is the default look.
func Plainweave() fs.FS {
	sub, err := fs.Sub(files, "plainweave")
	if err != nil {
		panic(err) // the folder is part of the program
	}
	return sub
}
