package bent

import (
	"image"
	"math"
	"time"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export/paint"
	"fretband/pattern/check"
	"fretband/pattern/view3d"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Doors are what the bent band asks of the window. Openings go by their numbers, 0 for
// none.
type Doors struct {
	Hover func(number int)       // the pointer is over another opening
	Pick  func(number int)       // one was clicked
	Key   func(e *fyne.KeyEvent) // a key that means nothing here
	Load  func()                 // draws the band under the load that is shown, or without
	Plain func()                 // draws the band before it is pierced, or as it is
	Large func()                 // has this view and the blank change places, and back
	// Later runs f on the toolkit's goroutine after d.
	Later func(d time.Duration, f func())
}

// View shows the band as it will be worn. A drag turns it, the wheel brings
// it nearer, the second button offers places to look from. What is under the
// pointer is passed on, so that the blank can show the same opening.
type View struct {
	widget.BaseWidget
	doors Doors

	raster     *canvas.Raster
	kit        *kit.Kit
	b          Solid
	draws      view3d.View
	Camera     view3d.Camera
	fitted     bool // the band fills the view as the window changes
	Pointed    int  // number of the opening that is marked, 0 for none
	wrist      bool
	sectionNo  int     // 1 + index in view3d.Sections, 0 for none
	sectionAt  float64 // where it is, mm along its normal
	sectionEye view3d.Camera
	print      *view3d.Print
	waiting    bool      // a picture is to be drawn later
	rough      bool      // solids follow one another: draw them roughly
	came       time.Time // the last of them
	anew       bool      // the next solid is of another document: fit it
	large      bool      // it has the large place in the window
	Ringed     []ring    // of the finding that is chosen
	ringsOn    unroll.Flat
	ringsAt    []plane.Point // the same on the blank
	severity   check.Severity
	onLook     func() // the view, the wrist or the cut has been changed
	focus      bool

	img     *image.RGBA
	w, h    int
	stale   bool
	cost    time.Duration // of the last picture
	press   desktop.MouseButton
	dragged bool
	Told    int // the opening that was told last
}

var (
	_ fyne.Draggable      = (*View)(nil)
	_ fyne.Scrollable     = (*View)(nil)
	_ fyne.DoubleTappable = (*View)(nil)
	_ desktop.Hoverable   = (*View)(nil)
	_ desktop.Mouseable   = (*View)(nil)
	_ fyne.Focusable      = (*View)(nil)
)

func newView(k *kit.Kit, doors Doors) *View {
	b := &View{kit: k, doors: doors, fitted: true, Camera: view3d.Views()[0].Camera}
	b.raster = canvas.NewRaster(b.render)
	b.raster.ScaleMode = canvas.ImageScalePixels // it is drawn pixel by pixel
	kit.OnDress(k, b, func(b *View, _ *kit.Dress) { b.redraw() })
	b.ExtendBaseWidget(b)
	return b
}

// CreateRenderer implements fyne.Widget.
func (b *View) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(b.raster) }

// MinSize implements fyne.CanvasObject.
func (b *View) MinSize() fyne.Size { return fyne.NewSize(140, 120) }

// Solid is the solid that is drawn.
func (b *View) Solid() Solid { return b.b }

// SetSolid takes a new solid; without one the ground is left. One that could not be
// made leaves the last.
func (b *View) SetSolid(s Solid) {
	if s.Err != nil {
		return
	}
	last := b.b
	b.b = s
	b.streamed()
	b.placeRings()
	b.tell(0) // openings have been numbered anew; the next move of the pointer tells again
	switch now := s.scene; {
	case now == nil:
	case b.anew || last.scene == nil || last.kind() != s.kind():
		b.fitted, b.anew = true, false
		b.refit()
		b.sectionAt = b.middleOf(b.sectionNo)
	default:
		b.hold(last.scene)
	}
	b.looked()
}

// streaming is how soon after one solid another has to come for both to be taken for
// those of a drag.
const streaming = 200 * time.Millisecond

// streamed draws the solids of a drag roughly, and the last of them finely once no other
// has come for a while.
func (b *View) streamed() {
	now := time.Now()
	b.rough = b.doors.Later != nil && now.Sub(b.came) < streaming
	if b.came = now; b.rough {
		b.doors.Later(streaming, func() {
			if b.rough && b.came.Equal(now) {
				b.rough = false
				b.redraw()
			}
		})
	}
}

// hold keeps the band as large as it was in the picture of another scene, so that it is
// seen to grow; unless it is to fill the view and has outgrown it, or shrunk well away from it.
func (b *View) hold(last *view3d.Scene) {
	b.Camera = b.b.scene.AsLarge(b.Camera, last)
	if !b.fitted || b.w == 0 {
		return
	}
	fits := b.b.scene.Fit(b.Camera, b.w, b.h)
	if by := fits.Zoom / b.Camera.Zoom; by > 0.999 && by < 1.12 {
		fits.Zoom = b.Camera.Zoom
	}
	b.Camera = fits
}

// Renew forgets what was looked at: the next solid is of another document.
func (b *View) Renew() {
	b.setSection(0)
	b.fitted, b.anew = true, true
}

func (b *View) redraw() {
	b.stale = true
	b.raster.Refresh()
}

func (b *View) refit() {
	if b.fitted && b.b.scene != nil && b.w > 0 {
		b.Camera = b.b.scene.Fit(b.Camera, b.w, b.h)
	}
}

// SetPrint lays a picture over the metal, nil for none.
func (b *View) SetPrint(p *view3d.Print) {
	if p == nil && b.print == nil {
		return
	}
	b.print = p
	b.redraw()
}

// tooSlow is what a picture may cost to be drawn for the sake of a highlight alone.
const tooSlow = 40 * time.Millisecond

// restBetween is how long pictures are apart that are drawn for the sake of a highlight
// alone and cost too much to be drawn at once.
const restBetween = 3 * tooSlow

// Point highlights the opening of that number, 0 for none. Where pictures are slow, that is
// drawn a little later, together with what has come meanwhile.
func (b *View) Point(number int) {
	if number == b.Pointed {
		return
	}
	b.Pointed = number
	switch {
	case b.cost < tooSlow:
		b.redraw()
	case !b.waiting:
		b.waiting = true
		b.doors.Later(restBetween, func() {
			b.waiting = false
			b.redraw()
		})
	}
}

func (b *View) render(w, h int) image.Image {
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
	l := lookOf(d)
	if b.b.scene != nil {
		l.Metal = b.b.tone.Polish
	}
	l.Hover, l.Wrist, l.Ruler = b.Pointed, b.wrist, w > 200
	l.Section = b.section()
	l.Rough = b.rough
	l.Print = b.print
	b.img = b.draws.Draw(b.img, w, h, b.b.scene, b.Camera, l)
	b.drawRings(b.img, w, h)
	if r := b.draws.Ruler(); r.MM > 0 {
		k := b.scale()
		face := b.kit.Faces.Size(11 * k)
		face.Draw(b.img, app.FormatNumber(r.MM, 2)+" mm", r.X1+6*k, r.Y+1, kit.AlignLeft, d.Soft)
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
func (b *View) scale() float64 {
	if s := b.Size(); s.Width > 0 && b.w > 0 {
		return float64(b.w) / float64(s.Width)
	}
	return 1
}

// Dragged implements fyne.Draggable.
func (b *View) Dragged(e *fyne.DragEvent) {
	b.dragged = true
	b.kit.Tips.Leave(b)
	k := b.scale()
	dx, dy := float64(e.Dragged.DX)*k, float64(e.Dragged.DY)*k
	if b.press == desktop.MouseButtonTertiary && b.b.scene != nil {
		b.fitted = false
		b.Camera = b.b.scene.Shift(b.Camera, dx, dy, b.w, b.h)
	} else {
		b.Camera = b.Camera.Orbit(dx, dy)
	}
	b.redraw()
}

// DragEnd implements fyne.Draggable.
func (b *View) DragEnd() {}

// Scrolled implements fyne.Scrollable.
func (b *View) Scrolled(e *fyne.ScrollEvent) {
	if b.b.scene == nil {
		return
	}
	b.fitted = false
	k := b.scale()
	f := math.Pow(1.0025, math.Max(-200, math.Min(200, 4*float64(e.Scrolled.DY))))
	b.Camera = b.b.scene.Near(b.Camera, f, float64(e.Position.X)*k, float64(e.Position.Y)*k, b.w, b.h)
	b.redraw()
}

// DoubleTapped implements fyne.DoubleTappable.
func (b *View) DoubleTapped(*fyne.PointEvent) { b.Reset() }

// MouseDown implements desktop.Mouseable.
func (b *View) MouseDown(e *desktop.MouseEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		c.Focus(b)
	}
	b.press, b.dragged = e.Button, false
}

// MouseUp implements desktop.Mouseable.
func (b *View) MouseUp(e *desktop.MouseEvent) {
	was := b.press
	b.press = 0
	if b.dragged {
		return
	}
	switch was {
	case desktop.MouseButtonSecondary:
		b.offer(e.AbsolutePosition)
	case desktop.MouseButtonPrimary:
		if n := b.openingAt(e.Position); n > 0 {
			b.doors.Pick(n)
		}
	}
}

// openingAt returns the number of the opening seen at a position, 0 for none.
func (b *View) openingAt(p fyne.Position) int {
	k := b.scale()
	hit, ok := b.draws.Pick(int(float64(p.X)*k), int(float64(p.Y)*k))
	if !ok {
		return 0
	}
	return hit.Opening
}

// MouseIn implements desktop.Hoverable.
func (b *View) MouseIn(e *desktop.MouseEvent) {
	b.kit.Tips.Rest(b, "The band as worn. Drag to turn it, wheel to come nearer, middle button to move it, second button for other sides and cuts, double click to go back.")
	b.MouseMoved(e)
}

// MouseMoved implements desktop.Hoverable.
func (b *View) MouseMoved(e *desktop.MouseEvent) { b.tell(b.openingAt(e.Position)) }

// MouseOut implements desktop.Hoverable.
func (b *View) MouseOut() {
	b.kit.Tips.Leave(b)
	b.tell(0)
}

func (b *View) tell(number int) {
	if number == b.Told {
		return
	}
	b.Told = number
	if number != 0 {
		b.kit.Tips.Leave(b)
	}
	b.doors.Hover(number)
}

// FocusGained implements fyne.Focusable.
func (b *View) FocusGained() { b.focus = true; b.redraw() }

// FocusLost implements fyne.Focusable.
func (b *View) FocusLost() { b.focus = false; b.redraw() }

// TypedRune implements fyne.Focusable.
func (b *View) TypedRune(rune) {}

// TypedKey implements fyne.Focusable: the arrows turn the band.
func (b *View) TypedKey(e *fyne.KeyEvent) {
	const turn = 17.5 // pixels of a drag: nine degrees
	s := b.scale()
	switch e.Name {
	case fyne.KeyLeft:
		b.turn(-turn*s, 0)
	case fyne.KeyRight:
		b.turn(turn*s, 0)
	case fyne.KeyUp:
		b.turn(0, -turn*s)
	case fyne.KeyDown:
		b.turn(0, turn*s)
	case fyne.KeyPlus, fyne.KeyEqual:
		b.nearer(1.25)
	case fyne.KeyMinus:
		b.nearer(0.8)
	case fyne.KeyF:
		b.fit()
	case fyne.KeyHome:
		b.Reset()
	default:
		if !b.Key(e) {
			b.doors.Key(e)
		}
	}
}
