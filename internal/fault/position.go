package fault

import (
	"cmp"
	"fmt"
)

// A Source is one file of the workroom.
type Source struct {
	Path string // slash-separated, relative to the workroom's folder
}

// A Pos is a place in a file: line and column count from 1, columns in
// characters. The zero Pos is no place: the value was not written.
type Pos struct {
	Source *Source
	Line   int32
	Column int32
}

// Given reports whether the place exists, that is whether the maker wrote the value.
func (p Pos) Given() bool { return p.Line > 0 }

// File is the path of the place's file, or "" where there is none.
func (p Pos) File() string {
	if p.Source == nil {
		return ""
	}
	return p.Source.Path
}

// String prints "file:line:column".
func (p Pos) String() string {
	return fmt.Sprintf("%s:%d:%d", p.File(), p.Line, p.Column)
}

// ComparePos orders places by file, line and column.
func ComparePos(a, b Pos) int {
	return cmp.Or(
		cmp.Compare(a.File(), b.File()),
		cmp.Compare(a.Line, b.Line),
		cmp.Compare(a.Column, b.Column),
	)
}
