package pattern

import (
	"math"
	"slices"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// A closed band has no ends: past one end of its blank it goes on
// at the other. This file and near.go say where things on the blank appear
// over the seam. No other file needs the length of the way round, nor whether
// the ends meet by moving along or, on a flared band, by turning about the apex.

// Round is so many times round a closed band, to the right for N > 0: the motion that
// carries what lies on the blank to where its copy is. The zero Round stays.
type Round struct {
	N int
	motion
}

// Point, Edge and Loop return where the copy of something on the blank is.
func (r Round) Point(p plane.Point) plane.Point { return r.point(p) }

// Edge is as Point.
func (r Round) Edge(e plane.Edge) plane.Edge { return r.edge(e) }

// Loop is as Point.
func (r Round) Loop(l plane.Loop) plane.Loop {
	if r.N == 0 {
		return l
	}
	return r.loop(l)
}

func (r Round) region(of plane.Region) plane.Region {
	out := make(plane.Region, len(of))
	for i, l := range of {
		out[i] = r.Loop(l)
	}
	return out
}

// Moved returns by how much copies are moved along, and whether that is all: on a flared
// band they are turned as well.
func (r Round) Moved() (by plane.Point, only bool) { return r.by, r.rotation == 0 }

// Home returns the position on the blank of which p is the copy: what Point undoes.
func (r Round) Home(p plane.Point) plane.Point { return r.back().point(p) }

// seam is how the blank of a band meets itself.
type seam struct {
	flat   unroll.Flat
	closed bool
}

func seamOf(d Design, f unroll.Flat) seam { return seam{f, !d.Band.Open()} }

func (s *Sheet) seam() seam { return seamOf(s.Design, s.Flat) }

// Round returns n times round the band: none but 0 on an open one.
func (s *Sheet) Round(n int) Round { return s.seam().round(n) }

func (m seam) round(n int) Round {
	if n == 0 || !m.closed {
		return Round{}
	}
	return Round{n, onward(m.flat, float64(n)*m.flat.Length)}
}

// Toward returns the Round that brings q nearest to p, along the band: of a bridge
// that runs over the seam its two positions on the blank lie far apart, and this says
// how it runs.
func (s *Sheet) Toward(p, q plane.Point) Round {
	m := s.seam()
	if !m.closed {
		return Round{}
	}
	x, _ := s.Flat.Where(p)
	u, _ := s.Flat.Where(q)
	return m.round(int(math.Round((x - u) / s.Flat.Length)))
}

// Home returns the point of the blank that is the same position of a closed band as p.
func (s *Sheet) Home(p plane.Point) plane.Point { return s.seam().home(p) }

func (m seam) home(p plane.Point) plane.Point {
	if !m.closed {
		return p
	}
	x, v := m.flat.Where(p)
	if math.Abs(x) <= m.flat.Length/2 {
		return p
	}
	return m.flat.Place(x-m.flat.Length*math.Round(x/m.flat.Length), v)
}

// period is the length of the way round where the ends of the blank meet by moving along,
// else 0.
func (s *Sheet) period() float64 { return s.Flat.Period }

// Seamless reports whether openings may run over the ends of the blank, which are the
// same line and are not cut.
func (s *Sheet) Seamless() bool {
	return s.seam().closed && s.Design.Band.Seamless()
}

// along returns from where to where a box reaches along the band: all the way round if
// it holds the apex of a flared one.
func (m seam) along(b plane.Box) (lo, hi float64) {
	if !m.flat.Flared() {
		return b.Min.X, b.Max.X
	}
	if b.Contains(plane.Pt(0, m.flat.Apex())) {
		x, _ := m.flat.Where(b.Centre())
		half := math.Pi * math.Abs(m.flat.Apex())
		return x - half, x + half
	}
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, v := range plane.Rect(b) {
		x, _ := whereFrom(m.flat, b.Centre(), v.Point)
		lo, hi = math.Min(lo, x), math.Max(hi, x)
	}
	return lo, hi
}

// alongLoop is as along, of a loop, to an eighth of its edges on a flared band.
func (m seam) alongLoop(l plane.Loop) (lo, hi float64) {
	if !m.flat.Flared() {
		return m.along(l.Bounds())
	}
	lo, hi = math.Inf(1), math.Inf(-1)
	mid := l.Bounds().Centre()
	for i := range l {
		for e, k := l.Edge(i), 0; k < 8; k++ {
			x, _ := whereFrom(m.flat, mid, e.At(float64(k)/8))
			lo, hi = math.Min(lo, x), math.Max(hi, x)
		}
	}
	return lo, hi
}

// whereFrom is [unroll.Flat.Where] for a position of something about mid: where that
// reaches round the back of a flared band's apex the length along the band goes on.
func whereFrom(f unroll.Flat, mid, p plane.Point) (x, v float64) {
	x, v = f.Where(p)
	if whole := 2 * math.Pi * f.Apex(); whole != 0 {
		from, _ := f.Where(mid)
		x -= whole * math.Round((x-from)/whole)
	}
	return x, v
}

// onBlank lists how often round what reaches from lo to hi along the band has to go
// for a part of it to be on the blank: 0 first, which always counts. On a steep cone
// a copy may come to lie over the blank where it is not meant, a whole turn about the
// apex on: so that is asked of the position along the band.
func (m seam) onBlank(lo, hi float64) []Round {
	all := []Round{{}}
	if !m.closed || lo > hi {
		return all
	}
	half := m.flat.Length / 2
	for n := 1; hi-float64(n-1)*m.flat.Length > half; n++ {
		if lo-float64(n)*m.flat.Length < half {
			all = append(all, m.round(-n))
		}
	}
	for n := 1; lo+float64(n-1)*m.flat.Length < -half; n++ {
		if hi+float64(n)*m.flat.Length > -half {
			all = append(all, m.round(n))
		}
	}
	return all
}

// OnBlank lists the copies of a loop that are on the blank: where it lies, and, if it
// reaches over the seam of a closed band, where it comes in again.
func (s *Sheet) OnBlank(l plane.Loop) []Round {
	m := s.seam()
	if !m.closed {
		return []Round{{}}
	}
	return m.onBlank(m.alongLoop(l))
}

// Again returns the loop where it lies, and where it comes in again at the other
// end of a closed band's blank because it reaches over the seam.
func (s *Sheet) Again(l plane.Loop) []plane.Loop { return s.seam().again(l) }

func (m seam) again(l plane.Loop) []plane.Loop {
	if !m.closed {
		return []plane.Loop{l}
	}
	var ls []plane.Loop
	for _, r := range m.onBlank(m.alongLoop(l)) {
		ls = append(ls, r.Loop(l))
	}
	return ls
}

// onGround returns the loop at all positions at which it takes something of the ground,
// which is that of three periods where the ends of the blank meet by moving along.
func (m seam) onGround(l plane.Loop, extent plane.Box) []plane.Loop {
	var ls []plane.Loop
	if m.closed && !m.flat.Flared() {
		ls = []plane.Loop{l, m.round(-1).Loop(l), m.round(1).Loop(l)}
	} else {
		ls = m.again(l)
	}
	return slices.DeleteFunc(ls, func(l plane.Loop) bool { return !l.Bounds().Meets(extent) })
}

// motion carries things along the blank without changing their shape: on a flared
// one it turns them about the apex, on all others it moves them along.
type motion struct {
	rotation float64
	by       plane.Point
}

// onward returns the motion that carries what lies at x along the band to x + dx,
// at the same distance from the middle line.
func onward(f unroll.Flat, dx float64) motion {
	d := f.Along(dx, 0, 0)
	return motion{math.Atan2(d.Y, d.X), f.Place(dx, 0)}
}

func (m motion) loop(l plane.Loop) plane.Loop {
	if m.rotation != 0 {
		l = l.Turn(m.rotation)
	}
	return l.Move(m.by)
}

func (m motion) edge(e plane.Edge) plane.Edge {
	return plane.Edge{A: m.point(e.A), B: m.point(e.B), Bulge: e.Bulge}
}

func (m motion) point(p plane.Point) plane.Point {
	if m.rotation != 0 {
		p = p.Turn(m.rotation)
	}
	return p.Add(m.by)
}

// box returns a box round what lies in b once it is carried there.
func (m motion) box(b plane.Box) plane.Box {
	if m.rotation == 0 {
		return b.Move(m.by)
	}
	return m.loop(plane.Rect(b)).Bounds()
}

// back is the motion that undoes m.
func (m motion) back() motion {
	return motion{-m.rotation, m.by.Mul(-1).Turn(-m.rotation)}
}
