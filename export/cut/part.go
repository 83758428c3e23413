package cut

import (
	"fmt"
	"strings"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// part is what a cut file draws: the lines that the middle of the beam or blade
// follows, in the blank's own frame, and those that are engraved.
type part struct {
	outline  plane.Region
	openings []hole
	engraved []engraved // not cut
}

// hole is one closed line to cut inside the outline.
type hole struct {
	number int
	loop   plane.Loop
}

// KerfError names the openings that a cut of the given width can't make: they
// are nowhere as wide as the kerf, or narrower than it at a neck, so that the
// beam would not come through in one closed line.
type KerfError struct {
	KerfMM   float64
	Openings []int
}

func (e *KerfError) Error() string {
	const most = 8
	var b strings.Builder
	for i, n := range e.Openings {
		if i == most {
			fmt.Fprintf(&b, " and %d more", len(e.Openings)-most)
			break
		}
		if i > 0 {
			b.WriteString(",")
		}
		fmt.Fprintf(&b, " %d", n)
	}
	which := "opening"
	if len(e.Openings) > 1 {
		which = "openings"
	}
	return pattern.Say("kerf %g mm: wider than the opening in some place, %s%s: "+
		"set a smaller kerf or make the smallest opening larger", e.KerfMM, which, b.String())
}

// newPart returns the part as drawn with the kerf allowed for: the outline grows
// and openings shrink by half of it, so that the finished edges come where the
// design has them. What that leaves too short to be cut is taken out
// ([plane.Loop.Cuttable]).
func newPart(s *pattern.Sheet, r *check.Report, kerf float64) (part, error) {
	if r.Pieces > 1 {
		return part{}, fmt.Errorf("%d pieces: %w", r.Pieces, export.ErrPieces)
	}
	outline, err := cutOutline(s, kerf)
	if err != nil {
		return part{}, err
	}
	p := part{outline: outline, engraved: engravings(s)}
	var lost []int
	// Openings of one shape are shrunk once and moved into place.
	type shrunk struct {
		loop plane.Loop
		at   plane.Point
		ok   bool
	}
	shapes := map[int]shrunk{}
	for _, o := range s.Openings {
		l := o.Loop.CCW()
		if kerf > 0 {
			in, seen := shapes[o.Shape]
			if !seen || o.Shape < 0 {
				cut := l.Inset(kerf / 2)
				in = shrunk{at: o.At}
				if len(cut) == 1 {
					in.loop, in.ok = cut[0].Cuttable()
				}
				shapes[o.Shape] = in
			}
			if !in.ok {
				lost = append(lost, o.Number)
				continue
			}
			l = in.loop.Move(o.At.Sub(in.at))
		}
		p.openings = append(p.openings, hole{o.Number, l})
	}
	if lost != nil {
		return part{}, &KerfError{kerf, lost}
	}
	return p, nil
}

// cutOutline returns the outline of a part with the kerf allowed for.
func cutOutline(s *pattern.Sheet, kerf float64) (plane.Region, error) {
	outline := plane.Region{s.Flat.Outline.CCW()}
	if kerf == 0 {
		return outline, nil
	}
	outline, err := grow(s, outline, kerf/2)
	if err != nil {
		return nil, err
	}
	for i, l := range outline {
		if c, ok := l.CuttableAround(); ok {
			outline[i] = c
		}
	}
	return outline, nil
}

// grow returns the outline moved out by d. A seamless band is not cut at its
// ends, and the drawing's length stays once round it.
func grow(s *pattern.Sheet, outline plane.Region, d float64) (plane.Region, error) {
	grown := outline.Offset(d)
	if !s.Seamless() {
		return grown, nil
	}
	b := grown.Bounds().Grow(1)
	b.Min.X, b.Max.X = -s.Flat.Length/2, s.Flat.Length/2
	kept, err := plane.And(grown, plane.Region{plane.Rect(b)})
	if err != nil {
		return nil, &unroll.ProgramError{What: fmt.Sprintf("kerf of the outline: %v", err)}
	}
	return kept, nil
}
