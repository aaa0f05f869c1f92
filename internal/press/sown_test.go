package press

import (
	"errors"
	"html"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/madeup"
	"hembook/internal/madeup/sown"
)

// sowings is how many workrooms secrets are sown in: HEMBOOK_SOWN says it.
func sowings() int {
	if n, err := strconv.Atoi(os.Getenv("HEMBOOK_SOWN")); err == nil {
		return n
	}
	return 6
}

// TestNothingSownIsPressed presses workrooms with a secret in every private
// place. The proof is asked and its answer noted, but it stops nothing: none of
// the files may hold a secret all the same. And a workroom that differs in its
// secrets alone gives the same files byte for byte, so that nothing private is
// in them in any form, however packed.
func TestNothingSownIsPressed(t *testing.T) {
	if testing.Short() {
		t.Skip("presses with the workers of the other tests")
	}
	n, rooms, files, secrets := sowings(), 0, 0, 0
	seed := uint64(0)
	for ; rooms < n; seed++ {
		all, sownHere := pressSown(t, sown.Sowing{Room: seed})
		if all == nil { // its figures have faults
			continue
		}
		other, _ := pressSown(t, sown.Sowing{Room: seed, Salt: 1})
		rooms, files, secrets = rooms+1, files+len(all), secrets+len(sownHere)
		for name, text := range all {
			for _, s := range sown.Search(name, []byte(text), sownHere) {
				t.Errorf("seed %d: %s holds what was sown as %s: %v", seed, name, s.Place, s.Forms)
			}
			if other[name] != text {
				t.Errorf("seed %d: %s is other where the secrets are", seed, name)
			}
		}
		if len(other) != len(all) {
			t.Errorf("seed %d: %d files, and %d where the secrets are other", seed, len(all), len(other))
		}
		if !strings.Contains(all["records/"+madeup.Build+".html"], "thread") {
			t.Errorf("seed %d: the record is not shown", seed)
		}
		if rooms%50 == 0 {
			t.Logf("%d workrooms so far", rooms)
		}
		if seed > uint64(10+4*n) {
			t.Fatalf("of %d workrooms only %d can be pressed", seed, rooms)
		}
	}
	t.Logf("%d workrooms of %d, %d secrets, %d files", rooms, seed, secrets, files)
}

// pressSown presses a workroom of secrets; nil where its figures have errors.
func pressSown(t *testing.T, s sown.Sowing) (map[string]string, []sown.Secret) {
	t.Helper()
	f, secrets := s.Workroom()
	dir, to := room(t, f), filepath.Join(t.TempDir(), "pressed")
	var told error
	_, faults, err := pressWith(t, dir, nil, Options{To: to, around: func(proof func() error) error {
		told = proof()
		return nil
	}})
	if err != nil && !strings.Contains(errorsOf(faults), "this is private") {
		return nil, nil
	}
	if err != nil || told != nil {
		t.Errorf("seed %d: %v, %v: %v", s.Room, err, told, errorsOf(faults))
		_, faults, err = pressWith(t, dir, nil, Options{To: to, around: func(func() error) error { return nil }})
	}
	if err != nil {
		t.Fatalf("seed %d: %v: %v", s.Room, err, errorsOf(faults))
	}
	out := tree(t, to)
	for _, made := range []string{dir, to} { // hundreds of them would fill the disk
		if err := os.RemoveAll(made); err != nil {
			t.Fatal(err)
		}
	}
	return out, secrets
}

func errorsOf(faults []fault.Fault) string {
	out := ""
	for _, f := range faults {
		if f.Severity == fault.Error {
			out += f.String() + "\n"
		}
	}
	return out
}

// TestTheProofStopsWhatRedactionLetsThrough breaks what cuts records, by
// putting the whole record on its page before the proof looks: the press stops,
// and names every private value of the record that tells something by itself.
func TestTheProofStopsWhatRedactionLetsThrough(t *testing.T) {
	if testing.Short() {
		t.Skip("presses with the workers of the other tests")
	}
	tried := 0
	for seed := uint64(0); tried < 3; seed++ {
		if seed == 20 {
			t.Fatal("almost no made-up garment is without errors in its figures")
		}
		f, secrets := sown.Sowing{Room: seed}.Workroom()
		dir, to := room(t, f), filepath.Join(t.TempDir(), "pressed")
		whole := f["content/builds/"+madeup.Build+"/build.yaml"]
		looked := false // nothing is pressed, and so nothing proved, where figures have errors
		_, faults, err := pressWith(t, dir, nil, Options{To: to, around: func(proof func() error) error {
			looked = true
			pages, err := filepath.Glob(to + stageEnd + "*/records/" + madeup.Build + ".html")
			if err != nil || len(pages) != 1 {
				t.Fatal(pages, err)
			}
			page, err := os.ReadFile(pages[0])
			if err != nil {
				t.Fatal(err)
			}
			broken := strings.Replace(string(page), "</pre>", html.EscapeString(whole)+"</pre>", 1)
			if err := os.WriteFile(pages[0], []byte(broken), 0o644); err != nil {
				t.Fatal(err)
			}
			return proof()
		}})
		if !looked {
			continue
		}
		tried++
		if !errors.Is(err, ErrRecords) {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if _, err := os.Stat(to); err == nil {
			t.Errorf("seed %d: something was pressed", seed)
		}
		told := errorsOf(faults)
		lines := strings.Split(whole, "\n")
		for _, s := range secrets {
			if !strings.HasPrefix(s.Place, "build: ") {
				continue
			}
			line := 0
			for i, l := range lines {
				if len(sown.Search("x.txt", []byte(l), []sown.Secret{s})) > 0 {
					line = i + 1
					break
				}
			}
			if !toldNear(told, line) {
				t.Errorf("seed %d: %s, on line %d, is not told of in\n%s%s", seed, s.Place, line, told, whole)
			}
		}
	}
}

// toldNear reports whether a value is told of that begins on a line, or a few
// before it.
func toldNear(told string, line int) bool {
	for l := line; l > line-4; l-- {
		if strings.Contains(told, "build.yaml:"+strconv.Itoa(l)+":") {
			return true
		}
	}
	return false
}
