package derive

import (
	"fmt"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/order"
)

// synthetic is an invented record of 12 pieces, 10 seams and 20 steps.
func synthetic() string {
	var b strings.Builder
	b.WriteString(`cloth: {shell: linen, lining: linen}
thread: {rust: {colour: rust, reel: 200 m, price: 3 EUR}}
drafted-for: {bust: 920, waist: 720}
pieces:
`)
	for i := range 4 {
		fmt.Fprintf(&b, `  front %d:
    of: [shell]
    cut: 1 on fold
    outline:
      from: [0, 0]
      waist: [17%d, 0]
      side: [236, 208]
      armhole: {to: [198, 372], curve: [[196, 236], [190, 320]]}
      shoulder: [92, 408]
      neck: {to: [0, 318], curve: [[84, 340], [40, 318]], allowance: 6}
      centre: {to: [0, 0], fold: true}
    darts: {waist: {at: 88, width: 24, length: 110}}
    levels: {bust: 200}
`, i, i)
		fmt.Fprintf(&b, "  back %d: {like: front %d, cut: 2, change: {neck: -6}, edges: {centre: {fold: false}}}\n", i, i)
	}
	b.WriteString(`  skirt: {of: shell, circle: {share: 3/4, waist: 700, length: 740, panels: 2}, edges: {hem: {allowance: 8}}}
  waistband: {of: shell, rectangle: [740, 70]}
  pocket: {of: lining, cut: 4, rectangle: [150, 180]}
  tie: {of: shell, cut: 2, rectangle: [60, 600]}
seams:
`)
	for i := range 4 {
		fmt.Fprintf(&b, "  sides %d: {join: [front %d.side, back %d.side], type: french, first: 6, second: 9, trim: 3}\n", i, i, i)
		fmt.Fprintf(&b, "  shoulders %d: {join: [front %d.shoulder, back %d.shoulder], type: plain, ease: 6}\n", i, i, i)
	}
	b.WriteString(`  skirt seams: {join: [skirt.right, skirt.left], type: plain}
  waist: {join: [[waistband.bottom], [skirt.waist]], overlap: 40, type: plain}
finishes:
  hem: {of: skirt.hem, type: bias-faced-hem, strip: shell}
levels: {waist: {width: 740}}
notions: {zip: {length: 400, where: other, weight: 10 g, price: 4 EUR}, boning: {in: [sides 0], clear: 10}}
work:
`)
	for i := range 20 {
		sews := ""
		switch {
		case i < 4:
			sews = fmt.Sprintf(", sews: [sides %d, shoulders %d]", i, i)
		case i == 4:
			sews = ", sews: [skirt seams, waist, hem]"
		}
		fmt.Fprintf(&b, "  s%d: {takes: 50 min%s}\n", i, sews)
	}
	b.WriteString("journal:\n")
	for i := range 20 {
		fmt.Fprintf(&b, "  - {at: 2026-08-05 14:10, did: s%d, for: 48 min}\n", i)
	}
	b.WriteString("measured: {waist: 743}\nusual: {truing: {angle: 180}}\n") // it is drawn for its sums, not to be worn
	return b.String()
}

func benchDerive(b *testing.B, forget bool) {
	r := roomWith(b)
	r.file("content/builds/test/build.yaml", head+synthetic())
	tailor, room, _ := r.open()
	bf, _ := room.BuildNamed("test")
	build, faults := room.ReadBuild(bf)
	for _, f := range faults {
		b.Errorf("the reader: %s", f)
	}
	g := tailor.Derive(build)
	for _, f := range g.Faults {
		if f.Severity == fault.Error { // edges are left as they are: it is drawn for its sums
			b.Errorf("the figures: %s", f)
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		if forget {
			b.StopTimer()
			tailor, _ = NewTailor(room)
			b.StartTimer()
		}
		tailor.Derive(build)
	}
	b.ReportMetric(float64(len(g.Figures())), "figures")
}

// BenchmarkDerive derives a build whose outlines are seen for the first time.
func BenchmarkDerive(b *testing.B) { benchDerive(b, true) }

// BenchmarkDeriveAgain derives it when its outlines are known, as after an
// edit that leaves them alone.
func BenchmarkDeriveAgain(b *testing.B) { benchDerive(b, false) }

// BenchmarkTiming looks at the order of work of a build of 20 steps, each
// after the one before, its plan and its outlook.
func BenchmarkTiming(b *testing.B) {
	r := roomWith(b).file("content/workroom.yaml", hours)
	text := synthetic()
	for i := 1; i < 20; i++ {
		text = strings.Replace(text, fmt.Sprintf("id: s%d,", i), fmt.Sprintf("id: s%d, after: s%d, wait: %d h,", i, i/2, i%3), 1)
	}
	text = text[:strings.Index(text, "journal:")] + "begun: 2026-08-03\ndue: 2026-09-01\njournal:\n  - {at: 2026-08-05 14:10, did: s0, for: 48 min}\n"
	d := r.desk()
	g, faults := d.derive(b, head+text)
	for _, f := range faults {
		b.Errorf("the reader: %s", f)
	}
	now, _ := g.LastMoment()
	b.ReportAllocs()
	for b.Loop() {
		if t := d.tailor.Timing(g, order.Standing{Now: now}); !t.Finish.Value.Known() {
			b.Fatal(t.Finish.Value.Why)
		}
	}
}
