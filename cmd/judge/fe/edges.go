package main

import (
	"math"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// sizes says how large elements are.
type sizes struct{ most, turn float64 } // mm, degrees

const (
	least  = 0.12 // mm: no element is asked to be smaller
	across = 1.2  // elements of a bridge, of six nodes each
	corner = 0.1  // radians: from where on an edge has a corner
)

// ring is a closed line where metal ends: points, what lies half way along the line to
// the next, and how large elements are to be there, mm. All on the blank.
type ring struct {
	at, mid []plane.Point
	size    []float64
}

// rings divides the edges of the metal. The first encloses all others; on a closed band
// the first two are its edges.
func rings(s *pattern.Sheet, size sizes) []ring {
	var loops []plane.Loop
	var ready []*plane.Ready
	var boxes []plane.Box
	var owner []int
	for i := range s.Openings {
		l := s.Openings[i].Loop
		loops = append(loops, l)
		for _, by := range s.Flat.Copies() {
			moved := make(plane.Loop, len(l))
			for k, v := range l {
				v.Point = v.Point.Add(by)
				moved[k] = v
			}
			ready, boxes, owner = append(ready, moved.Ready()), append(boxes, moved.Bounds()), append(owner, i)
		}
	}
	outline := s.Flat.Outline.Ready()
	// near is how far the next edge other than that of opening own is; -1 is the blank's.
	near := func(p plane.Point, own int) float64 {
		d := across * size.most
		if own >= 0 && !s.Flat.Closed() {
			_, _, q := outline.Nearest(p)
			d = math.Min(d, q.Dist(p))
		}
		if own >= 0 && s.Flat.Closed() {
			x, v := s.Flat.Where(p)
			bottom, top := s.Flat.EdgesAt(x)
			d = math.Min(d, math.Min(v-bottom, top-v))
		}
		for k, b := range boxes {
			if owner[k] == own || b.Nearest(p).Dist(p) > d {
				continue
			}
			_, _, q := ready[k].Nearest(p)
			d = math.Min(d, q.Dist(p))
		}
		return math.Max(least, d/across)
	}
	var out []ring
	if s.Flat.Closed() {
		out = append(out, around(s.Flat, true, near), around(s.Flat, false, near))
	} else {
		out = append(out, divide(s.Flat.Outline, -1, size, near))
	}
	for i, l := range loops {
		out = append(out, divide(l, i, size, near))
	}
	return out
}

// around follows the upper or the lower edge of a closed band.
func around(f unroll.Flat, upper bool, near func(plane.Point, int) float64) ring {
	place := func(x float64) plane.Point {
		bottom, top := f.EdgesAt(x)
		if upper {
			return f.Place(x, top)
		}
		return f.Place(x, bottom)
	}
	const fine = 4000
	var sum [fine + 1]float64
	for k := range fine {
		x := (float64(k)/fine - 0.5) * f.Length
		sum[k+1] = sum[k] + place(x).Dist(place(x+f.Length/fine))/near(place(x), -1)
	}
	n := int(math.Ceil(sum[fine]))
	var cuts []float64
	for k, c := 0, 0; c < n; k++ {
		for ; c < n && sum[k] >= sum[fine]*float64(c)/float64(n); c++ {
			cuts = append(cuts, (float64(k)/fine-0.5)*f.Length)
		}
	}
	var r ring
	for i, x := range cuts {
		to := f.Length / 2
		if i+1 < n {
			to = cuts[i+1]
		}
		r.add(place(x), place((x+to)/2), place(to))
	}
	return r
}

func (r *ring) add(a, mid, b plane.Point) {
	r.at, r.mid, r.size = append(r.at, a), append(r.mid, mid), append(r.size, a.Dist(b))
}

// divide follows a loop: it stands at every corner, and between them at steps of even
// density by size and turn.
func divide(l plane.Loop, own int, size sizes, near func(plane.Point, int) float64) ring {
	type spot struct {
		p      plane.Point
		weight float64 // steps from the start of the run
		length float64 // mm
	}
	n := len(l)
	first := -1
	isCorner := make([]bool, n)
	for i := range n {
		a, b := l.Edge((i+n-1)%n), l.Edge(i)
		u, v := a.Tangent(1), b.Tangent(0)
		turn := math.Abs(math.Atan2(u.Cross(v), u.Dot(v)))
		if isCorner[i] = turn > corner; isCorner[i] && first < 0 {
			first = i
		}
	}
	if first < 0 {
		first = 0
		isCorner[0] = true
	}
	var r ring
	run := []spot{{p: l[first].Point}}
	end := func() {
		last := run[len(run)-1]
		steps := max(1, int(math.Ceil(last.weight-0.1)))
		if last.p == run[0].p {
			steps = max(steps, 6) // a line without corners, or with one
		}
		at := func(weight float64) (spot, int) {
			for k := range run {
				if run[k].weight >= weight-1e-9 {
					return run[k], k
				}
			}
			return last, len(run) - 1
		}
		for k := range steps {
			a, i := at(last.weight * float64(k) / float64(steps))
			b, j := at(last.weight * float64(k+1) / float64(steps))
			mid := a.p.Mid(b.p)
			for m := i; m < j; m++ {
				half := (a.length + b.length) / 2
				if run[m].length <= half && run[m+1].length >= half && run[m+1].length > run[m].length {
					t := (half - run[m].length) / (run[m+1].length - run[m].length)
					mid = run[m].p.Add(run[m+1].p.Sub(run[m].p).Mul(t))
				}
			}
			r.add(a.p, mid, b.p)
		}
		run = []spot{{p: last.p}}
	}
	for k := range n {
		i := (first + k) % n
		if k > 0 && isCorner[i] {
			end()
		}
		e := l.Edge(i)
		pieces := max(2, int(math.Ceil(math.Max(math.Abs(e.Sweep())/(math.Pi/180), e.Len()/0.05))))
		for m := range pieces {
			p := e.At(float64(m+1) / float64(pieces))
			last := run[len(run)-1]
			d := p.Dist(last.p)
			turn := math.Abs(e.Sweep()) / float64(pieces) * 180 / math.Pi
			run = append(run, spot{p, last.weight + math.Max(d/near(p, own), turn/size.turn), last.length + d})
		}
	}
	end()
	return r
}
