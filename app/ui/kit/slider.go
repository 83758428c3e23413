package kit

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Slider is a thin line with a knob. It reports every move and the end of each.
// The toolkit's holds no value past its ends, moves when its knob is pressed, and steps by
// an amount of its own.
type Slider struct {
	widget.BaseWidget

	low, high float64
	value     float64
	kit       *Kit

	OnMove func(v float64)
	OnStep func(steps float64) // arrow keys
	OnEnd  func()

	focused, over, held bool

	track, filled *canvas.Rectangle
	knob          *canvas.Circle
}

var (
	_ fyne.Draggable    = (*Slider)(nil)
	_ fyne.Tappable     = (*Slider)(nil)
	_ fyne.Focusable    = (*Slider)(nil)
	_ desktop.Hoverable = (*Slider)(nil)
	_ desktop.Mouseable = (*Slider)(nil)
)

func (k *Kit) Slider(low, high float64) *Slider {
	s := &Slider{low: low, high: high, kit: k}
	s.track, s.filled, s.knob = &canvas.Rectangle{CornerRadius: 1.5}, &canvas.Rectangle{CornerRadius: 1.5}, &canvas.Circle{}
	s.ExtendBaseWidget(s)
	return s
}

// Set moves the knob to v; it stays at the end when v lies past it.
func (s *Slider) Set(v float64) {
	if v == s.value {
		return
	}
	s.value = v
	s.Refresh()
}

// Span sets the ends of the slider.
func (s *Slider) Span(low, high float64) {
	if low != s.low || high != s.high {
		s.low, s.high = low, high
		s.Refresh()
	}
}

const (
	knobSize  = 12
	trackSize = 3
)

func (s *Slider) fraction() float32 {
	return float32(math.Max(0, math.Min(1, (s.value-s.low)/(s.high-s.low))))
}

func (s *Slider) valueAt(x float32) float64 {
	w := s.Size().Width - knobSize
	if w <= 0 {
		return s.value
	}
	t := math.Max(0, math.Min(1, float64((x-knobSize/2)/w)))
	return s.low + t*(s.high-s.low)
}

func (s *Slider) moveTo(x float32) {
	s.value = s.valueAt(x)
	if s.OnMove != nil {
		s.OnMove(s.value)
	}
	s.Refresh()
}

func (s *Slider) end() {
	if s.held {
		s.held = false
		if s.OnEnd != nil {
			s.OnEnd()
		}
		s.Refresh()
	}
}

// MouseDown implements desktop.Mouseable.
func (s *Slider) MouseDown(e *desktop.MouseEvent) {
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
func (s *Slider) MouseUp(*desktop.MouseEvent) { s.end() }

// Tapped implements fyne.Tappable: the press has done it.
func (s *Slider) Tapped(*fyne.PointEvent) {}

// Dragged implements fyne.Draggable.
func (s *Slider) Dragged(e *fyne.DragEvent) {
	s.held = true
	s.moveTo(e.Position.X)
}

// DragEnd implements fyne.Draggable.
func (s *Slider) DragEnd() { s.end() }

// MouseIn implements desktop.Hoverable.
func (s *Slider) MouseIn(*desktop.MouseEvent) { s.hover(true) }

// MouseMoved implements desktop.Hoverable.
func (s *Slider) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (s *Slider) MouseOut() { s.hover(false) }

func (s *Slider) hover(in bool) {
	s.over = in
	s.Refresh()
}

// FocusGained implements fyne.Focusable.
func (s *Slider) FocusGained() { s.focused = true; s.Refresh() }

// FocusLost implements fyne.Focusable.
func (s *Slider) FocusLost() {
	s.focused = false
	if s.OnEnd != nil {
		s.OnEnd()
	}
	s.Refresh()
}

// TypedRune implements fyne.Focusable.
func (s *Slider) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (s *Slider) TypedKey(k *fyne.KeyEvent) {
	if s.OnStep == nil {
		return
	}
	switch k.Name {
	case fyne.KeyLeft, fyne.KeyDown:
		s.OnStep(-1)
	case fyne.KeyRight, fyne.KeyUp:
		s.OnStep(1)
	case fyne.KeyPageDown:
		s.OnStep(-10)
	case fyne.KeyPageUp:
		s.OnStep(10)
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
func (s *Slider) CreateRenderer() fyne.WidgetRenderer { return Render(s) }

// Parts implements Built.
func (s *Slider) Parts() []fyne.CanvasObject { return []fyne.CanvasObject{s.track, s.filled, s.knob} }

// Least implements Built.
func (s *Slider) Least() fyne.Size { return fyne.NewSize(48, 20) }

// Lay implements Built.
func (s *Slider) Lay(size fyne.Size) {
	y := size.Height / 2
	w := size.Width - knobSize
	s.track.Move(fyne.NewPos(knobSize/2, y-trackSize/2.0))
	s.track.Resize(fyne.NewSize(w, trackSize))
	s.filled.Move(fyne.NewPos(knobSize/2, y-trackSize/2.0))
	s.filled.Resize(fyne.NewSize(w*s.fraction(), trackSize))
	s.knob.Move(fyne.NewPos(w*s.fraction(), y-knobSize/2))
	s.knob.Resize(fyne.NewSize(knobSize, knobSize))
}

// Paint implements Built.
func (s *Slider) Paint() {
	d := s.kit.Dress
	s.track.FillColor = d.Line
	s.filled.FillColor = d.Rule
	s.knob.FillColor = d.raised
	s.knob.StrokeColor, s.knob.StrokeWidth = d.Rule, 1.5
	switch {
	case s.held || s.focused:
		s.knob.StrokeColor, s.filled.FillColor = d.Selected, d.Selected
		s.knob.StrokeWidth = 2.5
	case s.over:
		s.knob.StrokeColor = d.Hover
	}
}
