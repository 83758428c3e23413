package unroll

import (
	"fmt"
	"math"
)

// dome is the section of a band that is an arc across its width: the band's
// profile swept along the band's course, square to it. Its surface is curved
// two ways, so no flat shape keeps all its lengths (C. F. Gauss, theorema
// egregium); how it is flattened is a choice, and [Flat.Stretch] tells its price.
//
// Across the band t is the length on the drawn surface from the middle line, v
// the distance on the blank. With the angle t/r from the middle, a position lies
// r (1 - cos(t/r)) further in than the middle line, and so is shorter along the
// band by the factor 1 - k r (1 - cos(t/r)), k the curvature of the middle line.
//
// v(t) takes for k its mean over the whole way round, 2 pi / length. On a round
// band that is exact: the map by equal areas and the conformal one are then
// those of a surface of revolution (J. P. Snyder, Map Projections, USGS
// Professional Paper 1395, 1987; for a sphere Lambert's cylindrical and
// Mercator's). On an oval the true k is larger where the oval is tight and
// smaller where it is flat, so they hold on the average; [Flat.Stretch] uses the
// true one.
type dome struct {
	r    float64 // radius of the arc on the drawn surface; negative for a hollow
	k    float64 // mean curvature of the middle line
	flat string
	// raise as a table, if there is one: domeNodes+1 evenly spaced v from 0, with
	// the first and second derivative of t(v). It is odd.
	step float64
	node []neutralNode
}

// domeNodes is chosen as neutralNodes is: no band reaches further than 60 degrees,
// so steps are at most 0.005 of the radius, and the error of quintic Hermite
// interpolation is far under rounding.
const domeNodes = 256

// tabulate makes the table of raise for a band whose edges lie at most reach from
// the middle line.
func (d *dome) tabulate(extent float64) {
	if d.flat == ArcLength || d.flat == "" {
		return
	}
	top, _ := d.flatten(math.Min(1.2*extent, d.limit()))
	step := top / domeNodes
	node := make([]neutralNode, domeNodes+1)
	for i := range node {
		t, slope := d.solve(float64(i) * step)
		// The slope's derivative, for areas and for angles kept.
		bend := -d.k * math.Sin(t/d.r)
		if d.flat == Conformal {
			bend *= -slope * slope
		}
		node[i] = neutralNode{t, 1 / slope, -bend / (slope * slope * slope)}
	}
	d.step, d.node = step, node
}

// limit returns how far up raise reaches.
func (d *dome) limit() float64 {
	limit := math.Abs(d.r) * MaxDomeAngle * 1.2 * math.Pi / 180
	if d.r > 0 && d.k*d.in(limit) > 0.8 { // beyond it the edge shrinks to nothing
		limit = d.r * math.Acos(1-0.8/(d.k*d.r))
	}
	return limit
}

// in returns how far the surface at t lies under the middle line.
func (d *dome) in(t float64) float64 {
	s := math.Sin(t / d.r / 2)
	return 2 * d.r * s * s
}

// flatten returns v and dv/dt at t.
func (d *dome) flatten(t float64) (v, slope float64) {
	switch d.flat {
	case EqualArea:
		// The integral of 1 - k r (1 - cos(t/r)).
		return t - d.k*d.r*d.over(t), 1 - d.k*d.in(t)
	case Conformal:
		// The integral of 1/(1 - k r (1 - cos(t/r))): with b = k r and the half
		// angle's tangent z, 2r/s atan(s z), s^2 = 1 - 2b.
		z := math.Tan(t / d.r / 2)
		return 2 * d.r * atans(1-2*d.k*d.r, z), 1 / (1 - d.k*d.in(t))
	}
	return t, 1
}

// over returns t - r sin(t/r), by its series where that would cancel.
func (d *dome) over(t float64) float64 {
	a := t / d.r
	if math.Abs(a) < 0.05 {
		a2 := a * a
		return t * a2 / 6 * (1 - a2/20*(1-a2/42*(1-a2/72)))
	}
	return t - d.r*math.Sin(a)
}

// atans returns atan(sqrt(q) z)/sqrt(q), for negative q its continuation atanh.
func atans(q, z float64) float64 {
	switch w := q * z * z; {
	case math.Abs(w) < 1e-4:
		return z * (1 - w/3*(1-w*3/5*(1-w*5/7)))
	case q > 0:
		s := math.Sqrt(q)
		return math.Atan(s*z) / s
	default:
		s := math.Sqrt(-q)
		return math.Atanh(s*z) / s
	}
}

// raise is the inverse of flatten: t, and dv/dt there. Beyond what can be
// reached it returns the nearest that can.
func (d *dome) raise(v float64) (t, slope float64) {
	if d.flat == ArcLength || d.flat == "" {
		return v, 1
	}
	t = d.rise(v)
	slope = 1 - d.k*d.in(t)
	if d.flat == Conformal {
		slope = 1 / slope
	}
	return t, slope
}

// rise returns raise's t alone.
func (d *dome) rise(v float64) float64 {
	switch {
	case d.flat == ArcLength || d.flat == "":
		return v
	case d.node == nil || !(math.Abs(v) < d.step*domeNodes): // past the table, or no number
		t, _ := d.solve(v)
		return t
	}
	f := math.Abs(v) / d.step
	i := min(int(f), domeNodes-1)
	return math.Copysign(hermite(d.node[i], d.node[i+1], d.step, f-float64(i)), v)
}

// solve is raise by Newton's method, held by bisection.
func (d *dome) solve(v float64) (t, slope float64) {
	limit := d.limit()
	lo, hi := -limit, limit
	t = math.Max(lo, math.Min(v, hi))
	for range 60 {
		u, s := d.flatten(t)
		slope = s
		e := u - v
		if e > 0 {
			hi = t
		} else {
			lo = t
		}
		next := t - e/s
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-t) <= 1e-15*math.Abs(t) {
			break
		}
		t = next
	}
	return t, slope
}

// bend returns where the position at t, at the height q over the drawn surface,
// lies: how far out from the middle line of the drawn surface, and along the axis.
func (d *dome) bend(t, q float64) (out, z float64) {
	s, c := math.Sincos(t / d.r)
	return q*c - d.in(t), (d.r + q) * s
}

// unbend is the inverse of bend.
func (d *dome) unbend(out, z float64) (t, q float64) {
	k := math.Copysign(1, d.r)
	y := out + d.r
	s := k * math.Hypot(y, z)
	// s - r, without the loss of digits of a large radius.
	return math.Atan2(k*z, k*y) * d.r, (z*z + out*(out+2*d.r)) / (s + d.r)
}

// domeOf makes the dome of the band, if it has one, on a middle line of the
// given whole length.
func (m *measures) domeOf(around float64) (*dome, error) {
	b := m.band
	switch b.Dome {
	case "":
		for _, f := range []struct {
			name string
			set  bool
		}{{"dome_radius_mm", b.DomeRadiusMM != 0}, {"dome_rise_mm", b.DomeRiseMM != 0}, {"dome_flat", b.DomeFlat != ""}} {
			if f.set {
				return nil, &FieldError{"band." + f.name, fmt.Sprintf("is not used without band.dome; remove it, or set band.dome to %q or %q", Outward, Hollow)}
			}
		}
		return nil, nil
	case Outward, Hollow:
	default:
		return nil, choice("band.dome", b.Dome, "", Outward, Hollow)
	}
	d := &dome{k: 2 * math.Pi / around, flat: b.DomeFlat}
	switch b.DomeFlat {
	case ArcLength, Conformal, EqualArea:
	case "":
		return nil, &FieldError{"band.dome_flat", fmt.Sprintf("is missing: a domed section can't be made flat without stretching; what shall be true on the blank: %q (lengths across the band), %q (angles, so small shapes) or %q (areas, so weights)?", ArcLength, Conformal, EqualArea)}
	default:
		return nil, choice("band.dome_flat", b.DomeFlat, ArcLength, Conformal, EqualArea)
	}
	switch {
	case b.DomeRadiusMM != 0 && b.DomeRiseMM != 0:
		return nil, &FieldError{"band.dome_radius_mm", "give either dome_radius_mm or dome_rise_mm, not both"}
	case b.DomeRadiusMM != 0:
		if err := within("band.dome_radius_mm", b.DomeRadiusMM, MinDome, MaxDome, "mm"); err != nil {
			return nil, err
		}
		d.r = b.DomeRadiusMM
	default:
		// The rise r (1 - cos(width/2/r)) falls as r grows.
		shallow, deep := DomeRise(b.WidthMM, MaxDome), DomeRise(b.WidthMM, tightestDome(b.WidthMM))
		if !(b.DomeRiseMM >= shallow && b.DomeRiseMM <= deep) {
			return nil, &FieldError{"band.dome_rise_mm", fmt.Sprintf("must be from %.3f to %.2f mm over this width, or give dome_radius_mm; it is %s", shallow, deep, short(b.DomeRiseMM))}
		}
		d.r = DomeRadius(b.WidthMM, b.DomeRiseMM)
	}
	if b.Dome == Hollow {
		d.r = -d.r
	}
	return d, nil
}

// checkDome reports a dome that its band can't have: too far round, too thick,
// or deeper than the band's own bend. bottom and top are lengths on the surface.
func (m *measures) checkDome(d *dome, way course, bottom, top float64) error {
	path := "band.dome_radius_mm"
	if m.band.DomeRiseMM != 0 {
		path = "band.dome_rise_mm"
	}
	half := math.Max(-bottom, top)
	if a := half / math.Abs(d.r) * 180 / math.Pi; a > MaxDomeAngle+1e-9 {
		return &FieldError{path, fmt.Sprintf("turns the section by %.1f degrees from the middle to the edge; at most %v: flatten the dome, or make the band narrower", a, MaxDomeAngle)}
	}
	depth := m.depth()
	under := depth // metal between the drawn surface and the dome's centre
	if d.r < 0 {
		under = m.thickness - depth
	}
	if math.Abs(d.r) < 2*under {
		return &FieldError{path, fmt.Sprintf("gives a section with a radius of %.2f mm, under twice the metal inside it", math.Abs(d.r))}
	}
	// A tight course and a deep dome: the edge would shrink to nothing.
	if r := way.leastRadius() + depth; d.in(half) > 0.6*r || d.k*d.in(half) > 0.6 {
		return &FieldError{path, fmt.Sprintf("lets the edges lie %.2f mm under the middle, where the band's own radius is %.2f mm; at most 0.6 of it", d.in(half), r)}
	}
	return nil
}
