package pattern

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"fretband/pattern/added"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Set is one of the design's added parts, with all of its row, as it sits on the outside of
// the band.
type Set struct {
	Added int // its index in the design
	// Seats are those of stones, beads and parts, Wires those of wire.
	Seats []Seat
	Wires []Wire
	// Rows are the strips that beads along an edge or a line cover.
	Rows []plane.Loop
	// SizeMM is the diameter of beads; GapMM the least distance of two neighbours of a row,
	// mm: of beads in space, of others on the blank. It is infinite where there is no row.
	SizeMM, GapMM float64
	Step          float64 // of a row of stones or parts, from middle to middle on the outer face, mm

	solid []plane.Loop // what it takes of the ground; [layAdded] adds the margin
}

// Seat is where one part sits.
type Seat struct {
	At       plane.Point // its middle
	Rotation float64     // of its length, radians
	Loop     plane.Loop  // its own outline: of a stone its girdle
	Outside  plane.Loop  // with its bezel; the same without one
}

// bezelled reports whether there is a bezel round it.
func (s Seat) bezelled() bool { return s.Outside.Bounds() != s.Loop.Bounds() }

// Wire is one length of border wire.
type Wire struct {
	Loop   plane.Loop // what it covers
	Length float64    // mm, through the centroid of its section
	// Way holds points along its middle, on the blank.
	Way []plane.Point
}

// Stone returns what the part is cut of: its cut, its stone with the specific gravity in force.
func (a Added) Stone() (added.Cut, added.Gem) {
	c, _ := added.CutOf(a.Cut)
	g, _ := added.GemOf(a.Gem)
	if g.Key == added.OwnGem {
		g.Gravity = a.SG
	}
	return c, g
}

func onEdge(row string) bool { return row == RowTop || row == RowBottom || row == RowBoth }

// across returns how wide a part along an edge is, square to it, mm.
func (a Added) across() float64 {
	switch {
	case a.Kind == StonePart:
		c, _ := a.Stone()
		w := a.HeightMM
		if c.Even {
			w = a.WidthMM
		}
		return w + 2*a.WallMM
	case a.Kind == OtherPart && a.Seat != CircleShape:
		return a.HeightMM
	}
	return a.WidthMM
}

// outlines returns a part about its own middle: its own outline, and that with its bezel.
func (a Added) outlines() (own, outside plane.Loop) {
	switch a.Kind {
	case StonePart:
		c, _ := a.Stone()
		own = c.Outline(a.WidthMM, a.HeightMM)
	case OtherPart:
		own, _ = outline{shape: a.Seat, width: a.WidthMM, height: a.HeightMM}.loop(plane.Point{})
	default:
		own = plane.Circle(plane.Point{}, a.WidthMM/2)
	}
	outside = own
	if a.Setting == Bezel {
		if r := own.Outset(a.WallMM); len(r) > 0 {
			outside = r[0]
		}
	}
	return own, outside
}

// layAdded seats all that is soldered or set on.
func layAdded(d Design, f unroll.Flat) ([]Set, error) {
	var sets []Set
	for i, a := range d.Added {
		s := Set{Added: i, SizeMM: a.WidthMM, GapMM: math.Inf(1)}
		rows := []string{a.Row}
		if a.Row == RowBoth {
			rows = []string{RowTop, RowBottom}
		}
		for _, row := range rows {
			var err error
			a.Row = row
			switch a.Kind {
			case WirePart:
				err = s.layWire(a, f)
			case BeadsPart:
				err = s.layBeads(a, f)
			default:
				err = s.layRow(a, f)
			}
			if err != nil {
				return nil, fieldOf(i, err)
			}
		}
		a.WidthMM = s.SizeMM
		s.solid = grown(s.solid, a, d.Rules.BridgeMM)
		sets = append(sets, s)
	}
	return sets, nil
}

// seatError says what is wrong with a value of a part.
type seatError struct{ field, msg string }

func (e *seatError) Error() string { return e.msg }

func fieldOf(i int, err error) error {
	if e, ok := err.(*seatError); ok {
		return &unroll.FieldError{Path: fmt.Sprintf("added[%d].%s", i, e.field), Msg: e.msg}
	}
	return err
}

// grown adds the margin to what is kept solid, and more where a part is narrower than a bridge,
// as round reserves.
func grown(ls []plane.Loop, a Added, bridge float64) []plane.Loop {
	margin := math.Max(a.MarginMM+plane.FitTolerance, (bridge-a.across())/2)
	var out []plane.Loop
	for _, l := range ls {
		out = append(out, l.Outset(margin)...)
	}
	return out
}

// path is a way over the outside of the band, with the length along it in space.
type path struct {
	at       plane.Curve // on the blank
	from, to float64
	closed   bool
	ts, ss   []float64 // parameters, and the length up to there
	// Total length, mm.
	length float64
}

// pathSteps are the chords by which lengths are measured: on a circle all round they are short by
// 2e-6, which [path.measure] takes out to below 1e-9.
const pathSteps = 1024

// measure measures the path at a height above the outer face, mm.
func (p *path) measure(f unroll.Flat, height float64) {
	p.ts, p.ss = make([]float64, pathSteps+1), make([]float64, pathSteps+1)
	var last, before unroll.Point3
	var coarse float64
	for i := range pathSteps + 1 {
		t := p.from + (p.to-p.from)*float64(i)/pathSteps
		q, _ := p.at(t)
		b := f.Bend(q, f.Thickness+height)
		p.ts[i] = t
		if i > 0 {
			p.ss[i] = p.ss[i-1] + apart(last, b)
		}
		if i%2 == 0 {
			if i > 0 {
				coarse += apart(before, b)
			}
			before = b
		}
		last = b
	}
	// Chords fall short by the square of their length (Richardson).
	fine := p.ss[pathSteps]
	p.length = fine + (fine-coarse)/3
	if fine > 0 {
		for i := range p.ss {
			p.ss[i] *= p.length / fine
		}
	}
}

func apart(a, b unroll.Point3) float64 {
	return math.Sqrt((a.X-b.X)*(a.X-b.X) + (a.Y-b.Y)*(a.Y-b.Y) + (a.Z-b.Z)*(a.Z-b.Z))
}

// param returns the parameter at the length s along the path, which goes on round a closed
// one.
func (p *path) param(s float64) float64 {
	if p.closed {
		s -= p.length * math.Floor(s/p.length)
	}
	i := sort.SearchFloat64s(p.ss, s)
	if i == 0 {
		return p.ts[0]
	}
	if i >= len(p.ss) {
		return p.ts[len(p.ts)-1]
	}
	u := (s - p.ss[i-1]) / (p.ss[i] - p.ss[i-1])
	return p.ts[i-1] + u*(p.ts[i]-p.ts[i-1])
}

// lengthTo returns the length up to a parameter, held to the path.
func (p *path) lengthTo(t float64) float64 {
	u := math.Max(0, math.Min(1, (t-p.from)/(p.to-p.from))) * pathSteps
	i := min(pathSteps-1, int(u))
	return p.ss[i] + (u-float64(i))*(p.ss[i+1]-p.ss[i])
}

// pathOf returns the way that the middles of a part so wide follow. On an open band it ends
// where the part would come nearer to an end than to the edge.
func (a Added) pathOf(f unroll.Flat, open bool, across float64) path {
	half := f.Length / 2
	p := path{from: -half, to: half, closed: !open}
	switch a.Row {
	case RowCircle, RowOval:
		w, h := a.RowWidthMM/2, a.RowHeightMM/2
		if a.Row == RowCircle {
			h = w
		}
		p.from, p.to, p.closed = 0, 2*math.Pi, true
		p.at = func(t float64) (plane.Point, plane.Point) {
			sin, cos := math.Sincos(t)
			return plane.Pt(a.XMM+w*cos, a.YMM+h*sin), plane.Pt(-w*sin, h*cos)
		}
		return p
	case RowTop, RowBottom:
		p.at = a.besideEdge(f, a.InsetMM+across/2)
	default:
		_, v := f.Where(plane.Pt(a.XMM, a.YMM))
		p.at = func(t float64) (plane.Point, plane.Point) { return f.PlaceWay(t, v, 1, 0) }
	}
	if open {
		off := func(t float64) bool {
			q, _ := p.at(t)
			return !f.Outline.Contains(q) || f.Outline.Nearest(q).D < across/2-plane.FitTolerance
		}
		p.from, p.to = trimmed(p.from, off), trimmed(p.to, off)
	}
	return p
}

// trimmed moves an end of a path towards the middle until what is there is not off the blank.
func trimmed(end float64, off func(float64) bool) float64 {
	const steps = 200
	for i := range steps {
		t := end * (1 - float64(i)/steps)
		if off(t) {
			continue
		}
		if i == 0 {
			return end
		}
		lo, hi := t, end*(1-float64(i-1)/steps) // on, off
		for range 30 {
			if m := (lo + hi) / 2; off(m) {
				hi = m
			} else {
				lo = m
			}
		}
		return lo
	}
	return end
}

// besideEdge is the parallel of an edge of the blank, so far in from it.
func (a Added) besideEdge(f unroll.Flat, in float64) plane.Curve {
	edge := plane.Curve(func(x float64) (plane.Point, plane.Point) {
		bottom, top, bs, ts := f.EdgeSlopes(x)
		if a.Row == RowTop {
			return f.PlaceWay(x, top, 1, ts)
		}
		return f.PlaceWay(x, bottom, 1, bs)
	})
	if a.Row == RowTop {
		in = -in
	}
	return edge.Inward(in)
}

// layWire seats a border wire along one edge.
func (s *Set) layWire(a Added, f unroll.Flat) error {
	bottom, top := f.EdgesAt(0)
	if reach := a.InsetMM + a.WidthMM; reach > top-bottom {
		return &seatError{"width_mm", Say("the wire reaches %.2f mm in from the edge, the band is %.2f mm wide in its middle: make it narrower, or its inset smaller", reach, top-bottom)}
	}
	section, _ := added.SectionOf(a.Section)
	p := a.pathOf(f, !f.Closed(), a.WidthMM)
	p.measure(f, section.Centroid(a.WidthMM, a.HeightMM))
	w := Wire{Length: p.length, Loop: strip(f, p.at, p.from, p.to, a.WidthMM)}
	const points = 256
	for i := range points + 1 {
		q, _ := p.at(p.from + (p.to-p.from)*float64(i)/points)
		w.Way = append(w.Way, q)
	}
	s.Wires, s.solid = append(s.Wires, w), append(s.solid, w.Loop)
	return nil
}

// strip returns what is within half of a width of a path from end to end of the band, between
// two parameters.
func strip(f unroll.Flat, at plane.Curve, from, to, width float64) plane.Loop {
	pieces := 1
	if !f.Level() || f.Flared() {
		pieces = rimFits
	}
	side := func(in float64) plane.Chain {
		var es plane.Chain
		for i := range pieces {
			t := func(i int) float64 { return from + (to-from)*float64(i)/float64(pieces) }
			es = append(es, plane.FitArcs(at.Inward(in), t(i), t(i+1), plane.FitTolerance)...)
		}
		return es
	}
	low, high := side(-width/2), side(width/2)
	l := append(low.Loop(), plane.Vertex{Point: low[len(low)-1].B})
	l = append(l, high.Reverse().Loop()...)
	return append(l, plane.Vertex{Point: high[0].A}).CCW()
}

// layBeads seats a row of beads. They stand on the band, so that their middles are half their
// size above it; there their row is measured.
func (s *Set) layBeads(a Added, f unroll.Flat) error {
	open := !f.Closed()
	d, n := a.WidthMM, a.Count
	var p path
	row := func() {
		p = a.pathOf(f, open, d)
		p.measure(f, d/2)
	}
	switch {
	case d > 0 && n > 0:
		row()
	case d > 0:
		row()
		length := p.length
		if !p.closed {
			length += d // the outermost beads reach beyond their middles
		}
		if n = added.BeadsAlong(length, d, a.GapMM, p.closed); n > MaxAddedParts/2 {
			return &seatError{"width_mm", fmt.Sprintf("%d beads of that size would fit; at most %d are laid in a row: make them larger", n, MaxAddedParts/2)}
		}
		if n == 0 {
			return &seatError{"width_mm", Say("no bead of %.2f mm fits the row, which is %.2f mm long", d, length)}
		}
	default:
		// Their size closes the row, or fills it: found by turns with the row that it gives.
		for range 60 {
			row()
			next := beadClosing(p, f, n, d, a.GapMM)
			if next <= 0 {
				return &seatError{"count", fmt.Sprintf("no room for %d beads with that gap: ask for fewer", n)}
			}
			done := math.Abs(next-d) < 1e-10
			if d = next; done {
				break
			}
		}
		row()
	}
	if d > 60 {
		return &seatError{"count", Say("beads that fill the row would be %.1f mm large: ask for more of them", d)}
	}
	s.SizeMM = d
	at := beadsAt(p, n, d, a)
	a.WidthMM = d
	long := n > 1 && a.Row != RowCircle && a.Row != RowOval
	chord := leastChord(at, p, f, d/2)
	gap := chord - d
	if n > 1 && gap < -1e-6 {
		return &seatError{"count", Say("%d beads of %.2f mm have %.2f mm from middle to middle: ask for fewer, or leave out width_mm to have them close the row", n, d, chord)}
	}
	if n > 1 {
		s.GapMM = math.Min(s.GapMM, math.Max(0, gap))
	}
	loop := plane.Circle(plane.Point{}, d/2)
	for i, t := range at {
		q, way := p.at(t)
		l := loop.Move(q)
		s.Seats = append(s.Seats, Seat{q, math.Atan2(way.Y, way.X), l, l})
		if !long || i == 0 || i == n-1 {
			s.solid = append(s.solid, l)
		}
	}
	if long { // one strip: it is laid while a hand drags
		from, to := at[0], at[n-1]
		if p.closed {
			from, to = p.from, p.to
		}
		row := strip(f, p.at, from, to, d)
		s.Rows, s.solid = append(s.Rows, row), append(s.solid, row)
	}
	return s.fits(a, f)
}

// beadsAt returns where on a path beads stand: evenly round a closed one, on another as near as
// the gap has them, about the row's middle, or from end to end if neither number nor size say
// otherwise.
func beadsAt(p path, n int, d float64, a Added) []float64 {
	at := make([]float64, n)
	step, first := p.length/float64(n), 0.0
	switch {
	case p.closed && (a.Row == RowCircle || a.Row == RowOval):
	case p.closed:
		first = p.lengthTo(a.XMM) - float64(n-1)/2*step
	case n == 1:
		first = p.lengthTo(a.XMM)
	case a.Count > 0 && a.WidthMM > 0 && (d+a.GapMM)*float64(n-1) <= p.length:
		step = d + a.GapMM
		first = held(p, p.lengthTo(a.XMM)-float64(n-1)/2*step, float64(n-1)*step)
	default:
		step = p.length / float64(n-1)
	}
	for i := range at {
		at[i] = p.param(first + float64(i)*step)
	}
	return at
}

// held moves a row that begins at first and is so long to lie on the path.
func held(p path, first, long float64) float64 {
	return math.Max(0, math.Min(p.length-long, first))
}

// beadClosing returns the size of n beads on a path measured for beads of the size d that leaves them
// the gap.
func beadClosing(p path, f unroll.Flat, n int, d, gap float64) float64 {
	step := p.length / float64(n)
	if !p.closed {
		step = p.length / float64(n-1)
	}
	at := make([]float64, n)
	for i := range at {
		at[i] = p.param(float64(i) * step)
	}
	return leastChord(at, p, f, d/2) - gap
}

// leastChord returns the least distance in space of two neighbours at a height over the band.
func leastChord(at []float64, p path, f unroll.Flat, height float64) float64 {
	least := math.Inf(1)
	put := func(t float64) unroll.Point3 {
		q, _ := p.at(t)
		return f.Bend(q, f.Thickness+height)
	}
	for i := range at {
		j := i + 1
		if j == len(at) {
			if !p.closed || len(at) < 2 {
				break
			}
			j = 0
		}
		least = math.Min(least, apart(put(at[i]), put(at[j])))
	}
	return least
}

// layRow seats a stone or a part, or a row of them.
func (s *Set) layRow(a Added, f unroll.Flat) error {
	own, outside := a.outlines()
	put := func(q plane.Point, rotation float64) {
		rotation += a.RotationDeg * math.Pi / 180
		seat := Seat{q, rotation, own.Turn(rotation).Move(q), outside.Turn(rotation).Move(q)}
		s.Seats, s.solid = append(s.Seats, seat), append(s.solid, seat.Outside)
	}
	n := max(1, a.Count)
	if n == 1 && a.Row == RowLine {
		x, v := f.Where(plane.Pt(a.XMM, a.YMM))
		_, way := f.PlaceWay(x, v, 1, 0)
		put(plane.Pt(a.XMM, a.YMM), math.Atan2(way.Y, way.X))
		return s.fits(a, f)
	}
	p := a.pathOf(f, !f.Closed(), a.across())
	p.measure(f, 0)
	step := a.SpacingMM
	if step == 0 {
		step = p.length / float64(n)
	}
	s.Step = step
	if long := step * float64(n-1); p.closed && step*float64(n) > p.length+1e-6 || !p.closed && long > p.length+1e-6 {
		return &seatError{"spacing_mm", Say("the row is %.2f mm long, there are %.2f mm for it: bring them nearer, or set fewer", long, p.length)}
	}
	first := 0.0
	if a.Row != RowCircle && a.Row != RowOval {
		first = p.lengthTo(a.XMM) - float64(n-1)/2*step
		if !p.closed {
			first = held(p, first, float64(n-1)*step)
		}
	}
	from := len(s.Seats)
	for i := range n {
		q, way := p.at(p.param(first + float64(i)*step))
		put(q, math.Atan2(way.Y, way.X))
	}
	row := s.Seats[from:]
	gap := math.Inf(1)
	for i := range row[1:] {
		gap = math.Min(gap, seatGap(row[i].Outside, row[i+1].Outside))
	}
	if n > 2 && a.SpacingMM == 0 && (a.Row == RowCircle || a.Row == RowOval) {
		gap = math.Min(gap, seatGap(row[n-1].Outside, row[0].Outside))
	}
	if gap < 0 {
		return &seatError{"count", Say("the seats of the row overlap: they are %.2f mm from middle to middle; set fewer, smaller ones, or farther apart", step)}
	}
	s.GapMM = math.Min(s.GapMM, gap)
	return s.fits(a, f)
}

// seatGap returns the distance of two outlines, -1 if they overlap.
func seatGap(a, b plane.Loop) float64 {
	if a.Bounds().Meets(b.Bounds()) && (a.Contains(b[0].Point) || b.Contains(a[0].Point) || crossing(a, b)) {
		return -1
	}
	return plane.Nearest(a, b).D
}

func crossing(a, b plane.Loop) bool {
	r, err := plane.And(plane.Region{a}, plane.Region{b})
	return err == nil && r.Area() > 1e-6
}

// fits refuses parts that the band is too narrow for.
func (s *Set) fits(a Added, f unroll.Flat) error {
	if len(s.Seats) == 0 {
		return nil
	}
	seat := s.Seats[0]
	x, _ := f.Where(seat.At)
	bottom, top := f.EdgesAt(max(-f.Length/2, min(f.Length/2, x)))
	_, up := f.PlaceWay(x, 0, 0, 1)
	b := seat.Outside.Turn(math.Pi/2 - math.Atan2(up.Y, up.X)).Bounds()
	if b.H() <= top-bottom+plane.FitTolerance {
		return nil
	}
	field, what := "width_mm", "it"
	if a.Kind == StonePart {
		what = "the stone"
		if a.Setting == Bezel {
			what = "the stone with its bezel"
		}
	}
	return &seatError{field, Say("%s is %.2f mm wide across the band, which is %.2f mm wide there: make it smaller, turn it, or make the band wider", what, b.H(), top-bottom)}
}

// Drawn returns the outlines by which the set is shown: what wire covers, each seat with its
// bezel, and the stone in it.
func (s Set) Drawn() []plane.Loop {
	var ls []plane.Loop
	for _, w := range s.Wires {
		ls = append(ls, w.Loop)
	}
	for _, seat := range s.Seats {
		ls = append(ls, seat.Outside)
		if seat.bezelled() {
			ls = append(ls, seat.Loop)
		}
	}
	return ls
}

// Marked returns the outlines by which the set is marked out at the bench: as Drawn, but of a row
// of beads only its strip, since hundreds of small circles hide what they lie on.
func (s Set) Marked() []plane.Loop {
	if len(s.Rows) > 0 {
		return s.Rows
	}
	return s.Drawn()
}

// Mapped returns the set with each of its outlines as f makes it, to be drawn elsewhere.
func (s Set) Mapped(f func(plane.Loop) plane.Loop) Set {
	s.Wires, s.Seats, s.Rows = slices.Clone(s.Wires), slices.Clone(s.Seats), slices.Clone(s.Rows)
	for i := range s.Rows {
		s.Rows[i] = f(s.Rows[i])
	}
	for i := range s.Wires {
		s.Wires[i].Loop = f(s.Wires[i].Loop)
	}
	for i := range s.Seats {
		s.Seats[i].Loop, s.Seats[i].Outside = f(s.Seats[i].Loop), f(s.Seats[i].Outside)
	}
	return s
}

// AddedAt returns which added part covers a position, or -1: the last of those that do.
func (s *Sheet) AddedAt(p plane.Point) int {
	covers := func(l plane.Loop) bool {
		return slices.ContainsFunc(s.Again(l), func(l plane.Loop) bool { return l.Bounds().Contains(p) && l.Contains(p) })
	}
	for i := len(s.Added) - 1; i >= 0; i-- {
		for _, seat := range s.Added[i].Seats {
			if covers(seat.Outside) {
				return i
			}
		}
		for _, w := range s.Added[i].Wires {
			if covers(w.Loop) {
				return i
			}
		}
	}
	return -1
}
