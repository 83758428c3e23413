package cut

import (
	"cmp"
	"math"
	"slices"

	"fretband/export"
	"fretband/unroll/plane"
)

// Measures of placing, mm: ours.
const (
	// nestExact is how near a pitch comes to the closest that keeps the gap, and by
	// how much a part may reach into the margin: rounding, far under what any machine
	// resolves.
	nestExact = 1e-7
	// nestSteps bounds the steps towards that pitch. Each is safe, so that one that is
	// not reached is wider than needed and no worse.
	nestSteps = 200
)

// nest places the copies that are asked for: the sheet and where each copy lies on it,
// in the order in which they are cut. The sheet's lower left corner is the origin.
//
// body is all that has to keep its distance, in the blank's own frame: outlines,
// lead-ins outside of them (as loops without area) and openings that run past an end.
//
// Copies are in straight rows, or columns, of one pitch; every second row may be
// moved along by a part of the pitch, or turned half round, where that takes less
// sheet. Pitches are the closest at which the true outlines keep the gap, not the boxes
// round them: the blanks of flared bands, arcs, lie one in the other like chevrons.
//
// On a sheet of stock the part lies along it, or else across, or else slanted, the
// first of these in which all copies have room: the grain of sheet runs along its
// length, and bends are better made across the grain (common practice). Without stock it
// lies along, and the sheet is the smallest of those that rows of any length make.
//
// Errors: a [RoomError].
func nest(body []plane.Loop, o export.Options) (plane.Box, []placed, error) {
	n, margin, gap := o.Parts(), o.Margin(), o.Gap()
	if arcs(body) {
		// Chords of hollow arcs reach out that far: they are allowed for instead of
		// placed, for there are many of them.
		margin, gap = margin+o.Chord(), gap+2*o.Chord()
	}
	if o.StockW == 0 {
		if n == 1 {
			return plane.Region(body).Bounds().Grow(margin), []placed{{}}, nil
		}
		l := tightest(body, gap, margin, n)
		w, h := l.size(n)
		sheet := plane.Box{Max: plane.Pt(w+2*margin, h+2*margin)}
		return sheet, l.positions(n, margin), nil
	}
	sheet := plane.Box{Max: plane.Pt(o.StockW, o.StockH)}
	room := plane.Pt(o.StockW-2*margin, o.StockH-2*margin)
	best := nesting{a: newFootprint(body, 0)}
	for _, angles := range []func() []float64{
		func() []float64 { return []float64{0, math.Pi / 2} },
		func() []float64 { return slants(body, room) },
	} {
		for _, a := range angles() {
			l := bestIn(newFootprint(body, a), gap, n, room)
			if l.holds >= n {
				return sheet, l.positions(n, margin), nil
			}
			if l.holds > best.holds {
				best = l
			}
		}
	}
	return sheet, nil, &RoomError{
		Asked: n, Fit: best.holds,
		WideMM: best.a.w, HighMM: best.a.h,
		SheetWideMM: o.StockW, SheetHighMM: o.StockH,
		MarginMM: o.Margin(), ClearanceMM: o.Gap(),
	}
}

func arcs(ls []plane.Loop) bool {
	for _, l := range ls {
		for _, v := range l {
			if v.Bulge != 0 {
				return true
			}
		}
	}
	return false
}

// footprint is what a copy takes of the sheet, turned, with the lower left corner of
// the box round it in the origin.
type footprint struct {
	rotation float64
	shift    plane.Point // from the turned blank's frame
	w, h     float64
	loops    []plane.Loop
	boxes    []plane.Box // round each loop
}

func newFootprint(body []plane.Loop, rotation float64) footprint {
	f := footprint{rotation: rotation}
	for _, l := range body {
		f.loops = append(f.loops, placed{rotation: rotation}.loop(l))
	}
	b := plane.Region(f.loops).Bounds()
	f.shift = plane.Pt(-b.Min.X, -b.Min.Y)
	f.w, f.h = b.W(), b.H()
	for i, l := range f.loops {
		f.loops[i] = l.Move(f.shift)
	}
	f.boxes = plane.Boxes(f.loops)
	return f
}

// extent returns the size along an axis.
func (f footprint) extent(a axis) float64 {
	if a == across {
		return f.h
	}
	return f.w
}

// apart returns the shortest gap between f and g moved by v, or one of the length limit
// if it is no shorter.
func (f footprint) apart(g footprint, v plane.Point, limit float64) plane.Gap {
	least := plane.Gap{D: limit}
	box := plane.Box{Max: plane.Pt(g.w, g.h)}.Move(v)
	if !(plane.Box{Max: plane.Pt(f.w, f.h)}).Nearer(box, limit) {
		return least
	}
	for i, l := range g.loops {
		box := g.boxes[i].Move(v)
		var moved plane.Loop
		for j, k := range f.loops {
			if !f.boxes[j].Nearer(box, least.D) {
				continue
			}
			if moved == nil {
				moved = l.Move(v)
			}
			if gap := plane.Nearest(k, moved); gap.D < least.D {
				least = gap
			}
		}
	}
	return least
}

// axis is a direction of the sheet.
type axis int

const (
	along  axis = iota // x
	across             // y
)

func (a axis) other() axis { return across - a }

// point returns the point u along the axis and v along the other.
func (a axis) point(u, v float64) plane.Point {
	if a == across {
		return plane.Pt(v, u)
	}
	return plane.Pt(u, v)
}

func (a axis) of(p plane.Point) float64 {
	if a == across {
		return p.Y
	}
	return p.X
}

// nesting is a pattern of copies: rows along an axis, one beside the other along the
// other axis. Even rows hold a, odd ones b, moved along by shift.
type nesting struct {
	a, b    footprint
	row     axis
	many    int // copies in a row
	pitch   float64
	shift   float64
	first   float64 // from an even row to the odd one after it
	period  float64 // from an even row to the next even one
	oddMany int     // copies in an odd row
	holds   int     // copies that have room; only of one on a sheet of stock
}

// level returns where row r lies across the rows.
func (l nesting) level(r int) float64 {
	return float64(r/2)*l.period + float64(r%2)*l.first
}

// rows returns how many rows hold n copies.
func (l nesting) rows(n int) int {
	pair := l.many + l.oddMany
	r := n / pair * 2
	switch rest := n % pair; {
	case rest > l.many:
		r += 2
	case rest > 0:
		r++
	}
	return r
}

// size returns the size of the box round the first n copies.
func (l nesting) size(n int) (w, h float64) {
	rows := l.rows(n)
	u := float64(min(n, l.many)-1)*l.pitch + l.a.extent(l.row)
	if rows > 1 {
		odd := min(n-l.many, l.oddMany)
		u = math.Max(u, l.shift+float64(odd-1)*l.pitch+l.b.extent(l.row))
	}
	v := 0.0
	for r := max(0, rows-2); r < rows; r++ {
		v = math.Max(v, l.level(r)+l.a.extent(l.row.other()))
	}
	p := l.row.point(u, v)
	return p.X, p.Y
}

// positions returns where the first n copies lie, row by row.
func (l nesting) positions(n int, margin float64) []placed {
	ps := make([]placed, 0, n)
	corner := plane.Pt(margin, margin)
	for r := 0; len(ps) < n; r++ {
		f, from, many := l.a, 0.0, l.many
		if r%2 == 1 {
			f, from, many = l.b, l.shift, l.oddMany
		}
		for i := 0; i < many && len(ps) < n; i++ {
			at := l.row.point(from+float64(i)*l.pitch, l.level(r))
			ps = append(ps, placed{rotation: f.rotation, at: corner.Add(at).Add(f.shift)})
		}
	}
	return ps
}

// variant is a kind of rows.
type variant struct {
	turned bool
	share  float64
}

// dear makes a variant other than plain rows look larger than it is: for less than half
// a percent of the sheet no part is turned.
func (v variant) dear(area float64) float64 {
	if v.turned || v.share > 0 {
		return area * 1.005
	}
	return area
}

// variants are the ways in which odd rows are tried: turned half round or not, and
// moved along by a share of the pitch. Those that lie
// closest are taken.
var variants = []variant{
	{false, 0}, {false, 0.5},
	{true, 0}, {true, 0.25}, {true, 0.5}, {true, 0.75},
}

// newNesting works out the closest rows of the given kind; ok is false where room,
// along the row, does not even hold one copy in each.
func newNesting(a, b footprint, row axis, share, gap, room float64, most int) (l nesting, ok bool) {
	l = nesting{a: a, b: b, row: row, many: 1, oddMany: 1}
	size := a.extent(row)
	if size > room+nestExact {
		return l, false
	}
	if most > 1 {
		l.pitch = l.closestInRow(gap)
		l.many = min(most, fit(room-size, l.pitch))
		l.shift = share * l.pitch
	}
	if l.shift+size > room+nestExact {
		return l, false
	}
	l.oddMany = min(l.many, fit(room-size-l.shift, l.pitch))
	if b.rotation == a.rotation && l.shift == 0 {
		l.first = l.closestRows(gap)
		l.period = 2 * l.first
		return l, true
	}
	l.first = l.closestOdd(gap)
	l.period = l.closestPeriod(gap)
	return l, true
}

// fit returns how many copies are in a row whose first and last are room apart.
func fit(room, pitch float64) int {
	if pitch == 0 {
		return 1
	}
	if n := math.Floor((room+nestExact)/pitch) + 1; n < export.MaxCopies {
		return int(n)
	}
	return export.MaxCopies
}

// A pitch shrinks by no more than a quarter at a time, and copies are asked as far off as
// half again the extent of their boxes: so none that is left out comes within the gap.
const (
	shrink = 4
	search = 1.5
)

// leastPitch is less than any pitch: two equal things are no farther apart than one is
// moved to become the other. The share of the size bounds the work for tiny gaps.
func leastPitch(size, gap float64) float64 { return math.Max(gap, size/export.MaxCopies) }

// closestInRow returns the pitch of a row: all copies keep the gap, not only
// neighbours.
func (l nesting) closestInRow(gap float64) float64 {
	size := l.a.extent(l.row)
	return slide(size+gap, leastPitch(size, gap), func(t float64) (slack, way float64) {
		slack, way = t/shrink, t
		for k := 1.0; k*t < search*(size+gap); k++ {
			slack, way = l.tighter(slack, way, l.a, l.a, l.row.point(k*t, 0), l.row.point(k, 0), gap, k)
		}
		return slack, way
	})
}

// closestRows returns the pitch of rows that are all alike.
func (l nesting) closestRows(gap float64) float64 {
	size := l.a.extent(l.row.other())
	return slide(size+gap, leastPitch(size, gap), func(t float64) (slack, way float64) {
		slack, way = t/shrink, t
		for m := 1.0; m*t < search*(size+gap); m++ {
			slack, way = l.tighterRow(slack, way, l.a, l.a, 0, m*t, gap, m)
		}
		return slack, way
	})
}

// closestOdd returns the way from an even row to an odd one.
func (l nesting) closestOdd(gap float64) float64 {
	return slide(l.a.extent(l.row.other())+gap, 0, func(t float64) (slack, way float64) {
		return l.tighterRow(math.Inf(1), math.Inf(1), l.a, l.b, l.shift, t, gap, 1)
	})
}

// closestPeriod returns the way from an even row to the next even one.
func (l nesting) closestPeriod(gap float64) float64 {
	size := l.a.extent(l.row.other())
	return slide(l.first+size+gap, math.Max(l.first, leastPitch(size, gap)), func(t float64) (slack, way float64) {
		slack, way = t/shrink, t
		for m := 1.0; m*t < search*(l.first+size+gap); m++ {
			slack, way = l.tighterRow(slack, way, l.a, l.a, 0, m*t, gap, m)
			// Odd rows among themselves keep the distances of even ones: a turned pair
			// is the pair seen from the other side.
			slack, way = l.tighterRow(slack, way, l.a, l.b, l.shift, l.first+m*t, gap, m)
			slack, way = l.tighterRow(slack, way, l.b, l.a, -l.shift, m*t-l.first, gap, m)
		}
		return slack, way
	})
}

// tighterRow is tighter for a copy f and a whole row of copies g that begins moved by
// u along and v across, and is taken further across k times as fast as what slides.
func (l nesting) tighterRow(slack, way float64, f, g footprint, u, v, gap, k float64) (float64, float64) {
	wide := l.a.extent(l.row) + gap
	from, to := 0, 0
	if l.many > 1 {
		// Copies of the row on either side: those of f's own row are the same ones seen
		// from the others.
		from = max(-l.many, int(math.Ceil((-wide-u)/l.pitch)))
		to = min(l.many, int(math.Floor((wide-u)/l.pitch)))
	}
	for i := from; i <= to; i++ {
		slack, way = l.tighter(slack, way, f, g, l.row.point(u+float64(i)*l.pitch, v), l.row.point(0, k), gap, k)
	}
	return slack, way
}

// tighter returns the lesser of the slack so far and that of g moved by at, which
// moves on with the speed by, k in all; and with it the way that the estimate of
// [slide] takes.
func (l nesting) tighter(slack, way float64, f, g footprint, at, by plane.Point, gap, k float64) (float64, float64) {
	near := f.apart(g, at, gap+slack*k)
	s := (near.D - gap) / k
	if s >= slack {
		return slack, way
	}
	slope := near.B.Sub(near.A).Unit().Dot(by)
	if slope <= 0 {
		return s, s
	}
	return s, (near.D - gap) / slope
}

// slide returns how close things come that slide together from distance t, where they
// are well apart, to least at most. It asks by how much t may shrink for sure (slack:
// a gap shrinks no faster than what moves) and by how much it may to judge by the slope
// (way). A step by the slope is taken where it does not prove too long.
func slide(t, least float64, ask func(t float64) (slack, way float64)) float64 {
	slack, way := ask(t)
	for range nestSteps {
		if slack <= nestExact || t <= least {
			break
		}
		safe := math.Max(least, t-slack)
		if try := math.Max(least, t-way); try < safe {
			if s, w := ask(try); s >= 0 {
				t, slack, way = try, s, w
				continue
			}
		}
		t = safe
		slack, way = ask(t)
	}
	return t
}

// nestings calls use with every kind of rows of a part.
func nestings(a footprint, use func(b footprint, row axis, v variant)) {
	half := a.halfTurned()
	for _, row := range []axis{across, along} {
		for _, v := range variants {
			b := a
			if v.turned {
				b = half
			}
			use(b, row, v)
		}
	}
}

// halfTurned returns the footprint turned half round.
func (f footprint) halfTurned() footprint {
	g := newFootprint(f.loops, math.Pi)
	// f.loops are already turned by f.rotation and moved by f.shift.
	g.rotation = f.rotation + math.Pi
	g.shift = g.shift.Sub(f.shift)
	return g
}

// bestIn returns the nesting that takes the least of the sheet of those that hold n
// copies in the room, or else the one that holds most.
func bestIn(a footprint, gap float64, n int, room plane.Point) nesting {
	best := nesting{a: a}
	bestArea := math.Inf(1)
	nestings(a, func(b footprint, row axis, v variant) {
		l, ok := newNesting(a, b, row, v.share, gap, row.of(room), n)
		if !ok {
			return
		}
		l.holds = l.capacity(row.other().of(room), n)
		area := math.Inf(1)
		if l.holds >= n {
			w, h := l.size(n)
			area = v.dear(w * h)
		}
		if l.holds > best.holds || l.holds == best.holds && area < bestArea*(1-1e-9) {
			best, bestArea = l, area
		}
	})
	return best
}

// capacity returns how many copies have room across the rows, n at most.
func (l nesting) capacity(room float64, n int) int {
	size := l.a.extent(l.row.other())
	held := 0
	for r := 0; held < n && l.level(r)+size <= room+nestExact; r++ {
		if r%2 == 0 {
			held += l.many
		} else {
			held += l.oddMany
		}
	}
	return min(held, n)
}

// tightest returns the nesting of n copies whose sheet is smallest. Sheets larger than
// stock may be come last.
func tightest(body []plane.Loop, gap, margin float64, n int) nesting {
	a := newFootprint(body, 0)
	var best nesting
	bestArea := math.Inf(1)
	take := func(l nesting, v variant) {
		w, h := l.size(n)
		w, h = w+2*margin, h+2*margin
		area := v.dear(w * h)
		if math.Max(w, h) > export.MaxStockMM {
			area += export.MaxStockMM * export.MaxStockMM * math.Max(w, h)
		}
		if area < bestArea*(1-1e-9) {
			best, bestArea = l, area
		}
	}
	nestings(a, func(b footprint, row axis, v variant) {
		// Rows of one copy come closer to each other than longer ones may.
		if l, ok := newNesting(a, b, row, v.share, gap, math.Inf(1), 1); ok && v.share == 0 {
			take(l, v)
		}
		l, ok := newNesting(a, b, row, v.share, gap, math.Inf(1), n)
		for many := 2; ok && many <= n; many++ {
			l.many, l.oddMany = many, many
			take(l, v)
		}
	})
	return best
}

// slants returns the angles, rad, at which a part has room slanted, those nearest to
// along first: every 15 degrees, and where it stays farthest inside, so that one longer
// than the sheet's sides may lie from corner to corner.
func slants(body []plane.Loop, room plane.Point) []float64 {
	const degree = math.Pi / 180
	over := func(a float64) float64 {
		f := newFootprint(body, a)
		return math.Max(f.w-room.X, f.h-room.Y)
	}
	var o [180]float64
	for i := range o {
		o[i] = over(float64(i) * degree)
	}
	var angles []float64
	for i := range o {
		if i%90 == 0 {
			continue
		}
		a := float64(i) * degree
		if i%15 == 0 && o[i] <= nestExact {
			angles = append(angles, a)
		}
		if o[i] <= o[i-1] && o[i] < o[(i+1)%180] {
			if a = lowest(over, a-degree, a+degree); over(a) <= nestExact {
				angles = append(angles, a)
			}
		}
	}
	slices.SortStableFunc(angles, func(a, b float64) int {
		return cmp.Compare(math.Abs(math.Sin(a)), math.Abs(math.Sin(b)))
	})
	return angles
}

// lowest returns where f is least between a and b, by golden sections.
func lowest(f func(float64) float64, a, b float64) float64 {
	const g = 0.6180339887498949
	c, d := b-g*(b-a), a+g*(b-a)
	fc, fd := f(c), f(d)
	for range 40 {
		if fc <= fd {
			b, d, fd = d, c, fc
			c = b - g*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + g*(b-a)
			fd = f(d)
		}
	}
	return (a + b) / 2
}
