package unroll

import "fretband/unroll/plane"

// course is the way round a band: its inner face seen along the axis, run
// through by the length x on the surface that keeps its length (the neutral or
// the drawn one), from the front in the direction of the flat's x. It is a closed
// curve without corners that turns once round.
//
// A course is never changed after it is made, so flats may share it.
type course interface {
	// station returns the position of the inner face at any finite x, its unit
	// normal pointing out of the band, and its curvature there, 1/mm.
	station(x float64) (inner, normal plane.Point, curvature float64)
	// curvature returns what station does, alone.
	curvature(x float64) float64
	// foot returns the x, within half a turn either way, of the position of the
	// inner face next to p.
	foot(p plane.Point) float64
	// around returns the length of the whole way round.
	around() float64
	// end returns the x at which a gap, mm along the inner face and centred at
	// the back, begins.
	end(gap float64) float64
	// breaks returns the positions, from 0 to around, where the curvature jumps.
	breaks() []float64
	// leastRadius returns the smallest radius, mm, that the inner face is bent to.
	leastRadius() float64
}

func (l *neutralLine) station(x float64) (inner, normal plane.Point, curvature float64) {
	u := l.u(x)
	inner, normal = l.oval.at(u)
	g := l.oval.speed(u)
	return inner, normal, l.oval.A * l.oval.B / (g * g * g)
}

func (l *neutralLine) curvature(x float64) float64 {
	if l.oval.A == l.oval.B {
		return 1 / l.oval.A
	}
	g := l.oval.speed(l.u(x))
	return l.oval.A * l.oval.B / (g * g * g)
}

func (l *neutralLine) foot(p plane.Point) float64 { return l.x(l.oval.nearest(p)) }

func (l *neutralLine) around() float64 { return 4 * l.quarter }

func (l *neutralLine) end(gap float64) float64 {
	return l.x(l.innerEnd((l.oval.Circumference() - gap) / 2))
}

func (l *neutralLine) breaks() []float64 { return nil }

func (l *neutralLine) leastRadius() float64 { return l.oval.LeastRadius() }
