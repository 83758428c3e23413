package unroll

import (
	"fmt"
	"math"
	"sort"

	"fretband/unroll/plane"
)

// Piece is one part of an inner profile: a straight run of LengthMM, or an arc
// of RadiusMM through AngleDeg. A positive angle bends round the wrist, as most
// of a band does; a negative one bends the other way.
type Piece struct {
	LengthMM float64 `json:"length_mm,omitempty"`
	RadiusMM float64 `json:"radius_mm,omitempty"`
	AngleDeg float64 `json:"angle_deg,omitempty"`
}

// bows is a [course] of straight runs and arcs that run into each other without
// corners. Everything about it is a closed form: the parallel curve of a line is
// a line, that of an arc an arc through the same angle, so along a piece the
// length on the neutral surface goes as the length on the inner face.
type bows struct {
	d    float64 // depth of the surface that keeps its length
	list []bow
}

// bow is one line (k = 0) or arc of the inner face.
type bow struct {
	from    plane.Point
	heading float64 // direction at from, radians
	length  float64 // along the inner face
	k       float64 // curvature of the inner face, 1/mm
	x, long float64 // where it begins on, and its length along, the neutral surface
}

// ClosingTolerance is how far the end of a profile may be from its start, mm,
// and ClosingAngle by how much its angles may miss a whole turn, degrees. What
// is missing within them is shared out among the pieces.
const (
	ClosingTolerance = 0.05
	ClosingAngle     = 0.05
)

// newBows returns the course of the pieces, which begin at the front and run
// towards -X. The middle of the box round it is the origin.
func newBows(ps []bow, d float64) *bows {
	b := &bows{d: d, list: append([]bow(nil), ps...)}
	at, heading, x := plane.Point{}, math.Pi, 0.0
	box := plane.EmptyBox()
	for i := range b.list {
		w := &b.list[i]
		w.from, w.heading, w.x = at, heading, x
		w.long = w.length * (1 + d*w.k)
		box = box.Union(w.edges(0).Bounds())
		at, heading, x = w.inner(w.length), heading+w.k*w.length, x+w.long
	}
	mid := box.Centre()
	for i := range b.list {
		b.list[i].from = b.list[i].from.Sub(mid)
	}
	return b
}

// inner returns the point of the inner face at the length s along the bow.
func (w *bow) inner(s float64) plane.Point {
	// The chord of an arc is half its angle off the tangent.
	half := w.k * s / 2
	chord := s
	if half != 0 {
		chord = s * math.Sin(half) / half
	}
	sin, cos := math.Sincos(w.heading + half)
	return plane.Pt(w.from.X+chord*cos, w.from.Y+chord*sin)
}

// edges returns the bow at the depth d as edges of at most a quarter turn.
func (w *bow) edges(d float64) plane.Chain {
	n := max(1, int(math.Ceil(math.Abs(w.k*w.length)/(math.Pi/2)-1e-9)))
	at := func(i int) plane.Point {
		s := w.length * float64(i) / float64(n)
		sin, cos := math.Sincos(w.heading + w.k*s)
		return w.inner(s).Add(plane.Pt(sin, -cos).Mul(d)) // outwards is to the right
	}
	es := make(plane.Chain, n)
	for i := range es {
		es[i] = plane.Edge{A: at(i), B: at(i + 1), Bulge: math.Tan(w.k * w.length / float64(n) / 4)}
	}
	return es
}

func (b *bows) around() float64 {
	last := b.list[len(b.list)-1]
	return last.x + last.long
}

// circumference returns the length of the inner face.
func (b *bows) circumference() float64 {
	var sum float64
	for _, w := range b.list {
		sum += w.length
	}
	return sum
}

func (b *bows) station(x float64) (inner, normal plane.Point, curvature float64) {
	w, x := b.at(x)
	s := (x - w.x) / (1 + b.d*w.k)
	sin, cos := math.Sincos(w.heading + w.k*s)
	return w.inner(s), plane.Pt(sin, -cos), w.k // outwards is to the right
}

func (b *bows) curvature(x float64) float64 {
	w, _ := b.at(x)
	return w.k
}

// at returns the bow at x, and x brought to the first time round.
func (b *bows) at(x float64) (*bow, float64) {
	whole := b.around()
	x -= whole * math.Floor(x/whole)
	i := max(sort.Search(len(b.list), func(i int) bool { return b.list[i].x > x })-1, 0)
	return &b.list[i], x
}

func (b *bows) foot(p plane.Point) float64 {
	best, x := math.Inf(1), 0.0
	for i := range b.list {
		w := &b.list[i]
		s := w.foot(p)
		if d := w.inner(s).Dist(p); d < best {
			best, x = d, w.x+s*(1+b.d*w.k)
		}
	}
	if whole := b.around(); x > whole/2 {
		x -= whole
	}
	return x
}

// foot returns the length along the bow, within it, of its point next to p.
func (w *bow) foot(p plane.Point) float64 {
	sin, cos := math.Sincos(w.heading)
	v := p.Sub(w.from)
	if w.k == 0 {
		return math.Max(0, math.Min(v.X*cos+v.Y*sin, w.length))
	}
	// From the centre, which is to the left of the way for k > 0.
	c := plane.Pt(-sin, cos).Mul(1 / w.k)
	r := v.Sub(c)
	a := math.Atan2(c.Mul(-1).Cross(r), c.Mul(-1).Dot(r)) // turned since from
	s := a / w.k
	round := 2 * math.Pi / math.Abs(w.k)
	if s < 0 && (s+round)-w.length < -s { // past half a turn, or nearer to the far end
		s += round
	}
	return math.Max(0, math.Min(s, w.length))
}

// innerTo returns the length along the inner face from the front to x, 0 to
// around.
func (b *bows) innerTo(x float64) float64 {
	var s float64
	for _, w := range b.list {
		if x <= w.x+w.long {
			return s + math.Max(0, x-w.x)/(1+b.d*w.k)
		}
		s += w.length
	}
	return s
}

func (b *bows) end(gap float64) float64 {
	half := b.around() / 2
	if gap == 0 {
		return half
	}
	lo, hi := plane.Halve(0, half, 200, func(h float64) bool { return b.innerTo(half+h)-b.innerTo(half-h) < gap })
	return half - (lo+hi)/2
}

func (b *bows) breaks() []float64 {
	var xs []float64
	for i, w := range b.list {
		before := b.list[(i+len(b.list)-1)%len(b.list)]
		if math.Abs(w.k-before.k) > 1e-12 {
			xs = append(xs, w.x)
		}
	}
	return xs
}

func (b *bows) leastRadius() float64 {
	r := math.Inf(1)
	for _, w := range b.list {
		if w.k != 0 {
			r = math.Min(r, math.Abs(1/w.k))
		}
	}
	return r
}

// box returns the smallest box round the inner face.
func (b *bows) box() plane.Box {
	box := plane.EmptyBox()
	for i := range b.list {
		box = box.Union(b.list[i].edges(0).Bounds())
	}
	return box
}

// sidesOf returns the pieces of a straight-sided oval: two half circles as wide
// as the shorter axis and two straight runs between them.
func sidesOf(w, h float64) []bow {
	line := func(l float64) bow { return bow{length: l} }
	arc := func(r, a float64) bow { return bow{length: r * a, k: 1 / r} }
	switch {
	case w > h:
		return []bow{line((w - h) / 2), arc(h/2, math.Pi), line(w - h), arc(h/2, math.Pi), line((w - h) / 2)}
	case h > w:
		return []bow{arc(w/2, math.Pi/2), line(h - w), arc(w/2, math.Pi), line(h - w), arc(w/2, math.Pi/2)}
	}
	return []bow{arc(w/2, 2*math.Pi)}
}

// profileOf returns the pieces of a profile given by its numbers, brought to
// close exactly, and by how much they had to be changed, mm.
func profileOf(ps []Piece) (out []bow, changed float64, err error) {
	const path = "band.inside.profile"
	fail := func(path, format string, args ...any) ([]bow, float64, error) {
		return nil, 0, &FieldError{path, fmt.Sprintf(format, args...)}
	}
	if len(ps) < 2 || len(ps) > MaxPieces {
		return fail(path, "must list 2 to %d pieces, from the front round the band: {\"length_mm\": 20} for a straight run, {\"radius_mm\": 20, \"angle_deg\": 90} for an arc; there are %d", MaxPieces, len(ps))
	}
	var turn float64
	for i, p := range ps {
		at := fmt.Sprintf("%s[%d]", path, i)
		switch {
		case p.LengthMM != 0 && (p.RadiusMM != 0 || p.AngleDeg != 0):
			return fail(at, "give either length_mm, for a straight run, or radius_mm and angle_deg, for an arc, not both")
		case p.LengthMM != 0:
			if err := within(at+".length_mm", p.LengthMM, MinPiece, MaxInside, "mm"); err != nil {
				return nil, 0, err
			}
			out = append(out, bow{length: p.LengthMM})
		case p.RadiusMM == 0 && p.AngleDeg == 0:
			return fail(at, "is empty: give length_mm, for a straight run, or radius_mm and angle_deg, for an arc")
		default:
			if err := within(at+".radius_mm", p.RadiusMM, MinPieceRadius, MaxPieceRadius, "mm"); err != nil {
				return nil, 0, err
			}
			if a := math.Abs(p.AngleDeg); !(a >= 0.1 && a <= 360) {
				return fail(at+".angle_deg", "must be from 0.1 to 360 degrees (negative for an arc that bends away from the wrist); it is %s", short(p.AngleDeg))
			}
			a := p.AngleDeg * math.Pi / 180
			turn += p.AngleDeg
			out = append(out, bow{length: p.RadiusMM * math.Abs(a), k: math.Copysign(1/p.RadiusMM, a)})
		}
	}
	if math.Abs(turn-360) > ClosingAngle {
		return fail(path, "the angles must add up to one turn, 360 degrees within %v; they add up to %s", ClosingAngle, short(turn))
	}
	for i := range out {
		if out[i].k != 0 {
			out[i].length *= 360 / turn
		}
	}
	miss := newBows(out, 0).miss()
	if miss.Len() > ClosingTolerance {
		return fail(path, "does not close: its end lies %.3f mm from its start (%+.3f mm along X, %+.3f mm along Y; at most %v mm is shared out); change a length or a radius by that much",
			miss.Len(), miss.X, miss.Y, ClosingTolerance)
	}
	return out, closeBows(out), nil
}

// miss returns the way from the end of the course to its start.
func (b *bows) miss() plane.Point {
	last := &b.list[len(b.list)-1]
	return b.list[0].from.Sub(last.inner(last.length))
}

// checkFaces reports a profile whose faces would meet themselves: where an arc
// bends away from the wrist more sharply than the sheet's thickness lets it, or
// where two positions come closer than two sheets.
func (b *bows) checkFaces(thickness float64) error {
	const path = "band.inside.profile"
	for i, w := range b.list {
		if w.k < 0 && -1/w.k < 2*thickness {
			return &FieldError{fmt.Sprintf("%s[%d].radius_mm", path, i),
				fmt.Sprintf("must be at least twice the thickness, %s mm, where the profile bends away from the wrist; it is %s", short(2*thickness), short(-1/w.k))}
		}
	}
	for _, d := range []float64{0, thickness} {
		var l plane.Loop
		for i := range b.list {
			l = append(l, b.list[i].edges(d).Loop()...)
		}
		if err := l.Check(); err != nil || l.Area() <= 0 {
			return &FieldError{path, fmt.Sprintf("crosses itself, or would once the sheet's %s mm are on it", short(thickness))}
		}
	}
	return nil
}
