package trade

import (
	"hembook/internal/words"
	"slices"
	"strings"
	"unicode"
)

// ChildTable is what is published of what may hang on children's clothes.
type ChildTable struct {
	Ages         ChildAges    `yaml:"ages"`
	Kinds        []ChildKind  `yaml:"kinds"`
	Words        []ChildWords `yaml:"words"`
	Places       []BodyPlace  `yaml:"places"`
	Limits       []ChildLimit `yaml:"limits"`
	UnitedStates []ChildLimit `yaml:"united-states"`
	NotOuterwear []string     `yaml:"not-outerwear"`
	Nightwear    NightWords   `yaml:"nightwear"`
	Childish     []string     `yaml:"childish"`
	SmallBody    SmallBody    `yaml:"small-body"`

	phrases, outer, night, perhaps, child map[string]int // stems of a phrase → its place in the list
}

// ChildAges are the two groups of EN 14682: under so many years, or so tall.
type ChildAges struct {
	Young AgeGroup `yaml:"young"`
	Older AgeGroup `yaml:"older"`
}

// An AgeGroup ends at an age in years, or at a height in millimetres.
type AgeGroup struct {
	Under      float64 `yaml:"under"`
	Below      float64 `yaml:"below"`
	GirlsBelow float64 `yaml:"girls-below,omitempty"`
	Source     Source  `yaml:"source"`
}

// A ChildKind is what a notion is as far as children's safety goes.
type ChildKind struct {
	Name  string `yaml:"name"`
	Free  bool   `yaml:"free,omitempty"`  // it has an end or a loop that can catch
	Whole bool   `yaml:"whole,omitempty"` // all of its length hangs free
	About string `yaml:"about"`
}

// ChildWords are makers' words for one kind, or for any of several, between
// which the record must choose.
type ChildWords struct {
	Kind  string   `yaml:"kind,omitempty"`
	May   []string `yaml:"may,omitempty"` // kinds the record may choose
	Words []string `yaml:"words"`
}

// BodyPlace holds words that tell a place on the body.
type BodyPlace struct {
	Place string   `yaml:"place"`
	Words []string `yaml:"words"`
}

// A ChildLimit says what is published of some kinds at some places and ages.
// An empty list stands for all. Most is the longest free end, in millimetres;
// 0 where none is allowed.
type ChildLimit struct {
	Kinds   []string `yaml:"kinds"`
	Ages    []string `yaml:"ages,omitempty"`
	From    float64  `yaml:"from,omitempty"` // years, for a practice that goes by sizes
	Under   float64  `yaml:"under,omitempty"`
	Places  []string `yaml:"places,omitempty"`
	Most    float64  `yaml:"most,omitempty"`
	Caution string   `yaml:"caution"`
	Says    string   `yaml:"says"`
	Source  Source   `yaml:"source"`
}

// NightWords are names of nightwear, and of what may be slept in.
type NightWords struct {
	Words   []string `yaml:"words"`
	Perhaps []string `yaml:"perhaps"`
}

// SmallBody is a body smaller than that of any grown person measured, in mm.
type SmallBody struct {
	Height float64 `yaml:"height"`
	Chest  float64 `yaml:"chest"`
	Source Source  `yaml:"source"`
}

var childData = once(func() (*ChildTable, error) {
	t, err := table[ChildTable]("children")
	if err != nil {
		return nil, err
	}
	t.phrases = map[string]int{}
	for i, w := range t.Words {
		addPhrases(t.phrases, w.Words, i)
	}
	t.outer, t.night, t.perhaps, t.child = map[string]int{}, map[string]int{}, map[string]int{}, map[string]int{}
	addPhrases(t.outer, t.NotOuterwear, 0)
	addPhrases(t.night, t.Nightwear.Words, 0)
	addPhrases(t.perhaps, t.Nightwear.Perhaps, 0)
	addPhrases(t.child, t.Childish, 0)
	return &t, nil
})

// Children is the table of children's clothes; it is not to be changed.
func Children() *ChildTable { return childData() }

func addPhrases(to map[string]int, phrases []string, i int) {
	for _, p := range phrases {
		to[strings.Join(stems(p), " ")] = i
	}
}

// stems are the words of a text, comparable as words.Stem makes them.
func stems(text string) []string {
	list := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for i := range list {
		list[i] = words.Stem(list[i])
	}
	return list
}

// found looks for phrases in a text, the longest first, and returns their
// places in the list they come from. No word counts twice.
func found(phrases map[string]int, text string) []int {
	words := stems(text)
	var out []int
	for i := 0; i < len(words); {
		n := min(4, len(words)-i)
		for ; n > 0; n-- {
			if k, ok := phrases[strings.Join(words[i:i+n], " ")]; ok {
				out = append(out, k)
				break
			}
		}
		i += max(n, 1)
	}
	return out
}

// KindNamed finds a kind by its name.
func (t *ChildTable) KindNamed(name string) (ChildKind, bool) {
	i := slices.IndexFunc(t.Kinds, func(k ChildKind) bool { return k.Name == name })
	if i < 0 {
		return ChildKind{}, false
	}
	return t.Kinds[i], true
}

// Classify tells what kind of thing a maker's words name. Of several things
// the one that can catch decides, then one that is not clear. Where the words
// leave it open the kind written decides; where they do not, it counts only if
// it is the stricter, or one that the words may mean: clash is the kind the
// words themselves name. open lists what may be written where nothing decides.
func (t *ChildTable) Classify(what, written string) (kind string, open []string, clash string) {
	var words *ChildWords
	for _, i := range found(t.phrases, what) {
		if w := &t.Words[i]; words == nil || t.rank(w) > t.rank(words) {
			words = w
		}
	}
	switch {
	case words == nil && written == "":
		return "", t.kindNames(), ""
	case words == nil || words.Kind == "" && slices.Contains(words.May, written):
		return written, nil, ""
	case words.Kind == "" && written != "":
		return "", words.May, written
	case words.Kind == "":
		return "", words.May, ""
	case written == "" || written == words.Kind || slices.Contains(words.May, written):
		if written == "" {
			written = words.Kind
		}
		return written, nil, ""
	}
	if k, _ := t.KindNamed(words.Kind); k.Free {
		return words.Kind, nil, words.Kind
	}
	return written, nil, ""
}

// MayHang reports whether words name something with a free end or loop, or
// something that may have one.
func (t *ChildTable) MayHang(words string) bool {
	return slices.ContainsFunc(found(t.phrases, words), func(i int) bool { return t.rank(&t.Words[i]) > 0 })
}

// rank orders words by how much they can hurt.
func (t *ChildTable) rank(w *ChildWords) int {
	k, _ := t.KindNamed(w.Kind)
	switch {
	case k.Free:
		return 2
	case w.Kind == "":
		return 1
	}
	return 0
}

func (t *ChildTable) kindNames() []string {
	var out []string
	for _, k := range t.Kinds {
		out = append(out, k.Name)
	}
	return out
}

// BodyPlace is where on the body something is: what its words say goes before
// what is written, for a hood's cord may be written at the front.
func (t *ChildTable) BodyPlace(what, written string) string {
	for _, p := range t.Places {
		phrases := map[string]int{}
		addPhrases(phrases, p.Words, 0)
		if len(found(phrases, what)) > 0 {
			return p.Place
		}
	}
	return written
}

// A YoungWearer is who a garment is for, as far as it is known.
type YoungWearer struct {
	Age  float64 // years; negative where not known
	Tall float64 // mm; 0 where not known
	Girl bool
}

// Is reports whether the wearer is a child to EN 14682. Of age and height the
// age decides.
func (t *ChildTable) Is(c YoungWearer) bool {
	if c.Age >= 0 {
		return c.Age < t.Ages.Older.Under
	}
	if c.Girl && t.Ages.Older.GirlsBelow > 0 {
		return c.Tall <= t.Ages.Older.GirlsBelow
	}
	return c.Tall <= t.Ages.Older.Below
}

// Young reports whether a child is in the younger group: by age, by height, or
// because nothing is known, which is the stricter case.
func (t *ChildTable) Young(c YoungWearer) bool {
	young := t.Ages.Young
	return c.Age >= 0 && c.Age < young.Under || c.Tall > 0 && c.Tall <= young.Below || c.Age < 0 && c.Tall == 0
}

// LimitFor finds what is published for a kind at a place, of a child.
func (t *ChildTable) LimitFor(kind, place string, c YoungWearer) (ChildLimit, bool) {
	if !t.Is(c) {
		return ChildLimit{}, false
	}
	age := "older"
	if t.Young(c) {
		age = "young"
	}
	return firstLimit(t.Limits, kind, place, func(l ChildLimit) bool { return len(l.Ages) == 0 || slices.Contains(l.Ages, age) })
}

// LimitInStates finds what the practice of the United States says of it, on
// upper outerwear; garments not known to be something else count as that.
func (t *ChildTable) LimitInStates(kind, place, garment string, c YoungWearer) (ChildLimit, bool) {
	if len(found(t.outer, garment)) > 0 {
		return ChildLimit{}, false
	}
	return firstLimit(t.UnitedStates, kind, place, func(l ChildLimit) bool {
		return c.Age >= l.From && c.Age < l.Under || c.Age < 0 && t.Is(c)
	})
}

func firstLimit(list []ChildLimit, kind, place string, fits func(ChildLimit) bool) (ChildLimit, bool) {
	for _, l := range list {
		if slices.Contains(l.Kinds, kind) && (len(l.Places) == 0 || slices.Contains(l.Places, place)) && fits(l) {
			return l, true
		}
	}
	return ChildLimit{}, false
}

// IsNightwear reports whether words name nightwear; perhaps, whether they name
// what may be slept in.
func (t *ChildTable) IsNightwear(words string) (night, perhaps bool) {
	return len(found(t.night, words)) > 0, len(found(t.perhaps, words)) > 0
}

// SaysChild reports whether words say that a garment is for a child.
func (t *ChildTable) SaysChild(words string) bool { return len(found(t.child, words)) > 0 }
