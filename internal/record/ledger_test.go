package record

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/measure"
)

// clothOf reads the record of a cloth of 1400.
func clothOf(t *testing.T, more string) (*Cloth, []fault.Fault) {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"content/workroom.yaml":    "name: Test\nunits: mm\n",
		"content/cloth/linen.yaml": "name: Linen\nfibres: {linen: 100}\nwidth: 1400\n" + more,
	} {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o777), os.WriteFile(path, []byte(text), 0o666)); err != nil {
			t.Fatal(err)
		}
	}
	room, faults, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	c, ok := room.Cloth("linen")
	if !ok {
		t.Fatal(faults)
	}
	return c, faults
}

// TestMovements: what came, was cut and was counted, in the order of the days, with
// what was left after each.
func TestMovements(t *testing.T) {
	for _, c := range []struct{ name, cloth, want string }{
		{"counted long ago", "on-hand: 3 m\n", "3000"},
		{"and cut", "on-hand: 3 m\ncut: {a shell: 1 m}\n", "3000 2000"},
		{"by days, not by lines", "cut: {a shell: {length: 800, day: 2026-03-01}, b: {length: 500, day: 2026-02-01}}\ncame: {2026-02-15: 1 m, 2026-01-01: 2 m}\n",
			"01-01+2000=2000 02-01-500=1500 02-15+1000=2500 03-01-800=1700"},
		{"what came is there before it is cut", "cut: {a shell: {length: 800, day: 2026-02-01}}\ncame: {2026-02-01: 1 m}\n", "02-01+1000=1000 02-01-800=200"},
		{"counted anew", "on-hand: {length: 1.4 m, day: 2026-02-10}\ncame: {2026-01-01: 2 m}\ncut: {a shell: {length: 500, day: 2026-02-01}, b: {length: 300, day: 2026-03-01}}\n",
			"01-01+2000=2000 02-01-500=1500 02-10:1400=1400 03-01-300=1100"},
		{"nothing known before the count", "on-hand: {length: 1.4 m, day: 2026-02-10}\ncut: {a shell: {length: 500, day: 2026-02-01}, b: {length: 300, day: 2026-03-01}}\n",
			"02-01-500=? 02-10:1400=1400 03-01-300=1100"},
		{"cut on no day, before a count", "on-hand: {length: 1.4 m, day: 2026-02-10}\ncut: {a shell: 500}\n", "-500=? 02-10:1400=1400"},
		{"nothing but cuts", "cut: {a shell: 500}\n", "-500=?"},
	} {
		cloth, _ := clothOf(t, c.cloth)
		var out []string
		for _, m := range cloth.Movements() {
			day, sign := "", map[MovementKind]string{CameIn: "+", WasCut: "-", WasCounted: ":"}[m.Kind]
			if m.Day != (Day{}) {
				day = m.Day.String()[5:]
			}
			left := "?"
			if m.Known {
				left = fmt.Sprint(m.Left.MM())
			}
			if day == "" && m.Kind != WasCut || c.name == "and cut" {
				out = append(out, left)
				continue
			}
			out = append(out, fmt.Sprintf("%s%s%v=%s", day, sign, m.Length.V.MM(), left))
		}
		if got := strings.Join(out, " "); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// TestLedgerOfManyRooms: in random ledgers what came is what was cut and what is
// left, whatever the order of the lines; a length that was not there is faulted on
// that day and on no other, and nothing else is.
func TestLedgerOfManyRooms(t *testing.T) {
	for seed := range uint64(150) {
		rng := rand.New(rand.NewPCG(seed, 4))
		var came, cut []string
		byDay := map[int]int{} // what is added on a day of the year, mm
		lots, cuts := 1+rng.IntN(3), rng.IntN(6)
		for range lots {
			day, mm := 1+rng.IntN(28), 1000+rng.IntN(4000)
			if _, twice := byDay[2*day]; twice {
				continue
			}
			byDay[2*day] += mm
			came = append(came, fmt.Sprintf("  2026-03-%02d: %d mm\n", day, mm))
		}
		for i := range cuts {
			day, mm := 1+rng.IntN(28), 100+rng.IntN(1500)
			byDay[2*day+1] -= mm
			cut = append(cut, fmt.Sprintf("  use %d: {length: %d mm, day: 2026-03-%02d}\n", i, mm, day))
		}
		want, short := 0, false
		for turn := range 60 {
			want += byDay[turn]
			short = short || want < -10
		}
		text := func() string {
			rng.Shuffle(len(came), func(i, j int) { came[i], came[j] = came[j], came[i] })
			rng.Shuffle(len(cut), func(i, j int) { cut[i], cut[j] = cut[j], cut[i] })
			out := "came:\n" + strings.Join(came, "")
			if len(cut) > 0 {
				out += "cut:\n" + strings.Join(cut, "")
			}
			return out
		}
		for range 3 {
			record := text()
			c, faults := clothOf(t, record)
			list := c.Movements()
			if last := list[len(list)-1]; last.Left != measure.Length(want)*measure.Millimetre || !last.Known {
				t.Fatalf("seed %d: %v left, want %d\n%s", seed, last.Left, want, record)
			}
			found := 0
			for _, f := range faults {
				if strings.Contains(f.Message, "was cut off for") {
					found++
				}
			}
			if (found == 1) != short || found > 1 {
				t.Fatalf("seed %d: %d faults, short %v\n%s%v", seed, found, short, record, faults)
			}
		}
	}
}

// TestOneBuildKnowsNoOther: a room opened for one build does not ask whether another
// that a cloth was cut for is that one; opened whole, it asks where there is none.
func TestOneBuildKnowsNoOther(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"content/workroom.yaml":             "name: Test\nunits: mm\n",
		"content/cloth/linen.yaml":          "name: Linen\nfibres: {linen: 100}\nwidth: 1400\ncut: {skirt-2 shell: 1 m}\n",
		"content/builds/skirt-1/build.yaml": "name: One\n",
		"content/builds/skirt-2/build.yaml": "name: Two\n",
	} {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o777), os.WriteFile(path, []byte(text), 0o666)); err != nil {
			t.Fatal(err)
		}
	}
	asks := func(open func() (*Room, []fault.Fault, error)) bool {
		room, faults, err := open()
		if err != nil {
			t.Fatal(err)
		}
		defer room.Close()
		return strings.Contains(fmt.Sprint(faults), "there is no garment")
	}
	if asks(func() (*Room, []fault.Fault, error) { return OpenFor(dir, "skirt-1") }) {
		t.Error("opened for one build, it says that the other is none")
	}
	if asks(func() (*Room, []fault.Fault, error) { return Open(dir) }) {
		t.Error("opened whole, it does not know the build")
	}
	if err := os.RemoveAll(filepath.Join(dir, "content", "builds", "skirt-2")); err != nil {
		t.Fatal(err)
	}
	if !asks(func() (*Room, []fault.Fault, error) { return Open(dir) }) {
		t.Error("it does not ask about a build that is none")
	}
}
