package notebook

import (
	"path"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestTo(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"index.html", "index.html", "index.html"},
		{"index.html", "builds/index.html", "builds/index.html"},
		{"builds/a.html", "index.html", "../index.html"},
		{"builds/a.html", "builds/b.html", "b.html"},
		{"builds/a.html", "cloth/b.html", "../cloth/b.html"},
		{"builds/all/2.html", "builds/index.html", "../index.html"},
		{"builds/all/2.html", "builds/all/3.html", "3.html"},
		{"builds/a.html", "glossary.html#term-ease", "../glossary.html#term-ease"},
		{"build/a.html", "builds/b.html", "../builds/b.html"},
	} {
		if got := Address(c.from).To(Address(c.to)); got != c.want {
			t.Errorf("from %s to %s: got %s, want %s", c.from, c.to, got, c.want)
		}
	}
}

// TestToLeadsThere follows the link as a browser would.
func TestToLeadsThere(t *testing.T) {
	part := rapid.SampledFrom([]string{"a", "b", "ab", "c"})
	address := rapid.Custom(func(t *rapid.T) Address {
		folders := rapid.SliceOfN(part, 0, 3).Draw(t, "folders")
		return Address(strings.Join(append(folders, part.Draw(t, "name")+".html"), "/"))
	})
	rapid.Check(t, func(t *rapid.T) {
		from, to := address.Draw(t, "from"), address.Draw(t, "to")
		link := from.To(to)
		if got := path.Join(path.Dir(string(from)), link); got != string(to) {
			t.Fatalf("%s on %s leads to %s, not %s", link, from, got, to)
		}
		if strings.HasPrefix(link, "/") {
			t.Fatalf("%s begins at the root", link)
		}
	})
}

func TestAddressesAreUnique(t *testing.T) {
	used := namer{}
	for _, c := range []struct{ name, want string }{
		{"supper-dress", "builds/supper-dress.html"},
		{"Supper dress", "builds/supper-dress-2.html"},
		{"SUPPER-DRESS", "builds/supper-dress-3.html"},
		{"index", "builds/index-2.html"},
		{"Größe", "builds/grosse.html"},
		{"???", "builds/unnamed.html"},
		{"!!!", "builds/unnamed-2.html"},
		{"..", "builds/unnamed-3.html"},
		{strings.Repeat("long ", 40), "builds/" + strings.Repeat("long-", 15) + "long.html"},
	} {
		if got := used.address("builds", c.name); string(got) != c.want {
			t.Errorf("%q: got %s, want %s", c.name, got, c.want)
		}
	}
}
