package workings

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/trade"
)

// A claim is what a figure says of why it is not known, with what it takes for
// it to be true. The words in brackets of the form are what true is given.
type claim struct {
	form *regexp.Regexp
	true func(r *room, b *build, e *entry, words []string) bool
}

func said(form string, holds func(r *room, b *build, e *entry, words []string) bool) claim {
	return claim{regexp.MustCompile("^(?:" + form + ")$"), holds}
}

// claims are those that can be checked against the record alone.
var claims = []claim{
	said("no time is noted for it", func(r *room, b *build, e *entry, _ []string) bool {
		return !r.clocked(b, func(step map[string]any) bool { return stepID(step) == part(e.ID, 1) })
	}),
	said("no time is noted for its steps", func(r *room, b *build, e *entry, _ []string) bool {
		word := part(e.ID, 0)
		return !r.clocked(b, func(step map[string]any) bool { return slugOf(text(step[word])) == part(e.ID, 1) })
	}),
	said("timed (once|twice|(\\d+) times), and (\\d+) are needed", func(r *room, b *build, e *entry, words []string) bool {
		n := map[string]int{"once": 1, "twice": 2}[words[0]]
		if words[1] != "" {
			n, _ = strconv.Atoi(words[1])
		}
		need, _ := strconv.Atoi(words[2])
		count := b.find(e.ID[:strings.LastIndexByte(e.ID, '.')+1] + "count")
		return n < need && count != nil && count.Number == float64(n) && len(e.Inputs) == n
	}),
	said("the area of its allowances is not known", func(r *room, b *build, e *entry, _ []string) bool {
		allowance := b.find(strings.TrimSuffix(e.ID, "share") + "allowance")
		return allowance != nil && !allowance.Known
	}),
	said("no lay plan yet: hembook lay BUILD", func(r *room, b *build, e *entry, _ []string) bool {
		lay := b.find("cloth." + last(e.ID) + ".lay")
		return lay == nil || !lay.Known
	}),
	said("no piece is cut in it|nothing is cut from it|no piece is cut in (.*)", func(r *room, b *build, e *entry, _ []string) bool {
		return !slices.Contains(r.cutIn(b), part(e.ID, 1))
	}),
	said("nothing is cut|it has no pieces here|nothing textile is in it", func(r *room, b *build, _ *entry, _ []string) bool {
		return len(list(r.record(b)["pieces"])) == 0
	}),
	said("nothing is sewn", func(r *room, b *build, _ *entry, _ []string) bool {
		rec := r.record(b)
		return len(list(rec["pieces"]))+len(list(rec["seams"]))+len(list(rec["finishes"])) == 0
	}),
	said("the area as cut is not known", func(r *room, b *build, e *entry, _ []string) bool {
		return b.unknown(strings.TrimSuffix(e.ID, "share") + "cut-area")
	}),
	said("no outline marks this level|no outline marks this level and the record declares no width for it", func(r *room, b *build, e *entry, _ []string) bool {
		for i := range b.entries {
			if o := &b.entries[i]; strings.HasPrefix(o.ID, "piece.") && strings.HasSuffix(o.ID, ".level."+part(e.ID, 1)) && o.Known {
				return false
			}
		}
		return true
	}),
	said("it is not finished: .*", func(r *room, b *build, e *entry, _ []string) bool {
		for _, entry := range list(r.record(b)["journal"]) {
			if didStep(entry, r.step(b, part(e.ID, 1))) && text(entry["done"]) == "true" {
				return false
			}
		}
		return true
	}),
	said("it has no price|the cloth has no price", func(r *room, b *build, e *entry, _ []string) bool { return !r.given(b, e, "price") }),
	said("its weight is not written|the weight of a reel's thread is not written|the cloth has no weight|its cloth has no weight", func(r *room, b *build, e *entry, _ []string) bool {
		return !r.given(b, e, "weight")
	}),
	said("the thickness of the (.*) is not written", func(r *room, b *build, e *entry, words []string) bool {
		c := r.cloth(b, slugOf(words[0]))
		return c != nil && c["thick"] == nil
	}),
	said("nothing tells how thick its (tape|facing|cord|braid|cloth b|elastic|ribbing|zip|stay|lining|interfacing|cloth c) is", func(r *room, b *build, e *entry, _ []string) bool {
		return b.find(strings.TrimSuffix(e.ID, "thickness")+"plies") != nil
	}),
	said("no thread ratio is published for stitch (.*)", func(_ *room, _ *build, _ *entry, words []string) bool {
		i := slices.IndexFunc(trade.Stitches(), func(s trade.Stitch) bool { return s.Type == words[0] })
		return i >= 0 && trade.Stitches()[i].Ratio == nil && !trade.Stitches()[i].Hand
	}),
	said("its type does not tell which plies its rows pass", func(r *room, b *build, e *entry, _ []string) bool {
		return len(e.Inputs) == 0
	}),
	said("the cloth does not say how much is on the shelf", func(r *room, b *build, e *entry, _ []string) bool {
		return !r.given(b, e, "on-hand") && !r.given(b, e, "came")
	}),
	said("how long it takes is not known", func(r *room, b *build, e *entry, _ []string) bool {
		return b.unknown("step." + part(e.ID, 1) + ".planned")
	}),
	said("no time for this step: write takes: 1 h", func(r *room, b *build, e *entry, _ []string) bool {
		s := r.step(b, part(e.ID, 1))
		return s != nil && s["takes"] == nil && s["alone"] == nil && s["technique"] == nil
	}),
	said("no time yet for (.*): write takes: 1 h", func(r *room, b *build, e *entry, _ []string) bool {
		for i := range b.entries {
			if o := &b.entries[i]; strings.HasSuffix(o.ID, ".planned") && !o.Known {
				return true
			}
		}
		return false
	}),
	said("no time is noted yet", func(r *room, b *build, e *entry, _ []string) bool {
		return !r.clocked(b, func(map[string]any) bool { return true })
	}),
	said("nothing has been timed", func(r *room, b *build, e *entry, _ []string) bool {
		step := r.step(b, part(e.ID, 1))
		rates := &r.builds[len(r.builds)-2]
		return step != nil && rates.find("rate."+text(step["technique"])+".per-metre.median") == nil && rates.find("rate."+text(step["technique"])+".per-piece.median") == nil
	}),
	said("the cost is not known", func(_ *room, b *build, _ *entry, _ []string) bool { return b.unknown("cost.total") }),
	said("no garment says so yet", func(r *room, _ *build, e *entry, _ []string) bool { return !r.isCut(e.Of) }),
	said("(.*) is too wide for the cloth", func(r *room, b *build, e *entry, words []string) bool {
		width, piece := b.find("cloth."+last(e.ID)+".width"), "piece."+slugOf(words[0])
		across, along := b.find(piece+".width"), b.find(piece+".height")
		return width != nil && across != nil && along != nil && max(across.Value.Value, along.Value.Value) > width.Value.Value
	}),
}

// because looks whether what is said to be missing is missing.
func (j *judge) because(r *room, b *build, e *entry) {
	if e.Known {
		return
	}
	j.whys++
	for _, c := range slices.Concat(claims, letOutClaims) {
		m := c.form.FindStringSubmatch(e.Why)
		if m == nil {
			continue
		}
		if !c.true(r, b, e, m[1:]) {
			j.add(whyUntrue, "%s", e.Why)
		}
		return
	}
	if !b.handedOn(e) {
		j.add(whyUnread, "%s", e.Why)
	}
}

func (b *build) find(id string) *entry {
	if at := b.byID[id]; len(at) > 0 {
		return &b.entries[at[0]]
	}
	return nil
}

func (b *build) unknown(id string) bool {
	e := b.find(id)
	return e != nil && !e.Known
}

// handedOn reports whether a figure gives the reason of one that goes into it,
// where that is looked at itself.
func (b *build) handedOn(e *entry) bool {
	for i := range b.entries {
		o := &b.entries[i]
		if o.Known || o.ID == e.ID || !strings.HasSuffix(e.Why, o.Why) {
			continue
		}
		named := strings.TrimSuffix(strings.TrimSuffix(e.Why, o.Why), ": ") // "hook: its mass is not written"
		if named != "" && o.Of != "" && strings.HasSuffix(named, o.Of) {
			return true
		}
		if named == "" && slices.ContainsFunc(e.Inputs, func(in input) bool { return in.From == o.ID }) {
			return true
		}
	}
	return false
}

// yaml is one of the room's files as plain maps and lists.
func (r *room) yaml(file string) map[string]any {
	out, ok := r.plain[file]
	if !ok {
		r.tree(file).Decode(&out) // a file that is not there says nothing
		r.plain[file] = out
	}
	return out
}

func (r *room) record(b *build) map[string]any {
	return r.yaml("content/builds/" + b.slug + "/build.yaml")
}

// list is what stands in a list, or behind names: those have their name with them,
// and what stands alone behind one as "alone".
func list(v any) []map[string]any {
	var out []map[string]any
	if named, ok := v.(map[string]any); ok {
		for _, name := range slices.Sorted(maps.Keys(named)) {
			one := map[string]any{"name": name}
			if m, ok := named[name].(map[string]any); ok {
				maps.Copy(one, m)
			} else {
				one["alone"] = named[name]
			}
			out = append(out, one)
		}
	}
	l, _ := v.([]any)
	for _, one := range l {
		if m, ok := one.(map[string]any); ok {
			out = append(out, m)
		}
	}
	return out
}

func deep(v any, key string) any {
	m, _ := v.(map[string]any)
	return m[key]
}

func text(v any) string {
	if v == nil {
		return ""
	}
	return fmt.Sprint(v)
}

var notSlug = regexp.MustCompile(`[^a-z0-9]+`)

func slugOf(s string) string {
	return strings.Trim(notSlug.ReplaceAllString(strings.ToLower(strings.NewReplacer("'", "", "’", "").Replace(s)), "-"), "-")
}

func part(id string, n int) string {
	p := strings.Split(id, ".")
	if n >= len(p) {
		return ""
	}
	return p[n]
}

// last is the name of the cloth, or the like, that an ID is of.
func last(id string) string {
	p := strings.Split(id, ".")
	if p[0] == "cost" {
		return p[len(p)-1]
	}
	return p[1]
}

func stepID(step map[string]any) string { return slugOf(text(step["name"])) }

// didStep reports whether an entry of the journal is of a step: it may be named by
// its first words.
func didStep(entry, step map[string]any) bool {
	did := slugOf(text(entry["did"]))
	return did != "" && (did == stepID(step) || strings.HasPrefix(stepID(step), did+"-"))
}

func (r *room) step(b *build, id string) map[string]any {
	for _, s := range list(r.record(b)["work"]) {
		if stepID(s) == id {
			return s
		}
	}
	return nil
}

// clocked reports whether the journal has a time for a step that is meant.
func (r *room) clocked(b *build, meant func(step map[string]any) bool) bool {
	rec := r.record(b)
	for _, s := range list(rec["work"]) {
		if !meant(s) {
			continue
		}
		for _, e := range list(rec["journal"]) {
			if didStep(e, s) && (e["for"] != nil || e["until"] != nil || e["to"] != nil) {
				return true
			}
		}
	}
	return false
}

// cutIn lists the cloths of a build that a piece is cut in, and the strips.
func (r *room) cutIn(b *build) []string {
	rec := r.record(b)
	var out []string
	for _, p := range list(rec["pieces"]) { // one that is like another and says nothing is cut in the same
		switch v := p["of"].(type) {
		case []any:
			for _, one := range v {
				out = append(out, slugOf(text(one)))
			}
		case nil:
		default:
			out = append(out, slugOf(text(v)))
		}
	}
	return out
}

// isCut reports whether any garment has a piece cut in the cloth of a name, or a piece that
// does not say in what it is cut, and the cloth as its shell.
func (r *room) isCut(name string) bool {
	for i := range r.builds {
		b := &r.builds[i]
		if b.shared {
			continue
		}
		rec := r.record(b)
		cloths, _ := rec["cloth"].(map[string]any)
		for part := range cloths {
			c := r.cloth(b, part)
			if c == nil || text(c["name"]) != name {
				continue
			}
			silent := slices.ContainsFunc(list(rec["pieces"]), func(p map[string]any) bool { return p["of"] == nil })
			if slices.Contains(r.cutIn(b), slugOf(part)) || silent && part == "shell" {
				return true
			}
		}
	}
	return false
}

// cloth is the file of the cloth that plays a part in a build.
func (r *room) cloth(b *build, name string) map[string]any {
	cloths, _ := r.record(b)["cloth"].(map[string]any)
	for k, v := range cloths {
		if slugOf(k) != slugOf(name) {
			continue
		}
		use := text(v)
		if m, ok := v.(map[string]any); ok {
			use = text(m["use"])
		}
		return r.yaml("content/cloth/" + use + ".yaml")
	}
	return nil
}

// given reports whether what a figure is of has a word in the records: a
// notion, a thread or a cloth.
func (r *room) given(b *build, e *entry, word string) bool {
	id := e.ID
	if c := r.cloth(b, last(id)); c != nil && strings.Contains(id, "cloth") {
		return c[word] != nil
	}
	threads, _ := r.record(b)["thread"].(map[string]any)
	for name, spec := range threads {
		if slugOf(name) == part(id, 1) || name == e.Of {
			return deep(spec, word) != nil
		}
	}
	for _, n := range list(r.record(b)["notions"]) {
		if text(n["name"]) == e.Of {
			return n[word] != nil
		}
	}
	return false
}
