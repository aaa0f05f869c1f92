package derive

import (
	"testing"

	"hembook/internal/fault"
)

// twoPanels are two pieces 200 × 300 to try seams on.
const twoPanels = `
cloth: {shell: linen}
pieces:
  one: {rectangle: [200, 300]}
  two: {rectangle: [200, 300]}
`

// half is a piece cut on fold whose edges are named in the order drawn.
const half = `
cloth: {shell: linen}
pieces:
  front:
    cut: 1 on fold
    outline:
      from: [0, 0]
      waist: {to: [180, 0], level: waist}
      side: [240, 80]
      top: [0, 80]
      centre: {to: [0, 0], fold: true}
`

func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name, build string
		line        int32 // in the record, which has three lines before it
		severity    fault.Severity
		message     string
		hint        string
	}{
		{"sides of two lengths", `
cloth: {shell: linen}
pieces:
  front: {rectangle: [200, 217.6]}
  back: {rectangle: [200, 224]}
seams:
  sides: {join: [front.right, back.left], type: plain}
`, 10, fault.Error, "sides: back.left is 6.4 mm longer than front.right (224, 217.6)",
			"shorten the longer edge by 6.4, or ease it in: ease: 6.4"},
		{"ease that is not there", twoPanels + `seams:
  side: {join: [one.right, two.left], type: plain, ease: 10}
`, 10, fault.Error, "side: one.right and two.left differ by 0 mm, you wrote an ease of 10 mm (300, 300)",
			"change an edge, or leave ease: out"},
		{"a run that is too short for its overlap", twoPanels + `seams:
  side: {join: [[one.right], [two.left]], type: plain, overlap: 30}
`, 10, fault.Error, "side: two.left is 30 mm longer than one.right after the overlap of 30 mm (300, 300)",
			"change an edge, or leave overlap: out"},
		{"gathers that do not add up", twoPanels + `seams:
  side: {join: [one.right, two.bottom], type: plain, gather: 2}
`, 10, fault.Error, "side: one.right is 300 mm; gathered 2 times it needs 400 mm",
			"cut it that long, or write gather: 1.5"},
		{"a folded band whose inner edge nothing sews", `
cloth: {shell: linen}
pieces:
  body: {cut: 1, rectangle: [300, 400]}
  waistband: {band: {width: 30, folded: true, lap: 20}}
seams:
  waist: {join: [body.top, waistband.bottom], type: plain}
`, 10, fault.Warning, "waist: waistband is folded over, and nothing sews its inner edge",
			"write type: band, which turns it in and stitches it down; or say under finishes: how waistband.top is finished"},
		{"a band and its seam that disagree", `
cloth: {shell: linen}
pieces:
  body: {cut: 1, rectangle: [300, 400]}
  waistband: {band: {width: 40, folded: true, lap: 20}}
seams:
  waist: {join: [body.top, waistband.bottom], type: band, width: 35}
`, 10, fault.Warning, "waist: its band is 40 mm wide, and width: says 35 mm", "leave it out: the seam follows the band"},
		{"an overlap of which a little is short", twoPanels + `seams:
  side: {join: [[one.right], [two.bottom]], type: plain, overlap: 90}
`, 10, fault.Error, "side: one.right is 10 mm longer than two.bottom after the overlap of 90 mm (300, 200)", "change an edge, or write overlap: 100"},
		{"edges that occur unequally often", `
cloth: {shell: linen}
pieces:
  front: {rectangle: [200, 300]}
  back: {rectangle: [200, 300], cut: 2}
seams:
  sides: {join: [front.right, back.left], type: plain}
`, 7, fault.Error, "sides: front is cut once, and sewn into back.left, which is there twice", "write cut: 2 for front"},
		{"a sleeve that would be cut once", `
cloth: {shell: linen}
pieces:
  sleeve: {trapezoid: {bottom: 300, top: 400, height: 500}}
  front: {rectangle: [300, 200], cut: 2, notches: {top: 100}}
seams:
  armholes: {join: [[sleeve.top], [front.right, front.left]], type: plain}
`, 7, fault.Error, "armholes: sleeve is cut once, and sewn into front.right and front.left, which are there twice", "write cut: 2 for sleeve"},
		{"an edge joined to itself", twoPanels + `seams:
  side: {join: [one.right, one.right], type: plain}
`, 10, fault.Error, "side: one.right is cut once, so it has no partner", "write cut: 2, or name another edge"},
		{"a seam that takes too much", `
cloth: {shell: linen}
pieces:
  front: {rectangle: [200, 300], edges: {right: 10}}
  back: {rectangle: [200, 300]}
seams:
  sides: {join: [front.right, back.left], type: french, first: 6, second: 9, trim: 3}
`, 10, fault.Error, "sides: it uses 15 mm a side, front.right has 10 mm", "allowance: 15 at the edge, or a narrower seam"},
		{"a seam that takes unequally", twoPanels + `seams:
  sides: {join: [one.right, two.left], type: flat-felled-offset, narrow: 6, width: 9, fold: 6}
finishes:
  rows: {of: one.right, type: stay-stitched, row: 12, beyond: 3}
`, 12, fault.Error, "rows: it uses 15 mm, one.right has 6 mm", "allowance: 15 at the edge, or a narrower finish"},
		{"a French seam that leaves whiskers", twoPanels + `seams:
  side: {join: [one.right, two.left], type: french, first: 6, second: 5, trim: 6}
`, 10, fault.Error, `"side": trimmed to 6 mm, the first pass is not hidden by a second pass of 5 mm: whiskers will show on the right side`, ""},
		{"a measure the type does not have", twoPanels + `seams:
  side: {join: [one.right, two.left], type: french, frist: 6}
`, 10, fault.Error, `French seam has no measure "frist"`, `did you mean "first"?`},
		{"a seam type nobody knows", twoPanels + `seams:
  side: {join: [one.right, two.left], type: frnech}
`, 10, fault.Error, `there is no seam type "frnech"`, `did you mean "french"?`},
		{"a finish for a seam", twoPanels + `seams:
  side: {join: [one.right, two.left], type: rolled-hem}
`, 10, fault.Error, "rolled-hem is a finish, not a seam type", "write it under finishes:"},
		{"an outline that crosses itself", `
cloth: {shell: linen}
pieces:
  bow:
    outline:
      from: [0, 0]
      a: [100, 100]
      b: [100, 0]
      c: [0, 90]
      d: [0, 0]
`, 12, fault.Error, `"bow": edge "c" and edge "a" cross or touch at 47.4, 47.4`, ""},
		{"an open outline", `
cloth: {shell: linen}
pieces:
  gap:
    outline:
      from: [0, 0]
      a: [100, 0]
      b: [100, 100]
      c: [0, 5]
`, 12, fault.Error, `"gap": the outline does not close: edge "c" ends 5 mm from where it began`, ""},
		{"a dart off its edge", half + `    darts: {waist: {at: 175, width: 24, length: 60}}
`, 15, fault.Error, "the dart opens from 163 mm to 187 mm along front.waist, which is 180 mm long",
			"move it along the edge, or make it narrower"},
		{"a dart through the piece", half + `    darts: {waist: {at: 90, width: 24, length: 160}}
`, 15, fault.Error, "the dart on front.waist is longer than the piece", "make it shorter, or move it along the edge"},
		{"two darts in one place", half + `    darts:
      waist: [{at: 90, width: 24, length: 60}, {at: 100, width: 24, length: 60}]
`, 16, fault.Error, `two darts on front.waist overlap: the other is on line 16`, "move one of them along the edge"},
		{"pleats deeper than the edge", half + `    pleats: {waist: {count: 6, depth: 20, drawn: true}}
`, 15, fault.Error, "front.waist is 180 mm long, its pleats take 240 mm", "take in less, or lengthen the edge"},
		{"a fold that is not cut on fold", `
cloth: {shell: linen}
pieces:
  panel: {rectangle: [200, 300], edges: {left: {fold: true}}, cut: 2}
`, 7, fault.Warning, `panel.left lies on a fold, but "panel" is not cut on fold`, "write cut: 1 on fold"},
		{"cut on a fold nobody names", `
cloth: {shell: linen}
pieces:
  panel: {rectangle: [200, 300], cut: 1 on fold}
`, 7, fault.Error, "panel is cut on the fold: which edge?", "write fold: true at that edge, as centre: {fold: true}"},
		{"a level above the piece", half + `    levels: {bust: 120}
`, 15, fault.Error, `"front" has no width at a height of 120 mm`, "a level is a height of the outline: its y"},
		{"too little ease", half + `drafted-for: {waist: 355}
`, 15, fault.Warning, "waist: 5 mm of ease; a fitted garment usually has at least 13 mm",
			"widen the pieces; if you want it so, write usual: {least-ease: {waist: 5}}"},
		{"measured too wide", half + `measured: {waist: 372}
`, 15, fault.Warning, "waist came out 12 mm larger than planned (372, 360)", "measure again, or note it for the next one"},
		{"measured, but not planned", half + `measured: {thigh: 372}
`, 15, fault.Warning, "thigh was measured, but nothing says what was planned",
			"write it under levels: or lengths:"},
		{"a level misspelt", half + `levels: {wiast: {tolerance: 20}}
`, 15, fault.Warning, `no piece says where "wiast" is, and it has no width`, `did you mean "waist"?`},
		{"measured under a wrong name", half + `measured: {wiast: 360}
`, 15, fault.Warning, "wiast was measured, but nothing says what was planned", `did you mean "waist"?`},
		{"drafted for nothing known", half + `drafted-for: {hipp: 960}
`, 15, fault.Warning, `"hipp" is neither a level of this garment nor a body measurement`, `did you mean "hip"?`},
		{"an overlap wider than the garment", half + `notions: {buttons: {along: 200 inside front.side, every: 20}}
`, 15, fault.Error, "the lap is longer than the waist", ""},
		{"a width declared besides", half + `levels: {waist: 400}
`, 15, fault.Warning, "waist: you wrote 400 mm, the outlines make 360.0 mm", "leave it out: the outlines tell it"},
		{"more turns than panels", `
cloth: {shell: linen}
pieces:
  skirt: {circle: {share: 3, waist: 700, length: 600, panels: 2}}
`, 7, fault.Error, `"skirt" cannot be drawn: a panel cannot go round more than once: 3 turns need at least 3 panels, not 2`, ""},
		{"panels counted twice", `
cloth: {shell: linen}
pieces:
  skirt: {cut: 4, circle: {share: 1, waist: 700, length: 600, panels: 2}}
`, 7, fault.Error, "skirt: cut 4 times, but the skirt has 2 panels", "leave cut: out: the panels are counted"},
		{"a bone longer than its channel", twoPanels + `seams:
  side: {join: [one.right, two.left], type: plain}
notions: {boning: {in: [side], clear: 150}}
`, 11, fault.Error, `"boning" leaves nothing: side is 300.0 mm long, 150 mm clear at each end`, "leave less clear"},
		{"a stitch nobody knows", twoPanels + `seams:
  side: {join: [one.right, two.left], type: plain, stitch: "999"}
`, 10, fault.Error, `there is no stitch type "999"`, "*"},
		{"an edge moved past the whole piece", half + `  lining: {like: front, change: {top: -90}}
`, 15, fault.Error, `lining.top cannot be moved by −90 mm: it, or an edge beside it, would be turned round`, "move it by less, or draw the piece anew"},
	} {
		t.Run(c.name, func(t *testing.T) {
			g, faults := roomWith(t).desk().derive(t, head+c.build)
			for _, f := range faults {
				t.Errorf("the reader: %s", f)
			}
			if len(g.Faults) != 1 {
				t.Fatalf("there are %d faults, want one: %v", len(g.Faults), g.Faults)
			}
			f := g.Faults[0]
			if f.Message != c.message {
				t.Errorf("message\n got %s\nwant %s", f.Message, c.message)
			}
			if c.hint != "*" && f.Hint != c.hint {
				t.Errorf("hint\n got %s\nwant %s", f.Hint, c.hint)
			}
			if f.Severity != c.severity {
				t.Errorf("it is a %s, want a %s", f.Severity, c.severity)
			}
			if f.At.Line != c.line {
				t.Errorf("line %d, want %d", f.At.Line, c.line)
			}
		})
	}
}
