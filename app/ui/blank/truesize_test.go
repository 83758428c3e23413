package blank

import (
	"math/rand/v2"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern/project"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// A screen of 96 dots to the inch has 96/25.4 of them to the millimetre (the inch of 25.4 mm,
// 1959), whatever the toolkit's scale: at true size a millimetre takes so many, after any
// number of resizes and changes of scale.
func TestTrueSizeStaysTrue(t *testing.T) {
	a := test.NewApp()
	t.Cleanup(a.Quit)
	d, err := project.GalleryDesign(project.Gallery()[0])
	require.NoError(t, err)
	ed := app.NewEditor(app.NewDocument(d), nil)
	told := ""
	const dpi = 96.0
	b := New(kit.New("light"), ed, Doors{
		Key: func(*fyne.KeyEvent) {}, Position: func(string) {}, Over: func(string) {}, Point: func(int) {}, Moved: func() {},
		Zoomed: func(s string) { told = s }, TrueZoom: func() float64 { return dpi / 25.4 },
	})
	w := test.NewWindow(b)
	t.Cleanup(w.Close)
	w.SetPadded(false)
	canvas := w.Canvas().(test.WindowlessCanvas)
	b.SetScene(sceneOf(t, d))
	w.Resize(fyne.NewSize(1000, 400))
	b.TrueSize()
	long := func() float64 { return b.v.x(50) - b.v.x(-50) } // device pixels
	rng := rand.New(rand.NewPCG(1, 2))
	for _, scale := range []float32{1, 1.25, 1.5, 2, 1.1, 1} {
		canvas.SetScale(scale)
		for range 60 {
			w.Resize(fyne.NewSize(500+1000*rng.Float32(), 200+500*rng.Float32()))
			b.raster.Refresh()
			b.render(int(b.Size().Width*scale), int(b.Size().Height*scale))
			require.InDelta(t, 100*dpi/25.4, long(), 1e-6, "scale %g", scale)
			require.Equal(t, "true size, nominal", told)
		}
		b.see(b.v.pan(13, 7))
		require.InDelta(t, 100*dpi/25.4, long(), 1e-6, "a pan keeps it")
	}
	// Coming nearer ends it; then it follows the scale as all else does.
	b.ZoomStep(1.25)
	was := b.v.k
	canvas.SetScale(2)
	w.Resize(fyne.NewSize(900, 401))
	require.InEpsilon(t, 2*was, b.v.k, 1e-9)
	// What is in the middle stays there.
	b.TrueSize()
	x, y := b.v.frame.middle()
	mid := b.v.mm(x, y)
	w.Resize(fyne.NewSize(700, 300))
	x, y = b.v.frame.middle()
	require.Less(t, mid.Dist(b.v.mm(x, y)), 1e-9)
	require.NotEqual(t, plane.Point{}, mid)
}
