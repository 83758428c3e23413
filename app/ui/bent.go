package ui

import (
	"image"
	"math"

	"fretband/app/paint"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// bentView shows the band as it will be worn, in parallel projection: its two
// faces with the openings as holes, and the walls of the openings. A drag turns
// it, the wheel brings it nearer.
type bentView struct {
	widget.BaseWidget

	raster *canvas.Raster
	kit    *kit
	scene  *scene

	yaw, pitch, near float64

	solid   paint.Solid
	fill    paint.Fill
	img     *image.RGBA
	key     bentKey
	model   bentModel
	corners []paint.Corner
	seen    []bool // whether the face looks at the viewer there
}

type bentKey struct {
	yaw, pitch, near float64
	w, h, version    int
	dress            string
}

// bentModel is what depends on the scene alone: places come from Flat.Bend, so
// any form that can be unrolled can be shown.
type bentModel struct {
	version int
	mask    *paint.Mask
	perMM   float64 // cells of the mask to the mm
	faces   [2]faceGrid
	walls   []wall
	radius  float64 // of the sphere round the band, mm
	middle  unroll.Point3
}

// faceGrid is one face of the band: its places and outward normals on a grid
// over the box round the blank.
type faceGrid struct {
	at, normal []unroll.Point3
	u, v       []float32 // place on the mask, by column and by row
}

// wall is one straight piece of the wall round an opening or round the band:
// inner and outer end of one side, outer and inner end of the other.
type wall struct {
	at     [4]unroll.Point3
	normal unroll.Point3
}

// Steps of the grid along and across the band: finer than a screen can show on a
// round band, and enough across for a domed one.
const (
	gridLong = 240
	gridWide = 8
)

var (
	_ fyne.Draggable      = (*bentView)(nil)
	_ fyne.Scrollable     = (*bentView)(nil)
	_ desktop.Hoverable   = (*bentView)(nil)
	_ fyne.DoubleTappable = (*bentView)(nil)
)

const (
	startYaw   = 0.62
	startPitch = 0.50
	// wallsUpTo is the number of openings up to which their walls are drawn.
	wallsUpTo = 6000
)

func newBentView(k *kit) *bentView {
	b := &bentView{kit: k, yaw: startYaw, pitch: startPitch, near: 1}
	b.raster = canvas.NewRaster(b.render)
	b.ExtendBaseWidget(b)
	return b
}

// CreateRenderer implements fyne.Widget.
func (b *bentView) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(b.raster) }

// MinSize implements fyne.CanvasObject.
func (b *bentView) MinSize() fyne.Size { return fyne.NewSize(140, 120) }

func (b *bentView) show(s *scene) { b.scene = s; b.raster.Refresh() }
func (b *bentView) redraw()       { b.raster.Refresh() }

func (b *bentView) reset() {
	b.yaw, b.pitch, b.near = startYaw, startPitch, 1
	b.redraw()
}

// Dragged implements fyne.Draggable.
func (b *bentView) Dragged(e *fyne.DragEvent) {
	b.yaw += float64(e.Dragged.DX) * 0.009
	b.pitch = math.Max(-math.Pi/2, math.Min(math.Pi/2, b.pitch+float64(e.Dragged.DY)*0.009))
	b.redraw()
}

// DragEnd implements fyne.Draggable.
func (b *bentView) DragEnd() {}

// Scrolled implements fyne.Scrollable.
func (b *bentView) Scrolled(e *fyne.ScrollEvent) {
	b.near = math.Max(0.4, math.Min(8, b.near*math.Pow(1.0025, 4*float64(e.Scrolled.DY))))
	b.redraw()
}

// DoubleTapped implements fyne.DoubleTappable.
func (b *bentView) DoubleTapped(*fyne.PointEvent) { b.reset() }

// MouseIn implements desktop.Hoverable.
func (b *bentView) MouseIn(*desktop.MouseEvent) {
	b.kit.tips.rest(b, "The band as worn. Drag to turn it, wheel to come nearer, double click to go back.")
}

// MouseMoved implements desktop.Hoverable.
func (b *bentView) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (b *bentView) MouseOut() { b.kit.tips.leave(b) }

func (b *bentView) build(s *scene) {
	f := &s.sheet.Flat
	m := &b.model
	m.version = s.version
	box := f.Outline.Bounds()
	// A million cells are finer than the picture, whatever the band.
	m.perMM = math.Min(14, math.Sqrt(1e6/(box.W()*box.H())))
	b.fill.Reset(int(math.Ceil(box.W()*m.perMM)), int(math.Ceil(box.H()*m.perMM)))
	b.fill.Outer = true
	add := func(l plane.Loop, dx float64, hole bool) {
		pts := l.Flatten(0.15 / m.perMM)
		for i := range pts {
			p := pts[i]
			if hole {
				p = pts[len(pts)-1-i]
			}
			x, y := (p.X+dx-box.Min.X)*m.perMM, (box.Max.Y-p.Y)*m.perMM
			if i == 0 {
				b.fill.MoveTo(x, y)
			} else {
				b.fill.LineTo(x, y)
			}
		}
		b.fill.Close()
	}
	add(f.Outline, 0, false)
	for i := range s.sheet.Openings {
		for _, dx := range copies(s.sheet, s.sheet.Openings[i].Box) {
			add(s.sheet.Openings[i].Loop, dx, true)
		}
	}
	m.mask = paint.MaskOf(&b.fill)
	for i, depth := range [2]float64{0, f.Thickness} {
		m.faces[i].lay(f, box, depth, m.perMM)
	}
	m.bound()
	m.walls = m.walls[:0]
	m.wall(f, f.Outline)
	if len(s.sheet.Openings) <= wallsUpTo {
		for i := range s.sheet.Openings {
			m.wall(f, s.sheet.Openings[i].Loop.Reverse())
		}
	}
}

// lay bends the grid.
func (g *faceGrid) lay(f *unroll.Flat, box plane.Box, depth, perMM float64) {
	g.at, g.normal, g.u, g.v = g.at[:0], g.normal[:0], g.u[:0], g.v[:0]
	for j := range gridWide + 1 {
		y := box.Max.Y - box.H()*float64(j)/gridWide
		g.v = append(g.v, float32((box.Max.Y-y)*perMM))
		for i := range gridLong + 1 {
			x := box.Min.X + box.W()*float64(i)/gridLong
			if j == 0 {
				g.u = append(g.u, float32((x-box.Min.X)*perMM))
			}
			p := plane.Pt(x, y)
			in, out := f.Bend(p, 0), f.Bend(p, f.Thickness)
			at := in
			if depth > 0 {
				at = out
			}
			g.at = append(g.at, at)
			g.normal = append(g.normal, unit3(sub3(out, in))) // the faces are parallel
		}
	}
}

// bound finds the sphere round the outer face.
func (m *bentModel) bound() {
	lo, hi := m.faces[1].at[0], m.faces[1].at[0]
	for _, p := range m.faces[1].at {
		lo = unroll.Point3{X: math.Min(lo.X, p.X), Y: math.Min(lo.Y, p.Y), Z: math.Min(lo.Z, p.Z)}
		hi = unroll.Point3{X: math.Max(hi.X, p.X), Y: math.Max(hi.Y, p.Y), Z: math.Max(hi.Z, p.Z)}
	}
	m.middle = unroll.Point3{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2, Z: (lo.Z + hi.Z) / 2}
	m.radius = 1e-3
	for _, p := range m.faces[1].at {
		d := sub3(p, m.middle)
		m.radius = math.Max(m.radius, math.Sqrt(d.X*d.X+d.Y*d.Y+d.Z*d.Z))
	}
}

// wall adds the wall that stands on a loop with the metal on its left.
func (m *bentModel) wall(f *unroll.Flat, l plane.Loop) {
	half := f.Length / 2
	pts := l.Flatten(0.02)
	step := f.Length / gridLong
	for i := range pts {
		p, q := pts[i], pts[(i+1)%len(pts)]
		if f.Period > 0 && math.Abs(math.Abs(p.X)-half) < 1e-6 && math.Abs(p.X-q.X) < 1e-6 {
			continue // the ends of a closed band are joined
		}
		// What is straight on the blank is bent with it.
		n := max(1, int(math.Ceil(p.Dist(q)/step)))
		in, out := f.Bend(p, 0), f.Bend(p, f.Thickness)
		for k := 1; k <= n; k++ {
			r := p.Add(q.Sub(p).Mul(float64(k) / float64(n)))
			in2, out2 := f.Bend(r, 0), f.Bend(r, f.Thickness)
			w := wall{at: [4]unroll.Point3{in, out, out2, in2}}
			w.normal = unit3(cross3(sub3(in2, in), sub3(out, in)))
			m.walls = append(m.walls, w)
			in, out = in2, out2
		}
	}
}

func sub3(a, b unroll.Point3) unroll.Point3 {
	return unroll.Point3{X: a.X - b.X, Y: a.Y - b.Y, Z: a.Z - b.Z}
}

func cross3(a, b unroll.Point3) unroll.Point3 {
	return unroll.Point3{X: a.Y*b.Z - a.Z*b.Y, Y: a.Z*b.X - a.X*b.Z, Z: a.X*b.Y - a.Y*b.X}
}

func unit3(a unroll.Point3) unroll.Point3 {
	l := math.Sqrt(a.X*a.X + a.Y*a.Y + a.Z*a.Z)
	if l == 0 {
		return a
	}
	return unroll.Point3{X: a.X / l, Y: a.Y / l, Z: a.Z / l}
}

func (b *bentView) render(w, h int) image.Image {
	if b.img == nil || b.img.Rect.Dx() != w || b.img.Rect.Dy() != h {
		b.img = image.NewRGBA(image.Rect(0, 0, w, h))
		b.key = bentKey{}
	}
	key := bentKey{b.yaw, b.pitch, b.near, w, h, -1, b.kit.dress.name}
	if b.scene != nil {
		key.version = b.scene.version
	}
	if b.key == key {
		return b.img
	}
	b.key = key
	d := b.kit.dress
	b.solid.Reset(w, h, d.paper)
	if b.scene != nil && w > 8 && h > 8 {
		if b.model.version != b.scene.version {
			b.build(b.scene)
		}
		b.draw(w, h)
	}
	b.solid.Draw(b.img)
	return b.img
}

// camera turns the band: the front looks at the viewer, the axis stands upright
// and leans towards him by pitch.
type camera struct {
	cy, sy, cp, sp float64
	k, ox, oy      float64
	mid            unroll.Point3
}

func (c camera) turn(p unroll.Point3) (x, y, depth float64) {
	// About the upright axis; the viewer stands at +y.
	rx := -(p.X*c.cy - p.Y*c.sy)
	ry := p.X*c.sy + p.Y*c.cy
	// Lean.
	return rx, p.Z*c.cp - ry*c.sp, ry*c.cp + p.Z*c.sp
}

func (c camera) place(p unroll.Point3) paint.Corner {
	x, y, d := c.turn(sub3(p, c.mid))
	return paint.Corner{X: float32(c.ox + x*c.k), Y: float32(c.oy - y*c.k), Z: float32(d)}
}

// light returns the brightness of a face with that normal. One broad light from
// the upper left, a weak one from the right, a sheen.
func (c camera) light(n unroll.Point3) float64 {
	x, y, z := c.turn(n)
	l := 0.56
	if d := -0.42*x + 0.55*y + 0.72*z; d > 0 {
		l += 0.50 * d
		l += 0.45 * math.Pow(d, 12)
	}
	if d := 0.80*x + 0.1*y + 0.59*z; d > 0 {
		l += 0.18 * d
		l += 0.22 * math.Pow(d, 24)
	}
	return l
}

func (b *bentView) draw(w, h int) {
	m := &b.model
	c := camera{mid: m.middle}
	c.sy, c.cy = math.Sincos(b.yaw)
	c.sp, c.cp = math.Sincos(b.pitch)
	c.k = 0.46 * math.Min(float64(w), float64(h)*1.08) / m.radius * b.near
	c.ox, c.oy = float64(w)/2, float64(h)/2
	tone := b.scene.tone
	ramps := [2]*paint.Ramp{paint.NewRamp(mixTone(tone.face, b.kit.dress.ink, 0.18)), paint.NewRamp(tone.face)}
	for i := range m.faces {
		b.drawFace(c, &m.faces[i], ramps[i], i == 0)
	}
	edge := paint.NewRamp(mixTone(tone.face, tone.edge, 0.45))
	for i := range m.walls {
		wl := &m.walls[i]
		if _, _, facing := c.turn(wl.normal); facing <= 0 {
			continue
		}
		l := float32(c.light(wl.normal))
		var q [4]paint.Corner
		for k, p := range wl.at {
			q[k] = c.place(p)
			q[k].Light = l
		}
		b.solid.Triangle(q[0], q[1], q[2], edge, nil)
		b.solid.Triangle(q[0], q[2], q[3], edge, nil)
	}
}

// drawFace draws one face; the inner one looks the other way and lies in shade.
func (b *bentView) drawFace(c camera, g *faceGrid, tone *paint.Ramp, inner bool) {
	b.corners, b.seen = b.corners[:0], b.seen[:0]
	for k, p := range g.at {
		q := c.place(p)
		n := g.normal[k]
		if inner {
			n = unroll.Point3{X: -n.X, Y: -n.Y, Z: -n.Z}
		}
		q.Light = float32(c.light(n))
		if inner {
			q.Light *= 0.82
		}
		_, _, facing := c.turn(n)
		b.seen = append(b.seen, facing > 0)
		q.U, q.V = g.u[k%(gridLong+1)], g.v[k/(gridLong+1)]
		b.corners = append(b.corners, q)
	}
	for j := range gridWide {
		for i := range gridLong {
			k := j*(gridLong+1) + i
			if !b.seen[k] && !b.seen[k+1] && !b.seen[k+gridLong+1] && !b.seen[k+gridLong+2] {
				continue // it looks away: the other face hides it
			}
			p, q, r, t := b.corners[k], b.corners[k+1], b.corners[k+gridLong+2], b.corners[k+gridLong+1]
			b.solid.Triangle(p, q, r, tone, b.model.mask)
			b.solid.Triangle(p, r, t, tone, b.model.mask)
		}
	}
}
