package unroll

import (
	"math"

	"fretband/unroll/plane"
)

// Flat is a band unrolled: the blank, and all that is needed to bend it back.
//
// The blank lies with its middle (the front of the band) at the origin, x along
// the band, y up. It ends at x = -Length/2 and +Length/2.
type Flat struct {
	Length    float64 // mm, on the neutral surface, along the middle line
	Width     float64 // mm, from the lowest to the highest place of its edges, across the band
	Thickness float64 // mm
	// Outline is the edge of the blank, counter-clockwise.
	Outline plane.Loop
	// Period is Length for a closed band, where x and x+Period are one place,
	// and 0 for an open one. It is 0 too for a closed flared band, whose ends meet
	// by turning, not by moving along; such a band always has a joint.
	Period float64
	// JointStrip is the solid strip, mm, kept at each end of a closed band for
	// its joint; 0 for cuffs and seamless bands.
	JointStrip float64

	// Oval is the inner oval; of a straight-sided oval or a profile, half the box
	// round it; of a flared band, at the middle of the width.
	Oval Oval
	// Inner is the inner circumference, mm, gap and metal together.
	Inner float64
	// Gap, mm, along the inner face and along the neutral surface; 0 if closed.
	GapInner, GapNeutral float64
	// Neutral is the depth, mm, over the inner face, of the surface that the flat
	// shows at its true size: the neutral one, or the face that the drawing of a
	// formed band shows.
	Neutral float64
	// Notes say what was made of ambiguous or derived input, for the reader.
	Notes []string

	way  course // nil if the Flat was made by hand
	edge *edges // nil if the Flat was made by hand
	cone *cone  // nil unless flared
	dome *dome  // nil unless domed

	formed bool // not bent from sheet
}

// Oval is the inner oval: an ellipse with half axis A along the wrist's width
// and B along its height, mm. A == B for a round band.
type Oval struct {
	A, B float64
}

// ThicknessAt returns how thick the band is at the point p of the flat. A formed or a
// domed band has its full thickness all over. Sheet keeps its volume when it is bent:
// the layer at the height h over the neutral surface, of curvature k, becomes 1 + k h
// times as long, so
//
//	t = integral of 1 + k h from -d to t' - d = t' (1 - k d) + k t'^2/2,
//
// d the depth of the neutral surface. With d = t/2 it is t.
func (f Flat) ThicknessAt(p plane.Point) float64 {
	if f.formed || f.dome != nil || f.Neutral == f.Thickness/2 {
		return f.Thickness
	}
	along, _ := f.Stretch(p, f.Neutral+1) // even in h, whatever the band
	k := along - 1
	a := 1 - k*f.Neutral
	return 2 * f.Thickness / (a + math.Sqrt(a*a+2*k*f.Thickness))
}

// Closed reports whether the ends of the blank are one place: they meet by moving along
// or, on a flared band, by turning.
func (f Flat) Closed() bool { return f.Wraps() || f.cone != nil && f.JointStrip > 0 }

// OnStrip returns the flat of a strip that lies on the band: as long as that, with another
// outline. Its map to the bent band is not of the strip.
func (f Flat) OnStrip(long float64, outline plane.Loop) Flat {
	if f.Period > 0 {
		f.Period = long
	}
	f.Length, f.Outline = long, outline
	return f
}

// Wraps reports whether the ends of the blank meet by moving along: those of a closed band
// that is not flared.
func (f Flat) Wraps() bool { return f.Period > 0 }

// Copies returns by how much to move what lies on the blank to where it appears again: not
// at all and, where the blank wraps, once round either way.
func (f Flat) Copies() []plane.Point {
	if !f.Wraps() {
		return []plane.Point{{}}
	}
	return []plane.Point{{}, plane.Pt(-f.Period, 0), plane.Pt(f.Period, 0)}
}

// Rounds returns how many whole times round the band, to the right, x lies from the
// blank: 0 on the blank itself and where it does not wrap.
func (f Flat) Rounds(x float64) float64 {
	if !f.Wraps() {
		return 0
	}
	return math.Round(x / f.Period)
}

// Home returns the x on the blank that is the same position as x.
func (f Flat) Home(x float64) float64 {
	return x - f.Period*f.Rounds(x)
}
