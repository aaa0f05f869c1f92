package lay_test

import (
	"fmt"
	"strings"

	"hembook/internal/lay"
)

func readOutline(text string) ([]lay.Point, error) {
	var pts []lay.Point
	for _, f := range strings.Fields(text) {
		var p lay.Point
		if _, err := fmt.Sscanf(f, "%g,%g", &p.X, &p.Y); err != nil {
			return nil, fmt.Errorf("point %q: %w", f, err)
		}
		pts = append(pts, p)
	}
	return pts, nil
}
