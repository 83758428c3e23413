package ui

import (
	"fmt"
	"image"
	"image/color"
	"strings"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern/project"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"
)

// rect is a part of the window.
type rect struct{ x0, y0, x1, y1 float32 }

func (r rect) in(s rect) rect {
	return rect{max(r.x0, s.x0), max(r.y0, s.y0), min(r.x1, s.x1), min(r.y1, s.y1)}
}

// written is a text in sight: where its letters are, and what of that is seen.
type written struct {
	text     string
	of, seen rect
	owner    fyne.CanvasObject // the widget that it belongs to
	ink      color.Color
}

// reader walks over what a window shows and notes texts, and what is wrong with them.
type reader struct {
	deep  bool // read what the toolkit's own widgets are made of, too
	texts []written
	wrong []string
}

func (r *reader) fault(f string, a ...any) { r.wrong = append(r.wrong, fmt.Sprintf(f, a...)) }

// walk reads an object at a position, of which only the part within clip is seen.
func (r *reader) walk(o, owner fyne.CanvasObject, at fyne.Position, clip rect) {
	if !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	own := rect{at.X, at.Y, at.X + o.Size().Width, at.Y + o.Size().Height}
	switch x := o.(type) {
	case *fyne.Container:
		for _, c := range x.Objects {
			r.walk(c, owner, at, clip)
		}
	case *container.Scroll:
		if x.Direction == container.ScrollBoth { // nothing runs out of it
			own.x0, own.x1 = clip.x0-9999, clip.x1+9999
			clip.x0, clip.x1 = own.x0, own.x1
		}
		r.walk(x.Content, x, at, clip.in(own))
	case *canvas.Text:
		m := fyne.MeasureText(x.Text, x.TextSize, x.TextStyle)
		switch x.Alignment {
		case fyne.TextAlignTrailing:
			own.x0 = own.x1 - m.Width
		case fyne.TextAlignCenter:
			mid := (own.x0 + own.x1) / 2
			own.x0, own.x1 = mid-m.Width/2, mid+m.Width/2
		default:
			own.x1 = own.x0 + m.Width
		}
		mid := (own.y0 + own.y1) / 2
		own.y0, own.y1 = mid-m.Height/2, mid+m.Height/2
		if strings.TrimSpace(x.Text) != "" {
			r.texts = append(r.texts, written{x.Text, own, own.in(clip), owner, x.Color})
		}
	case *kit.Entry:
		if r.deep {
			r.parts(x, at, clip.in(own))
			return
		}
		room := x.Size().Width - 2*theme.InnerPadding()
		for _, t := range []string{x.Text, x.PlaceHolder} {
			if !x.MultiLine && x.OnStep != nil && fyne.MeasureText(t, theme.TextSize(), x.TextStyle).Width > room+1 {
				r.fault("%q has no room in its entry", t)
			}
		}
	case *kit.ChoiceBox:
		if r.deep {
			r.parts(x, at, clip.in(own))
			return
		}
		if room := x.Size().Width - theme.IconInlineSize() - 3*theme.InnerPadding(); fyne.MeasureText(x.Selected, theme.TextSize(), fyne.TextStyle{}).Width > room+1 {
			r.fault("%q has no room in its list", x.Selected)
		}
	case fyne.Widget:
		switch w := o.(type) {
		case *kit.Label:
			r.whole(w.Text, o, at, clip)
		case *kit.Button:
			r.whole(w.Text, o, at, clip)
		}
		r.parts(x, at, clip)
	}
}

// parts reads what a widget is made of.
func (r *reader) parts(w fyne.Widget, at fyne.Position, clip rect) {
	for _, c := range test.WidgetRenderer(w).Objects() {
		r.walk(c, w, at, clip)
	}
}

// shortened are texts that may be cut: they are as long as a person makes them, and a tip
// shows them whole.
func shortened(text string) bool {
	return strings.Contains(text, "saved") || strings.Contains(text, "Changed") || strings.Contains(text, "/") ||
		strings.Contains(text, ", strip ") // a field's line, whose name is a person's
}

// whole notes a label or button that does not show all of its text.
func (r *reader) whole(text string, o fyne.CanvasObject, at fyne.Position, clip rect) {
	own := rect{at.X, at.Y, at.X + o.Size().Width, at.Y + o.Size().Height}.in(clip)
	if text == "" || own.y1-own.y0 < 4 || own.x1 <= own.x0 || shortened(text) {
		return
	}
	for _, c := range test.WidgetRenderer(o.(fyne.Widget)).Objects() {
		if t, ok := c.(*canvas.Text); ok && t.Text != text {
			r.fault("%q is cut to %q", text, t.Text)
		}
	}
}

// faults returns what is wrong with the texts of a window.
func faults(w *Window) []string {
	c := w.win.Canvas()
	all := rect{0, 0, c.Size().Width, c.Size().Height}
	var r reader
	if tops := c.Overlays().List(); len(tops) > 0 {
		r.walk(tops[len(tops)-1], nil, fyne.Position{}, all)
	} else {
		r.walk(c.Content(), nil, fyne.Position{}, all)
	}
	for i, a := range r.texts {
		if a.seen.y1-a.seen.y0 < 4 {
			continue // scrolled out of sight
		}
		if a.seen.x1 < a.of.x1-1 || a.seen.x0 > a.of.x0+1 {
			r.fault("%q runs out of its pane", a.text)
		}
		for _, b := range r.texts[i+1:] {
			if o := a.seen.in(b.seen); o.x1-o.x0 > 1 && o.y1-o.y0 > 4 {
				r.fault("%q lies over %q", a.text, b.text)
			}
		}
	}
	return r.wrong
}

// windowSizes are those of small and large screens, the smallest being the least that the
// window takes.
func windowSizes(w *Window) []fyne.Size {
	return []fyne.Size{w.frame.MinSize(nil), {Width: 960, Height: 500}, {Width: 1000, Height: 626}, {Width: 1100, Height: 670}, {Width: 1366, Height: 720}, {Width: 1400, Height: 870}, {Width: 1920, Height: 1050}}
}

// Every page, at every size and scale, shows its texts whole, inside their pane, and none
// over another.
func TestNothingIsCutOffOrOverlaps(t *testing.T) {
	for _, name := range project.Gallery() {
		w, _ := openTest(t, name, fyne.NewSize(1400, 900), "light")
		canvas := w.win.Canvas().(test.WindowlessCanvas)
		for _, scale := range []float32{1, 1.5, 2} {
			if scale != 1 && name != project.Gallery()[0] {
				continue // the layout is in the toolkit's pixels: the scale only rounds
			}
			canvas.SetScale(scale)
			for _, size := range windowSizes(w) {
				w.win.Resize(size)
				for _, large := range []bool{false, true} {
					if w.settings.Panes.BentLarge != large {
						w.toggleLarge()
					}
					for p := app.BandPage; p <= app.HandPage; p++ {
						w.showTab(p)
						w.frame.show(p%2 == 0)
						for _, f := range faults(w) {
							t.Errorf("%s, %v, scale %g, page %d: %s", name, size, scale, p, f)
						}
					}
				}
			}
		}
		if t.Failed() {
			break // one is enough to read
		}
	}
}

// dialogsOf returns what opens the dialogs, by their names, the hand-over to those receivers.
func dialogsOf(w *Window, receivers ...string) map[string]func() {
	dialogs := map[string]func(){
		"keys": w.help.Keys, "cautions": w.help.Cautions, "figures": w.help.Figures, "name": w.help.AskName, "screen": w.help.AskScreen,
		"about": w.help.About, "weight": w.compare.ForWeight, "begin": w.files.New, "variants": w.compare.KeepVariant,
		"save": w.files.SaveAs, "open": w.files.Open,
	}
	for _, key := range receivers {
		dialogs["hand over to "+key] = func() { w.settings.HandOver.For = key; w.handOver.Ask() }
	}
	return dialogs
}

// So does every dialog, and none is larger than the window.
func TestDialogsFitTheWindow(t *testing.T) {
	w, _ := usual(t)
	w.toggleStress()
	dialogs := dialogsOf(w, "bench", "laser", "client", "casting", app.Anyone)
	for _, size := range windowSizes(w) {
		w.win.Resize(size)
		for _, f := range faults(w) {
			t.Errorf("stress, %v: %s", size, f)
		}
		for name, open := range dialogs {
			open()
			d := w.kit.Dialogs.Top()
			require.NotNil(t, d, name)
			if s := d.Panel.MinSize(); s.Width > size.Width || s.Height > size.Height {
				t.Errorf("%s, %v: it needs %v", name, size, s)
			}
			for _, f := range faults(w) {
				t.Errorf("%s, %v: %s", name, size, f)
			}
			for w.kit.Dialogs.Escape() {
			}
		}
	}
}

// groundOf returns the colour that most of a part of a picture has.
func groundOf(img image.Image, r rect) color.NRGBA {
	count := map[color.NRGBA]int{}
	var best color.NRGBA
	for y := int(r.y0); y < int(r.y1); y++ {
		for x := int(r.x0); x < int(r.x1); x++ {
			c := color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)
			if count[c]++; count[c] > count[best] {
				best = c
			}
		}
	}
	return best
}

// faint returns the texts in sight whose contrast to what is behind them, as it is drawn, is
// under 4.5 to 1: Web Content Accessibility Guidelines 2.2, success criterion 1.4.3. What is
// off is not asked for so much, by the same criterion.
func faint(w *Window) []string {
	c := w.win.Canvas()
	all := rect{0, 0, c.Size().Width, c.Size().Height}
	r := reader{deep: true}
	if tops := c.Overlays().List(); len(tops) > 0 {
		r.walk(tops[len(tops)-1], nil, fyne.Position{}, all)
	} else {
		r.walk(c.Content(), nil, fyne.Position{}, all)
	}
	if len(r.texts) < 3 {
		return []string{"no texts are found"}
	}
	img := c.Capture()
	var wrong []string
	for _, t := range r.texts {
		if t.seen.y1-t.seen.y0 < 6 || t.seen.x1-t.seen.x0 < 2 {
			continue
		}
		if b, ok := t.owner.(*kit.Button); ok && b.Off {
			continue
		}
		ink := color.NRGBAModel.Convert(t.ink).(color.NRGBA)
		if is := kit.Contrast(ink, groundOf(img, t.seen)); is < 4.5 {
			wrong = append(wrong, fmt.Sprintf("%q has a contrast of %.1f", t.text, is))
		}
	}
	return wrong
}

// All text is legible in both dresses: on every page, in every dialog.
func TestAllTextHasContrast(t *testing.T) {
	for _, dress := range []string{"light", "dark"} {
		w, _ := openTest(t, project.Gallery()[0], fyne.NewSize(1400, 870), dress)
		for p := app.BandPage; p <= app.HandPage; p++ {
			w.showTab(p)
			for _, f := range faint(w) {
				t.Errorf("%s, page %d: %s", dress, p, f)
			}
		}
		w.ed.Choose(app.ChoiceOf("rules.process"), "saw")
		for _, open := range dialogsOf(w, "laser") {
			open()
			for _, f := range faint(w) {
				t.Errorf("%s, %s: %s", dress, w.kit.Dialogs.Top().Title, f)
			}
			for w.kit.Dialogs.Escape() {
			}
		}
	}
}
