package pattern

import (
	"math"

	"fretband/unroll/plane"
)

// inOneTurn cuts the cells of an area on a band that closes, of the given
// circumference, to the turn about the area's middle: a cell that reaches farther
// would meet cells at the area's other end, come round.
func (e extent) inOneTurn(shapes []plane.Loop, cells []fieldCell, circumference float64) ([]plane.Loop, []fieldCell, error) {
	if circumference == 0 || e.closed {
		return shapes, cells, nil
	}
	half := circumference / 2
	big := 10*(e.w+e.h) + circumference // past any cell that is cut
	turn := plane.Rect(plane.Box{Min: plane.Pt(e.ungraded(-half), -big), Max: plane.Pt(e.ungraded(half), big)})
	if e.tilt != 0 {
		turn = plane.Rect(plane.Box{Min: plane.Pt(-half, -big), Max: plane.Pt(half, big)}).Turn(-e.tilt)
	}
	box := plane.Rect(plane.Box{Min: plane.Pt(-e.w/2, -e.h/2), Max: plane.Pt(e.w/2, e.h/2)})
	inside := func(c fieldCell) bool {
		b := flipped(shapes[c.shape], c.flipX, c.flipY).Move(c.at).Bounds()
		for _, p := range plane.Rect(b) {
			q, _, _ := e.grade(p.Point)
			if x := q.Turn(e.tilt).X; math.Abs(x) > half+onAxis {
				return false
			}
		}
		return true
	}
	out := make([]fieldCell, 0, len(cells))
	for _, c := range cells {
		if inside(c) {
			out = append(out, c)
			continue
		}
		// What lies outside of the area's box would be cut all the same.
		in, err := c.cut(&shapes, box)
		if err != nil {
			return nil, nil, err
		}
		for _, c := range in {
			if inside(c) {
				out = append(out, c)
				continue
			}
			if e.tilt != 0 && (e.along != nil || e.across != nil) {
				continue // the turn's ends are curves here: left solid
			}
			in, err := c.cut(&shapes, turn)
			if err != nil {
				return nil, nil, err
			}
			out = append(out, in...)
		}
	}
	return shapes, out, nil
}

// ungraded returns the place along that the grading takes to x.
func (e extent) ungraded(x float64) float64 {
	if e.along == nil {
		return x
	}
	s := 2 * x / e.w
	if end, slope := e.along.at(math.Copysign(1, s)); math.Abs(s) >= 1 {
		return (math.Copysign(1, s) + (s-end)/slope) * e.w / 2
	}
	lo, hi := -1.0, 1.0
	for range 60 {
		mid := (lo + hi) / 2
		if at, _ := e.along.at(mid); at < s {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2 * e.w / 2
}

// cut returns the parts of a cell within a loop, as cells of shapes that it adds.
func (c fieldCell) cut(shapes *[]plane.Loop, within plane.Loop) ([]fieldCell, error) {
	rest, err := plane.And(plane.Region{flipped((*shapes)[c.shape], c.flipX, c.flipY).Move(c.at)}, plane.Region{within})
	if err != nil {
		return nil, err
	}
	c.flipX, c.flipY = false, false
	var out []fieldCell
	for _, l := range rest {
		if l.Area() >= touch {
			c.shape = len(*shapes)
			*shapes = append(*shapes, l.Move(c.at.Mul(-1)))
			out = append(out, c)
		}
	}
	return out, nil
}
