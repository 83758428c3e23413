package ui

import (
	"fyne.io/fyne/v2"
)

// columns lays its objects side by side in columns of fixed width; a width of 0
// takes what is left. All are as high as the row and centred by what they are.
type columns struct {
	widths []float32
	gap    float32
	height float32 // least height of the row
}

// MinSize implements fyne.Layout.
func (c columns) MinSize(objs []fyne.CanvasObject) fyne.Size {
	s := fyne.NewSize(0, c.height)
	for i, o := range objs {
		m := o.MinSize()
		if w := c.widths[i]; w > 0 {
			s.Width += w
		} else {
			s.Width += min(m.Width, 40)
		}
		s.Height = max(s.Height, m.Height)
	}
	s.Width += c.gap * float32(len(objs)-1)
	return s
}

// Layout implements fyne.Layout.
func (c columns) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	left, flexible := size.Width-c.gap*float32(len(objs)-1), 0
	for i := range objs {
		left -= c.widths[i]
		if c.widths[i] == 0 {
			flexible++
		}
	}
	x := float32(0)
	for i, o := range objs {
		w := c.widths[i]
		if w == 0 {
			w = max(0, left/float32(flexible))
		}
		h := min(o.MinSize().Height, size.Height)
		o.Resize(fyne.NewSize(w, h))
		o.Move(fyne.NewPos(x, (size.Height-h)/2))
		x += w + c.gap
	}
}

// stackDown lays its visible objects one under another, each as high as it must
// be and all as wide as there is room.
type stackDown struct{ gap float32 }

// MinSize implements fyne.Layout.
func (l stackDown) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	n := 0
	for _, o := range objs {
		if !o.Visible() {
			continue
		}
		m := o.MinSize()
		s.Width = max(s.Width, m.Width)
		s.Height += m.Height
		n++
	}
	if n > 1 {
		s.Height += l.gap * float32(n-1)
	}
	return s
}

// Layout implements fyne.Layout.
func (l stackDown) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, o := range objs {
		if !o.Visible() {
			continue
		}
		h := o.MinSize().Height
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, h))
		y += h + l.gap
	}
}

// inset keeps its one object at a distance from the edges.
type inset struct{ left, top, right, bottom float32 }

// MinSize implements fyne.Layout.
func (l inset) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	for _, o := range objs {
		s = s.Max(o.MinSize())
	}
	return s.AddWidthHeight(l.left+l.right, l.top+l.bottom)
}

// Layout implements fyne.Layout.
func (l inset) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objs {
		o.Move(fyne.NewPos(l.left, l.top))
		o.Resize(size.SubtractWidthHeight(l.left+l.right, l.top+l.bottom))
	}
}

// minWidth gives its one object a least width.
type minWidth struct{ w float32 }

// MinSize implements fyne.Layout.
func (l minWidth) MinSize(objs []fyne.CanvasObject) fyne.Size {
	s := fyne.NewSize(l.w, 0)
	for _, o := range objs {
		s.Height = max(s.Height, o.MinSize().Height)
	}
	return s
}

// Layout implements fyne.Layout.
func (l minWidth) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objs {
		o.Resize(size)
		o.Move(fyne.Position{})
	}
}

// spread lays its objects in a row and shares what room is left among them.
type spread struct{}

// MinSize implements fyne.Layout.
func (spread) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	for _, o := range objs {
		m := o.MinSize()
		s.Width += m.Width
		s.Height = max(s.Height, m.Height)
	}
	return fyne.NewSize(s.Width, max(s.Height, 30))
}

// Layout implements fyne.Layout.
func (l spread) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	more := (size.Width - l.MinSize(objs).Width) / float32(len(objs))
	x := float32(0)
	for _, o := range objs {
		m := o.MinSize()
		o.Resize(fyne.NewSize(m.Width+more, m.Height))
		o.Move(fyne.NewPos(x, (size.Height-m.Height)/2))
		x += m.Width + more
	}
}
