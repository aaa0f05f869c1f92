// Package sown sows secrets into made-up workrooms, for tests only: one into
// every private place of the records, into remarks that touch a private value,
// into remarks and comments of files that are never shown, and into what
// photographs carry beside the picture. It also searches what comes of such a
// workroom, by means of its own.
package sown

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"

	"hembook/internal/madeup"
)

// A Secret is one value that was sown.
type Secret struct {
	Place  string   // where: "wearer: address", or what kind of remark
	Forms  []string // what is searched for, in small letters; any is a find
	Sheets []string // of the packet, that may show it
}

// InRecord reports whether it is a value of a record, not a remark or something
// in a photograph.
func (s Secret) InRecord() bool { return strings.Contains(s.Place, ": ") }

// A Sowing is which workroom is wanted. Two of one room and other salts differ
// in their secrets alone.
type Sowing struct {
	Room uint64
	Salt int
}

// A sower writes one workroom.
type sower struct {
	*rand.Rand // of the room: what is written how, never what
	salt       int
	count      int
	secrets    []Secret
}

// Workroom is the text of every file of the workroom, and what was sown.
func (s Sowing) Workroom() (map[string]string, []Secret) {
	files := madeup.Wish{Seed: s.Room, Size: 1}.Workroom()
	g := &sower{Rand: rand.New(rand.NewPCG(s.Room, 41)), salt: s.Salt}
	build := "content/builds/" + madeup.Build + "/"
	slug := strings.ToLower(g.word("wearer: file name", nil))
	files["content/workroom.yaml"] = g.workroom(files["content/workroom.yaml"])
	for name, text := range inOrder(files) {
		if strings.HasPrefix(name, "content/cloth/") {
			files[name] = g.cloth(text)
		}
	}
	files["content/techniques/careful-seam.md"] = "---\nname: Careful seam # " + g.remark() + "\nsummary: A seam that is sewn with care.\n# " + g.remark() + "\n---\nSlowly.\n\n<!-- " + g.remark() + " -->\n"
	files["content/wearers/"+slug+".yaml"] = g.wearer()
	files[build+"build.yaml"] = g.build(files[build+"build.yaml"], slug)
	files[build+"notes.md"] = "It went well.\n\n<!-- " + g.remark() + " -->\n"
	g.photographs(files, build)
	g.patternFiles(files, build)
	return files, g.secrets
}

// word is a new word that stands nowhere else, sown in a place.
func (g *sower) word(place string, sheets []string) string {
	g.count++
	n := g.count*7 + g.salt*100003
	w := "Quz"
	for range 6 {
		w += string(rune('a' + n%19))
		n /= 19
	}
	g.secrets = append(g.secrets, Secret{place, []string{strings.ToLower(w)}, sheets})
	return w
}

func (g *sower) remark() string {
	w := g.word("remark", nil)
	return w + [...]string{"", ": paid", " it's \"so\" [", " #"}[g.IntN(4)]
}

// money is a new amount.
func (g *sower) money(place string, sheets []string) string {
	g.count++
	whole, cents := 71000+(g.count*37+g.salt*411)%20000, 11+g.count%80
	if cents%10 == 0 {
		cents++
	}
	thousands, hundreds := whole/1000, whole%1000
	g.secrets = append(g.secrets, Secret{place, []string{
		fmt.Sprintf("%d.%02d", whole, cents), fmt.Sprintf("%d,%02d", whole, cents), fmt.Sprintf("%d,%03d.%02d", thousands, hundreds, cents),
		fmt.Sprintf("%d.%03d,%02d", thousands, hundreds, cents), fmt.Sprintf("%d %03d.%02d", thousands, hundreds, cents), fmt.Sprintf("%d %03d,%02d", thousands, hundreds, cents),
		fmt.Sprintf("%d eur", whole), fmt.Sprintf("eur %d", whole), fmt.Sprintf("€%d", whole), fmt.Sprintf("€ %d", whole),
	}, sheets})
	return fmt.Sprintf("%d.%02d EUR", whole, cents)
}

// length is a new length in millimetres about one, which stands nowhere else.
func (g *sower) length(place, name string, about int, sheets []string) string {
	g.count++
	mm := about*1000 + (g.count*53+g.salt*377)%29*1000 + 100 + (g.count*91+g.salt*17)%90*10 + 1 + g.count%8 // thousandths
	whole, rest := mm/1000, mm%1000
	g.secrets = append(g.secrets, Secret{place, []string{
		fmt.Sprintf("%d.%03d", whole, rest), fmt.Sprintf("%d.%d%03d", whole/10, whole%10, rest), fmt.Sprintf("%d,%03d", whole, rest), fmt.Sprintf("%d,%d%03d", whole/10, whole%10, rest),
		fmt.Sprintf("%s %d.%d", name, whole, rest/100), fmt.Sprintf("%s: %d.%d", name, whole, rest/100),
	}, sheets})
	return fmt.Sprintf("%d.%03d", whole, rest)
}

// day is a new day, long ago.
func (g *sower) day(place string, sheets []string) string {
	g.count++
	year, day := 1951+(g.count*13+g.salt*7)%20, 1+g.count%28
	g.secrets = append(g.secrets, Secret{place, []string{
		fmt.Sprintf("%d-03-%02d", year, day), fmt.Sprintf("%d march %d", day, year), fmt.Sprintf("march %d, %d", day, year), fmt.Sprintf("march %d %d", day, year),
		fmt.Sprintf("%d. märz %d", day, year), fmt.Sprintf("%d mars %d", day, year), fmt.Sprintf("%d年3月%d日", year, day), fmt.Sprintf("%d.3.%d", day, year), fmt.Sprintf("%d/3/%d", day, year),
	}, sheets})
	return fmt.Sprintf("%d-03-%02d", year, day)
}

// words is a new text in one of the ways YAML has, some of them over lines; in
// is how far it is indented there.
func (g *sower) words(place string, sheets []string, in string) string {
	a, b := g.word(place, sheets), g.word(place, sheets)
	switch g.IntN(7) {
	case 0:
		return `"` + a + " in\n" + in + b + ": cash\""
	case 1:
		return "'" + a + " in\n\n" + in + b + ": it''s'"
	case 2:
		return "|\n" + in + a + "\n" + in + b
	case 3:
		return ">-\n" + in + a + "\n\n" + in + b + " #"
	case 4:
		return a + " in\n" + in + b
	case 5:
		return "!!str '" + a + " " + b + "'"
	}
	return a + " " + b
}

// touched writes private lines with remarks about them.
func (g *sower) touched(indent string, lines ...string) string {
	var out strings.Builder
	for _, l := range lines {
		if g.IntN(3) == 0 {
			out.WriteString(indent + "# " + g.remark() + "\n")
		}
		if g.IntN(9) == 0 {
			out.WriteString("\n")
		}
		if !strings.Contains(l, "\n") && g.IntN(2) == 0 {
			l += [...]string{" ", "\t", "  \t"}[g.IntN(3)] + "# " + g.remark()
		}
		out.WriteString(indent + l + "\n")
	}
	if g.IntN(2) == 0 {
		out.WriteString(indent + "# " + g.remark() + "\n")
	}
	return out.String()
}

// free is anything under private:.
func (g *sower) free(place string) string {
	word := func() string { return g.word(place, nil) }
	switch g.IntN(5) {
	case 0:
		return "private: " + g.words(place, nil, "   ")
	case 1:
		return "private: {" + word() + ": [" + word() + ", # " + g.remark() + "\n    '" + word() + "'], b: \"" + word() + "\n   " + word() + "\"}"
	case 2:
		return "private:\n# " + g.remark() + "\n- \"paid in\n" + word() + ": cash\"\n# " + g.remark() + "\n- " + word() + " # " + g.remark()
	case 3:
		return "private:\n  photographs: [photos/" + strings.ToLower(word()) + ".jpg]\n  " + word() + ": &" + g.word("anchor", nil) + " " + g.money(place, nil)
	}
	return "private:\n  note: |2-\n      " + word() + "\n    " + word() + "\n  # " + g.remark() + "\n  more: {deep: {deeper: " + word() + "}}"
}

var (
	labour = regexp.MustCompile(`(?m)^labour: .*\n`)
	price  = regexp.MustCompile(`price: [0-9.]+ EUR`)
	costs  = regexp.MustCompile(`(?m)^costs: .*\n`)
	usual  = regexp.MustCompile(`(?m)^usual: \{`)
)

func (g *sower) workroom(text string) string {
	text = labour.ReplaceAllString(text, "")
	const wide = "tolerance: 90 m" // edges need not match
	if usual.MatchString(text) {
		text = usual.ReplaceAllString(text, "usual: {"+wide+", ")
	} else {
		text += "usual: {" + wide + "}\n"
	}
	text += "maker:\n  name: Somebody\n" + g.touched("  ",
		"address: "+g.words("workroom: maker.address", []string{"customs"}, "     "),
		"country: "+g.word("workroom: maker.country", []string{"customs"}))
	return text + g.touched("", "labour: "+g.money("workroom: labour", nil), g.free("workroom: private"))
}

func (g *sower) cloth(text string) string {
	text = price.ReplaceAllStringFunc(text, func(string) string { return "price: " + g.money("cloth: price", nil) + " # " + g.remark() })
	return text + g.touched("", "from: "+g.words("cloth: from", nil, "   "))
}

func (g *sower) wearer() string {
	all, customs := []string{"agree", "measure", "mock-up", "fit", "labels", "after", "wearer", "card", "care-and-fit", "customs"}, []string{"customs"}
	fit := []string{"wearer", "care-and-fit"}
	body := func(of string, sheets []string) string {
		out := "body:"
		for _, m := range []struct {
			name  string
			about int
		}{{"bust", 905}, {"waist", 715}, {"hip", 985}, {"height", 1690}} {
			out += "\n    " + m.name + ": " + g.length("wearer: "+of+"body."+m.name, m.name, m.about, sheets)
		}
		return out
	}
	return g.touched("",
		"name: "+g.word("wearer: name", all), "for: {who: woman, age: 41, height: "+g.length("wearer: for.height", "height", 1650, nil)+"}",
		"language: en", "units: mm", "address: "+g.words("wearer: address", customs, "   "), "country: "+g.word("wearer: country", customs),
		"contact: "+g.word("wearer: contact", customs)+"@post.example", "note: "+g.words("wearer: note", nil, "   "),
		"taken: "+g.day("wearer: taken", fit), "by: "+g.word("wearer: by", nil), body("", fit),
		"earlier:\n  - day: "+g.day("wearer: earlier.day", nil)+"\n    by: "+g.word("wearer: earlier.by", nil)+"\n    "+strings.ReplaceAll(body("earlier.", nil), "\n", "\n  "))
}

// build writes secrets into the build's record, and what a packet asks for.
func (g *sower) build(text, slug string) string {
	text = costs.ReplaceAllString(text, "")
	if !strings.Contains(text, "\nnotions:") {
		text += "notions:\n  hooks: {count: 2, weight: 0.5 g, price: 1.00 EUR}\n"
	}
	if !strings.Contains(text, "\nthread:") {
		text += "thread:\n  red: {colour: red, reel: 100 m, price: 1.00 EUR}\n"
	}
	var out strings.Builder
	group := ""
	for line := range strings.Lines(text) {
		if !strings.HasPrefix(line, " ") {
			group, _, _ = strings.Cut(line, ":")
		}
		place := map[string]string{"thread": "build: thread.price", "notions": "build: notions.price"}[group]
		if !price.MatchString(line) {
			out.WriteString(line)
			continue
		}
		line = price.ReplaceAllStringFunc(strings.TrimRight(line, "\n"), func(string) string { return "price: " + g.money(place, nil) })
		if g.IntN(3) == 0 {
			line = "  # " + g.remark() + "\n" + line
		}
		out.WriteString(line + [...]string{"", "\t# " + g.remark(), " # " + g.remark()}[g.IntN(3)] + "\n")
	}
	out.WriteString(g.touched("", "wearer: "+slug,
		"costs:\n  labour: "+g.money("build: costs.labour", nil)+"\n  post: "+g.money("build: costs.post", nil)+" # "+g.remark()+"\n  other: {"+g.word("build: costs.other", nil)+": "+g.money("build: costs.other", nil)+"}\n  price: "+g.money("build: costs.price", []string{"agree"}),
		g.free("build: private")))
	out.WriteString("picture: {file: photos/one.jpg, alt: the dress}\npictures:\n  - {file: photos/two.png, alt: its back}\n  - {file: photos/three.webp, alt: its hem}\n")
	out.WriteString("packet:\n  note: " + inAll("Wear it well.", "Trag es gut.", "Porte-le bien.", "大切に着てください。") + "\n  checked: {by: Somebody, day: 2026-08-20, pins-out: 9, pins-in: 9, needles: none broken}\n  parcel: 1.8 kg\n  customs:\n    category: gift\n" +
		g.touched("    ", "value: "+g.money("build: packet.customs.value", []string{"customs"})) +
		"    quantity: 1\n  despite:\n")
	for _, about := range []string{"care", "content", "flame", "figures", "check", "child", "customs"} {
		out.WriteString("    " + about + ": " + inAll("known", "bekannt", "connu", "承知") + "\n")
	}
	return out.String()
}

// Languages are those that the words of a garment stand in which a packet asks for.
var Languages = []string{"en", "de", "fr", "ja"}

// inAll is a text in all of them, as a record has it.
func inAll(texts ...string) string {
	out := make([]string, len(texts))
	for i, text := range texts {
		out[i] = Languages[i] + ": " + text
	}
	return "{" + strings.Join(out, ", ") + "}"
}
