package record

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"math"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"hembook/internal/disk"
	"hembook/internal/fault"
	"hembook/internal/say"
)

// What a file may weigh. A record written by hand is a few kilobytes.
const (
	mostRecord = 4 << 20
)

// readFile reads one file whole, within the workroom and within bounds.
func readFile(root fs.FS, src *fault.Source, most int64, faults *fault.Faults) ([]byte, bool) {
	at := fault.Pos{Source: src, Line: 1, Column: 1}
	f, err := root.Open(src.Path)
	if err != nil {
		faults.Wrong(at, openHint(err), say.Of("record.this-file-cannot-be-read", plainError(err)))
		return nil, false
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		faults.Wrong(at, "", say.Of("record.this-file-cannot-be-read", plainError(err)))
		return nil, false
	case !info.Mode().IsRegular():
		faults.Wrong(at, say.Of("record.put-a-plain-file-there"), say.Of("record.this-is-not-a-file"))
		return nil, false
	case info.Size() > most:
		faults.Wrong(at, say.Of("record.a-record-is-words-alone-did-a"), say.Of("record.this-file-is-at-most-is-read", sizeWords(info.Size()), sizeWords(most)))
		return nil, false
	}
	var text bytes.Buffer
	text.Grow(int(info.Size()) + bytes.MinRead) // else it would be read in many small bites
	if _, err := text.ReadFrom(io.LimitReader(f, most+1)); err != nil {
		faults.Wrong(at, "", say.Of("record.this-file-cannot-be-read", plainError(err)))
		return nil, false
	}
	return text.Bytes(), true
}

func openHint(err error) string {
	if errors.Is(err, fs.ErrNotExist) {
		return say.Of("record.is-the-name-spelt-the-same-capitals")
	}
	if _, no := errors.AsType[disk.NotAFile](err); no {
		return say.Of("record.put-a-plain-file-there")
	}
	if strings.Contains(err.Error(), "escapes") {
		return say.Of("record.a-link-may-not-lead-out-of")
	}
	return ""
}

// plainError says what went wrong without the path, which the fault names already.
func plainError(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return say.Of("record.there-is-no-such-file")
	case errors.Is(err, fs.ErrPermission):
		return say.Of("record.reading-it-is-not-allowed")
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		if strings.Contains(p.Err.Error(), "escapes") {
			return say.Of("record.it-leads-out-of-the-workroom")
		}
		return p.Err.Error()
	}
	return err.Error()
}

func sizeWords(n int64) string {
	if n >= 1<<20 {
		return strconv.FormatFloat(math.Round(float64(n)/(1<<20)*10)/10, 'f', -1, 64) + " MB"
	}
	return strconv.FormatInt(n>>10, 10) + " KB"
}

// checkText finds bytes that are not text and says where.
func checkText(src *fault.Source, text []byte, faults *fault.Faults) ([]byte, bool) {
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	if utf8.Valid(text) && bytes.IndexByte(text, 0) < 0 {
		return text, true
	}
	line, column := int32(1), int32(1)
	for rest := text; len(rest) > 0; {
		r, size := utf8.DecodeRune(rest)
		if r == utf8.RuneError && size == 1 || r == 0 {
			message, hint := notText(text, rest)
			faults.Wrong(fault.Pos{Source: src, Line: line, Column: column}, hint, message)
			return nil, false
		}
		if column++; r == '\n' {
			line, column = line+1, 1
		}
		rest = rest[size:]
	}
	return text, true
}

// parseYAML reads one document into its root node; false where there is none.
func parseYAML(src *fault.Source, text []byte, shift int32, faults *fault.Faults) (*yaml.Node, bool) {
	if !checkMany(src, text, shift, faults) {
		return nil, false
	}
	var doc yaml.Node
	dec := yaml.NewDecoder(bytes.NewReader(text))
	err := dec.Decode(&doc)
	switch {
	case errors.Is(err, io.EOF), err == nil && len(doc.Content) == 0:
		faults.Wrong(fault.Pos{Source: src, Line: 1 + shift, Column: 1}, say.Of("record.write-at-least-what-must-be-there"), say.Of("record.this-record-is-empty"))
		return nil, false
	case err != nil:
		faults.Add(syntaxFaults(src, text, shift, err)...)
		return nil, false
	}
	var more yaml.Node
	switch err := dec.Decode(&more); {
	case err == nil:
		faults.Wrong(fault.Pos{Source: src, Line: int32(more.Line) + shift, Column: 1}, say.Of("record.one-file-holds-one-record-move-the"), say.Of("record.a-second-record-begins-here"))
		return nil, false
	case !errors.Is(err, io.EOF): // what follows would be shown unread
		faults.Add(syntaxFaults(src, text, shift, err)...)
		return nil, false
	}
	return doc.Content[0], true
}

// splitHeader takes the YAML header off a Markdown file. line is where the
// body begins.
func splitHeader(src *fault.Source, text []byte, faults *fault.Faults) (header, body []byte, line int32, ok bool) {
	const fence = "---"
	first, rest, _ := bytes.Cut(text, []byte("\n"))
	if string(bytes.TrimRight(first, " \r")) != fence {
		faults.Wrong(fault.Pos{Source: src, Line: 1, Column: 1}, say.Of("record.begin-the-file-with-a-line-then"), say.Of("record.the-header-is-missing"))
		return nil, nil, 0, false
	}
	line = 2
	for start := 0; start <= len(rest); line++ {
		one, _, more := bytes.Cut(rest[start:], []byte("\n"))
		if string(bytes.TrimRight(one, " \r")) == fence {
			return rest[:start], rest[min(len(rest), start+len(one)+1):], line + 1, true
		}
		if !more {
			break
		}
		start += len(one) + 1
	}
	faults.Wrong(fault.Pos{Source: src, Line: 1, Column: 1}, say.Of("record.end-it-with-a-line"), say.Of("record.the-header-does-not-end"))
	return nil, nil, 0, false
}

// openRoot opens the workroom's folder so that nothing outside can be reached.
func openRoot(dir string) (*os.Root, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, errors.New(say.Of("record.cannot-be-opened-as-a-workroom", dir, plainError(err)))
	}
	if link := leadsOut(root); link != "" {
		root.Close()
		return nil, errors.New(say.Of("record.leads-out-of-the-workroom-remove-that", filepath.Join(dir, link)))
	}
	return root, nil
}

// keepFolder is where the program keeps what it works out, and running clocks.
const keepFolder = ".hembook"

// leadsOut names a link out of the workroom where the program keeps its own
// files, which would else be written elsewhere; "" where there is none.
func leadsOut(root *os.Root) string {
	names := []string{keepFolder}
	list, _ := fs.ReadDir(root.FS(), keepFolder)
	for _, e := range list {
		names = append(names, path.Join(keepFolder, e.Name()))
	}
	for _, name := range names {
		info, err := root.Lstat(name)
		if err != nil || info.Mode()&fs.ModeSymlink == 0 {
			continue
		}
		if _, err := root.Stat(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return name
		}
	}
	return ""
}
