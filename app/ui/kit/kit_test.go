package kit

import (
	"fmt"
	"image/color"
	"runtime"
	"strings"
	"testing"
	"time"

	"fretband/app"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// window shows an object in a window of the test driver, with dialogs and tips.
func window(t *testing.T, make func(*Kit) fyne.CanvasObject) *Kit {
	t.Helper()
	a := test.NewApp()
	t.Cleanup(a.Quit)
	k := New("light")
	k.Tips.Later = func(_ time.Duration, f func()) *time.Timer { f(); return nil }
	w := test.NewWindow(nil)
	t.Cleanup(w.Close)
	NewDialogs(k, w.Canvas(), nil)
	k.Escape = func() { k.Dialogs.Escape() }
	w.SetContent(make(k))
	w.Resize(fyne.NewSize(400, 300))
	k.Tips.Layer.Resize(fyne.NewSize(400, 300))
	return k
}

func press(o fyne.Focusable, names ...fyne.KeyName) {
	for _, n := range names {
		o.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

func TestPassagesBreakAtSpacesWithinTheirWidth(t *testing.T) {
	window(t, func(*Kit) fyne.CanvasObject { return canvas.NewText("", nil) })
	for _, text := range []string{"", "one", "a few short words that need several lines at this width", "first\nsecond\n\nfourth", "averylongwordthatnolinecanhold and more"} {
		for _, width := range []float32{30, 80, 200} {
			lines := wrapText(text, width, 13, fyne.TextStyle{})
			require.Equal(t, strings.Fields(text), strings.Fields(strings.Join(lines, " ")), "every word, in order")
			require.GreaterOrEqual(t, len(lines), 1+strings.Count(text, "\n"))
			for _, l := range lines {
				if strings.Contains(l, " ") {
					require.LessOrEqual(t, fyne.MeasureText(l, 13, fyne.TextStyle{}).Width, width, l)
				}
			}
		}
	}
}

func TestAPassageKnowsItsHeightBeforeItIsLaidOut(t *testing.T) {
	window(t, func(k *Kit) fyne.CanvasObject {
		one, three := k.Passage("one", Plain, 100), k.Passage("one\ntwo\nthree", Plain, 100)
		require.Positive(t, one.Height())
		require.InDelta(t, 3*one.Height(), three.Height(), 0.01)
		require.Zero(t, k.Passage("", Plain, 100).Height())
		return three
	})
}

func TestASliderIsMovedByHandAndByKeys(t *testing.T) {
	var s *Slider
	window(t, func(k *Kit) fyne.CanvasObject { s = k.Slider(10, 20); return s })
	s.Resize(fyne.NewSize(112, 20)) // 100 from one end of the knob's way to the other
	var moved []float64
	steps, ends := 0.0, 0
	s.OnMove = func(v float64) { moved = append(moved, v) }
	s.OnStep = func(n float64) { steps += n }
	s.OnEnd = func() { ends++ }
	at := func(x float32) *desktop.MouseEvent {
		return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, 10)}, Button: desktop.MouseButtonPrimary}
	}
	s.Set(15)
	s.MouseDown(at(57)) // on the knob, a little beside its middle
	require.Empty(t, moved, "a press on the knob moves nothing")
	s.MouseUp(nil)
	s.MouseDown(at(81))
	s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(106, 10)}})
	s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(900, 10)}})
	s.DragEnd()
	require.InDeltaSlice(t, []float64{17.5, 20, 20}, moved, 1e-6)
	require.Equal(t, 2, ends, "each press ends once")
	press(s, fyne.KeyLeft, fyne.KeyUp, fyne.KeyUp, fyne.KeyPageDown)
	require.Equal(t, -9.0, steps)
	press(s, fyne.KeyHome)
	require.Equal(t, 10.0, moved[3])
	press(s, fyne.KeyEnd)
	require.Equal(t, 20.0, moved[4])
	require.Equal(t, 4, ends)
	s.Set(99)
	require.EqualValues(t, 1, s.fraction(), "the knob stays at the end")
}

func TestAnEntryCommitsOnceAndGivesUpOnEscape(t *testing.T) {
	var e *Entry
	window(t, func(k *Kit) fyne.CanvasObject { e = k.Entry(); return e })
	var committed []string
	steps, gaveUp := 0.0, 0
	e.OnCommit = func(s string) { committed = append(committed, s); e.Settle(s) }
	e.OnStep = func(n float64) { steps += n }
	e.OnGiveUp = func() { gaveUp++ }
	e.Settle("1.5")
	e.FocusGained()
	e.SetText("2")
	require.True(t, e.Typing())
	e.Present("1.7")
	require.Equal(t, "2", e.Text, "a new value does not disturb what is being typed")
	press(e, fyne.KeyEscape)
	require.Equal(t, "1.7", e.Text)
	require.Equal(t, 1, gaveUp)
	e.SetText("3")
	press(e, fyne.KeyUp, fyne.KeyPageDown)
	require.Equal(t, []string{"3"}, committed, "what was typed counts before the step")
	require.Equal(t, -9.0, steps)
	e.SetText("4")
	e.FocusLost()
	e.FocusLost()
	require.Equal(t, []string{"3", "4"}, committed)
	e.Present("5")
	require.Equal(t, "5", e.Text)
}

// However an entry comes to the focus, what is typed replaces the value that it had.
func TestTypingReplacesTheValue(t *testing.T) {
	for name, focus := range map[string]func(c fyne.Canvas, first, second *Entry){
		"Tab":                func(c fyne.Canvas, _, e *Entry) { test.FocusNext(c); test.FocusNext(c) },
		"Shift and Tab":      func(c fyne.Canvas, _, e *Entry) { test.FocusPrevious(c) },
		"asked for":          func(c fyne.Canvas, _, e *Entry) { c.Focus(e) },
		"double click":       func(c fyne.Canvas, _, e *Entry) { click(e, 30); click(e, 30); e.DoubleTapped(&fyne.PointEvent{}) },
		"a step":             func(c fyne.Canvas, _, e *Entry) { click(e, 30); press(e, fyne.KeyUp) },
		"a commit":           func(c fyne.Canvas, _, e *Entry) { click(e, 30); e.TypedRune('1'); press(e, fyne.KeyReturn) },
		"giving up":          func(c fyne.Canvas, _, e *Entry) { click(e, 30); e.TypedRune('1'); press(e, fyne.KeyEscape) },
		"a change elsewhere": func(c fyne.Canvas, _, e *Entry) { click(e, 30); e.Present("32.95") },
	} {
		var first, e *Entry
		k := window(t, func(k *Kit) fyne.CanvasObject { first, e = k.Entry(), k.Entry(); return Down(2, first, e) })
		var got []string
		e.OnCommit = func(s string) { got = append(got, s); e.Settle(s) }
		e.OnStep = func(float64) { e.Present("33") }
		e.Settle("")
		focus(k.Dialogs.canvas, first, e)
		test.Type(e, "0.5")
		press(e, fyne.KeyReturn)
		require.Equal(t, "0.5", got[len(got)-1], "%s, of an entry that was empty", name)
		k.Dialogs.canvas.Unfocus()
		got = nil
		first.Settle("7")
		e.Settle("32.9")
		focus(k.Dialogs.canvas, first, e)
		test.Type(e, "26")
		require.Equal(t, "26", e.Text, name)
		press(e, fyne.KeyReturn)
		require.Equal(t, "26", got[len(got)-1], name)
		test.Type(e, "27")
		require.Equal(t, "27", e.Text, "%s: after Enter, too", name)
		// What is typed is taken back as typing, down to the value.
		for range 4 {
			e.UndoTyping()
		}
		require.Equal(t, "26", e.Text, name)
	}
}

// A single click puts the caret where it is, so that a digit can be changed; a drag selects.
func TestAClickPutsTheCaretWhereItIs(t *testing.T) {
	var e *Entry
	window(t, func(k *Kit) fyne.CanvasObject { e = k.Entry(); return e })
	e.Settle("32.9")
	for range 2 { // whether it has the focus or not
		click(e, 1)
		require.Empty(t, e.SelectedText())
		require.Zero(t, e.CursorColumn)
	}
	test.Type(e, "1")
	require.Equal(t, "132.9", e.Text)
}

// A text longer than its entry keeps the caret in sight while it is typed, and shows its
// beginning afterwards.
func TestTheCaretStaysInSight(t *testing.T) {
	var e *Entry
	k := window(t, func(k *Kit) fyne.CanvasObject { e = k.Entry(); return Sized(70, 27, e) })
	e.Resize(fyne.NewSize(70, 27))
	k.Dialogs.canvas.Focus(e)
	e.OnStep = func(float64) {}
	test.Type(e, "1.3")
	require.Equal(t, container.ScrollNone, e.Scroll, "the wheel steps the number")
	test.Type(e, " + 0.2 + 1/16 in")
	require.Equal(t, container.ScrollHorizontalOnly, e.Scroll)
	k.Dialogs.canvas.Unfocus()
	require.Equal(t, container.ScrollNone, e.Scroll)
}

func TestALongTextIsNotSelectedAtOnce(t *testing.T) {
	var e *Entry
	k := window(t, func(k *Kit) fyne.CanvasObject { e = k.LongEntry("M 0 0"); return e })
	e.SetText("M 0 0 L 3 0\nL 3 2 Z")
	k.Dialogs.canvas.Focus(e)
	require.Empty(t, e.SelectedText())
}

// click presses and releases the first button over an entry, at x.
func click(e *Entry, x float32) {
	at := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, 10)}, Button: desktop.MouseButtonPrimary}
	e.MouseDown(at)
	e.MouseUp(at)
	e.Tapped(&at.PointEvent)
}

func TestTheTopmostDialogHasTheKeys(t *testing.T) {
	var log []string
	say := func(s string) func() { return func() { log = append(log, s) } }
	k := window(t, func(k *Kit) fyne.CanvasObject { return k.Label("", Plain) })
	ds := k.Dialogs
	require.False(t, ds.Escape())
	require.False(t, ds.Enter())
	ask := func(n int) {
		ds.Ask(fmt.Sprint(n), k.Label("", Plain), say(fmt.Sprint("give up ", n)),
			Answer{Text: "No"}, Answer{Text: "Yes", Main: true, Do: say(fmt.Sprint("yes ", n))})
	}
	ask(1)
	ask(2)
	require.True(t, ds.Escape())
	require.Equal(t, "1", ds.Top().Title)
	ask(3)
	require.True(t, ds.Enter())
	require.True(t, ds.Enter())
	require.Nil(t, ds.Top())
	require.Equal(t, []string{"give up 2", "yes 3", "yes 1"}, log)
}

func TestAButtonThatIsOffDoesNothing(t *testing.T) {
	n := 0
	var b *Button
	k := window(t, func(k *Kit) fyne.CanvasObject { b = k.Button("Do", "What it does", func() { n++ }); return b })
	press(b, fyne.KeySpace, fyne.KeyReturn)
	b.SetOff(true)
	press(b, fyne.KeySpace)
	b.Tapped(nil)
	require.Equal(t, 2, n)
	b.MouseIn(nil)
	require.NotEmpty(t, k.Tips.Layer.Objects, "its tip is there all the same")
	b.MouseOut()
	require.Empty(t, k.Tips.Layer.Objects)
}

// A tip stays inside the window, wherever the object is that it belongs to.
func TestTipsStayInTheWindow(t *testing.T) {
	b := canvas.NewRectangle(nil)
	k := window(t, func(k *Kit) fyne.CanvasObject { return k.Label("", Plain) })
	b.Resize(fyne.NewSize(40, 20))
	for _, text := range []string{"short", strings.Repeat("a tip of many words ", 12)} {
		for _, at := range []fyne.Position{{}, {X: 360, Y: 280}, {X: 200, Y: 280}, {X: 380, Y: 0}} {
			b.Move(at)
			k.Tips.layOut(at, b.Size(), text)
			box := k.Tips.Box
			require.GreaterOrEqual(t, box.Position().X, float32(0))
			require.GreaterOrEqual(t, box.Position().Y, float32(0))
			require.LessOrEqual(t, box.Position().X+box.Size().Width, float32(400))
			require.LessOrEqual(t, box.Position().Y+box.Size().Height, float32(300))
			require.False(t, box.Position().Y < at.Y+20 && at.Y < box.Position().Y+box.Size().Height, "it does not hide what it is about")
		}
	}
}

func TestAChoiceCallsBackOnlyWhenAHandChooses(t *testing.T) {
	var c *ChoiceBox
	window(t, func(k *Kit) fyne.CanvasObject { c = k.ChoiceBox(); return c })
	var chosen []string
	c.OnChoose = func(key string) { chosen = append(chosen, key) }
	options := []app.Option{{Key: "a", Title: "First"}, {Key: "b", Title: "Second"}}
	c.Offer(options, "b")
	require.Equal(t, "Second", c.Selected)
	c.Offer(options, "none of them")
	require.Empty(t, c.Selected)
	require.Empty(t, chosen)
	c.SetSelected("First")
	require.Equal(t, []string{"a"}, chosen)
}

func TestColumnsShareTheRoomThatIsLeft(t *testing.T) {
	var objs []fyne.CanvasObject
	for range 4 {
		objs = append(objs, canvas.NewRectangle(nil))
	}
	c := Columns{Widths: []float32{50, 0, 20, 0}, Gap: 5}
	c.Layout(objs, fyne.NewSize(285, 30))
	var got []float32
	for _, o := range objs {
		got = append(got, o.Position().X, o.Size().Width)
	}
	require.Equal(t, []float32{0, 50, 55, 100, 160, 20, 185, 100}, got)
	Spread{}.Layout(objs, fyne.NewSize(200, 30))
	for i, o := range objs {
		require.EqualValues(t, 50*i, o.Position().X)
	}
}

func TestAFoldOpensByKeysAndSaysSo(t *testing.T) {
	var f *Fold
	n := 0
	window(t, func(k *Kit) fyne.CanvasObject { f = NewFold(k, "Fold", "", func() { n++ }); return f.Box })
	require.False(t, f.Body.Visible())
	press(f.Head, fyne.KeyRight)
	require.True(t, f.Body.Visible())
	press(f.Head, fyne.KeyRight)
	require.True(t, f.Body.Visible(), "it is open already")
	press(f.Head, fyne.KeyLeft)
	require.False(t, f.Body.Visible())
	require.Equal(t, 2, n)
}

// What is gone is not kept alive by the dress, and what is there follows it.
func TestTheDressReachesWhatIsThereAndKeepsNothing(t *testing.T) {
	k := window(t, func(k *Kit) fyne.CanvasObject { return k.Label("", Plain) })
	r := k.Filled(PanelOf)
	before := len(k.dressed)
	for range 200 {
		k.Filled(PanelOf)
	}
	runtime.GC()
	k.Wear("dark")
	require.Equal(t, darkDress.Panel, r.FillColor)
	require.Less(t, len(k.dressed), before+200)
	runtime.KeepAlive(r)
}

// Small text needs a contrast of 4.5 to 1 to its ground: Web Content Accessibility
// Guidelines 2.2, success criterion 1.4.3, with the relative luminance defined there.
func TestTextIsLegibleInBothDresses(t *testing.T) {
	for _, name := range []string{"light", "dark"} {
		d := DressNamed(name)
		hovered, pressed := Over(nil, Alpha(d.Ink, 20), d.Panel), Over(nil, Alpha(d.Ink, 40), d.Panel)
		for what, pair := range map[string][2]color.NRGBA{
			"text": {d.Ink, d.Panel}, "text in entries": {d.Ink, d.raised}, "text on the ground": {d.Ink, d.ground}, "text on paper": {d.Ink, d.Paper},
			"captions": {d.Soft, d.Panel}, "captions on the ground": {d.Soft, d.ground}, "captions on paper": {d.Soft, d.Paper},
			"what holds where an entry is empty": {d.Soft, d.raised}, "captions under the pointer": {d.Soft, hovered}, "text that is pressed": {d.Ink, pressed},
			"chosen": {d.Selected, d.Panel}, "chosen, in a list": {d.Selected, d.raised}, "chosen under the pointer": {d.Selected, hovered}, "main answers": {d.onSelected, d.Selected},
			"tips":  {d.Panel, d.Ink},
			"notes": {d.Note, d.Panel}, "cautions": {d.Caution, d.Panel}, "breaches": {d.Breach, d.Panel}, "breaches on the ground": {d.Breach, d.ground},
		} {
			assert.GreaterOrEqual(t, Contrast(pair[0], pair[1]), 4.5, "%s, %s", name, what)
		}
	}
}
