package prose

import (
	"bytes"
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/lexers"
)

const record = `# a supper dress
name: Harvest supper dress
garment: dress
begun: 2026-08-03
wearer: contralto              # private
story: >
  A supper dress: in rust linen
  twill.

  With a lining.
cloth:
  shell: {use: rust-linen, one-way: true}
  lining: {use: "sand: voile"}
pieces:
  front:
    of: [shell, fusing]
    cut: 1 on fold
    allowance: 15
    outline:
      from: [0, 0]
      waist: {to: [172, 0], level: waist}
      neck: {to: [0, 318], curve: [[84.5, 340], [40, 318]], allowance: 6}
  skirt:
    circle: {share: 3/4, waist: 700}
journal:
  - {at: 2026-08-05 14:10, did: cut-skirt, for: 48 min}
note: 'a "quoted" <b> & text'
`

var aSpan = regexp.MustCompile(`<span class="(\w+)">([^<]*)</span>`)

// tokens lists what is marked, with its class.
func tokens(highlighted []byte) map[string][]string {
	out := map[string][]string{}
	for _, m := range aSpan.FindAllSubmatch(highlighted, -1) {
		out[string(m[1])] = append(out[string(m[1])], html.UnescapeString(string(m[2])))
	}
	return out
}

// TestYAMLAgreesWithChroma holds the scanner to the library's own lexer, which
// reads flow mappings loosely and keys only in block style: so each kind of
// token is compared on lines that both know how to read.
func TestYAMLAgreesWithChroma(t *testing.T) {
	for _, line := range []string{
		"name: plain words\n", "allowance: 15\n", "- 15\n", "state: true\n", "wide: 12.5\n",
		"note: \"in quotes\"\n", "note: 'in quotes'\n", "# a remark\n", "begun: 2026-08-03\n",
		"outline:\n  from: 3\n", "a key with spaces: 7\n", "size: 15 # a remark\n",
	} {
		want := map[string][]string{}
		for _, token := range chromaTokens(t, line) {
			if class := classOf(token.Type); class != "" && class != "l" {
				want[class] = append(want[class], strings.TrimSpace(token.Value))
			}
		}
		got := tokens(YAML(nil, []byte(line)))
		for class, list := range want {
			if strings.Join(list, "|") != strings.Join(got[class], "|") {
				t.Errorf("%q: class %s: got %q, chroma says %q", line, class, got[class], list)
			}
		}
		for class := range got {
			if want[class] == nil {
				t.Errorf("%q: class %s: got %q, chroma marks none", line, class, got[class])
			}
		}
	}
}

// TestYAMLCommentsAgree compares all keys in block style and all comments of a
// whole record with the library's.
func TestYAMLCommentsAgree(t *testing.T) {
	want := map[string]int{}
	for _, token := range chromaTokens(t, record) {
		if token.Type == chroma.Comment {
			want[strings.TrimSpace(token.Value)]++
		}
	}
	got := tokens(YAML(nil, []byte(record)))["c"]
	if len(got) != len(want) {
		t.Fatalf("got %q, chroma says %v", got, want)
	}
	for _, c := range got {
		if want[c] != 1 {
			t.Errorf("chroma does not know the comment %q", c)
		}
	}
}

func chromaTokens(t *testing.T, text string) []chroma.Token {
	t.Helper()
	all, err := chroma.Tokenise(lexers.Get("yaml"), nil, text)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestYAMLMarks(t *testing.T) {
	got := tokens(YAML(nil, []byte(record)))
	for class, want := range map[string]string{
		"c":  "# a supper dress|# private",
		"nt": "name|garment|begun|wearer|story|cloth|shell|use|one-way|lining|use|pieces|front|of|cut|allowance|outline|from|waist|to|level|neck|to|curve|allowance|skirt|circle|share|waist|journal|at|did|for|note",
		"kc": "true",
		"ld": "2026-08-03|2026-08-05",
		"m":  "1|15|0|0|172|0|0|318|84.5|340|40|318|6|3|700|48",
		"s2": `"sand: voile"`,
		"s1": `'a "quoted" <b> & text'`,
		"sd": "A supper dress: in rust linen|twill.|With a lining.",
	} {
		if g := strings.Join(got[class], "|"); g != want {
			t.Errorf("class %s:\n got %s\nwant %s", class, g, want)
		}
	}
}

// plainText takes the marks off again.
func plainText(highlighted []byte) string {
	return html.UnescapeString(regexp.MustCompile(`</?span[^>]*>`).ReplaceAllString(string(highlighted), ""))
}

func FuzzYAML(f *testing.F) {
	f.Add(record)
	f.Add("a: |\n  b\n c: ]}{\n\"x\n- - 'y\n  z': 1\n")
	f.Fuzz(func(t *testing.T, text string) {
		out := YAML(nil, []byte(text))
		if got := plainText(out); got != text && !strings.ContainsAny(text, "&\x00") {
			t.Fatalf("text changed:\n got %q\nwant %q", got, text)
		}
		for _, tag := range regexp.MustCompile(`<[^>]*>`).FindAllString(string(out), -1) {
			if tag != "</span>" && !aTag.MatchString(tag) {
				t.Fatalf("foreign markup %q", tag)
			}
		}
	})
}

var aTag = regexp.MustCompile(`^<span class="\w+">$`)

func BenchmarkYAML3KB(b *testing.B) {
	text := bytes.Repeat([]byte(record), 3072/len(record)+1)[:3072]
	dst := make([]byte, 0, 1<<16)
	b.SetBytes(3072)
	for b.Loop() {
		dst = YAML(dst[:0], text)
	}
	b.ReportMetric(float64(len(dst)), "bytes/out")
}
