package pattern

import (
	"math"
	"slices"

	"fretband/pattern/motif"
	"fretband/unroll"
	"fretband/unroll/cores"
	"fretband/unroll/plane"
)

// warp lays the cells of a frame on a blank that is not a plain strip: along the
// arc of a flared band, and, when the field follows the width, scaled across the
// band so that the frame's upper and lower edge stay half a bridge outside the
// rims.
//
// Lines and arcs of a cell become other curves, which are fitted by arcs that run
// into each other (or kept as lines where they are as good as straight) within
// [fitSlack]. The true images of two cells do not overlap, since the map is one
// to one. A fitted cell may reach over its true edge by as much as it was fitted
// to, so it is inset by that much more than half a bridge: what is left is half a
// bridge from the true edge, and the rule holds as it does for plain cells.
type warp struct {
	flat  unroll.Flat
	mid   float64 // of the frame, where it does not scale
	width *course // nil if the cells do not scale with the width
	rigid bool    // on an arc of one width: a row's cells differ by a turn only
	// leftRight and aboveBelow report whether the map is its own mirror image.
	leftRight, aboveBelow bool
	// before maps the frame's places and directions first; nil for not at all.
	before func(q, d plane.Point) (plane.Point, plane.Point)
}

// fitSlack is how far the fitted edge of a cell may be from its true one, mm:
// half of what a curve of the design may be fitted to, since the bridge gains it
// on either side.
const fitSlack = plane.FitTolerance / 2

// course is the frame's upper and lower edge along the blank: a table of positions
// and slopes, run through by cubics. It need only be smooth and one to one, so it
// is not held to a tolerance.
type course struct {
	from, step float64
	mid, scale []float64 // of a height of 1
	dm, ds     []float64
}

// courseSteps a blank, about: a step is a fraction of a millimetre where cells are short.
const courseSteps = 1024

// newWarp returns nil where the plain way of laying cells will do.
func newWarp(s *Sheet, field Field, f motif.Frame) *warp {
	follow := field.Follow == FollowWidth && (!s.Flat.Level() || s.rim != nil)
	if !follow && !s.Flat.Flared() {
		return nil
	}
	w := &warp{flat: s.Flat, rigid: s.Flat.Flared() && !follow}
	bottom, top := s.Flat.Extent()
	w.mid = (bottom + top) / 2
	w.leftRight, w.aboveBelow = s.Flat.Mirrored()
	if !follow {
		return w
	}
	if s.rim != nil {
		w.leftRight = w.leftRight && s.rim.even
	}
	// Past the ends by a cell and more.
	long := s.Flat.Length + 6*f.Pitch()
	n, step := courseSteps, long/courseSteps
	if p := s.Flat.Length; s.Flat.Wraps() { // whole steps round, so that the map is the same past the seam
		step = p / math.Ceil(p/step)
		n = int(math.Ceil(long / step))
	}
	c := &course{from: -float64(n) * step / 2, step: step}
	// The edge of the ground at right angles to the rim, along the upright. A
	// little further in, so that an opening on the rim is not cut by it.
	for i := range n + 1 {
		x := c.from + float64(i)*c.step
		in := s.RimAt(x) - s.Rule/2 + 2*plane.FitTolerance
		b, t, bs, ts := s.Flat.EdgeSlopes(x)
		b += in * math.Hypot(1, bs)
		t -= in * math.Hypot(1, ts)
		c.mid = append(c.mid, (b+t)/2)
		c.scale = append(c.scale, math.Max(t-b, f.H/100)/f.H)
	}
	c.dm, c.ds = slopes(c.mid), slopes(c.scale)
	w.width = c
	return w
}

// slopes returns the differences of a table's neighbours, per step.
func slopes(y []float64) []float64 {
	d := make([]float64, len(y))
	for i := range d {
		a, b := max(i-1, 0), min(i+1, len(y)-1)
		d[i] = (y[b] - y[a]) / float64(b-a)
	}
	return d
}

// at returns the middle and the scale at u, and their slopes.
func (c *course) at(u float64) (mid, scale, dm, ds float64) {
	f := (u - c.from) / c.step
	i := min(max(int(f), 0), len(c.mid)-2)
	t := math.Max(0, math.Min(f-float64(i), 1))
	run := func(y, m []float64) (float64, float64) {
		d := y[i+1] - y[i]
		a, b := m[i], m[i+1]
		c2, c3 := 3*d-2*a-b, a+b-2*d
		return y[i] + t*(a+t*(c2+t*c3)), (a + t*(2*c2+3*t*c3)) / c.step
	}
	mid, dm = run(c.mid, c.dm)
	scale, ds = run(c.scale, c.ds)
	return mid, scale, dm, ds
}

// at returns where the position q of the frame comes to lie, and the direction in
// which a line through it in the direction d leaves.
func (w *warp) at(q, d plane.Point) (p, tangent plane.Point) {
	if w.before != nil {
		q, d = w.before(q, d)
	}
	v, dv := q.Y+w.mid, d.Y
	if w.width != nil {
		mid, scale, dm, ds := w.width.at(q.X)
		v = mid + q.Y*scale
		dv = d.Y*scale + d.X*(dm+q.Y*ds)
	}
	if !w.flat.Flared() {
		return plane.Pt(q.X, v), plane.Pt(d.X, dv)
	}
	return w.flat.PlaceWay(q.X, v, d.X, dv)
}

// oneToOne returns the box of positions that the map takes one to one, before is left
// out of account. Cells are cut to it before they are bent: on a flared band what
// reaches farther would come to lie on the blank again.
func (w *warp) oneToOne() plane.Box {
	box := w.flat.Placeable()
	if w.width == nil {
		return box.Move(plane.Pt(0, -w.mid))
	}
	lo, hi := math.Inf(-1), math.Inf(1)
	for i, mid := range w.width.mid {
		lo = math.Max(lo, (box.Min.Y-mid)/w.width.scale[i])
		hi = math.Min(hi, (box.Max.Y-mid)/w.width.scale[i])
	}
	box.Min.Y, box.Max.Y = lo, hi
	return box
}

// cell returns the image of a cell of the frame.
func (w *warp) cell(l plane.Loop) plane.Loop {
	var out plane.Loop
	for i := range l {
		e := l.Edge(i)
		if e.Chord() < plane.Snap {
			continue
		}
		run := curveOf(e)
		c := func(t float64) (p, d plane.Point) { return w.at(run(t)) }
		a, _ := c(0)
		b, _ := c(1)
		if e.IsLine() {
			chord := plane.Edge{A: a, B: b}
			off := func(t float64) bool {
				p, _ := c(t)
				return chord.Dist(p) > fitSlack/2
			}
			if !slices.ContainsFunc([]float64{0.5, 0.25, 0.75, 0.125, 0.875}, off) && !alongLong(e, off) {
				out = append(out, plane.Vertex{Point: a})
				continue
			}
		}
		out = append(out, fitImage(c, 0, 1, e).Loop()...)
	}
	return out
}

// longEdge is the length, mm, from which an edge of a cell is longer than what bends it
// may be: few large cells on a band that swells in its middle. Its image is looked at
// every mm then, for a few positions may all lie beside the bend.
const longEdge = 8

// alongLong reports whether something holds anywhere along an edge that is long.
func alongLong(e plane.Edge, holds func(t float64) bool) bool {
	if e.Len() <= longEdge {
		return false
	}
	n := math.Ceil(e.Len())
	for i := 1.0; i < n; i++ {
		if holds(i / n) {
			return true
		}
	}
	return false
}

// fitImage fits arcs to the part from t0 to t1 of the image of an edge, by halves where
// the whole of a long one is not met.
func fitImage(c plane.Curve, t0, t1 float64, e plane.Edge) plane.Chain {
	fit := plane.FitArcs(c, t0, t1, fitSlack)
	part := e.Part(t0, t1)
	missed := alongLong(part, func(t float64) bool {
		p, _ := c(t0 + t*(t1-t0))
		return !slices.ContainsFunc(fit, func(f plane.Edge) bool { return f.Dist(p) <= 2*fitSlack })
	})
	if !missed {
		return fit
	}
	mid := (t0 + t1) / 2
	return append(fitImage(c, t0, mid, e), fitImage(c, mid, t1, e)...)
}

// curveOf returns the edge as a curve, with [plane.Edge.At] and [plane.Edge.Tangent]
// to the last bit, and what does not change along it worked out once.
func curveOf(e plane.Edge) plane.Curve {
	chord := e.B.Sub(e.A)
	d := chord.Unit()
	sweep := e.Sweep()
	if e.Bulge == 0 || math.Abs(e.Bulge) > 1 {
		return func(t float64) (plane.Point, plane.Point) { return e.At(t), e.Tangent(t) }
	}
	half := math.Sin(sweep / 2)
	return func(t float64) (p, tangent plane.Point) {
		tangent = d.Turn(sweep * (t - 0.5))
		switch t {
		case 0:
			return e.A, tangent
		case 1:
			return e.B, tangent
		}
		return e.A.Add(chord.Turn(-sweep * (1 - t) / 2).Mul(math.Sin(sweep*t/2) / half)), tangent
	}
}

// pose says that a cell is another one, mirrored and turned.
type pose struct {
	like         int
	flipX, flipY bool
	rotation     float64 // about the apex of a flared band
}

// poses finds which positions hold the same cell: by a turn on an arc of one width,
// else by the mirror images that the blank has. It returns a pose for each position
// and the loops, in the frame, that all are like.
func (w *warp) poses(t motif.Tiling) (all []pose, models []plane.Loop) {
	const grid = 1e-6
	type key struct {
		x, y  int64
		edges int
	}
	known := map[key][]int{}
	for _, p := range t.Cells {
		if w.rigid {
			k := key{int64(p.Shape), int64(math.Round(p.At.Y / grid)), 0}
			if len(known[k]) == 0 {
				known[k] = []int{len(models)}
				models = append(models, t.Shapes[p.Shape].Move(plane.Pt(0, p.At.Y)))
			}
			// The turn of a vector in the clockwise sense is that of growing x.
			all = append(all, pose{like: known[k][0], rotation: p.At.X / w.flat.Apex()})
			continue
		}
		l := t.Shapes[p.Shape].Move(p.At)
		c := l.Centroid()
		if w.leftRight {
			c.X = math.Abs(c.X)
		}
		if w.aboveBelow {
			c.Y = math.Abs(c.Y)
		}
		k := key{int64(math.Round(c.X / grid)), int64(math.Round(c.Y / grid)), len(l)}
		found := pose{like: -1}
		for _, m := range known[k] {
			for flips := range 4 {
				x, y := flips&1 != 0, flips&2 != 0
				if x && !w.leftRight || y && !w.aboveBelow {
					continue
				}
				if flipped(models[m], x, y).Same(l, grid) {
					found = pose{like: m, flipX: x, flipY: y}
				}
			}
		}
		if found.like < 0 {
			found.like = len(models)
			known[k] = append(known[k], len(models))
			models = append(models, l)
		}
		all = append(all, found)
	}
	return all, models
}

func flipped(l plane.Loop, x, y bool) plane.Loop {
	if x {
		l = l.MirrorX()
	}
	if y {
		l = l.MirrorY()
	}
	return l
}

// posed returns a loop of the model as the pose has it.
func (w *warp) posed(l plane.Loop, p pose) plane.Loop {
	l = flipped(l, p.flipX, p.flipY)
	if p.rotation != 0 {
		y := w.flat.Apex()
		l = l.Move(plane.Pt(0, -y)).Turn(p.rotation).Move(plane.Pt(0, y))
	}
	return l
}

// cutWarped is cut for cells that are laid by a warp.
func (s *Sheet) cutWarped(t motif.Tiling, c *cutter, w *warp) error {
	poses, models := w.poses(t)
	images := make([]plane.Loop, len(models))
	cores.Each(len(models), func(i int) { images[i] = w.cell(models[i]) })
	boxes := make([]plane.Box, len(models))
	widest := 0.0
	for i := range images {
		boxes[i] = images[i].Bounds()
		if w.rigid {
			widest = math.Max(widest, math.Hypot(boxes[i].W(), boxes[i].H()))
		} else {
			widest = math.Max(widest, boxes[i].W())
		}
	}
	var err error
	if c.ground, err = newGround(s.Ground, widest); err != nil {
		return err
	}
	like := func(i int) int { return poses[i].like }
	clear := c.clear(len(models), len(poses), like, func(i int) plane.Box {
		return w.posed(plane.Rect(boxes[poses[i].like]), poses[i]).Bounds()
	})
	cells := make([]blankCell, len(models))
	cores.Each(len(models), func(i int) { cells[i] = c.cell(images[i], c.rule/2+fitSlack, clear[i]) })
	s.inRuns(len(t.Cells), func(part *Sheet, i int) {
		b := cells[poses[i].like]
		if p := poses[i]; p.flipX || p.flipY || p.rotation != 0 {
			b = b.posed(func(l plane.Loop) plane.Loop { return w.posed(l, p) })
		}
		for _, move := range c.images {
			part.place(&b, t.Cells[i], move, c)
		}
	})
	return nil
}

// clear reports which models stand clear of the ground's edge wherever their cells, so
// many in all, are placed, as most do. like returns a cell's model, box what it lies in.
func (c *cutter) clear(models, cells int, like func(int) int, box func(int) plane.Box) []bool {
	clear := slices.Repeat([]bool{true}, models)
	for i := range cells {
		m := like(i)
		if !clear[m] {
			continue
		}
		at := box(i)
		for _, by := range c.images {
			moved := at.Move(by)
			if near, _ := c.ground.at(moved.Min.X).stands(moved); near {
				clear[m] = false
			}
		}
	}
	return clear
}

// cell works out a cell, which may stand clear of the ground's edge.
func (c *cutter) cell(l plane.Loop, d float64, clear bool) blankCell {
	if clear {
		if b, ok := c.clearCell(l, d); ok {
			return b
		}
	}
	return c.blankCell(l, d)
}

// clearCell works out, as blankCell does, a cell that nothing cuts and that makes
// one opening; ok is false if it can't tell. An inset by d and one by the corner's
// radius after it are one inset by both.
func (c *cutter) clearCell(l plane.Loop, d float64) (b blankCell, ok bool) {
	if c.corner <= 0 {
		return b, false
	}
	core := l.Inset(d + c.corner)
	if len(core) != 1 || core[0].Area() <= 0 {
		return b, false
	}
	open := core.Offset(c.corner)
	if len(open) != 1 || open[0].Area() < touch {
		return b, false
	}
	o, ok := open[0].Cuttable()
	if !ok {
		return b, false
	}
	open = plane.Region{o}
	// A disc of the smallest diameter about its middle, or one as wide as a corner.
	if m := o.Centroid(); c.smallest > 2*c.corner && !(o.Contains(m) && o.Nearest(m).D >= c.smallest/2) {
		return b, false
	}
	if len(o.Necks(c.rule-touch)) > 0 {
		return b, false
	}
	box := o.Bounds()
	return blankCell{cell: l, inset: open, box: box, whole: open, boxes: []plane.Box{box}, shape: -1}, true
}
