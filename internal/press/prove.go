package press

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"

	"hembook/internal/fault"
	"hembook/internal/notebook"
	"hembook/internal/proof"
	"hembook/internal/say"
	"hembook/internal/search"
)

// A leak is a private value that stands in a file that would go out.
type leak struct {
	proof.Find
	file notebook.Address
}

// prove searches every file that would go out for everything private of the
// workroom, and notes each that is found as a fault of its record. It is the
// last thing before the notebook is put in place. Files that are as they were
// when the same was looked for are not searched again.
func (r *pressing) prove(ctx context.Context) error {
	kept := r.room.Secrets()
	for _, l := range r.builds {
		kept = append(kept, l.secrets...)
	}
	secrets := proof.New(kept)
	all := !secrets.Same(r.before.proved)
	var found []leak
	look := func(a notebook.Address, data []byte) {
		finds := secrets.Find(string(a), data)
		if len(finds) == 0 {
			return
		}
		r.mu.Lock()
		defer r.mu.Unlock()
		for _, f := range finds {
			found = append(found, leak{f, a})
		}
	}
	files := r.out.toProve(all)
	buffers := sync.Pool{New: func() any { return new(bytes.Buffer) }}
	if err := r.each(ctx, len(files), func(_ *printer, i int) error {
		data := buffers.Get().(*bytes.Buffer)
		defer buffers.Put(data)
		if err := readAgain(data, filepath.Join(r.out.stage.Dir, filepath.FromSlash(string(files[i])))); err != nil {
			return fault.Wrapping(Reason(err), say.Of("press.cannot-be-read-again", files[i], Reason(err)))
		}
		look(files[i], data.Bytes())
		return nil
	}); err != nil {
		return err
	}
	if err := r.proveIndex(ctx, all, look); err != nil {
		return err
	}
	r.now.proved = secrets
	r.stop(r.told(secrets, found))
	return nil
}

// readAgain reads a file whole into a buffer.
func readAgain(into *bytes.Buffer, path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	into.Reset()
	_, err = into.ReadFrom(f)
	return err
}

// toProve are the files that are to be searched, in order: all, or those that
// are other than before.
func (t *target) toProve(all bool) []notebook.Address {
	t.mu.Lock()
	defer t.mu.Unlock()
	var out []notebook.Address
	for a := range t.files {
		if (all || t.changed[a]) && !packed(a) {
			out = append(out, a)
		}
	}
	slices.Sort(out)
	return out
}

// packed reports whether a file holds words of the search in letters of its own, in
// which chance spells amounts that nobody wrote. The words themselves are searched as
// they stand in the documents that the files are packed from.
func packed(a notebook.Address) bool {
	rest, ok := strings.CutPrefix(string(a), "search/")
	return ok && (strings.Contains(rest, "/") || rest == "pieces.js")
}

// ofTheme reports whether a file is one of the theme, which is written from no record: an
// amount in it, as the width of a line, is there by chance.
func ofTheme(a notebook.Address) bool {
	return strings.HasPrefix(string(a), "look/") || strings.HasPrefix(string(a), "script/")
}

// wordsOf are the words of a document, in the order in which its file holds them.
func wordsOf(d *search.Document) []byte {
	out := make([]byte, 0, len(d.Title)+len(d.Under)+len(d.Text)+len(d.More)+500)
	put := func(words string) { out = append(append(out, words...), '\n') }
	put(d.Title)
	put(d.Under)
	for _, a := range d.Answers {
		put(a.Says)
	}
	put(d.Text)
	put(d.More)
	for _, name := range d.Names {
		put(name)
	}
	for _, f := range d.Facets {
		for _, v := range f.Values {
			put(v)
		}
	}
	return out
}

// told tells what is private apart from what is public elsewhere: in the
// workroom, in the words of the program, or as a figure of the same build.
func (r *pressing) told(secrets *proof.Secrets, found []leak) []leak {
	found = slices.DeleteFunc(found, func(l leak) bool { return l.Number && ofTheme(l.file) })
	if len(found) == 0 {
		return nil
	}
	finds := make([]proof.Find, len(found))
	for i, l := range found {
		finds[i] = l.Find
	}
	private := secrets.Private(finds, proof.Public(r.room))
	var out []leak
	for _, l := range found {
		if slices.Contains(private, l.Find) && (!l.Number || len(secrets.NotOf([]proof.Find{l.Find}, r.figuresOf(l.file))) > 0) {
			out = append(out, l)
		}
	}
	return out
}

// figuresOf says all public figures, with their workings, of the build that a
// file belongs to.
func (r *pressing) figuresOf(file notebook.Address) func(say func(words string)) {
	return func(say func(words string)) {
		i := slices.IndexFunc(r.builds, func(l *imprint) bool { return slices.Contains(l.files, file) })
		if i < 0 {
			return
		}
		b, _ := r.room.ReadBuild(r.room.Builds[i])
		for _, f := range r.tailor.Cut(b).Garment.Figures() {
			proof.SayFigure(&f, say)
			say(f.Working.Sum())
			for _, in := range f.Working.Inputs() {
				say(in.Value)
			}
		}
	}
}

// stop makes faults of what was found, one for each private value. They name
// its place and never quote it.
func (r *pressing) stop(found []leak) {
	at := map[fault.Pos][]string{}
	for _, l := range found {
		at[l.At] = append(at[l.At], string(l.file))
	}
	var faults fault.Faults
	for pos, files := range at {
		slices.Sort(files)
		files = slices.Compact(files)
		more := ""
		if n := len(files) - 1; n > 0 {
			more = say.Of("press.and-more", strconv.Itoa(n))
		}
		faults.Wrong(pos, say.Of("press.look-at-that-page-for-it-if"), say.Of("press.this-is-private-and-would-be-shown", files[0], more))
	}
	r.fault(faults.Sorted()...)
}
