package picture

import (
	"image"
	"math"

	"fretband/pattern"
	"fretband/pattern/mesh"
	"fretband/pattern/view3d"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// How far the bending is drawn at most: ours. Farther, the band would no longer look as one
// that is bent, since what moves is drawn along straight lines.
const (
	mostDrawn  = 0.15 // of the band's size
	mostTurned = 0.5  // radians
)

// drawnTimes is the roundest number of times that the bending can be drawn: 1, 2 or 5 times a
// power of ten, and never less than once.
func (m *StressMap) drawnTimes() float64 {
	b := m.Bending
	most := math.Min(mostDrawn*b.Size/(b.Most*m.Case.ForceN), mostTurned/(b.MostTurn*m.Case.ForceN))
	if !(most > 1) || math.IsInf(most, 1) {
		return 1
	}
	ten := math.Pow(10, math.Floor(math.Log10(most)))
	for _, k := range []float64{5, 2} {
		if k*ten <= most {
			return k * ten
		}
	}
	return ten
}

// Drawn says how far the bending is drawn.
func (m *StressMap) Drawn() string {
	if m.Times == 1 {
		return "Bending drawn as it is"
	}
	return pattern.Say("Bending drawn %.0f times", m.Times)
}

// Moving is how the band moves under the load that is shown, as far as it is drawn.
func (m *StressMap) Moving() mesh.Moving {
	k := m.Case.Sense() * m.Case.ForceN * m.Times
	scaled := func(p unroll.Point3) unroll.Point3 { return unroll.Point3{X: p.X * k, Y: p.Y * k, Z: p.Z * k} }
	return func(p plane.Point) (move, turn unroll.Point3) {
		move, turn = m.Bending.At(p)
		return scaled(move), scaled(turn)
	}
}

// OnBand is the print of the stress for a picture of the bent band; that of an older design
// is paled.
func (m *StressMap) OnBand(pale bool) *view3d.Print {
	return &view3d.Print{Img: m.Print, Min: m.PrintMin, PerMM: m.PrintPerMM, Pale: pale}
}

// loadedPitch is from how high one looks at a loaded band: bending shows most from above.
const loadedPitch = 0.75

// loaded draws the bent band in its loaded shape, w pixels wide and at most h high, with its
// stress and the edges that it has without the load.
func (m *StressMap) loaded(s *pattern.Sheet, w, h int) (*image.RGBA, error) {
	bent, err := mesh.Build(s, mesh.Options{Tolerance: pictureTolerance(s, w)})
	if err != nil {
		return nil, err
	}
	how := m.Moving()
	scene := view3d.NewScene(bent).Moved(how).Engrave(mesh.Engraved(s, how)).With(mesh.Added(s, how))
	camera := view3d.Views()[0].Camera
	camera.Pitch = loadedPitch
	return portrait(scene, camera, view3d.Look{
		Metal: toneOf(s.Design.Metal.Alloy).polish, Print: m.OnBand(false), Ink: pngInk,
	}, w, h), nil
}
