package pattern

import (
	"cmp"
	"iter"
	"math"
	"slices"

	"fretband/unroll/plane"
)

// Copy is one of the things that [Near] knows, where it is near a position: on the
// blank, or so many times round a closed band. Its methods carry what belongs to the
// thing to where the copy is, and back.
type Copy struct {
	Of  int       // index of the thing
	Box plane.Box // round the copy
	Round
}

// Near answers what is near a position, over the seam of a closed band too: the one
// place where anything is copied over the seam.
//
// To ask about openings take [Sheet.Near]; about anything else on the blank
// [Sheet.NearBoxes] with the boxes round it. Both sort once; the answers look only at
// what may be near. Ask then
//
//   - [Near.To] for all that is near a box: hit tests, the bridges of one opening,
//     what a hand adds;
//   - [Near.Pairs] for all pairs that are near each other while the distance shrinks:
//     a search for the least of something;
//   - [Sheet.Pairs] for all pairs of openings under a distance, with their exact gaps.
//
// An opening may be near its own copy. On an open band every Round is zero.
type Near struct {
	seam   seam
	boxes  []plane.Box
	along  [][2]float64 // of each, on a flared band
	order  []int        // by the left ends of the boxes, without empty ones
	lefts  []float64    // in that order
	widest float64
	lo, hi float64 // along the band, of all
}

// Near returns the sheet's openings, ready to be asked.
func (s *Sheet) Near() *Near {
	boxes := make([]plane.Box, len(s.Openings))
	for i := range boxes {
		boxes[i] = s.Openings[i].Box
	}
	return s.NearBoxes(boxes)
}

// NearBoxes returns things on the sheet's blank, known by the boxes round them, ready
// to be asked.
func (s *Sheet) NearBoxes(boxes []plane.Box) *Near {
	n := &Near{seam: s.seam(), boxes: boxes, lo: math.Inf(1), hi: math.Inf(-1)}
	n.order = make([]int, 0, len(boxes))
	for i, b := range boxes {
		if b.Empty() {
			continue
		}
		n.order = append(n.order, i)
		n.widest = math.Max(n.widest, b.W())
	}
	slices.SortStableFunc(n.order, func(i, j int) int { return cmp.Compare(boxes[i].Min.X, boxes[j].Min.X) })
	n.lefts = make([]float64, len(n.order))
	if n.meetsByTurning() {
		n.along = make([][2]float64, len(boxes))
	}
	for k, i := range n.order {
		n.lefts[k] = boxes[i].Min.X
		lo, hi := n.seam.along(boxes[i])
		n.lo, n.hi = math.Min(n.lo, lo), math.Max(n.hi, hi)
		if n.along != nil {
			n.along[i] = [2]float64{lo, hi}
		}
	}
	return n
}

// meetsByTurning reports whether the ends of the blank meet by turning.
func (n *Near) meetsByTurning() bool { return n.seam.closed && n.seam.flat.Flared() }

// To yields every thing and copy whose box is less than d, mm, from the box given, which
// may itself lie over the seam. Of things of which farther copies are less than d away
// because the band is hardly longer than that, those behind a nearer copy
// are left out.
func (n *Near) To(box plane.Box, d float64) iter.Seq[Copy] {
	return func(yield func(Copy) bool) { n.to(box, d, math.MinInt, yield) }
}

// to yields the copies that are least or more times round. It returns false once yield
// has.
func (n *Near) to(box plane.Box, d float64, least int, yield func(Copy) bool) bool {
	if len(n.order) == 0 || box.Empty() {
		return true
	}
	from, to := n.seam.along(box)
	first, last := n.rounds(from, to, d)
	for k := max(first, least); k <= last; k++ {
		r := n.seam.round(k)
		// What is near the box carried back is what has a copy near the box.
		home := box
		if k != 0 {
			home = r.back().box(box)
		}
		start, _ := slices.BinarySearch(n.lefts, home.Min.X-d-n.widest)
		for _, i := range n.order[start:] {
			b := n.boxes[i]
			if b.Min.X > home.Max.X+d {
				break
			}
			if !b.Nearer(home, d) || k != 0 && !n.stands(i, k, from, to) {
				continue
			}
			if k != 0 {
				b = r.box(b)
			}
			if !yield(Copy{i, b, r}) {
				return false
			}
		}
	}
	return true
}

// rounds returns how many times round, from first to last, there are copies that may be
// less than d from what reaches from one position to another along the band.
func (n *Near) rounds(from, to, d float64) (first, last int) {
	if !n.seam.closed {
		return 0, 0
	}
	length := n.seam.flat.Length
	// One round on from a copy that already lies wholly to the right of something it
	// is farther off, whatever the heights.
	d = math.Min(d, length)
	if n.meetsByTurning() {
		d = math.Min(length, n.faces())
	}
	return int(math.Ceil((from - d - n.hi) / length)), int(math.Floor((to + d - n.lo) / length))
}

// faces is how far apart along a flared band two positions may lie for the straight line
// between them on the flat to run where the band does: half a turn about the apex.
func (n *Near) faces() float64 { return math.Pi * math.Abs(n.seam.flat.Apex()) }

// stands reports whether the copy of thing i, k times round, is before what reaches
// from one position to another along the band: on a flared band whose blank goes far round
// the apex a copy, or the far end of one, may come to lie over it where the band itself
// is elsewhere. So all of both has to lie within half a turn.
func (n *Near) stands(i, k int, from, to float64) bool {
	if n.along == nil {
		return true
	}
	on := float64(k) * n.seam.flat.Length
	return math.Max(n.along[i][1]+on, to)-math.Min(n.along[i][0]+on, from) < n.faces()
}

// Pairs yields all pairs whose boxes are less than within() apart, which is asked again
// for each and may shrink: a thing where it lies and another, or its copy one or more
// times round. Each pair is yielded once, seen from one side.
func (n *Near) Pairs(within func() float64) iter.Seq2[int, Copy] {
	return func(yield func(int, Copy) bool) {
		for k, i := range n.order {
			a := n.boxes[i]
			for _, j := range n.order[k+1:] {
				d, b := within(), n.boxes[j]
				if b.Min.X > a.Max.X+d {
					break
				}
				if a.Nearer(b, d) && !yield(i, Copy{Of: j, Box: b}) {
					return
				}
			}
		}
		if !n.seam.closed {
			return
		}
		for _, i := range n.order {
			if !n.to(n.boxes[i], within(), 1, func(c Copy) bool { return yield(i, c) }) {
				return
			}
		}
	}
}

// NearPair is two openings and the shortest gap between their edges, A on that of I and
// B on that of J where its copy is: Home(B) is its position on the blank. They may be
// one opening and its own copy.
type NearPair struct {
	I, J int // indexes of openings
	Round
	plane.Gap
}

// Pairs returns all pairs of openings whose edges are less than d, mm, apart, over the
// seam too, each once: those on the blank with I < J, and an opening with a copy that is
// one or more times round. In the order of I. Exact, as [plane.Pairs].
func (s *Sheet) Pairs(d float64) []NearPair {
	loops := make([]plane.Loop, len(s.Openings))
	for i := range loops {
		loops[i] = s.Openings[i].Loop
	}
	n := s.Near()
	var copies []Copy
	if n.seam.closed {
		copies = n.beyond(d)
		for _, c := range copies {
			loops = append(loops, c.Loop(s.Openings[c.Of].Loop))
		}
	}
	var pairs []NearPair
	for _, p := range plane.Pairs(loops, d) {
		c := Copy{Of: p.J}
		switch k := p.J - len(s.Openings); {
		case k < 0:
		case p.I >= len(s.Openings):
			continue // both are copies: met where they lie
		default:
			c = copies[k]
			if n.along != nil && !n.stands(c.Of, c.N, n.along[p.I][0], n.along[p.I][1]) {
				continue
			}
		}
		pairs = append(pairs, NearPair{p.I, c.Of, c.Round, p.Gap})
	}
	return pairs
}

// beyond returns the copies, one or more times round, that are less than d from
// anything on the blank.
func (n *Near) beyond(d float64) []Copy {
	var all []Copy
	seen := map[[2]int]bool{}
	for _, i := range n.order {
		n.to(n.boxes[i], d, 1, func(c Copy) bool {
			if key := [2]int{c.Of, c.N}; !seen[key] {
				seen[key] = true
				all = append(all, c)
			}
			return true
		})
	}
	slices.SortFunc(all, func(a, b Copy) int { return cmp.Or(cmp.Compare(a.N, b.N), cmp.Compare(a.Of, b.Of)) })
	return all
}
