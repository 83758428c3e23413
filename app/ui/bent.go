package ui

import (
	"fmt"
	"image"
	"math"
	"time"

	"fretband/app/ui/kit"
	"fretband/export/paint"
	"fretband/pattern/check"
	"fretband/pattern/mesh"
	"fretband/pattern/view3d"
	"fretband/unroll"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// bentScene is the solid of a scene, made in the background.
type bentScene struct {
	scene     *view3d.Scene
	tone      kit.Metal
	finger    bool // it is worn on a finger, not on a wrist
	triangles int
	took      time.Duration
	err       error
}

// bend makes the solid of a scene.
func bend(s *scene) bentScene {
	t := time.Now()
	m, err := mesh.Build(s.sheet, mesh.Options{Tolerance: mesh.Screen, Lids: true})
	if err != nil {
		return bentScene{err: fmt.Errorf("the bent band can't be drawn: %w", err)}
	}
	return bentScene{scene: view3d.NewScene(m).Engrave(engravedLines(s.sheet)), tone: s.tone, finger: s.sheet.Design.Band.Kind == unroll.Ring, triangles: len(m.Triangles), took: time.Since(t)}
}

// bentView shows the band as it will be worn. A drag turns it, the wheel brings
// it nearer, the second button offers places to look from. What is under the
// pointer is told, so that the blank can show the same opening.
type bentView struct {
	widget.BaseWidget

	raster   *canvas.Raster
	kit      *kit.Kit
	b        bentScene
	draws    view3d.View
	camera   view3d.Camera
	fitted   bool // the band fills the view as the window changes
	hover    int  // number of the opening that is marked, 0 for none
	wrist    bool
	cut      int     // 1 + index of the cut in view3d.Cuts, 0 for none
	cutAt    float64 // where it is, mm along its normal
	cutEye   view3d.Camera
	places   []bentPlace // of the finding that is chosen
	severity check.Severity
	onLook   func() // the view, the wrist or the cut has been changed
	focus    bool

	img     *image.RGBA
	w, h    int
	stale   bool
	cost    time.Duration // of the last picture
	press   desktop.MouseButton
	dragged bool
	told    int // the opening that was told last
	onHover func(number int)
	onPick  func(number int)
	onKey   func(*fyne.KeyEvent)
}

var (
	_ fyne.Draggable      = (*bentView)(nil)
	_ fyne.Scrollable     = (*bentView)(nil)
	_ fyne.DoubleTappable = (*bentView)(nil)
	_ desktop.Hoverable   = (*bentView)(nil)
	_ desktop.Mouseable   = (*bentView)(nil)
	_ fyne.Focusable      = (*bentView)(nil)
)

func newBentView(k *kit.Kit) *bentView {
	b := &bentView{kit: k, fitted: true, camera: view3d.Views()[0].Camera}
	b.raster = canvas.NewRaster(b.render)
	b.ExtendBaseWidget(b)
	return b
}

// CreateRenderer implements fyne.Widget.
func (b *bentView) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(b.raster) }

// MinSize implements fyne.CanvasObject.
func (b *bentView) MinSize() fyne.Size { return fyne.NewSize(140, 120) }

// show takes a new solid; without one the ground is left. One that could not be
// made leaves the last.
func (b *bentView) show(s bentScene) {
	if s.err != nil {
		return
	}
	first := b.b.scene == nil
	b.b = s
	if first {
		b.refit()
	}
	b.looked()
}

func (b *bentView) redraw() {
	b.stale = true
	b.raster.Refresh()
}

func (b *bentView) refit() {
	if b.fitted && b.b.scene != nil && b.w > 0 {
		b.camera = b.b.scene.Fit(b.camera, b.w, b.h)
	}
}

// look goes to a standard place to look from.
func (b *bentView) look(s view3d.Standard) {
	b.camera, b.fitted = s.Camera, true
	b.cutEye = b.camera // what is cut away stands in the way of this view
	b.refit()
	b.looked()
}

func (b *bentView) reset() { b.look(view3d.Views()[0]) }

// tooSlow is what a picture may cost to be drawn for the sake of a mark alone.
const tooSlow = 40 * time.Millisecond

// point marks the opening of that number, 0 for none.
func (b *bentView) point(number int) {
	if number == b.hover {
		return
	}
	b.hover = number
	if b.cost < tooSlow {
		b.redraw()
	}
}

func (b *bentView) showWrist(on bool) {
	b.wrist = on
	b.looked()
}

func (b *bentView) render(w, h int) image.Image {
	if w != b.w || h != b.h {
		b.w, b.h = w, h
		b.refit()
		b.stale = true
	}
	if !b.stale && b.img != nil {
		return b.img
	}
	b.stale = false
	began := time.Now()
	defer func() { b.cost = time.Since(began) }()
	d := b.kit.Dress
	l := view3d.Light()
	if d.Dark() {
		l = view3d.Dark()
	}
	l.Ground, l.Mark, l.Ink = d.Paper, d.Selected, d.Rule
	if b.b.scene != nil {
		l.Metal = b.b.tone.Polish
	}
	l.Hover, l.Wrist, l.Ruler = b.hover, b.wrist, w > 200
	l.Section = b.section()
	b.img = b.draws.Draw(b.img, w, h, b.b.scene, b.camera, l)
	b.drawPlaces(b.img, w, h)
	if r := b.draws.Ruler(); r.MM > 0 {
		k := b.scale()
		face := b.kit.Faces.Size(11 * k)
		face.Draw(b.img, short(r.MM, 2)+" mm", r.X1+6*k, r.Y+1, kit.AlignLeft, d.Soft)
	}
	if b.focus {
		px := max(1, int(math.Round(b.scale())))
		for _, r := range [4][4]int{{0, 0, w, px}, {0, h - px, w, h}, {0, 0, px, h}, {w - px, 0, w, h}} {
			paint.Box(b.img, r[0], r[1], r[2], r[3], d.Selected)
		}
	}
	return b.img
}

// scale returns device pixels to the toolkit's.
func (b *bentView) scale() float64 {
	if s := b.Size(); s.Width > 0 && b.w > 0 {
		return float64(b.w) / float64(s.Width)
	}
	return 1
}

// Dragged implements fyne.Draggable.
func (b *bentView) Dragged(e *fyne.DragEvent) {
	b.dragged = true
	b.kit.Tips.Leave(b)
	k := b.scale()
	dx, dy := float64(e.Dragged.DX)*k, float64(e.Dragged.DY)*k
	if b.press == desktop.MouseButtonTertiary && b.b.scene != nil {
		b.fitted = false
		b.camera = b.b.scene.Shift(b.camera, dx, dy, b.w, b.h)
	} else {
		b.camera = b.camera.Orbit(dx, dy)
	}
	b.redraw()
}

// DragEnd implements fyne.Draggable.
func (b *bentView) DragEnd() {}

// Scrolled implements fyne.Scrollable.
func (b *bentView) Scrolled(e *fyne.ScrollEvent) {
	if b.b.scene == nil {
		return
	}
	b.fitted = false
	k := b.scale()
	f := math.Pow(1.0025, math.Max(-200, math.Min(200, 4*float64(e.Scrolled.DY))))
	b.camera = b.b.scene.Near(b.camera, f, float64(e.Position.X)*k, float64(e.Position.Y)*k, b.w, b.h)
	b.redraw()
}

// DoubleTapped implements fyne.DoubleTappable.
func (b *bentView) DoubleTapped(*fyne.PointEvent) { b.reset() }

// MouseDown implements desktop.Mouseable.
func (b *bentView) MouseDown(e *desktop.MouseEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		c.Focus(b)
	}
	b.press, b.dragged = e.Button, false
}

// MouseUp implements desktop.Mouseable.
func (b *bentView) MouseUp(e *desktop.MouseEvent) {
	was := b.press
	b.press = 0
	if b.dragged {
		return
	}
	switch was {
	case desktop.MouseButtonSecondary:
		b.offer(e.AbsolutePosition)
	case desktop.MouseButtonPrimary:
		if n := b.openingAt(e.Position); n > 0 && b.onPick != nil {
			b.onPick(n)
		}
	}
}

// offer opens the menu of places to look from.
func (b *bentView) offer(at fyne.Position) {
	items := b.items()
	items[len(items)-1].Checked = b.wrist
	b.pop(at, items)
}

func (b *bentView) pop(at fyne.Position, items []*fyne.MenuItem) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		b.tick(items)
		widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), c, at)
	}
}

// items are the lines of that menu, for the window's own as well.
func (b *bentView) items() []*fyne.MenuItem {
	items := b.viewItems()
	items = append(items, fyne.NewMenuItemSeparator())
	items = append(items, b.cutItems()...)
	return append(items, fyne.NewMenuItemSeparator(),
		fyne.NewMenuItem("Show or hide the wrist or finger (W)", func() { b.showWrist(!b.wrist) }))
}

// tick marks the lines that say how the band is seen now.
func (b *bentView) tick(items []*fyne.MenuItem) {
	for _, i := range items {
		for _, s := range view3d.Views() {
			i.Checked = i.Checked || i.Label == s.Name && s.Yaw == b.camera.Yaw && s.Pitch == b.camera.Pitch
		}
		for k, c := range b.cutItems() {
			i.Checked = i.Checked || i.Label == c.Label && k == b.cut
		}
	}
}

func (b *bentView) viewItems() []*fyne.MenuItem {
	var items []*fyne.MenuItem
	for _, s := range view3d.Views() {
		items = append(items, fyne.NewMenuItem(s.Name, func() { b.look(s) }))
	}
	return items
}

func (b *bentView) cutItems() []*fyne.MenuItem {
	items := []*fyne.MenuItem{fyne.NewMenuItem("Whole, not cut", func() { b.setCut(0) })}
	for i, c := range view3d.Cuts() {
		items = append(items, fyne.NewMenuItem("Cut: "+lowered(c.Name), func() { b.setCut(i + 1) }))
	}
	return items
}

// openingAt returns the number of the opening seen at a place, 0 for none.
func (b *bentView) openingAt(p fyne.Position) int {
	k := b.scale()
	hit, ok := b.draws.Pick(int(float64(p.X)*k), int(float64(p.Y)*k))
	if !ok {
		return 0
	}
	return hit.Opening
}

// MouseIn implements desktop.Hoverable.
func (b *bentView) MouseIn(e *desktop.MouseEvent) {
	b.kit.Tips.Rest(b, "The band as worn. Drag to turn it, wheel to come nearer, middle button to move it, second button for other sides and cuts, double click to go back.")
	b.MouseMoved(e)
}

// MouseMoved implements desktop.Hoverable.
func (b *bentView) MouseMoved(e *desktop.MouseEvent) { b.tell(b.openingAt(e.Position)) }

// MouseOut implements desktop.Hoverable.
func (b *bentView) MouseOut() {
	b.kit.Tips.Leave(b)
	b.tell(0)
}

func (b *bentView) tell(number int) {
	if number == b.told {
		return
	}
	b.told = number
	if number != 0 {
		b.kit.Tips.Leave(b)
	}
	if b.onHover != nil {
		b.onHover(number)
	}
}
