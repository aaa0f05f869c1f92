package record

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/say"
)

// This file holds what makers write for counts, dates, hours and pieces to cut that is
// not read, and how it is written.

// bareFraction is a part of an inch to whoever writes it, and a sliver where the record
// is in millimetres.
var bareFraction = regexp.MustCompile(`^(\d+[ -])?\d+/(2|4|8|16|32)$`)

// countMeant is a whole number that is written in words or with a sign, as "two" or
// "2x"; "" where it is none.
func countMeant(text string) string {
	plain := strings.Trim(strings.ToLower(text), " x×*")
	plain = strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(plain, "pcs"), "pieces"))
	if n, err := strconv.ParseFloat(plain, 64); err == nil && n == float64(int(n)) && n >= 0 && n < 10_000 {
		return strconv.Itoa(int(n))
	}
	if number, thing, ok := strings.Cut(plain, " "); ok && strings.Trim(thing, "abcdefghijklmnopqrstuvwxyz ") == "" {
		plain = number // six buttons
		if n, err := strconv.Atoi(plain); err == nil && n > 0 && n < 10_000 {
			return plain
		}
	}
	if now := measure.InFigures(plain); now != "" && !strings.ContainsAny(now, "/ ") {
		return now
	}
	return ""
}

var (
	dayFirst  = regexp.MustCompile(`^(\d{1,2})\s*[./-]\s*(\d{1,2})\s*[./-]\s*(\d{4})$`)
	yearFirst = regexp.MustCompile(`^(\d{4})\s*[./-]\s*(\d{1,2})\s*[./-]\s*(\d{1,2})$`)
)

// dayMeant is a date as it is written here: dots put the day first, and slashes do
// unless that is no date; "" where nobody can tell.
func dayMeant(text string) string {
	text = strings.TrimSpace(text)
	if m := yearFirst.FindStringSubmatch(text); m != nil {
		return realDay(m[1], m[2], m[3])
	}
	if m := dayFirst.FindStringSubmatch(text); m != nil {
		day, month := m[1], m[2]
		if strings.Contains(text, "/") && realDay(m[3], m[1], m[2]) != "" && realDay(m[3], month, day) != "" && day != month {
			return "" // both halves of the world write it so
		}
		if now := realDay(m[3], month, day); now != "" {
			return now
		}
		return realDay(m[3], day, month)
	}
	for _, layout := range []string{"2 January 2006", "January 2 2006", "January 2, 2006", "2 Jan 2006", "Jan 2 2006", "Jan 2, 2006", "2. January 2006", "2. Jan 2006"} {
		if t, err := time.Parse(layout, text); err == nil {
			return t.Format(time.DateOnly)
		}
	}
	return ""
}

func realDay(year, month, day string) string {
	m, _ := strconv.Atoi(month)
	d, _ := strconv.Atoi(day)
	text := fmt.Sprintf("%s-%02d-%02d", year, m, d)
	if t, err := time.Parse(time.DateOnly, text); err != nil || t.Year() < 1900 || t.Year() > 2200 {
		return ""
	}
	return text
}

var cutForm = regexp.MustCompile(`^(?:cut\s+)?(?:x\s*|×\s*)?(\d+|one|two|three|four|six|eight)?\s*(?:x|×|times)?\s*(?:pieces?|pcs?)?\s*(on (?:the )?fold|alike|fold)?$`)

// cutMeant is how many to cut as it is written, of "on fold", "2x" or "two alike"; ""
// where it is written so already, or nobody can tell.
func cutMeant(text string) string {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "pair", "a pair", "one pair", "1 pair", "left and right", "a left and a right", "left + right":
		return "2"
	}
	m := cutForm.FindStringSubmatch(strings.ToLower(strings.TrimSpace(text)))
	if m == nil {
		return ""
	}
	number, way := m[1], strings.Replace(m[2], "the ", "", 1)
	if way == "fold" {
		way = "on fold"
	}
	switch {
	case number == "" && way != "on fold":
		return ""
	case number == "":
		number = "1"
	case !isFigure(number[0]):
		if number = countMeant(number); number == "" {
			return ""
		}
	}
	now := strings.TrimSpace(number + " " + way)
	if n, _ := strconv.Atoi(number); n < 1 || n > 500 || now == strings.ReplaceAll(strings.TrimSpace(text), "the ", "") {
		return ""
	}
	return now
}

var span = regexp.MustCompile(`^(\d{1,2})(?:[:.h](\d{2}))?\s*(?:-|–|to)\s*(\d{1,2})(?:[:.h](\d{2}))?$`)

// hoursMeant is hours of a day as they are written, of "9-12.30"; "" where nobody can
// tell.
func hoursMeant(text string) string {
	var out []string
	for _, part := range strings.Split(text, ",") {
		m := span.FindStringSubmatch(strings.TrimSpace(part))
		if m == nil {
			return ""
		}
		clock := func(hour, minute string) string {
			h, _ := strconv.Atoi(hour)
			n, _ := strconv.Atoi(minute)
			return fmt.Sprintf("%02d:%02d", h, n)
		}
		from, to := clock(m[1], m[2]), clock(m[3], m[4])
		if _, _, ok := readSpan(from + "-" + to); !ok || out != nil && out[len(out)-1][6:] >= from {
			return ""
		}
		out = append(out, from+"-"+to)
	}
	return strings.Join(out, ", ")
}

var (
	ligne      = regexp.MustCompile(`^(\d+(?:\.\d+)?)\s*(?:L|lignes?)$`)
	lengthSaid = regexp.MustCompile(`^([+-]?\d[\d.,/ ]*(?: ?(?:mm|cm|in))?) +` +
		`(apart|each|long|wide|deep|high|out|outside|outwards|larger|wider|more|in|inside|inwards|smaller|shorter|less)$`)
	ofPlace = regexp.MustCompile(`^\d\S*(?: \S+)? from \S`)
)

// wayFirst is a length with the way that an edge moves before it, as "let out by 6".
var wayFirst = regexp.MustCompile(`^((?:let |taken? )?(?:out|in)(?:wards)?(?: by)?|by) +(\d[\d.,/ ]*(?: ?(?:mm|cm|in))?)$`)

// lengthMeant answers a length with words behind it, as "90 apart" or "5 smaller", and
// a button's in lignes; nil where it is nothing of the kind. signed says that it may be
// negative.
func lengthMeant(text string, signed bool) *fault.Fault {
	text = strings.TrimSpace(text)
	if m := ligne.FindStringSubmatch(text); m != nil {
		n, _ := strconv.ParseFloat(m[1], 64)
		now := trim(math.Round(n*254/40)/10) + " mm" // common practice, no source: 40 lignes are an inch
		return wrong(say.Of("record.write", now), say.Of("record.a-ligne-is-1-40-of-an")).Whole(now)
	}
	if ofPlace.MatchString(text) {
		return wrong(say.Of("record.say-how-long-as-515-from-where"), say.Of("record.is-a-place-and-a-length-stands", say.Quoted(fault.Shorten(text))))
	}
	if m := wayFirst.FindStringSubmatch(text); m != nil && signed {
		now := m[2]
		if strings.HasPrefix(m[1], "in") || strings.HasPrefix(m[1], "take") {
			now = "-" + now
		}
		return wrong(say.Of("record.write", now), say.Of("record.has-no-place-before-a-length-outwards", say.Quoted(m[1]))).Whole(now)
	}
	m := lengthSaid.FindStringSubmatch(text)
	if m == nil {
		return nil
	}
	now := m[1]
	unit := strings.ContainsAny(now, "mi") // then what stands behind it is told as such
	switch m[2] {
	case "in":
		return nil // an inch
	case "inside", "inwards", "smaller", "shorter", "narrower", "less":
		if !signed || strings.ContainsAny(now, "+-") {
			return nil
		}
		now = "-" + now
	default:
		if unit {
			return nil
		}
	}
	return wrong(say.Of("record.write", now), say.Of("record.has-no-place-after-a-length", say.Quoted(m[2]))).Whole(now)
}
