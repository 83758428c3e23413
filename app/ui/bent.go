package ui

import (
	"image"
	"math"

	"fretband/app/paint"
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

	solid paint.Solid
	fill  paint.Fill
	img   *image.RGBA
	key   bentKey
	model bentModel
}

type bentKey struct {
	yaw, pitch, near float64
	w, h, version    int
	dress            string
}

// bentModel is what depends on the scene alone.
type bentModel struct {
	version  int
	mask     *paint.Mask
	perMM    float64 // cells of the mask to the mm
	half     float64 // of the blank's length, mm
	width    float64
	stations []station
	walls    []wall
	radius   float64 // of the sphere round the band, mm
	middle   plane.Point
}

// station is the band's cross-section at one place along it.
type station struct {
	x             float64
	inner, normal plane.Point
}

type wall struct{ a, b plane.Point }

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
	m.half, m.width = f.Length/2, f.Width
	m.perMM = math.Min(14, math.Min(4000/f.Length, 3000/f.Width))
	w, h := int(math.Ceil(f.Length*m.perMM)), int(math.Ceil(f.Width*m.perMM))
	b.fill.Reset(w, h)
	b.fill.Outer = true
	add := func(l plane.Loop, dx float64, hole bool) {
		pts := l.Flatten(0.15 / m.perMM)
		for i := range pts {
			p := pts[i]
			if hole {
				p = pts[len(pts)-1-i]
			}
			x, y := (p.X+dx+m.half)*m.perMM, (f.Width/2-p.Y)*m.perMM
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

	// A station every degree or so of a round band is finer than any screen.
	n := 360
	m.stations = m.stations[:0]
	over := 0.0
	if f.Period > 0 {
		over = f.Length * 0.1 // openings run over the joint
	}
	box := plane.EmptyBox()
	for i := 0; i <= n; i++ {
		x := -m.half - over + (f.Length+2*over)*float64(i)/float64(n)
		in, nor, _ := f.Station(x)
		m.stations = append(m.stations, station{x, in, nor})
		box = box.Add(in).Add(in.Add(nor.Mul(f.Thickness)))
	}
	m.middle = box.Centre()
	far := 0.0
	for _, st := range m.stations {
		far = math.Max(far, st.inner.Add(st.normal.Mul(f.Thickness)).Dist(m.middle))
	}
	m.radius = math.Hypot(far, f.Width/2)

	m.walls = m.walls[:0]
	ring := func(l plane.Loop) {
		pts := l.Flatten(0.02)
		for i := range pts {
			p, q := pts[i], pts[(i+1)%len(pts)]
			if f.Period > 0 && math.Abs(math.Abs(p.X)-m.half) < 1e-6 && math.Abs(p.X-q.X) < 1e-6 {
				continue // the ends of a closed band are joined
			}
			m.walls = append(m.walls, wall{p, q})
		}
	}
	ring(f.Outline)
	if len(s.sheet.Openings) <= wallsUpTo {
		for i := range s.sheet.Openings {
			ring(s.sheet.Openings[i].Loop.Reverse())
		}
	}
}

// at returns the inner point and the normal at x, between two stations.
func (m *bentModel) at(x float64) (in, n plane.Point) {
	lo, hi := m.stations[0].x, m.stations[len(m.stations)-1].x
	t := (x - lo) / (hi - lo) * float64(len(m.stations)-1)
	i := max(0, min(len(m.stations)-2, int(t)))
	t -= float64(i)
	a, b := m.stations[i], m.stations[i+1]
	return a.inner.Mul(1 - t).Add(b.inner.Mul(t)), a.normal.Mul(1 - t).Add(b.normal.Mul(t))
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
	b.solid.Halve(b.img)
	return b.img
}

// camera turns the band: the front looks at the viewer, the axis stands upright
// and leans towards him by pitch.
type camera struct {
	cy, sy, cp, sp float64
	k, ox, oy      float64
	mid            plane.Point
}

func (c camera) turn(x, y, z float64) (sx, sy, depth float64) {
	// About the upright axis; the viewer stands at +y.
	rx := -(x*c.cy - y*c.sy)
	ry := x*c.sy + y*c.cy
	// Lean.
	return rx, z*c.cp - ry*c.sp, ry*c.cp + z*c.sp
}

func (c camera) place(p plane.Point, z float64) (x, y, depth float32) {
	a, b, d := c.turn(p.X-c.mid.X, p.Y-c.mid.Y, z)
	return float32(c.ox + a*c.k), float32(c.oy - b*c.k), float32(d)
}

// light returns the brightness of a face with that normal. One broad light from
// the upper left, a weak one from the right, a sheen.
func (c camera) light(nx, ny, nz float64) float64 {
	x, y, z := c.turn(nx, ny, nz)
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
	f := &b.scene.sheet.Flat
	c := camera{mid: m.middle}
	c.sy, c.cy = math.Sincos(b.yaw)
	c.sp, c.cp = math.Sincos(b.pitch)
	c.k = 0.46 * math.Min(float64(w), float64(h)*1.08) / m.radius * b.near
	c.ox, c.oy = float64(w)/2, float64(h)/2
	tone := b.scene.tone.face
	outer, inner := paint.NewRamp(tone), paint.NewRamp(mixTone(tone, b.kit.dress.ink, 0.18))
	edge := paint.NewRamp(mixTone(tone, b.scene.tone.edge, 0.45))
	t := f.Thickness
	top := m.width / 2
	// The two faces, station by station.
	for _, face := range [2]struct {
		depth, sense float64
		tone         *paint.Ramp
	}{{0, -1, inner}, {t, 1, outer}} {
		var prev [2]paint.Corner
		first := true
		n := 240
		for i := 0; i <= n; i++ {
			x := -m.half + f.Length*float64(i)/float64(n)
			in, nor := m.at(x)
			p := in.Add(nor.Mul(face.depth))
			l := float32(c.light(nor.X*face.sense, nor.Y*face.sense, 0))
			if face.sense < 0 {
				l *= 0.82
			}
			u := float32((x + m.half) * m.perMM)
			var now [2]paint.Corner
			for j, z := range [2]float64{top, -top} {
				sx, sy, d := c.place(p, z)
				now[j] = paint.Corner{X: sx, Y: sy, Z: d, U: u, V: float32((top - z) * m.perMM), Light: l}
			}
			if !first {
				b.solid.Triangle(prev[0], now[0], now[1], face.tone, m.mask)
				b.solid.Triangle(prev[0], now[1], prev[1], face.tone, m.mask)
			}
			prev, first = now, false
		}
	}
	for _, wl := range m.walls {
		in0, n0 := m.at(wl.a.X)
		in1, n1 := m.at(wl.b.X)
		// Metal lies on the left of the edge, so the wall faces right; along the
		// band that is the tangent, across it the axis.
		d := wl.b.Sub(wl.a).Unit()
		tan := plane.Pt(n0.Y, -n0.X)
		nx, ny, nz := tan.X*d.Y, tan.Y*d.Y, -d.X
		_, _, facing := c.turn(nx, ny, nz)
		if facing <= 0 {
			continue
		}
		l := float32(c.light(nx, ny, nz))
		var q [4]paint.Corner
		for i, p := range [4]struct {
			at plane.Point
			z  float64
		}{{in0, wl.a.Y}, {in0.Add(n0.Mul(t)), wl.a.Y}, {in1.Add(n1.Mul(t)), wl.b.Y}, {in1, wl.b.Y}} {
			x, y, dp := c.place(p.at, p.z)
			q[i] = paint.Corner{X: x, Y: y, Z: dp, Light: l}
		}
		b.solid.Triangle(q[0], q[1], q[2], edge, nil)
		b.solid.Triangle(q[0], q[2], q[3], edge, nil)
	}
}
