package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// torn is a cloth with three slips that can be corrected.
const torn = "name: Torn\nfibres: 100% linen\nwdth: 140 cm\non-hand: 3,2 m\n"

// correctorOn is a corrector that takes answers, in a workroom with one cloth.
func correctorOn(t *testing.T, text string, answer func(n int, file string) string) (c *corrector, file string, out *bytes.Buffer) {
	t.Helper()
	dir := t.TempDir()
	file = filepath.Join(dir, "content", "cloth", "torn.yaml")
	for name, text := range map[string]string{filepath.Join(dir, "content", "workroom.yaml"): "name: Test workroom\n", file: text} {
		if err := writeNew(name, []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	out = &bytes.Buffer{}
	asked := 0
	c = &corrector{out: out, seen: map[string]bool{}}
	c.check = func() (checked, error) { return checkAll(&options{room: dir}, newProgress(out, "")) }
	c.answer = func() (string, error) { asked++; return answer(asked, file), nil }
	return c, file, out
}

// Each correction is written when the maker says yes to it, and no other.
func TestCorrectAsks(t *testing.T) {
	nothingBeside(t)
	for _, k := range []struct {
		name, answers string
		want          string
		summary       string
	}{
		{"yes to each", "y y y", "name: Torn\nfibres: {linen: 100}\nwidth: 140 cm\non-hand: 3.2 m\n", "3 things were corrected"},
		{"no to one", "y n y", "name: Torn\nfibres: {linen: 100}\nwdth: 140 cm\non-hand: 3.2 m\n", "2 things were corrected, 1 stays as it was"},
		{"all from the second on", "n all", "name: Torn\nfibres: 100% linen\nwidth: 140 cm\non-hand: 3.2 m\n", "2 things were corrected, 1 stays as it was"},
		{"stopped at the second", "y q", "name: Torn\nfibres: {linen: 100}\nwdth: 140 cm\non-hand: 3,2 m\n", "1 thing was corrected, 1 stays as it was"},
		{"asked again where nothing was understood", "perhaps q", torn, "nothing was corrected, 1 stays as it was"},
	} {
		t.Run(k.name, func(t *testing.T) {
			answers := strings.Fields(k.answers)
			c, file, out := correctorOn(t, torn, func(n int, _ string) string {
				if n > len(answers) {
					t.Fatalf("asked a %dth time", n)
				}
				return answers[n-1]
			})
			if _, err := c.run(); err != nil {
				t.Fatal(err)
			}
			if got, _ := os.ReadFile(file); string(got) != k.want {
				t.Errorf("wrote\n%s\nwant\n%s", got, k.want)
			}
			if got := c.summary(); got != k.summary {
				t.Errorf("said %q, want %q", got, k.summary)
			}
			if shown := "   2 - fibres: 100% linen\n   2 + fibres: {linen: 100}\n"; !strings.Contains(out.String(), shown) {
				t.Errorf("%q was not shown:\n%s", shown, out)
			}
		})
	}
}

// A record that was saved between being shown and the yes stays as it was saved.
func TestCorrectLeavesWhatWasSavedMeanwhile(t *testing.T) {
	saved := torn + "# a remark added meanwhile\n"
	c, file, _ := correctorOn(t, torn, func(_ int, file string) string {
		if err := os.WriteFile(file, []byte(saved), 0o666); err != nil {
			t.Fatal(err)
		}
		return "y"
	})
	_, err := c.run()
	if err == nil || !strings.Contains(err.Error(), "content/cloth/torn.yaml is unchanged: the file was saved meanwhile") {
		t.Errorf("said %v", err)
	}
	if got, _ := os.ReadFile(file); string(got) != saved {
		t.Errorf("the file holds\n%s", got)
	}
	entries, err := os.ReadDir(filepath.Dir(file))
	if err != nil || len(entries) != 1 {
		t.Errorf("%v lie beside it, %v", entries, err)
	}
}

// Line ends, the mark before the text and the lack of a last line end stay.
func TestCorrectKeepsBytes(t *testing.T) {
	nothingBeside(t)
	for name, text := range map[string]string{
		"ends of Windows": strings.ReplaceAll(torn, "\n", "\r\n"), "mark": "\xef\xbb\xbf" + torn, "no last end": strings.TrimSuffix(torn, "\n"),
	} {
		c, file, _ := correctorOn(t, text, func(int, string) string { return "all" })
		if _, err := c.run(); err != nil {
			t.Fatal(err)
		}
		want := strings.NewReplacer("100% linen", "{linen: 100}", "wdth", "width", "3,2", "3.2").Replace(text)
		if got, _ := os.ReadFile(file); string(got) != want {
			t.Errorf("%s: wrote %q, want %q", name, got, want)
		}
	}
}

// What may be right as it stands stays, where nobody is asked about each: a weight of
// 2400 g/m2 is doubted, and a word that is none is wrong.
func TestCorrectAllLeavesWarnings(t *testing.T) {
	const doubted = "name: Torn\nfibres: {linen: 100}\nwdth: 140 cm\nweight: 2400 g/m2\n"
	for name, all := range map[string]bool{"--yes": true, "all": false} {
		c, file, out := correctorOn(t, doubted, func(int, string) string { return "all" })
		c.all = all
		if _, err := c.run(); err != nil {
			t.Fatal(err)
		}
		if got, _ := os.ReadFile(file); string(got) != strings.Replace(doubted, "wdth", "width", 1) {
			t.Errorf("%s wrote\n%s", name, got)
		}
		if got := c.summary(); got != "1 thing was corrected, 1 stays as it was" {
			t.Errorf("%s said %q", name, got)
		}
		if strings.Contains(out.String(), "2400 g/m2 is a lot") {
			t.Errorf("%s: the warning was shown to be written:\n%s", name, out)
		}
	}
}

// The end of what is typed is a q.
func TestCorrectEndsWithItsInput(t *testing.T) {
	c, file, _ := correctorOn(t, torn, nil)
	c.answer = answersFrom(strings.NewReader("Y\n"))
	if _, err := c.run(); err != nil && !errors.Is(err, errStop) {
		t.Fatal(err)
	}
	if got, _ := os.ReadFile(file); string(got) != strings.Replace(torn, "100% linen", "{linen: 100}", 1) {
		t.Errorf("wrote\n%s", got)
	}
}
