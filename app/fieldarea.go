package app

import (
	"fmt"
	"math"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// wholeBand stands in a choice for an area without a shape.
const wholeBand = "whole"

// AreaChoice chooses the shape of the area of field i. What is chosen stands where
// the old one stood, and the openings keep their size. A drawn path is not among
// the options until there is one: it comes from a drawing ([SetAreaPath]).
func AreaChoice(i int) Choice {
	return Choice{
		Path: fieldPath(i, "area.shape"), Title: "Area", Tip: "Where the field lies. A run is a piece of the length, a strip a piece of the width.",
		Options: func(d pattern.Design) []Option {
			os := []Option{{wholeBand, "Whole band"}, {pattern.RunShape, "Run along the band"}, {pattern.StripShape, "Strip across it"},
				{pattern.CircleShape, "Circle"}, {pattern.OvalShape, "Oval"}, {pattern.RectangleShape, "Rectangle"}}
			if i < len(d.Fields) && d.Fields[i].Area.Shape == pattern.PathShape {
				os = append(os, Option{pattern.PathShape, "Your own shape"})
			}
			return os
		},
		Get: func(d pattern.Design) string {
			if i >= len(d.Fields) || d.Fields[i].Area.Shape == "" {
				return wholeBand
			}
			return d.Fields[i].Area.Shape
		},
		Set: func(d *pattern.Design, key string) {
			if i < len(d.Fields) {
				*d = Clone(*d)
				setArea(d, i, key)
			}
		},
		Shown: func(d pattern.Design) bool { return i < len(d.Fields) },
	}
}

// AreaNumbers are the numbers of the area of field i, those that its shape has.
func AreaNumbers(i int) []Number {
	shapes := func(ss ...string) func(pattern.Design, pattern.Field) bool {
		return func(_ pattern.Design, f pattern.Field) bool {
			for _, s := range ss {
				if f.Area.Shape == s {
					return true
				}
			}
			return false
		}
	}
	num := func(name, title, unit, tip string, r pattern.Range, step float64, at func(*pattern.Area) *float64, shown func(pattern.Design, pattern.Field) bool) Number {
		return ofField(i, Number{Path: "area." + name, Title: title, Unit: unit, Tip: tip, Min: r.Min, Max: r.Max, Step: step, Places: 2},
			func(f pattern.Field) float64 { return *at(&f.Area) },
			func(f *pattern.Field, v float64) { *at(&f.Area) = v }, shown)
	}
	from := num("from_mm", "From", "mm", "Where it begins, from the middle of the blank: along a run negative is left, across a strip it is below.",
		pattern.PlaceRange, 0.5, func(a *pattern.Area) *float64 { return &a.FromMM }, shapes(pattern.RunShape, pattern.StripShape))
	from.Set = fieldSet(i, func(f *pattern.Field, v float64) {
		f.Area.FromMM = math.Min(v, pattern.PlaceRange.Max-leastStretch)
		f.Area.ToMM = math.Max(f.Area.ToMM, f.Area.FromMM+leastStretch)
	})
	to := num("to_mm", "To", "mm", "Where it ends, from the middle of the blank.",
		pattern.PlaceRange, 0.5, func(a *pattern.Area) *float64 { return &a.ToMM }, shapes(pattern.RunShape, pattern.StripShape))
	to.Set = fieldSet(i, func(f *pattern.Field, v float64) {
		f.Area.ToMM = math.Max(v, pattern.PlaceRange.Min+leastStretch)
		f.Area.FromMM = math.Min(f.Area.FromMM, f.Area.ToMM-leastStretch)
	})
	standing := shapes(pattern.CircleShape, pattern.OvalShape, pattern.RectangleShape, pattern.PathShape)
	height := func(a *pattern.Area) *float64 { return &a.HeightMM }
	width := func(a *pattern.Area) *float64 { return &a.WidthMM }
	drawn := func(name, title, tip string, at func(*pattern.Area) *float64) Number {
		return num(name, title, "mm", tip, pattern.SizeRange, 0.5, at, func(_ pattern.Design, f pattern.Field) bool {
			return f.Area.Shape == pattern.PathShape && f.Area.WidthMM > 0
		})
	}
	return []Number{
		from, to,
		num("x_mm", "Along", "mm", "Of its middle, from the middle of the blank to the right.", pattern.PlaceRange, 0.5, func(a *pattern.Area) *float64 { return &a.XMM }, standing),
		num("y_mm", "Across", "mm", "Of its middle, from the middle of the blank upwards.", pattern.PlaceRange, 0.5, func(a *pattern.Area) *float64 { return &a.YMM }, standing),
		num("width_mm", "Diameter", "mm", "Of the circle.", pattern.SizeRange, 0.5, width, shapes(pattern.CircleShape)),
		num("width_mm", "Length", "mm", "Along the band, before it is turned.", pattern.SizeRange, 0.5, width, shapes(pattern.OvalShape, pattern.RectangleShape)),
		drawn("width_mm", "Length", "Along the band, before it is turned: the shape is stretched to it.", width),
		num("height_mm", "Height", "mm", "Across the band, before it is turned.", pattern.SizeRange, 0.5, height, shapes(pattern.OvalShape, pattern.RectangleShape)),
		drawn("height_mm", "Height", "Across the band, before it is turned: the shape is stretched to it.", height),
		num("turn_deg", "Turned by", "\u00b0", "Anticlockwise, about its middle. The rows inside keep their direction.", pattern.TurnRange, 5, func(a *pattern.Area) *float64 { return &a.TurnDeg },
			shapes(pattern.OvalShape, pattern.RectangleShape, pattern.PathShape)),
	}
}

// leastStretch is the least length of a run that the numbers make, mm.
const leastStretch = 0.5

func fieldSet(i int, set func(*pattern.Field, float64)) func(*pattern.Design, float64) {
	return func(d *pattern.Design, v float64) {
		if i < len(d.Fields) {
			*d = Clone(*d)
			set(&d.Fields[i], v)
		}
	}
}

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

// SetAreaPath makes a drawn outline the area of field i: a shape to stand in the
// middle of where the area was, as large as it was drawn.
func SetAreaPath(d *pattern.Design, i int, path string, drawn plane.Box) {
	if i < 0 || i >= len(d.Fields) {
		return
	}
	*d = Clone(*d)
	was := boxOf(*d, d.Fields[i].Area)
	c := was.Centre()
	a := pattern.Area{Shape: pattern.PathShape, Path: path, XMM: halves(c.X), YMM: halves(c.Y), WidthMM: held(round2(drawn.W()), pattern.SizeRange), HeightMM: held(round2(drawn.H()), pattern.SizeRange)}
	put(d, i, was, a)
}

// setArea gives field i an area of another shape.
func setArea(d *pattern.Design, i int, shape string) {
	f := &d.Fields[i]
	now := f.Area.Shape
	if now == "" {
		now = wholeBand
	}
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
	case wholeBand:
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
			a.TurnDeg = f.Area.TurnDeg
		}
	}
	put(d, i, was, a)
}

// put gives field i an area and as many rows and repeats as keep its openings at
// their size.
func put(d *pattern.Design, i int, was plane.Box, a pattern.Area) {
	f := &d.Fields[i]
	long := lengthOf(*d, *f)
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
		// Something is being typed that makes no band: any size will do.
		w := d.Band.WidthMM / 2
		return plane.Box{Min: plane.Pt(-4*w, -w), Max: plane.Pt(4*w, w)}
	}
	bottom, top := f.Reach()
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

// lengthOf is the length along which the repeats of a field stand.
func lengthOf(d pattern.Design, f pattern.Field) float64 {
	if f.Area.Shape != "" && f.Area.Shape != pattern.StripShape {
		return boxOf(d, f.Area).W()
	}
	long := bandBox(d).W()
	if d.Band.Kind == unroll.Cuff {
		long -= 2*math.Max(d.Rules.RimMM, d.Rules.BridgeMM) - f.Bridge(d.Rules)
	}
	return math.Max(long, 1)
}

func held(v float64, r pattern.Range) float64 { return math.Max(r.Min, math.Min(r.Max, v)) }

func whole(v float64, r pattern.Range) int { return int(held(math.Round(v), r)) }

// halves rounds a place to half a millimetre.
func halves(v float64) float64 { return held(math.Round(v*2)/2, pattern.PlaceRange) }

func size(v float64) float64 { return held(math.Max(0.5, math.Round(v*2)/2), pattern.SizeRange) }
