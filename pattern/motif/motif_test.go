package motif

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"fretband/unroll/plane"
)

// frames are fields of many proportions, each with a printed name.
func frames(m Motif) map[string]Frame {
	rng := rand.New(rand.NewSource(11))
	fs := map[string]Frame{}
	for i := range 60 {
		f := Frame{
			W: 40 + 160*rng.Float64(), H: 4 + 40*rng.Float64(),
			Rows: 1 + rng.Intn(6), Repeats: 1 + rng.Intn(40), Stagger: rng.Float64() / 2,
			Closed: i%2 == 0,
		}
		nums := map[string]float64{}
		for _, n := range m.Numbers {
			nums[n.Key] = n.Min + (n.Max-n.Min)*rng.Float64()
		}
		f.Number = func(k string) float64 { return nums[k] }
		fs[fmt.Sprintf("%d: %.1f x %.1f rows %d repeats %d stagger %.2f closed %v %v", i, f.W, f.H, f.Rows, f.Repeats, f.Stagger, f.Closed, nums)] = f
	}
	return fs
}

func TestEveryCellRunsCounterClockwiseAndIsSimple(t *testing.T) {
	for _, m := range All() {
		for name, f := range frames(m) {
			for i, l := range m.Cells(f).Shapes {
				if err := l.Check(); err != nil {
					t.Errorf("%s, %s, shape %d: %v", m.Key, name, i, err)
				}
				if l.Area() <= 0 {
					t.Errorf("%s, %s, shape %d: area %g", m.Key, name, i, l.Area())
				}
			}
		}
	}
}

// Cells that fill a closed frame have together at most the area of the frame
// that they cover; none lies over another.
func TestNoTwoCellsOverlap(t *testing.T) {
	for _, m := range All() {
		for name, f := range frames(m) {
			if f.Rows*f.Repeats > 60 {
				continue
			}
			til := m.Cells(f)
			var ls []plane.Loop
			for _, p := range til.Cells {
				ls = append(ls, til.Shapes[p.Shape].Move(p.At))
				if f.Closed {
					ls = append(ls, til.Shapes[p.Shape].Move(p.At.Add(plane.Pt(f.W, 0))))
				}
			}
			noneOverlap(t, ls, m.Key+", "+name)
		}
	}
}

// noneOverlap holds that no two loops share more than rounding.
func noneOverlap(t *testing.T, ls []plane.Loop, what string) {
	t.Helper()
	boxes := make([]plane.Box, len(ls))
	for i, l := range ls {
		boxes[i] = l.Bounds()
	}
	for i := range ls {
		for j := range i {
			if !boxes[i].Grow(-1e-6).Meets(boxes[j]) {
				continue
			}
			common, err := plane.And(plane.Region{ls[i]}, plane.Region{ls[j]})
			if err != nil {
				t.Fatalf("%s: %v", what, err)
			}
			if a := common.Area(); a > 1e-5*ls[i].Area() {
				t.Errorf("%s: cells %d and %d share %g mm²", what, i, j, a)
			}
		}
	}
}

// Rows stand about the middle of the frame: as far up as down.
func TestRowsStandAboutTheMiddleOfTheirFrame(t *testing.T) {
	for _, m := range All() {
		for name, f := range frames(m) {
			til := m.Cells(f)
			b := plane.EmptyBox()
			for _, p := range til.Cells {
				b = b.Union(til.Shapes[p.Shape].Move(p.At).Bounds())
			}
			if math.Abs(b.Min.Y+b.Max.Y) > 1e-9*f.H {
				t.Errorf("%s, %s: rows from %g to %g", m.Key, name, b.Min.Y, b.Max.Y)
			}
		}
	}
}

// On a closed band one turn of cells is one turn: moved by the period they are
// themselves, and every row holds exactly Repeats of each shape. Random cells
// repeat nowhere but after the whole turn: theirs is the test after this one.
func TestRepeatsCloseExactlyOnAClosedBand(t *testing.T) {
	for _, m := range All() {
		if m.Key == randomCells.Key {
			continue
		}
		for name, f := range frames(m) {
			if !f.Closed {
				continue
			}
			type slot struct {
				shape int
				y     float64
			}
			xs := map[slot][]float64{}
			til := m.Cells(f)
			for _, p := range til.Cells {
				k := slot{p.Shape, p.At.Y}
				xs[k] = append(xs[k], p.At.X)
			}
			for k, x := range xs {
				if len(x) != f.Repeats {
					t.Errorf("%s, %s: shape %d at %g stands %d times", m.Key, name, k.shape, k.y, len(x))
				}
				// Every one stands a whole number of pitches from the first.
				for _, v := range x {
					n := (v - x[0]) / (f.W / float64(f.Repeats))
					if math.Abs(n-math.Round(n)) > 1e-9 {
						t.Errorf("%s, %s: %g is %g pitches off", m.Key, name, v, n)
					}
				}
			}
		}
	}
}

// Random cells fill one turn of a closed band, rows times repeats of them, every
// site once. That none overlaps another or that other's image in the next turn is
// tested with all motifs; so if their areas add up to that of the turn, cells and
// images leave no gap at the seam.
func TestRandomCellsCloseExactlyOnAClosedBand(t *testing.T) {
	for name, f := range frames(randomCells) {
		if !f.Closed {
			continue
		}
		til := randomCells.Cells(f)
		if len(til.Cells) != f.Rows*f.Repeats {
			t.Errorf("%s: %d cells", name, len(til.Cells))
		}
		sum := 0.0
		for i, p := range til.Cells {
			if p.Shape != i {
				t.Errorf("%s: place %d has shape %d", name, i, p.Shape)
			}
			if p.At.X < -f.W/2 || p.At.X >= f.W/2 {
				t.Errorf("%s: site %d at %v is outside the turn", name, i, p.At)
			}
			sum += til.Shapes[p.Shape].Area()
		}
		if math.Abs(sum-f.W*f.H) > 1e-9*f.W*f.H {
			t.Errorf("%s: cells have %.9f mm², the turn %.9f", name, sum, f.W*f.H)
		}
	}
}

// On a cuff every cell has its mirror image across the middle, if the stagger is
// none or half.
func TestACuffIsTheSameOnBothSides(t *testing.T) {
	for _, m := range All() {
		for name, f := range frames(m) {
			if f.Closed {
				continue
			}
			f.Stagger = math.Round(f.Stagger*2) / 2
			til := m.Cells(f)
			type spot struct{ x, y, a int64 }
			at := map[spot]bool{}
			key := func(l plane.Loop, mirror float64) spot {
				c := l.Centroid()
				return spot{int64(math.Round(mirror * c.X * 1e5)), int64(math.Round(c.Y * 1e5)), int64(math.Round(l.Area() * 1e5))}
			}
			near := func(k spot) bool {
				for dx := int64(-1); dx <= 1; dx++ {
					for dy := int64(-1); dy <= 1; dy++ {
						for da := int64(-1); da <= 1; da++ {
							if at[spot{k.x + dx, k.y + dy, k.a + da}] {
								return true
							}
						}
					}
				}
				return false
			}
			var ls []plane.Loop
			for _, p := range til.Cells {
				l := til.Shapes[p.Shape].Move(p.At)
				if b := l.Bounds(); b.Min.X < -f.W/2-1e-6 || b.Max.X > f.W/2+1e-6 {
					continue // what the rim cuts or never meets
				}
				ls = append(ls, l)
				at[key(l, 1)] = true
			}
			for _, l := range ls {
				if !near(key(l, -1)) {
					t.Errorf("%s, %s: the cell at %v has no mirror image", m.Key, name, l.Centroid())
					break
				}
			}
		}
	}
}

// Motifs that go on past their frame, as turned fields ask: still no cell overlaps
// another, and the rows are the same again after the rise.
func TestMotifsGoOnPastTheirFrame(t *testing.T) {
	for _, m := range All() {
		n := 0
		for name, f := range frames(m) {
			if f.Rows*f.Repeats > 12 {
				continue
			}
			n++
			f.Closed, f.Beyond, f.Over = false, 1, 3
			til := m.Cells(f)
			var ls []plane.Loop
			for _, p := range til.Cells {
				ls = append(ls, til.Shapes[p.Shape].Move(p.At))
			}
			noneOverlap(t, ls, m.Key+", "+name)
			if m.Irregular {
				continue
			}
			rise := m.RiseOf(f)
			for i, l := range ls {
				b := l.Bounds()
				if math.Max(-b.Min.X, b.Max.X) > f.W/2 || math.Max(-b.Min.Y, b.Max.Y) > f.H/2 {
					continue
				}
				up := l.Move(plane.Pt(0, rise))
				found := false
				for _, k := range ls {
					found = found || k.Bounds().Min.Dist(up.Bounds().Min) < 1e-6 && k.Same(up, 1e-9)
				}
				if !found {
					t.Errorf("%s, %s: cell %d at %v is not there again after %g mm", m.Key, name, i, b.Centre(), rise)
					break
				}
			}
		}
		if n == 0 {
			t.Errorf("%s: no frame looked at", m.Key)
		}
	}
}

// An eye between quatrefoils has as much of the room up to the next leaf as is asked for, and
// no more than half a pitch or row: its radius against the distance of the leaves.
func TestEyesHaveTheShareOfTheRoomBetweenTheLeaves(t *testing.T) {
	eyes := 0
	for name, f := range frames(quatrefoils) {
		f.Closed, f.Beyond = true, 0
		til := quatrefoils.Cells(f)
		// Inner rows: beside the rim there is no other row.
		for _, p := range til.Cells {
			l := til.Shapes[p.Shape]
			if p.Shape == 0 || math.Abs(p.At.Y) > f.H/2-1e-9 {
				continue
			}
			room := math.Min(f.Pitch(), f.H/float64(f.Rows)) / 2
			for _, q := range til.Cells {
				if q.Shape != 0 {
					continue
				}
				for _, turn := range []float64{-f.W, 0, f.W} {
					at := q.At.Add(plane.Pt(turn, 0))
					if leaf := til.Shapes[0].Move(at); at.Dist(p.At) < 4*f.Pitch()+2*f.H/float64(f.Rows) {
						room = math.Min(room, leaf.Nearest(p.At).D)
					}
				}
			}
			if r := l.Bounds().H() / 2; math.Abs(r-room*f.Number("eye")) > 1e-6*f.H {
				t.Errorf("%s: an eye of radius %g in a room of %g", name, r, room)
				break
			}
			eyes++
		}
	}
	if eyes < 100 {
		t.Errorf("only %d eyes", eyes)
	}
}
