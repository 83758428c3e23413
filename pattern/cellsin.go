package pattern

import (
	"math"

	"fretband/pattern/motif"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// inOnePeriod cuts the cells of an area on a closed band to the period about the area's
// middle: a cell that reaches farther would meet cells at the area's other end, come
// round.
func (e extent) inOnePeriod(shapes []plane.Loop, cells []fieldCell, flat unroll.Flat) ([]plane.Loop, []fieldCell, error) {
	if !flat.Wraps() || e.closed {
		return shapes, cells, nil
	}
	half := flat.Length / 2
	big := 10*(e.w+e.h) + flat.Length // past any cell that is cut
	period := plane.Rect(plane.Box{Min: plane.Pt(e.ungraded(plane.Pt(-half, 0)).X, -big), Max: plane.Pt(e.ungraded(plane.Pt(half, 0)).X, big)})
	if e.tilt != 0 {
		period = plane.Rect(plane.Box{Min: plane.Pt(-half, -big), Max: plane.Pt(half, big)}).Turn(-e.tilt)
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
				continue // the period's ends are curves here: left solid
			}
			in, err := c.cut(&shapes, period)
			if err != nil {
				return nil, nil, err
			}
			out = append(out, in...)
		}
	}
	return shapes, out, nil
}

// within cuts the cells of a field to the box, given as positions after grading.
func (e extent) within(box plane.Box, shapes []plane.Loop, cells []fieldCell) ([]plane.Loop, []fieldCell, error) {
	if math.IsInf(box.W(), 1) {
		return shapes, cells, nil
	}
	box.Min, box.Max = e.ungraded(box.Min), e.ungraded(box.Max)
	out := make([]fieldCell, 0, len(cells))
	for _, c := range cells {
		in, err := c.within(box, &shapes)
		if err != nil {
			return nil, nil, err
		}
		out = append(out, in...)
	}
	return shapes, out, nil
}

// tilingWithin cuts the cells of a tiling to the box.
func tilingWithin(t motif.Tiling, box plane.Box) (motif.Tiling, error) {
	if math.IsInf(box.W(), 1) {
		return t, nil
	}
	places := make([]motif.Cell, 0, len(t.Cells))
	for _, p := range t.Cells {
		in, err := fieldCell{shape: p.Shape, at: p.At, row: p.Row, col: p.Col}.within(box, &t.Shapes)
		if err != nil {
			return t, err
		}
		for _, c := range in {
			places = append(places, motif.Cell{Shape: c.shape, At: c.at, Row: c.row, Col: c.col})
		}
	}
	t.Cells = places
	return t, nil
}

// ungraded returns the position that the grading takes to p.
func (e extent) ungraded(p plane.Point) plane.Point {
	if e.along != nil {
		p.X = e.along.from(2*p.X/e.w) * e.w / 2
	}
	if e.across != nil {
		p.Y = e.across.from(2*p.Y/e.h) * e.h / 2
	}
	return p
}

// within returns the parts of a cell in a box: itself if it reaches nowhere out of it,
// else cells of shapes that it adds, each about its own middle.
func (c fieldCell) within(box plane.Box, shapes *[]plane.Loop) ([]fieldCell, error) {
	b := flipped((*shapes)[c.shape], c.flipX, c.flipY).Move(c.at).Bounds()
	if box.Contains(b.Min) && box.Contains(b.Max) {
		return []fieldCell{c}, nil
	}
	b = b.Grow(1)
	b.Min = plane.Pt(math.Max(b.Min.X, box.Min.X), math.Max(b.Min.Y, box.Min.Y))
	b.Max = plane.Pt(math.Min(b.Max.X, box.Max.X), math.Min(b.Max.Y, box.Max.Y))
	if b.W() < touch || b.H() < touch {
		return nil, nil
	}
	in, err := c.cut(shapes, plane.Rect(b))
	for i := range in {
		l := &(*shapes)[in[i].shape]
		middle := l.Bounds().Centre()
		*l, in[i].at = l.Move(middle.Mul(-1)), in[i].at.Add(middle)
	}
	return in, err
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
