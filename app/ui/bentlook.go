package ui

import (
	"math"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern/view3d"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// bentPane is the bent band with a line of buttons over it, and under that,
// while it is cut open, where the cut is.
type bentPane struct {
	view  *bentView
	root  *fyne.Container
	sides *kit.Button
	cut   *kit.Button
	wrist *kit.Button
	fit   *kit.Button

	cutLine *fyne.Container
	slide   *kit.Slider
	at      *kit.Label
}

func newBentPane(k *kit.Kit, v *bentView) *bentPane {
	p := &bentPane{view: v}
	under := func(b *kit.Button) fyne.Position {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(b).AddXY(0, b.Size().Height)
	}
	p.sides = k.Button("View", "Sides to look from: front, back, left, right, above, below. V goes on to the next.", func() { v.pop(under(p.sides), v.viewItems()) })
	p.cut = k.Button("Cut", "Cut the band open, to see how thick it stands. X goes on to the next cut; Page Up and Page Down move it.", func() { v.pop(under(p.cut), v.cutItems()) })
	p.wrist = k.Button("Wrist", "Show a wrist, or in a ring a finger, inside the band. W", func() { v.showWrist(!v.wrist) })
	p.fit = k.Button("Fit", "The whole band in sight, from where you look. G", v.fit)
	for _, b := range []*kit.Button{p.cut, p.wrist} {
		b.Tab = true // a line under it says that it is on
	}
	p.slide = k.Slider(-1, 1)
	p.slide.OnMove = v.moveCut
	p.slide.OnStep = func(steps float64) { v.moveCut(v.cutAt + steps*cutStep) }
	p.at = k.Label("", kit.Soft).Right()
	p.cutLine = container.New(kit.Columns{Widths: []float32{0, 62}, Gap: 6, Height: 24}, p.slide, p.at)
	p.root = container.NewStack(v, container.NewBorder(
		kit.Inset(6, 4, 10, 0, kit.Down(0, kit.Along(0, p.sides, p.cut, p.wrist, p.fit), p.cutLine)),
		nil, nil, nil))
	v.onLook = p.show
	p.show()
	return p
}

// show brings the buttons up to the view.
func (p *bentPane) show() {
	v := p.view
	p.wrist.Choose(v.wrist)
	p.cut.Choose(v.cut > 0)
	word := "Wrist"
	if v.b.finger {
		word = "Finger"
	}
	p.wrist.SetText(word)
	if v.cut == 0 || v.b.scene == nil {
		p.cutLine.Hide()
		return
	}
	p.cutLine.Show()
	p.slide.Span(v.b.scene.Reach(view3d.Cuts()[v.cut-1].Normal))
	p.slide.Set(v.cutAt)
	p.at.SetText(app.FormatNumber(v.cutAt, 1) + " mm")
	p.root.Refresh()
}

func (b *bentView) looked() {
	if b.onLook != nil {
		b.onLook()
	}
	b.redraw()
}

// fit shows the whole band from where one looks.
func (b *bentView) fit() {
	b.fitted = true
	b.refit()
	b.redraw()
}

// nextView goes round the standard views.
func (b *bentView) nextView(step int) {
	vs := view3d.Views()
	at := -1
	for i, s := range vs {
		if s.Yaw == b.camera.Yaw && s.Pitch == b.camera.Pitch {
			at = i
		}
	}
	if at < 0 && step < 0 {
		at = 0
	}
	b.look(vs[(at+step+len(vs))%len(vs)])
}

// setCut cuts the band open, at its middle, and looks at the cut squarely where
// it would not be seen otherwise.
func (b *bentView) setCut(cut int) {
	b.cut = cut % (len(view3d.Cuts()) + 1)
	if b.cut > 0 && b.b.scene != nil {
		c := view3d.Cuts()[b.cut-1]
		lo, hi := b.b.scene.Reach(c.Normal)
		b.cutAt = math.Round(5*(lo+hi)) / 10
		b.cutEye = b.camera
		for _, v := range view3d.Views() {
			if v.Name == c.View && !c.Seen(b.camera) {
				b.look(v)
			}
		}
	}
	b.looked()
}

// cutStep is how far a key moves the cut, mm.
const cutStep = 0.5

func (b *bentView) moveCut(at float64) {
	if b.cut == 0 || b.b.scene == nil {
		return
	}
	lo, hi := b.b.scene.Reach(view3d.Cuts()[b.cut-1].Normal)
	b.cutAt = math.Round(10*math.Max(lo, math.Min(hi, at))) / 10
	b.looked()
}

// section returns the plane of the cut. What lay towards the eye when the cut
// was chosen is taken away, so that turning the band does not change it.
func (b *bentView) section() *view3d.Plane {
	if b.cut == 0 {
		return nil
	}
	return view3d.Cuts()[b.cut-1].Plane(b.cutAt, b.cutEye)
}

func lowered(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// FocusGained implements fyne.Focusable.
func (b *bentView) FocusGained() { b.focus = true; b.redraw() }

// FocusLost implements fyne.Focusable.
func (b *bentView) FocusLost() { b.focus = false; b.redraw() }

// TypedRune implements fyne.Focusable.
func (b *bentView) TypedRune(rune) {}

// TypedKey implements fyne.Focusable: the arrows turn the band.
func (b *bentView) TypedKey(e *fyne.KeyEvent) {
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
		b.reset()
	default:
		if b.onKey != nil {
			b.onKey(e)
		}
	}
}

func (b *bentView) turn(dx, dy float64) {
	b.camera = b.camera.Orbit(dx, dy)
	b.redraw()
}

// nearer comes nearer by a factor, to the middle of the picture.
func (b *bentView) nearer(by float64) {
	if b.b.scene == nil {
		return
	}
	b.fitted = false
	b.camera = b.b.scene.Near(b.camera, by, float64(b.w)/2, float64(b.h)/2, b.w, b.h)
	b.redraw()
}
