package own

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"fretband/unroll/plane"
)

// curve is a chain of pieces, each beginning where the one before it ends.
type curve struct {
	name   string // for messages: "path 2, curve 1"
	pieces []piece
	closed bool    // by the drawing's own word
	filled bool    // by the drawing
	fill   bool    // closed because it is filled
	chain  []curve // the open curves that it was joined of
}

// piece is a line, a Bézier curve of degree 2 or 3, or an arc of an ellipse.
type piece struct {
	// ctrl are a line's or Bézier curve's control points, none for an arc.
	ctrl []plane.Point
	// An arc is c + u cos t + v sin t from t0 to t1, where t1 may be less.
	c, u, v plane.Point
	t0, t1  float64
}

func line(a, b plane.Point) piece { return piece{ctrl: []plane.Point{a, b}} }

// ring is the whole ellipse of half-axes rx and ry.
func ring(c plane.Point, rx, ry float64) piece {
	return piece{c: c, u: plane.Pt(rx, 0), v: plane.Pt(0, ry), t1: 2 * math.Pi}
}

// affine maps x to a x + c y + e, y to b x + d y + f, as SVG's matrix(a b c d e f).
type affine struct{ a, b, c, d, e, f float64 }

var same = affine{a: 1, d: 1}

func shift(p plane.Point) affine { return affine{1, 0, 0, 1, p.X, p.Y} }

// after returns the map that does n first, then m.
func (m affine) after(n affine) affine {
	return affine{
		m.a*n.a + m.c*n.b, m.b*n.a + m.d*n.b,
		m.a*n.c + m.c*n.d, m.b*n.c + m.d*n.d,
		m.a*n.e + m.c*n.f + m.e, m.b*n.e + m.d*n.f + m.f,
	}
}

func (m affine) point(p plane.Point) plane.Point {
	return plane.Pt(m.a*p.X+m.c*p.Y+m.e, m.b*p.X+m.d*p.Y+m.f)
}

func (m affine) vector(p plane.Point) plane.Point {
	return plane.Pt(m.a*p.X+m.c*p.Y, m.b*p.X+m.d*p.Y)
}

func (c curve) through(m affine) curve {
	ps := make([]piece, len(c.pieces))
	for i, p := range c.pieces {
		q := p
		q.ctrl = nil
		for _, v := range p.ctrl {
			q.ctrl = append(q.ctrl, m.point(v))
		}
		q.c, q.u, q.v = m.point(p.c), m.vector(p.u), m.vector(p.v)
		ps[i] = q
	}
	c.pieces = ps
	return c
}

func (p piece) at(t float64) plane.Point {
	sin, cos := math.Sincos(t)
	return p.c.Add(p.u.Mul(cos)).Add(p.v.Mul(sin))
}

func (p piece) start() plane.Point {
	if p.ctrl != nil {
		return p.ctrl[0]
	}
	return p.at(p.t0)
}

func (p piece) end() plane.Point {
	if p.ctrl != nil {
		return p.ctrl[len(p.ctrl)-1]
	}
	return p.at(p.t1)
}

func (p piece) reverse() piece {
	q := p
	q.t0, q.t1 = p.t1, p.t0
	q.ctrl = nil
	for i := len(p.ctrl) - 1; i >= 0; i-- {
		q.ctrl = append(q.ctrl, p.ctrl[i])
	}
	return q
}

// hull returns points whose box holds the piece.
func (p piece) hull() []plane.Point {
	if p.ctrl != nil {
		return p.ctrl
	}
	r := plane.Pt(math.Hypot(p.u.X, p.v.X), math.Hypot(p.u.Y, p.v.Y))
	return []plane.Point{p.c.Add(r), p.c.Sub(r), p.start(), p.end()}
}

// edges returns lines and arcs that follow the piece within tol.
func (p piece) edges(tol float64) ([]plane.Edge, error) {
	b := plane.EmptyBox()
	for _, q := range p.hull() {
		b = b.Add(q)
	}
	if math.Max(b.W(), b.H()) <= plane.Snap {
		return nil, nil
	}
	switch {
	case len(p.ctrl) == 2:
		return []plane.Edge{{A: p.ctrl[0], B: p.ctrl[1]}}, nil
	case p.ctrl != nil:
		return fit(p.bezier(), 0, 1, tol)
	}
	turn := p.t1 - p.t0
	if turn == 0 {
		return nil, nil
	}
	ru, rv := p.u.Len(), p.v.Len()
	if math.Abs(ru-rv) < 1e-9*ru && math.Abs(p.u.Dot(p.v)) < 1e-9*ru*rv {
		// A circle's arc is kept as it is, in pieces of half a turn at most.
		n := int(math.Ceil(math.Abs(turn)/math.Pi - 1e-9))
		sweep := turn / float64(n)
		if p.u.Cross(p.v) < 0 {
			sweep = -sweep
		}
		var es []plane.Edge
		for i := range n {
			a, b := p.t0+turn*float64(i)/float64(n), p.t0+turn*float64(i+1)/float64(n)
			es = append(es, plane.Edge{A: p.at(a), B: p.at(b), Bulge: math.Tan(sweep / 4)})
		}
		return es, nil
	}
	sign := math.Copysign(1, turn)
	return fit(func(t float64) (plane.Point, plane.Point) {
		sin, cos := math.Sincos(p.t0 + sign*t)
		return p.c.Add(p.u.Mul(cos)).Add(p.v.Mul(sin)), p.v.Mul(cos).Sub(p.u.Mul(sin)).Mul(sign)
	}, 0, math.Abs(turn), tol)
}

// bezier returns a curve over its control points from 0 to 1, by de Casteljau's
// construction. Where control points coincide at an end, its direction there is
// that to the next one.
func (p piece) bezier() plane.Curve {
	first, last := p.ctrl[0], p.ctrl[len(p.ctrl)-1]
	extent := 0.0
	for _, q := range p.ctrl {
		extent = math.Max(extent, q.Dist(first))
	}
	return func(t float64) (plane.Point, plane.Point) {
		ps := append([]plane.Point(nil), p.ctrl...)
		for n := len(ps) - 1; n > 1; n-- {
			for i := range n {
				ps[i] = ps[i].Mul(1 - t).Add(ps[i+1].Mul(t))
			}
		}
		at, along := ps[0].Mul(1-t).Add(ps[1].Mul(t)), ps[1].Sub(ps[0])
		if along.Len() > 1e-9*extent {
			return at, along
		}
		if t < 0.5 {
			for _, q := range p.ctrl {
				if q.Dist(first) > 1e-9*extent {
					return at, q.Sub(first)
				}
			}
		}
		for i := len(p.ctrl) - 1; i >= 0; i-- {
			if q := p.ctrl[i]; q.Dist(last) > 1e-9*extent {
				return at, last.Sub(q)
			}
		}
		return at, plane.Pt(1, 0)
	}
}

// fit is [plane.FitArcs] for curves that may not be as smooth as it needs.
func fit(c plane.Curve, t0, t1, tol float64) ([]plane.Edge, error) {
	es := plane.FitArcs(c, t0, t1, tol)
	const looks = 200
	for i := range looks + 1 {
		q, _ := c(t0 + (t1-t0)*float64(i)/looks)
		near := math.Inf(1)
		for _, e := range es {
			near = math.Min(near, e.Dist(q))
		}
		if !(near <= 2*tol) {
			return nil, fmt.Errorf("a curve turns back on itself at (%.4g, %.4g): put a point there", q.X, q.Y)
		}
	}
	return es, nil
}

// loop returns the closed curve as a loop within tol of it.
func (c curve) loop(tol float64) (plane.Loop, error) {
	pieces := c.pieces
	if c.gap() > tol {
		pieces = append(pieces[:len(pieces):len(pieces)], line(pieces[len(pieces)-1].end(), pieces[0].start()))
	}
	var l plane.Loop
	for _, p := range pieces {
		es, err := p.edges(tol)
		if err != nil {
			return nil, err
		}
		for _, e := range es {
			if e.Len() > plane.Snap && !math.IsNaN(e.Bulge) {
				l = append(l, plane.Vertex{Point: e.A, Bulge: e.Bulge})
			}
		}
	}
	// Ends that lay a hair apart leave edges of no length.
	if l = l.Tidy(); l == nil {
		return nil, errFlat
	}
	return l, nil
}

var errFlat = errors.New("it encloses no area")

// flat reports whether a loop bounds nothing: lines there and back again, say.
func flat(l plane.Loop) bool { return math.Abs(l.Area()) <= plane.Snap*l.Len()/2 }

// gap is the distance of a curve's two ends.
func (c curve) gap() float64 {
	return c.pieces[len(c.pieces)-1].end().Dist(c.pieces[0].start())
}

// join makes closed curves of open ones whose ends lie within tol, and returns
// those that stay open.
func join(curves []curve, tol float64) (closed, open []curve) {
	var ends []curve
	for _, c := range curves {
		switch {
		case len(c.pieces) == 0:
		case c.closed || c.gap() <= tol && c.turns(tol):
			closed = append(closed, c)
		default:
			ends = append(ends, c)
		}
	}
	used := make([]bool, len(ends))
	for i, c := range ends {
		if used[i] {
			continue
		}
		used[i] = true
		c.chain = []curve{c}
		for c.gap() > tol {
			at, next := c.pieces[len(c.pieces)-1].end(), -1
			for j, d := range ends {
				if used[j] {
					continue
				}
				if d.pieces[0].start().Dist(at) <= tol {
					next = j
					break
				}
				if d.pieces[len(d.pieces)-1].end().Dist(at) <= tol {
					ends[j], next = d.reverse(), j
					break
				}
			}
			if next < 0 {
				break
			}
			used[next] = true
			c.chain = append(c.chain, ends[next])
			c.pieces = append(c.pieces[:len(c.pieces):len(c.pieces)], ends[next].pieces...)
			c.name = fmt.Sprintf("the chain from %s on", ends[i].name)
		}
		if c.gap() <= tol && c.turns(tol) {
			closed = append(closed, c)
		} else {
			open = append(open, c)
		}
	}
	return closed, open
}

// closeFilled closes those open curves that the drawing fills by a straight line from
// end to beginning, each on its own: "The fill operation fills open subpaths by
// performing the fill operation as if an additional closepath command were added to
// the path" (W3C, SVG 1.1, 11.3). What bounds nothing that way, as a single line, stays
// open.
func closeFilled(closed, open []curve, tol float64) (nowClosed, stillOpen []curve) {
	for _, chain := range open {
		if slices.ContainsFunc(chain.chain, func(c curve) bool { return !c.filled }) {
			stillOpen = append(stillOpen, chain)
			continue
		}
		for _, c := range chain.chain {
			if l, err := c.loop(tol); err == nil && !flat(l) {
				c.fill = true
				closed = append(closed, c)
			} else {
				stillOpen = append(stillOpen, c)
			}
		}
	}
	return closed, stillOpen
}

// turns reports whether the curve leaves its start at all.
func (c curve) turns(tol float64) bool {
	b := plane.EmptyBox()
	for _, p := range c.pieces {
		for _, q := range p.hull() {
			b = b.Add(q)
		}
	}
	return math.Max(b.W(), b.H()) > 2*tol
}

func (c curve) reverse() curve {
	var ps []piece
	for i := len(c.pieces) - 1; i >= 0; i-- {
		ps = append(ps, c.pieces[i].reverse())
	}
	c.pieces = ps
	return c
}
