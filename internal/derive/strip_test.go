package derive

import "testing"

// Inch values of M. Lewis's bias formula article: 250 in of 2 in need √500 =
// 22.36 in of square, 100 in of 3½ in √350 = 18.71 in; of a remnant of 20 in
// square come 200 in of 2 in, of 12 in 72 in, of 36 in 648 in. In millimetres:
// 5 m of 40 mm need 447.2 mm (derived).
func TestBiasAsPublished(t *testing.T) {
	g := deriveClean(t, roomWith(t).file("content/cloth/linen.yaml",
		"name: Linen\nfibres: {linen: 100}\nwidth: 1400\nremnants:\n"+
			"  small: [[0, 0], [304.8, 0], [304.8, 304.8], [0, 304.8]]\n"+
			"  middle: [[0, 0], [508, 0], [508, 508], [0, 508]]\n"+
			"  large: [[0, 0], [914.4, 0], [914.4, 914.4], [0, 914.4]]\n"), `
cloth: {shell: linen}
pieces: {panel: {rectangle: [1000, 1000], allowance: 0}}
bias:
  narrow: {cut: 2 in, length: 250 in}
  wide: {cut: 3 1/2 in, length: 100 in}
  metric: {cut: 40, length: 5 m}
`)
	const inch = 25.4
	g.is(t, 0.1, map[string]float64{"bias.narrow.square": 22.36 * inch, "bias.wide.square": 18.71 * inch, "bias.metric.square": 447.2})
	g.is(t, 1e-6, map[string]float64{"bias.narrow.remnant.small": 72 * inch / 1000, "bias.narrow.remnant.middle": 200 * inch / 1000, "bias.narrow.remnant.large": 648 * inch / 1000})
}
