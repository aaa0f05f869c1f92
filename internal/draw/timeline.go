package draw

import (
	"strconv"
	"strings"
	"time"

	"hembook/internal/garment"
	"hembook/internal/measure"
)

// TimelineStyle says how a line of time is drawn.
type TimelineStyle struct {
	Title   string // its name in words: "Order of work of the supper dress"
	Measure measure.Style
}

// Of a line of time, in units.
const (
	timeWide   = 900 // from the first day to the last
	hoursGap   = 50  // between the days and the hours
	hoursWide  = 300 // the longest time of a step
	timeRow    = 50  // from one step to the next
	timeHead   = 58  // above the first step, for dates
	timeBar    = 13  // height of a bar
	timeLeast  = 5   // the least that a stretch of work is wide, so that it can be seen,
	timeSeen   = 9   // and what it is widened to where days are wide enough
	timeWords  = 34  // letters of a step's words that are shown
	timeMark   = 30  // room for the mark before the words
	timeLegend = 74  // below the last step
)

// Timeline adds the steps of a garment, one below the other, on a line of days
// to dst: above, when each was planned; below, when it was worked on, or is to
// be; a broken line where time passes by itself. Beside the days stand the
// hours each step was to take and took. An arrow head stands before the steps
// of the critical path. It adds nothing where no day is known.
func Timeline(dst []byte, t *garment.Timing, style TimelineStyle) []byte {
	d := timeDrawing{t: t, style: style}
	if !d.span() {
		return dst
	}
	d.left = timeMark + float64(d.longest())*smallWide + gap
	d.bottom = timeHead + float64(len(t.Steps))*timeRow
	b := box{-margin, -margin, d.left + timeWide + hoursGap + hoursWide + 3*smallWide, d.bottom + timeLegend + margin}
	dst = open(dst, "timeline", b, style.Title, TimelineWords(t, style.Measure))
	dst = d.dates(dst)
	dst = d.words(dst)
	dst = d.waits(dst)
	dst = d.bars(dst)
	dst = d.hours(dst)
	dst = d.moments(dst)
	dst = d.legend(dst)
	return append(dst, "</svg>"...)
}

// A timeDrawing is one line of time being drawn.
type timeDrawing struct {
	t            *garment.Timing
	style        TimelineStyle
	from, to     time.Time // whole days
	left, bottom float64   // where the days begin, and end below
}

// span finds the days that are shown.
func (d *timeDrawing) span() bool {
	known := false
	add := func(s garment.Stretch) {
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
		for _, list := range [][]garment.Stretch{s.Plan, s.Worked, s.Ahead, {s.PlanWait, s.Resting}} {
			for _, one := range list {
				add(one)
			}
		}
	}
	if v := d.t.Due.Value.Moment; v != nil && known {
		add(garment.Stretch{From: *v, To: *v})
	}
	d.from = dayOf(d.from)
	if d.to = dayOf(d.to).AddDate(0, 0, 1); d.to.Sub(d.from) > 30*365*24*time.Hour {
		return false // a year was mistyped: there is nothing to be seen
	}
	return known
}

func dayOf(t time.Time) time.Time { return t.Truncate(24 * time.Hour) }

func (d *timeDrawing) x(t time.Time) float64 {
	return d.left + timeWide*float64(t.Sub(d.from))/float64(d.to.Sub(d.from))
}

func (d *timeDrawing) y(row int) float64 { return timeHead + float64(row)*timeRow }

// longest is how many letters stand before the days.
func (d *timeDrawing) longest() int {
	most := 0
	for _, s := range d.t.Steps {
		most = max(most, len([]rune(stepWords(s))))
	}
	return most
}

func stepWords(s *garment.StepTime) string {
	r := []rune(s.Record.Do.V)
	if len(r) > timeWords {
		return strings.TrimRight(string(r[:timeWords-1]), " ") + "…"
	}
	return string(r)
}

// dates draws a line for every Monday, or the first of every month where there
// are many, or every day where there are few.
func (d *timeDrawing) dates(dst []byte) []byte {
	days := int(d.to.Sub(d.from).Hours() / 24)
	shown := func(t time.Time) bool { return t.Weekday() == time.Monday }
	switch {
	case days > 200:
		shown = func(t time.Time) bool { return t.Day() == 1 }
	case days <= 10:
		shown = func(time.Time) bool { return true }
	}
	p := pen{dst: append(dst, `<path class="dates pinked" d="`...)}
	var labels []byte
	free := 0.0
	for t := d.from; !t.After(d.to); t = t.AddDate(0, 0, 1) {
		if !shown(t) {
			continue
		}
		x := d.x(t)
		p.move(x, timeHead-10)
		p.line(x, d.bottom)
		label := t.Format("2 Jan")
		if wide := letters(label) * smallWide; x >= free && x+wide < d.left+timeWide {
			labels = text(labels, "small", 0, x, timeHead-20, label)
			free = x + wide + gap
		}
	}
	return append(append(p.dst, `"/>`...), labels...)
}

// words writes the steps' own words, with a mark before those of the critical
// path.
func (d *timeDrawing) words(dst []byte) []byte {
	p := pen{dst: append(dst, `<path class="critical bar" d="`...)}
	marked := false
	for i, s := range d.t.Steps {
		if s.Critical {
			p.arrow(arrowLong, d.y(i)+timeRow/2, 1, 0)
			marked = true
		}
	}
	if dst = append(p.dst, `"/>`...); !marked {
		dst = dst[:len(dst)-len(`<path class="critical bar" d=""/>`)]
	}
	for i, s := range d.t.Steps {
		dst = text(dst, "small", 0, timeMark, d.y(i)+timeRow/2+8, stepWords(s))
	}
	return dst
}

// waits draws the time that passes without labour.
func (d *timeDrawing) waits(dst []byte) []byte {
	p := pen{dst: append(dst, `<path class="waits level" d="`...)}
	line := func(s garment.Stretch, y float64) {
		if s.To.After(s.From) {
			p.move(d.x(s.From), y)
			p.line(d.x(s.To), y)
			p.move(d.x(s.To), y-tick/2)
			p.line(d.x(s.To), y+tick/2)
		}
	}
	for i, s := range d.t.Steps {
		line(s.PlanWait, d.upper(i)+timeBar/2)
		line(s.Resting, d.lower(i)+timeBar/2)
	}
	return append(p.dst, `"/>`...)
}

func (d *timeDrawing) upper(row int) float64 { return d.y(row) + 9 }
func (d *timeDrawing) lower(row int) float64 { return d.y(row) + 28 }

// hours draws what each step was to take and took, side by side.
func (d *timeDrawing) hours(dst []byte) []byte {
	most := time.Hour
	for _, s := range d.t.Steps {
		most = max(most, s.Estimate.Middle, spent(s))
	}
	left := d.left + timeWide + hoursGap
	at := func(t time.Duration) float64 { return left + hoursWide*float64(t)/float64(most) }
	every := time.Hour
	for most/every > 5 {
		every *= 2
	}
	p := pen{dst: append(dst, `<path class="dates pinked" d="`...)}
	for t := time.Duration(0); t <= most; t += every {
		p.move(at(t), timeHead-10)
		p.line(at(t), d.bottom)
	}
	dst = append(p.dst, `"/>`...)
	for t := time.Duration(0); t <= most; t += every {
		dst = text(dst, "small", 0, at(t), timeHead-20, strconv.Itoa(int(t/time.Hour)), " h")
	}
	p = pen{dst: append(dst, `<path class="planned between" d="`...)}
	for i, s := range d.t.Steps {
		if s.Estimate.Middle > 0 {
			p.rectangle(left, d.upper(i), at(s.Estimate.Middle), d.upper(i)+timeBar)
		}
	}
	p.dst = append(appendInt(append(p.dst, `"/><path class="clocked ply one" stroke-width="`...), timeBar), `" d="`...)
	for i, s := range d.t.Steps {
		if t := spent(s); t > 0 {
			p.move(left, d.lower(i)+timeBar/2)
			p.line(at(t), d.lower(i)+timeBar/2)
		}
	}
	return append(p.dst, `"/>`...)
}

// spent is what is clocked for a step.
func spent(s *garment.StepTime) time.Duration {
	if v := s.Spent.Value; v.Known() {
		return time.Duration(v.Number * float64(time.Minute))
	}
	return 0
}

func (p *pen) rectangle(left, top, right, bottom float64) {
	p.move(left, top)
	p.line(right, top)
	p.line(right, bottom)
	p.line(left, bottom)
	p.close()
}

// bars draws when each step was planned, was worked on and is to be.
func (d *timeDrawing) bars(dst []byte) []byte {
	for _, kind := range []struct {
		class  string
		of     func(*garment.StepTime) []garment.Stretch
		y      func(int) float64
		filled bool
	}{
		{"planned between", func(s *garment.StepTime) []garment.Stretch { return s.Plan }, d.upper, false},
		{"clocked ply one", func(s *garment.StepTime) []garment.Stretch { return s.Worked }, d.lower, true},
		{"ahead dart", func(s *garment.StepTime) []garment.Stretch { return s.Ahead }, d.lower, false},
	} {
		dst = append(append(dst, `<path class="`...), kind.class...)
		if kind.filled {
			dst = appendInt(append(dst, `" stroke-width="`...), timeBar)
		}
		p := pen{dst: append(dst, `" d="`...)}
		for i, s := range d.t.Steps {
			for _, run := range d.runs(kind.of(s)) {
				if y := kind.y(i); kind.filled {
					p.move(run.From, y+timeBar/2)
					p.line(run.To, y+timeBar/2)
				} else {
					p.rectangle(run.From, y, run.To, y+timeBar)
				}
			}
		}
		dst = append(p.dst, `"/>`...)
	}
	return dst
}

// A timeRun is a stretch in units. Stretches too near to be told apart are one.
type timeRun struct{ From, To float64 }

func (d *timeDrawing) runs(list []garment.Stretch) []timeRun {
	var out []timeRun
	halfDay := timeWide * float64(12*time.Hour) / float64(d.to.Sub(d.from))
	least := min(max(halfDay, timeLeast), timeSeen)
	for _, s := range list {
		r := timeRun{d.x(s.From), d.x(s.To)}
		r.To = max(r.To, r.From+least)
		if n := len(out); n > 0 && r.From <= out[n-1].To+2 && r.From >= out[n-1].From {
			out[n-1].To = max(out[n-1].To, r.To)
			continue
		}
		out = append(out, r)
	}
	return out
}

// moments draws the moment from which it is looked at, and the due date.
func (d *timeDrawing) moments(dst []byte) []byte {
	mark := func(class string, t time.Time, label string) {
		x := d.x(t)
		p := pen{dst: append(append(append(dst, `<path class="`...), class...), `" d="`...)}
		p.move(x, timeHead)
		p.line(x, d.bottom+16)
		anchor, at := byte(0), x+6
		if x+letters(label)*smallWide > d.left+timeWide {
			anchor, at = 'e', x-6
		}
		dst = text(append(p.dst, `"/>`...), "small", anchor, at, d.bottom+24, label)
	}
	if now := d.t.Now; !d.t.Over && !now.Before(d.from) && now.Before(d.to) {
		mark("standing bar", now, "as it stands")
	}
	if v := d.t.Due.Value.Moment; v != nil {
		mark("due thread", *v, "due")
	}
	return dst
}

// legend shows what the lines mean.
func (d *timeDrawing) legend(dst []byte) []byte {
	y := d.bottom + timeLegend - 12
	x := d.left
	rect := func(class, label string, draw func(p *pen)) {
		p := pen{dst: append(append(append(dst, `<path class="`...), class...), `" d="`...)}
		draw(&p)
		dst = text(append(p.dst, `"/>`...), "small", 0, x+58, y+2, label)
		x += 58 + letters(label)*smallWide + 2*gap
	}
	bar := func(p *pen) { p.rectangle(x, y-14, x+46, y-14+timeBar) }
	line := func(p *pen) { p.move(x, y-7); p.line(x+46, y-7) }
	var has struct{ plan, worked, ahead, wait, critical bool }
	for _, s := range d.t.Steps {
		has.plan = has.plan || len(s.Plan) > 0
		has.worked = has.worked || len(s.Worked) > 0
		has.ahead = has.ahead || len(s.Ahead) > 0
		has.wait = has.wait || !s.Resting.From.IsZero() || !s.PlanWait.From.IsZero()
		has.critical = has.critical || s.Critical
	}
	if has.plan {
		rect("planned between", "planned", bar)
	}
	if has.worked {
		rect(`clocked ply one" stroke-width="13`, "clocked", line)
	}
	if has.ahead {
		rect("ahead dart", "to do", bar)
	}
	if has.wait {
		rect("waits level", "waiting", line)
	}
	if has.critical {
		rect("critical bar", "critical path", func(p *pen) { p.arrow(x+36, y-8, 1, 0) })
	}
	return dst
}
