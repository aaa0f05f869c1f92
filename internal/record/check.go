package record

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/picture"
	"hembook/internal/say"
	"hembook/internal/words"
)

// check looks at what files say of each other, builds apart.
func (r *Room) check(faults *fault.Faults) {
	for _, c := range r.Cloths {
		r.checkCloth(c, faults)
	}
	techniques := r.techniqueList()
	for _, t := range r.Techniques {
		for _, see := range t.See {
			known(see, techniques, faults)
		}
		r.checkPhoto(path.Dir(t.At.File()), t.Picture, faults)
	}
	r.checkNames(faults)
	r.checkCurrency(faults)
}

// checkCurrency wants the three letters of a currency.
func (r *Room) checkCurrency(faults *fault.Faults) {
	c := r.Workroom.Currency
	if !c.Given() || isCurrency(c.V) {
		return
	}
	now := map[string]string{"€": "EUR", "euro": "EUR", "euros": "EUR", "£": "GBP", "pound": "GBP", "pounds": "GBP", "us$": "USD", "fr.": "CHF"}[strings.ToLower(c.V)]
	if up := strings.ToUpper(c.V); now == "" && isCurrency(up) {
		now = up
	}
	hint := say.Of("record.write-its-three-letters-as-eur-gbp")
	if now != "" {
		hint = say.Of("record.write", now)
	}
	faults.Wrong(c.At, hint, say.Of("record.is-not-the-three-letters-of-a", say.Quoted(fault.Shorten(c.V)))).Instead(c.V, now)
}

func isCurrency(s string) bool {
	return len(s) == 3 && strings.Trim(s, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

// checkNames finds two things of one kind that a reader could not tell apart.
func (r *Room) checkNames(faults *fault.Faults) {
	seen := map[string]string{}
	for _, b := range r.Builds {
		key := strings.ToLower(b.Name)
		if first, twice := seen[key]; twice {
			faults.Wrong(fault.Pos{Source: &fault.Source{Path: b.Path}, Line: 1, Column: 1}, say.Of("record.give-one-of-them-another-name"), say.Of("record.two-garments-are-called-this-one-and", say.Quoted(b.Name), first))
			continue
		}
		seen[key] = b.Path
	}
	names := map[string]fault.Pos{}
	for _, t := range r.Techniques {
		for _, n := range append([]Text{t.Name}, t.Also...) {
			if !n.Given() {
				continue
			}
			if first, twice := names[strings.ToLower(n.V)]; twice {
				faults.LookAgain(n.At, "", say.Of("record.two-techniques-are-known-as-the-other", say.Quoted(n.V), first.File()))
				continue
			}
			names[strings.ToLower(n.V)] = n.At
		}
	}
}

func (r *Room) checkCloth(c *Cloth, faults *fault.Faults) {
	c.checkPattern(faults)
	var sum Share
	for _, f := range c.Fibres {
		sum += f.V.V
	}
	if len(c.Fibres) > 0 && (sum < 99.95 || sum > 100.05) {
		faults.Wrong(c.Fibres[0].Name.At, say.Of("record.all-shares-together-must-be-100"), say.Of("record.the-fibres-come-to", trim(float64(sum))))
	}
	if r.Workroom != nil {
		c.unlikely(faults, r.BareUnit())
	}
	if c.Width.Given() && 2*c.Selvedge.V >= c.Width.V {
		faults.Wrong(c.Selvedge.At, "", say.Of("record.the-selvedges-leave-nothing-of-the"))
	}
	if s := c.Swatch; s.Given() && !isColour(s.V) {
		faults.Wrong(s.At, say.Of("record.write-and-six-digits-or-letters-a"), say.Of("record.is-not-a-colour", say.Quoted(s.V)))
	}
	r.checkPhoto(path.Dir(c.At.File()), c.Picture, faults)
	encloses := func(corners []Val[XY], at fault.Pos) {
		if corners != nil && len(corners) < 3 && at.Given() { // none at all is told where the word is missing
			faults.Wrong(at, say.Of("record.it-has-at-least-three-corners"), say.Of("record.an-outline-of-corners-encloses-nothing", len(corners)))
		}
	}
	for i := range c.Remnants {
		rest := &c.Remnants[i]
		encloses(rest.Outline, rest.At)
		for k := range rest.Holes {
			encloses(rest.Holes[k].Outline, rest.Holes[k].At)
			rest.holeWithin(&rest.Holes[k], words.Tape(r.BareUnit()), faults)
		}
	}
	for i := range c.Flaws {
		encloses(c.Flaws[i].Outline, c.Flaws[i].At)
	}
	r.checkLedger(c, faults)
}

func isColour(s string) bool {
	return len(s) == 7 && s[0] == '#' && strings.Trim(strings.ToLower(s[1:]), "0123456789abcdef") == ""
}

// checkPhoto looks whether a picture is there, inside the folder, and a picture.
func (r *Room) checkPhoto(folder string, p Photo, faults *fault.Faults) {
	if !p.File.Given() {
		return
	}
	full, bad := photoPath(folder, p.File.V)
	if bad != "" {
		faults.Wrong(p.File.At, say.Of("record.name-a-file-beside-the-record-as"), say.Of("record.the-picture", say.Quoted(fault.Shorten(p.File.V)), bad))
		return
	}
	f, err := r.FS.Open(full)
	if err != nil {
		faults.Wrong(p.File.At, openHint(err), say.Of("record.the-picture-cannot-be-read", say.Quoted(p.File.V), plainError(err)))
		return
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() {
		faults.Wrong(p.File.At, "", say.Of("record.the-picture-is-not-a-file", say.Quoted(p.File.V)))
		return
	}
	err = picture.CheckBytes(info.Size())
	if err == nil {
		_, err = picture.Look(f)
	}
	if err != nil {
		why, hint := fault.Words(err)
		faults.Wrong(p.File.At, hint, say.Of("record.the-picture-cannot-be-used", say.Quoted(p.File.V), why))
		return
	}
	if !p.Alt.Given() {
		faults.LookAgain(p.File.At, say.Of("record.alt-two-rows-of-stitching"), say.Of("record.say-what-it-shows-for-readers-who", p.File.V))
	}
}

// PhotoPath is where a picture lies, from the workroom's folder; "" where it
// would lie outside the record's own folder.
func PhotoPath(folder string, p Photo) string {
	full, bad := photoPath(folder, p.File.V)
	if bad != "" {
		return ""
	}
	return full
}

func photoPath(folder, file string) (full, bad string) {
	if strings.ContainsAny(file, "\\\x00") || path.IsAbs(file) {
		return "", say.Of("record.is-not-a-path-inside-the-folder")
	}
	full = path.Join(folder, file)
	if !strings.HasPrefix(full, folder+"/") || !fs.ValidPath(full) {
		return "", say.Of("record.leads-out-of-the-folder")
	}
	return full, ""
}

// A listed is a set of names that a word may refer to.
type listed struct {
	what  string   // "cloth"
	where string   // "in this garment", or ""
	names []string // those there are
}

// known reports whether the name is one of those listed, and faults it where it is not.
func known(name Text, in listed, faults *fault.Faults) bool {
	if !name.Given() {
		return false
	}
	if slices.Contains(in.names, name.V) {
		return true
	}
	where := in.where
	if where != "" {
		where = " " + where
	}
	if row := strings.Split(name.V, ", "); len(row) > 1 && in.what == "cloth" && !slices.ContainsFunc(row, func(one string) bool { return !slices.Contains(in.names, one) }) {
		now := "[" + name.V + "]"
		faults.Wrong(name.At, say.Of("record.write", now), say.Of("record.several-cloths-stand-in-square-brackets")).InsteadAt(name.At, "", now)
		return false
	}
	faults.Wrong(name.At, meant.Among(name.V, in.names, say.Of("record.there-are")), say.Of("record.there-is-no", in.what, say.Quoted(fault.Shorten(name.V)), where)).
		Instead(name.V, meant.Nearest(name.V, in.names))
	return false
}

func plural(what string) string {
	if a, b, ok := strings.Cut(what, " or "); ok {
		return say.Of("record.or", plural(a), plural(b))
	}
	if strings.HasSuffix(what, "h") {
		return what + "es"
	}
	return what + "s"
}

// twice faults names that are used twice in one list.
func twice(names []Text, what string, faults *fault.Faults) {
	first := map[string]fault.Pos{}
	for _, n := range names {
		if !n.Given() {
			continue
		}
		if at, again := first[n.V]; again {
			faults.Wrong(n.At, say.Of("record.give-one-of-them-another-name"), say.Of("record.two-are-called-the-first-is-on", plural(what), say.Quoted(fault.Shorten(n.V)), at.Line))
			continue
		}
		first[n.V] = n.At
	}
}
