package answer

import (
	"strings"
	"testing"

	"hembook/internal/record"
)

const good = `answer: measurements
garment: coat
day: 2026-11-29
by: "my sister"
units: cm
body:
  waist: [75.5, 76]
  hip: [99, 102, 99.5]
  height: 169
`

// TestRead: an answer is read as it was made, out of a message that quotes it with words
// round it, and with a comma for the point.
func TestRead(t *testing.T) {
	quoted := "Hello!\n\n> " + strings.ReplaceAll(strings.TrimSuffix(good, "\n"), "\n", "\n> ") + "\n\nLove, L.\n"
	for name, text := range map[string]string{
		"as made":       good,
		"in a message":  "Dear Maud,\n" + good + "\nyours\n",
		"quoted":        quoted,
		"other ends":    strings.ReplaceAll(good, "\n", "\r\n"),
		"spaces behind": strings.ReplaceAll(good, "\n", "  \n"),
	} {
		m, faults := Read("a.txt", []byte(text))
		if len(faults) > 0 {
			t.Errorf("%s: %v", name, faults)
			continue
		}
		if m.Garment != "coat" || m.Day != (record.Day{Year: 2026, Month: 11, Day: 29}) || m.By != "my sister" || len(m.Body) != 3 {
			t.Errorf("%s: %+v", name, m)
		}
		for i, want := range []struct{ middle, spread float64 }{{757.5, 5}, {995, 5}, {1690, 0}} {
			if r := &m.Body[i]; r.Middle() != want.middle || r.Spread() != want.spread {
				t.Errorf("%s: %s %v: middle %v, spread %v", name, r.Name, r.MM, r.Middle(), r.Spread())
			}
		}
	}
}

// TestReadRefuses: what cannot be understood is told at its line, and nothing is given.
func TestReadRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"no answer", "waist 75\n", "a.txt:1:1: error: this is no answer to a sheet that was sent out"},
		{"no number", strings.Replace(good, "[75.5, 76]", "[75.5, wide]", 1), `a.txt:7:1: error: waist: "wide" is no length of a body`},
		{"below a greeting", "Dear Maud,\n\n" + strings.Replace(good, "[75.5, 76]", "[-3, 4]", 1), `a.txt:9:1: error: waist: "-3" is no length of a body`},
		{"metres for centimetres", strings.Replace(good, "169", "1690", 1), `a.txt:9:1: error: height: "1690" is no length of a body`},
		{"no day", strings.Replace(good, "2026-11-29", "yesterday", 1), `a.txt:3:1: error: "yesterday" is no day`},
		{"no unit", strings.Replace(good, "units: cm", "units: hands", 1), `a.txt:5:1: error: "hands" is no unit`},
		{"another word", strings.Replace(good, "by:", "from:", 1), `a.txt:4:1: error: an answer has no "from"`},
		{"nothing measured", good[:strings.Index(good, "  waist")], "nothing was measured"},
		{"no garment", strings.Replace(good, "garment: coat\n", "", 1), "does not say for which garment"},
	} {
		m, faults := Read("a.txt", []byte(c.text))
		if m != nil || len(faults) == 0 || !strings.Contains(faults[0].String(), c.want) {
			t.Errorf("%s: %+v, %v; want %s", c.name, m, faults, c.want)
		}
	}
}

// FuzzRead: whatever comes is read or refused, and what is read are lengths a body has.
func FuzzRead(f *testing.F) {
	f.Add([]byte(good))
	f.Add([]byte("> answer: measurements\n> body: {waist: [.nan, 1e400]}\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		m, faults := Read("a.txt", text)
		if (m == nil) != (len(faults) > 0) {
			t.Fatalf("%+v, %v", m, faults)
		}
		if m == nil {
			return
		}
		for _, r := range m.Body {
			for _, mm := range r.MM {
				if !(mm > 0 && mm <= mostMM) {
					t.Fatalf("%s is %v", r.Name, mm)
				}
			}
		}
	})
}

// TestPhotographsInAnAnswer: they are read as they were written, and refused with their
// line where they did not come whole, or where lengths of a body are told.
func TestPhotographsInAnAnswer(t *testing.T) {
	const begun = "answer: mock-up\ngarment: coat\nday: 2026-11-29\nsitting: \"it slips\"\n"
	m, faults := Read("a", []byte("> "+strings.ReplaceAll(begun+"photographs:\n  - aGVt\n  - c2VhbQ==", "\n", "\n> ")))
	if len(faults) > 0 || len(m.Photos) != 2 || string(m.Photos[0]) != "hem" || string(m.Photos[1]) != "seam" {
		t.Errorf("%v, %+v", faults, m)
	}
	for text, want := range map[string]string{
		begun + "photographs:\n  - aGVt\n  - c2V%%\n":          "a:7:1: error: the photograph did not come whole",
		strings.TrimSpace(good) + "\nphotographs:\n  - aGVt\n": "",
	} {
		m, faults := Read("a", []byte(text))
		if want == "" { // the body is the last part of an answer
			if len(faults) > 0 || len(m.Photos) > 0 {
				t.Errorf("%v, %+v", faults, m)
			}
			continue
		}
		if len(faults) != 1 || !strings.HasPrefix(faults[0].String(), want) {
			t.Errorf("%v, want %s", faults, want)
		}
	}
}
