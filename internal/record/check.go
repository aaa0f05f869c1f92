package record

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/picture"
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
	hint := "write its three letters, as EUR, GBP or USD"
	if now != "" {
		hint = "write " + now
	}
	faults.Errorf(c.At, hint, "%q is not the three letters of a currency", fault.Shorten(c.V)).Instead(c.V, now)
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
			faults.Errorf(fault.Pos{Source: &fault.Source{Path: b.Path}, Line: 1, Column: 1}, "give one of them another name", "two garments are called %q: this one and %s", b.Name, first)
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
				faults.Warnf(n.At, "", "two techniques are known as %q: the other is in %s", n.V, first.File())
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
		faults.Errorf(c.Fibres[0].Name.At, "all shares together must be 100", "the fibres come to %s %%", trim(float64(sum)))
	}
	if r.Workroom != nil {
		c.unlikely(faults, r.BareUnit())
	}
	if c.Width.Given() && 2*c.Selvedge.V >= c.Width.V {
		faults.Errorf(c.Selvedge.At, "", "the selvedges leave nothing of the width")
	}
	if s := c.Swatch; s.Given() && !isColour(s.V) {
		faults.Errorf(s.At, "write # and six digits or letters a to f, as #b4532a", "%q is not a colour", s.V)
	}
	r.checkPhoto(path.Dir(c.At.File()), c.Picture, faults)
	encloses := func(corners []Val[XY], at fault.Pos) {
		if corners != nil && len(corners) < 3 && at.Given() { // none at all is told where the word is missing
			faults.Errorf(at, "it has at least three corners", "an outline of %d corners encloses nothing", len(corners))
		}
	}
	for i := range c.Remnants {
		encloses(c.Remnants[i].Outline, c.Remnants[i].At)
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
		faults.Errorf(p.File.At, "name a file beside the record, as photos/cut.jpg", "the picture %q %s", fault.Shorten(p.File.V), bad)
		return
	}
	f, err := r.FS.Open(full)
	if err != nil {
		faults.Errorf(p.File.At, openHint(err), "the picture %q cannot be read: %s", p.File.V, plainError(err))
		return
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() {
		faults.Errorf(p.File.At, "", "the picture %q is not a file", p.File.V)
		return
	}
	err = picture.CheckBytes(info.Size())
	if err == nil {
		_, err = picture.Look(f)
	}
	if err != nil {
		why, hint := fault.Words(err)
		faults.Errorf(p.File.At, hint, "the picture %q cannot be used: %s", p.File.V, why)
		return
	}
	if !p.Alt.Given() {
		faults.Warnf(p.File.At, "alt: two rows of stitching", "%s: say what it shows, for readers who cannot see it", p.File.V)
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
		return "", "is not a path inside the folder"
	}
	full = path.Join(folder, file)
	if !strings.HasPrefix(full, folder+"/") || !fs.ValidPath(full) {
		return "", "leads out of the folder"
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
		faults.Errorf(name.At, "write "+now, "several cloths stand in square brackets").InsteadAt(name.At, "", now)
		return false
	}
	faults.Errorf(name.At, meant.Among(name.V, in.names, "there are: "), "there is no %s %q%s", in.what, fault.Shorten(name.V), where).
		Instead(name.V, meant.Nearest(name.V, in.names))
	return false
}

func plural(what string) string {
	if a, b, ok := strings.Cut(what, " or "); ok {
		return plural(a) + " or " + plural(b)
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
			faults.Errorf(n.At, "give one of them another name", "two %s are called %q: the first is on line %d", plural(what), fault.Shorten(n.V), at.Line)
			continue
		}
		first[n.V] = n.At
	}
}
