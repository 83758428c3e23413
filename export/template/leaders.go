package template

import (
	"iter"
	"math"
	"strconv"

	"fretband/export"
	"fretband/unroll/plane"
)

// Measures of numbers that are led out of their openings, mm: ours.
const (
	ledBeside = overhang // how far numbers may stand off the part along it, where the centre lines end anyway
	ledOver   = 9.0      // and over and under it
	ledLong   = 25.0     // the longest line
	ledGap    = 0.12     // from a line to its number; less than numberClear
	ledInside = 0.3      // how far a line runs into its opening
	ledApart  = 0.25     // from a number to other lines and numbers
	ledWays   = 48       // directions that are tried
)

// ledHeights are the heights of digits that are tried outside openings.
var ledHeights = []float64{1.5, 1.25, 1.0}

// Cells of the grid: of nobody, or of the line of opening i as i+1.
const (
	freeCell  = 0
	takenCell = -1 // by a number, a leader, engraving
	edgeCell  = -2 // the outline's: leaders may cross it
)

// freeRoom is a grid over the part that says where numbers and lines have room. It is fine
// enough to place words by; whatever is drawn keeps its distance from lines by more than a
// cell.
type freeRoom struct {
	box   plane.Box
	cell  float64
	w, h  int
	owner []int32 // of the line that runs through a cell
	near  []int32 // sums, from the lower left corner, of cells too near to a line for a number
}

// newFreeRoom draws the lines of a part on a grid.
func (t *template) newFreeRoom() *freeRoom {
	box := t.drawn.Grow(ledBeside)
	box.Min.Y, box.Max.Y = t.drawn.Min.Y-ledOver, t.drawn.Max.Y+ledOver
	const finest, most = 0.08, 4e6 // mm, and cells at the most
	g := &freeRoom{box: box, cell: max(finest, math.Sqrt(box.W()*box.H()/most))}
	g.w, g.h = int(box.W()/g.cell)+1, int(box.H()/g.cell)+1
	g.owner, g.near = make([]int32, g.w*g.h), make([]int32, (g.w+1)*(g.h+1))
	line := func(es []plane.Edge, owner int32) {
		for _, e := range es {
			n := int(e.Len()/g.cell*2) + 1
			for i := range n {
				p := e.At(float64(i) / float64(n))
				g.blot(plane.Box{Min: p, Max: p}.Grow(numberClear))
				// So that no line slips through between two cells that touch at a corner.
				for _, v := range [3]plane.Point{{}, {X: g.cell / 2}, {Y: g.cell / 2}} {
					if k := g.at(p.Add(v)); k >= 0 && owner != freeCell {
						g.owner[k] = owner
					}
				}
			}
		}
	}
	line(t.outline.Edges(), edgeCell)
	for _, e := range t.edges {
		line([]plane.Edge{e}, freeCell)
	}
	for i := range t.sheet.Openings {
		line(t.sheet.Openings[i].Loop.Edges(), int32(i+1))
	}
	for _, l := range export.Again(t.sheet) {
		line(l.Edges(), takenCell)
	}
	for _, m := range t.sheet.Engravings {
		for _, s := range m.Strokes {
			line(s.Edges(), takenCell)
		}
	}
	for _, r := range t.sheet.Reserves {
		for _, l := range t.sheet.Again(r.Loop) {
			g.blot(l.Bounds()) // its words stand there
		}
	}
	for _, m := range t.pilotMarks {
		d := max(m.arm(), m.drill/2) + numberGap
		g.blot(plane.Box{Min: m.pilot, Max: m.pilot}.Grow(d))
	}
	for y := 1; y <= g.h; y++ {
		row := int32(0)
		for x := 1; x <= g.w; x++ {
			row += g.near[y*(g.w+1)+x]
			g.near[y*(g.w+1)+x] = row + g.near[(y-1)*(g.w+1)+x]
		}
	}
	return g
}

// at returns the index of the cell at a position, -1 off the grid.
func (g *freeRoom) at(p plane.Point) int {
	x, y := int((p.X-g.box.Min.X)/g.cell), int((p.Y-g.box.Min.Y)/g.cell)
	if !g.box.Contains(p) || x >= g.w || y >= g.h {
		return -1
	}
	return y*g.w + x
}

// cells returns the cells that a box touches: columns from x0 to before x1, rows likewise.
func (g *freeRoom) cells(b plane.Box) (x0, y0, x1, y1 int) {
	in := func(v float64, most int) int { return max(0, min(most, int(math.Floor(v/g.cell)))) }
	return in(b.Min.X-g.box.Min.X, g.w), in(b.Min.Y-g.box.Min.Y, g.h),
		in(b.Max.X-g.box.Min.X, g.w-1) + 1, in(b.Max.Y-g.box.Min.Y, g.h-1) + 1
}

// touched goes through the cells that a box touches.
func (g *freeRoom) touched(b plane.Box) iter.Seq2[int, int] {
	x0, y0, x1, y1 := g.cells(b)
	return func(yield func(x, y int) bool) {
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				if !yield(x, y) {
					return
				}
			}
		}
	}
}

// blot keeps numbers out of a box. It counts before the sums are made only.
func (g *freeRoom) blot(b plane.Box) {
	for x, y := range g.touched(b) {
		g.near[(y+1)*(g.w+1)+x+1] = 1
	}
}

// clear reports whether no line comes near a box.
func (g *freeRoom) clear(b plane.Box) bool {
	if !g.box.Contains(b.Min) || !g.box.Contains(b.Max) {
		return false
	}
	x0, y0, x1, y1 := g.cells(b)
	w := g.w + 1
	return g.near[y1*w+x1]-g.near[y0*w+x1]-g.near[y1*w+x0]+g.near[y0*w+x0] == 0
}

// untaken reports whether no other number or leader is in a box.
func (g *freeRoom) untaken(b plane.Box) bool {
	for x, y := range g.touched(b) {
		if g.owner[y*g.w+x] == takenCell {
			return false
		}
	}
	return true
}

// take keeps other numbers and leaders out of a box.
func (g *freeRoom) take(b plane.Box) {
	for x, y := range g.touched(b) {
		g.owner[y*g.w+x] = takenCell
	}
}

// within finds a position for the number anywhere in its opening, the nearest to the pilot
// hole, in digits of most at the most.
func (g *freeRoom) within(l plane.Loop, m *pilotMark, most float64, width func(string, float64) float64) {
	b := l.Bounds()
	for _, h := range numberHeights {
		if h > most {
			continue
		}
		w := width(strconv.Itoa(m.number), h)
		best := math.Inf(1)
		for y := b.Min.Y + numberClear; y+h < b.Max.Y; y += g.cell {
			for x := b.Min.X + numberClear; x+w < b.Max.X; x += g.cell {
				is := plane.Box{Min: plane.Pt(x, y), Max: plane.Pt(x+w, y+h)}
				if d := is.Centre().Dist(m.pilot); d < best && g.clear(is) && l.Contains(is.Min) {
					best, m.at, m.height, m.numbered = d, plane.Pt(x+w/2, y), h, true
				}
			}
		}
		if m.numbered {
			return
		}
	}
}

// leadOut finds a position for the number outside its opening, on free metal or beside the
// part, with a straight line to it that crosses no other opening, number or line: the
// largest digits, then the shortest line.
func (g *freeRoom) leadOut(i int, m *pilotMark, width func(string, float64) float64) {
	type ray struct {
		way         plane.Point
		first, last float64 // where it leaves the opening, and where something is in its way
	}
	var rays []ray
	for k := range ledWays {
		r := ray{way: plane.Pt(1, 0).Turn(2 * math.Pi * float64(k) / ledWays), first: -1}
		for d := 0.0; ; d += g.cell / 2 {
			at := g.at(m.pilot.Add(r.way.Mul(d)))
			if at >= 0 && g.owner[at] == int32(i+1) {
				r.first = d
			}
			if at < 0 || r.first >= 0 && d > r.first+ledLong || g.owner[at] != freeCell && g.owner[at] != edgeCell && g.owner[at] != int32(i+1) {
				r.last = d - numberClear
				break
			}
		}
		if r.first >= 0 {
			rays = append(rays, r)
		}
	}
	for _, h := range ledHeights {
		w := width(strconv.Itoa(m.number), h)
		best := math.Inf(1)
		var box plane.Box
		for _, r := range rays {
			for d := r.first + 2*numberClear; d < r.last && d-r.first < best; d += g.cell {
				end := m.pilot.Add(r.way.Mul(d))
				// The line ends at the side of the number that it comes to.
				k := min((w/2+ledGap)/max(math.Abs(r.way.X), 1e-9), (h/2+ledGap)/max(math.Abs(r.way.Y), 1e-9))
				c := end.Add(r.way.Mul(k))
				b := plane.Box{Min: c.Sub(plane.Pt(w/2, h/2)), Max: c.Add(plane.Pt(w/2, h/2))}
				if g.clear(b) && g.untaken(b.Grow(ledApart)) {
					best, box = d-r.first, b
					m.led = plane.Edge{A: m.pilot.Add(r.way.Mul(max(0, r.first-ledInside))), B: end}
					break
				}
			}
		}
		if math.IsInf(best, 1) {
			continue
		}
		m.numbered, m.out, m.height, m.at = true, true, h, plane.Pt(box.Centre().X, box.Min.Y)
		g.take(box)
		for d := ledInside + g.cell; d < m.led.Len(); d += g.cell {
			p := m.led.At(d / m.led.Len())
			g.take(plane.Box{Min: p, Max: p}.Grow(g.cell))
		}
		return
	}
}
