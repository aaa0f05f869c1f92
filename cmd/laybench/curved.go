package main

import "math"

// cutBack is how much of each edge a rounded corner takes from either end.
const cutBack = 0.3

// curve rounds every corner of every piece with an arc of so many points: pieces as
// patterns of garments draw them, of which the published sets have few. The total area
// follows; what is best known no longer says anything.
func (in *instance) curve(points int) {
	in.Best, in.TotalArea = nil, 0
	for i := range in.Items {
		it := &in.Items[i]
		it.Points = rounded(it.Points, points)
		in.TotalArea += float64(it.Quantity) * areaOf(it.Points)
	}
}

// rounded is a ring whose corners are parabolas from cutBack of the edge before to cutBack
// of the edge after.
func rounded(ring [][2]float64, points int) [][2]float64 {
	n := len(ring)
	out := make([][2]float64, 0, n*points)
	for i, at := range ring {
		from, to := towards(at, ring[(i+n-1)%n]), towards(at, ring[(i+1)%n])
		for k := range points {
			t := float64(k) / float64(points-1)
			out = append(out, [2]float64{
				(1-t)*(1-t)*from[0] + 2*t*(1-t)*at[0] + t*t*to[0],
				(1-t)*(1-t)*from[1] + 2*t*(1-t)*at[1] + t*t*to[1],
			})
		}
	}
	return out
}

func towards(a, b [2]float64) [2]float64 {
	return [2]float64{a[0] + cutBack*(b[0]-a[0]), a[1] + cutBack*(b[1]-a[1])}
}

func areaOf(ring [][2]float64) float64 {
	sum := 0.0
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		sum += a[0]*b[1] - a[1]*b[0]
	}
	return math.Abs(sum) / 2
}
