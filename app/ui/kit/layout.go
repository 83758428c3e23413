package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
)

// Columns lays its objects side by side in columns of fixed width; a width of 0
// takes what is left. All are as high as the row and centred by what they are.
// The toolkit has no layout of fixed columns.
type Columns struct {
	Widths []float32
	Gap    float32
	Height float32 // least height of the row
	Top    bool    // they begin at the top of the row
}

// MinSize implements fyne.Layout.
func (c Columns) MinSize(objs []fyne.CanvasObject) fyne.Size {
	s := fyne.NewSize(0, c.Height)
	for i, o := range objs {
		m := o.MinSize()
		if w := c.Widths[i]; w > 0 {
			s.Width += w
		} else {
			s.Width += min(m.Width, 40)
		}
		s.Height = max(s.Height, m.Height)
	}
	s.Width += c.Gap * float32(len(objs)-1)
	return s
}

// Layout implements fyne.Layout.
func (c Columns) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	left, flexible := size.Width-c.Gap*float32(len(objs)-1), 0
	for i := range objs {
		left -= c.Widths[i]
		if c.Widths[i] == 0 {
			flexible++
		}
	}
	x := float32(0)
	for i, o := range objs {
		w := c.Widths[i]
		if w == 0 {
			w = max(0, left/float32(flexible))
		}
		h := min(o.MinSize().Height, size.Height)
		o.Resize(fyne.NewSize(w, h))
		y := (size.Height - h) / 2
		if c.Top {
			y = 0
		}
		o.Move(fyne.NewPos(x, y))
		x += w + c.Gap
	}
}

// Down lays objects one under another, each as high as it must be and all as wide
// as there is room.
func Down(gap float32, objs ...fyne.CanvasObject) *fyne.Container {
	return container.New(layout.NewCustomPaddedVBoxLayout(gap), objs...)
}

// Along lays objects in a row from the left, each as wide as it must be.
func Along(gap float32, objs ...fyne.CanvasObject) *fyne.Container {
	return container.New(layout.NewCustomPaddedHBoxLayout(gap), objs...)
}

// Flow lays its objects in rows from the left, each as wide as it must be, and goes on in
// the next row where there is no more room. The toolkit's rows run out of the window.
type Flow struct{ Gap float32 }

// MinSize implements fyne.Layout. How high it is depends on how wide: see [Flow.Height].
func (f Flow) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	for _, o := range objs {
		if o.Visible() {
			s = s.Max(o.MinSize())
		}
	}
	return s
}

// Height returns how high the objects are at a width.
func (f Flow) Height(objs []fyne.CanvasObject, wide float32) float32 {
	return f.lay(objs, wide, func(fyne.CanvasObject, fyne.Position, fyne.Size) {})
}

// Layout implements fyne.Layout.
func (f Flow) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	f.lay(objs, size.Width, func(o fyne.CanvasObject, p fyne.Position, s fyne.Size) {
		o.Move(p)
		o.Resize(s)
	})
}

func (f Flow) lay(objs []fyne.CanvasObject, wide float32, put func(fyne.CanvasObject, fyne.Position, fyne.Size)) float32 {
	var at fyne.Position
	var high float32 // of the row
	for _, o := range objs {
		if !o.Visible() {
			continue
		}
		m := o.MinSize()
		if at.X > 0 && at.X+m.Width > wide {
			at, high = fyne.NewPos(0, at.Y+high+f.Gap), 0
		}
		put(o, at, fyne.NewSize(min(m.Width, wide), m.Height))
		at.X += m.Width + f.Gap
		high = max(high, m.Height)
	}
	return at.Y + high
}

// Inset keeps an object at a distance from the edges.
func Inset(left, top, right, bottom float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(layout.NewCustomPaddedLayout(top, bottom, left, right), o)
}

// Sized asks for a size for its objects, whatever they ask for themselves.
func Sized(w, h float32, objs ...fyne.CanvasObject) *fyne.Container {
	return container.New(asked{w: w, h: h}, objs...)
}

// AtLeast asks for a width for an object, and for that height or more.
func AtLeast(w, h float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(asked{w: w, h: h, grows: true}, o)
}

// asked is the layout of [Sized] and [AtLeast]. Fyne's own of that kind, GridWrap, gives
// its objects no more room than that when there is more.
type asked struct {
	w, h  float32
	grows bool // with what it holds
}

// MinSize implements fyne.Layout.
func (l asked) MinSize(objs []fyne.CanvasObject) fyne.Size {
	h := l.h
	for _, o := range objs {
		if l.grows {
			h = max(h, o.MinSize().Height)
		}
	}
	return fyne.NewSize(l.w, h)
}

// Layout implements fyne.Layout.
func (asked) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objs {
		o.Resize(size)
		o.Move(fyne.Position{})
	}
}

// Spread lays its objects in a row and shares what room is left among them,
// which the toolkit's row leaves empty.
type Spread struct{}

// MinSize implements fyne.Layout.
func (Spread) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	for _, o := range objs {
		m := o.MinSize()
		s.Width += m.Width
		s.Height = max(s.Height, m.Height)
	}
	return fyne.NewSize(s.Width, max(s.Height, 30))
}

// Layout implements fyne.Layout.
func (l Spread) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	more := (size.Width - l.MinSize(objs).Width) / float32(len(objs))
	x := float32(0)
	for _, o := range objs {
		m := o.MinSize()
		o.Resize(fyne.NewSize(m.Width+more, m.Height))
		o.Move(fyne.NewPos(x, (size.Height-m.Height)/2))
		x += m.Width + more
	}
}
