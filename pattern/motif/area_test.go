package motif

import (
	"math"
	"testing"
)

// frameOf returns a closed frame of pitch a and rows of height h, with the motif's
// own numbers but for those given.
func frameOf(m Motif, a, h float64, rows int, numbers map[string]float64) Frame {
	return Frame{
		W: 20 * a, H: h * float64(rows), Rows: rows, Repeats: 20, Closed: true,
		Number: func(key string) float64 { return m.Number(numbers, key) },
	}
}

// The areas of cells against closed forms.
func TestCellAreasMatchClosedForms(t *testing.T) {
	root3 := math.Sqrt(3)
	for _, c := range []struct {
		source  string
		motif   Motif
		a, h    float64
		numbers map[string]float64
		shape   int
		want    float64
		tol     float64
	}{
		{"square", squares, 6, 6, nil, 0, 36, 1e-9},
		{
			"vesica of two circles of radius r through each other's middles: (2 pi/3 - sqrt3/2) r^2 = 1.228369699 r^2; here r = 4, r wide and sqrt3 r high",
			leaves, 8, 4 * root3, map[string]float64{"lean": 0}, 0, 1.228369699 * 16, 1e-7,
		},
		{
			"trefoil of three circles each through the others' middles: (3 pi/2 + sqrt3) r^2 = 6.444439788 r^2; its height (2 + sqrt3/2) r is the row's",
			trefoils, 100, 3 * (2 + root3/2), map[string]float64{"spread": 1}, 0, 6.444439788 * 9, 1e-7,
		},
		{
			"three circles that meet in one point, spread sqrt3: three less three lenses of pi/3 - sqrt3/2",
			trefoils, 100, 2 + root3*root3/2, map[string]float64{"spread": root3}, 0, 2*math.Pi + 3*root3/2, 1e-9,
		},
		{
			"quatrefoil, a square of side s and four half circles on its sides: (1 + pi/2) s^2 = 2.570796327 s^2; 2 s wide",
			quatrefoils, 10, 10, nil, 0, 2.570796327 * 25, 1e-7,
		},
		{"ellipse: pi a b; fitted arcs lie within it by at most 0.002 mm", ellipses, 8, 12, nil, 0, math.Pi * 24, 0.002 * 32},
		{
			"teardrop curve x = cos t, y = sin t sin t/2 by quadrature, four fifths as wide as high",
			teardrops, 100, 10, map[string]float64{"tip": 1}, 0, dropArea(1, 10), 0.002 * 30,
		},
		{"two squares of side s crossed: (4 - 2 sqrt2) s^2; s = 5 sqrt2 here", crosses, 10, 10, nil, 0, 2 * (4 - 2*math.Sqrt2) * 25, 1e-6},
		{"what four of those leave of a square of 10", crosses, 10, 10, nil, 1, 100 - 2*(4-2*math.Sqrt2)*25, 1e-6},
		{"hexagram, circumradius r: sqrt3 r^2", hexastars, 10, 5 * root3, nil, 0, root3 * 25, 1e-6},
		{"regular hexagon of side a/(2 sqrt3): 3 sqrt3/2 times its square", hexastars, 10, 5 * root3, nil, 1, 3 * root3 / 2 * 100 / 12, 1e-6},
		{
			"equilateral arch on a square: a^2 (1 - sqrt3/2) + a^2 (pi/3 - sqrt3/4)",
			lancets, 6, 6, map[string]float64{"rise": root3 / 2}, 0, 36 * (1 - root3/2 + math.Pi/3 - root3/4), 1e-9,
		},
		{
			"petal: two segments of quarter circles, (pi/2 - 1) r^2; r = 5 here",
			petals, 10, 10, nil, 1, (math.Pi/2 - 1) * 25, 1e-9,
		},
		{"what such petals leave of a square of side sqrt2 r: 2 r^2 - (pi - 2) r^2", petals, 10, 10, nil, 2, (4 - math.Pi) * 25, 1e-9},
		{"an ogee is a diamond of a x h: what its bellies add, its hollows take", ogees, 7, 9, nil, 0, 31.5, 1e-9},
		{"a wavy strip has the area of a straight one: a v", waves, 12, 3, map[string]float64{"swing": 0.5}, 0, 12 * 6 / 2.5, 1e-9},
		{"so has a chevron", chevrons, 5, 4, map[string]float64{"peak": 1}, 0, 5 * 8.0 / 3, 1e-9},
		{"Flemish bond, headers half a stretcher: 2/3 of the course", bricks, 9, 3, map[string]float64{"header": 0.5}, 0, 18, 1e-9},
	} {
		rows := 1
		if c.motif.Key == "waves" || c.motif.Key == "chevrons" {
			rows = 2
		}
		shapes := c.motif.Cells(frameOf(c.motif, c.a, c.h, rows, c.numbers)).Shapes
		if got := shapes[c.shape].Area(); math.Abs(got-c.want) > c.tol {
			t.Errorf("%s: %s: area %.9f, want %.9f", c.motif.Key, c.source, got, c.want)
		}
	}
}

// dropArea is the area of the teardrop curve of the height h whose width is the
// greatest that the motif allows, four fifths of the height, by Simpson's rule
// over the curve as printed: x = cos t, y = sin t sin^m(t/2), m = 2 k - 1.
func dropArea(k, h float64) float64 {
	const n = 20000
	m := 2*k - 1
	y := func(t float64) float64 { return math.Sin(t) * math.Pow(math.Sin(t/2), m) }
	sum, widest := 0.0, 0.0
	for i := range n + 1 {
		t := math.Pi * float64(i) / n
		w := 2.0 * float64(1+i%2)
		if i == 0 || i == n {
			w = 1
		}
		sum += w * y(t) * math.Sin(t)
		widest = math.Max(widest, y(t))
	}
	sum *= math.Pi / n / 3
	return 2 * sum * (h / 2) * (0.4 * h / widest)
}

// Every random cell is what its name says: the plane's points on its edge are
// nearer to its own site than to any other, the slow way.
func TestRandomCellsAreNearestToTheirSites(t *testing.T) {
	for _, closed := range []bool{true, false} {
		f := frameOf(randomCells, 5, 6, 4, nil)
		f.Closed = closed
		til := randomCells.Cells(f)
		for i, p := range til.Cells {
			for _, v := range til.Shapes[p.Shape].Move(p.At) {
				own := v.Dist(p.At)
				for j, q := range til.Cells {
					d := v.X - q.At.X
					if closed {
						d = math.Remainder(d, f.W)
					}
					if d := math.Hypot(d, v.Y-q.At.Y); d < own-1e-9 {
						t.Fatalf("closed %v: a corner of cell %d is %g from its site, %g from site %d", closed, i, own, d, j)
					}
				}
			}
		}
	}
}

// Rounds of evening out bring every site nearer to the centre of its cell.
func TestRoundsEvenRandomCellsOut(t *testing.T) {
	last := math.Inf(1)
	for _, rounds := range []float64{0, 2, 8, 40} {
		til := randomCells.Cells(frameOf(randomCells, 5, 6, 4, map[string]float64{"rounds": rounds}))
		off := 0.0
		for _, l := range til.Shapes {
			off += l.Centroid().Len()
		}
		if off > 0.7*last {
			t.Errorf("%g rounds: sites are %g mm off, %g before", rounds, off, last)
		}
		last = off
	}
}

// What a drag of the pitch waits for.
func BenchmarkRandomCells2000(b *testing.B) {
	f := frameOf(randomCells, 4, 2, 20, nil)
	f.W, f.Repeats = 400, 100
	for b.Loop() {
		randomCells.Cells(f)
	}
}
