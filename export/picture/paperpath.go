package picture

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"fretband/export"
	"fretband/unroll/plane"
)

// paperStep is finer than a printer of 1200 dots to the inch can show (0.02 mm).
const paperStep = 0.01

// OnPaper carries edges to paper in steps of what can be seen there: an arc of a few
// steps becomes chords, and what is smaller than a step goes.
func OnPaper(es []plane.Edge, k float64) []plane.Edge {
	if len(es) == 0 {
		return nil
	}
	step := func(p plane.Point) plane.Point {
		return plane.Pt(math.Round(p.X*k/paperStep)*paperStep, math.Round(p.Y*k/paperStep)*paperStep)
	}
	var out []plane.Edge
	at := step(es[0].A)
	add := func(p plane.Point, bulge float64) {
		if p = step(p); p != at {
			out = append(out, plane.Edge{A: at, B: p, Bulge: bulge})
			at = p
		}
	}
	for _, e := range es {
		if e.Bulge == 0 {
			add(e.B, 0)
			continue
		}
		const few = 4 // chords take no more room in a file than an arc does
		if pts := e.Flatten(paperStep / k); len(pts) <= few+1 {
			for _, p := range pts[1:] {
				add(p, 0)
			}
			continue
		}
		// Arcs of a quarter turn at most: of one near half a turn a step at its ends
		// would move the middle far.
		n := math.Ceil(math.Abs(e.Sweep()) / (math.Pi / 2))
		for i := 1.0; i <= n; i++ {
			part := e.Part((i-1)/n, i/n)
			add(part.B, part.Bulge)
		}
	}
	return out
}

func Steps(v float64) int { return int(math.Round(v / paperStep)) }

// StepPath writes edges that are given on paper as relative path data (SVG 1.1, 8.3) in
// whole steps, y down from the top of the box.
func StepPath(w io.Writer, es []plane.Edge, closed bool, box plane.Box) {
	at := func(p plane.Point) (int, int) { return Steps(p.X - box.Min.X), Steps(box.Max.Y - p.Y) }
	var b strings.Builder
	x, y := at(es[0].A)
	fmt.Fprintf(&b, "M%d%s", x, signed(y))
	letter := byte(0)
	for i, e := range es {
		nx, ny := at(e.B)
		dx, dy := nx-x, ny-y
		x, y = nx, ny
		if e.Bulge == 0 {
			if closed && i == len(es)-1 {
				break
			}
			if letter != 'l' {
				b.WriteByte('l')
				b.WriteString(strconv.Itoa(dx))
			} else {
				b.WriteString(signed(dx))
			}
			letter = 'l'
			b.WriteString(signed(dy))
			continue
		}
		// The radius belongs to the ends as written.
		r := math.Hypot(float64(dx), float64(dy)) * (1 + e.Bulge*e.Bulge) / (4 * math.Abs(e.Bulge))
		sweep := 0
		if e.Bulge < 0 { // clockwise with y up is clockwise to the eye with y down
			sweep = 1
		}
		fmt.Fprintf(&b, "a%s %[1]s 0 0 %d %d%s", export.Decimal(r, 2), sweep, dx, signed(dy))
		letter = 'a'
	}
	if closed {
		b.WriteByte('z')
	}
	io.WriteString(w, b.String())
}

// signed writes a number after another: a minus sign parts them, else a space.
func signed(v int) string {
	if v < 0 {
		return strconv.Itoa(v)
	}
	return " " + strconv.Itoa(v)
}
