package ui

import (
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"testing"
	"time"

	"fretband/app"
	"fretband/app/ui/kit"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

var (
	soakEdits = flag.Int("soak-edits", 200, "number of random edits and undos in the window")
	soakSeed  = flag.Uint64("soak-seed", 1, "seed of the random edits; 0 takes the clock")
)

// The heap is watched five times in a run of at least so many edits, and not before the
// first fifth is over: till then what is kept once (pages, renderers, fonts) is still
// being made. FYNE_CACHE=2s has the toolkit forget early what it no longer draws.
const soakHeap = 1000

// A hand that does anything a hand can do, at random, with whatever controls are in
// sight: at the end all is taken back to the first bytes and done again to the last.
func TestRandomEditsAreTakenBackAndDoneAgainToTheSameBytes(t *testing.T) {
	seed := *soakSeed
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Logf("seed %d", seed)
	w, _ := openTest(t, "mooring-ring", fyne.NewSize(900, 640), "light")
	w.ed.Log = app.NewLog(io.Discard)
	onlyLaying(w)
	h := &randomHand{w: w, r: rand.New(rand.NewPCG(seed, 0))}
	defer func() {
		if p := recover(); p != nil {
			t.Fatalf("%v\nafter: %s\n%s", p, strings.Join(h.did, "\n"), debug.Stack())
		}
	}()
	first := designBytes(t, w)
	goroutines := runtime.NumGoroutine()
	var heaps []heap
	for n, now := 0, first; n < *soakEdits; {
		h.act()
		was := now
		if now = designBytes(t, w); now == was {
			continue
		}
		n++
		if n%100 == 0 {
			w.win.Canvas().Capture()
			backAndForth(t, w, w.undo, w.redo, h.r.IntN(20))
			requireShown(t, w, h)
		}
		if *soakEdits >= soakHeap && n%(*soakEdits/5) == 0 {
			heaps = append(heaps, heapNow(w, n))
			t.Log(heaps[len(heaps)-1])
		}
	}
	h.rest()
	last := designBytes(t, w)
	undo, redo := func() { w.ed.Doc.Undo() }, func() { w.ed.Doc.Redo() } // of all the laid ones only the ends
	steps := backAndForth(t, w, undo, redo, math.MaxInt)
	for range steps {
		undo()
	}
	w.changed()
	require.Equal(t, first, designBytes(t, w))
	for range steps {
		redo()
	}
	w.changed()
	require.Equal(t, last, designBytes(t, w))
	require.LessOrEqual(t, runtime.NumGoroutine(), goroutines, "a goroutine is left")
	if len(heaps) < 2 {
		return
	}
	// What history holds goes with it: the rest is what the window holds of one design.
	w.files.Use(app.NewDocument(w.ed.Now()))
	left := heapNow(w, 0)
	t.Logf("%d steps; without them %s", steps, left)
	require.Less(t, left.bytes, heaps[0].bytes+1<<20, "something is kept of what is gone")
	for i, b := range heaps[1:] {
		a := heaps[i]
		require.Less(t, (float64(b.bytes)-float64(a.bytes))/float64(b.edits-a.edits), 4096.0, "bytes an edit, from %d to %d", a.edits, b.edits)
	}
}

func designBytes(t *testing.T, w *Window) string {
	t.Helper()
	b, err := json.Marshal(w.ed.Now())
	require.NoError(t, err)
	return string(b)
}

// backAndForth undoes at most n steps, does as many again, requires the same bytes, and
// returns how many there were.
func backAndForth(t *testing.T, w *Window, undo, redo func(), n int) int {
	t.Helper()
	w.win.Canvas().Unfocus()
	bytes := designBytes(t, w)
	steps := 0
	for ; steps < n && w.ed.Doc.CanUndo(); steps++ {
		undo()
	}
	for range steps {
		redo()
	}
	require.Equal(t, bytes, designBytes(t, w), "after %d undos and redos", steps)
	return steps
}

// requireShown requires that the entries of the page that is open say what the design
// says.
func requireShown(t *testing.T, w *Window, h *randomHand) {
	t.Helper()
	d := w.ed.Now()
	for path, r := range w.controls.RowsOf {
		if w.controls.Shows(r) && r.Box.Visible() {
			require.Equal(t, r.Number.Text(d), r.Entry.Text, "%s after:\n%s", path, strings.Join(h.did, "\n"))
		}
	}
}

// heap is what is in use after so many edits.
type heap struct {
	edits, bytes, goroutines int
}

func (h heap) String() string {
	return fmt.Sprintf("%d edits: %.2f MB in use, %d goroutines", h.edits, float64(h.bytes)/1e6, h.goroutines)
}

// heapNow has the toolkit forget what it no longer draws, which it does at most every
// ten seconds, and collects what is not used.
func heapNow(w *Window, edits int) heap {
	for range 2 {
		time.Sleep(11 * time.Second)
		w.win.Canvas().Capture()
	}
	var m runtime.MemStats
	runtime.GC()
	runtime.GC()
	runtime.ReadMemStats(&m)
	return heap{edits, int(m.HeapAlloc), runtime.NumGoroutine()}
}

// randomHand works the window as a hand would, at random.
type randomHand struct {
	w   *Window
	r   *rand.Rand
	did []string // the last things
}

func (h *randomHand) note(format string, args ...any) {
	h.did = append(h.did, fmt.Sprintf(format, args...))
	h.did = h.did[max(0, len(h.did)-30):]
}

// tooMuch says when the hand had better take back what it did: a larger design only
// makes it slow.
func (h *randomHand) tooMuch() bool {
	if h.w.ed.Scene == nil {
		return false
	}
	byHand := 0
	for _, e := range h.w.ed.Scene.Sheet.Design.Edits {
		byHand += len(e.At)
	}
	return len(h.w.ed.Scene.Sheet.Openings) > 120 || byHand > 30
}

// act does one thing.
func (h *randomHand) act() {
	w := h.w
	if d := w.kit.Dialogs.Top(); d != nil {
		h.answer(d)
		return
	}
	if h.tooMuch() || h.r.IntN(6) == 0 {
		h.note("undo")
		w.undo()
		return
	}
	switch h.r.IntN(12) {
	case 0:
		h.note("redo")
		w.redo()
	case 1:
		page := h.r.IntN(len(w.controls.Pages))
		h.note("page %d", page)
		w.showTab(app.Page(page))
	case 2, 3:
		h.onBlank()
	case 4:
		key := one(h.r, blankKeys)
		h.note("key %s", key)
		w.win.Canvas().Focus(w.blank)
		w.blank.TypedKey(&fyne.KeyEvent{Name: key})
	case 5:
		h.use(one(h.r, inSight(w.findings.Root)))
	case 6:
		menu := one(h.r, []func(){w.compare.KeepVariant, w.compare.ShowVariants, w.help.AskName, w.pickAll, w.ed.PickRow, w.ed.PickField, w.ed.LeaveSolid, w.ed.OpenAgain, w.ed.UndoHand})
		h.note("menu")
		menu()
	default:
		h.use(one(h.r, inSight(w.controls.Pages[w.ed.Page].Scroll.Content)))
	}
}

var blankKeys = []fyne.KeyName{fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown, fyne.KeyDelete, fyne.KeyEscape,
	fyne.KeyL, fyne.KeyU, fyne.KeyC, fyne.KeyE, fyne.KeyQ, fyne.KeyF, fyne.KeyN, fyne.KeyS, fyne.KeyX, fyne.KeyV, fyne.KeyD}

// rest closes what is open, so that undo is the design's.
func (h *randomHand) rest() {
	for h.w.kit.Dialogs.Escape() {
	}
	h.w.win.Canvas().Unfocus()
}

// answer does one thing in a dialog, or gives it up.
func (h *randomHand) answer(d *kit.Dialog) {
	if h.r.IntN(5) == 0 {
		h.note("give up %q", d.Title)
		h.w.escape()
		return
	}
	h.use(one(h.r, inSight(d.Panel)))
}

// onBlank clicks or drags between two places on the blank.
func (h *randomHand) onBlank() {
	b := h.w.blank
	place := func() fyne.Position {
		return fyne.NewPos(h.r.Float32()*b.Size().Width, h.r.Float32()*b.Size().Height)
	}
	if hs := b.Overlay.Handles; len(hs) > 0 && h.r.IntN(2) == 0 {
		p := b.PositionOf(one(h.r, hs).At)
		place2 := place
		place = func() fyne.Position { place = place2; return p }
	}
	e := desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: place()}, Button: desktop.MouseButtonPrimary}
	if h.r.IntN(3) == 0 {
		e.Modifier = fyne.KeyModifierShift
	}
	b.MouseMoved(&e)
	b.MouseDown(&e)
	if h.r.IntN(2) == 0 {
		h.note("click %v", e.Position)
		b.MouseUp(&e)
		return
	}
	from, to := e.Position, place()
	h.note("drag %v to %v", from, to)
	for i := range 4 {
		f := float32(i+1) / 4
		b.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(from.X+f*(to.X-from.X), from.Y+f*(to.Y-from.Y))},
			Dragged: fyne.NewDelta((to.X-from.X)/4, (to.Y-from.Y)/4)})
	}
	e.Position = to
	b.MouseUp(&e)
	b.DragEnd()
}

// use does with a control what it is for.
func (h *randomHand) use(o fyne.CanvasObject) {
	w := h.w
	switch o := o.(type) {
	case *kit.Entry:
		text := h.text(o.Text)
		h.note("type %q over %q", text, o.Text)
		w.win.Canvas().Focus(o)
		switch h.r.IntN(4) {
		case 0:
			o.TypedKey(&fyne.KeyEvent{Name: one(h.r, []fyne.KeyName{fyne.KeyUp, fyne.KeyDown, fyne.KeyPageUp, fyne.KeyPageDown})})
		case 1: // typing, and then something else
			o.SetText(text)
		default:
			o.SetText(text)
			o.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		}
	case *kit.ChoiceBox:
		if len(o.Options) > 0 {
			to := one(h.r, o.Options)
			h.note("choose %q", to)
			o.SetSelected(to)
		}
	case *kit.Slider:
		from, to := h.r.Float32()*o.Size().Width, h.r.Float32()*o.Size().Width
		h.note("slide %v to %v", from, to)
		slideTo(o, min(from, to), max(from, to))
	case *kit.Button:
		h.note("press %q", o.Text)
		o.Tapped(&fyne.PointEvent{})
	case fyne.Tappable:
		h.note("tap %T", o)
		o.Tapped(&fyne.PointEvent{Position: fyne.NewPos(h.r.Float32()*10, h.r.Float32()*10)})
	}
}

// text is what a hand may type where was is: mostly another number of its kind.
func (h *randomHand) text(was string) string {
	if v, err := strconv.ParseFloat(was, 64); err == nil && h.r.IntN(8) > 0 {
		if v == math.Trunc(v) && math.Abs(v) < 50 {
			return strconv.Itoa(int(v) + h.r.IntN(7) - 3)
		}
		return strconv.FormatFloat(v*(0.6+0.8*h.r.Float64())+0.2*(h.r.Float64()-0.5), 'f', h.r.IntN(4), 64)
	}
	return one(h.r, []string{"0", "1", "2,5", "-3", "1/16 in", "18 ga", "999", "", "a name", "M0 0H4V3H0Z", "1e9", strings.Repeat("9", 30)})
}

func one[T any](r *rand.Rand, of []T) T {
	if len(of) == 0 {
		var none T
		return none
	}
	return of[r.IntN(len(of))]
}

// inSight lists the controls in o that a hand can use, in the order they are drawn.
func inSight(o fyne.CanvasObject) []fyne.CanvasObject {
	if o == nil || !o.Visible() {
		return nil
	}
	var found []fyne.CanvasObject
	switch o := o.(type) {
	case *fyne.Container:
		for _, c := range o.Objects {
			found = append(found, inSight(c)...)
		}
	case *container.Scroll:
		found = inSight(o.Content)
	case *kit.Entry, *kit.ChoiceBox, *kit.Slider, *kit.Button:
		found = append(found, o)
	case fyne.Widget:
		if _, ok := o.(fyne.Tappable); ok {
			found = append(found, o)
		}
		for _, c := range test.WidgetRenderer(o).Objects() {
			found = append(found, inSight(c)...)
		}
	}
	return found
}
