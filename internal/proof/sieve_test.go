package proof

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"hembook/internal/measure"
	"hembook/internal/record"
)

// manySecrets has a needle of every kind.
func manySecrets() *Secrets {
	return secretsOf(
		record.Secret{Name: "name", Text: "Adéla Wren"}, record.Secret{Name: "name", Text: "Élan Zoé Ålesund"},
		record.Secret{Name: "waist", Text: "75.5", Length: measure.MM(755)}, record.Secret{Name: "hip", Text: "98", Length: measure.MM(980)},
		record.Secret{Name: "post", Text: "7.50 EUR"}, record.Secret{Name: "price", Text: "300 €"}, record.Secret{Name: "x", Text: "7993.61"},
		record.Secret{Name: "z", Text: "75"}, record.Secret{Name: "taken", Text: "2026-07-18"}, record.Secret{Name: "wearer", Text: "contralto"},
		record.Secret{Name: "by", Text: "Robin"}, record.Secret{Name: "contact", Text: "me@here.example"}, record.Secret{Name: "name", Text: "山田花子"},
		record.Secret{Name: "name", Text: "Анна Ли"}, record.Secret{Name: "height", Text: "169", Length: measure.MM(1690)},
		record.Secret{Name: "note", Text: "stands with her weight on the left leg, and breathes low when she sings"},
		record.Secret{Name: "note", Text: "a-b c-d e-f g-h i-j k-l m-n o-p q-r"},
	)
}

// madeText is a text of the words of secrets, with all that may stand between
// words and within them.
func madeText(r *rand.Rand, s *Secrets) string {
	between := []string{" ", "</td><td>", " <b class=\"a b\">", "\u00a0", "-", ": ", "\n", "\" title=\"", "<p title='", "'>", "&nbsp;", "&#32;", "%20", `\u0020`, ", ", "x", "<", ">", "/", " & ", "。"}
	var b strings.Builder
	for range 2 + r.IntN(6) {
		words := strings.Fields(s.looks[r.IntN(len(s.looks))].text)
		from := 0
		if r.IntN(3) == 0 {
			from = r.IntN(len(words))
		}
		for _, w := range words[from:] {
			for _, c := range w {
				switch n := r.IntN(60); {
				case n == 0:
					fmt.Fprintf(&b, "&#%d;", c)
				case n == 1:
					fmt.Fprintf(&b, "\\u%04x", c)
				case n == 2:
					for _, one := range []byte(string(c)) {
						fmt.Fprintf(&b, "%%%02X", one)
					}
				case n < 6:
					b.WriteString(strings.ToUpper(string(c)))
				default:
					b.WriteRune(c)
				}
			}
			if r.IntN(3) > 0 {
				b.WriteByte(' ')
			} else {
				b.WriteString(between[r.IntN(len(between))])
			}
		}
	}
	return b.String()
}

// TestTheSieveLosesNothing: what is found in a text taken apart as a whole is
// found through the sieve.
func TestTheSieveLosesNothing(t *testing.T) {
	s := manySecrets()
	found, total := 0, 2000
	for seed := range uint64(total) {
		r := rand.New(rand.NewPCG(seed, 3))
		text := madeText(r, s)
		name := []string{"a.html", "a.txt", "a.svg", "a.js"}[r.IntN(4)]
		all := everyFind(s, name, text)
		found += len(all)
		if got := s.Find(name, []byte(text)); !reflect.DeepEqual(got, all) {
			t.Errorf("seed %d, %s: found %v, want %v in\n%s", seed, name, got, all, text)
		}
	}
	if found < total {
		t.Errorf("%d finds in %d texts", found, total)
	}
}

func everyFind(s *Secrets, name, text string) []Find {
	all := make([]bool, len(s.looks))
	for i := range all {
		all[i] = true
	}
	body, how := textOf(name, []byte(text))
	return s.read(name, body, how, all)
}

// FuzzSieve looks for what the sieve loses in any text.
func FuzzSieve(f *testing.F) {
	s := manySecrets()
	for seed := range uint64(20) {
		f.Add("a.html", madeText(rand.New(rand.NewPCG(seed, 4)), s))
	}
	f.Fuzz(func(t *testing.T, name, text string) {
		if got, want := s.Find(name, []byte(text)), everyFind(s, name, text); !reflect.DeepEqual(got, want) {
			t.Errorf("found %v, want %v", got, want)
		}
	})
}

// BenchmarkFind looks through a page on which nothing private stands.
func BenchmarkFind(b *testing.B) {
	s := secretsOf(record.Secret{Name: "name", Text: "Adéla Wren"}, record.Secret{Name: "waist", Text: "75.5", Length: measure.MM(755)},
		record.Secret{Name: "hip", Text: "98", Length: measure.MM(980)}, record.Secret{Name: "post", Text: "7.50 EUR"})
	page := []byte(strings.Repeat("<p class=\"a b\">The waist is 71.3 cm, the hip 95.</p><path d=\"M75.5 300L12.5 98\"/>\n", 400))
	b.SetBytes(int64(len(page)))
	for b.Loop() {
		s.Find("a.html", page)
	}
}
