package app

import (
	"fmt"
	"math"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// leastStretch is the least length of a run that the numbers make, mm.
const leastStretch = 0.5

// AreaText says in words where an area lies.
func AreaText(a pattern.Area) string {
	n := func(v float64) string { return FormatNumber(v, 1) }
	switch a.Shape {
	case "":
		return "whole band"
	case pattern.RunShape:
		return fmt.Sprintf("run %s to %s mm", n(a.FromMM), n(a.ToMM))
	case pattern.StripShape:
		return fmt.Sprintf("strip %s to %s mm", n(a.FromMM), n(a.ToMM))
	case pattern.CircleShape:
		return fmt.Sprintf("circle %s mm", n(a.WidthMM))
	case pattern.PathShape:
		if a.WidthMM == 0 {
			return "own shape"
		}
		return fmt.Sprintf("own shape %s x %s mm", n(a.WidthMM), n(a.HeightMM))
	}
	return fmt.Sprintf("%s %s x %s mm", a.Shape, n(a.WidthMM), n(a.HeightMM))
}

// SetAreaPath makes a drawn outline the area of field i: a shape placed in the
// middle of where the area was, as large as it was drawn.
func SetAreaPath(d *pattern.Design, i int, path string, drawn plane.Box) {
	if i < 0 || i >= len(d.Fields) {
		return
	}
	*d = Clone(*d)
	was := boxOf(*d, d.Fields[i].Area)
	c := was.Centre()
	a := pattern.Area{Shape: pattern.PathShape, Path: path, XMM: halves(c.X), YMM: halves(c.Y), WidthMM: pattern.SizeRange.Clamp(hundredths(drawn.W())), HeightMM: pattern.SizeRange.Clamp(hundredths(drawn.H()))}
	put(d, i, a)
}

// setArea gives field i an area of another shape.
func setArea(d *pattern.Design, i int, shape string) {
	f := &d.Fields[i]
	now := f.Area.Shape
	if shape == now || shape == pattern.PathShape {
		return
	}
	was, band := boxOf(*d, f.Area), bandBox(*d)
	c := was.Centre()
	// What is small stays as it was; what runs the whole length or width is
	// brought to a part of it that shows.
	long, high := was.W(), was.H()
	if long > band.W()*0.9 {
		long = band.W() / 3
	}
	if high > band.H()*0.9 {
		high = band.H() * 0.6
	}
	var a pattern.Area
	switch shape {
	case "":
	case pattern.RunShape:
		a = pattern.Area{Shape: shape, FromMM: halves(c.X - long/2), ToMM: halves(c.X + long/2)}
		a.ToMM = math.Max(a.ToMM, a.FromMM+leastStretch)
	case pattern.StripShape:
		a = pattern.Area{Shape: shape, FromMM: halves(c.Y - high/2), ToMM: halves(c.Y + high/2)}
		a.ToMM = math.Max(a.ToMM, a.FromMM+leastStretch)
	case pattern.CircleShape:
		a = pattern.Area{Shape: shape, XMM: halves(c.X), YMM: halves(c.Y), WidthMM: size(math.Min(long, high))}
	default:
		a = pattern.Area{Shape: shape, XMM: halves(c.X), YMM: halves(c.Y), WidthMM: size(long), HeightMM: size(high)}
		if now == pattern.OvalShape || now == pattern.RectangleShape {
			a.RotationDeg = f.Area.RotationDeg
		}
	}
	put(d, i, a)
}

// put gives field i an area and as many rows and repeats as keep its openings at
// their size.
func put(d *pattern.Design, i int, a pattern.Area) {
	f := &d.Fields[i]
	was, long := boxOf(*d, f.Area), lengthOf(*d, *f)
	f.Area = a
	now := boxOf(*d, a)
	if was.H() > 0 {
		f.Rows = whole(float64(f.Rows)*now.H()/was.H(), pattern.RowsRange)
	}
	if f.PitchMM == 0 && long > 0 {
		f.Repeats = whole(float64(f.Repeats)*lengthOf(*d, *f)/long, pattern.RepeatsRange)
	}
}

// bandBox is the box round the blank, its middle at the origin along it.
func bandBox(d pattern.Design) plane.Box {
	f, err := unroll.Unroll(d.Band)
	if err != nil {
		// What is being typed makes no band yet: any size will do.
		w := d.Band.WidthMM / 2
		return plane.Box{Min: plane.Pt(-4*w, -w), Max: plane.Pt(4*w, w)}
	}
	bottom, top := f.Extent()
	return plane.Box{Min: plane.Pt(-f.Length/2, bottom), Max: plane.Pt(f.Length/2, top)}
}

// boxOf is about the box that an area fills on the blank.
func boxOf(d pattern.Design, a pattern.Area) plane.Box {
	b := bandBox(d)
	switch a.Shape {
	case "":
	case pattern.RunShape:
		b.Min.X, b.Max.X = a.FromMM, a.ToMM
	case pattern.StripShape:
		b.Min.Y, b.Max.Y = a.FromMM, a.ToMM
	default:
		w, h := a.WidthMM, a.HeightMM
		if a.Shape == pattern.CircleShape {
			h = w
		}
		at, half := plane.Pt(a.XMM, a.YMM), plane.Pt(w/2, h/2)
		b = plane.Box{Min: at.Sub(half), Max: at.Add(half)}
	}
	return b
}

// lengthOf is the length that the repeats of a field share.
func lengthOf(d pattern.Design, f pattern.Field) float64 {
	if f.Area.Shape != "" && f.Area.Shape != pattern.StripShape {
		return boxOf(d, f.Area).W()
	}
	long := bandBox(d).W()
	if d.Band.Open() {
		long -= 2*math.Max(d.Rules.RimMM, d.Rules.BridgeMM) - f.Bridge(d.Rules)
	}
	return math.Max(long, 1)
}

func whole(v float64, r pattern.Range) int { return int(r.Clamp(math.Round(v))) }

// halves rounds a position to half a millimetre.
func halves(v float64) float64 { return pattern.PositionRange.Clamp(math.Round(v*2) / 2) }

func size(v float64) float64 { return pattern.SizeRange.Clamp(math.Max(0.5, math.Round(v*2)/2)) }
