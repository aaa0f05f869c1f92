package draw

import (
	"strconv"
	"testing"

	"hembook/internal/drawing"
)

// Two rows of topstitching lie on the first edge's side of a seam, so on each of two fronts
// and on neither back; a row of edge stitching on both sides of one pressed open, so on two
// fronts and two backs. The pocket's place is drawn on the left front alone, and its number
// stands there and at the pocket.
func TestRowsAndPocketsOnTheNet(t *testing.T) {
	const build = `name: Test
garment: shirt
state: sewing
cloth: {shell: linen}
pieces:
  front: {cut: 2, outline: {from: [0, 0], hem: [240, 0], side: [240, 380], shoulder: [180, 400], middle: {to: [0, 400]}, front edge: [0, 0]}}
  back: {cut: 2, outline: {from: [0, 0], hem: [240, 0], side: [240, 380], shoulder: [180, 400], neck: {to: [0, 400]}, centre: [0, 0]}}
  pocket: {cut: 1, rectangle: [110, 120]}
seams:
  sides: {join: [front.side, back.side], type: plain-to-one-side, topstitch: [2, 8]}
  shoulders: {join: [front.shoulder, back.shoulder], type: plain, edge-stitch: 2}
  centre back: [back.centre, back.centre]
  pocket: {join: [pocket, left front], at: [60, 260]}
finishes:
  pocket top: {of: pocket.top, type: turned-edge}
`
	g := nettedIn(t, "test", written(t, map[string]string{
		"content/workroom.yaml":         "name: Test workroom\n",
		"content/cloth/linen.yaml":      "name: Linen\nfibres: {linen: 100}\nwidth: 1400\n",
		"content/builds/one/build.yaml": build,
	}))[0]
	number := strconv.Itoa(g.NumberOfSetOn("pocket"))
	d := Net(g.Together.Sewn, g.Nets("outer")[0], g.style())
	begun, said := map[drawing.Meaning]int{}, 0
	for i := range d.Marks {
		if l := d.Marks[i].Label; l != nil {
			if l.Words == number {
				said++
			}
			continue
		}
		d.Path(i).Each(func(op drawing.Op, _ []drawing.Point) {
			if op == drawing.MoveTo {
				begun[d.Marks[i].Means]++
			}
		})
	}
	if begun[drawing.RowLine] != 2*2+2+2 {
		t.Errorf("%d rows are drawn", begun[drawing.RowLine])
	}
	if begun[drawing.InnerLine] != 1 || said != 2 || number == "0" {
		t.Errorf("the pocket has %d places, and its number %s stands there %d times", begun[drawing.InnerLine], number, said)
	}
	for _, s := range g.Shown(g.Nets("outer")[0]) {
		if s.Name == "pocket" {
			return
		}
	}
	t.Error("the seam that sews the pocket on is not listed beside the net")
}
