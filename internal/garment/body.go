package garment

import (
	"hembook/internal/record"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// bodyNames maps every name of a body measurement to its standard name.
func bodyNames() map[string]string {
	out := map[string]string{}
	for _, m := range trade.Measurements() {
		for _, a := range m.Also {
			out[words.Plain(a.Term)] = m.Name
		}
		out[words.Plain(m.Title)] = m.Name
	}
	for _, m := range trade.Measurements() { // a name proper goes before another's by-name
		out[words.Plain(m.Name)] = m.Name
	}
	return out
}

// bodyOf is the body measurement a level goes round: its standard name, or
// the level's own name where it has none.
func (t *Tailor) BodyOf(level string) string {
	if _, rest, ok := record.Handed(level); ok {
		level = rest
	}
	if m, ok := t.body[words.Plain(level)]; ok {
		return m
	}
	return words.Plain(level)
}

// bodyLength finds a measurement by any name that means the same.
func (t *Tailor) BodyLength(d record.Dict[record.Length], level string) (record.Length, bool) {
	if l, ok := d.Get(level); ok {
		return l, l.Given()
	}
	want := t.BodyOf(level)
	for i := range d {
		if t.BodyOf(d[i].Name.V) == want {
			return d[i].V, d[i].V.Given()
		}
	}
	return record.Length{}, false
}
