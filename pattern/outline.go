package pattern

import (
	"math"

	"fretband/pattern/motif"
	"fretband/pattern/own"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// outline is a closed shape given by its numbers: what areas, reserves and single
// openings have in common.
type outline struct {
	shape         string
	width, height float64
	rotationDeg   float64
	path          string
}

func (a Area) outline() outline {
	return outline{a.Shape, a.WidthMM, a.HeightMM, a.RotationDeg, a.Path}
}
func (r Reserve) outline() outline {
	return outline{r.Shape, r.WidthMM, r.HeightMM, r.RotationDeg, r.Path}
}
func (e Edit) outline() outline {
	return outline{e.Shape, e.WidthMM, e.HeightMM, e.RotationDeg, e.Path}
}

// checkSizes checks which sizes a shape is given.
func (o outline) checkSizes(path string) error {
	switch {
	case o.shape == CircleShape && o.height != 0:
		return &unroll.FieldError{Path: path + ".height_mm", Msg: "a circle has only width_mm, its diameter; leave the height out"}
	case o.shape == PathShape && (o.width == 0) != (o.height == 0):
		return &unroll.FieldError{Path: path + ".height_mm", Msg: "a path is given both width_mm and height_mm, or neither to be as large as it was drawn"}
	}
	return nil
}

// checkPath checks the path data of a shape that is drawn by it.
func (o outline) checkPath(path string) error {
	if o.shape != PathShape {
		return nil
	}
	msg := "is missing; give the path data of one closed curve, in mm"
	if o.path != "" {
		_, err := o.loop(plane.Point{})
		if err == nil {
			return nil
		}
		msg = err.Error()
	}
	return &unroll.FieldError{Path: path + ".path", Msg: msg}
}

// drawn returns the number of edges of a loop that is drawn as a path; others have few.
func (o outline) drawn(l plane.Loop) int {
	if o.shape != PathShape {
		return 0
	}
	return len(l)
}

// loop returns the shape with its middle (of a path, its origin) at c.
func (o outline) loop(c plane.Point) (plane.Loop, error) {
	var l plane.Loop
	switch o.shape {
	case CircleShape:
		l = plane.Circle(plane.Point{}, o.width/2)
	case OvalShape:
		l = motif.Ellipse(o.width/2, o.height/2)
	case RectangleShape:
		h := plane.Pt(o.width/2, o.height/2)
		l = plane.Rect(plane.Box{Min: h.Mul(-1), Max: h})
	default:
		var err error
		if o.width > 0 {
			l, err = own.OutlineSized(o.path, o.width, o.height)
		} else {
			l, err = own.Outline(o.path)
		}
		if err != nil {
			return nil, err
		}
	}
	return l.Turn(o.rotationDeg * math.Pi / 180).Move(c), nil
}
