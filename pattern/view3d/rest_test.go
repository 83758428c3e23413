package view3d

import (
	"testing"

	"fretband/pattern/mesh"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

func TestTheEdgesOfTheBandWithoutItsLoadAreDrawnWhereTheyAre(t *testing.T) {
	m, err := mesh.Build(bangle(t), mesh.Options{Tolerance: mesh.Screen})
	require.NoError(t, err)
	rest := NewScene(m)
	aside := rest.Moved(func(plane.Point) (move, turn unroll.Point3) { return unroll.Point3{Z: 40}, turn })
	c := rest.Fit(standard(t, "Front"), w, h)
	c.Zoom /= 2
	l := Light()
	var v View
	with := v.Draw(nil, w, h, aside, c, l)
	bare := *aside
	bare.rest = nil
	without := v.Draw(nil, w, h, &bare, c, l)
	drawn := 0
	for i, p := range m.Vertices {
		q := m.Flat[i%len(m.Flat)]
		if q.Y < 11.999 { // of its upper edge, which the moved band leaves free
			continue
		}
		x, y := rest.Project(c, p, w, h)
		require.NotEqual(t, without.RGBAAt(int(x), int(y)), with.RGBAAt(int(x), int(y)))
		drawn++
	}
	require.Greater(t, drawn, 100)
	l.Section = &Plane{Normal: unroll.Point3{X: 1}, Offset: 1e3} // takes nothing away
	without = v.Draw(nil, w, h, &bare, c, l)
	require.Equal(t, without.Pix, v.Draw(nil, w, h, aside, c, l).Pix, "a cut band is drawn without them")
}
