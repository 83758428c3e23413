package blank

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"strconv"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export/paint"
	"fretband/export/picture"
	"fretband/pattern"
	"fretband/pattern/strength"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// sheetPainter draws the blank, its rulers and its net section. The base picture
// changes only with the view, the scene and the dress, and is kept; what follows
// the pointer is drawn over a copy of it.
type sheetPainter struct {
	faces *kit.Faces
	fill  paint.Fill
	base  *image.RGBA
	out   *image.RGBA
	key   baseKey
	// target is the picture being drawn: base or out.
	target *image.RGBA
	tone   kit.Metal // of the scene

	xy      []float64
	inSight []placed              // the openings
	shapes  map[int][]plane.Point // flattened openings by Shape, about At
	tol     float64               // that they were flattened with, mm
	shapeV  int                   // of the scene that they belong to

	stretch *stretchMap // of the last scene that was drawn
	stress  stressLayer
}

// placed is a polygon and where it is.
type placed struct {
	pts []plane.Point
	at  plane.Point
}

type baseKey struct {
	view    viewport
	version int
	dress   string
	keep    app.Item // the item that is selected
	plain   bool
	stress  *picture.StressMap
	pale    bool
	under   underlay
}

// strokesUpTo is the number of openings in sight up to which their edges are
// drawn as lines; more would be a grey haze and slow.
const strokesUpTo = 4000

// paint returns the picture for one frame. The image is used again by the next.
func (p *sheetPainter) paint(v viewport, s *app.Scene, d *kit.Dress, m overlay) *image.RGBA {
	w, h := v.frame.w, v.frame.h
	key := baseKey{v, -1, d.Name, m.item, m.noStretch, m.stress, m.pale, m.under}
	if s != nil {
		key.version, p.tone = s.Version, kit.MetalOf(s.Sheet.Design.Metal.Alloy)
	}
	if p.base == nil || p.base.Rect.Dx() != w || p.base.Rect.Dy() != h {
		p.base = image.NewRGBA(image.Rect(0, 0, w, h))
		p.out = image.NewRGBA(image.Rect(0, 0, w, h))
		p.key = baseKey{}
	}
	if p.key != key {
		p.drawBase(v, s, d, m)
		p.key = key
	}
	copy(p.out.Pix, p.base.Pix)
	p.drawOverlay(v, s, d, m)
	return p.out
}

func (p *sheetPainter) draw(c color.NRGBA) { p.fill.Draw(p.target, c) }

// box paints a rectangle of whole pixels.
func (p *sheetPainter) box(x0, y0, x1, y1 float64, c color.NRGBA) {
	paint.Box(p.target, int(math.Round(x0)), int(math.Round(y0)), int(math.Round(x1)), int(math.Round(y1)), c)
}

func (p *sheetPainter) drawBase(v viewport, s *app.Scene, d *kit.Dress, m overlay) {
	p.target = p.base
	f := v.frame
	p.fill.Reset(f.w, f.h)
	p.box(0, 0, float64(f.w), float64(f.h), d.Paper)
	p.drawGrid(v, d)
	stretched := !m.noStretch && m.stress == nil // one map at a time
	if s != nil {
		p.drawMetal(v, s, d, m)
		if stretched {
			p.drawStretch(v, s, d)
		}
		p.drawUnderlay(v, m.under)
		p.drawKept(v, s, d, m.item)
		p.drawAdded(v, s, d, m.item)
		p.drawEngraved(v, s, d, m.item)
		p.drawSolid(v, s)
		p.drawCentreLines(v, s, d)
		if m.stress != nil && !m.pale {
			p.ring(v, m.stress.Case.PeakAt, d, d.Ink)
			if m.stress.Case.What == strength.PushedWhat {
				p.pushMark(v, m.stress.Case.At[0], d)
			}
		}
		p.drawGraph(v, s, d)
		if stretched {
			p.drawStretchLegend(v, d)
		}
	} else {
		face := p.faces.Size(13 * f.scale)
		face.Draw(p.target, "No picture yet. If a number stands in the way, it is named under the controls.",
			(f.left+f.right)/2, (f.top+f.bottom)/2, kit.AlignMiddle, d.Soft)
	}
	p.drawRulers(v, d)
	p.drawGraphScale(v, s, d)
}

func (p *sheetPainter) drawGrid(v viewport, d *kit.Dress) {
	f := v.frame
	step, _ := v.tick(56 * f.scale)
	lo, hi := v.mm(f.left, f.bottom), v.mm(f.right, f.top)
	px := math.Max(1, math.Floor(f.scale))
	for i := math.Ceil(lo.X / step); i*step <= hi.X; i++ {
		x := math.Round(v.x(i * step))
		p.box(x, f.top, x+px, float64(f.h), d.Grid)
	}
	for i := math.Ceil(lo.Y / step); i*step <= hi.Y; i++ {
		y := math.Round(v.y(i * step))
		p.box(f.left, y, f.right, y+px, d.Grid)
	}
}

// loopPath adds a loop to the fill.
func (p *sheetPainter) loopPath(v viewport, pts []plane.Point, at plane.Point, hole bool) {
	n := len(pts)
	for i := range n {
		q := pts[i]
		if hole {
			q = pts[n-1-i]
		}
		x, y := v.x(q.X+at.X), v.y(q.Y+at.Y)
		if i == 0 {
			p.fill.MoveTo(x, y)
		} else {
			p.fill.LineTo(x, y)
		}
	}
	p.fill.Close()
}

func (p *sheetPainter) strokePath(v viewport, pts []plane.Point, at plane.Point, w float64) {
	p.xy = p.xy[:0]
	for _, q := range pts {
		p.xy = append(p.xy, v.x(q.X+at.X), v.y(q.Y+at.Y))
	}
	p.fill.Path(w, true, p.xy)
}

// flatten returns the polygon of opening i and where it is, to a fifth of a
// pixel. Openings of one shape share it.
func (p *sheetPainter) flatten(v viewport, s *app.Scene, i int) ([]plane.Point, plane.Point) {
	tol := 0.2 / v.k
	if p.shapes == nil || p.shapeV != s.Version || tol < p.tol*0.7 || tol > p.tol*2 {
		p.shapes = map[int][]plane.Point{}
		p.shapeV, p.tol = s.Version, tol
	}
	o := &s.Sheet.Openings[i]
	if o.Shape < 0 {
		return o.Loop.Flatten(p.tol), plane.Point{}
	}
	pts, ok := p.shapes[o.Shape]
	if !ok {
		pts = o.Loop.Flatten(p.tol)
		for k := range pts {
			pts[k] = pts[k].Sub(o.At)
		}
		p.shapes[o.Shape] = pts
	}
	return pts, o.At
}

// copies lists by how much an opening is moved to be seen: not at all, and where it
// runs over the seam of a closed band, to the other end as well. On a flared one, whose
// ends meet by turning, openings keep clear of them.
func copies(s *pattern.Sheet, l plane.Loop) []plane.Point {
	var moves []plane.Point
	for _, r := range s.OnBlank(l) {
		if by, only := r.Moved(); only {
			moves = append(moves, by)
		}
	}
	return moves
}

func (p *sheetPainter) eachOpening(v viewport, s *app.Scene, do func(i int, pts []plane.Point, at plane.Point)) {
	f := v.frame
	lo, hi := v.mm(f.left, f.bottom), v.mm(f.right, f.top)
	sight := plane.Box{Min: lo, Max: hi}.Grow(2 / v.k)
	for i := range s.Sheet.Openings {
		b := s.Sheet.Openings[i].Box
		if half := s.Sheet.Flat.Length / 2; !s.Sheet.Flat.Wraps() || -half < b.Min.X && b.Max.X < half {
			if b.Meets(sight) {
				pts, at := p.flatten(v, s, i)
				do(i, pts, at)
			}
			continue
		}
		for _, by := range copies(s.Sheet, s.Sheet.Openings[i].Loop) {
			if b.Move(by).Meets(sight) {
				pts, at := p.flatten(v, s, i)
				do(i, pts, at.Add(by))
			}
		}
	}
}

func (p *sheetPainter) drawMetal(v viewport, s *app.Scene, d *kit.Dress, m overlay) {
	var layer *image.RGBA
	if m.stress != nil {
		layer = p.layStress(v, m.stress)
	}
	f := v.frame
	outline := s.Sheet.Flat.Outline.Flatten(0.2 / v.k)
	p.inSight = p.inSight[:0]
	p.eachOpening(v, s, func(_ int, pts []plane.Point, at plane.Point) { p.inSight = append(p.inSight, placed{pts, at}) })
	metal := func() {
		p.loopPath(v, outline, plane.Point{}, false)
		for _, o := range p.inSight {
			p.loopPath(v, o.pts, o.at, true)
		}
	}
	// A soft shadow a little below lifts the metal off the ground.
	p.fill.Outer = true
	lift := int(math.Round(math.Min(3*f.scale, math.Max(1, s.Sheet.Flat.Thickness*v.k*0.35))))
	metal()
	if layer != nil {
		p.fill.DrawLifted(p.target, color.NRGBA{}, d.Shadow, lift)
		metal()
		p.drawStressed(layer, m.pale)
	} else {
		p.fill.DrawLifted(p.target, p.tone.Face, d.Shadow, lift)
	}
	p.fill.Outer = false
	px := math.Max(1, f.scale)
	p.strokePath(v, outline, plane.Point{}, px)
	if len(p.inSight) <= strokesUpTo {
		for _, o := range p.inSight {
			p.strokePath(v, o.pts, o.at, px)
		}
	}
	edge := p.tone.Edge
	if layer != nil && d.Dark() {
		edge = d.Soft // the darkest shades are as dark as the ground
	}
	p.drawInside(v, kit.Alpha(edge, 200))
}

// drawInside paints what the fill holds, but not over rulers and graph.
func (p *sheetPainter) drawInside(v viewport, c color.NRGBA) {
	p.fill.DrawWithin(p.target, v.frame.blankPixels(), c)
}

// hatch paints what the fill holds as slanted lines; sense turns them.
func (p *sheetPainter) hatch(v viewport, c color.NRGBA, sense int) {
	f := v.frame
	gap, wide := hatchOf(f.scale)
	ox, oy := int(v.x(0)), int(v.y(0)) // fixed to the blank: no swimming while panning
	p.fill.Each(func(x, y int, a float32) {
		k := ((x-ox)+sense*(y-oy))%gap + gap
		if k%gap < wide && f.inBlank(float64(x), float64(y)) {
			paint.Blend(p.target, x, y, c, a)
		}
	})
}

// drawKept shows what stays solid: reserves, and the strip of a soldered joint.
func (p *sheetPainter) drawKept(v viewport, s *app.Scene, d *kit.Dress, selected app.Item) {
	f := v.frame
	ink := p.tone.Edge
	for _, r := range s.Sheet.Reserves {
		for _, l := range s.Sheet.Again(r.Loop) {
			p.loopPath(v, l.Flatten(0.2/v.k), plane.Point{}, false)
			p.hatch(v, ink, 1)
		}
	}
	p.clearUnderLetters(v, s)
	for _, r := range s.Sheet.Reserves {
		for _, l := range s.Sheet.Again(r.Loop) {
			pts := l.Flatten(0.2 / v.k)
			w, c := math.Max(1, f.scale), ink
			if selected == (app.Item{Kind: app.ReserveItem, Index: r.Reserve}) {
				w, c = 2*f.scale, d.Selected
			}
			p.strokePath(v, pts, plane.Point{}, w)
			p.drawInside(v, c)
		}
	}
	if j := s.Sheet.Flat.JointStrip; j > 0 {
		half := s.Sheet.Flat.Length / 2
		for _, x := range [2]float64{-half, half - j} {
			p.loopPath(v, strip(s.Sheet.Flat, x, x+j), plane.Point{}, false)
			p.hatch(v, ink, -1)
		}
	}
}

// stoneTone is that of stones, as in the bent view: a plain blue, like no metal.
var stoneTone = color.NRGBA{120, 152, 190, 255}

// drawAdded shows what is soldered or set on: wire, bezels, beads and parts lighter than the
// band, stones in a colour of their own.
func (p *sheetPainter) drawAdded(v viewport, s *app.Scene, d *kit.Dress, selected app.Item) {
	f := v.frame
	ink := p.tone.Edge
	light := color.NRGBA{255, 255, 255, 120}
	beads := false // a bead over the seam is shown once: its copy would hang beyond the end
	all := func(l plane.Loop, do func(pts []plane.Point)) {
		copies := []plane.Loop{l}
		if !beads {
			copies = s.Sheet.Again(l)
		}
		for _, one := range copies {
			do(one.Flatten(0.2 / v.k))
		}
	}
	paint := func(l plane.Loop, c color.NRGBA) {
		all(l, func(pts []plane.Point) { p.loopPath(v, pts, plane.Point{}, false) })
		p.drawInside(v, c)
	}
	for i, set := range s.Sheet.Added {
		kind := s.Sheet.Design.Added[i].Kind
		beads = kind == pattern.BeadsPart
		w, c := math.Max(1, f.scale), ink
		if selected == (app.Item{Kind: app.AddedItem, Index: i}) {
			w, c = 2*f.scale, d.Selected
		}
		for _, one := range set.Wires {
			paint(one.Loop, light)
		}
		for _, seat := range set.Seats {
			if paint(seat.Outside, light); kind == pattern.StonePart {
				paint(seat.Loop, stoneTone)
			}
		}
		for _, l := range set.Drawn() {
			all(l, func(pts []plane.Point) { p.strokePath(v, pts, plane.Point{}, w) })
		}
		p.drawInside(v, c)
	}
}

// strip is the part of the blank from x0 to x1 along the band, as a polygon.
func strip(f unroll.Flat, x0, x1 float64) []plane.Point {
	const n = 8
	var pts []plane.Point
	for i := range n + 1 {
		x := x0 + (x1-x0)*float64(i)/n
		bottom, _ := f.EdgesAt(x)
		pts = append(pts, f.Place(x, bottom))
	}
	for i := range n + 1 {
		x := x1 + (x0-x1)*float64(i)/n
		_, top := f.EdgesAt(x)
		pts = append(pts, f.Place(x, top))
	}
	return pts
}

func (p *sheetPainter) drawCentreLines(v viewport, s *app.Scene, d *kit.Dress) {
	f := v.frame
	px := math.Max(1, math.Floor(f.scale))
	x, y := math.Round(v.x(0))+px/2, math.Round(v.y(0))+px/2
	out := 12 * f.scale
	half := s.Sheet.Flat.Length/2*v.k + out
	high := s.Sheet.Flat.Width/2*v.k + out
	for _, r := range [2]float64{-1, 1} { // outside the blank only: metal stays clean
		p.fill.Line(x, y+r*(high-out+3*f.scale), x, y+r*high, px)
		if s.Sheet.Flat.Flared() {
			continue // it has a middle, but no straight one along it
		}
		p.fill.Line(x+r*(half-out+3*f.scale), y, x+r*half, y, px)
	}
	p.drawInside(v, d.Rule)
}

func (p *sheetPainter) drawRulers(v viewport, d *kit.Dress) {
	f := v.frame
	px := math.Max(1, math.Floor(f.scale))
	p.box(0, 0, float64(f.w), f.top, d.Panel)
	p.box(0, 0, f.left, float64(f.h), d.Panel)
	p.box(0, f.top-px, float64(f.w), f.top, d.Line)
	p.box(f.left-px, f.top, f.left, float64(f.h), d.Line)
	face := p.faces.Size(11 * f.scale)
	step, parts := v.tick(56 * f.scale)
	lo, hi := v.mm(f.left, f.bottom), v.mm(f.right, f.top)
	fine := step / float64(parts)
	for i := math.Ceil(lo.X / fine); i*fine <= hi.X; i++ {
		x := math.Round(v.x(i * fine))
		l := 4.0
		if math.Mod(i, float64(parts)) == 0 {
			l = 8
		}
		p.box(x, f.top-l*f.scale, x+px, f.top, d.Rule)
	}
	for i := math.Ceil(lo.Y / fine); i*fine <= hi.Y; i++ {
		y := math.Round(v.y(i * fine))
		l := 4.0
		if math.Mod(i, float64(parts)) == 0 {
			l = 8
		}
		p.box(f.left-l*f.scale, y, f.left, y+px, d.Rule)
	}
	for i := math.Ceil(lo.X / step); i*step <= hi.X; i++ {
		x := math.Round(v.x(i * step))
		if x < f.left+14*f.scale || x > f.right-14*f.scale {
			continue
		}
		face.Draw(p.target, tickText(i*step, step), x+px/2, f.top-11*f.scale, kit.AlignMiddle, d.Soft)
	}
	for i := math.Ceil(lo.Y / step); i*step <= hi.Y; i++ {
		y := math.Round(v.y(i * step))
		if y < f.top+8*f.scale || y > f.bottom-8*f.scale {
			continue
		}
		face.Draw(p.target, tickText(i*step, step), f.left-12*f.scale, y+face.Height()/2, kit.AlignRight, d.Soft)
	}
	p.box(0, 0, f.left-px, f.top-px, d.Panel)
	face.Draw(p.target, "mm", f.left-12*f.scale, f.top-9*f.scale, kit.AlignRight, d.Soft)
}

// tickText writes a ruler's number with as many decimals as its step needs.
func tickText(v, step float64) string {
	places := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	t := strconv.FormatFloat(math.Abs(v), 'f', places, 64)
	if v < -step/2 {
		t = "-" + t
	}
	return t
}

// drawGraph draws how much metal is in each cross-section, straight under
// its position on the blank.
func (p *sheetPainter) drawGraph(v viewport, s *app.Scene, d *kit.Dress) {
	f := v.frame
	if !f.hasGraph() || len(s.Report.Net.X) < 2 {
		return
	}
	px := math.Max(1, math.Floor(f.scale))
	p.box(f.left, f.bottom, f.right, float64(f.h), d.Panel)
	p.box(0, f.bottom, f.right, f.bottom+px, d.Line)
	n := s.Report.Net
	full := 0.0
	for _, w := range n.Full {
		full = math.Max(full, w)
	}
	if full <= 0 {
		return
	}
	y := func(mm float64) float64 { return f.graphBottom - mm/full*(f.graphBottom-f.graphTop) }
	room := image.Rect(int(math.Ceil(f.left)), int(math.Ceil(f.bottom+1)), f.w, f.h)
	inside := func(c color.NRGBA) { p.fill.DrawWithin(p.target, room, c) }
	area := func(h []float64) {
		p.fill.MoveTo(v.x(n.X[0]), y(0))
		for i, x := range n.X {
			p.fill.LineTo(v.x(x), y(h[i]))
		}
		p.fill.LineTo(v.x(n.X[len(n.X)-1]), y(0))
		p.fill.Close()
	}
	area(n.Full)
	inside(kit.Alpha(p.tone.Face, 60))
	area(n.Net)
	inside(kit.Alpha(p.tone.Face, 235))
	line := func(h []float64, w float64, c color.NRGBA) {
		p.xy = p.xy[:0]
		for i, x := range n.X {
			p.xy = append(p.xy, v.x(x), y(h[i]))
		}
		p.fill.Path(w, false, p.xy)
		inside(c)
	}
	line(n.Net, math.Max(1, f.scale), p.tone.Edge)
	line(n.Full, math.Max(1, f.scale), d.Faint)
	p.fill.Rect(f.left, f.graphBottom, f.right, f.graphBottom+px)
	p.draw(d.Line)
	face := p.faces.Size(11 * f.scale)
	// The weakest section, with a line up to its position on the blank.
	x := v.x(n.WeakX)
	label := fmt.Sprintf("least %s of %s mm", app.FormatNumber(n.WeakNet, 1), app.FormatNumber(n.WeakFull, 1))
	titleEnd := f.left
	for _, title := range []string{"NET SECTION  metal left across the band, mm", "NET SECTION, mm"} {
		end := f.left + 10*f.scale + face.Width(title)
		if end+16*f.scale+face.Width(label) <= f.right-8*f.scale {
			face.Draw(p.target, title, f.left+10*f.scale, f.bottom+16*f.scale, kit.AlignLeft, d.Soft)
			titleEnd = end
			break
		}
	}
	if x >= f.left && x <= f.right && s.Report.Openings > 0 {
		yw := y(n.WeakNet)
		// The cut: straight up to its position on the blank, or, where that is bent on
		// the flat, across the blank itself.
		flat := s.Sheet.Flat
		bottom, top := flat.EdgesAt(n.WeakX)
		from, to := flat.Place(n.WeakX, top), flat.Place(n.WeakX, bottom)
		ax, ay, bx, by := v.x(from.X), v.y(from.Y)-6*f.scale, x, yw
		if flat.Flared() {
			ay, bx, by = ay+6*f.scale, v.x(to.X), v.y(to.Y)
		}
		// Dark and light in turn, so that it shows on metal and on ground.
		l := math.Max(1, math.Hypot(bx-ax, by-ay))
		for i, c := range [2]color.NRGBA{{28, 26, 22, 220}, {250, 248, 244, 220}} {
			k := 4 * f.scale * float64(i) / l
			p.fill.Dashes(ax+k*(bx-ax), ay+k*(by-ay), bx, by, px, 4*f.scale, 4*f.scale)
			p.fill.DrawWithin(p.target, image.Rect(int(math.Ceil(f.left)), int(math.Ceil(f.top)), f.w, f.h), c)
		}
		p.fill.Polygon(x, yw+1*f.scale, x-5*f.scale, yw-8*f.scale, x+5*f.scale, yw-8*f.scale)
		p.draw(d.Ink)
		w := face.Width(label)
		lx := x + 8*f.scale
		if lx+w > f.right-8*f.scale {
			lx = x - 8*f.scale - w
		}
		ly := f.bottom + 16*f.scale
		lx = math.Max(lx, titleEnd+16*f.scale)
		face.Draw(p.target, label, lx, ly, kit.AlignLeft, d.Ink)
	}
}

// drawGraphScale writes the graph's own ruler, over the left one.
func (p *sheetPainter) drawGraphScale(v viewport, s *app.Scene, d *kit.Dress) {
	f := v.frame
	if s == nil || !f.hasGraph() {
		return
	}
	full := 0.0
	for _, w := range s.Report.Net.Full {
		full = math.Max(full, w)
	}
	face := p.faces.Size(11 * f.scale)
	px := math.Max(1, math.Floor(f.scale))
	for _, m := range [2]struct{ mm, y float64 }{{0, f.graphBottom}, {full, f.graphTop}} {
		p.fill.Rect(f.left-8*f.scale, m.y, f.left, m.y+px)
		p.draw(d.Rule)
		face.Draw(p.target, app.FormatNumber(m.mm, 1), f.left-12*f.scale, m.y+face.Height()/2, kit.AlignRight, d.Soft)
	}
}
