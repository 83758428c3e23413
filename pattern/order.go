package pattern

import (
	"cmp"
	"math"
	"slices"

	"fretband/unroll/plane"
)

// What makes classes of size and rows, ours.
const (
	// sizeStep is how many times the area before it begins a new class: that an
	// opening is half as large again is seen at a glance.
	sizeStep = 1.5
	// sizeSpan is how many times its smallest area a class holds, so that a pattern
	// that grows little by little falls into classes too.
	sizeSpan = 3.0
	// sizeSame is what areas that are the same may differ by: a class does not end
	// between mirror images.
	sizeSame = 1e-6
	// rowShare is how far apart across the band the openings of a row may lie, as a
	// share of their mean height: rows that interlock lie half a height apart.
	rowShare = 0.4
)

// Run is one half of a row of openings, which are sawn one after the other: from the
// middle of the blank to the right, or from there to the left.
type Run struct {
	From, To int // the numbers of its openings
	// Across is the height of the row over the middle line, mm, at the middle of the
	// blank's length.
	Across float64
	Left   bool // it runs to the left
	Class  int  // of size, from 0, small before large
}

// seat is an opening as the order sees it.
type seat struct {
	opening                     int
	area, height, along, across float64
}

// number numbers the openings from 1 in the order in which they are best sawn, and
// sorts them so.
//
// Every opening weakens the sheet, a large one more than a small one, and what lies
// farthest from the rim is hardest to hold down once the metal about it is gone. So
// small ones come before large ones and, within a class of size, the rows nearest
// the middle line first, the upper before the lower; within a row the openings from
// the middle of the blank to the right, each beside the last, then those to the left
// (small first and from the inside out: common practice; classes and rows: ours).
func (s *Sheet) number() {
	seats, _ := s.sawn()
	sorted := make([]Opening, len(seats))
	for n, seat := range seats {
		sorted[n] = s.Openings[seat.opening]
		sorted[n].Number = n + 1
	}
	s.Openings = sorted
	slices.SortStableFunc(s.Dropped, func(a, b Dropped) int {
		return cmp.Or(cmp.Compare(uint(a.Field), uint(b.Field)), cmp.Compare(a.Row, b.Row), cmp.Compare(a.At.X, b.At.X))
	})
}

// Runs lists the half rows in which the openings are numbered, in that order.
func (s *Sheet) Runs() []Run {
	_, runs := s.sawn()
	return runs
}

// sawn returns the openings in the order of sawing, and its runs.
func (s *Sheet) sawn() ([]seat, []Run) {
	seats := s.seats()
	out := make([]seat, 0, len(seats))
	var runs []Run
	for class, own := range classes(seats) {
		slices.SortFunc(own, func(a, b seat) int { return sign(a.across - b.across) })
		for _, row := range rows(own) {
			slices.SortFunc(row, func(a, b seat) int {
				if a.along == b.along {
					return sign(b.across - a.across)
				}
				return sign(a.along - b.along)
			})
			middle, high := len(row), 0.0
			for i, o := range row {
				high += o.across / float64(len(row))
				if o.along >= -touch {
					middle = min(middle, i)
				}
			}
			for _, left := range [2]bool{false, true} {
				from := len(out) + 1
				if left {
					for i := middle - 1; i >= 0; i-- {
						out = append(out, row[i])
					}
				} else {
					out = append(out, row[middle:]...)
				}
				if to := len(out); to >= from {
					runs = append(runs, Run{from, to, high, left, class})
				}
			}
		}
	}
	return out, runs
}

// seats measures the openings: their positions along and across the band, those of a
// field that follows the width as if it were everywhere that of the middle.
func (s *Sheet) seats() []seat {
	// Of the widths along the band the ends may have none, so that a share of it says
	// nothing there.
	const least = 1e-3
	bottom, top := s.Flat.EdgesAt(0)
	flared, level := s.Flat.Flared(), s.Flat.Level()
	areas := map[int]float64{}
	seats := make([]seat, len(s.Openings))
	for i := range s.Openings {
		o := &s.Openings[i]
		area, known := areas[o.Shape]
		if !known || o.Shape < 0 {
			area = math.Abs(o.Loop.Area())
			areas[o.Shape] = area
		}
		at := o.Box.Centre()
		if flared {
			at = plane.Pt(s.Flat.Where(at))
		}
		if !level && o.Field >= 0 && s.Design.Fields[o.Field].Follow == FollowWidth {
			if low, high := s.Flat.EdgesAt(at.X); high-low > least {
				at.Y = bottom + (at.Y-low)/(high-low)*(top-bottom)
			}
		}
		seats[i] = seat{i, area, o.Box.H(), at.X, at.Y}
	}
	return seats
}

// classes sorts the openings by size and divides them into classes.
func classes(seats []seat) [][]seat {
	if least, most := extremes(seats); most <= sizeStep*least {
		return [][]seat{seats}[:min(1, len(seats))]
	}
	slices.SortFunc(seats, func(a, b seat) int { return sign(a.area - b.area) })
	var out [][]seat
	first := 0
	for i := range seats {
		if i == 0 {
			continue
		}
		a, before := seats[i].area, seats[i-1].area
		if a > sizeStep*before || a > sizeSpan*seats[first].area && a > (1+sizeSame)*before {
			out, first = append(out, seats[first:i]), i
		}
	}
	return append(out, seats[first:])
}

// sign returns -1, 0 or 1, as cmp.Compare(d, 0) does. (It sorts far quicker than comparisons
// that handle NaN.)
func sign(d float64) int {
	switch {
	case d < 0:
		return -1
	case d > 0:
		return 1
	}
	return 0
}

// extremes returns the least and the greatest area.
func extremes(seats []seat) (least, most float64) {
	least = math.Inf(1)
	for _, o := range seats {
		least, most = min(least, o.area), max(most, o.area)
	}
	return least, most
}

// rows divides openings of one class, lowest first, into rows and puts these in the
// order of their distance from the middle line.
func rows(own []seat) [][]seat {
	high := 0.0
	for _, o := range own {
		high += o.height
	}
	within := rowShare * high / float64(len(own))
	low, top := 0, len(own)
	for i, o := range own {
		if o.across < -within/2 {
			low = i + 1
		}
		if o.across > within/2 {
			top = min(top, i)
		}
	}
	var out, below [][]seat
	if low < top {
		out = append(out, own[low:top])
	}
	for low > 0 {
		from := low - 1
		for from > 0 && own[low-1].across-own[from-1].across <= within {
			from--
		}
		below, low = append(below, own[from:low]), from
	}
	for top < len(own) {
		to := top + 1
		for to < len(own) && own[to].across-own[top].across <= within {
			to++
		}
		// Those below that lie clearly nearer come first.
		for len(below) > 0 && -below[0][len(below[0])-1].across < own[top].across-within/2 {
			out, below = append(out, below[0]), below[1:]
		}
		out, top = append(out, own[top:to]), to
	}
	return append(out, below...)
}
