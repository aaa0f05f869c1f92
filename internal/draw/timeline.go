package draw

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"hembook/internal/drawing"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/say"
)

// TimelineStyle says how a line of time is drawn.
type TimelineStyle struct {
	Title   string // its name in words: "Order of work of the supper dress"
	Measure measure.Style
	Narrow  bool // for a phone: each step's words above its bars
}

// Of a line of time.
const (
	timeWide   = 90  // from the first day to the last
	hoursGap   = 5   // between the days and the hours
	hoursWide  = 30  // the longest time of a step
	timeRow    = 5   // from one step to the next
	timeHead   = 5.8 // above the first step, for dates
	timeBar    = 1.3 // height of a bar
	timeLeast  = 0.5 // the least that a stretch of work is wide, so that it can be seen,
	timeSeen   = 0.9 // and what it is widened to where days are wide enough
	timeWords  = 34  // letters of a step's words that are shown
	timeMark   = 3   // room for the mark before the words
	timeLegend = 7.4 // below the last step
)

// Of the form for a phone.
const (
	narrowDays  = 38  // from the first day to the last
	narrowHours = 16  // the longest time of a step
	narrowRow   = 7.8 // from one step to the next
	narrowWords = 2.8 // from the top of a step to its bars
)

// Timeline draws the steps of a garment, one below the other, on a line of
// days: above, when each was planned; below, when it was worked on, or is to
// be; a broken line where time passes by itself. Beside the days stand the
// hours each step was to take and took. An arrow head stands before the steps
// of the critical path. It is nil where no day is known.
func Timeline(t *order.Timing, style TimelineStyle) *drawing.Drawing {
	d := timeDrawing{t: t, wide: timeWide, hoursWide: hoursWide, row: timeRow}
	if !d.span() {
		return nil
	}
	d.Drawing = drawing.New("timeline")
	d.left = timeMark + float64(d.longest())*smallWide + gap
	legend := timeLegend
	if style.Narrow {
		d.wide, d.hoursWide, d.row, d.left, d.above = narrowDays, narrowHours, narrowRow, 0, narrowWords
		legend += timeRow
	}
	d.bottom = timeHead + float64(len(t.Steps))*d.row
	d.Box = drawing.Box{Left: -margin, Top: -margin, Right: d.left + d.wide + hoursGap + d.hoursWide + 3*smallWide, Bottom: d.bottom + legend + margin}
	d.Title, d.Desc = style.Title, timelineWords(t, style.Measure)
	d.dates()
	d.words()
	d.waits()
	d.bars()
	d.hours()
	d.moments()
	d.legend()
	return d.Drawing
}

// A timeDrawing is one line of time being drawn.
type timeDrawing struct {
	*drawing.Drawing
	t            *order.Timing
	from, to     time.Time // whole days
	left, bottom float64   // where the days begin, and end below
	wide         float64   // from the first day to the last
	hoursWide    float64   // the longest time of a step
	row          float64   // from one step to the next
	above        float64   // from the top of a step to its bars: 0 where its words stand beside them
}

// span finds the days that are shown.
func (d *timeDrawing) span() bool {
	known := false
	add := func(s order.Spell) {
		if s.From.IsZero() {
			return
		}
		if !known || s.From.Before(d.from) {
			d.from = s.From
		}
		if !known || s.To.After(d.to) {
			d.to = s.To
		}
		known = true
	}
	for _, s := range d.t.Steps {
		for _, list := range [][]order.Spell{s.Plan, s.Worked, s.Ahead, {s.PlanWait, s.Resting}} {
			for _, one := range list {
				add(one)
			}
		}
	}
	if v := d.t.Due.Value.Moment; v != nil && known {
		add(order.Spell{From: *v, To: *v})
	}
	d.from = dayOf(d.from)
	if d.to = dayOf(d.to).AddDate(0, 0, 1); d.to.Sub(d.from) > 30*365*24*time.Hour {
		return false // a year was mistyped: there is nothing to be seen
	}
	return known
}

func dayOf(t time.Time) time.Time { return t.Truncate(24 * time.Hour) }

func (d *timeDrawing) x(t time.Time) float64 {
	return d.left + d.wide*float64(t.Sub(d.from))/float64(d.to.Sub(d.from))
}

func (d *timeDrawing) y(row int) float64 { return timeHead + float64(row)*d.row }

// longest is how many letters stand before the days.
func (d *timeDrawing) longest() int {
	most := 0
	for _, s := range d.t.Steps {
		most = max(most, len([]rune(stepWords(s))))
	}
	return most
}

func stepWords(s *order.StepTime) string {
	r := []rune(s.Record.Do.V)
	if len(r) > timeWords {
		return strings.TrimRight(string(r[:timeWords-1]), " ") + "…"
	}
	return string(r)
}

func (d *timeDrawing) small(x, y float64, words string) {
	write(d.Drawing, drawing.Small, drawing.Begin, x, y, words)
}

// dates draws a line for every Monday, or the first of every month where there
// are many, or every day where there are few.
func (d *timeDrawing) dates() {
	days := int(d.to.Sub(d.from).Hours() / 24)
	shown := func(t time.Time) bool { return t.Weekday() == time.Monday }
	switch {
	case days > 200:
		shown = func(t time.Time) bool { return t.Day() == 1 }
	case days <= 10:
		shown = func(time.Time) bool { return true }
	}
	p := d.Draw(drawing.DateLine)
	for t := d.from; !t.After(d.to); t = t.AddDate(0, 0, 1) {
		if shown(t) {
			d.upright(p, d.x(t))
		}
	}
	free := 0.0
	for t := d.from; !t.After(d.to); t = t.AddDate(0, 0, 1) {
		x, label := d.x(t), t.Format("2 Jan")
		if wide := letters(label) * smallWide; shown(t) && x >= free && x+wide < d.left+d.wide {
			d.small(x, timeHead-2, label)
			free = x + wide + gap
		}
	}
}

// upright draws a line through all rows, which leaves out words that stand in its way.
func (d *timeDrawing) upright(p *drawing.Path, x float64) {
	if d.above == 0 {
		p.Move(x, timeHead-1).Line(x, d.bottom)
		return
	}
	for i := range d.t.Steps {
		p.Move(x, d.y(i)+d.above+0.4).Line(x, d.y(i)+d.row-0.4)
	}
}

// words writes the steps' own words, with a mark before those of the critical
// path.
func (d *timeDrawing) words() {
	p := d.Draw(drawing.CriticalMark)
	for i, s := range d.t.Steps {
		if s.Critical {
			p.Arrow(arrowLong, d.wordsAt(i)-0.8, 1, 0, arrowLong)
		}
	}
	for i, s := range d.t.Steps {
		d.small(timeMark, d.wordsAt(i), stepWords(s))
	}
}

// wordsAt is the foot of a step's words.
func (d *timeDrawing) wordsAt(row int) float64 {
	if d.above > 0 {
		return d.y(row) + d.above - 0.3
	}
	return d.y(row) + timeRow/2.0 + 0.8
}

// waits draws the time that passes without labour.
func (d *timeDrawing) waits() {
	p := d.Draw(drawing.WaitLine)
	line := func(s order.Spell, y float64) {
		if s.To.After(s.From) {
			p.Move(d.x(s.From), y).Line(d.x(s.To), y)
			p.Move(d.x(s.To), y-tick/2).Line(d.x(s.To), y+tick/2)
		}
	}
	for i, s := range d.t.Steps {
		line(s.PlanWait, d.upper(i)+timeBar/2)
		line(s.Resting, d.lower(i)+timeBar/2)
	}
}

func (d *timeDrawing) upper(row int) float64 { return d.y(row) + d.above + 0.9 }
func (d *timeDrawing) lower(row int) float64 { return d.y(row) + d.above + 2.8 }

// hours draws what each step was to take and took, side by side.
func (d *timeDrawing) hours() {
	most := time.Hour
	for _, s := range d.t.Steps {
		most = max(most, s.Estimate.Middle, spent(s))
	}
	left := d.left + d.wide + hoursGap
	at := func(t time.Duration) float64 { return left + d.hoursWide*float64(t)/float64(most) }
	every := time.Hour
	for most/every > 5 {
		every *= 2
	}
	p := d.Draw(drawing.DateLine)
	for t := time.Duration(0); t <= most; t += every {
		d.upright(p, at(t))
	}
	for t := time.Duration(0); t <= most; t += every {
		d.small(at(t), timeHead-2, strconv.Itoa(int(t/time.Hour))+" h")
	}
	p = d.Draw(drawing.PlannedBar)
	for i, s := range d.t.Steps {
		if s.Estimate.Middle > 0 {
			p.Rect(left, d.upper(i), at(s.Estimate.Middle), d.upper(i)+timeBar)
		}
	}
	p = d.Thick(drawing.ClockedBar, timeBar)
	for i, s := range d.t.Steps {
		if t := spent(s); t > 0 {
			p.Move(left, d.lower(i)+timeBar/2).Line(at(t), d.lower(i)+timeBar/2)
		}
	}
}

// spent is what is clocked for a step.
func spent(s *order.StepTime) time.Duration {
	if v := s.Spent.Value; v.Known() {
		return time.Duration(v.Number * float64(time.Minute))
	}
	return 0
}

// bars draws when each step was planned, was worked on and is to be.
func (d *timeDrawing) bars() {
	rects := func(p *drawing.Path, list []order.Spell, y float64) {
		for _, run := range d.barParts(list) {
			p.Rect(run.From, y, run.To, y+timeBar)
		}
	}
	p := d.Draw(drawing.PlannedBar)
	for i, s := range d.t.Steps {
		rects(p, s.Plan, d.upper(i))
	}
	p = d.Thick(drawing.ClockedBar, timeBar)
	for i, s := range d.t.Steps {
		for _, run := range d.barParts(s.Worked) {
			p.Move(run.From, d.lower(i)+timeBar/2).Line(run.To, d.lower(i)+timeBar/2)
		}
	}
	p = d.Draw(drawing.AheadBar)
	for i, s := range d.t.Steps {
		rects(p, s.Ahead, d.lower(i))
	}
}

// A barPart is a stretch as it is drawn. Stretches too near to be told apart are one.
type barPart struct{ From, To float64 }

func (d *timeDrawing) barParts(list []order.Spell) []barPart {
	var out []barPart
	halfDay := d.wide * float64(12*time.Hour) / float64(d.to.Sub(d.from))
	least := min(max(halfDay, timeLeast), timeSeen)
	for _, s := range list {
		r := barPart{d.x(s.From), d.x(s.To)}
		r.To = max(r.To, r.From+least)
		if n := len(out); n > 0 && r.From <= out[n-1].To+0.2 && r.From >= out[n-1].From {
			out[n-1].To = max(out[n-1].To, r.To)
			continue
		}
		out = append(out, r)
	}
	return out
}

// moments draws the moment from which it is looked at, and the due date.
func (d *timeDrawing) moments() {
	mark := func(m drawing.Meaning, t time.Time, label string) {
		x := d.x(t)
		p := d.Draw(m)
		if d.above > 0 {
			d.upright(p, x)
			p.Move(x, d.bottom).Line(x, d.bottom+1.6)
		} else {
			p.Move(x, timeHead).Line(x, d.bottom+1.6)
		}
		anchor, at := drawing.Begin, x+0.6
		if x+letters(label)*smallWide > d.left+d.wide {
			anchor, at = drawing.End, x-0.6
		}
		write(d.Drawing, drawing.Small, anchor, at, d.bottom+2.4, label)
	}
	if now := d.t.Now; !d.t.Over && !now.Before(d.from) && now.Before(d.to) {
		mark(drawing.NowLine, now, say.Of("draw.as-it-stands"))
	}
	if v := d.t.Due.Value.Moment; v != nil {
		mark(drawing.DueLine, *v, "due")
	}
}

// legend shows what the lines mean.
func (d *timeDrawing) legend() {
	const long = 4.6
	x, y := d.left, d.bottom+timeLegend-1.2
	bar := func(p *drawing.Path) { p.Rect(x, y-1.4, x+long, y-1.4+timeBar) }
	line := func(p *drawing.Path) { p.Move(x, y-0.7).Line(x+long, y-0.7) }
	head := func(p *drawing.Path) { p.Arrow(x+3.6, y-0.8, 1, 0, arrowLong) }
	for _, key := range []struct {
		means drawing.Meaning
		thick float64
		draw  func(*drawing.Path)
		label string
		has   func(*order.StepTime) bool
	}{
		{drawing.PlannedBar, 0, bar, "planned", func(s *order.StepTime) bool { return len(s.Plan) > 0 }},
		{drawing.ClockedBar, timeBar, line, "took", func(s *order.StepTime) bool { return len(s.Worked) > 0 }},
		{drawing.AheadBar, 0, bar, say.Of("draw.to-do"), func(s *order.StepTime) bool { return len(s.Ahead) > 0 }},
		{drawing.WaitLine, 0, line, "waiting", func(s *order.StepTime) bool { return !s.Resting.From.IsZero() || !s.PlanWait.From.IsZero() }},
		{drawing.CriticalMark, 0, head, say.Of("draw.decides-the-date"), func(s *order.StepTime) bool { return s.Critical }},
	} {
		if slices.ContainsFunc(d.t.Steps, key.has) {
			if long := 5.8 + letters(key.label)*smallWide; x > d.left && x+long > d.Box.Right {
				x, y = d.left, y+timeRow
			}
			key.draw(d.Thick(key.means, key.thick))
			d.small(x+5.8, y+0.2, key.label)
			x += 5.8 + letters(key.label)*smallWide + 2*gap
		}
	}
}
