package unroll

import "fretband/unroll/plane"

// Flat is a band unrolled: the blank, and all that is needed to bend it back.
//
// The blank lies with its middle (the front of the band) at the origin, x along
// the band, y up. It ends at x = -Length/2 and +Length/2.
type Flat struct {
	Length    float64 // mm, on the neutral surface
	Width     float64 // mm, the greatest width
	Thickness float64 // mm
	// Outline is the edge of the blank, counter-clockwise.
	Outline plane.Loop
	// Period is Length for a closed band, where x and x+Period are one place,
	// and 0 for an open one.
	Period float64
	// JointKeep is the solid strip, mm, kept at each end of a closed band for
	// its joint; 0 for cuffs and seamless bands.
	JointKeep float64

	Oval Oval // the inner oval
	// Gap, mm, along the inner face and along the neutral surface; 0 if closed.
	GapInner, GapNeutral float64
	// Neutral is the depth, mm, of the neutral surface under the inner face.
	Neutral float64
	// Notes say what was made of ambiguous or derived input, for the reader.
	Notes []string

	line     *neutralLine
	mid, end float64 // width at the middle and at the ends, mm
}

// Oval is the inner oval: an ellipse with half axis A along the wrist's width
// and B along its height, mm. A == B for a round band.
type Oval struct {
	A, B float64
}
