package pattern

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fretband/pattern/own"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// byHand does the design's edits on the openings that the fields have laid.
//
// An edit belongs to its positions. Each position works on the cell that holds it: the
// motif's own territory before anything is cut, so that it stays the same cell
// whatever the bridge, the rim and the corners are. Where the ground cuts a cell
// into several openings it works on the one that holds the position, else on the one
// nearest to it. Positions on a border of two cells belong to one of them. An edit
// whose position finds nothing to work on is listed as idle.
//
// What edits change or make is then held to the rules by [Trim]. Openings of the
// pattern that it comes too near to give way to it; all others keep their very
// numbers. Ties are laid last, across whatever is there then.
func (s *Sheet) byHand() error {
	if len(s.Design.Edits) == 0 {
		return nil
	}
	h := &hand{Sheet: s, positions: EditPositions(s.Design, s.Flat), gone: make([]bool, len(s.Openings)), none: make([]bool, len(s.Dropped))}
	if err := h.drawShapes(); err != nil {
		return err
	}
	h.find()
	h.work()
	h.add()
	h.clear()
	h.fit()
	h.tie()
	slices.SortStableFunc(s.Idle, func(a, b Idle) int { return cmp.Or(cmp.Compare(a.Edit, b.Edit), cmp.Compare(a.Spot, b.Spot)) })
	return nil
}

// hand is the work on one sheet.
type hand struct {
	*Sheet
	positions []EditPosition
	shapes    []plane.Loop // of each edit, unturned about its middle; of those that have none, nil
	cells     []*editedCell
	target    []target // for each position
	laid      []laid
	gone      []bool // for each opening: it is not cut as it was
	none      []bool // for each cell that is dropped: it is not reported
}

// editedCell is a cell that holds positions of edits, and what was made of it.
type editedCell struct {
	*hitCell
	field, row, col   int
	openings, dropped []int
}

// target is what a position works on: an opening of a cell, or a cell without one
// (opening -1).
type target struct {
	cell    *editedCell
	opening int
}

// laid is an opening changed or made by hand.
type laid struct {
	loop            plane.Loop
	positions       []int // that worked on it, in the order of the edits
	field, row, col int
}

// find gathers the cells that hold positions, and chooses for each position what it works
// on: the opening that holds it or is nearest to it, the earlier field's if several
// are.
func (h *hand) find() {
	of := map[*hitCell]*editedCell{}
	cell := func(hitBy *hitCell, field, row, col int) *editedCell {
		c := of[hitBy]
		if c == nil {
			c = &editedCell{hitCell: hitBy, field: field, row: row, col: col}
			of[hitBy] = c
			h.cells = append(h.cells, c)
		}
		return c
	}
	for i := range h.Openings {
		o := &h.Openings[i]
		if o.hits == nil || !o.hits.loop.Contains(o.Loop[0].Point) {
			continue // it was moved since: it is another cell's
		}
		c := cell(o.hits, o.Field, o.Row, o.Col)
		c.openings = append(c.openings, i)
	}
	for i, d := range h.Dropped {
		if d.hits != nil {
			c := cell(d.hits, d.Field, d.Row, d.Col)
			c.dropped = append(c.dropped, i)
			h.none[i] = d.Why == ""
		}
	}
	h.target = make([]target, len(h.positions))
	best := make([]float64, len(h.positions))
	for i := range best {
		best[i] = math.Inf(1)
		h.target[i].opening = -1
	}
	for _, c := range h.cells {
		for _, at := range c.hits {
			t := &h.target[at.position]
			if t.cell == nil {
				t.cell = c
			}
			for _, i := range c.openings {
				if d := distanceTo(h.Openings[i].Loop, at.at); d < best[at.position] {
					best[at.position] = d
					*t = target{c, i}
				}
			}
		}
	}
}

// distanceTo returns the distance of a point from a loop's inside.
func distanceTo(l plane.Loop, p plane.Point) float64 {
	if l.Contains(p) {
		return 0
	}
	return fromEdge(l, p)
}

// fromEdge returns the distance of a point from a loop's edge.
func fromEdge(l plane.Loop, p plane.Point) float64 {
	d := math.Inf(1)
	for i := range l {
		d = math.Min(d, l.Edge(i).Dist(p))
	}
	return d
}

// work leaves solid, changes and replaces.
func (h *hand) work() {
	type job struct {
		target
		positions []int
	}
	var jobs []*job
	of := map[target]*job{}
	for i, p := range h.positions {
		if d := h.Design.Edits[p.Edit].Do; d == Add || d == Tie {
			continue
		}
		t := h.target[i]
		if t.cell == nil {
			h.idle(i, h.whyNone(p.At))
			continue
		}
		j := of[t]
		if j == nil {
			j = &job{target: t}
			of[t] = j
			jobs = append(jobs, j)
		}
		// An edit works once on an opening, however many of its positions lie there.
		if n := len(j.positions); n == 0 || h.positions[j.positions[n-1]].Edit != p.Edit {
			j.positions = append(j.positions, i)
		}
	}
	for _, j := range jobs {
		h.workOn(j.target, j.positions)
	}
}

func (h *hand) workOn(t target, positions []int) {
	var l plane.Loop
	if t.opening >= 0 {
		l = h.Openings[t.opening].Loop
	}
	why := h.whyUncut(t)
	for _, i := range positions {
		if e := h.positions[i].Edit; h.Design.Edits[e].Do == LeaveSolid {
			if l == nil && !t.cell.told(h.Sheet) {
				break // it is solid anyway
			}
			h.leave(t, i)
			for _, k := range positions {
				if h.Design.Edits[h.positions[k].Edit].Do != LeaveSolid {
					h.idle(k, fmt.Sprintf("it is left solid by edit %d", e+1))
				}
			}
			return
		}
	}
	var done []int
	for _, i := range positions {
		p := h.positions[i]
		e := &h.Design.Edits[p.Edit]
		switch {
		case e.Do == Replace:
			middle := t.cell.loop.Centroid()
			if l != nil {
				middle = l.Centroid()
			} else if !h.Ground.Contains(middle) {
				h.idle(i, h.whyNone(middle))
				continue
			}
			l = h.shape(i, middle)
			done = append(done, i)
		case e.Do == Change && l != nil:
			l = h.changed(l, p)
			done = append(done, i)
		default:
			h.idle(i, why)
		}
	}
	if len(done) > 0 {
		h.laid = append(h.laid, laid{h.once(l), done, t.cell.field, t.cell.row, t.cell.col})
		h.take(t)
	}
}

// told reports whether the cell is counted as one that could not be cut.
func (c *editedCell) told(s *Sheet) bool {
	for _, i := range c.dropped {
		if s.Dropped[i].Why != "" {
			return true
		}
	}
	return false
}

// leave leaves what is worked on solid.
func (h *hand) leave(t target, position int) {
	c := SolidCell{Touch: h.touch(position), Loop: t.cell.loop, Field: t.cell.field, Row: t.cell.row, Col: t.cell.col}
	if t.opening >= 0 {
		c.Loop = h.Openings[t.opening].Loop
	}
	h.Solid = append(h.Solid, c)
	h.take(t)
}

// take takes an opening out of the pattern, or what was said of a cell that has
// none.
func (h *hand) take(t target) {
	if t.opening >= 0 {
		h.gone[t.opening] = true
	}
	if len(t.cell.openings) == 0 {
		for _, i := range t.cell.dropped {
			h.none[i] = true
		}
	}
}

// changed returns a loop moved, turned and scaled about its middle as the edit of
// the position says. Along and across are the band's own directions there: a flared
// one carries what is moved round its arc.
func (h *hand) changed(l plane.Loop, p EditPosition) plane.Loop {
	e := &h.Design.Edits[p.Edit]
	dx, dy, rotation, scale := e.MoveXMM, e.MoveYMM, e.RotationDeg*math.Pi/180, e.Scale
	if p.FlipX {
		dx, rotation = -dx, -rotation
	}
	if p.FlipY {
		dy, rotation = -dy, -rotation
	}
	return Shifted(h.Flat, l, dx, dy, rotation, cmp.Or(scale, 1))
}

// Shifted returns a loop of the blank moved along and across the band, mm, turned,
// radians, and scaled, all about its own middle. A flared band carries it round its
// arc.
func Shifted(f unroll.Flat, l plane.Loop, along, across, rotation, scale float64) plane.Loop {
	from := l.Centroid()
	to := f.Carried(from, along, across)
	rotation += lieAlong(f, to) - lieAlong(f, from)
	if rotation == 0 && scale == 1 {
		return l.Move(to.Sub(from))
	}
	return l.Move(from.Mul(-1)).Scale(scale).Turn(rotation).Move(to)
}

// shape returns the loop that the edit of a position cuts, with its middle at c: of a
// path, the middle of its box.
func (h *hand) shape(position int, c plane.Point) plane.Loop {
	p := h.positions[position]
	rotation := h.Design.Edits[p.Edit].RotationDeg * math.Pi / 180
	return flipped(h.shapes[p.Edit].Turn(rotation), p.FlipX, p.FlipY).Turn(lieAlong(h.Flat, c)).Move(c)
}

// Images returns the outlines of what an edit cuts at each of its positions and their mirror
// images, in the order of [EditPositions], before they are held to the rules.
func (s *Sheet) Images(e Edit) ([]plane.Loop, error) {
	d := s.Design
	d.Edits = []Edit{e}
	h := &hand{Sheet: &Sheet{Design: d, Flat: s.Flat}, positions: EditPositions(d, s.Flat)}
	if err := h.drawShapes(); err != nil {
		return nil, err
	}
	loops := make([]plane.Loop, len(h.positions))
	for i, p := range h.positions {
		loops[i] = h.shape(i, p.At)
	}
	return loops, nil
}

// Held returns what the rules leave of outlines that would be cut, and how much of their
// area they take. Openings of the pattern give way to them and take nothing.
func (s *Sheet) Held(loops []plane.Loop) (made []Trimmed, taken float64) {
	made, _ = Trim(loops, s.Ground, Rules{s.Rule - touch/2, s.Design.Rules.CornerMM, s.Design.Rules.SmallestMM, s.period()})
	for _, l := range loops {
		taken += math.Abs(l.Area())
	}
	for _, m := range made {
		taken -= m.Loop.Area()
	}
	return made, math.Max(0, taken)
}

// DrawnEdit returns the single opening whose outline on the blank is l: at the position p of
// the edit e, or of a new one if that is nil.
func DrawnEdit(f unroll.Flat, l plane.Loop, e *Edit, p EditPosition) Edit {
	one := Edit{Do: Add}
	if e != nil {
		one = *e
	}
	one.Shape, one.WidthMM, one.HeightMM, one.RotationDeg = PathShape, 0, 0, 0
	at := l.Bounds().Centre()
	for range 8 { // on a flared band the box round it turns with its position
		back := l.Move(at.Mul(-1)).Turn(-lieAlong(f, at))
		at = at.Add(back.Bounds().Centre().Turn(lieAlong(f, at)))
	}
	at = plane.Pt(math.Round(at.X*1e4)/1e4, math.Round(at.Y*1e4)/1e4)
	local := flipped(l.Move(at.Mul(-1)).Turn(-lieAlong(f, at)), p.FlipX, p.FlipY)
	one.Path = own.Data(local.Move(local.Bounds().Centre().Mul(-1)))
	x, v := f.Where(at)
	if p.FlipX {
		x = -x
	}
	if p.FlipY {
		v = -v
	}
	at = f.Place(x, v)
	one.At = []Spot{{XMM: at.X, YMM: at.Y}}
	return one
}

// drawShapes draws the shapes of the edits that have one.
func (h *hand) drawShapes() error {
	h.shapes = make([]plane.Loop, len(h.Design.Edits))
	edges := 0
	for i, e := range h.Design.Edits {
		if e.Do != Replace && e.Do != Add {
			continue
		}
		o := e.outline()
		o.rotationDeg = 0
		l, err := o.loop(plane.Point{})
		if err != nil {
			return err // Check has seen to it
		}
		if o.shape == PathShape {
			l = l.Move(l.Bounds().Centre().Mul(-1))
		}
		h.shapes[i] = l
		if edges += o.drawn(l) * len(e.At) * len(e.flips()); edges > MaxShapeEdges {
			return tooManyEdges(fmt.Sprintf("edits[%d]", i), "openings laid by hand", edges)
		}
	}
	return nil
}

// tooManyEdges says that shapes have more edges than can be worked on.
func tooManyEdges(path, what string, edges int) error {
	return &unroll.FieldError{Path: path, Msg: fmt.Sprintf("the paths of all %s together have %d or more edges, lines and arcs; at most %d can be laid: draw it with fewer points or lay it in fewer places", what, edges, MaxShapeEdges)}
}

// add makes the single openings.
func (h *hand) add() {
	for i, p := range h.positions {
		if h.Design.Edits[p.Edit].Do == Add {
			h.laid = append(h.laid, laid{h.once(h.shape(i, p.At)), []int{i}, -1, 0, 0})
		}
	}
	// Edit by edit, as they are reported.
	slices.SortStableFunc(h.laid, func(a, b laid) int { return cmp.Compare(a.positions[0], b.positions[0]) })
}

// once brings a loop into the one period of a closed band.
func (h *hand) once(l plane.Loop) plane.Loop {
	n := h.Flat.Rounds(l.Bounds().Centre().X)
	if n == 0 {
		return l
	}
	return l.Move(plane.Pt(-n*h.Flat.Length, 0))
}

// clear takes out of the sheet what is gone, and what pointed to cells.
func (h *hand) clear() {
	made := h.Openings[:0]
	for i, o := range h.Openings {
		if !h.gone[i] {
			o.hits = nil
			made = append(made, o)
		}
	}
	h.Openings = made
	not := h.Dropped[:0]
	for i, d := range h.Dropped {
		if !h.none[i] {
			d.hits = nil
			not = append(not, d)
		}
	}
	h.Dropped = not
	if len(not) == 0 {
		h.Dropped = nil
	}
}

func (h *hand) touch(position int) Touch {
	p := h.positions[position]
	return Touch{p.Edit, p.Spot, p.At}
}

func (h *hand) idle(position int, why string) {
	p := h.positions[position]
	h.Idle = append(h.Idle, Idle{p.Edit, p.Spot, p.At, why})
}

// whyNone says why there is nothing to work on at a position.
func (h *hand) whyNone(p plane.Point) string {
	switch {
	case !h.Flat.Outline.Contains(p):
		return "it lies outside the blank"
	case h.Ground.Contains(p):
		return "no cell of a field lies there"
	case fromEdge(h.Flat.Outline, p) < h.rimNear(p):
		return "it lies on the rim or at an end"
	}
	return "it lies in what is kept solid: a reserve, a mark or the joint"
}

// whyUncut says why no opening was cut of a cell.
func (h *hand) whyUncut(t target) string {
	if t.cell == nil || t.opening >= 0 {
		return ""
	}
	for _, i := range t.cell.dropped {
		if w := h.Dropped[i].Why; w != "" {
			return "the cell there could not be cut: " + w
		}
	}
	at := t.cell.hits[0].at
	if h.Ground.Contains(at) {
		return "no opening of the cell there reaches the ground"
	}
	return h.whyNone(at)
}
