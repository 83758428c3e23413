package cut

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// fitToCut judges the lines that were read by themselves, whatever the plan says: each is
// fit to be cut, none meets another, lead-ins lie in the waste, the outline of a copy
// comes after its openings, and the areas are the report's.
func (b *readBack) fitToCut(p cuttingPlan, s *pattern.Sheet, r *check.Report, o export.Options) error {
	over := numbersOverEnds(s)
	areas := map[int]float64{} // of the openings, as the report counts them
	for _, h := range s.Openings {
		areas[h.Number] = h.Loop.Area()
	}
	var shapes []shape
	done := map[int]bool{} // copies whose outline is cut
	var open, blank, perimeter float64
	tabbed := 0
	for i, l := range b.lines {
		if err := l.fit(o, b.tube); err != nil {
			return err
		}
		if l.as.engraves() {
			continue
		}
		switch l.as {
		case forOutline:
			done[l.copy] = true
			if l.round() {
				blank += l.cut().Loop().Area()
			} else {
				tabbed++
			}
		case forOpening:
			if done[l.copy] {
				return l.wrong("is cut after the outline of its copy: the part is loose by then")
			}
			a := -l.cut().Loop().Area()
			open += a
			// Lines are the report's own: but for the files' digits, and chords that lie on
			// one side of their arcs by so much at most, the areas are the same.
			if d := math.Abs(a - areas[l.number]); o.KerfMM == 0 && d > (readMean+o.Chord())*l.cut().Len() {
				return l.wrong("encloses %.10g mm², in the report %.10g mm²", a, areas[l.number])
			}
		}
		perimeter += l.cut().Len()
		shapes = append(shapes, shape{l.shape(), i, false})
		if l.as == forOutline && l.lead > 0 { // an opening's lies in it, which inOneGo checks
			shapes = append(shapes, shape{thereAndBack(l.led()), i, true})
		}
	}
	if err := b.inOneGo(s, o); err != nil {
		return err
	}
	if err := b.apart(shapes, over); err != nil {
		return err
	}
	if o.KerfMM > 0 {
		return nil // whose lines are not the finished edges
	}
	allowed := (readMean + o.Chord()) * perimeter
	n := float64(o.Parts())
	if d := math.Abs(open - n*r.CutArea); d > allowed {
		return &export.ReadBackError{What: fmt.Sprintf("the openings enclose %.6f mm² in all, the report counts %.6f mm² a copy, %d copies", open, r.CutArea, o.Parts())}
	}
	if d := math.Abs(blank - n*r.BlankArea); tabbed == 0 && d > allowed {
		return &export.ReadBackError{What: fmt.Sprintf("the outlines enclose %.6f mm² in all, the report counts %.6f mm² a copy, %d copies", blank, r.BlankArea, o.Parts())}
	}
	return nil
}

// numbersOverEnds returns the openings that run past an end of the blank and so over
// its outline, as they may on a seamless band.
func numbersOverEnds(s *pattern.Sheet) map[int]bool {
	over := map[int]bool{}
	for _, o := range s.Openings {
		if len(s.Again(o.Loop)) > 1 {
			over[o.Number] = true
		}
	}
	return over
}

// straight checks that no edge is an arc.
func (l line) straight() error {
	for i, e := range l.edges {
		if e.Bulge != 0 {
			return l.wrong("edge %d is an arc, but chords were asked for", i+1)
		}
	}
	return nil
}

// fit checks that a line can be followed: its edges run into one another and are long
// enough; and one that is cut, that it runs the right way and does not cross itself if it is
// closed.
func (l line) fit(o export.Options, tube bool) error {
	if o.Chord() > 0 {
		if err := l.straight(); err != nil {
			return err
		}
	}
	for i, e := range l.edges {
		if n := e.Len(); n < shortestEdge {
			return l.wrong("edge %d at x %s, y %s is %.2g mm long: must be %g mm or more", i+1, export.MM(e.A.X), export.MM(e.A.Y), n, shortestEdge)
		}
		if i > 0 && l.edges[i-1].B != e.A {
			return l.wrong("edge %d does not begin where the one before ends", i+1)
		}
	}
	if l.as.engraves() {
		return nil
	}
	if !l.round() {
		if l.as == forOpening || l.as == forOutline && o.Tabs == 0 && !tube {
			return l.wrong("is not closed")
		}
		return nil
	}
	if l.as == forOutline && tube {
		return l.wrong("is cut at the ends of the drawing, which are one place on a tube")
	}
	if l.as == forOutline && o.Tabs > 0 {
		return l.wrong("has no tabs, %d were asked for", o.Tabs)
	}
	if a := l.cut().Loop().Area(); l.as == forOpening && a >= 0 || l.as == forOutline && a <= 0 {
		want := -1.0
		if l.as == forOutline {
			want = 1
		}
		return l.wrong("runs %s, must run %s", sense(a), sense(want))
	}
	if at, crosses := crossesItself(l.cut()); crosses {
		return l.wrong("crosses or touches itself at x %s, y %s", export.MM(at.X), export.MM(at.Y))
	}
	return nil
}

// crossesItself finds a position where a closed line meets itself beside where one edge
// runs into the next.
func crossesItself(es plane.Chain) (plane.Point, bool) {
	if convex(es) {
		return plane.Point{}, false
	}
	n := len(es)
	meet := func(i, j int) (plane.Point, bool) {
		for _, c := range plane.Crossings(es[i], es[j]) {
			at := es[i].At(c.A)
			next := j == i+1 && at.Dist(es[j].A) <= readNear
			round := i == 0 && j == n-1 && at.Dist(es[0].A) <= readNear
			if !next && !round {
				return at, true
			}
		}
		return plane.Point{}, false
	}
	const few = 40
	if n <= few {
		var boxes [few]plane.Box
		for i, e := range es {
			boxes[i] = e.Bounds().Grow(readNear)
			for j := range i {
				if boxes[i].Meets(boxes[j]) {
					if at, ok := meet(j, i); ok {
						return at, true
					}
				}
			}
		}
		return plane.Point{}, false
	}
	// Each edge there and back is a loop, so that their near pairs are found by a grid.
	ls := make([]plane.Loop, n)
	for i := range es {
		ls[i] = thereAndBack(es[i : i+1])
	}
	for _, p := range plane.Pairs(ls, readNear) {
		if at, ok := meet(p.I, p.J); ok {
			return at, true
		}
	}
	return plane.Point{}, false
}

// convex reports whether a closed line turns one way only, but for the rounding of its
// points, and once round in all, so that it cannot cross itself.
func convex(es plane.Chain) bool {
	way := math.Copysign(1, es.Loop().Area())
	var turned float64
	for i, e := range es {
		if e.Bulge*way < 0 {
			return false
		}
		turned += e.Sweep()
		a, b := e.Tangent(1), es[(i+1)%len(es)].Tangent(0)
		turn := math.Atan2(a.Cross(b), a.Dot(b))
		if turn*way < -1e-6 || math.Abs(turn) > 3 {
			return false
		}
		turned += turn
	}
	return math.Abs(math.Abs(turned)-2*math.Pi) < 0.1
}

// shape returns what a line cuts, without its lead-in, as a loop: an open line there and back.
func (l line) shape() plane.Loop {
	if !l.round() {
		return thereAndBack(l.cut())
	}
	return l.cut().Loop()
}

// shape is what a line cuts, or its lead-in.
type shape struct {
	loop plane.Loop
	line int
	lead bool
}

func loopsOf(shapes []shape) []plane.Loop {
	ls := make([]plane.Loop, len(shapes))
	for i, s := range shapes {
		ls[i] = s.loop
	}
	return ls
}

func thereAndBack(es plane.Chain) plane.Loop { return append(es.Loop(), es.Reverse().Loop()...) }

// inWaste checks that the lead-in of a line comes to the whole edge from the waste without
// touching it before.
func (l line) inWaste(whole plane.Loop) error {
	if l.lead == 0 {
		return nil
	}
	led := l.led()
	from, end := led[0].A, led[len(led)-1].B
	if inside := whole.Contains(from); inside != (l.as == forOpening) {
		return l.wrong("its lead-in comes from the metal at x %s, y %s", export.MM(from.X), export.MM(from.Y))
	}
	for _, e := range led {
		for k := range whole {
			for _, c := range plane.Crossings(e, whole.Edge(k)) {
				if at := e.At(c.A); at.Dist(end) > leadEnd {
					return l.wrong("its lead-in crosses the edge that it leads into at x %s, y %s", export.MM(at.X), export.MM(at.Y))
				}
			}
		}
	}
	return nil
}

// closedRuns returns the loop of the runs of an outline from line i on, straight across
// tabs and up the ends of a tube, and the line after them: the last run ends where the first begins.
func (b *readBack) closedRuns(i int) (p plane.Loop, next int, err error) {
	first := b.lines[i]
	for next = i; next < len(b.lines); next++ {
		l := b.lines[next]
		if l.as != first.as || l.copy != first.copy || l.round() {
			break
		}
		es := l.cut()
		p = append(p, es.Loop()...)
		end := es[len(es)-1].B
		if end.Dist(first.cut()[0].A) < readNear {
			return p, next + 1, nil
		}
		p = append(p, plane.Vertex{Point: end})
	}
	if b.tube && next > i+1 {
		return p, next, nil // up the left end of the drawing, which is not cut
	}
	return nil, 0, first.wrong("its runs do not come back to where they begin")
}

// heldByTabs checks that the runs from line i on have n tabs between them.
func (b *readBack) heldByTabs(i, next, n int, o export.Options) error {
	l := b.lines[i]
	if has := next - i - 1; has != n {
		return l.wrong("has %d tabs, %d were asked for", has, n)
	}
	for k := i + 1; k < next; k++ {
		before := b.lines[k-1].edges
		tab := plane.Edge{A: before[len(before)-1].B, B: b.lines[k].cut()[0].A}
		// On an arc the way straight across is a little shorter.
		if w := tab.Len() - o.KerfMM; w < 0.9*o.Tab() {
			return l.wrong("tab %d is %s mm wide, must be %s mm", k-i, export.MM(w), export.MM(o.Tab()))
		}
	}
	return nil
}

// roundTube checks that the runs from line i on are the two edges of a band cut from tube,
// each of which comes back to where it began after once round, with its half of the tabs.
func (b *readBack) roundTube(i, next int, round float64, o export.Options) error {
	if n := next - i; n != o.Tabs+2 {
		return b.lines[i].wrong("is cut in %d runs, the edges of a tube are two, and one more for each of %d tabs", n, o.Tabs)
	}
	for _, edge := range []struct {
		way  float64
		tabs int
	}{{1, o.Tabs - o.Tabs/2}, {-1, o.Tabs / 2}} {
		last := i + edge.tabs
		if err := b.heldByTabs(i, last+1, edge.tabs, o); err != nil {
			return err
		}
		es := b.lines[last].cut()
		if d := es[len(es)-1].B.Sub(b.lines[i].cut()[0].A); d.Dist(plane.Pt(edge.way*round, 0)) > readNear {
			return b.lines[i].wrong("runs %.6f mm round the tube and comes back %.6f mm off, must run %.6f mm", d.X, d.Y, edge.way*round)
		}
		i = last + 1
	}
	return nil
}

// inOneGo checks what is cut in one go: that lead-ins lie in the waste, and of outlines that
// are cut in several runs what stands between these, and that the edge over all is one that
// does not cross itself.
func (b *readBack) inOneGo(s *pattern.Sheet, o export.Options) error {
	for i := 0; i < len(b.lines); i++ {
		l := b.lines[i]
		switch {
		case l.as.engraves():
			continue
		case l.round():
			if err := l.inWaste(l.cut().Loop()); err != nil {
				return err
			}
			continue
		}
		whole, next, err := b.closedRuns(i)
		if err != nil {
			return err
		}
		if b.tube {
			err = b.roundTube(i, next, s.Flat.Length, o)
		} else {
			err = b.heldByTabs(i, next, o.Tabs, o)
		}
		if err != nil {
			return err
		}
		es := whole.Edges()
		if a := whole.Area(); a <= 0 {
			return l.wrong("runs %s, must run %s", sense(a), sense(1))
		}
		if at, crosses := crossesItself(es); crosses {
			return l.wrong("crosses or touches itself at x %s, y %s", export.MM(at.X), export.MM(at.Y))
		}
		for ; i < next; i++ {
			if err := b.lines[i].inWaste(whole); err != nil {
				return err
			}
		}
		i = next - 1
	}
	return nil
}

// apart checks that no two lines meet and no opening lies in another. Openings over
// the ends of a seamless band cross its outline.
func (b *readBack) apart(shapes []shape, over map[int]bool) error {
	for _, p := range plane.Pairs(loopsOf(shapes), readNear) {
		one, other := shapes[p.I], shapes[p.J]
		i, k := b.lines[one.line], b.lines[other.line]
		switch {
		case one.line == other.line:
			// A lead-in and the edge that it leads into: inWaste.
		case i.copy == k.copy && (over[i.number] && k.number == 0 || over[k.number] && i.number == 0):
		case i.as == forOutline && k.as == forOutline && i.copy == k.copy && !i.round() && !k.round() && !(one.lead && other.lead):
			// Runs of one outline: inOneGo.
		case i.as == k.as && one.lead == other.lead && sameBox(one.loop.Bounds(), other.loop.Bounds()):
			return k.wrong("stands twice: %s lies in the same place", i.title())
		default:
			return k.wrong("crosses or touches %s at x %s, y %s", i.title(), export.MM(p.A.X), export.MM(p.A.Y))
		}
	}
	return b.notNested(shapes)
}

func sameBox(a, b plane.Box) bool {
	return a.Min.Dist(b.Min) < readNear && a.Max.Dist(b.Max) < readNear
}

// notNested checks that no opening lies in another one, of lines that do not cross: a
// sweep from left to right.
func (b *readBack) notNested(shapes []shape) error {
	type item struct {
		k   int
		box plane.Box
	}
	var items []item
	for k, s := range shapes {
		if b.lines[s.line].as == forOpening {
			items = append(items, item{k, s.loop.Bounds()})
		}
	}
	slices.SortFunc(items, func(a, b item) int { return cmp.Compare(a.box.Min.X, b.box.Min.X) })
	for i, x := range items {
		for _, y := range items[i+1:] {
			if y.box.Min.X > x.box.Max.X {
				break
			}
			if y.box.Max.X <= x.box.Max.X && y.box.Min.Y >= x.box.Min.Y && y.box.Max.Y <= x.box.Max.Y &&
				shapes[x.k].loop.Contains(shapes[y.k].loop[0].Point) {
				return b.lines[shapes[y.k].line].wrong("lies in %s", b.lines[shapes[x.k].line].title())
			}
		}
	}
	return nil
}

// onSheet checks that what was read keeps its margin on the sheet of the plan, and
// that copies are as far apart as asked for.
func (b *readBack) onSheet(p cuttingPlan, o export.Options) error {
	if !o.OnSheet() {
		return nil
	}
	room := p.sheet.Grow(readNear - o.Margin())
	var shapes []plane.Loop // that lie outermost: outlines with their lead-ins
	var of []line
	for _, l := range b.lines {
		if l.as != forOutline {
			continue
		}
		s := thereAndBack(l.edges)
		if x := s.Bounds(); room.Union(x) != room {
			return l.wrong("is nearer than %s mm to the edge of the sheet of %s x %s mm", export.MM(o.Margin()), export.MM(p.sheet.W()), export.MM(p.sheet.H()))
		}
		shapes, of = append(shapes, s), append(of, l)
	}
	for _, x := range plane.Pairs(shapes, o.Gap()-readNear) {
		if i, k := of[x.I], of[x.J]; i.copy != k.copy {
			return k.wrong("is %.3f mm from %s: must be %s mm or more", x.D, i.title(), export.MM(o.Gap()))
		}
	}
	return nil
}
