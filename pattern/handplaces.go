package pattern

import (
	"cmp"
	"math"
	"slices"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// EditPosition is one position of an edit, or a mirror image of one.
type EditPosition struct {
	Edit, Spot   int // as of [Idle]
	At           plane.Point
	FlipX, FlipY bool // it is the mirror image, left to right and top to bottom
}

// EditPositions lists all positions of the design's edits with their mirror images, edit
// by edit: first those of the design itself, then all their images of one kind. An
// image that falls on its own position is left out, unless it is a tie's. On a band that closes, positions lie
// within its one period.
func EditPositions(d Design, f unroll.Flat) []EditPosition {
	var out []EditPosition
	for e, edit := range d.Edits {
		for k, fl := range edit.flips() {
			for i, s := range edit.At {
				at := plane.Pt(s.XMM, s.YMM)
				x, v := f.Where(at)
				ix, iv := x, v
				if fl.x {
					ix = -x
				}
				if fl.y {
					iv = -v
				}
				if k > 0 {
					onAxis := fl.x && math.Abs(x) <= plane.Snap || fl.y && math.Abs(v) <= plane.Snap
					if onAxis && edit.Do != Tie { // which runs another way from there
						continue
					}
					at = f.Place(ix, iv)
				}
				out = append(out, EditPosition{e, k*len(edit.At) + i, seamOf(d, f).home(at), fl.x, fl.y})
			}
		}
	}
	return out
}

// flip says which way a mirror image is turned over.
type flip struct{ x, y bool }

// flips are the images of an edit, first the edit itself.
func (e Edit) flips() []flip {
	switch e.Mirror {
	case MirrorAlong:
		return []flip{{}, {x: true}}
	case MirrorAcross:
		return []flip{{}, {y: true}}
	case MirrorBoth:
		return []flip{{}, {x: true}, {y: true}, {true, true}}
	}
	return []flip{{}}
}

// lieAlong returns the angle at p of the band's own direction, radians: 0 but on a
// flared band.
func lieAlong(f unroll.Flat, p plane.Point) float64 {
	if !f.Flared() {
		return 0
	}
	x, v := f.Where(p)
	d := f.Along(x, v, 0)
	return math.Atan2(d.Y, d.X)
}

// spots finds the positions of edits that lie in a cell. It is nil for a design
// without edits.
type spots struct {
	sorted []hit // by x; on a band with a period each three times
}

// hit says that a position of an edit lies in a cell: which one, and where, since the
// cell may be drawn a period away.
type hit struct {
	position int // index in EditPositions
	at       plane.Point
}

func newSpots(d Design, f unroll.Flat) *spots {
	if len(d.Edits) == 0 {
		return nil
	}
	var s spots
	for i, p := range EditPositions(d, f) {
		if do := d.Edits[p.Edit].Do; do == Add || do == Tie {
			continue // it asks for no cell
		}
		for _, by := range f.Copies() {
			s.sorted = append(s.sorted, hit{i, p.At.Add(by)})
		}
	}
	if len(s.sorted) == 0 {
		return nil
	}
	slices.SortStableFunc(s.sorted, func(a, b hit) int { return cmp.Compare(a.at.X, b.at.X) })
	return &s
}

// in returns the positions in a loop, in the order of the list.
func (s *spots) in(l plane.Loop, box plane.Box) []hit {
	if s == nil {
		return nil
	}
	i, _ := slices.BinarySearchFunc(s.sorted, box.Min.X, func(h hit, x float64) int { return cmp.Compare(h.at.X, x) })
	var in []hit
	for ; i < len(s.sorted) && s.sorted[i].at.X <= box.Max.X; i++ {
		if h := s.sorted[i]; box.Contains(h.at) && l.Contains(h.at) {
			in = append(in, h)
		}
	}
	slices.SortFunc(in, func(a, b hit) int { return cmp.Compare(a.position, b.position) })
	return in
}

// hitCell is a cell of the pattern that holds positions of edits. What is made of it
// points to it until the edits are done.
type hitCell struct {
	loop plane.Loop // its territory, before any inset
	hits []hit
}
