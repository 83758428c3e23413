package unroll

import (
	"fmt"
	"math"

	"fretband/unroll/plane"
)

// Straight reports whether the piece is a straight run, as a new one without any number is
// meant to be; others are arcs.
func (p Piece) Straight() bool { return p.LengthMM != 0 || p.RadiusMM == 0 && p.AngleDeg == 0 }

// PiecesDrawn is a profile as its numbers draw it, closed or not: what a person
// sees while the numbers are being found.
type PiecesDrawn struct {
	// Pieces are the edges of each piece, from the front round the band; the
	// middle of the box round all is the origin, y towards the front.
	Pieces     [][]plane.Edge
	Box        plane.Box
	Length     float64     // mm, along all pieces
	TotalAngle float64     // degrees, of all arcs; 360 for a profile that can close
	Miss       plane.Point // mm, the way from the end to the start
}

// Closes reports whether the profile closes within the tolerances of a design.
func (d PiecesDrawn) Closes() bool {
	return math.Abs(d.TotalAngle-360) <= ClosingAngle && d.Miss.Len() <= ClosingTolerance
}

// DrawPieces draws a profile by its numbers, whether or not a band can have it.
// Pieces without a length are drawn as nothing.
func DrawPieces(ps []Piece) PiecesDrawn {
	b := newBows(loosely(ps), 0)
	d := PiecesDrawn{Box: plane.EmptyBox()}
	for i := range b.list {
		w := &b.list[i]
		es := w.edges(0)
		d.Pieces = append(d.Pieces, es)
		d.Box = d.Box.Union(w.edges(0).Bounds())
		d.Length += w.length
		d.TotalAngle += w.length * w.k * 180 / math.Pi
	}
	if len(b.list) > 0 {
		d.Miss = b.miss()
	}
	return d
}

// loosely makes bows of pieces without asking whether they close.
func loosely(ps []Piece) []bow {
	var out []bow
	for _, p := range ps {
		switch {
		case p.LengthMM > 0:
			out = append(out, bow{length: p.LengthMM})
		case p.RadiusMM > 0 && p.AngleDeg != 0:
			a := p.AngleDeg * math.Pi / 180
			out = append(out, bow{length: p.RadiusMM * math.Abs(a), k: math.Copysign(1/p.RadiusMM, a)})
		default:
			out = append(out, bow{})
		}
	}
	return out
}

// ClosePieces changes the pieces as little as closes them: the angles in
// proportion until they make one turn, then lengths and radii by the least
// squares (see closeBows). most is the greatest change of a piece's length, mm.
// It is an error if a piece would have to turn back.
func ClosePieces(ps []Piece) (out []Piece, most float64, err error) {
	list := loosely(ps)
	var turn float64
	for _, w := range list {
		turn += w.length * w.k
	}
	if len(list) < 2 || !(turn > math.Pi/2) {
		return nil, 0, fmt.Errorf("the arcs turn through %.0f degrees in all; give them more of the 360 that a profile needs", turn*180/math.Pi)
	}
	was := make([]float64, len(list))
	for i := range list {
		was[i] = list[i].length
		if list[i].k != 0 {
			list[i].length *= 2 * math.Pi / turn
		}
	}
	closeBows(list)
	for i, w := range list {
		if !(w.length > was[i]/10) {
			return nil, 0, fmt.Errorf("piece %d would have to turn back: the pieces are too far from a closed profile", i+1)
		}
		most = math.Max(most, math.Abs(w.length-was[i]))
		out = append(out, pieceOf(w))
	}
	return out, most, nil
}

// pieceOf writes a bow with the digits that a person reads; what rounding leaves
// open is far within [ClosingTolerance].
func pieceOf(w bow) Piece {
	digits := func(v float64) float64 { return math.Round(v*1e4) / 1e4 }
	if w.k == 0 {
		return Piece{LengthMM: digits(w.length)}
	}
	return Piece{RadiusMM: digits(math.Abs(1 / w.k)), AngleDeg: digits(w.length * w.k * 180 / math.Pi)}
}

// closeBows changes lengths and radii so that the bows close, and returns by how
// much at most, mm. Their angles make one turn already. Each piece's way D goes
// as its length as long as the angles stay; of all changes that close the
// profile, D (1 + a.D) changes the ways least.
func closeBows(out []bow) (changed float64) {
	for range 3 {
		b := newBows(out, 0)
		var xx, xy, yy float64
		var sum plane.Point
		ways := make([]plane.Point, len(out))
		for i := range b.list {
			d := b.list[i].inner(b.list[i].length).Sub(b.list[i].from)
			ways[i] = d
			sum = sum.Add(d)
			xx, xy, yy = xx+d.X*d.X, xy+d.X*d.Y, yy+d.Y*d.Y
		}
		a := sum.Mul(-1 / (xx + yy)) // where all ways lie in one line
		if det := xx*yy - xy*xy; det > 1e-9*(xx+yy)*(xx+yy) {
			a = plane.Pt(-(yy*sum.X-xy*sum.Y)/det, -(xx*sum.Y-xy*sum.X)/det)
		}
		for i := range out {
			grow := 1 + a.Dot(ways[i])
			changed = math.Max(changed, math.Abs(out[i].length*(grow-1)))
			out[i].length *= grow
			out[i].k /= grow
		}
	}
	return changed
}

// PiecesOf returns an oval of four arcs with the axes and the circumference of an
// ellipse, as pieces from the front round; two half circles for a round one.
//
// With the half axes a (the longer) and b, an end radius r and a side radius R
// meet without a corner where the line through their centres, (a-r, 0) and
// (0, b-R), meets both arcs: (R-r)^2 = (a-r)^2 + (R-b)^2, so
// R = (a^2 + b^2 - 2 a r) / (2 (b-r)). r is found by the circumference.
func PiecesOf(o Oval) []Piece {
	a, b := math.Max(o.A, o.B), math.Min(o.A, o.B)
	if a-b < 1e-3 {
		return []Piece{pieceOf(bow{length: math.Pi * a, k: 1 / a}), pieceOf(bow{length: math.Pi * a, k: 1 / a})}
	}
	side := func(r float64) (big, half float64) { // R, and the angle of the half side
		big = (a*a + b*b - 2*a*r) / (2 * (b - r))
		return big, math.Atan2(a-r, big-b)
	}
	around := o.Circumference()
	// The fuller the ends, the longer the way round.
	lo, hi := plane.Halve(0, b*(1-1e-9), 100, func(r float64) bool {
		big, half := side(r)
		return 4*(big*half+r*(math.Pi/2-half)) < around
	})
	r := (lo + hi) / 2
	big, half := side(r)
	flat, end := bow{length: big * half, k: 1 / big}, bow{length: r * (math.Pi/2 - half), k: 1 / r}
	twice := func(w bow) bow { w.length *= 2; return w }
	list := []bow{flat, twice(end), twice(flat), twice(end), flat}
	if o.B > o.A {
		list = []bow{end, twice(flat), twice(end), twice(flat), end}
	}
	return piecesOf(list)
}

func piecesOf(list []bow) []Piece {
	var ps []Piece
	for _, w := range list {
		ps = append(ps, pieceOf(w))
	}
	return ps
}

// PiecesOfSides returns a straight-sided oval of the given axes as pieces.
func PiecesOfSides(width, height float64) []Piece {
	if list := sidesOf(width, height); len(list) > 1 {
		return piecesOf(list)
	}
	return PiecesOf(Oval{width / 2, height / 2})
}

// DomeRise returns how far the middle of an arc of the given length and radius
// stands above its ends, mm.
func DomeRise(width, radius float64) float64 { return (&dome{r: radius}).in(width / 2) }

// tightestDome returns the least radius that an arc of the given length may have, mm.
func tightestDome(width float64) float64 {
	return math.Max(MinDome, width/2/(MaxDomeAngle*math.Pi/180))
}

// DomeRadius returns the radius of the arc of the given length that rises so
// far, mm, held to what a dome may have.
func DomeRadius(width, rise float64) float64 {
	lo, hi := plane.Halve(tightestDome(width), MaxDome, 100, func(r float64) bool { return DomeRise(width, r) > rise })
	return (lo + hi) / 2
}
