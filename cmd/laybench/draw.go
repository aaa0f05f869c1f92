package main

import (
	"bytes"
	"fmt"

	"hembook/internal/lay"
)

// drawing shows a lay as a picture 1000 units wide.
func drawing(p *lay.Problem, plan *lay.Plan) []byte {
	var b bytes.Buffer
	k := 1000 / plan.Length
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-1 -1 1002 %.2f">`+"\n", plan.Width*k+2)
	fmt.Fprintf(&b, `<rect width="1000" height="%.2f" fill="#f4f1ea" stroke="#555"/>`+"\n", plan.Width*k)
	for _, at := range plan.Placements {
		b.WriteString(`<path fill="#c9d3c0" stroke="#333" stroke-width="0.6" d="M`)
		for _, q := range p.Placed(at) {
			fmt.Fprintf(&b, " %.3f,%.3f", q.X*k, q.Y*k)
		}
		fmt.Fprintf(&b, ` z"><title>%d.%d, turned %g</title></path>`+"\n", at.Piece+1, at.Copy+1, at.Turn)
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}
