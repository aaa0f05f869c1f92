package main

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/proof"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sheet"
)

// A packProof looks through the finished files of a packet for what is private
// and was not opened for the sheet it stands on.
type packProof struct {
	secrets *proof.Secrets
	public  func(tell func(words string))
	figures []figure.Figure // public ones: a number of theirs is no find
}

func newPackProof(room *record.Room, b *record.Build, figures []figure.Figure) *packProof {
	kept := slices.Concat(room.Secrets(), b.Secrets)
	return &packProof{proof.New(kept), heardOnce(proof.Public(room)), figures}
}

// heardOnce keeps what is said the first time and says it again: the sheets of a
// packet are many, and what is public is read from all records.
func heardOnce(public func(tell func(words string))) func(tell func(words string)) {
	all := sync.OnceValue(func() (all []string) {
		public(func(words string) { all = append(all, words) })
		return all
	})
	return func(tell func(words string)) {
		for _, words := range all() {
			tell(words)
		}
	}
}

// faults are the private values that a packet's files would give away, each at
// its place and none quoted.
func (p *packProof) faults(packet *sheet.Packet, files []packFile) []fault.Fault {
	found := make([][]proof.Find, len(files))
	var all []proof.Find
	for i, f := range files {
		finds := p.secrets.Find(f.name, f.data)
		may := mayShow(packet, f.name)
		finds = slices.DeleteFunc(finds, func(one proof.Find) bool {
			return slices.ContainsFunc(p.secrets.Written(one), func(at fault.Pos) bool { return slices.Contains(may, at) })
		})
		found[i] = p.secrets.Private(finds, p.secrets.Texts(may))
		all = append(all, found[i]...)
	}
	private := p.private(all)
	var out fault.Faults
	for i, f := range files {
		for _, one := range found[i] {
			if private[one] {
				out.Wrong(one.At, say.Of("hembook.look-at-that-sheet-for-it-if"), say.Of("hembook.this-is-private-and-would-be-shown", f.name))
			}
		}
	}
	return out.Sorted()
}

// private are those of the finds of all files that stand in nothing public: what is
// public is read through once for all of them.
func (p *packProof) private(finds []proof.Find) map[proof.Find]bool {
	out := map[proof.Find]bool{}
	for _, one := range p.secrets.NotOf(p.secrets.Private(finds, p.public), p.said) {
		out[one] = true
	}
	return out
}

// mayShow are the places of what a file's sheets were opened for; a bundle goes
// to whoever gets any of them.
func mayShow(packet *sheet.Packet, file string) []fault.Pos {
	name, _, _ := strings.Cut(file, ".")
	var out []fault.Pos
	for _, s := range packet.Sheets {
		if s.Name == name || string(s.Bundle) == name {
			out = append(out, s.MayShow...)
		}
	}
	return out
}

func (p *packProof) said(tell func(string)) {
	for i := range p.figures {
		proof.SayFigure(&p.figures[i], tell)
		tell(fmt.Sprint(p.figures[i].Value.Number))
	}
}
