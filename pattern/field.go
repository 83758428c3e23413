package pattern

import (
	"fmt"
	"math"

	"fretband/pattern/motif"
	"fretband/unroll"
	"fretband/unroll/cores"
	"fretband/unroll/plane"
)

// layFields lays all fields, each on its territory.
func (s *Sheet) layFields() error {
	d := s.Design
	areas := make([]landed, len(d.Fields))
	drawn := 0
	for i, f := range d.Fields {
		var err error
		if areas[i], err = f.Area.land(s.Flat); err != nil {
			return err // Check has seen to it
		}
		if drawn += f.Area.outline().drawn(areas[i].loop); drawn > MaxShapeEdges {
			return tooManyEdges(fmt.Sprintf("fields[%d].area", i), "areas", drawn)
		}
	}
	cells, edges := 0, 0
	for i, f := range d.Fields {
		m, err := f.motif()
		if err != nil {
			return err // Check has seen to it
		}
		e := s.extent(f, m, areas[i])
		cells += e.frame.Rows * e.frame.Repeats
		if err := tooMany(cells, fmt.Sprintf("fields[%d].pitch_mm", i)); err != nil {
			return err
		}
		if edges += e.frame.Rows * e.frame.Repeats * m.Edges; edges > MaxMotifEdges {
			return &unroll.FieldError{Path: fmt.Sprintf("fields[%d].path", i), Msg: fmt.Sprintf("the cells of your own motifs together have %d or more edges, lines and arcs; at most %d can be laid: draw it with fewer points, or have fewer rows or repeats", edges, MaxMotifEdges)}
		}
		part := &Sheet{Design: d, Flat: s.Flat, Rule: s.Rule, EdgeRule: s.EdgeRule, rim: s.rim, Ground: s.Ground}
		if i == 0 && f.plain() {
			err = part.layPlain(f, m, e)
		} else {
			err = part.layField(i, m, e, areas)
		}
		if err != nil {
			return err
		}
		s.add(part, i)
	}
	return nil
}

// CutOff returns a cell of the field's motif, ungraded and about its own middle, and what the
// rules leave out of it that a bridge round its openings does not fill: points that are too
// sharp and parts too narrow to be cut. All of it is left out where no opening can be made.
func (s *Sheet) CutOff(i int) (cell plane.Loop, off plane.Region, err error) {
	f := s.Design.Fields[i]
	m, err := f.motif()
	if err != nil {
		return nil, nil, err
	}
	area, err := f.Area.land(s.Flat)
	if err != nil {
		return nil, nil, err
	}
	e := s.extent(f, m, area)
	shapes := m.Cells(e.frame).Shapes
	if len(shapes) == 0 {
		return nil, nil, nil
	}
	cell = shapes[0].Scale(e.size)
	off = plane.Region{cell}
	for _, o := range s.cutter(e.bridge).blankCell(cell, e.bridge/2).whole {
		for _, filled := range o.Outset(e.bridge/2 + touch) {
			if off, err = plane.Not(off, plane.Region{filled}); err != nil {
				return cell, nil, err
			}
		}
	}
	return cell, off, nil
}

// plain reports whether a field just fills the band.
func (f Field) plain() bool {
	return f.Area == Area{} && f.PitchMM == 0 && f.Phase == 0 && f.RotationDeg == 0 && f.Mirror == "" &&
		(f.Edge == "" || f.Edge == EdgeClip) && len(f.GradeAlong) == 0 && len(f.GradeAcross) == 0 && len(f.BridgeAlong) == 0
}

// layPlain lays a field that just fills the band.
func (s *Sheet) layPlain(f Field, m motif.Motif, e extent) error {
	if e.frame.W <= e.bridge || e.frame.H <= e.bridge {
		return nil // the rims meet: nothing can be cut
	}
	c := s.cutter(e.bridge)
	if !s.Design.Band.Seamless() {
		c.images = s.Flat.Copies()
	}
	t := m.Cells(e.frame)
	if w := e.warp(s, f); w != nil {
		var err error
		if t, err = tilingWithin(t, w.oneToOne()); err != nil {
			return err
		}
		return s.cutWarped(t, c, w)
	}
	if e.mid.Y != 0 {
		for i := range t.Cells {
			t.Cells[i].At.Y += e.mid.Y
		}
	}
	return s.cut(t, c)
}

func (s *Sheet) cutter(bridge float64) *cutter {
	r := s.Design.Rules
	return &cutter{rule: bridge, corner: r.CornerMM, smallest: r.SmallestMM, images: []plane.Point{{}}}
}

// layField lays any field. What it has to say about the field as a whole is dropped
// at the middle of its area.
func (s *Sheet) layField(i int, m motif.Motif, e extent, areas []landed) error {
	f := s.Design.Fields[i]
	tell := func(why string) {
		at := e.mid
		if !e.shape {
			at = s.Flat.Place(e.mid.X, e.mid.Y)
		}
		s.Dropped = append(s.Dropped, Dropped{At: at, Why: why})
	}
	ground, why, err := s.territory(i, areas)
	if err != nil {
		return err
	}
	if why == "" && (e.w <= e.bridge || e.h <= e.bridge) {
		why = "its area is no wider than a bridge"
	}
	if why != "" {
		tell(why)
		return nil
	}
	s.Ground = ground
	shapes, cells := e.cells(m.Cells(e.frame))
	along, across := f.Mirror == MirrorAlong || f.Mirror == MirrorBoth, f.Mirror == MirrorAcross || f.Mirror == MirrorBoth
	around := 0.0
	if e.closed {
		around = e.w
	}
	if shapes, cells, err = mirrored(shapes, cells, along, across, around); err != nil {
		return err
	}
	if shapes, cells, err = e.inOnePeriod(shapes, cells, s.Flat); err != nil {
		return err
	}
	if err := s.cutField(f, e, shapes, cells); err != nil {
		return err
	}
	if len(s.Openings) == 0 && len(s.Dropped) == 0 {
		tell("no cell of it has room in its area")
	}
	return nil
}

// fieldCell is a cell of a field in the box that it fills, before grading.
type fieldCell struct {
	shape        int
	at           plane.Point
	row, col     int
	flipX, flipY bool // about its at
}

// cells takes the cells of the field's box out of those of the frame.
func (e extent) cells(t motif.Tiling) ([]plane.Loop, []fieldCell) {
	shapes := t.Shapes
	if e.rotation != 0 || e.size != 1 {
		shapes = make([]plane.Loop, len(t.Shapes))
		for i, l := range t.Shapes {
			shapes[i] = l.Scale(e.size).Turn(e.rotation)
		}
	}
	boxes := plane.Boxes(shapes)
	cells := make([]fieldCell, 0, len(t.Cells))
	for _, p := range t.Cells {
		at := p.At
		at.X += e.move
		if e.rotation != 0 {
			at = at.Mul(e.size).Turn(e.rotation)
		}
		b := boxes[p.Shape].Move(at)
		if b.Min.Y > e.h/2-touch || b.Max.Y < touch-e.h/2 {
			continue
		}
		switch in := at.X + e.w/2 + onAxis; {
		case e.closed && e.rotation != 0:
			if in < 0 || in >= e.w {
				continue // named one period on
			}
		case e.closed:
			at.X -= e.w * math.Floor(in/e.w)
		case b.Min.X > e.w/2-touch || b.Max.X < touch-e.w/2:
			continue
		}
		cells = append(cells, fieldCell{shape: p.Shape, at: at, row: p.Row, col: p.Col})
	}
	return shapes, cells
}

// model is a cell of which others are images, before it is mapped.
type model struct {
	loop         plane.Loop
	flipX, flipY bool // of the cell that it was taken from
	periods      int  // of the band, taken off after grading where it follows the width
	bridge       float64
}

// fieldPose says which model a cell is an image of, and how.
type fieldPose struct {
	like         int
	flipX, flipY bool
	motion
}

// bent says how the cells of a field are mapped from the box to the blank.
type bent struct {
	s    *Sheet
	e    extent
	warp *warp // nil: moved along only
	// Cells that differ only by their position along, across, are one.
	freeX, freeY bool
	flipX, flipY bool // so are mirror images
}

func (s *Sheet) bent(f Field, e extent) *bent {
	b := &bent{s: s, e: e, freeX: e.along == nil && e.bridges == nil, freeY: e.across == nil}
	b.flipX = (e.along == nil || e.along.even) && (e.bridges == nil || e.bridges.even)
	b.flipY = b.freeY || e.across.even
	if e.shape || f.Area.Shape == StripShape {
		f.Follow = ""
	}
	if !e.shape {
		b.warp = e.warp(s, f)
	}
	switch {
	case b.warp == nil:
		if !b.freeX || !b.freeY {
			b.warp = &warp{}
		}
	case b.warp.rigid:
		b.freeY, b.flipY = false, false
		b.warp.mid = e.mid.Y
	default:
		b.freeX, b.freeY = false, false
		b.flipX = b.flipX && b.warp.leftRight && e.mid.X == 0
		b.flipY = b.flipY && b.warp.aboveBelow
	}
	return b
}

// warp is [newWarp] for a field whose frame runs half of its own bridge outside the
// rim's edge, and whose cells at the ends may be larger than a pitch.
func (e extent) warp(s *Sheet, f Field) *warp {
	t := *s
	t.Rule = 2 * e.half
	fr := e.frame
	fr.W *= math.Max(1, e.size)
	if e.along != nil {
		fr.W *= math.Max(1, e.along.hi)
	}
	return newWarp(&t, f, fr)
}

// follows reports whether the map is from positions along the whole band, not from
// the middle of the area.
func (b *bent) follows() bool { return b.warp != nil && b.warp.width != nil }

// image returns the model on the blank, if the area's middle were that of the
// blank where it does not follow the width.
func (b *bent) image(m model) plane.Loop {
	if b.warp == nil {
		return m.loop
	}
	by := 0.0
	if b.follows() {
		by = b.e.mid.X - float64(m.periods)*b.s.Flat.Length
	}
	w := *b.warp
	if b.e.along != nil || b.e.across != nil || by != 0 {
		w.before = func(q, d plane.Point) (plane.Point, plane.Point) {
			q, x, y := b.e.grade(q)
			return plane.Pt(q.X+by, q.Y), plane.Pt(d.X*x, d.Y*y)
		}
	}
	return w.cell(m.loop)
}

// poses finds the models of which all cells are images.
func (b *bent) poses(f Field, shapes []plane.Loop, cells []fieldCell) ([]fieldPose, []model) {
	const grid = 1e-6
	type key struct {
		x, y           int64
		edges, periods int
	}
	known := map[key][]int{}
	var models []model
	poses := make([]fieldPose, len(cells))
	for i, c := range cells {
		m := model{loop: flipped(shapes[c.shape], c.flipX, c.flipY), flipX: c.flipX, flipY: c.flipY}
		periods := 0
		if b.s.Flat.Wraps() {
			// By its middle: a half cell may lie far from where its whole one stood.
			place, _, _ := b.e.grade(m.loop.Bounds().Centre().Add(c.at))
			periods = int(b.s.Flat.Rounds(b.e.mid.X + place.X))
		}
		var to, by plane.Point // where the model is; what is left to move it
		if b.freeX {
			by.X = c.at.X
		} else {
			to.X = c.at.X
		}
		if b.freeY {
			by.Y = c.at.Y
		} else {
			to.Y = c.at.Y
		}
		m.loop = m.loop.Move(to)
		p := &poses[i]
		switch {
		case b.follows():
			m.periods = periods
		case b.warp != nil && b.warp.rigid:
			p.motion = onward(b.s.Flat, b.e.mid.X+by.X)
		default:
			p.motion = motion{b.e.tilt, by.Turn(b.e.tilt).Add(b.e.mid).Sub(plane.Pt(float64(periods)*b.s.Flat.Length, 0))}
		}
		at := m.loop.Centroid()
		k := at
		if b.flipX {
			k.X = math.Abs(k.X)
		}
		if b.flipY {
			k.Y = math.Abs(k.Y)
		}
		slot := key{int64(math.Round(k.X / grid)), int64(math.Round(k.Y / grid)), len(m.loop), m.periods}
		p.like = -1
		for _, n := range known[slot] {
			if p.like >= 0 {
				break
			}
			// First as the two were made, so that mirror images are exact.
			first := 0
			if c.flipX != models[n].flipX {
				first |= 1
			}
			if c.flipY != models[n].flipY {
				first |= 2
			}
			for j := range 4 {
				x, y := (first^j)&1 != 0, (first^j)&2 != 0
				if x && !b.flipX || y && !b.flipY || m.periods != 0 && x {
					continue
				}
				if flipped(models[n].loop, x, y).Same(m.loop, grid) {
					p.like, p.flipX, p.flipY = n, x, y
					break
				}
			}
		}
		if p.like < 0 {
			m.bridge = b.e.bridgeOf(f, b.s.Rule, m.loop)
			p.like = len(models)
			known[slot] = append(known[slot], p.like)
			models = append(models, m)
		}
	}
	return poses, models
}

// cutField makes openings of the cells of a field.
func (s *Sheet) cutField(f Field, e extent, shapes []plane.Loop, cells []fieldCell) error {
	b := s.bent(f, e)
	if b.warp != nil {
		var err error
		if shapes, cells, err = e.within(b.warp.oneToOne().Move(plane.Pt(-e.mid.X, 0)), shapes, cells); err != nil {
			return err
		}
	}
	poses, models := b.poses(f, shapes, cells)
	images := make([]plane.Loop, len(models))
	cores.Each(len(models), func(i int) { images[i] = b.image(models[i]) })
	boxes := make([]plane.Box, len(models))
	turned := false
	for _, p := range poses {
		turned = turned || p.rotation != 0
	}
	again := s.Flat.Copies()
	if s.Design.Band.Seamless() {
		again = again[:1]
	}
	widest := 0.0
	for i := range images {
		boxes[i] = images[i].Bounds()
		w := boxes[i].W()
		if turned {
			w = math.Hypot(w, boxes[i].H())
		}
		widest = math.Max(widest, w)
	}
	base := s.cutter(e.bridge)
	base.largestFirst = f.Mirror != ""
	base.closely, base.wholeOnly = true, f.Edge == EdgeWhole || f.Edge == EdgeFit
	var err error
	if base.ground, err = newGround(s.Ground, widest); err != nil {
		return err
	}
	// A cell that may be mirrored, and turned with the area, is worked out once.
	type image struct {
		like         int
		flipX, flipY bool
	}
	cone := b.warp != nil && b.warp.rigid
	slack, clear := 0.0, make([]bool, len(models))
	if b.warp != nil {
		slack = fitSlack
		base.images = again
		like := func(i int) int { return poses[i].like }
		clear = base.clear(len(models), len(cells), like, func(i int) plane.Box {
			p := &poses[i]
			return p.motion.loop(flipped(plane.Rect(boxes[p.like]), p.flipX, p.flipY)).Bounds()
		})
	}
	made := make([]blankCell, len(models))
	cutters := make([]*cutter, len(models))
	cores.Each(len(models), func(i int) {
		c := *base
		c.rule = models[i].bridge
		cutters[i] = &c
		made[i] = c.cell(images[i], c.rule/2+slack, clear[i])
	})
	slots := map[image]int{}
	var posed []blankCell
	var used []int
	slot := make([]int, len(cells))
	for i, p := range poses {
		k := image{p.like, p.flipX, p.flipY}
		n, ok := slots[k]
		if !ok {
			n = len(posed)
			slots[k] = n
			rotation := 0.0
			if !cone {
				rotation = p.rotation
			}
			posed = append(posed, rotatedCell(&made[p.like], p.flipX, p.flipY, rotation))
			used = append(used, 0)
		}
		slot[i] = n
		used[n]++
	}
	next := 0
	for n := range posed {
		if used[n] > 1 && !cone {
			posed[n].shape = next
			next += len(posed[n].whole)
		}
	}
	s.inRuns(len(cells), func(part *Sheet, i int) {
		p, cell := poses[i], cells[i]
		c := cutters[p.like]
		d := &posed[slot[i]]
		if cone && p.rotation != 0 {
			t := rotatedCell(d, false, false, p.rotation)
			d = &t
		}
		for _, m := range again {
			part.place(d, motif.Cell{Row: cell.row, Col: cell.col}, p.by.Add(m), c)
		}
	})
	return nil
}

// rotatedCell returns the cell mirrored, then turned about the origin.
func rotatedCell(b *blankCell, flipX, flipY bool, rotation float64) blankCell {
	if !flipX && !flipY && rotation == 0 {
		return *b
	}
	return b.posed(func(l plane.Loop) plane.Loop {
		l = flipped(l, flipX, flipY)
		if rotation != 0 {
			l = l.Turn(rotation)
		}
		return l
	})
}

// posed returns the cell with each of its loops as pose has it.
func (b *blankCell) posed(pose func(plane.Loop) plane.Loop) blankCell {
	out := blankCell{cell: pose(b.cell), shape: -1}
	for _, d := range b.not {
		d.At = pose(plane.Polygon(d.At))[0].Point
		out.not = append(out.not, d)
	}
	for _, l := range b.inset {
		out.inset = append(out.inset, pose(l))
	}
	for _, l := range b.whole {
		out.whole = append(out.whole, pose(l))
	}
	out.box, out.boxes = out.inset.Bounds(), plane.Boxes(out.whole)
	return out
}

// add takes over what was laid of field i. Shapes of different fields differ.
func (s *Sheet) add(part *Sheet, i int) {
	shapes := 0
	for _, o := range s.Openings {
		shapes = max(shapes, o.Shape+1)
	}
	first := len(s.Openings)
	if first == 0 {
		s.Openings = part.Openings
	} else {
		s.Openings = append(s.Openings, part.Openings...)
	}
	for k := first; k < len(s.Openings); k++ {
		o := &s.Openings[k]
		o.Field, o.Edit = i, -1
		if o.Shape >= 0 {
			o.Shape += shapes
		}
	}
	for _, d := range part.Dropped {
		d.Field = i
		s.Dropped = append(s.Dropped, d)
	}
}
