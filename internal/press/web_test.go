package press

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"html"
	"image"
	"image/png"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

// element is any element of an XML file.
type element struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Text    string     `xml:",chardata"`
	Inner   []element  `xml:",any"`
}

func (e element) all(name string) []element {
	var out []element
	for _, i := range e.Inner {
		if i.XMLName.Local == name {
			out = append(out, i)
		}
	}
	return out
}

func (e element) attr(name string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func readXML(t *testing.T, text string) element {
	t.Helper()
	var e element
	if err := xml.Unmarshal([]byte(text), &e); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return e
}

// TestFeed holds the feed to what RFC 4287 asks for: section 4.1.1 of a feed,
// 4.1.2 of an entry, 4.2.6 of ids, 3.3 of dates.
func TestFeed(t *testing.T) {
	f := small()
	f["content/builds/older/build.yaml"] = "name: 'Older <& odd'\nsummary: Before.\ngarment: skirt\nstate: sent\nbegun: 2025-01-02\nsent: 2025-03-04\n"
	f["content/builds/undated/build.yaml"] = "name: Undated\ngarment: skirt\nstate: planned\n"
	all := pressed(t, room(t, f), filepath.Join(t.TempDir(), "x"))
	feed := readXML(t, all["feed.xml"])
	if feed.XMLName.Space != "http://www.w3.org/2005/Atom" || feed.XMLName.Local != "feed" {
		t.Errorf("the feed is %v", feed.XMLName)
	}
	ids := map[string]bool{}
	check := func(e element, must ...string) {
		for _, name := range must {
			if n := len(e.all(name)); n != 1 || strings.TrimSpace(e.all(name)[0].Text) == "" {
				t.Fatalf("<%s> has %d <%s>, must have one", e.XMLName.Local, n, name)
			}
		}
		id := e.all("id")[0].Text
		if u, err := url.Parse(id); err != nil || !u.IsAbs() || ids[id] {
			t.Errorf("the id %q is not whole, or stands twice", id)
		}
		ids[id] = true
		if _, err := time.Parse(time.RFC3339, e.all("updated")[0].Text); err != nil {
			t.Error(err)
		}
	}
	check(feed, "id", "title", "updated")
	if len(feed.all("author")) != 1 || feed.all("author")[0].all("name")[0].Text != "Somebody" {
		t.Error("the feed does not say who it is by")
	}
	if self := feed.all("link")[0]; self.attr("rel") != "self" || self.attr("href") != "https://room.example/feed.xml" {
		t.Errorf("the feed names itself %v", self.Attrs)
	}
	entries := feed.all("entry")
	if len(entries) != 2 {
		t.Fatalf("%d entries, want the two that are dated", len(entries))
	}
	for _, e := range entries {
		check(e, "id", "title", "updated", "summary")
		at := strings.TrimPrefix(e.all("link")[0].attr("href"), "https://room.example/")
		if e.all("link")[0].attr("rel") != "alternate" || all[at] == "" {
			t.Errorf("an entry leads to %q", at)
		}
	}
	// by hand: the apron's journal ends 2026-03-06 10:00 + 20 min; the older one was sent 2025-03-04
	if got := entries[0].all("updated")[0].Text + " " + entries[1].all("updated")[0].Text; got != "2026-03-06T10:20:00Z 2025-03-04T00:00:00Z" {
		t.Errorf("updated %s", got)
	}
	if feed.all("updated")[0].Text != entries[0].all("updated")[0].Text || entries[1].all("title")[0].Text != "Older <& odd" {
		t.Error("the feed's date or a title is wrong")
	}
}

// TestSitemap: every page but the one for lost ways is in the list, in the
// elements that https://www.sitemaps.org/protocol.html requires.
func TestSitemap(t *testing.T) {
	all := pressed(t, room(t, small()), filepath.Join(t.TempDir(), "x"))
	set := readXML(t, all["sitemap.xml"])
	if set.XMLName.Local != "urlset" || set.XMLName.Space != "http://www.sitemaps.org/schemas/sitemap/0.9" {
		t.Errorf("the list is %v", set.XMLName)
	}
	var got, want []string
	for _, u := range set.all("url") {
		if len(u.all("loc")) != 1 {
			t.Fatal("a page without one address")
		}
		got = append(got, u.all("loc")[0].Text)
		for _, d := range u.all("lastmod") {
			if _, err := time.Parse(time.DateOnly, d.Text); err != nil {
				t.Error(err)
			}
		}
	}
	for name := range all {
		if path.Ext(name) == ".html" && name != "404.html" {
			want = append(want, "https://room.example/"+name)
		}
	}
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("listed %v\nwant %v", got, want)
	}
	if !strings.Contains(all["robots.txt"], "Sitemap: https://room.example/sitemap.xml\n") {
		t.Errorf("robots.txt says %q", all["robots.txt"])
	}
}

// TestWithoutASite: what needs a whole address is left out, nothing else.
func TestWithoutASite(t *testing.T) {
	for name, site := range map[string]string{"none": "", "in a folder of its host": "site: https://room.example/book/\n"} {
		f := small()
		f["content/workroom.yaml"] = strings.Replace(f["content/workroom.yaml"], "site: https://room.example/\n", site, 1)
		all := pressed(t, room(t, f), filepath.Join(t.TempDir(), "x"))
		if all["robots.txt"] != "" {
			t.Errorf("%s: a robots.txt that nobody reads", name)
		}
		if got := all["feed.xml"] != "" && all["sitemap.xml"] != ""; got != (site != "") {
			t.Errorf("%s: feed and list %v", name, got)
		}
		for file, text := range all {
			if path.Ext(file) == ".html" && site == "" && (strings.Contains(text, "og:") || strings.Contains(text, `rel="canonical"`) || strings.Contains(text, "atom+xml")) {
				t.Errorf("%s: %s has an address that it cannot know", name, file)
			}
		}
	}
}

var (
	dataPattern = regexp.MustCompile(`<script type="application/ld\+json">([^<]*)</script>`)
	metaPattern = regexp.MustCompile(`<meta (?:name|property)="([a-z:_]+)" content="([^"]*)">`)
)

// TestDescriptions: each page says what it is, in meta elements and in the words
// of schema.org, and its picture is there in the size it gives.
func TestDescriptions(t *testing.T) {
	f := small()
	f["content/techniques/plain-way.md"] = strings.Replace(f["content/techniques/plain-way.md"], "summary: Sewn once.", "summary: 'Sewn once </script><b>'", 1)
	all := pressed(t, room(t, f), filepath.Join(t.TempDir(), "x"))
	types := map[string]string{
		"index.html": "WebSite", "builds/apron.html": "CreativeWork", "techniques/plain-way.html": "HowTo", "cloth/rust-linen.html": "WebPage",
		"builds/index.html": "CollectionPage", "glossary.html": "DefinedTermSet", "pages/about.html": "WebPage", "builds/apron/seams.html": "WebPage",
	}
	for name, text := range all {
		if path.Ext(name) != ".html" {
			continue
		}
		meta := map[string]string{}
		for _, m := range metaPattern.FindAllStringSubmatch(text, -1) {
			meta[m[1]] = html.UnescapeString(m[2])
		}
		if meta["description"] == "" {
			t.Errorf("%s has no description", name)
		}
		m := dataPattern.FindStringSubmatch(text)
		if m == nil {
			t.Errorf("%s has no structured data", name)
			continue
		}
		var data map[string]any
		if err := json.Unmarshal([]byte(m[1]), &data); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if data["@context"] != "https://schema.org" || data["name"] == "" || types[name] != "" && data["@type"] != types[name] {
			t.Errorf("%s: %v", name, data)
		}
		if name == "404.html" {
			continue
		}
		if meta["og:url"] != "https://room.example/"+name || data["url"] != meta["og:url"] || meta["og:title"] == "" || meta["og:type"] == "" {
			t.Errorf("%s: %v", name, meta)
		}
		at := strings.TrimPrefix(meta["og:image"], "https://room.example/")
		if c, err := png.DecodeConfig(strings.NewReader(all[at])); err != nil || c.Width != cardWide || c.Height != cardHigh {
			t.Errorf("%s: its picture %q: %v, %d by %d", name, at, err, c.Width, c.Height)
		}
	}
	if !strings.Contains(all["techniques/plain-way.html"], `\u003c/script\u003e`) {
		t.Error("markup in a summary is not kept apart")
	}
}

// TestCardIsMade: a card shows the drawing, and a kept one that is not as it was
// written is made anew.
func TestCardIsMade(t *testing.T) {
	if testing.Short() {
		t.Skip("presses with the workers of the other tests")
	}
	dir := room(t, small())
	one := pressed(t, dir, filepath.Join(t.TempDir(), "a"))
	kept, err := filepath.Glob(filepath.Join(dir, ".hembook", "cards", "*"))
	if err != nil || len(kept) == 0 {
		t.Fatal("no picture was kept", err)
	}
	var other bytes.Buffer
	if err := png.Encode(&other, image.NewRGBA(image.Rect(0, 0, cardWide, cardHigh))); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(kept[0])
	if err != nil {
		t.Fatal(err)
	}
	changed := bytes.Clone(whole)
	changed[len(changed)/2] ^= 1
	for name, spoilt := range map[string]string{
		"no picture": "broken", "another picture": other.String(), "cut short": string(whole[:len(whole)-9]), "a changed byte": string(changed),
		"a number of another": string(whole[:17]) + other.String(), "nothing": "",
	} {
		for _, k := range kept {
			write(t, filepath.Dir(k), filepath.Base(k), spoilt)
		}
		two := pressed(t, dir, filepath.Join(t.TempDir(), "b"))
		for file, text := range one {
			if path.Ext(file) == ".png" && (two[file] != text || !bytes.HasPrefix([]byte(text), []byte("\x89PNG"))) {
				t.Errorf("%s: %s differs when it is made again", name, file)
			}
		}
	}
}

func FuzzKeptCard(f *testing.F) {
	var card bytes.Buffer
	if err := png.Encode(&card, image.NewGray(image.Rect(0, 0, cardWide, cardHigh))); err != nil {
		f.Fatal(err)
	}
	f.Add(card.Bytes(), true)
	f.Add(card.Bytes()[:len(card.Bytes())-9], true)
	f.Add([]byte("\x89PNG\r\n\x1a\n"), true)
	f.Add([]byte("\n"), false)
	f.Fuzz(func(t *testing.T, text []byte, hashed bool) {
		if hashed {
			text = append([]byte(hashOf(text)+"\n"), text...)
		}
		data, sound := keptCard(text)
		if !sound {
			return
		}
		if !bytes.HasPrefix(data, []byte("\x89PNG")) || string(text) != hashOf(data)+"\n"+string(data) {
			t.Errorf("%q was taken", text)
		}
	})
}
