package bent

import (
	"image"
	"math"
	"slices"
	"testing"
	"time"

	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/pattern/view3d"
	"fretband/unroll"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// paneOf shows a gallery design, changed by change, in a window of its own.
func paneOf(t testing.TB, change func(*pattern.Design)) (*Pane, *pattern.Sheet, fyne.Window) {
	t.Helper()
	a := test.NewApp()
	t.Cleanup(a.Quit)
	d, err := project.GalleryDesign(project.Gallery()[0])
	require.NoError(t, err)
	if change != nil {
		change(&d)
	}
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	p := New(kit.New("light"), Doors{Hover: func(int) {}, Pick: func(int) {}, Key: func(*fyne.KeyEvent) {}, Load: func() {}})
	w := test.NewWindow(p.Root)
	t.Cleanup(w.Close)
	w.Resize(fyne.NewSize(400, 415))
	p.View.SetSolid(Bend(ToBend{Sheet: s}))
	w.Canvas().Capture()
	return p, s, w
}

func TestTheBandIsCutOpenAndLookedAtFromAllSides(t *testing.T) {
	p, _, win := paneOf(t, nil)
	v := p.View
	press := func(names ...fyne.KeyName) {
		for _, n := range names {
			v.TypedKey(&fyne.KeyEvent{Name: n})
		}
	}
	// V goes round the sides and comes back to the first.
	first := v.Camera
	seen := map[string]bool{}
	for range view3d.Views() {
		press(fyne.KeyV)
		for _, s := range view3d.Views() {
			if s.Yaw == v.Camera.Yaw && s.Pitch == v.Camera.Pitch {
				seen[s.Name] = true
			}
		}
	}
	require.Len(t, seen, len(view3d.Views()))
	require.Equal(t, first, v.Camera)

	// X goes round the cuts; at each some metal is seen cut, and the keys move it.
	require.False(t, p.sectionLine.Visible())
	for i := range view3d.Sections() {
		press(fyne.KeyX)
		require.Equal(t, i+1, v.sectionNo)
		require.True(t, p.sectionLine.Visible())
		win.Canvas().Capture()
		require.True(t, cutIsSeen(v), "cut %d", i)
		was := v.sectionAt
		press(fyne.KeyPageUp)
		require.InDelta(t, was+sectionStep, v.sectionAt, 0.051)
		p.slide.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
		require.InDelta(t, was, v.sectionAt, 0.051)
	}
	press(fyne.KeyX)
	require.False(t, p.sectionLine.Visible())
	win.Canvas().Capture()
	require.False(t, cutIsSeen(v))

	press(fyne.KeyW)
	require.True(t, v.wrist)
	require.Equal(t, "Wrist", p.wrist.Text)

	// The arrows turn the band.
	yaw := v.Camera.Yaw
	press(fyne.KeyRight)
	require.NotEqual(t, yaw, v.Camera.Yaw)
	press(fyne.KeyPlus)
	require.False(t, v.fitted)
	press(fyne.KeyG)
	require.True(t, v.fitted)
	press(fyne.KeyHome)
	require.Equal(t, first, v.Camera)
}

func TestAKeyThatMeansNothingHereIsHandedOn(t *testing.T) {
	p, _, _ := paneOf(t, nil)
	var got []fyne.KeyName
	p.View.doors.Key = func(e *fyne.KeyEvent) { got = append(got, e.Name) }
	for _, n := range []fyne.KeyName{fyne.KeyV, fyne.KeyN, fyne.KeyLeft, fyne.KeyF9} {
		p.View.TypedKey(&fyne.KeyEvent{Name: n})
	}
	require.Equal(t, []fyne.KeyName{fyne.KeyN, fyne.KeyF9}, got)
}

// cutIsSeen reports whether the picture shows the inside of the metal.
func cutIsSeen(b *View) bool {
	for y := 0; y < b.h; y += 2 {
		for x := 0; x < b.w; x += 2 {
			if h, ok := b.draws.Pick(x, y); ok && h.Section {
				return true
			}
		}
	}
	return false
}

func TestARingShowsAFinger(t *testing.T) {
	p, _, _ := paneOf(t, func(d *pattern.Design) {
		d.Band = unroll.Band{Kind: unroll.Ring, Inside: unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 54, Ratio: 1},
			Thickness: unroll.Thickness{MM: 1.5}, WidthMM: 9, EndWidthMM: 9, Joint: unroll.Soldered, JointMM: 1, NeutralK: 0.5}
		d.Reserves = nil
	})
	require.Equal(t, "Finger", p.wrist.Text)
}

func TestTheBandIsTurnedAndTurnedBack(t *testing.T) {
	p, _, _ := paneOf(t, nil)
	v := p.View
	was := v.Camera
	v.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(50, 20)})
	require.NotEqual(t, was.Yaw, v.Camera.Yaw)
	v.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, 20), PointEvent: fyne.PointEvent{Position: fyne.NewPos(100, 100)}})
	require.Greater(t, v.Camera.Zoom, was.Zoom)
	v.DoubleTapped(nil)
	require.Equal(t, was, v.Camera)
}

func TestPlacesThatAreMarkedAreTurnedToAndRinged(t *testing.T) {
	p, s, _ := paneOf(t, nil)
	v := p.View
	thin := check.Run(s).Thinnest
	for _, yaw := range []float64{0, 1.5, 3, 4.5} {
		v.Reset()
		v.Camera.Yaw += yaw
		v.Ring(s.Flat, []plane.Point{thin.A, thin.B}, check.Caution)
		v.TurnToRings()
		img := v.render(500, 400)
		seen, ringed := false, false
		for _, at := range v.Ringed {
			if facing(v.Camera, at) < seenWell {
				continue
			}
			seen = true
			// The ring is drawn where the place is seen.
			x, y := v.b.scene.Project(v.Camera, at.at, 500, 400)
			c := v.kit.Dress.Severity(check.Caution)
			for dx := 6; dx <= 12; dx++ {
				r, g, b, _ := img.At(int(x)+dx, int(y)).RGBA()
				ringed = ringed || alike(r, c.R) && alike(g, c.G) && alike(b, c.B)
			}
		}
		require.True(t, seen, "the band is turned so that a place is in front")
		require.True(t, ringed)
	}
	v.Ring(s.Flat, nil, check.Note)
	require.Empty(t, v.Ringed)
}

func alike(a uint32, b uint8) bool {
	d := int(a>>8) - int(b)
	return d < 40 && d > -40
}

// BenchmarkBend is what the bent band costs: its solid with a new design, which
// is made in the background, and a picture of it when it is turned.
func BenchmarkBend(b *testing.B) {
	p, s, _ := paneOf(b, nil)
	b.Run("solid", func(b *testing.B) {
		for b.Loop() {
			if s := Bend(ToBend{Sheet: s}); s.Err != nil {
				b.Fatal(s.Err)
			}
		}
	})
	v := p.View
	b.Run("turned", func(b *testing.B) {
		for b.Loop() {
			v.Camera = v.Camera.Orbit(2, 0)
			v.stale = true
			v.render(400, 415)
		}
	})
}

// Where pictures are slow a highlight is drawn a little later, and always the last one: the
// picture never marks an opening that nobody points at.
func TestAHighlightIsPostponedNeverDropped(t *testing.T) {
	p, s, win := paneOf(t, nil)
	v := p.View
	var later []func()
	v.doors.Later = func(_ time.Duration, f func()) { later = append(later, f) }
	bare := *v.render(v.w, v.h).(*image.RGBA)
	bare.Pix = slices.Clone(bare.Pix)
	drawn := func() []uint8 { return v.render(v.w, v.h).(*image.RGBA).Pix }
	for _, o := range s.Openings[:6] {
		v.cost = time.Second // of the last picture
		v.Point(o.Number)
		v.Point(0)
		require.Len(t, later, 1, "one picture waits, not two")
		later[0]()
		later = nil
		require.Equal(t, bare.Pix, drawn())
		v.cost = time.Second
		v.Point(o.Number)
		later[0]()
		later = nil
		drawn()
		v.cost = time.Second
		v.Point(0)
		later[0]()
		later = nil
		require.Equal(t, bare.Pix, drawn(), "opening %d stays marked", o.Number)
	}
	win.Canvas().Capture()
}

// A band of another kind, and that of another document, fills the view, whatever one had come
// near to; one that grows is seen to grow.
func TestABandOfAnotherKindIsFitted(t *testing.T) {
	p, s, _ := paneOf(t, nil)
	v := p.View
	ring := s.Design
	ring.Reserves = nil
	ring.Band = unroll.Band{Kind: unroll.Ring, Inside: unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 54, Ratio: 1},
		Thickness: unroll.Thickness{MM: 1.5}, WidthMM: 9, EndWidthMM: 9, Joint: unroll.Soldered, JointMM: 1, NeutralK: 0.5}
	wider := s.Design
	wider.Band.WidthMM += 2
	solid := func(d pattern.Design) Solid {
		sheet, err := pattern.Lay(d)
		require.NoError(t, err)
		return Bend(ToBend{Sheet: sheet})
	}
	fits := func() view3d.Camera { return v.b.scene.Fit(v.Camera, v.w, v.h) }
	v.nearer(3)
	v.setSection(1)
	v.SetSolid(solid(ring))
	require.Equal(t, fits(), v.Camera)
	lo, hi := v.b.scene.Extent(view3d.Sections()[0].Normal)
	require.InDelta(t, (lo+hi)/2, v.sectionAt, 0.1, "the cut goes through the middle of what is there now")
	v.SetSolid(solid(s.Design))
	require.Equal(t, fits(), v.Camera)

	// Near by, a wider band is as near.
	v.nearer(3)
	was := v.Camera
	flat := s.Flat
	x0, _ := v.b.scene.Project(v.Camera, flat.Bend(plane.Pt(-5, 0), 0), v.w, v.h)
	x1, _ := v.b.scene.Project(v.Camera, flat.Bend(plane.Pt(5, 0), 0), v.w, v.h)
	v.SetSolid(solid(wider))
	y0, _ := v.b.scene.Project(v.Camera, flat.Bend(plane.Pt(-5, 0), 0), v.w, v.h)
	y1, _ := v.b.scene.Project(v.Camera, flat.Bend(plane.Pt(5, 0), 0), v.w, v.h)
	require.InEpsilon(t, math.Abs(x1-x0), math.Abs(y1-y0), 0.02)
	require.Equal(t, was.Yaw, v.Camera.Yaw)
	// Another document is fitted.
	v.Renew()
	v.SetSolid(solid(s.Design))
	require.Equal(t, fits(), v.Camera)
}

// Rings of what is cut away go with it; what is gone to is not left cut away.
func TestRingsGoWithTheMetalThatIsCutAway(t *testing.T) {
	p, s, _ := paneOf(t, nil)
	v := p.View
	v.setSection(2) // the front is cut away
	at := []plane.Point{plane.Pt(0, 0)}
	require.False(t, v.section().Keeps(s.Flat.Bend(at[0], s.Flat.Thickness)))
	bare := slices.Clone(v.render(500, 400).(*image.RGBA).Pix)
	v.Ring(s.Flat, at, check.Caution)
	require.Equal(t, bare, v.render(500, 400).(*image.RGBA).Pix)
	v.TurnToRings()
	require.Zero(t, v.sectionNo)
	require.NotEqual(t, bare, v.render(500, 400).(*image.RGBA).Pix)
}

// Solids that follow one another are drawn roughly, the last of them finely once the hand
// rests.
func TestTheLastSolidOfADragIsDrawnFinely(t *testing.T) {
	test.NewTempApp(t)
	var later []func()
	v := newView(kit.New("light"), Doors{Later: func(_ time.Duration, f func()) { later = append(later, f) }, Hover: func(int) {}})
	v.Resize(fyne.NewSize(300, 200))
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	solid := Bend(ToBend{Sheet: s})
	v.SetSolid(solid)
	fine := slices.Clone(v.render(300, 200).(*image.RGBA).Pix)
	for range 2 {
		v.came = time.Now() // as if the machine were quick
		v.SetSolid(solid)
	}
	require.NotEqual(t, fine, v.render(300, 200).(*image.RGBA).Pix)
	require.Len(t, later, 2)
	later[0]() // another has come since
	require.True(t, v.rough)
	later[1]()
	require.Equal(t, fine, v.render(300, 200).(*image.RGBA).Pix)
}
