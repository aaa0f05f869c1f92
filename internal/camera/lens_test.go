package camera

import (
	"fmt"
	"image"
	_ "image/jpeg"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"hembook/internal/photo"
	"hembook/internal/shape"
)

// boards is where Debian's package opencv-doc has its pictures of a board of 9 × 6
// corners, 25 mm apart, and what its own calibration made of them.
const boards = "/usr/share/doc/opencv-doc/examples/data"

// A published calibration is what left_intrinsics.yml says, in millimetres.
type published struct {
	f, cx, cy float64
	lens      []float64 // k1, k2, p1, p2, k3
	frames    [][]float64
	off       float64
}

func readPublished(t *testing.T) published {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(boards, "left_intrinsics.yml"))
	if err != nil {
		t.Skip("no pictures of a real lens: Debian's package opencv-doc is not installed")
	}
	numbers := func(name string) (out []float64) {
		m := regexp.MustCompile(`(?s)\n` + name + `: !!opencv-matrix.*?data: \[(.*?)\]`).FindStringSubmatch(string(text))
		for _, one := range strings.FieldsFunc(m[1], func(r rune) bool { return strings.ContainsRune(", \n", r) }) {
			v, err := strconv.ParseFloat(one, 64)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, v)
		}
		return out
	}
	matrix, all := numbers("camera_matrix"), numbers("extrinsic_parameters")
	p := published{f: matrix[0], cx: matrix[2], cy: matrix[5], lens: numbers("distortion_coefficients")}
	for i := 0; i < len(all); i += 6 {
		p.frames = append(p.frames, all[i:i+6])
	}
	fmt.Sscan(regexp.MustCompile(`avg_reprojection_error: (\S+)`).FindStringSubmatch(string(text))[1], &p.off)
	return p
}

// near is where the published calibration sees a corner of a frame: where to look for it.
func (p published) near(frame []float64, x, y float64) shape.Point {
	r := Pose{R: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}}.turnedBy([3]float64(frame[:3])).R
	X, Y, Z := r[0]*x+r[1]*y+1000*frame[3], r[3]*x+r[4]*y+1000*frame[4], r[6]*x+r[7]*y+1000*frame[5]
	X, Y = X/Z, Y/Z
	q := X*X + Y*Y
	k := 1 + q*(p.lens[0]+q*(p.lens[1]+q*p.lens[4]))
	tx := 2*p.lens[2]*X*Y + p.lens[3]*(q+2*X*X)
	ty := p.lens[2]*(q+2*Y*Y) + 2*p.lens[3]*X*Y
	return shape.Point{X: p.f*(k*X+tx) + p.cx + 0.5, Y: p.f*(k*Y+ty) + p.cy + 0.5}
}

// corner is the place near another to which the slopes of the light about it are most
// nearly square (W. Förstner and E. Gülch, "A fast operator for detection and precise
// location of distinct points, corners and centres of circular features", 1987).
func corner(l *photo.Light, at shape.Point) shape.Point {
	const about = 5
	for range 20 {
		var xx, xy, yy, bx, by float64
		for j := -about; j <= about; j++ {
			for i := -about; i <= about; i++ {
				x, y := at.X+float64(i), at.Y+float64(j)
				w := math.Exp(-float64(i*i+j*j) / 12)
				gx, gy := l.At(x+1, y)-l.At(x-1, y), l.At(x, y+1)-l.At(x, y-1)
				xx, xy, yy = xx+w*gx*gx, xy+w*gx*gy, yy+w*gy*gy
				bx, by = bx+w*(gx*gx*x+gx*gy*y), by+w*(gx*gy*x+gy*gy*y)
			}
		}
		det := xx*yy - xy*xy
		next := shape.Point{X: (yy*bx - xy*by) / det, Y: (xx*by - xy*bx) / det}
		moved := math.Hypot(next.X-at.X, next.Y-at.Y)
		at = next
		if moved < 1e-4 {
			break
		}
	}
	return at
}

// TestRealLens: from the corners of 13 pictures of a board, taken by a real lens that
// bends straight lines visibly, our adjustment finds the focal length that was published
// within 1 %, with a like error, and the board's diagonal within 0.3 % from any one
// picture alone with that lens.
func TestRealLens(t *testing.T) {
	p := readPublished(t)
	s := Survey{}
	board := Body{}
	for y := range 6 {
		for x := range 9 {
			board.Points = append(board.Points, shape.Point{X: 25 * float64(x), Y: -25 * float64(y)})
		}
	}
	s.Bodies = []Body{board}
	for i, n := range []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 12, 13, 14} {
		file, err := os.Open(filepath.Join(boards, fmt.Sprintf("left%02d.jpg", n)))
		if err != nil {
			t.Skip("no pictures of a real lens: ", err)
		}
		img, _, err := image.Decode(file)
		file.Close()
		if err != nil {
			t.Fatal(err)
		}
		light := photo.Of(img, photo.Brightness)
		o := Sighting{Photo: i}
		for _, q := range board.Points {
			o.Seen = append(o.Seen, corner(light, p.near(p.frames[i], q.X, -q.Y)))
		}
		s.Photos = append(s.Photos, Photo{Wide: light.Wide, High: light.High})
		s.Sightings = append(s.Sightings, o)
	}
	found, err := Adjust(s)
	if err != nil {
		t.Fatal(err)
	}
	lens, sum := found.Views[0].Lens, 0.0
	for _, off := range found.Off {
		sum += off * off
	}
	off := math.Sqrt(sum / float64(len(found.Off)))
	t.Logf("focal length %.1f (published %.1f), middle %.1f, %.1f (%.1f, %.1f), k %.4f %.4f, off %.3f pixels (%.3f)", lens.F, p.f, lens.CX-0.5, lens.CY-0.5, p.cx, p.cy, lens.K1, lens.K2, off, p.off)
	if math.Abs(lens.F/p.f-1) > 0.01 {
		t.Errorf("the focal length is %.1f pixels; published are %.1f", lens.F, p.f)
	}
	if off > p.off {
		t.Errorf("corners are off by %.3f pixels; published are %.3f", off, p.off)
	}
	long := math.Hypot(8*25, 5*25)
	for i, o := range s.Sightings {
		a, _ := found.Views[i].OnPlane(o.Seen[0])
		b, _ := found.Views[i].OnPlane(o.Seen[53])
		if got := math.Hypot(a.X-b.X, a.Y-b.Y); math.Abs(got/long-1) > 0.003 {
			t.Errorf("picture %d: the diagonal is %.2f mm, not %.2f", i, got, long)
		}
	}
}
