package export

import (
	"fmt"
	"strings"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// part is what a cut file draws: the lines that the middle of the beam or blade
// follows, in the blank's own frame.
type part struct {
	outline  plane.Region
	openings []hole
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
	return fmt.Sprintf("kerf %g mm: wider than the opening in some place, opening%s: "+
		"set a smaller kerf or make the smallest opening larger", e.KerfMM, b.String())
}

// newPart returns the part as drawn with the kerf allowed for: the outline grows
// and openings shrink by half of it, so that the finished edges come where the
// design has them.
func newPart(s *pattern.Sheet, r *check.Report, kerf float64) (part, error) {
	if r.Pieces > 1 {
		return part{}, fmt.Errorf("%d pieces: %w", r.Pieces, ErrPieces)
	}
	p := part{outline: plane.Region{s.Flat.Outline.CCW()}}
	if kerf > 0 {
		p.outline = p.outline.Offset(kerf / 2)
	}
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
				in = shrunk{at: o.At, ok: len(cut) == 1}
				if in.ok {
					in.loop = cut[0].CCW()
				}
				if o.Shape >= 0 {
					shapes[o.Shape] = in
				}
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

// bounds returns the smallest box round all lines of the part.
func (p part) bounds() plane.Box {
	b := p.outline.Bounds()
	for _, h := range p.openings {
		b = b.Union(h.loop.Bounds())
	}
	return b
}

// overEnds reports whether an opening runs past an end of the blank, as it may
// on a seamless band, where both ends are one place.
func overEnds(s *pattern.Sheet) bool {
	if s.Flat.Period == 0 {
		return false
	}
	for _, o := range s.Openings {
		b := o.Loop.Bounds()
		if b.Min.X < -s.Flat.Length/2 || b.Max.X > s.Flat.Length/2 {
			return true
		}
	}
	return false
}
