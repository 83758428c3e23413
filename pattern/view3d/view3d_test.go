package view3d

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"math"
	"runtime"
	"sync"
	"testing"

	"fretband/pattern"
	"fretband/pattern/mesh"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const w, h = 420, 300

// bangle is a round band with two rows of holes, mirrored left to right.
func bangle(t testing.TB) *pattern.Sheet {
	t.Helper()
	s, err := layBangle()
	require.NoError(t, err)
	return s
}

var layBangle = sync.OnceValues(func() (*pattern.Sheet, error) {
	return pattern.Lay(pattern.Design{
		Name: "test", Metal: pattern.Metal{Alloy: "sterling-925"},
		Band: unroll.Band{Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 60},
			Thickness: unroll.Thickness{MM: 1.5}, WidthMM: 24, EndWidthMM: 24, Joint: unroll.Seamless, NeutralK: 0.5},
		Rules:  pattern.DesignRules{BridgeMM: 2, RimMM: 2, SmallestMM: 1},
		Fields: []pattern.Field{{Motif: "circles", Rows: 2, Repeats: 20}},
	})
})

func sceneOf(t testing.TB, s *pattern.Sheet) *Scene {
	t.Helper()
	m, err := mesh.Build(s, mesh.Options{Tolerance: mesh.Screen, Lids: true})
	require.NoError(t, err)
	return NewScene(m)
}

func standard(t testing.TB, name string) Camera {
	t.Helper()
	for _, v := range Views() {
		if v.Name == name {
			return v.Camera
		}
	}
	t.Fatalf("no view %s", name)
	return Camera{}
}

func TestTheGroundShowsAllRoundTheBand(t *testing.T) {
	s := sceneOf(t, bangle(t))
	for _, st := range Views() {
		var v View
		l := Light()
		img := v.Draw(nil, w, h, s, s.Fit(st.Camera, w, h), l)
		for x := range w {
			for _, y := range []int{0, h - 1} {
				assert.Equal(t, color.RGBA{l.Ground.R, l.Ground.G, l.Ground.B, 255}, img.RGBAAt(x, y), st.Name)
			}
		}
		// Fitted: the band reaches the margin on one of the two ways.
		box := image.Rectangle{}
		for y := range h {
			for x := range w {
				if v.id[2*y*v.w+2*x] != 0 {
					box = box.Union(image.Rect(x, y, x+1, y+1))
				}
			}
		}
		share := math.Max(float64(box.Dx())/w, float64(box.Dy())/h)
		assert.InDelta(t, margin, share, 0.03, st.Name)
		assert.InDelta(t, w/2, float64(box.Min.X+box.Max.X)/2, 3, st.Name)
		assert.InDelta(t, h/2, float64(box.Min.Y+box.Max.Y)/2, 3, st.Name)
	}
}

// The place under a pixel, bent again, appears at that pixel: through the flat
// and back by the exact map.
func TestWhatIsPickedIsWhatIsSeenThere(t *testing.T) {
	sheet := bangle(t)
	s := sceneOf(t, sheet)
	for _, st := range Views() {
		c := s.Fit(st.Camera, w, h)
		c = s.Near(c, 2.5, 0.4*w, 0.5*h, w, h)
		var v View
		v.Draw(nil, w, h, s, c, Light())
		n, kinds := 0, map[mesh.Kind]int{}
		for y := 1; y < h; y += 3 {
			for x := 1; x < w; x += 3 {
				hit, ok := v.Pick(x, y)
				if !ok {
					continue
				}
				n++
				kinds[hit.Kind]++
				px, py := s.Project(c, sheet.Flat.Bend(hit.Flat, hit.Depth), w, h)
				// The mesh is a screen's tolerance off the true band.
				off := 0.75 + mesh.Screen*s.perMM(c, w, h)
				require.InDelta(t, float64(x)+0.25, px, off, "%s at %d %d: %+v", st.Name, x, y, hit)
				require.InDelta(t, float64(y)+0.25, py, off, "%s at %d %d: %+v", st.Name, x, y, hit)
			}
		}
		assert.Greater(t, n, 4, st.Name)
	}
}

// Looking straight at an opening picks it, and the sheet agrees where it is.
func TestAnOpeningIsPickedThroughAndBySheet(t *testing.T) {
	sheet := bangle(t)
	s := sceneOf(t, sheet)
	c := s.Fit(standard(t, "Front"), w, h)
	var v View
	v.Draw(nil, w, h, s, c, Light())
	found := 0
	for _, o := range sheet.Openings {
		at := o.Loop.Centroid()
		if math.Abs(at.X) > 20 {
			continue // at the side or behind
		}
		x, y := s.Project(c, sheet.Flat.Bend(at, sheet.Flat.Thickness), w, h)
		hit, ok := v.Pick(int(x), int(y))
		require.True(t, ok)
		assert.Equal(t, o.Number, hit.Opening)
		assert.True(t, hit.Through)
		assert.Less(t, hit.Flat.Dist(at), 0.4)
		found++
	}
	assert.Greater(t, found, 6)
	hit, ok := v.Pick(w/2, h/2)
	require.True(t, ok)
	assert.Equal(t, mesh.Outer, hit.Kind)
	assert.Less(t, hit.Flat.Dist(plane.Pt(0, 0)), 0.5, "the front of the band is the middle of the flat")
	_, ok = v.Pick(0, 0)
	assert.False(t, ok)
	_, ok = v.Pick(-1, 5000)
	assert.False(t, ok)
	_, ok = new(View).Pick(3, 3)
	assert.False(t, ok)
}

// A band that is its own mirror image fills the same pixels on both sides.
func TestASymmetricBandMakesASymmetricShape(t *testing.T) {
	s := sceneOf(t, bangle(t))
	for _, name := range []string{"Front", "Back", "Above"} {
		var v View
		v.Draw(nil, w, h, s, s.Fit(standard(t, name), w, h), Light())
		differ, all := 0, 0
		for y := range 2 * h {
			for x := range w {
				a, b := v.id[y*2*w+x] != 0, v.id[y*2*w+2*w-1-x] != 0
				if a || b {
					all++
				}
				if a != b {
					differ++
				}
			}
		}
		assert.Less(t, float64(differ), 0.005*float64(all), name)
	}
}

func TestTheRulerIsTrueToScale(t *testing.T) {
	sheet := bangle(t)
	s := sceneOf(t, sheet)
	l := Light()
	l.Ruler = true
	var v View
	c := s.Fit(standard(t, "Above"), w, h)
	v.Draw(nil, w, h, s, c, l)
	r := v.Ruler()
	perMM := (r.X1 - r.X0) / r.MM
	// The outer diameter is 63 mm.
	a, _ := s.Project(c, unroll.Point3{X: -31.5}, w, h)
	b, _ := s.Project(c, unroll.Point3{X: 31.5}, w, h)
	assert.InDelta(t, 63*perMM, math.Abs(a-b), 0.1)
	assert.Contains(t, []float64{1, 2, 5, 10, 20, 50}, r.MM)
}

func TestTheSectionTakesAwayWhatIsBeyondAndShowsTheCut(t *testing.T) {
	sheet := bangle(t)
	s := sceneOf(t, sheet)
	c := s.Fit(standard(t, "Three-quarter"), w, h)
	l := Light()
	l.Section = &Plane{Normal: unroll.Point3{X: 1}, Offset: 0}
	var v View
	v.Draw(nil, w, h, s, c, l)
	cut := 0
	for y := range h {
		for x := range w {
			hit, ok := v.Pick(x, y)
			if !ok {
				continue
			}
			if hit.Section {
				cut++
				continue
			}
			p := sheet.Flat.Bend(hit.Flat, hit.Depth)
			require.Less(t, p.X, 0.6)
		}
	}
	assert.Greater(t, cut, 50)
}

// Marking changes the opening's pixels and no others far from it.
func TestAMarkedOpeningIsSeen(t *testing.T) {
	sheet := bangle(t)
	s := sceneOf(t, sheet)
	c := s.Fit(standard(t, "Front"), w, h)
	var o pattern.Opening
	for _, o = range sheet.Openings {
		if math.Abs(o.Loop.Centroid().X) < 6 {
			break
		}
	}
	var v View
	plain := v.Draw(nil, w, h, s, c, Light())
	l := Light()
	l.Hover = o.Number
	marked := new(View).Draw(nil, w, h, s, c, l)
	x, y := s.Project(c, sheet.Flat.Bend(o.Loop.Centroid(), sheet.Flat.Thickness), w, h)
	changed := 0
	for j := range h {
		for i := range w {
			if plain.RGBAAt(i, j) != marked.RGBAAt(i, j) {
				changed++
				require.Less(t, math.Hypot(float64(i)-x, float64(j)-y), 40.0)
			}
		}
	}
	assert.Greater(t, changed, 30)
}

// What is cut away takes its marks along: of an opening that is marked nothing is drawn
// where the section has taken its edge.
func TestAMarkGoesWithTheMetalThatIsCutAway(t *testing.T) {
	sheet := bangle(t)
	s := sceneOf(t, sheet)
	c := s.Fit(standard(t, "Three-quarter"), w, h)
	cut := &Plane{Normal: unroll.Point3{X: 1}, Offset: 0}
	whole, gone := 0, 0
	wall := 2 + sheet.Flat.Thickness*s.perMM(c, w, h) // walls are shaded, edges drawn two pixels wide
	for i := 0; i < len(sheet.Openings); i += 3 {
		o := sheet.Openings[i]
		var kept [][2]float64 // its edges on the picture, as far as they are left
		all := 0
		for _, p := range o.Loop.Flatten(2e-3) {
			for _, depth := range []float64{0, sheet.Flat.ThicknessAt(p)} {
				all++
				if at := sheet.Flat.Bend(p, depth); cut.Keeps(at) {
					x, y := s.Project(c, at, w, h)
					kept = append(kept, [2]float64{x, y})
				}
			}
		}
		l := Light()
		l.Section = cut
		bare := new(View).Draw(nil, w, h, s, c, l)
		l.Hover = o.Number
		marked := new(View).Draw(nil, w, h, s, c, l)
		for j := range h {
			for i := range w {
				if bare.RGBAAt(i, j) == marked.RGBAAt(i, j) {
					continue
				}
				near := math.Inf(1)
				for _, k := range kept {
					near = math.Min(near, math.Hypot(float64(i)-k[0], float64(j)-k[1]))
				}
				require.Less(t, near, wall, "opening %d is marked in the air at %d, %d", o.Number, i, j)
			}
		}
		switch len(kept) {
		case 0:
			gone++
		case all:
			whole++
		}
	}
	require.Positive(t, gone)
	require.Positive(t, whole)
}

func TestAnotherBandIsDrawnAsLarge(t *testing.T) {
	small, sheet := sceneOf(t, bangle(t)), bangle(t)
	d := sheet.Design
	d.Band.WidthMM, d.Band.EndWidthMM = 1.5*d.Band.WidthMM, 1.5*d.Band.WidthMM
	wide, err := pattern.Lay(d)
	require.NoError(t, err)
	large := sceneOf(t, wide)
	c := small.Fit(standard(t, "Front"), w, h)
	require.InEpsilon(t, small.perMM(c, w, h), large.perMM(large.AsLarge(c, small), w, h), 1e-6)
}

func TestTheWristShowsInsideAndNotOverTheFront(t *testing.T) {
	s := sceneOf(t, bangle(t))
	c := s.Fit(standard(t, "Front"), w, h)
	l := Light()
	plain := new(View).Draw(nil, w, h, s, c, l)
	l.Wrist = true
	var v View
	with := v.Draw(nil, w, h, s, c, l)
	assert.Equal(t, plain.RGBAAt(w/2, h/2), with.RGBAAt(w/2, h/2), "the front hides it")
	differ := 0
	for i := range plain.Pix {
		if plain.Pix[i] != with.Pix[i] {
			differ++
		}
	}
	assert.Greater(t, differ, 1000)
	// It keeps clear of the metal: no place of the inner face is within it.
	for _, p := range s.at {
		assert.Greater(t, math.Hypot(float64(p.x/s.wrist[0]), float64(p.y/s.wrist[1])), 1.0)
	}
}

func TestThePictureDoesNotDependOnTheCores(t *testing.T) {
	s := sceneOf(t, bangle(t))
	c := s.Fit(standard(t, "Three-quarter"), w, h)
	l := Dark()
	l.Wrist, l.Ruler, l.Hover = true, true, 5
	a := new(View).Draw(nil, w, h, s, c, l)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	assert.True(t, bytes.Equal(a.Pix, new(View).Draw(nil, w, h, s, c, l).Pix))
}

func TestThePictureIsReusedAndKeepsItsShape(t *testing.T) {
	s := sceneOf(t, bangle(t))
	var v View
	c := s.Fit(standard(t, "Front"), w, h)
	a := v.Draw(nil, w, h, s, c, Light())
	assert.Equal(t, 4*w, a.Stride)
	assert.Same(t, a, v.Draw(a, w, h, s, c, Light()))
	b := v.Draw(a, w/2, h, s, c, Light())
	assert.Equal(t, image.Rect(0, 0, w/2, h), b.Rect)
	for _, size := range [][2]int{{0, 0}, {1, 1}, {3, 500}, {500, 3}, {-4, 10}} {
		assert.NotPanics(t, func() { v.Draw(nil, size[0], size[1], s, s.Fit(c, size[0], size[1]), Light()) }, size)
	}
	bare := v.Draw(nil, 8, 8, nil, c, Light())
	assert.Equal(t, Light().Ground.R, bare.Pix[0])
}

func TestTheCameraMovesAsTheHandDoes(t *testing.T) {
	s := sceneOf(t, bangle(t))
	c := s.Fit(standard(t, "Front"), w, h)
	p := unroll.Point3{X: -10, Y: 28, Z: 4}
	x0, y0 := s.Project(c, p, w, h)
	x1, y1 := s.Project(s.Shift(c, 12, -7, w, h), p, w, h)
	assert.InDelta(t, 12, x1-x0, 1e-3)
	assert.InDelta(t, -7, y1-y0, 1e-3)
	x1, y1 = s.Project(s.Near(c, 1.7, x0, y0, w, h), p, w, h)
	assert.InDelta(t, 0, math.Hypot(x1-x0, y1-y0), 1e-3, "what is under the pointer stays")
	front := unroll.Point3{Y: 31.5}
	x0, y0 = s.Project(c, front, w, h)
	x1, _ = s.Project(c.Orbit(20, 0), front, w, h)
	assert.Greater(t, x1, x0, "a drag to the right turns the front to the right")
	_, y1 = s.Project(c.Orbit(0, 20), front, w, h)
	assert.Greater(t, y1, y0, "a drag down leans the front down")
	assert.Equal(t, math.Pi/2, c.Orbit(0, 1e6).Pitch)
	assert.Equal(t, float64(maxZoom), s.Near(c, 1e9, 0, 0, w, h).Zoom)
}

// Each step by hand: sRGB's own table (IEC 61966-2-1) is linear at 0.04045, and
// 188 is half the light.
func TestColoursAreEncodedAsSRGB(t *testing.T) {
	assert.InDelta(t, 0.5, linear(188), 0.003)
	for i := range 256 {
		assert.Equal(t, uint8(i), encoded(linear(uint8(i))))
	}
}

// BenchmarkDraw is a frame while the band is turned: 2,000 openings.
func BenchmarkDraw(b *testing.B) {
	s, err := pattern.Lay(pattern.Design{
		Name: "bench", Metal: pattern.Metal{Alloy: "sterling-925"},
		Band: unroll.Band{Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 62, HeightMM: 50}, GapMM: 28,
			Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 60, EndWidthMM: 50, EndCornerMM: 6, NeutralK: 0.5},
		Rules:  pattern.DesignRules{BridgeMM: 0.2, RimMM: 2, CornerMM: 0.05, SmallestMM: 0.1},
		Fields: []pattern.Field{{Motif: "triangles", Rows: 10, Repeats: 100, Stagger: 0.5}},
	})
	require.NoError(b, err)
	sc := sceneOf(b, s)
	for _, size := range [][2]int{{700, 500}, {1400, 900}} {
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			c := sc.Fit(standard(b, "Three-quarter"), size[0], size[1])
			var v View
			img := v.Draw(nil, size[0], size[1], sc, c, Light())
			b.ReportMetric(float64(len(sc.tri)), "triangles")
			for b.Loop() {
				c = c.Orbit(3, 0)
				img = v.Draw(img, size[0], size[1], sc, c, Light())
			}
			b.ReportMetric(float64(len(sc.tri)), "triangles")
		})
	}
	b.Run("rough 700x500", func(b *testing.B) {
		c, l := sc.Fit(standard(b, "Three-quarter"), 700, 500), Light()
		l.Rough = true
		var v View
		img := v.Draw(nil, 700, 500, sc, c, l)
		for b.Loop() {
			c = c.Orbit(3, 0)
			img = v.Draw(img, 700, 500, sc, c, l)
		}
	})
	b.Run("printed", func(b *testing.B) {
		l := Light()
		l.Print = stripes()
		c := sc.Fit(standard(b, "Three-quarter"), 700, 500)
		var v View
		var img *image.RGBA
		for b.Loop() {
			c = c.Orbit(3, 0)
			img = v.Draw(img, 700, 500, sc, c, l)
		}
	})
	b.Run("pick", func(b *testing.B) {
		var v View
		v.Draw(nil, 700, 500, sc, sc.Fit(standard(b, "Three-quarter"), 700, 500), Light())
		for b.Loop() {
			v.Pick(350, 300)
		}
	})
	b.Run("new scene", func(b *testing.B) {
		for b.Loop() {
			NewScene(sc.mesh)
		}
	})
}

// An added part is seen in its own colour and picked where it stands, and the band round it as
// before.
func TestAnAddedPartIsSeenAndPickedWhereItStands(t *testing.T) {
	s := bangle(t)
	d := s.Design
	d.Added = []pattern.Added{{Kind: pattern.StonePart, Cut: "round-cabochon", Gem: "opal", WidthMM: 8, DepthMM: 4, MarginMM: 1}}
	with, err := pattern.Lay(d)
	require.NoError(t, err)
	scene := sceneOf(t, with).With(mesh.Added(with, nil))
	var v View
	camera := standard(t, "Front")
	img := v.Draw(nil, w, h, scene, camera, Light())
	at := with.Flat.Bend(plane.Pt(0, 0), with.Flat.Thickness+4)
	x, y := scene.Project(camera, at, w, h)
	hit, ok := v.Pick(int(x), int(y))
	require.True(t, ok)
	require.Equal(t, mesh.Stone, hit.Kind)
	require.InDelta(t, 0, hit.Flat.Len(), 1e-9)
	c := img.RGBAAt(int(x), int(y))
	require.Greater(t, c.B, c.R, "blue, as no metal is")

	plain := v.Draw(nil, w, h, sceneOf(t, with), camera, Light()).RGBAAt(int(x), int(y))
	require.GreaterOrEqual(t, plain.R, plain.B)
}
