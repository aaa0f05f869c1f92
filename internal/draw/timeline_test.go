package draw

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/record"
)

func hour(text string) time.Time {
	t, err := time.Parse("2006-01-02 15:04", text)
	if err != nil {
		panic(err)
	}
	return t
}

func fromTo(from, to string) order.Spell {
	return order.Spell{From: hour(from), To: hour(to)}
}

func ofMinutes(n float64) figure.Figure {
	f := figure.Figure{ID: "x"}
	f.Value.Quantity = measure.Quantity{Number: n, Unit: measure.UnitMin}
	return f
}

func atMoment(text string) figure.Figure {
	t := hour(text)
	return figure.Figure{ID: "x", Value: figure.Value{Moment: &t}}
}

func stepTime(do string) *order.StepTime {
	return &order.StepTime{Step: &order.Step{ID: do, Record: &record.Step{Do: record.Text{V: do}}}}
}

// hung is a skirt that was sewn and hangs, with its levelling to come: Monday
// 3 to Thursday 6 August, four days.
func hungSkirt() *order.Timing {
	skirt, level := stepTime(`sew <the> "skirt"`), stepTime("level & hem all round with great patience and care")
	skirt.Plan = []order.Spell{fromTo("2026-08-03 09:00", "2026-08-03 12:00")}
	skirt.PlanWait = fromTo("2026-08-03 12:00", "2026-08-04 12:00")
	skirt.Worked = []order.Spell{fromTo("2026-08-04 12:00", "2026-08-05 00:00")}
	skirt.Resting = fromTo("2026-08-05 00:00", "2026-08-06 00:00")
	level.Ahead = []order.Spell{fromTo("2026-08-06 09:00", "2026-08-06 10:00")}
	level.Critical = true
	skirt.Estimate.Middle, skirt.Spent = 3*time.Hour, ofMinutes(720)
	level.Spent.Value.Why = "no time is noted for it"
	t := &order.Timing{Now: hour("2026-08-05 12:00"), Steps: []*order.StepTime{skirt, level}, Holds: true}
	t.Planned, t.Spent, t.Left = ofMinutes(240), ofMinutes(720), ofMinutes(60)
	t.Chain = []*order.StepTime{level}
	t.Finish, t.Due = atMoment("2026-08-06 10:00"), atMoment("2026-08-06 17:00")
	return t
}

func TestTimelineIsToScale(t *testing.T) {
	svg := string(Timeline(hungSkirt(), TimelineStyle{Title: "Order of work"}).SVG(nil))
	classes := wellFormed(t, svg)
	for _, c := range []string{"timeline", "planned", "clocked", "ahead", "waits", "critical", "standing", "due", "dates"} {
		if !classes[c] {
			t.Errorf("nothing has the class %q", c)
		}
	}
	// Four days are 900 units: half a day of work is 112 or 113 long, the day of
	// waiting after it 225.
	if m := regexp.MustCompile(`class="clocked ply one" stroke-width="13" d="M(\d+) \d+h(\d+)"`).FindStringSubmatch(svg); m == nil || m[2] != "112" && m[2] != "113" {
		t.Errorf("half a day of work: %v in %s", m, svg)
	}
	if !regexp.MustCompile(`class="waits level" d="M\d+ \d+h225M\d+ \d+v14M\d+ \d+h225M`).MatchString(svg) {
		t.Errorf("a day of waiting: %s", svg)
	}
	// Twelve hours clocked against three planned: 300 units and 75.
	if !regexp.MustCompile(`class="planned between" d="M\d+ \d+h75v13h-75z"/><path class="clocked ply one" stroke-width="13" d="M\d+ \d+h300"`).MatchString(svg) {
		t.Errorf("hours: %s", svg)
	}
	if got := string(Timeline(hungSkirt(), TimelineStyle{Title: "Order of work"}).SVG(nil)); got != svg {
		t.Error("it is not the same twice")
	}
}

func TestTimelineSaysWhatItShows(t *testing.T) {
	svg := string(Timeline(hungSkirt(), TimelineStyle{Title: "Order of work"}).SVG(nil))
	for _, want := range []string{
		"<title>Order of work</title>", "2 steps, planned 4 h, took 12 h, to do 1 h.",
		"What decides the date: level &amp; hem all round", "Finished on 6 August 2026, 10:00.", "It is due on 6 August 2026, 17:00: in time.",
		"sew &lt;the&gt; &#34;skirt&#34;", "level &amp; hem all round with great…", ">3 Aug<", ">as it stands<", ">due<",
	} {
		if !strings.Contains(svg, want) {
			t.Errorf("%q is not in %s", want, svg)
		}
	}
}

func TestTimelineOfNothing(t *testing.T) {
	if got := Timeline(&order.Timing{}, TimelineStyle{}); got != nil {
		t.Errorf("%s", got.Desc)
	}
	bare := &order.Timing{Steps: []*order.StepTime{stepTime("cut")}}
	if got := Timeline(bare, TimelineStyle{}); got != nil {
		t.Errorf("a step without a day is drawn: %s", got.Desc)
	}
	bare.Steps[0].Worked = []order.Spell{fromTo("1926-08-03 09:00", "1926-08-03 10:00")}
	bare.Due = atMoment("2026-08-06 17:00")
	if got := Timeline(bare, TimelineStyle{}); got != nil {
		t.Error("a hundred years are drawn")
	}
}

func TestTimelineRows(t *testing.T) {
	rows, year := TimelineRows(hungSkirt())
	for _, c := range []struct{ got, want string }{
		{strconv.Itoa(year), "2026"}, {rows[0].Planned, "3 Aug"}, {rows[0].Worked, "4 Aug"}, {rows[0].Rests, "until 6 Aug, 00:00"},
		{rows[1].Planned, ""}, {rows[1].Worked, "to do 6 Aug"}, {rows[1].Rests, ""},
		{daysWords([]order.Spell{fromTo("2026-08-05 09:00", "2026-08-06 10:00"), fromTo("2026-08-03 09:00", "2026-08-03 10:00")}, 0), "3 to 6 Aug 2026"},
		{daysWords([]order.Spell{fromTo("2026-08-31 09:00", "2026-09-01 10:00")}, 2025), "31 Aug to 1 Sep 2026"},
		{daysWords([]order.Spell{fromTo("2026-12-31 09:00", "2027-01-01 10:00")}, 2027), "31 Dec 2026 to 1 Jan 2027"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	if rows[0].Critical || !rows[1].Critical {
		t.Error("the critical step is not the one marked")
	}
}

func TestManyStretchesAreOneWhereTheyTouch(t *testing.T) {
	d := timeDrawing{wide: timeWide, from: hour("2026-08-03 00:00"), to: hour("2026-08-07 00:00")}
	got := d.barParts([]order.Spell{fromTo("2026-08-03 00:00", "2026-08-03 00:10"), fromTo("2026-08-03 00:20", "2026-08-03 00:30"), fromTo("2026-08-05 00:00", "2026-08-05 00:10")})
	if len(got) != 2 || got[0].From != 0 || math.Abs(got[1].To-got[1].From-timeSeen) > 1e-9 {
		t.Errorf("%v", got)
	}
}

// On a phone 360 px wide 316 px are left for a drawing, which the look makes 1.22 times as
// large: 68.5 mm of 96/25.4 px. No bar stands as high as the words of its step.
func TestTimelineOnPhones(t *testing.T) {
	d := Timeline(hungSkirt(), TimelineStyle{Title: "Order of work", Narrow: true})
	if wide := d.Box.Right - d.Box.Left; wide > 316/1.22*25.4/96 {
		t.Errorf("it is %.1f mm wide", wide)
	}
	row := timeDrawing{row: narrowRow, above: narrowWords}
	for i := range 2 {
		if foot := row.wordsAt(i); foot >= row.upper(i) || row.lower(i)+timeBar >= row.y(i+1) {
			t.Errorf("row %d: words at %.1f, bars from %.1f to %.1f, the next row at %.1f", i, foot, row.upper(i), row.lower(i)+timeBar, row.y(i+1))
		}
	}
}
