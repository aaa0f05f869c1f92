// Package pages carries the guide's pages in the program, so that a new workroom has
// them without this folder.
package pages

import "embed"

// Files are the pages as they lie here.
//
//go:embed *.md
var Files embed.FS
