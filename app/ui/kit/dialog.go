package kit

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// Dialogs is the stack of questions that are open over a window. The topmost
// has the keyboard: Enter takes its main answer, Escape gives it up. The toolkit's dialogs
// leave both keys alone.
type Dialogs struct {
	kit    *Kit
	canvas fyne.Canvas
	Open   []*Dialog
	// onChange is called when one opens or closes.
	onChange func()
}

func NewDialogs(k *Kit, c fyne.Canvas, onChange func()) *Dialogs {
	k.Dialogs = &Dialogs{kit: k, canvas: c, onChange: onChange}
	return k.Dialogs
}

// Entry makes an entry for a dialog, whose Enter key takes the main answer.
func (ds *Dialogs) Entry(text string) *Entry {
	e := ds.kit.Entry()
	e.SetText(text)
	e.OnSubmitted = func(string) { ds.Enter() }
	return e
}

// Focus gives an object the keyboard.
func (ds *Dialogs) Focus(o fyne.Focusable) { ds.canvas.Focus(o) }

// Typing returns the entry that has the keyboard, nil for none.
func (ds *Dialogs) Typing() *Entry {
	e, _ := ds.canvas.Focused().(*Entry)
	return e
}

// Commit takes what is being typed.
func (ds *Dialogs) Commit() {
	if e := ds.Typing(); e != nil {
		e.Commit()
	}
}

// Dialog is one question.
type Dialog struct {
	owner   *Dialogs
	Title   string
	pop     *widget.PopUp
	Panel   *fyne.Container
	tips    *fyne.Container // the layer of what lies in it
	Main    *Button
	Buttons []*Button
	giveUp  func()
	Closed  bool
	Fields  []Field // named, for the script that drives the window
}

type Field struct {
	Name   string
	Object fyne.CanvasObject
}

func (d *Dialog) Named(name string, o fyne.CanvasObject) { d.Fields = append(d.Fields, Field{name, o}) }

// Answer is one of a dialog's buttons. Its Do runs after the dialog has closed;
// with stay it runs while it is open.
type Answer struct {
	Text string
	Main bool
	Stay bool
	Do   func()
}

// Ask opens a dialog. cancel runs when it is given up; it may be nil.
func (ds *Dialogs) Ask(title string, body fyne.CanvasObject, cancel func(), answers ...Answer) *Dialog {
	k := ds.kit
	d := &Dialog{owner: ds, Title: title, giveUp: cancel, tips: container.NewWithoutLayout()}
	objs := []fyne.CanvasObject{layout.NewSpacer()} // the answers are at the right
	for _, a := range answers {
		b := k.Button(a.Text, "", nil)
		b.framed, b.main = !a.Main, a.Main
		b.tap = func() {
			if a.Stay {
				a.Do()
				return
			}
			d.Close()
			if a.Do != nil {
				a.Do()
			}
		}
		if a.Main {
			d.Main = b
		}
		d.Buttons = append(d.Buttons, b)
		objs = append(objs, b)
	}
	back := canvas.NewRectangle(k.Dress.Panel)
	back.StrokeColor, back.StrokeWidth, back.CornerRadius = k.Dress.Line, 1, 5
	OnDress(k, back, func(b *canvas.Rectangle, w *Dress) { b.FillColor, b.StrokeColor = w.Panel, w.Line; b.Refresh() })
	d.Panel = container.NewStack(back, Inset(22, 18, 22, 18,
		container.NewBorder(
			Inset(0, 0, 0, 10, k.Label(title, Title)),
			Inset(8, 16, 0, 0, Along(8, objs...)),
			nil, nil, ds.inRoom(body))), d.tips)
	d.pop = widget.NewModalPopUp(d.Panel, ds.canvas)
	k.Tips.Hide()
	ds.Open = append(ds.Open, d)
	d.pop.Show()
	if ds.onChange != nil {
		ds.onChange()
	}
	return d
}

// What a dialog needs besides its body: title, answers and the space round.
const (
	chromeHeight = 128
	chromeWidth  = 58
)

// inRoom returns the body of a dialog, which scrolls if the window is too small for it.
func (ds *Dialogs) inRoom(body fyne.CanvasObject) fyne.CanvasObject {
	m, all := body.MinSize(), ds.canvas.Size()
	room := fyne.NewSize(max(60, all.Width-chromeWidth), max(60, all.Height-chromeHeight))
	if m.Height <= room.Height && m.Width <= room.Width {
		return body
	}
	const bar = 14
	s := container.NewVScroll(Inset(0, 0, bar, 0, body))
	if m.Width+bar > room.Width {
		s.Direction = container.ScrollBoth
	}
	s.SetMinSize(fyne.NewSize(min(m.Width+bar, room.Width), min(m.Height+bar, room.Height)))
	return s
}

// Say opens a dialog that only tells something.
func (ds *Dialogs) Say(title, text string) *Dialog {
	return ds.Ask(title, ds.kit.Passage(text, Plain, 420), nil, Answer{Text: "Close", Main: true})
}

func (d *Dialog) Close() {
	if d.Closed {
		return
	}
	d.Closed = true
	d.owner.kit.Tips.Hide()
	d.pop.Hide()
	d.owner.Open = slices.DeleteFunc(d.owner.Open, func(o *Dialog) bool { return o == d })
	if d.owner.onChange != nil {
		d.owner.onChange()
	}
}

func (ds *Dialogs) Top() *Dialog {
	if len(ds.Open) == 0 {
		return nil
	}
	return ds.Open[len(ds.Open)-1]
}

// Escape gives up the topmost dialog and reports whether there was one.
func (ds *Dialogs) Escape() bool {
	d := ds.Top()
	if d == nil {
		return false
	}
	d.Close()
	if d.giveUp != nil {
		d.giveUp()
	}
	return true
}

// Enter takes the main answer of the topmost dialog.
func (ds *Dialogs) Enter() bool {
	d := ds.Top()
	if d == nil || d.Main == nil {
		return false
	}
	d.Main.Tapped(nil)
	return true
}
