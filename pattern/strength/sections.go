package strength

import (
	"cmp"
	"math"
	"slices"

	"fretband/unroll/cores"
	"fretband/unroll/plane"
)

// sectionStep is the distance of the sections along the band, mm, in which bridges and
// rims are measured.
const sectionStep = 0.3

// piece is the part of a section that lies in one triangle.
type piece struct {
	tri      int
	from, to float64       // across the band, mm
	length   float64       // mm on the surface
	ends     [2][3]float64 // the ends as shares of the corners
}

// section is the metal across the band at x, in stretches without a break: bridges and
// rims, from below.
type section struct {
	x    float64
	runs [][]piece
}

// across cuts the band into sections.
func (s *Study) across() []section {
	at, pieces := s.pieces()
	out := make([]section, len(at))
	for i, x := range at {
		out[i] = section{x, runs(pieces[i])}
	}
	return out
}

// pieces returns the pieces of metal across the band, those of each station in order
// from below.
func (s *Study) pieces() (at []float64, pieces [][]piece) {
	l := s.metal.Flat.Length
	n := max(int(math.Round(l/sectionStep)), 8)
	at = make([]float64, n)
	pieces = make([][]piece, n)
	step := l / float64(n)
	for i := range at {
		// The odd share keeps sections off nodes, which stand on round places.
		at[i] = -l/2 + step*(float64(i)+0.4871)
	}
	for k := range s.mesh.Tri {
		c := s.corners(k)
		lo := math.Min(c[0].X, math.Min(c[1].X, c[2].X))
		hi := math.Max(c[0].X, math.Max(c[1].X, c[2].X))
		first := int(math.Ceil((lo-at[0])/step - 1e-12))
		for i := first; at[0]+float64(i)*step < hi; i++ {
			x := at[0] + float64(i)*step
			p, ok := s.cut(k, [3]float64{c[0].X - x, c[1].X - x, c[2].X - x}, [3]float64{c[0].Y, c[1].Y, c[2].Y})
			if !ok {
				continue
			}
			j := i
			if s.closed {
				j = ((i % n) + n) % n
			}
			if j >= 0 && j < n {
				pieces[j] = append(pieces[j], p)
			}
		}
	}
	cores.Each(len(pieces), func(i int) { inOrder(pieces[i]) })
	return at, pieces
}

// cut returns the part of a section in the triangle k: where level is 0, from one value of
// along to another, both given at the corners.
func (s *Study) cut(k int, level, along [3]float64) (p piece, ok bool) {
	p.tri = k
	n := 0
	var v [2]float64
	for j := range 3 {
		a, b := level[j], level[(j+1)%3]
		if (a <= 0) == (b <= 0) || n == 2 {
			continue
		}
		t := a / (a - b)
		v[n] = along[j] + t*(along[(j+1)%3]-along[j])
		p.ends[n][j], p.ends[n][(j+1)%3] = 1-t, t
		n++
	}
	if n < 2 {
		return p, false
	}
	if v[0] > v[1] {
		v[0], v[1] = v[1], v[0]
		p.ends[0], p.ends[1] = p.ends[1], p.ends[0]
	}
	p.from, p.to = v[0], v[1]
	a, b := s.spot(k, p.ends[0]), s.spot(k, p.ends[1])
	p.length = b.less(a).length()
	return p, p.length > 0
}

// spot is the position in a triangle with these shares of its corners.
func (s *Study) spot(k int, share [3]float64) (p vector) {
	for j, i := range s.mesh.Tri[k] {
		p = p.plus(vec(s.mesh.At[i]).times(share[j]))
	}
	return p
}

// chord returns the pieces of metal from a to b on the blank, in order.
func (s *Study) chord(a, b plane.Point) []piece {
	way := b.Sub(a)
	l := way.Len()
	way = way.Unit()
	var out []piece
	for k, t := range s.mesh.Tri {
		var level, along [3]float64
		lo, hi, far := math.Inf(1), math.Inf(-1), false
		for j, i := range t {
			d := s.mesh.Flat[i].Sub(a)
			level[j], along[j] = way.Cross(d), way.Dot(d)
			lo, hi = math.Min(lo, along[j]), math.Max(hi, along[j])
			far = far || math.Abs(level[j]) > 5
		}
		if far || hi < 0 || lo > l {
			continue
		}
		// A piece belongs to the chord if its middle does.
		if p, ok := s.cut(k, level, along); ok && p.from+p.to > 0 && p.from+p.to < 2*l {
			out = append(out, p)
		}
	}
	inOrder(out)
	return out
}

func inOrder(ps []piece) {
	slices.SortFunc(ps, func(a, b piece) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.tri, b.tri))
	})
}

// runs divides a section into stretches of metal without a break: bridges and rims.
func runs(ps []piece) [][]piece {
	const same = 1e-6 // mm
	var out [][]piece
	start := 0
	var end float64
	for i, p := range ps {
		if i > start && p.from > end+same {
			out = append(out, ps[start:i])
			start = i
		}
		if i == start {
			end = p.to
		}
		end = math.Max(end, p.to)
	}
	if start < len(ps) {
		out = append(out, ps[start:])
	}
	return out
}
