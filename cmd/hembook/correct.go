package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"golang.org/x/term"

	"hembook/internal/fault"
	"hembook/internal/record/amend"
	"hembook/internal/say"
)

// A corrector shows what check proposes, one fault at a time, and writes what it is
// told to.
type corrector struct {
	check  func() (checked, error)
	draw   func(checked) error    // shows what is proposed, beside; nil where it is not asked for
	answer func() (string, error) // one line of the maker's; nil where nobody is asked
	out    io.Writer

	all     bool            // what is wrong is corrected unasked, and warnings stay as they are
	seen    map[string]bool // faults that were shown
	written int
	left    int
}

// newCorrector is a corrector that asks at the terminal, or writes all where it is told
// so; an error where nobody can answer.
func newCorrector(in io.Reader, out io.Writer, all bool) (*corrector, error) {
	c := &corrector{out: out, all: all, seen: map[string]bool{}}
	if all {
		return c, nil
	}
	asks, isFile := in.(*os.File)
	shows, also := out.(*os.File)
	if !isFile || !also || !term.IsTerminal(int(asks.Fd())) || !term.IsTerminal(int(shows.Fd())) {
		return nil, misused(say.Of("hembook.nobody-can-answer-here-this-is-not"))
	}
	c.answer = answersFrom(in)
	return c, nil
}

// answersFrom reads one line at a time.
func answersFrom(in io.Reader) func() (string, error) {
	lines := bufio.NewReader(in)
	return func() (string, error) {
		line, err := lines.ReadString('\n')
		if line != "" {
			err = nil
		}
		return strings.ToLower(strings.TrimSpace(line)), err
	}
}

// errStop says that the maker has had enough.
var errStop = errors.New("stopped")

// run corrects until nothing new is proposed, or the maker stops. After each record
// that was written everything is checked anew, for places have moved and one slip may
// have been the reason of others.
func (c *corrector) run() (checked, error) {
	for {
		found, err := c.check()
		if err != nil {
			return found, err
		}
		if c.draw != nil {
			if err := c.draw(found); err != nil {
				return found, err
			}
		}
		switch again, err := c.pass(found); {
		case errors.Is(err, errStop):
			if c.written > 0 {
				return c.check()
			}
			return found, nil
		case err != nil:
			return found, err
		case !again:
			return found, nil
		}
	}
}

// pass goes through what was found, until a record is written; again says that one was.
// Where nobody is asked it goes on with the other records.
func (c *corrector) pass(found checked) (again bool, err error) {
	touched := map[string]bool{}
	for _, f := range found.faults {
		if len(f.Correct) == 0 || touched[f.Correct[0].At.File()] {
			continue
		}
		file, wrote, err := c.one(f, found.dir)
		if err != nil {
			return again, err
		}
		if wrote {
			again, touched[file] = true, true
			if !c.all {
				return true, nil
			}
		}
	}
	return again, nil
}

// one shows what one fault proposes, and writes it on a yes.
func (c *corrector) one(f fault.Fault, dir string) (file string, wrote bool, err error) {
	file = f.Correct[0].At.File()
	text, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(file)))
	if err != nil {
		return file, false, nil // check tells of it
	}
	key := file + "\x00" + f.Message + "\x00" + lineOf(text, f.At.Line)
	if c.seen[key] {
		return file, false, nil
	}
	c.seen[key] = true
	// The places are of the text as it was read, which is without the mark that some
	// editors write before it.
	mark, body := cutMark(text)
	now, err := amend.Correct(body, f.Correct)
	if err != nil {
		c.left++
		return file, false, nil // what cannot be written safely stays hers to write
	}
	now = append(bytes.Clone(mark), now...)
	if c.all && f.Severity == fault.Warning {
		c.left++
		return file, false, nil // it may be right as it stands: only she can say
	}
	fmt.Fprintln(c.out, f)
	showLines(c.out, text, now)
	if yes, err := c.asks(); err != nil || !yes {
		c.left++
		return file, false, err
	}
	err = amend.File{Folder: dir, Path: file}.Change(func(stands []byte) ([]byte, error) {
		if !bytes.Equal(stands, text) {
			return nil, errors.New(say.Of("hembook.the-file-was-saved-meanwhile-ask-again"))
		}
		return now, nil
	})
	if err != nil {
		return file, false, err
	}
	c.written++
	return file, true, nil
}

// asks reports whether to write what was shown.
func (c *corrector) asks() (bool, error) {
	for !c.all {
		fmt.Fprint(c.out, say.Of("hembook.write-it-y-yes-n-no-a"))
		word, err := c.answer()
		if err != nil {
			return false, errStop
		}
		switch word {
		case "y", "yes":
			return true, nil
		case "n", "no", "":
			return false, nil
		case "a", "all":
			c.all = true
		case "q", "quit":
			return false, errStop
		}
	}
	return true, nil
}

// summary says how many were written.
func (c *corrector) summary() string {
	said := verb(c.written, say.Of("hembook.thing-was-corrected"), say.Of("hembook.things-were-corrected"))
	if c.written == 0 {
		said = say.Of("hembook.nothing-was-corrected")
	}
	if c.left > 0 {
		said += ", " + verb(c.left, say.Of("hembook.stays-as-it-was"), say.Of("hembook.stay-as-they-were"))
	}
	return said
}

// cutMark cuts the mark off that some editors write before a text.
func cutMark(text []byte) (mark, body []byte) {
	const sign = "\xef\xbb\xbf"
	if body, ok := bytes.CutPrefix(text, []byte(sign)); ok {
		return []byte(sign), body
	}
	return nil, text
}

// lineOf is a line of a text, counted from 1.
func lineOf(text []byte, line int32) string {
	lines := strings.Split(string(text), "\n")
	if line < 1 || int(line) > len(lines) {
		return ""
	}
	return lines[line-1]
}

// showLines prints the lines that differ, before and after, with their numbers.
func showLines(out io.Writer, before, after []byte) {
	old, now := strings.Split(string(before), "\n"), strings.Split(string(after), "\n")
	first := 0
	for first < len(old) && first < len(now) && old[first] == now[first] {
		first++
	}
	last := 0
	for last < len(old)-first && last < len(now)-first && old[len(old)-1-last] == now[len(now)-1-last] {
		last++
	}
	print := func(sign string, lines []string) {
		const most = 12
		for i, l := range lines[first : len(lines)-last] {
			if i == most {
				fmt.Fprintf(out, "     %s …\n", sign)
				break
			}
			fmt.Fprintf(out, "%4d %s %s\n", first+i+1, sign, strings.TrimRight(l, "\r"))
		}
	}
	print("-", old)
	print("+", now)
}
