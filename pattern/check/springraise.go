package check

import (
	"math"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// bentHole is the stress raiser of a round hole of diameter d in a wide plate of
// thickness t that is bent: 3 for a hole much smaller than the thickness, 1.79 for a
// much larger one (Roark's Formulas for Stress and Strain, table 17.1, circular hole
// in an infinite plate, out-of-plane bending, simple bending).
func bentHole(d, t float64) float64 {
	x := d / t
	return 1.79 + 0.25/(0.39+x) + 0.81/(1+x*x) - 0.26/(1+x*x*x)
}

// sharpest is the least radius that a sawn or burnt corner has, mm: half of the
// finest blade.
const sharpest = 0.08

// raised is a position at the edge of an opening where the stress is raised.
type raised struct {
	at     plane.Point
	factor float64 // on the stress of the metal left
}

// raisers returns the positions of an opening's edge that stand out most across the
// band (upwards and downwards: the band runs along x), with their factor
//
//	1 + (K - 1) √(a/ρ), K that of a round hole as large
//
// where a is half the opening's extent across the band and ρ the radius of the edge:
// for a round hole K itself, for an elliptic one in a thin plate the known
// 1 + 2 (1+ν)/(3+ν) a/b (memory: J. Goodier, Phil. Mag. 22, 1936), for one much
// smaller than the thickness C. Inglis's 1 + 2 √(a/ρ). Neighbours shield each other:
// in rows of openings it is on the safe side.
func raisers(l plane.Loop, t float64) []raised {
	box := l.Bounds()
	a := box.H() / 2
	k := bentHole(2*a, t) - 1
	mid := (box.Min.Y + box.Max.Y) / 2
	var out []raised
	for _, up := range [2]bool{true, false} {
		best := raised{}
		look := func(p plane.Point, rho float64) {
			if (p.Y > mid) != up {
				return
			}
			// What does not reach as far out disturbs less.
			h := math.Abs(p.Y - mid)
			f := 1 + k*math.Sqrt(h/math.Max(rho, sharpest))
			if f > best.factor {
				best = raised{p, f}
			}
		}
		for i := range l {
			e := l.Edge(i)
			before := l.Edge((i + len(l) - 1) % len(l))
			// A sharp corner of the hole: the edge turns left in it, by more than where the
			// arcs of a fitted curve meet.
			if v, w := before.Tangent(1), e.Tangent(0); v.Cross(w) > 0.3 && facesAcross(v, w) {
				look(e.A, 0)
			}
			if e.Bulge > 0 && facesAcross(e.Tangent(0), e.Tangent(1)) {
				look(outmost(e, up), e.Radius())
			}
		}
		if best.factor > 0 {
			out = append(out, best)
		}
	}
	return out
}

// facesAcross reports whether an edge that turns from the direction v to w somewhere
// runs within 30 degrees of the band's own direction, so that the opening has its top
// or bottom there.
func facesAcross(v, w plane.Point) bool {
	level := func(p plane.Point) bool { return math.Abs(p.Y) < 0.5*math.Hypot(p.X, p.Y) }
	return level(v) || level(w) || v.Y*w.Y < 0
}

// outmost returns the highest or lowest place of an arc.
func outmost(e plane.Edge, up bool) plane.Point {
	r := e.Radius()
	if !up {
		r = -r
	}
	_, p := e.Nearest(e.Centre().Add(plane.Pt(0, r)))
	return p
}

// mostRaised returns the greatest raised stress of all openings, where the stress of
// the metal left at x is given by stress.
func mostRaised(s *pattern.Sheet, stress func(x float64) float64) (most float64, factor float64, at plane.Point) {
	for i := range s.Openings {
		l := s.Openings[i].Loop
		// On a flared band each opening has its own direction along.
		mid := l.Centroid()
		x, v := s.Flat.Where(mid)
		along := s.Flat.Along(x, v, 0)
		turn := math.Atan2(along.Y, along.X)
		for _, r := range raisers(l.Move(mid.Mul(-1)).Turn(-turn), s.Flat.Thickness) {
			sin, cos := math.Sincos(turn)
			p := mid.Add(plane.Pt(cos*r.at.X-sin*r.at.Y, sin*r.at.X+cos*r.at.Y))
			x, _ := s.Flat.Where(p)
			if v := stress(x) * r.factor; v > most {
				most, factor, at = v, r.factor, p
			}
		}
	}
	return most, factor, at
}
