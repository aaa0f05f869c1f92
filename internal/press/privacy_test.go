package press

import (
	"path"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"hembook/internal/notebook"
	"hembook/internal/record"
)

// withSecrets is the small workroom with a secret in every private place, and
// in the remarks beside those. Numbers are odd enough not to occur otherwise.
func withSecrets() (files, []string) {
	f := small()
	f["content/workroom.yaml"] = strings.Replace(f["content/workroom.yaml"], "maker: {name: Somebody}\n", `maker:
  name: Somebody
  # SECRETremark above the address
  address: SECRETaddress 7
  country: SECRETcountry # SECRETbeside
labour: 7919.31 EUR # SECRETlabour
private:
  note: SECRETroom
`, 1)
	f["content/cloth/rust-linen.yaml"] += "price: 7927.37 EUR # SECRETprice\nfrom: SECRETshop\n"
	f["content/wearers/secret-wearer.yaml"] = `name: SECRETname
for: {who: woman, height: 1777}
address: SECRETstreet
country: SECRETland
contact: SECRETmail
note: SECRETnote
taken: 2026-01-07
by: SECRETtaker
body: {bust: 987.3, waist: 873.9, hip: 1083.7}
earlier: [{day: 2025-01-07, by: SECRETearlier, body: {bust: 977.1}}]
`
	build := f["content/builds/apron/build.yaml"]
	build = strings.Replace(build, "state: sewing\n", "state: sewing\n# SECRETabove\nwearer: secret-wearer # SECRETwho\n", 1)
	build = strings.Replace(build, "thread: {rust: rust}", "thread: {rust: {colour: rust, price: 7933.41 EUR, reel: 200 m}}", 1)
	build = strings.Replace(build, "every: 70}", "every: 70, price: 7937.43 EUR}", 1)
	build += `measured: {waist: 610}
# SECRETcost remark
costs:
  post: 7951.53 EUR # SECRETpost
  labour: 7949.47 EUR # SECRETrate
  other: {SECRETthing: 7963.59 EUR}
  price: 7993.61 EUR
packet:
  customs: {category: gift, value: 7999.71 EUR} # SECRETvalue
private:
  anything: SECRETprivate
  list: [SECRETlist]
`
	f["content/builds/apron/build.yaml"] = build
	return f, []string{
		"SECRET", "secret-wearer", "7919.31", "7927.37", "7933.41", "7937.43", "7949.47", "7951.53", "7963.59", "7993.61", "7999.71",
		"987.3", "873.9", "1083.7", "977.1", "1777", "2026-01-07",
	}
}

func TestNothingPrivateIsPressed(t *testing.T) {
	f, secrets := withSecrets()
	all := pressed(t, room(t, f), filepath.Join(t.TempDir(), "x"))
	for name, text := range all {
		for _, s := range secrets {
			if i := strings.Index(text, s); i >= 0 {
				t.Errorf("%s holds %q: …%s…", name, s, text[max(0, i-60):min(len(text), i+60)])
			}
		}
		if strings.Contains(name, "SECRET") || strings.Contains(name, "secret") {
			t.Errorf("the name %q", name)
		}
	}
	// the room is worked out, so that there was something to leak
	if !strings.Contains(all["builds/apron/fit.html"], "610\u00a0mm") {
		t.Error("the measured waist is not shown")
	}
	if !strings.Contains(all["records/apron.html"], "buttons") {
		t.Error("the record is not shown")
	}
}

// TestPageTypesHoldNothingPrivate walks every type that a template is given:
// none may hold a private value or a wearer, however deep.
func TestPageTypesHoldNothingPrivate(t *testing.T) {
	views := append([]any{
		BuildView{}, LeafView{}, RecordView{}, TechniqueView{}, ClothView{}, ListView{}, FrontView{}, TextView{},
	}, notebook.AllPages...)
	for _, v := range views {
		walkType(t, reflect.TypeOf(v), reflect.TypeOf(v).Name(), map[reflect.Type]bool{})
	}
	// the walk itself must find one
	seen := false
	findPrivate(reflect.TypeFor[record.Build](), map[reflect.Type]bool{}, func(reflect.Type, string) { seen = true }, "")
	if !seen {
		t.Error("the walk does not find what a record keeps private")
	}
}

func walkType(t *testing.T, typ reflect.Type, name string, seen map[reflect.Type]bool) {
	findPrivate(typ, seen, func(bad reflect.Type, at string) { t.Errorf("%s holds %s", at, bad) }, name)
}

// mayNot are types that no page may hold, beside everything private.
var mayNot = []reflect.Type{
	reflect.TypeFor[record.Wearer](), reflect.TypeFor[record.Build](), reflect.TypeFor[record.Costs](),
	reflect.TypeFor[record.Cloth](), reflect.TypeFor[record.Workroom](), reflect.TypeFor[record.Room](),
}

func findPrivate(typ reflect.Type, seen map[reflect.Type]bool, found func(reflect.Type, string), at string) {
	if seen[typ] {
		return
	}
	seen[typ] = true
	if typ.PkgPath() == "hembook/internal/record" && strings.HasPrefix(typ.Name(), "Private[") {
		found(typ, at)
		return
	}
	for _, bad := range mayNot {
		if typ == bad && at != "" {
			found(typ, at)
		}
	}
	switch typ.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Array:
		findPrivate(typ.Elem(), seen, found, at)
	case reflect.Map:
		findPrivate(typ.Key(), seen, found, at)
		findPrivate(typ.Elem(), seen, found, at)
	case reflect.Struct:
		for i := range typ.NumField() {
			findPrivate(typ.Field(i).Type, seen, found, at+"."+typ.Field(i).Name)
		}
	}
}

// TestScriptsInRecordsStayWords writes markup wherever a record takes words.
func TestScriptsInRecordsStayWords(t *testing.T) {
	const bad = `<script>alert(1)</script><img src=x onerror=alert(2)>" onload="alert(3)`
	f := small()
	q := "'" + bad + "'"
	f["content/workroom.yaml"] = "name: " + q + "\nsummary: " + q + "\nmaker: {name: " + q + ", contact: " + q + "}\nterms: {" + q + ": {meaning: " + q + ", also: [" + q + "]}}\n"
	f["content/cloth/rust-linen.yaml"] = "name: " + q + "\nsummary: " + q + "\nabout: " + q + "\ncolour: " + q + "\nfibres: {linen: 100}\nweave: " + q + "\nwidth: 140 cm\nremnants: {" + q + ": {outline: [[0, 0], [400, 0], [0, 300]], note: " + q + "}}\n"
	f["content/techniques/plain-way.md"] = "---\nname: " + q + "\nalso: [" + q + "]\nsummary: " + q + "\nwhen: " + q + "\n---\n" + bad + "\n\n## " + bad + "\n\n```" + bad + "\n" + bad + "\n```\n\n[a](javascript:alert)\n"
	f["content/techniques/plain-way.md"] = strings.Replace(f["content/techniques/plain-way.md"], "[a](javascript:alert)", "`"+bad+"`", 1)
	build := f["content/builds/apron/build.yaml"]
	for from, to := range map[string]string{
		"name: Apron\n": "name: " + q + "\n", "summary: A plain apron.": "summary: " + q, "garment: apron": "garment: " + q,
		"  skirt:\n": "  " + q + ":\n    note: " + q + "\n", "waist: {join: [band.top, skirt.top]": q + ": {join: [band.top, band.bottom]",
		"along: skirt.right, first: 100, last: 400,": "along: band.top,", "top: [0, 250]": q + ": [0, 250]", "level: waist}": "level: " + q + "}",
		"  hem: {of: skirt.bottom,": "  'x" + bad + "': {of: bib.bottom,", "buttons: {": "'y" + bad + "': {note: " + q + ", ",
		"  cut: {": "  " + q + ": {", "sews: [waist], ": "", "after: [cut], ": "", "did: cut, ": "did: sew, ", "saw: too long": "saw: " + q, "skirt.bottom: {move: -10,": "bib.side: {note: " + q + ",",
		`note: "went **well**"`: "note: " + q, "{shell: rust-linen}": "{" + q + ": rust-linen}", "thread: {rust: rust}": "thread: {" + q + ": " + q + "}",
	} {
		if !strings.Contains(build, from) {
			t.Fatalf("nothing to replace: %q", from)
		}
		build = strings.Replace(build, from, to, 1)
	}
	f["content/builds/apron/build.yaml"] = build
	f["content/builds/apron/notes.md"] = bad + "\n"
	all := pressed(t, room(t, f), filepath.Join(t.TempDir(), "x"))
	for name, text := range all {
		if path.Ext(name) != ".html" {
			continue
		}
		for _, s := range []string{"<script>", "<img src=x", `" onload="`} {
			if i := strings.Index(text, s); i >= 0 {
				t.Errorf("%s holds %q: …%s…", name, s, text[max(0, i-60):min(len(text), i+60)])
			}
		}
		checkPage(t, name, text, all)
	}
}
