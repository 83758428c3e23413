package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// dialogs is the stack of questions that are open over a window. The topmost
// has the keyboard: Enter takes its main answer, Escape gives it up.
type dialogs struct {
	kit    *kit
	canvas fyne.Canvas
	open   []*dialog
	// onChange is called when one opens or closes.
	onChange func()
}

// dialog is one question.
type dialog struct {
	owner   *dialogs
	title   string
	pop     *widget.PopUp
	panel   *fyne.Container
	main    *button
	buttons []*button
	giveUp  func()
	closed  bool
	fields  []field // named, for the script that drives the window
}

type field struct {
	name string
	o    fyne.CanvasObject
}

func (d *dialog) named(name string, o fyne.CanvasObject) { d.fields = append(d.fields, field{name, o}) }

// answer is one of a dialog's buttons. Its Do runs after the dialog has closed;
// with stay it runs while it is open.
type answer struct {
	text string
	main bool
	stay bool
	do   func()
}

// ask opens a dialog. cancel runs when it is given up; it may be nil.
func (ds *dialogs) ask(title string, body fyne.CanvasObject, cancel func(), answers ...answer) *dialog {
	k := ds.kit
	d := &dialog{owner: ds, title: title, giveUp: cancel}
	objs := []fyne.CanvasObject{}
	for _, a := range answers {
		b := k.button(a.text, "", nil)
		b.framed, b.main = !a.main, a.main
		b.tap = func() {
			if a.stay {
				a.do()
				return
			}
			d.close()
			if a.do != nil {
				a.do()
			}
		}
		if a.main {
			d.main = b
		}
		d.buttons = append(d.buttons, b)
		objs = append(objs, b)
	}
	back := canvas.NewRectangle(k.dress.panel)
	back.StrokeColor, back.StrokeWidth, back.CornerRadius = k.dress.line, 1, 5
	onDress(k, back, func(b *canvas.Rectangle, w *dress) { b.FillColor, b.StrokeColor = w.panel, w.line; b.Refresh() })
	d.panel = container.NewStack(back, container.New(inset{22, 18, 22, 18},
		container.NewBorder(
			container.New(inset{0, 0, 0, 10}, k.label(title, titleVoice)),
			container.New(inset{0, 16, 0, 0}, container.New(fromRight{8}, objs...)),
			nil, nil, body)))
	d.pop = widget.NewModalPopUp(d.panel, ds.canvas)
	ds.open = append(ds.open, d)
	k.tips.hide()
	d.pop.Show()
	if ds.onChange != nil {
		ds.onChange()
	}
	return d
}

// say opens a dialog that only tells something.
func (ds *dialogs) say(title, text string) *dialog {
	return ds.ask(title, ds.kit.passage(text, plainVoice, 420), nil, answer{text: "Close", main: true})
}

func (d *dialog) close() {
	if d.closed {
		return
	}
	d.closed = true
	d.pop.Hide()
	for i, o := range d.owner.open {
		if o == d {
			d.owner.open = append(d.owner.open[:i], d.owner.open[i+1:]...)
			break
		}
	}
	if d.owner.onChange != nil {
		d.owner.onChange()
	}
}

func (ds *dialogs) top() *dialog {
	if len(ds.open) == 0 {
		return nil
	}
	return ds.open[len(ds.open)-1]
}

// escape gives up the topmost dialog and reports whether there was one.
func (ds *dialogs) escape() bool {
	d := ds.top()
	if d == nil {
		return false
	}
	d.close()
	if d.giveUp != nil {
		d.giveUp()
	}
	return true
}

// enter takes the main answer of the topmost dialog.
func (ds *dialogs) enter() bool {
	d := ds.top()
	if d == nil || d.main == nil {
		return false
	}
	d.main.Tapped(nil)
	return true
}

// fromRight lays its objects in a row against the right side.
type fromRight struct{ gap float32 }

// MinSize implements fyne.Layout.
func (l fromRight) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	for _, o := range objs {
		m := o.MinSize()
		s.Width += m.Width + l.gap
		s.Height = max(s.Height, m.Height)
	}
	return s
}

// Layout implements fyne.Layout.
func (l fromRight) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	x := size.Width
	for i := len(objs) - 1; i >= 0; i-- {
		m := objs[i].MinSize()
		x -= m.Width
		objs[i].Resize(fyne.NewSize(m.Width, size.Height))
		objs[i].Move(fyne.NewPos(x, 0))
		x -= l.gap
	}
}
