package ui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// slider is a thin line with a knob. It reports every move and the end of each.
type slider struct {
	widget.BaseWidget

	low, high float64
	value     float64
	dress     func() *dress

	onMove  func(v float64)
	onStep  func(steps float64) // arrow keys
	onEnd   func()
	onHover func(in bool)

	focused, over, held bool

	track, filled *canvas.Rectangle
	knob          *canvas.Circle
}

var (
	_ fyne.Draggable    = (*slider)(nil)
	_ fyne.Tappable     = (*slider)(nil)
	_ fyne.Focusable    = (*slider)(nil)
	_ desktop.Hoverable = (*slider)(nil)
	_ desktop.Mouseable = (*slider)(nil)
)

func newSlider(low, high float64, d func() *dress) *slider {
	s := &slider{low: low, high: high, dress: d}
	s.track, s.filled, s.knob = &canvas.Rectangle{CornerRadius: 1.5}, &canvas.Rectangle{CornerRadius: 1.5}, &canvas.Circle{}
	s.ExtendBaseWidget(s)
	return s
}

// set moves the knob to v; it stays at the end when v lies past it.
func (s *slider) set(v float64) {
	if v == s.value {
		return
	}
	s.value = v
	s.Refresh()
}

// span sets the ends of the slider.
func (s *slider) span(low, high float64) {
	if low != s.low || high != s.high {
		s.low, s.high = low, high
		s.Refresh()
	}
}

const (
	knobSize  = 12
	trackSize = 3
)

func (s *slider) fraction() float32 {
	return float32(math.Max(0, math.Min(1, (s.value-s.low)/(s.high-s.low))))
}

func (s *slider) valueAt(x float32) float64 {
	w := s.Size().Width - knobSize
	if w <= 0 {
		return s.value
	}
	t := math.Max(0, math.Min(1, float64((x-knobSize/2)/w)))
	return s.low + t*(s.high-s.low)
}

func (s *slider) moveTo(x float32) {
	s.value = s.valueAt(x)
	if s.onMove != nil {
		s.onMove(s.value)
	}
	s.Refresh()
}

func (s *slider) end() {
	if s.held {
		s.held = false
		if s.onEnd != nil {
			s.onEnd()
		}
		s.Refresh()
	}
}

// MouseDown implements desktop.Mouseable.
func (s *slider) MouseDown(e *desktop.MouseEvent) {
	if e.Button != desktop.MouseButtonPrimary {
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
		c.Focus(s)
	}
	s.held = true
	// A press on the knob takes hold of it and moves nothing.
	at := knobSize/2 + s.fraction()*(s.Size().Width-knobSize)
	if d := e.Position.X - at; d < -knobSize/2 || d > knobSize/2 {
		s.moveTo(e.Position.X)
	}
}

// MouseUp implements desktop.Mouseable.
func (s *slider) MouseUp(*desktop.MouseEvent) { s.end() }

// Tapped implements fyne.Tappable: the press has done it.
func (s *slider) Tapped(*fyne.PointEvent) {}

// Dragged implements fyne.Draggable.
func (s *slider) Dragged(e *fyne.DragEvent) {
	s.held = true
	s.moveTo(e.Position.X)
}

// DragEnd implements fyne.Draggable.
func (s *slider) DragEnd() { s.end() }

// MouseIn implements desktop.Hoverable.
func (s *slider) MouseIn(*desktop.MouseEvent) { s.hover(true) }

// MouseMoved implements desktop.Hoverable.
func (s *slider) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (s *slider) MouseOut() { s.hover(false) }

func (s *slider) hover(in bool) {
	s.over = in
	if s.onHover != nil {
		s.onHover(in)
	}
	s.Refresh()
}

// FocusGained implements fyne.Focusable.
func (s *slider) FocusGained() { s.focused = true; s.Refresh() }

// FocusLost implements fyne.Focusable.
func (s *slider) FocusLost() {
	s.focused = false
	if s.onEnd != nil {
		s.onEnd()
	}
	s.Refresh()
}

// TypedRune implements fyne.Focusable.
func (s *slider) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (s *slider) TypedKey(k *fyne.KeyEvent) {
	if s.onStep == nil {
		return
	}
	switch k.Name {
	case fyne.KeyLeft, fyne.KeyDown:
		s.onStep(-1)
	case fyne.KeyRight, fyne.KeyUp:
		s.onStep(1)
	case fyne.KeyPageDown:
		s.onStep(-10)
	case fyne.KeyPageUp:
		s.onStep(10)
	case fyne.KeyHome:
		s.moveTo(0)
		s.held = true
		s.end()
	case fyne.KeyEnd:
		s.moveTo(s.Size().Width)
		s.held = true
		s.end()
	}
}

// CreateRenderer implements fyne.Widget.
func (s *slider) CreateRenderer() fyne.WidgetRenderer { return &sliderRenderer{s} }

type sliderRenderer struct{ s *slider }

func (r *sliderRenderer) Destroy() {}

func (r *sliderRenderer) MinSize() fyne.Size { return fyne.NewSize(48, 20) }

func (r *sliderRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.s.track, r.s.filled, r.s.knob}
}

func (r *sliderRenderer) Layout(size fyne.Size) {
	s := r.s
	y := size.Height / 2
	w := size.Width - knobSize
	s.track.Move(fyne.NewPos(knobSize/2, y-trackSize/2.0))
	s.track.Resize(fyne.NewSize(w, trackSize))
	s.filled.Move(fyne.NewPos(knobSize/2, y-trackSize/2.0))
	s.filled.Resize(fyne.NewSize(w*s.fraction(), trackSize))
	s.knob.Move(fyne.NewPos(w*s.fraction(), y-knobSize/2))
	s.knob.Resize(fyne.NewSize(knobSize, knobSize))
}

func (r *sliderRenderer) Refresh() {
	s, d := r.s, r.s.dress()
	s.track.FillColor = d.line
	s.filled.FillColor = d.rule
	s.knob.FillColor = d.raised
	s.knob.StrokeColor, s.knob.StrokeWidth = d.rule, 1.5
	switch {
	case s.held || s.focused:
		s.knob.StrokeColor, s.filled.FillColor = d.selected, d.selected
		s.knob.StrokeWidth = 2.5
	case s.over:
		s.knob.StrokeColor = d.hover
	}
	r.Layout(s.Size())
	s.track.Refresh()
	s.filled.Refresh()
	s.knob.Refresh()
}
