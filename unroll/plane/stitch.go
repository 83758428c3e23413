package plane

import (
	"math"
	"slices"
	"sync"
)

// stitch joins the kept pieces end to end: keep is 0 for a piece that is no part
// of the result, 1 for one that runs as it is, -1 for one that runs backwards.
// Pieces that lead nowhere are left out. closed says that there were none: as
// many pieces led into every node as out of it.
//
// Where several pieces leave a node, the one is taken that bounds the same bit
// of inside as the piece that arrived; a path that comes back to a node of its
// own is cut off there as a loop. So the loops are simple, and loops that touch
// at a point stay apart.
func (w *network) stitch(keep []int8) (r Region, closed bool) {
	s := stitchersBefore.Get().(*stitcher)
	s.w, s.keep, s.out = w, keep, nil
	closed = s.prune()
	s.pos = room(s.pos, len(w.nodes))[:len(w.nodes)]
	s.path, s.dir = s.path[:0], s.dir[:0]
	for i := range s.pos {
		s.pos[i] = -1
	}
	for i := range w.pieces {
		if s.keep[i] != 0 {
			if !s.trace(int32(i)) {
				closed = false
			}
		}
	}
	r = s.out
	s.w, s.keep, s.out = nil, nil, nil
	stitchersBefore.Put(s)
	return r, closed
}

type stitcher struct {
	w    *network
	keep []int8  // pieces still to be stitched
	pos  []int32 // place in the path of the piece that leaves a node, or -1
	path []int32
	dir  []int8 // of the path's pieces
	out  Region

	balance   [][2]int32 // pieces in and out of each node
	loop, row Loop
}

// stitchersBefore spares stitching to ask for its memory anew. Nothing is read
// from it that was not written in the same stitching.
var stitchersBefore = sync.Pool{New: func() any { return new(stitcher) }}

func (s *stitcher) ends(i int32) (from, to int32) {
	p := &s.w.pieces[i]
	if s.keep[i] < 0 {
		return p.to, p.from
	}
	return p.from, p.to
}

// prune drops pieces that start or end nowhere, and reports whether all nodes
// were balanced before.
func (s *stitcher) prune() bool {
	w := s.w
	bal := room(s.balance, len(w.nodes))[:len(w.nodes)]
	clear(bal)
	s.balance = bal
	for i := range w.pieces {
		if s.keep[i] != 0 {
			from, to := s.ends(int32(i))
			bal[from][1]++
			bal[to][0]++
		}
	}
	closed := true
	var bad []int32
	for k, b := range bal {
		if b[0] != b[1] {
			closed = false
			if b[0] == 0 || b[1] == 0 {
				bad = append(bad, int32(k))
			}
		}
	}
	for len(bad) > 0 {
		k := bad[len(bad)-1]
		bad = bad[:len(bad)-1]
		for _, i := range w.at[w.first[k]:w.first[k+1]] {
			if s.keep[i] == 0 {
				continue
			}
			from, to := s.ends(i)
			s.keep[i] = 0
			bal[from][1]--
			bal[to][0]--
			o := from
			if o == k {
				o = to
			}
			if b := bal[o]; b[0] == 0 || b[1] == 0 {
				bad = append(bad, o)
			}
		}
	}
	return closed
}

// trace follows pieces from i until nothing of the path is left, and reports
// whether all of it closed. A piece that leads to a dead end is left out, and
// the path goes on from where it began.
func (s *stitcher) trace(i int32) bool {
	closed := true
	for {
		from, to := s.ends(i)
		s.pos[from] = int32(len(s.path))
		s.path = append(s.path, i)
		s.dir = append(s.dir, s.keep[i])
		s.keep[i] = 0
		if k := s.pos[to]; k >= 0 {
			s.emit(int(k))
		}
		for {
			if len(s.path) == 0 {
				return closed
			}
			last := len(s.path) - 1
			p := &s.w.pieces[s.path[last]]
			from, to = p.from, p.to
			if s.dir[last] < 0 {
				from, to = to, from
			}
			if i = s.after(to); i >= 0 {
				break
			}
			closed = false
			s.pos[from] = -1
			s.path, s.dir = s.path[:last], s.dir[:last]
		}
	}
}

// emit cuts the path off at position k and makes a loop of what is cut off.
func (s *stitcher) emit(k int) {
	l := room(s.loop, len(s.path)-k)
	for j := k; j < len(s.path); j++ {
		p := &s.w.pieces[s.path[j]]
		e, from := p.edge, p.from
		if s.dir[j] < 0 {
			e, from = e.Reverse(), p.to
		}
		s.pos[from] = -1
		l = append(l, Vertex{e.A, e.Bulge})
	}
	s.path, s.dir = s.path[:k], s.dir[:k]
	s.loop = l
	if s.row = believed(s.row, l, s.w.tol); len(s.row) > 0 {
		s.out = append(s.out, slices.Clone(s.row))
	}
}

// believed returns the stitched loop with what lies in a row made one edge, in
// the memory of dst; nothing if it is a sliver. A sliver of the width w has the
// area w len/2. Moving its ends to nodes may even have turned it over, so holes
// must be wider to be believed.
func believed(dst, l Loop, tol float64) Loop {
	dst = l.appendMerged(dst[:0], Snap/10)
	if len(dst) == 0 {
		return dst
	}
	// Mostly the chords tell. Arcs are at most half a turn here, so no longer than
	// pi/2 chords, and between chord c and arc lie c^2 |bulge| / 3 to pi/8.
	o := dst[0].Point
	var least, greatest, length float64 // least and greatest of twice the area
	for i := range dst {
		e := dst.Edge(i)
		d := e.B.Sub(e.A)
		length += math.Abs(d.X) + math.Abs(d.Y)
		x := e.A.Sub(o).Cross(d)
		y := d.Dot(d) * e.Bulge
		least += x + min(2./3*y, math.Pi/4*y)
		greatest += x + max(2./3*y, math.Pi/4*y)
	}
	length *= math.Pi / 2
	if least/2 > 2*tol*length || greatest/2 < -8*tol*length {
		return dst
	}
	if a := dst.Area(); a > tol*dst.Len() || a < -4*tol*dst.Len() {
		return dst
	}
	return dst[:0]
}

// after returns the piece that follows the path's last one at node k, -1 if
// none leaves it.
func (s *stitcher) after(k int32) int32 {
	w := s.w
	at := w.at[w.first[k]:w.first[k+1]]
	next, n := int32(-1), 0
	short := math.Inf(1)
	for _, i := range at {
		if s.keep[i] == 0 {
			continue
		}
		if from, _ := s.ends(i); from == k {
			next = i
			n++
		}
	}
	if n < 2 {
		return next
	}
	for _, i := range at {
		short = math.Min(short, w.pieces[i].edge.Len())
	}
	// Directions a little way along, so that tangent pieces differ.
	leaving := func(e Edge) float64 {
		d := e.B.Sub(e.A)
		return math.Atan2(d.Y, d.X) - e.Sweep()*(1-short/2/e.Len())/2
	}
	last := len(s.path) - 1
	in := w.pieces[s.path[last]].edge
	if s.dir[last] > 0 {
		in = in.Reverse()
	}
	back := leaving(in)
	best := math.Inf(1)
	for _, i := range at {
		if s.keep[i] == 0 {
			continue
		}
		if from, _ := s.ends(i); from != k {
			continue
		}
		e := w.pieces[i].edge
		if s.keep[i] < 0 {
			e = e.Reverse()
		}
		// How far to turn clockwise from the way back: the inside is there.
		turn := math.Mod(back-leaving(e)+6*math.Pi, 2*math.Pi)
		if turn < 1e-12 {
			turn = 2 * math.Pi
		}
		if turn < best {
			best, next = turn, i
		}
	}
	return next
}
