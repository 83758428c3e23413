package blank

import (
	"image"
	"math"
	"time"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Doors are what the blank asks of the window.
type Doors struct {
	Key      func(*fyne.KeyEvent) // a key that means nothing here
	Position func(text string)    // where the pointer is
	Over     func(text string)    // what it is over
	Point    func(number int)     // the opening it is over, by its number; 0 for none
	Zoomed   func(text string)    // how large the blank is drawn
	TrueZoom func() float64       // pixels to the millimetre at true size
	Moved    func()               // what can be taken is elsewhere now
}

// View shows the flat blank with its rulers and its net section, and is
// where a hand pans, zooms, points, picks, drags and draws. What it edits is the
// editor's.
type View struct {
	widget.BaseWidget

	kit   *kit.Kit
	ed    *app.Editor
	doors Doors

	raster  *canvas.Raster
	painter sheetPainter
	paints  int

	scene *app.Scene
	v     viewport
	// fitted holds the whole blank in sight as it and the window change; a pan
	// or zoom by hand lets go of it.
	fitted  bool
	isTrue  bool // a millimetre is drawn as long as it is, whatever becomes of the window
	anew    bool // the next scene is of another document: fit it
	Overlay overlay
	area    areaOutline

	press    desktop.MouseButton
	downAt   fyne.Position
	downMod  fyne.KeyModifier
	dragged  bool
	tie      *drag // a tie that a click has begun; nil for none
	hold     *drag // what the drag that is under way moves; nil: the drawing
	deaf     bool  // the drag has been given up and moves nothing more
	space    bool
	focus    bool
	clicks   int // in a row at one place
	clicked  time.Time
	clickPos fyne.Position
}

var (
	_ desktop.Hoverable  = (*View)(nil)
	_ desktop.Mouseable  = (*View)(nil)
	_ desktop.Cursorable = (*View)(nil)
	_ desktop.Keyable    = (*View)(nil)
	_ fyne.Draggable     = (*View)(nil)
	_ fyne.Scrollable    = (*View)(nil)
	_ fyne.Focusable     = (*View)(nil)
)

func New(k *kit.Kit, ed *app.Editor, doors Doors) *View {
	b := &View{kit: k, ed: ed, doors: doors, fitted: true, Overlay: noOverlay()}
	b.painter.faces = k.Faces
	b.v.k = 5
	b.raster = canvas.NewRaster(b.render)
	b.raster.ScaleMode = canvas.ImageScalePixels // it is drawn pixel by pixel
	b.ExtendBaseWidget(b)
	kit.OnDress(k, b, func(b *View, _ *kit.Dress) { b.Redraw() })
	return b
}

// CreateRenderer implements fyne.Widget.
func (b *View) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(b.raster)
}

// MinSize implements fyne.CanvasObject.
func (b *View) MinSize() fyne.Size {
	b.ExtendBaseWidget(b)
	return fyne.NewSize(320, 180)
}

func (b *View) render(w, h int) image.Image {
	t := time.Now()
	b.layFrame(w, h)
	b.Overlay.picked, b.Overlay.item, b.Overlay.focus = b.ed.Picked, b.ed.Item, b.focus
	b.Overlay.penned = b.ed.Tool == app.PenTool
	b.showUnderlay()
	b.Overlay.stress, b.Overlay.pale = nil, false
	if st := b.ed.Stress; st.Shown && st.Map != nil {
		b.Overlay.stress, b.Overlay.pale = st.Map, !st.Fresh(b.sheet())
	}
	img := b.painter.paint(b.v, b.scene, b.kit.Dress, b.Overlay)
	if b.paints++; b.paints%10 == 1 { // every tenth is enough to see how it goes
		b.ed.Log.Event("paint", "ms", float64(time.Since(t).Microseconds())/1000)
	}
	return img
}

// layFrame takes the size of the picture in device pixels.
func (b *View) layFrame(w, h int) {
	scale := b.pixels()
	f := newFrame(w, h, scale)
	if f == b.v.frame {
		return
	}
	old := b.v.frame
	b.v.frame = f
	switch {
	case b.fitted:
		b.refit()
	case b.isTrue:
		b.v.k = b.doors.TrueZoom()
	case old.scale != 0 && old.scale != scale:
		b.v.k *= scale / old.scale
	}
}

// Resize implements fyne.CanvasObject.
func (b *View) Resize(s fyne.Size) {
	b.BaseWidget.Resize(s)
	k := b.pixels()
	b.layFrame(int(math.Round(float64(s.Width)*k)), int(math.Round(float64(s.Height)*k)))
	b.doors.Zoomed(b.ZoomText())
	b.doors.Moved()
}

// pixels returns device pixels to the toolkit's. The size of a picture in both would give it
// only as exactly as whole pixels do, and what is measured by that would drift.
func (b *View) pixels() float64 {
	const far = 10000
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		x, _ := c.PixelCoordinateForPosition(fyne.NewPos(far, 0))
		return float64(x) / far
	}
	if b.v.frame.scale > 0 {
		return b.v.frame.scale
	}
	return 1
}

func (b *View) bounds() plane.Box {
	if b.scene == nil {
		return plane.Box{Min: plane.Pt(-90, -20), Max: plane.Pt(90, 20)}
	}
	return b.scene.Sheet.Flat.Outline.Bounds()
}

// sheet is what is in sight; nil for none.
func (b *View) sheet() *pattern.Sheet {
	if b.scene == nil {
		return nil
	}
	return b.scene.Sheet
}

func (b *View) refit() { b.v = b.v.fit(b.bounds()) }

// SetScene takes a new scene. The view stays, unless it is to hold the whole blank
// and the blank has outgrown it or shrunk well away from it: so nothing jumps
// while a number is dragged.
func (b *View) SetScene(s *app.Scene) {
	first := b.scene == nil || b.anew
	b.scene, b.anew = s, false
	if s == nil {
		b.Overlay = noOverlay()
		b.Redraw()
		return
	}
	if b.Overlay.Hover >= 0 { // openings have been numbered anew: what is there now?
		b.Overlay.Hover = -1
		if b.Overlay.pointer {
			b.Overlay.Hover = s.OpeningAt(b.v.mm(b.Overlay.px, b.Overlay.py))
		}
		b.Overlay.near = b.nearest(b.Overlay.Hover)
		b.tellHover()
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
	b.Redraw()
}

func (b *View) Redraw() { b.raster.Refresh() }

func (b *View) tellView() {
	b.doors.Zoomed(b.ZoomText())
	b.ShowHandles()
}

// ZoomText says how large the blank is drawn. True size is what the screen says
// of itself, so it is nominal.
func (b *View) ZoomText() string {
	if b.v.frame.scale == 0 {
		return ""
	}
	share := b.v.k / b.doors.TrueZoom()
	if math.Abs(share-1) < 0.0005 {
		return "true size, nominal"
	}
	return pattern.Say("%.0f %% of true size", 100*share)
}

// TrueSize draws a millimetre as long as it is.
func (b *View) TrueSize() {
	x, y := b.v.frame.middle()
	v := b.v.zoom(b.doors.TrueZoom()/b.v.k, x, y)
	v.k = b.doors.TrueZoom() // to the last digit
	b.see(v)
	b.isTrue = true
	b.ed.Log.Event("zoom", "k", b.v.k)
}

// ZoomStep comes nearer by a factor, about the middle.
func (b *View) ZoomStep(by float64) {
	x, y := b.v.frame.middle()
	b.zoomBy(by, x, y)
}

// Renew forgets what was looked at: the next scene is of another document.
func (b *View) Renew() {
	b.Overlay = noOverlay()
	b.fitted, b.isTrue, b.anew = true, false, true
}

// ToggleStretch shows or hides the stretch of a domed band.
func (b *View) ToggleStretch() {
	b.Overlay.noStretch = !b.Overlay.noStretch
	b.Redraw()
}

// Fit shows the whole blank and goes on holding it in sight.
func (b *View) Fit() {
	b.fitted, b.isTrue = true, false
	b.refit()
	b.tellView()
	b.Redraw()
	b.ed.Log.Event("fit", "k", b.v.k)
}

func (b *View) zoomBy(factor, x, y float64) { b.see(b.v.zoom(factor, x, y)) }

// see shows another part of the blank, and no longer holds the whole of it in sight.
func (b *View) see(v viewport) {
	b.isTrue = b.isTrue && v.k == b.v.k // a pan keeps it
	b.fitted, b.v = false, v
	b.tellView()
	b.Redraw()
}

// LookAt brings a position into the middle, near enough to see it.
func (b *View) LookAt(at []plane.Point) {
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
	if sight.Contains(box.Min) && sight.Contains(box.Max) && b.v.k >= math.Min(8*f.scale, near.k*0.7) {
		b.Redraw()
		return
	}
	near.k = math.Min(near.k, 24*f.scale) // no nearer than needed
	b.see(near)
}

func (b *View) at(p fyne.Position) (x, y float64) {
	s := b.v.frame.scale
	return float64(p.X) * s, float64(p.Y) * s
}

// MouseIn implements desktop.Hoverable.
func (b *View) MouseIn(e *desktop.MouseEvent) { b.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (b *View) MouseMoved(e *desktop.MouseEvent) { b.point(e.Position) }

func (b *View) point(p fyne.Position) {
	x, y := b.at(p)
	b.Overlay.pointer, b.Overlay.px, b.Overlay.py = true, x, y
	at := b.v.mm(x, y)
	on := b.v.frame.inBlank(x, y)
	hover := -1
	b.Overlay.OverHandle, b.Overlay.over = b.handleAt(x, y), app.NoItem
	if on && b.Overlay.OverHandle < 0 {
		hover, b.Overlay.over = b.scene.OpeningAt(at), b.scene.ItemAt(at, b.within())
	}
	if b.ed.Tool == app.PenTool && b.scene != nil {
		hover = -1
		b.Overlay.OverHandle = -1
		if on {
			b.penHover(at)
		}
	}
	if b.tie != nil && on {
		hover = -1
		b.tie.move(at)
	}
	b.setHover(hover)
	b.tellPointer(at, b.v.frame.where(x, y))
	b.Redraw()
}

func (b *View) setHover(i int) {
	if i == b.Overlay.Hover {
		return
	}
	b.Overlay.Hover, b.Overlay.near = i, b.nearest(i)
	b.tellHover()
}

// HoverNumbered shows the opening of that number as if the pointer were over it.
func (b *View) HoverNumbered(number int) {
	b.setHover(b.scene.Numbered(number))
	b.Redraw()
}

// nearest returns the narrowest bridge at opening i, nil for none.
func (b *View) nearest(i int) *check.Bridge {
	if i < 0 || b.scene == nil {
		return nil
	}
	n := check.NearestBridge(b.scene.Sheet, i)
	return &n
}

// MouseOut implements desktop.Hoverable.
func (b *View) MouseOut() {
	b.Overlay.pointer, b.Overlay.over = false, app.NoItem
	b.clicks = 0
	b.setHover(-1)
	b.tellPointer(plane.Point{}, elsewhere)
	b.Redraw()
}

// MouseDown implements desktop.Mouseable. A drag carries no button, so it is
// remembered here.
func (b *View) MouseDown(e *desktop.MouseEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		c.Focus(b)
	}
	b.press, b.downAt, b.downMod, b.dragged, b.hold = e.Button, e.Position, e.Modifier, false, nil
	x, y := b.at(e.Position)
	b.Overlay.held = -1
	if e.Button == desktop.MouseButtonPrimary && !b.space && b.ed.Tool != app.PushTool && b.ed.Tool != app.PenTool && b.v.frame.inBlank(x, y) {
		b.Overlay.held = b.handleAt(x, y)
	}
}

// MouseUp implements desktop.Mouseable.
func (b *View) MouseUp(e *desktop.MouseEvent) {
	was := b.press
	b.press, b.deaf = 0, false
	if b.dragged {
		b.dragged = false
		b.endDrag()
		return
	}
	held := b.Overlay.held
	b.Overlay.held = -1
	x, y := b.at(e.Position)
	if was == desktop.MouseButtonSecondary && b.v.frame.inBlank(x, y) {
		b.offer(b.v.mm(x, y), e.Position)
		b.Redraw()
		return
	}
	if was != desktop.MouseButtonPrimary || held >= 0 || !b.v.frame.inBlank(x, y) {
		return
	}
	if b.ed.Tool == app.PenTool && b.scene != nil {
		b.penClick(b.v.mm(x, y))
		b.Redraw()
		return
	}
	if b.ed.Tool == app.TieTool && b.scene != nil {
		b.tieClick(b.v.mm(x, y))
		b.Redraw()
		return
	}
	// DoubleTapped would delay every click, so clicks are counted here.
	now := time.Now()
	near := math.Abs(float64(e.Position.X-b.clickPos.X))+math.Abs(float64(e.Position.Y-b.clickPos.Y)) < 5
	if b.clicks++; !near || now.Sub(b.clicked) > clickGap {
		b.clicks = 1
	}
	b.clicked, b.clickPos = now, e.Position
	b.ed.Click(b.v.mm(x, y), b.within(), b.downMod&fyne.KeyModifierShift != 0, b.clicks)
	b.Redraw()
}

// clickGap is the most time between two clicks of one double click.
const clickGap = 400 * time.Millisecond

// drag is what a press has taken hold of.
type drag struct {
	move func(to plane.Point) // follows the hand; on the blank, mm
	drop func()               // ends it; may be nil
}

// Dragged implements fyne.Draggable: what is under the press is moved, else the
// drawing.
func (b *View) Dragged(e *fyne.DragEvent) {
	s := b.v.frame.scale
	x, y := b.at(e.Position)
	if !b.dragged {
		b.dragged = true
		b.beginDrag()
	}
	if b.deaf {
		return
	}
	if b.hold != nil {
		b.Overlay.px, b.Overlay.py = x, y
		b.hold.move(b.v.mm(x, y))
		b.Redraw()
		return
	}
	b.see(b.v.pan(float64(e.Dragged.DX)*s, float64(e.Dragged.DY)*s))
}

// beginDrag takes hold of what lies under the press. It is not done before the
// hand moves: a click changes nothing.
func (b *View) beginDrag() {
	if b.press != desktop.MouseButtonPrimary || b.space {
		return
	}
	b.tieGiveUp() // a drag draws another
	x, y := b.at(b.downAt)
	defer func() {
		if b.hold != nil {
			b.setHover(-1)
			b.ed.Grab()
		}
	}()
	if m := &b.Overlay; m.held >= 0 && m.held < len(m.Handles) {
		h := m.Handles[m.held].take()
		b.hold = &h
		return
	}
	if b.scene != nil && b.v.frame.inBlank(x, y) {
		b.hold = b.grab(b.v.mm(x, y), b.downMod)
	}
}

// GiveUp takes back the drag that is under way, and reports whether there was one. The
// rest of the drag moves nothing.
func (b *View) GiveUp() bool {
	if b.hold == nil {
		return b.penGiveUp() || b.tieGiveUp()
	}
	b.hold, b.deaf = nil, true
	b.Overlay.held, b.Overlay.Beside = -1, ""
	b.Overlay.Hand = handOverlay{}
	b.ed.GiveUp()
	b.Redraw()
	return true
}

// DragEnd implements fyne.Draggable.
func (b *View) DragEnd() { b.deaf = false; b.endDrag() }

func (b *View) endDrag() {
	h := b.hold
	b.hold, b.Overlay.held = nil, -1
	if h == nil {
		return
	}
	if h.drop != nil {
		h.drop()
	}
	b.Overlay.Beside = ""
	if b.Overlay.pointer && b.v.frame.inBlank(b.Overlay.px, b.Overlay.py) {
		b.setHover(b.scene.OpeningAt(b.v.mm(b.Overlay.px, b.Overlay.py)))
	}
	b.ed.Seal()
	b.Redraw()
}

// Scrolled implements fyne.Scrollable: the wheel zooms to the pointer.
func (b *View) Scrolled(e *fyne.ScrollEvent) {
	x, y := b.at(e.Position)
	b.zoomBy(math.Pow(1.0025, math.Max(-200, math.Min(200, 4*float64(e.Scrolled.DY)))), x, y)
	b.point(e.Position)
}

// Cursor implements desktop.Cursorable.
func (b *View) Cursor() desktop.Cursor {
	if b.space || b.press == desktop.MouseButtonTertiary || b.Overlay.OverHandle >= 0 {
		return desktop.PointerCursor
	}
	return desktop.CrosshairCursor
}

// FocusGained implements fyne.Focusable.
func (b *View) FocusGained() { b.focus = true; b.Redraw() }

// FocusLost implements fyne.Focusable.
func (b *View) FocusLost() { b.space, b.focus = false, false; b.Redraw() }

// TypedRune implements fyne.Focusable.
func (b *View) TypedRune(rune) {}

// KeyDown implements desktop.Keyable.
func (b *View) KeyDown(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace {
		b.space = true
	}
}

// KeyUp implements desktop.Keyable.
func (b *View) KeyUp(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace {
		b.space = false
	}
}

// TypedKey implements fyne.Focusable.
func (b *View) TypedKey(e *fyne.KeyEvent) {
	if b.penKey(e.Name) {
		return
	}
	way, ok := Arrows[e.Name]
	switch {
	case ok:
		b.arrow(way)
	case e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter:
		b.widen()
	default:
		b.doors.Key(e)
	}
}

// Arrows are the directions of the arrow keys on the blank.
var Arrows = map[fyne.KeyName]plane.Point{
	fyne.KeyLeft: {X: -1}, fyne.KeyRight: {X: 1}, fyne.KeyUp: {Y: 1}, fyne.KeyDown: {Y: -1},
}
