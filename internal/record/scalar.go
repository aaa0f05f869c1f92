package record

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/shopspring/decimal"
	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/record/phrase"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// wrong is why a scalar could not be read, about the whole of it.
func wrong(hint, message string) *fault.Fault {
	return fault.InText(0, message, hint)
}

// scalarKind reads a Val[T] from one scalar.
type scalarKind[T any] struct {
	what   string // "a length", with its article
	eg     string // how one is written
	parse  func(d *decoder, text string, lim limits) (T, *fault.Fault)
	number func(T) float64 // for min and max; nil where they do not apply
	unit   string          // unit of min and max, for messages
	form   map[string]any  // its JSON Schema
	widest limits          // the numbers that are read where the word itself sets no limits
}

// belowMark is where the words of a value begin: below the mark of a block.
func belowMark(n *yaml.Node, at fault.Pos) fault.Pos {
	if n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		at.Line, at.Column = at.Line+1, 1
	}
	return at
}

func (k *scalarKind[T]) read(d *decoder, n *yaml.Node, into reflect.Value, lim limits) {
	at := d.pos(n)
	if n = d.resolve(n); n == nil {
		return
	}
	if byTongue(n) {
		d.faults.Wrong(at, say.Of("record.write-it-once-no-sheet-shows-it"), say.Of("record.this-cannot-stand-in-several-languages"))
		return
	}
	if n.Kind != yaml.ScalarNode || isNull(n) {
		d.faults.Wrong(at, say.Of("record.write-such-as", k.what, k.eg), say.Of("record.this-must-be-it-is", k.what, shapeOf(n)))
		return
	}
	at = belowMark(n, at)
	if k.unit == " mm" && d.inRepeats(n, at, into, lim) {
		return
	}
	v, bad := k.parse(d, n.Value, lim)
	if bad == nil {
		bad = k.outside(n.Value, v, lim, words.Tape(d.bare))
	}
	if bad != nil {
		d.misread(n, at, bad)
		if _, flag := any(v).(bool); !flag || bad.Meant() == "" {
			return // a yes is told, and taken as true, so that nothing else is told of it
		}
	}
	*into.Addr().Interface().(*Val[T]) = Val[T]{v, at}
	if k.unit == " mm" && d.bare != measure.UnitIn && strings.ContainsAny(n.Value, "\"″'′") {
		d.inches = append(d.inches, Text{n.Value, at})
	}
	if lim.seldom != nil && k.number(v) > *lim.seldom {
		d.seldom(at, n.Value, k.number(v), *lim.seldom)
	}
}

// misread tells what is wrong with a scalar that stands at a place, at the character
// it is about.
func (d *decoder) misread(n *yaml.Node, whole fault.Pos, bad *fault.Fault) {
	at := whole
	at.Column += int32(columnShift(n, bad.Offset()))
	d.faults.Wrong(at, bad.Hint, bad.Message).InsteadAt(whole, n.Value, bad.Meant())
}

// columnShift moves a fault to the character it is about, where the scalar
// stands in the file as it is read.
func columnShift(n *yaml.Node, offset int) int {
	switch n.Style {
	case 0, yaml.TaggedStyle:
		return offset
	case yaml.DoubleQuotedStyle, yaml.SingleQuotedStyle:
		return offset + 1
	}
	return 0
}

func (k *scalarKind[T]) outside(text string, v T, lim limits, tape words.Tape) *fault.Fault {
	if k.number == nil {
		return nil
	}
	f := k.number(v)
	switch {
	case lim.min != nil && f < *lim.min && *lim.min == 0:
		return wrong(say.Of("record.write-it-without-the-minus-sign"), say.Of("record.cannot-be-negative-here", k.what)).Whole(strings.TrimPrefix(text, "-"))
	case lim.min != nil && f < *lim.min:
		return wrong("", say.Of("record.must-be-at-least-here", k.what, k.bound(*lim.min, tape)))
	case lim.max != nil && f > *lim.max:
		return wrong(k.tooLarge(text, f, lim, tape), say.Of("record.must-be-at-most-here", k.what, k.bound(*lim.max, tape)))
	}
	return nil
}

// bound writes a limit with its unit, a length in the record's own.
func (k *scalarKind[T]) bound(most float64, tape words.Tape) string {
	switch {
	case k.unit != " mm":
		return trim(most) + k.unit
	case most >= 10_000 && measure.Unit(tape) != measure.UnitIn:
		return trim(most/1000) + " m"
	}
	return tape.About(most)
}

// tooLarge is the hint to a value above its limit: metres that were written for
// millimetres, a number whose point was forgotten, or a share that was written in per cent.
func (k *scalarKind[T]) tooLarge(text string, f float64, lim limits, tape words.Tape) string {
	if k.unit == " mm" {
		number, metres := strings.CutSuffix(text, "m")
		if number = strings.TrimSpace(number); metres && f/1000 <= *lim.max {
			if _, err := strconv.ParseFloat(number, 64); err == nil {
				return say.Of("record.perhaps", tape.About(f/1000))
			}
		}
		return say.Of("record.is-the-unit-right-without-one-it")
	}
	if k.unit != "" && k.unit != " %" {
		return ""
	}
	_, whole := any(*new(T)).(int)
	for _, by := range [...]float64{10, 100} {
		if v := f / by; v <= *lim.max && (lim.min == nil || v > *lim.min) && (!whole || v == math.Trunc(v)) {
			return say.Of("record.perhaps", trim(v))
		}
	}
	return ""
}

func trim(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) }

func (k *scalarKind[T]) schema(_ *schemaWriter, lim limits) map[string]any {
	if lim.oneOf != nil {
		return map[string]any{"enum": enumOf(lim.oneOf)}
	}
	out := maps.Clone(k.form)
	if k.number != nil {
		k.widest.bound(out, false)
		lim.bound(out, k.unit == " mm")
	}
	return out
}

// between are limits as numbers.
func between(least, most float64) limits { return limits{min: &least, max: &most} }

// bound puts limits into the schema of a number. What a bare length is in is not known
// there, so its limits hold in whichever unit they are widest.
func (lim limits) bound(form map[string]any, length bool) {
	if lim.max != nil {
		form["maximum"] = *lim.max
	}
	if lim.min != nil {
		form["minimum"] = *lim.min
		if length && *lim.min > 0 {
			form["minimum"] = *lim.min / 25.4
		}
	}
}

// enumOf lists words that may stand; YAML reads a bare 40 as a number, so
// such a word is listed as both.
func enumOf(words []string) []any {
	var out []any
	for _, w := range words {
		out = append(out, w)
		if f, err := strconv.ParseFloat(w, 64); err == nil {
			out = append(out, f)
		}
	}
	return out
}

var (
	textForm   = map[string]any{"type": []string{"string", "number", "boolean"}, "pattern": `\S`}
	flagForm   = map[string]any{"type": []string{"boolean", "string"}, "pattern": "^([Tt][Rr][Uu][Ee]|[Ff][Aa][Ll][Ss][Ee])$"}
	wholeForm  = map[string]any{"type": []string{"integer", "string"}, "pattern": `^[+-]?[0-9]+$`}
	plainForm  = map[string]any{"type": []string{"number", "string"}, "pattern": `^[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)$`}
	numberForm = map[string]any{"type": []string{"string", "number"}, "pattern": figurePattern}
	weighForm  = map[string]any{"type": "string", "pattern": figurePattern + `.*[A-Za-z]`}
	stringForm = map[string]any{"type": "string", "pattern": figurePattern}
)

// figurePattern is that of what has a figure in it, as "1 1/4 in", "½ in" or "2 h".
const figurePattern = `[0-9¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]`

// scalarKinds holds every scalar a record may have, by its Go type.
var scalarKinds = map[reflect.Type]kind{
	reflect.TypeFor[Text]():     &scalarKind[string]{what: "text", eg: say.Of("record.a-few-words"), parse: readText, form: textForm},
	reflect.TypeFor[Flag]():     &scalarKind[bool]{what: say.Of("record.true-or-false"), eg: "true", parse: readFlag, form: flagForm},
	reflect.TypeFor[Count]():    &scalarKind[int]{what: say.Of("record.a-whole-number"), eg: "2", parse: readCount, number: func(n int) float64 { return float64(n) }, form: wholeForm, widest: between(math.MinInt32, math.MaxInt32)},
	reflect.TypeFor[Number]():   &scalarKind[float64]{what: say.Of("record.a-number"), eg: "1.5", parse: readNumber, number: func(f float64) float64 { return f }, form: plainForm, widest: between(-mostNumber, mostNumber)},
	reflect.TypeFor[Length]():   &scalarKind[measure.Length]{what: say.Of("record.a-length"), eg: say.Of("record.15-1-5-cm-or-5-8"), parse: readLength, number: measure.Length.MM, unit: " mm", form: numberForm, widest: between(-mostLength, mostLength)},
	reflect.TypeFor[Duration](): &scalarKind[time.Duration]{what: say.Of("record.a-time"), eg: say.Of("record.50-min-or-1-h-20-min"), parse: readDuration, form: stringForm},
	reflect.TypeFor[Date]():     &scalarKind[Day]{what: say.Of("record.a-date"), eg: "2026-08-03", parse: readDay, form: map[string]any{"type": "string", "pattern": `^\s*\d{4}-\d\d-\d\d\s*$`}},
	reflect.TypeFor[Moment]():   &scalarKind[time.Time]{what: say.Of("record.a-date-and-time"), eg: "2026-08-05 14:10", parse: readMoment, form: map[string]any{"type": "string", "pattern": `^\s*\d{4}-\d\d-\d\d`}},
	reflect.TypeFor[Percent]():  &scalarKind[Share]{what: say.Of("record.a-percentage"), eg: say.Of("record.4-or-4"), parse: readShare, number: func(s Share) float64 { return float64(s) }, unit: " %", form: numberForm, widest: between(0, 100)},
	reflect.TypeFor[Areal]():    &scalarKind[GramsPerSquareMetre]{what: say.Of("record.a-weight-by-area"), eg: say.Of("record.190-g-m2-or-5-6-oz"), parse: readAreal, number: func(g GramsPerSquareMetre) float64 { return float64(g) }, unit: " g/m²", form: weighForm},
	reflect.TypeFor[Mass]():     &scalarKind[Grams]{what: say.Of("record.a-weight"), eg: `"12 g"`, parse: readMass, number: func(g Grams) float64 { return float64(g) }, unit: " g", form: stringForm},
	reflect.TypeFor[Turns]():    &scalarKind[Ratio]{what: say.Of("record.a-number-or-fraction"), eg: "3/4", parse: readRatio, number: func(r Ratio) float64 { return float64(r) }, form: numberForm},
	reflect.TypeFor[Money](): &scalarKind[measure.Money]{what: say.Of("record.an-amount-of-money"), eg: "18.50 EUR", parse: readMoney, form: map[string]any{
		"type": "string", "pattern": `[0-9].*[^\s0-9.,]|[^-\s0-9.,].*[0-9]`}},
	reflect.TypeFor[Val[Cut]](): &scalarKind[Cut]{what: say.Of("record.how-many-and-how"), eg: say.Of("record.1-on-fold-2-or-4-alike"), parse: readCut, form: map[string]any{
		"type": []string{"string", "integer"}, "minimum": 1, "maximum": 500, "pattern": `^\s*\+?\d+( +\s*(on fold|on the fold|alike)|\s*)\s*$`}},
	reflect.TypeFor[Val[Noun]](): &scalarKind[Noun]{what: say.Of("record.a-noun-with-its-gender"), eg: "Hose f", parse: readNoun, form: map[string]any{
		"type": "string", "pattern": `[^\s,].* (m|f|n|pl|m pl|f pl)\s*$`}},
	reflect.TypeFor[Val[NewPlace]](): newPlaceKind{},
	reflect.TypeFor[Where]():         &scalarKind[phrase.Where]{what: say.Of("record.a-place-on-an-edge"), eg: say.Of("record.75-75-from-waist-or-middle"), parse: readWhere, form: map[string]any{"type": []string{"string", "number", "boolean"}, "pattern": wherePattern, "minimum": -mostLength, "maximum": mostLength}},
	reflect.TypeFor[Val[Reach]]():    &scalarKind[Reach]{what: say.Of("record.how-far-in"), eg: say.Of("record.120-or-to-elbow"), parse: readReach, form: map[string]any{"type": []string{"string", "number"}, "pattern": `^\s*to |` + figurePattern, "minimum": 0, "maximum": mostLength}},
	reflect.TypeFor[Val[Down]]():     &scalarKind[Down]{what: say.Of("record.how-far-down"), eg: say.Of("record.60-to-hip-or-all"), parse: readDown, form: map[string]any{"type": []string{"string", "number"}, "pattern": `^\s*(to |[Aa][Ll][Ll]\s*$)|` + figurePattern, "minimum": 0, "maximum": mostLength}},
	reflect.TypeFor[Val[Beside]]():   &scalarKind[Beside]{what: say.Of("record.a-line-beside-an-edge"), eg: say.Of("record.18-inside-front-edge"), parse: readBeside, form: map[string]any{"type": "string", "pattern": `[0-9¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞].*\sinside\s+\S`}},
	reflect.TypeFor[Val[Spot]]():     spotKind{},
	reflect.TypeFor[Val[Slash]]():    &scalarKind[Slash]{what: say.Of("record.where-it-is-cut-through"), eg: say.Of("record.waist-at-120-from-side-to-hem"), parse: readSlash, form: map[string]any{"type": "string", "pattern": `\sto\s`}},
	reflect.TypeFor[Val[Spread]]():   spreadKind{},
	reflect.TypeFor[ClosedTo]():      closedToKind{},
	reflect.TypeFor[Eased]():         betweenKind{},
	reflect.TypeFor[Gathered]():      betweenKind{gather: true},
	reflect.TypeFor[EdgeRef]():       edgeKind{},
	reflect.TypeFor[Val[XY]]():       pointKind{},
	reflect.TypeFor[Val[Handles]]():  handlesKind{},
	reflect.TypeFor[Val[Bends]]():    bendsKind{},
	reflect.TypeFor[Val[Bend]]():     bendKind{},
	reflect.TypeFor[Val[EdgeRef]]():  edgeValKind{},
	reflect.TypeFor[RectangleSpec](): rectangleKind{},
	reflect.TypeFor[Hours]():         hoursKind{},
	reflect.TypeFor[FreeYAML]():      freeKind{},
}

func readText(_ *decoder, text string, lim limits) (string, *fault.Fault) {
	if strings.TrimSpace(text) == "" {
		return "", wrong(say.Of("record.write-its-words-or-take-the-line"), say.Of("record.this-text-is-empty"))
	}
	if word, _, remark := strings.Cut(text, " //"); remark && slices.Contains(lim.oneOf, strings.TrimSpace(word)) {
		return "", wrong(say.Of("record.begin-the-remark-with-as", strings.TrimSpace(word)), say.Of("record.a-remark-does-not-begin-with"))
	}
	if lim.oneOf != nil && !slices.Contains(lim.oneOf, text) {
		if first, _, more := strings.Cut(text, " "); more && slices.Contains(lim.oneOf, first) { // a box pleat
			return "", wrong(say.Of("record.write", first), say.Of("record.is-not-a-word-known-here", say.Quoted(fault.Shorten(text)))).Whole(first)
		}
		return "", wrong(trade.Meant(text, lim.oneOf, say.Of("record.one-of-2")), say.Of("record.is-not-a-word-known-here", say.Quoted(fault.Shorten(text)))).Whole(trade.Nearest(text, lim.oneOf))
	}
	if i := strings.IndexFunc(text, isControl); i >= 0 {
		return "", wrong(say.Of("record.take-it-out-it-cannot-be-seen"), say.Of("record.the-text-holds-the-control-character", fmt.Sprintf("%U", []rune(text[i:])[0])))
	}
	return text, nil
}

func isControl(r rune) bool {
	return r < ' ' && r != '\n' && r != '\t' && r != '\r' || r == 0x7f || r >= 0x80 && r < 0xa0 || r == 0x2028 || r == 0x2029
}

func readFlag(_ *decoder, text string, _ limits) (bool, *fault.Fault) {
	switch strings.ToLower(text) {
	case "true":
		return true, nil
	case "false":
		return false, nil
	case "yes", "on", "y":
		return true, wrong(say.Of("record.write-true"), say.Of("record.is-not-true-or-false", say.Quoted(text))).Whole("true")
	case "no", "off", "n":
		return false, wrong(say.Of("record.write-false"), say.Of("record.is-not-true-or-false", say.Quoted(text))).Whole("false")
	}
	return false, wrong(say.Of("record.write-true-or-false"), say.Of("record.is-not-true-or-false", say.Quoted(fault.Shorten(text))))
}

func readCount(_ *decoder, text string, _ limits) (int, *fault.Fault) {
	n, err := strconv.Atoi(text)
	if err != nil || n > math.MaxInt32 || n < math.MinInt32 {
		if now := countMeant(text); now != "" {
			return 0, wrong(say.Of("record.write", now), say.Of("record.is-not-a-whole-number", say.Quoted(fault.Shorten(text)))).Whole(now)
		}
		return 0, wrong(say.Of("record.write-digits-alone-as-2"), say.Of("record.is-not-a-whole-number", say.Quoted(fault.Shorten(text))))
	}
	return n, nil
}

// mostNumber bounds numbers without a unit; own choice, no source.
const mostNumber = 1e9

func readNumber(_ *decoder, text string, _ limits) (float64, *fault.Fault) {
	f, err := strconv.ParseFloat(text, 64)
	word := strings.ToLower(strings.TrimLeft(text, "+-.")) // YAML writes .nan and -.inf
	switch {
	case strings.HasPrefix(word, "nan"), strings.HasPrefix(word, "inf"), f == 0 && math.Signbit(f),
		!errors.Is(err, strconv.ErrSyntax) && strings.Trim(text, "+-0123456789.") != "":
		return 0, wrong(say.Of("record.write-it-in-figures-as-1-5"), say.Of("record.is-not-a-plain-number", say.Quoted(fault.Shorten(text))))
	case err != nil:
		return 0, wrong(say.Of("record.write-digits-with-a-point-for-decimals"), say.Of("record.is-not-a-number", say.Quoted(fault.Shorten(text))))
	case math.Abs(f) > mostNumber:
		return 0, wrong("", say.Of("record.is-too-large-to-be-meant", fault.Shorten(text)))
	}
	return f, nil
}

// fromMeasure is what the room of measures finds wrong.
func fromMeasure(err error) *fault.Fault {
	if err == nil {
		return nil
	}
	if list, ok := errors.AsType[fault.List](err); ok && len(list) > 0 {
		return &list[0]
	}
	return wrong("", err.Error())
}

// mostLength bounds lengths, in millimetres: 10 km; own choice, no source.
const mostLength = 1e7

func readLength(d *decoder, text string, lim limits) (measure.Length, *fault.Fault) {
	if _, ok := repeatsIn(text); ok {
		return 0, notRepeats(text)
	}
	parse := measure.ParseLength
	if lim.min == nil || *lim.min < 0 {
		parse = measure.ParseSigned
	}
	l, err := parse(text, d.bare)
	if err != nil {
		if bad := lengthMeant(text, lim.min == nil || *lim.min < 0); bad != nil {
			return 0, bad
		}
		return 0, fromMeasure(err)
	}
	if d.bare == measure.UnitMM && bareFraction.MatchString(text) {
		return l, wrong(say.Of("record.did-you-mean-in-if-not-write", text, trim(l.MM())), say.Of("record.without-a-unit-is-mm-here", text, trim(math.Round(l.MM()*100)/100))).Whole(text + " in")
	}
	if l.Abs().MM() > mostLength {
		return 0, wrong(say.Of("record.is-the-unit-right"), say.Of("record.a-length-of-more-than-10-km"))
	}
	return l, nil
}

// wherePattern is how a place on an edge is written: a length, a name, or a
// length from a name.
const wherePattern = `^\s*(\S.*\sfrom\s+)?\S.*$`

func readWhere(d *decoder, text string, _ limits) (phrase.Where, *fault.Fault) {
	return phrase.ReadWhere(text, d.bare)
}

func readDuration(_ *decoder, text string, _ limits) (time.Duration, *fault.Fault) {
	t, err := measure.ParseDuration(text)
	return t, fromMeasure(err)
}

func readShare(_ *decoder, text string, lim limits) (Share, *fault.Fault) {
	q, err := measure.ParsePercent(text)
	if err != nil {
		return 0, fromMeasure(err)
	}
	f := q.Number
	if lim.max == nil && f > 100 {
		return 0, wrong("", say.Of("record.a-percentage-must-be-at-most-100"))
	}
	if lim.min == nil && f < 0 {
		return 0, wrong(say.Of("record.write-it-without-the-minus-sign"), say.Of("record.a-percentage-cannot-be-negative-here"))
	}
	return Share(f), nil
}

func readAreal(_ *decoder, text string, _ limits) (GramsPerSquareMetre, *fault.Fault) {
	q, err := measure.ParseAreal(text)
	if err != nil {
		return 0, fromMeasure(err)
	}
	return GramsPerSquareMetre(q.In(measure.UnitGPerM2).Number), nil
}

func readMass(_ *decoder, text string, _ limits) (Grams, *fault.Fault) {
	q, err := measure.ParseMass(text)
	if err != nil {
		return 0, fromMeasure(err)
	}
	const most = 1_000_000
	g := Grams(q.In(measure.UnitG).Number)
	if g > most {
		return 0, wrong(say.Of("record.is-the-unit-right"), say.Of("record.a-weight-of-more-than-1000-kg"))
	}
	return g, nil
}

func readRatio(_ *decoder, text string, lim limits) (Ratio, *fault.Fault) {
	if one, many, ok := strings.Cut(text, ":"); ok && strings.TrimSpace(one) == "1" && lim.min != nil && *lim.min >= 1 {
		now := strings.TrimSpace(many)
		return 0, wrong(say.Of("record.write", now), say.Of("record.how-many-times-is-one-number")).Whole(now)
	}
	q, err := measure.ParseRatio(text)
	if err == nil && q.Number > mostNumber {
		return 0, wrong("", say.Of("record.is-too-large-to-be-meant", fault.Shorten(text)))
	}
	return Ratio(q.Number), fromMeasure(err)
}

// mostMoney bounds amounts, so that sums of them fit wherever they are shown.
var mostMoney = decimal.New(1, 9)

func readMoney(_ *decoder, text string, _ limits) (measure.Money, *fault.Fault) {
	m, err := measure.ParseMoney(text, "")
	if err == nil && m.Amount.GreaterThan(mostMoney) {
		return m, wrong(say.Of("record.is-a-point-missing"), say.Of("record.an-amount-of-more-than-1000-million"))
	}
	return m, fromMeasure(err)
}

// ReadDay reads a day as records write it: 2026-08-03.
func ReadDay(text string) (Day, error) {
	day, bad := readDay(nil, text, limits{})
	if bad != nil {
		return Day{}, errors.New(bad.Message + "\n    " + bad.Hint)
	}
	return day, nil
}

func readDay(_ *decoder, text string, _ limits) (Day, *fault.Fault) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		if now := dayMeant(text); now != "" {
			return Day{}, wrong(say.Of("record.write-year-month-day", now), say.Of("record.is-not-a-date", say.Quoted(fault.Shorten(text)))).Whole(now)
		}
		return Day{}, wrong(say.Of("record.write-year-month-day-as-2026-08"), say.Of("record.is-not-a-date", say.Quoted(fault.Shorten(text))))
	}
	if y := t.Year(); y < 1900 || y > 2200 {
		return Day{}, wrong(say.Of("record.write-year-month-day-as-2026-08"), say.Of("record.the-year-is-it-right", y))
	}
	return Day{t.Year(), t.Month(), t.Day()}, nil
}

func readMoment(d *decoder, text string, lim limits) (time.Time, *fault.Fault) {
	for _, layout := range []string{"2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02T15:04:05", time.DateOnly} {
		if t, err := time.Parse(layout, text); err == nil {
			if _, bad := readDay(d, t.Format(time.DateOnly), lim); bad != nil {
				return time.Time{}, bad
			}
			return t, nil
		}
	}
	return time.Time{}, wrong(say.Of("record.write-date-and-time-as-2026-08"), say.Of("record.is-not-a-date-and-time", say.Quoted(fault.Shorten(text))))
}

func readCut(_ *decoder, text string, _ limits) (Cut, *fault.Fault) {
	how := say.Of("record.write-how-many-and-how-1-1")
	if now := cutMeant(text); now != "" {
		return Cut{}, wrong(say.Of("record.write", now), say.Of("record.does-not-say-how-many-to-cut", say.Quoted(fault.Shorten(text)))).Whole(now)
	}
	head, tail, _ := strings.Cut(strings.TrimSpace(text), " ")
	n, err := strconv.Atoi(head)
	if err != nil {
		return Cut{}, wrong(how, say.Of("record.does-not-say-how-many-to-cut", say.Quoted(fault.Shorten(text))))
	}
	if n < 1 || n > 500 {
		return Cut{}, wrong(how, say.Of("record.a-piece-cannot-be-cut-times", n))
	}
	switch tail = strings.TrimSpace(tail); tail {
	case "":
		return Cut{N: n}, nil
	case "alike":
		return Cut{N: n, Alike: true}, nil
	case "on fold", "on the fold":
		return Cut{N: n, OnFold: true}, nil
	case "mirrored", "pair", "pairs":
		if n%2 != 0 {
			return Cut{}, wrong(say.Of("record.write-cut-or-cut-alike", n+1, n), say.Of("record.cannot-be-cut-in-pairs", n)).Whole(strconv.Itoa(n + 1))
		}
		return Cut{}, wrong(say.Of("record.write-cut", n), say.Of("record.is-not-needed-are-cut-in-pairs", say.Quoted(fault.Shorten(tail)), n)).Whole(strconv.Itoa(n))
	}
	ways := []string{"on fold", "alike"}
	bad := fault.InText(len([]rune(head))+1, say.Of("record.does-not-say-how-to-cut", say.Quoted(fault.Shorten(tail))), meant.Among(tail, ways, say.Of("record.one-of-2")))
	if way := meant.Nearest(tail, ways); way != "" {
		bad.Whole(head + " " + way)
	}
	return Cut{}, bad
}
