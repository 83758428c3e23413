package template

import (
	"math"
	"strconv"

	"fretband/unroll/plane"
)

// Strokes on the waste side of a line, mm: ours. In openings narrower than wasteRoom
// they would hide more than they say.
const (
	wasteRoom    = 1.1 // radius of the largest circle inside
	wasteStep    = 1.3
	wasteLong    = 0.45
	outlineStep  = 2.5
	outlineLong  = 0.8
	wasteClear   = 0.2 // from what else is drawn
	wasteCorners = 0.5 // of a stroke's length: how far its end keeps from the line
)

// strokes returns short slanting strokes along a loop, on its left, where they have room.
func strokes(es []plane.Edge, step, long float64, free func(end plane.Point) bool) []plane.Edge {
	all := 0.0
	for _, e := range es {
		all += e.Len()
	}
	n := int(math.Round(all / step))
	if n < 3 {
		return nil
	}
	step = all / float64(n)
	var out []plane.Edge
	next := step / 2
	for _, e := range es {
		l := e.Len()
		for ; next < l; next += step {
			k := next / l
			a, way := e.At(k), e.Tangent(k)
			b := a.Add(way.Left().Add(way).Unit().Mul(long))
			if free(b) {
				out = append(out, plane.Edge{A: a, B: b})
			}
		}
		next -= l
	}
	return out
}

// openingWaste returns the strokes inside an opening, from the position of its pilot hole.
func openingWaste(l plane.Loop, m pilotMark, width func(string, float64) float64) []plane.Edge {
	if m.room < wasteRoom {
		return nil
	}
	number := plane.EmptyBox()
	if m.numbered && !m.out {
		number = m.box(width(strconv.Itoa(m.number), m.height)).Grow(wasteClear)
	}
	pilot := max(m.arm(), m.drill/2) + wasteClear
	es := strokes(l.CCW().Edges(), wasteStep, wasteLong, func(p plane.Point) bool {
		return !number.Contains(p) && p.Dist(m.pilot) > pilot &&
			l.Contains(p) && l.Nearest(p).D > wasteCorners*wasteLong
	})
	for i := range es {
		es[i].A, es[i].B = es[i].A.Sub(m.pilot), es[i].B.Sub(m.pilot)
	}
	return es
}

// outlineWaste returns the strokes outside the outline. A seamless band is not sawn at
// the ends of its drawing.
func (t *template) outlineWaste() []plane.Edge {
	half, seamless, l := t.sheet.Flat.Length/2, t.sheet.Seamless(), t.outline
	return strokes(l.Reverse().Edges(), outlineStep, outlineLong, func(p plane.Point) bool {
		return !l.Contains(p) && l.Nearest(p).D > wasteCorners*outlineLong && !(seamless && math.Abs(p.X) > half)
	})
}
