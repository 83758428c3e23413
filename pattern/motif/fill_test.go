package motif

import (
	"fmt"
	"math"
	"testing"

	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Motifs that leave nothing between their cells divide the whole frame: together their
// cells are as large as it.
func TestCellsThatLeaveNothingBetweenThemFillTheFrame(t *testing.T) {
	fills := map[string]bool{}
	for _, key := range []string{"triangles", "diamonds", "squares", "bricks", "hexagons", "scallops", "ogees", "petals", "crosses", "hexastars", "lattice"} {
		fills[key] = true
	}
	for _, m := range All() {
		if !fills[m.Key] {
			continue
		}
		seen := false
		for name, f := range frames(m) {
			if !f.Closed || f.Rows*f.Repeats > 60 {
				continue
			}
			seen = true
			frame := plane.Rect(plane.Box{Min: plane.Pt(-f.W/2, -f.H/2), Max: plane.Pt(f.W/2, f.H/2)})
			til := m.Cells(f)
			sum := 0.0
			for _, p := range til.Cells {
				for _, turn := range []float64{-f.W, 0, f.W} {
					l := til.Shapes[p.Shape].Move(p.At.Add(plane.Pt(turn, 0)))
					if !l.Bounds().Meets(frame.Bounds()) {
						continue
					}
					in, err := plane.And(plane.Region{l}, plane.Region{frame})
					require.NoError(t, err, "%s, %s", m.Key, name)
					sum += in.Area()
				}
			}
			assert.InEpsilon(t, f.W*f.H, sum, 1e-5, "%s, %s", m.Key, name)
		}
		assert.True(t, seen, m.Key)
	}
}

// A number called size shrinks a cell about its own middle: half as large, it has a
// quarter of the area and stands where it stood.
func TestSmallerCellsStandWhereLargerOnesDo(t *testing.T) {
	tried := 0
	for _, m := range All() {
		sized := false
		for _, n := range m.Numbers {
			sized = sized || n.Key == "size"
		}
		if !sized {
			continue
		}
		at := func(size float64) (t Tiling, f Frame) {
			f = frameOf(m, 7, 11, 3, map[string]float64{"size": size, "eye": 0})
			return m.Cells(f), f
		}
		whole, f := at(1)
		for _, size := range []float64{0.25, 0.5, 0.8} {
			small, _ := at(size)
			if m.Key == "teardrops" {
				continue // its size is its width
			}
			tried++
			require.Len(t, small.Cells, len(whole.Cells), m.Key)
			for i, p := range whole.Cells {
				q := small.Cells[i]
				a, b := whole.Shapes[p.Shape], small.Shapes[q.Shape]
				assert.InEpsilon(t, size*size*a.Area(), b.Area(), 1e-4, "%s, %v", m.Key, size)
				gap := a.Move(p.At).Bounds().Centre().Sub(b.Move(q.At).Bounds().Centre())
				assert.InDelta(t, 0, math.Remainder(gap.X, f.W), 1e-6, "%s, %v: along", m.Key, size)
				assert.InDelta(t, 0, gap.Y, 1e-6, "%s, %v: across", m.Key, size)
			}
		}
	}
	assert.Positive(t, tried)
}

// Past the frame a motif goes on as it is within: asked for more rows it gives the same
// cells and as many rows more above and below.
func TestRowsPastTheFrameGoOnAsThoseWithin(t *testing.T) {
	for _, m := range All() {
		if m.Key == randomCells.Key || m.Key == lattice.Key {
			continue // no two rows of the one are alike, the other cuts its outermost at the frame
		}
		for name, f := range frames(m) {
			if f.Rows*f.Repeats > 120 || f.Rows < 3 && m.Key == circles.Key { // which need not mind rows beyond the second
				continue
			}
			numbers := f.Number
			f.Number = func(key string) float64 {
				if key == "eye" {
					return 0 // eyes on the frame's edge are larger, since no other row stands there
				}
				return numbers(key)
			}
			within := m.Cells(f)
			f.Over = 2
			more := m.Cells(f)
			slots := func(til Tiling) (named map[string]bool, least, most float64) {
				named, least, most = map[string]bool{}, math.Inf(1), math.Inf(-1)
				for _, p := range til.Cells {
					c := til.Shapes[p.Shape].Move(p.At).Bounds()
					named[fmt.Sprintf("%d %d %.6f %.6f %.6f", p.Row, p.Col, p.At.X, c.Centre().Y, til.Shapes[p.Shape].Area())] = true
					least, most = math.Min(least, c.Min.Y), math.Max(most, c.Max.Y)
				}
				return named, least, most
			}
			a, aLeast, aMost := slots(within)
			b, bLeast, bMost := slots(more)
			for s := range a {
				assert.True(t, b[s], "%s, %s: %s is missing", m.Key, name, s)
			}
			assert.Greater(t, aLeast-bLeast, 0.0, "%s, %s", m.Key, name)
			assert.InDelta(t, aLeast-bLeast, bMost-aMost, 1e-6, "%s, %s: as much below as above", m.Key, name)
			rows := func(til Tiling) (first, last int) {
				first, last = til.Cells[0].Row, til.Cells[0].Row
				for _, p := range til.Cells {
					first, last = min(first, p.Row), max(last, p.Row)
				}
				return first, last
			}
			aFirst, aLast := rows(within)
			bFirst, bLast := rows(more)
			assert.Contains(t, []int{2, 4}, aFirst-bFirst, "%s, %s: some name two rows for each", m.Key, name)
			assert.Equal(t, aFirst-bFirst, bLast-aLast, "%s, %s", m.Key, name)
		}
	}
}

// A strip of a row's height v that swings by a share s of it takes v (1 + s) in all, and n
// of them one over the other fill n v + s v.
func TestStripsAreAsHighAsTheySwing(t *testing.T) {
	for _, c := range []struct {
		motif Motif
		key   string
	}{{waves, "swing"}, {chevrons, "peak"}} {
		for _, share := range []float64{0.2, 0.5, 0.8} {
			const rows, h = 4, 3.0
			f := frameOf(c.motif, 24, h, rows, map[string]float64{c.key: share})
			v := rows * h / (rows + share)
			til := c.motif.Cells(f)
			for _, p := range til.Cells {
				assert.InDelta(t, v*(1+share), til.Shapes[p.Shape].Bounds().H(), 1e-9, "%s, %v", c.motif.Key, share)
			}
		}
	}
}

// Circles are as large as they can be: they stay in the frame, the outermost rows touch its
// edges, and two touch each other, or each touches both edges. By trying all pairs.
func TestCirclesAreTheLargestThatFit(t *testing.T) {
	for _, f := range []Frame{
		{W: 60, H: 10, Rows: 1, Repeats: 10}, {W: 60, H: 10, Rows: 1, Repeats: 3}, {W: 60, H: 10, Rows: 1, Repeats: 5, Over: 1},
		{W: 60, H: 12, Rows: 2, Repeats: 12}, {W: 60, H: 12, Rows: 2, Repeats: 8, Stagger: 0.5}, {W: 60, H: 8, Rows: 2, Repeats: 4, Stagger: 0.5},
		{W: 60, H: 6, Rows: 2, Repeats: 3, Stagger: 0.5}, {W: 60, H: 6, Rows: 2, Repeats: 3, Stagger: 0.5, Over: 2},
		{W: 60, H: 24, Rows: 3, Repeats: 8, Stagger: 0.5}, {W: 60, H: 9, Rows: 3, Repeats: 4, Stagger: 0.5}, {W: 60, H: 24, Rows: 5, Repeats: 11, Stagger: 0.25},
		{W: 60, H: 30, Rows: 4, Repeats: 20, Stagger: 0.5},
	} {
		f.Closed, f.Number = true, func(string) float64 { return 1 }
		til := circles.Cells(f)
		d := 2 * math.Sqrt(til.Shapes[0].Area()/math.Pi)
		top, bottom, nearest := math.Inf(-1), math.Inf(1), math.Inf(1)
		for i, c := range til.Cells {
			if math.Abs(c.At.Y) < f.H/2 { // not a row beyond
				top, bottom = math.Max(top, c.At.Y+d/2), math.Min(bottom, c.At.Y-d/2)
			}
			for j, o := range til.Cells {
				for _, by := range []float64{-f.W, 0, f.W} {
					if i != j || by != 0 {
						nearest = math.Min(nearest, c.At.Dist(o.At.Add(plane.Pt(by, 0))))
					}
				}
			}
		}
		assert.GreaterOrEqual(t, nearest, d-1e-9, "%+v", f)
		assert.LessOrEqual(t, d, f.H+1e-9, "%+v", f)
		if f.Rows > 1 {
			assert.InDelta(t, f.H/2, top, 1e-9, "%+v", f)
			assert.InDelta(t, -f.H/2, bottom, 1e-9, "%+v", f)
			assert.True(t, nearest < d+1e-9 || d > f.H-1e-9, "%+v: circles of %g mm, %g mm apart", f, d, nearest)
		} else {
			assert.InDelta(t, math.Min(f.H, f.W/float64(f.Repeats)), d, 1e-9, "%+v", f)
		}
	}
}

// Bars cross at the angle that is asked for; in a field that is turned, at the nearest at
// which the rows are the same again: then a row holds a whole number of half meshes.
func TestBarsOfALatticeSlantAsAsked(t *testing.T) {
	for _, angle := range []float64{20, 45, 55, 70} {
		for _, f := range []Frame{
			{W: 60, H: 10, Rows: 1, Repeats: 10}, {W: 60, H: 24, Rows: 3, Repeats: 8}, {W: 60, H: 10, Rows: 1, Repeats: 6, Over: 2},
			{W: 60, H: 24, Rows: 2, Repeats: 9, Over: 1}, {W: 60, H: 21, Rows: 3, Repeats: 4, Over: 2},
		} {
			f.Closed, f.Number = true, func(string) float64 { return angle }
			a, row := f.W/float64(f.Repeats), f.H/float64(f.Rows)
			want := math.Tan(angle * math.Pi / 180)
			til := lattice.Cells(f)
			if f.Over > 0 && f.Rows > 1 {
				whole := math.Max(1, math.Round(2*row/(a*want)))
				want = 2 * row / whole / a
				assert.InDelta(t, 2*row, til.Rise, 1e-12)
			} else {
				assert.InDelta(t, a*want, til.Rise, 1e-12)
			}
			slanted := 0
			for _, l := range til.Shapes {
				for i := range l {
					if v := l.Edge(i).B.Sub(l.Edge(i).A); math.Abs(v.Y) > 1e-6 {
						assert.InDelta(t, want, math.Abs(v.Y/v.X), 1e-6, "%g, %+v", angle, f)
						slanted++
					}
				}
			}
			assert.Positive(t, slanted)
			top, bottom := 0.0, 0.0
			for _, c := range til.Cells {
				b := til.Shapes[c.Shape].Move(c.At).Bounds()
				top, bottom = math.Max(top, b.Max.Y), math.Min(bottom, b.Min.Y)
			}
			over := f.H/2 + float64(f.Over)*row*float64(min(f.Rows-1, 1))
			assert.GreaterOrEqual(t, top, over-1e-9, "%g, %+v", angle, f)
			assert.LessOrEqual(t, bottom, -over+1e-9, "%g, %+v", angle, f)
		}
	}
}
