package ui

import (
	"image"
	"math"
	"time"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern/check"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// blankView shows the flat blank with its rulers and its net section, and is
// where a hand pans, zooms, points and moves reserves. It holds the view; the
// rest it is given.
type blankView struct {
	widget.BaseWidget

	raster  *canvas.Raster
	painter sheetPainter
	dress   *kit.Dress

	scene *scene
	v     view
	// fitted holds the whole blank in sight as it and the window change; a pan
	// or zoom by hand lets go of it.
	fitted bool
	anew   bool // the next scene is of another document: fit it
	marks  marks

	press    desktop.MouseButton
	downAt   fyne.Position
	downMod  fyne.KeyModifier
	dragged  bool
	hold     *hold // what the drag that is under way moves; nil: the drawing
	deaf     bool  // the drag has been given up: it moves nothing more
	space    bool
	clicks   int // in a row at one place
	clicked  time.Time
	clickPos fyne.Position

	// Callbacks; all may be nil.
	onPointer func(at plane.Point, where region) // the pointer moved; at on the blank
	onHover   func(opening int)                  // it came over another opening, or none (-1)
	onPick    func(opening int, it app.Item)     // one is picked; -1 for none
	// onClick is told of a click, with the keys held and how many there were in a
	// row at that place.
	onClick func(at plane.Point, mod fyne.KeyModifier, times int)
	// onGrab is asked what a drag that begins at a place without a handle moves;
	// nil: nothing, the drawing is moved.
	onGrab    func(at plane.Point, mod fyne.KeyModifier) *hold
	onTaken   func() // something was taken hold of
	onDropped func() // a hold was let go of
	// onNudge takes the arrow keys; false if there is nothing for them to move.
	onNudge  func(dx, dy float64) bool
	onResize func()
	onView   func() // zoom or place changed
	onPaint  func(time.Duration)
	onKey    func(*fyne.KeyEvent) bool

	nearest func(opening int) *check.Bridge
}

var (
	_ desktop.Hoverable  = (*blankView)(nil)
	_ desktop.Mouseable  = (*blankView)(nil)
	_ desktop.Cursorable = (*blankView)(nil)
	_ desktop.Keyable    = (*blankView)(nil)
	_ fyne.Draggable     = (*blankView)(nil)
	_ fyne.Scrollable    = (*blankView)(nil)
	_ fyne.Focusable     = (*blankView)(nil)
)

func newBlankView(faces *kit.Faces, d *kit.Dress) *blankView {
	b := &blankView{dress: d, fitted: true, marks: noMarks()}
	b.painter.faces = faces
	b.v.k = 5
	b.raster = canvas.NewRaster(b.render)
	b.ExtendBaseWidget(b)
	return b
}

// CreateRenderer implements fyne.Widget.
func (b *blankView) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(b.raster)
}

// MinSize implements fyne.CanvasObject.
func (b *blankView) MinSize() fyne.Size {
	b.ExtendBaseWidget(b)
	return fyne.NewSize(320, 180)
}

func (b *blankView) render(w, h int) image.Image {
	t := time.Now()
	b.layFrame(w, h)
	img := b.painter.paint(b.v, b.scene, b.dress, b.marks)
	if b.onPaint != nil {
		b.onPaint(time.Since(t))
	}
	return img
}

// layFrame takes the size of the picture in device pixels.
func (b *blankView) layFrame(w, h int) {
	scale := 1.0
	if s := b.Size(); s.Width > 0 && w > 0 {
		scale = float64(w) / float64(s.Width)
	}
	f := newFrame(w, h, scale)
	if f == b.v.frame {
		return
	}
	old := b.v.frame
	b.v.frame = f
	if old.scale != 0 && old.scale != scale {
		b.v.k *= scale / old.scale
	}
	if b.fitted {
		b.refit()
	}
}

// Resize implements fyne.CanvasObject.
func (b *blankView) Resize(s fyne.Size) {
	b.BaseWidget.Resize(s)
	k := b.pixels()
	b.layFrame(int(math.Round(float64(s.Width)*k)), int(math.Round(float64(s.Height)*k)))
	if b.onResize != nil {
		b.onResize()
	}
}

// pixels returns device pixels to the toolkit's.
func (b *blankView) pixels() float64 {
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		return float64(c.Scale())
	}
	if b.v.frame.scale > 0 {
		return b.v.frame.scale
	}
	return 1
}

func (b *blankView) bounds() plane.Box {
	if b.scene == nil {
		return plane.Box{Min: plane.Pt(-90, -20), Max: plane.Pt(90, 20)}
	}
	return b.scene.sheet.Flat.Outline.Bounds()
}

func (b *blankView) refit() { b.v = b.v.fit(b.bounds()) }

// show takes a new scene. The view stays, unless it is to hold the whole blank
// and the blank has outgrown it or shrunk well away from it: so nothing jumps
// while a number is dragged.
func (b *blankView) show(s *scene) {
	first := b.scene == nil || b.anew
	b.scene, b.anew = s, false
	if s == nil {
		b.marks = noMarks()
		b.redraw()
		return
	}
	switch h := b.marks.hover; {
	case h < 0:
	case b.marks.pointer: // openings have been numbered anew: what is there now?
		b.marks.hover = s.openingAt(b.v.mm(b.marks.px, b.marks.py))
	case h >= len(s.sheet.Openings):
		b.marks.hover = -1
	}
	b.marks.near = nil
	if b.marks.hover >= 0 && b.nearest != nil {
		b.marks.near = b.nearest(b.marks.hover)
	}
	if b.fitted && b.hold == nil { // while something is dragged the ground stays
		now := b.v.fit(b.bounds())
		if first || now.k < b.v.k*0.999 || now.k > b.v.k*1.12 {
			b.v = now
			b.tellView()
		} else {
			b.v.centre = now.centre
		}
	}
	b.redraw()
}

func (b *blankView) redraw() { b.raster.Refresh() }

func (b *blankView) tellView() {
	if b.onView != nil {
		b.onView()
	}
}

// wear changes the dress.
func (b *blankView) wear(d *kit.Dress) {
	b.dress = d
	b.redraw()
}

// fit shows the whole blank and goes on holding it in sight.
func (b *blankView) fit() {
	b.fitted = true
	b.refit()
	b.tellView()
	b.redraw()
}

// setZoom sets device pixels per mm about the middle.
func (b *blankView) setZoom(k float64) {
	f := b.v.frame
	b.zoomBy(k/b.v.k, (f.left+f.right)/2, (f.top+f.bottom)/2)
}

func (b *blankView) zoomBy(factor, x, y float64) {
	b.fitted = false
	b.v = b.v.zoom(factor, x, y)
	b.tellView()
	b.redraw()
}

// lookAt brings a place into the middle, near enough to see it.
func (b *blankView) lookAt(at []plane.Point) {
	if len(at) == 0 {
		return
	}
	box := plane.EmptyBox()
	for _, p := range at {
		box = box.Add(p)
	}
	f := b.v.frame
	sight := plane.Box{Min: b.v.mm(f.left, f.bottom), Max: b.v.mm(f.right, f.top)}.Grow(-30 * f.scale / b.v.k)
	near := b.v.fit(box.Grow(6))
	// In sight, and no nearer if one went there.
	if sight.Holds(box.Min) && sight.Holds(box.Max) && b.v.k >= math.Min(8*f.scale, near.k*0.7) {
		b.redraw()
		return
	}
	b.fitted = false
	near.k = math.Max(near.k, math.Min(b.v.k, near.k))
	near.k = math.Min(near.k, 24*f.scale) // no nearer than needed
	b.v = near
	b.tellView()
	b.redraw()
}

func (b *blankView) at(p fyne.Position) (x, y float64) {
	s := b.v.frame.scale
	return float64(p.X) * s, float64(p.Y) * s
}

// MouseIn implements desktop.Hoverable.
func (b *blankView) MouseIn(e *desktop.MouseEvent) { b.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (b *blankView) MouseMoved(e *desktop.MouseEvent) { b.point(e.Position) }

func (b *blankView) point(p fyne.Position) {
	x, y := b.at(p)
	b.marks.pointer, b.marks.px, b.marks.py = true, x, y
	at := b.v.mm(x, y)
	on := b.v.frame.inBlank(x, y)
	hover := -1
	b.marks.overHandle = b.handleAt(x, y)
	if on && b.marks.overHandle < 0 {
		hover = b.scene.openingAt(at)
	}
	b.marks.over = app.NoItem
	if on && b.marks.overHandle < 0 {
		b.marks.over = b.scene.itemAt(at, b.reach())
	}
	b.setHover(hover)
	if b.onPointer != nil {
		b.onPointer(at, b.v.frame.where(x, y))
	}
	b.redraw()
}

func (b *blankView) setHover(i int) {
	if i == b.marks.hover {
		return
	}
	b.marks.hover, b.marks.near = i, nil
	if i >= 0 && b.nearest != nil {
		b.marks.near = b.nearest(i)
	}
	if b.onHover != nil {
		b.onHover(i)
	}
}

// MouseOut implements desktop.Hoverable.
func (b *blankView) MouseOut() {
	b.marks.pointer, b.marks.over = false, app.NoItem
	b.setHover(-1)
	if b.onPointer != nil {
		b.onPointer(plane.Point{}, elsewhere)
	}
	b.redraw()
}

// MouseDown implements desktop.Mouseable. A drag carries no button, so it is
// remembered here.
func (b *blankView) MouseDown(e *desktop.MouseEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		c.Focus(b)
	}
	b.press, b.downAt, b.downMod, b.dragged, b.hold = e.Button, e.Position, e.Modifier, false, nil
	x, y := b.at(e.Position)
	b.marks.held = -1
	if e.Button == desktop.MouseButtonPrimary && !b.space && b.v.frame.inBlank(x, y) {
		b.marks.held = b.handleAt(x, y)
	}
}

// MouseUp implements desktop.Mouseable.
func (b *blankView) MouseUp(e *desktop.MouseEvent) {
	was := b.press
	b.press, b.deaf = 0, false
	if b.dragged {
		b.dragged = false
		b.endDrag()
		return
	}
	held := b.marks.held
	b.marks.held = -1
	x, y := b.at(e.Position)
	if was != desktop.MouseButtonPrimary || held >= 0 || !b.v.frame.inBlank(x, y) {
		return
	}
	// DoubleTapped would delay every click, so clicks are counted here.
	now := time.Now()
	near := math.Abs(float64(e.Position.X-b.clickPos.X))+math.Abs(float64(e.Position.Y-b.clickPos.Y)) < 5
	if b.clicks++; !near || now.Sub(b.clicked) > clickGap {
		b.clicks = 1
	}
	b.clicked, b.clickPos = now, e.Position
	if b.onClick != nil {
		b.onClick(b.v.mm(x, y), b.downMod, b.clicks)
	}
}

// clickGap is the most time between two clicks of one double click.
const clickGap = 400 * time.Millisecond

func (b *blankView) pick(opening int, it app.Item) {
	b.marks.places = nil
	b.marks.item = it
	if b.onPick != nil {
		b.onPick(opening, it)
	}
	b.redraw()
}

// hold is what a press has taken hold of.
type hold struct {
	move func(to plane.Point) // follows the hand; on the blank, mm
	drop func()               // ends it; may be nil
}

// Dragged implements fyne.Draggable: what is under the press is moved, else the
// drawing.
func (b *blankView) Dragged(e *fyne.DragEvent) {
	s := b.v.frame.scale
	x, y := b.at(e.Position)
	if !b.dragged {
		b.dragged = true
		b.takeHold()
	}
	if b.deaf {
		return
	}
	if b.hold != nil {
		b.marks.px, b.marks.py = x, y
		b.hold.move(b.v.mm(x, y))
		b.redraw()
		return
	}
	b.fitted = false
	b.v = b.v.pan(float64(e.Dragged.DX)*s, float64(e.Dragged.DY)*s)
	b.tellView()
	b.redraw()
}

// takeHold takes hold of what lies under the press. It is not done before the
// hand moves: a click changes nothing.
func (b *blankView) takeHold() {
	if b.press != desktop.MouseButtonPrimary || b.space {
		return
	}
	x, y := b.at(b.downAt)
	defer func() {
		if b.hold != nil {
			b.setHover(-1)
			if b.onTaken != nil {
				b.onTaken()
			}
		}
	}()
	if m := &b.marks; m.held >= 0 && m.held < len(m.handles) {
		h := m.handles[m.held].take()
		b.hold = &h
		return
	}
	if b.onGrab != nil && b.v.frame.inBlank(x, y) {
		b.hold = b.onGrab(b.v.mm(x, y), b.downMod)
	}
}

// giveUp lets go of what is held without ending it, and reports whether anything
// was. The rest of the drag moves nothing.
func (b *blankView) giveUp() bool {
	if b.hold == nil {
		return false
	}
	b.hold, b.deaf = nil, true
	b.marks.held, b.marks.beside = -1, ""
	b.marks.hand.sweep, b.marks.hand.ghosts, b.marks.hand.draft = nil, nil, nil
	b.redraw()
	return true
}

// DragEnd implements fyne.Draggable.
func (b *blankView) DragEnd() { b.deaf = false; b.endDrag() }

func (b *blankView) endDrag() {
	h := b.hold
	b.hold, b.marks.held = nil, -1
	if h == nil {
		return
	}
	if h.drop != nil {
		h.drop()
	}
	b.marks.beside = ""
	if b.marks.pointer && b.v.frame.inBlank(b.marks.px, b.marks.py) {
		b.setHover(b.scene.openingAt(b.v.mm(b.marks.px, b.marks.py)))
	}
	if b.onDropped != nil {
		b.onDropped()
	}
	b.redraw()
}

// Scrolled implements fyne.Scrollable: the wheel zooms to the pointer.
func (b *blankView) Scrolled(e *fyne.ScrollEvent) {
	x, y := b.at(e.Position)
	b.zoomBy(math.Pow(1.0025, math.Max(-200, math.Min(200, 4*float64(e.Scrolled.DY)))), x, y)
	b.point(e.Position)
}

// Cursor implements desktop.Cursorable.
func (b *blankView) Cursor() desktop.Cursor {
	if b.space || b.press == desktop.MouseButtonTertiary || b.marks.overHandle >= 0 {
		return desktop.PointerCursor
	}
	return desktop.CrosshairCursor
}

// FocusGained implements fyne.Focusable.
func (b *blankView) FocusGained() {}

// FocusLost implements fyne.Focusable.
func (b *blankView) FocusLost() { b.space = false }

// TypedRune implements fyne.Focusable.
func (b *blankView) TypedRune(rune) {}

// KeyDown implements desktop.Keyable.
func (b *blankView) KeyDown(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace {
		b.space = true
	}
}

// KeyUp implements desktop.Keyable.
func (b *blankView) KeyUp(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace {
		b.space = false
	}
}

// TypedKey implements fyne.Focusable.
func (b *blankView) TypedKey(e *fyne.KeyEvent) {
	f := b.v.frame
	step := 40 * f.scale
	if d, ok := arrows[e.Name]; ok && b.onNudge != nil && b.onNudge(d.X, d.Y) {
		return
	}
	switch e.Name {
	case fyne.KeyLeft:
		b.panBy(step, 0)
	case fyne.KeyRight:
		b.panBy(-step, 0)
	case fyne.KeyUp:
		b.panBy(0, step)
	case fyne.KeyDown:
		b.panBy(0, -step)
	default:
		if b.onKey != nil {
			b.onKey(e)
		}
	}
}

// arrows are the directions of the arrow keys on the blank.
var arrows = map[fyne.KeyName]plane.Point{
	fyne.KeyLeft: {X: -1}, fyne.KeyRight: {X: 1}, fyne.KeyUp: {Y: 1}, fyne.KeyDown: {Y: -1},
}

func (b *blankView) panBy(dx, dy float64) {
	b.fitted = false
	b.v = b.v.pan(dx, dy)
	b.tellView()
	b.redraw()
}
