package blank

import (
	"math"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/unroll"

	"github.com/stretchr/testify/require"
)

func sceneOf(t testing.TB, d pattern.Design) *app.Scene {
	t.Helper()
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	return app.NewScene(1, s, check.Run(s))
}

func TestTheDrawingShowsMetalWhereThereIsMetal(t *testing.T) {
	for _, name := range project.Gallery() {
		for _, d := range []*kit.Dress{kit.DressNamed("light"), kit.DressNamed("dark")} {
			g, err := project.GalleryDesign(name)
			require.NoError(t, err)
			sc := sceneOf(t, g)
			p := sheetPainter{faces: kit.New("light").Faces}
			v := viewport{k: 1, frame: newFrame(1400, 380, 1)}
			v = v.fit(sc.Sheet.Flat.Outline.Bounds())
			bare := noOverlay()
			bare.noStretch = true // it tints the metal
			img := p.paint(v, sc, d, bare)
			// The share of metal pixels is the report's share, an independent figure.
			metal := 0
			for y := int(v.frame.top); y < int(v.frame.bottom); y++ {
				for x := int(v.frame.left); x < int(v.frame.right); x++ {
					if c := img.RGBAAt(x, y); c.R == kit.MetalOf(sc.Sheet.Design.Metal.Alloy).Face.R && c.G == kit.MetalOf(sc.Sheet.Design.Metal.Alloy).Face.G && c.B == kit.MetalOf(sc.Sheet.Design.Metal.Alloy).Face.B {
						metal++
					}
				}
			}
			got := float64(metal) / (v.k * v.k)
			want := sc.Report.BlankArea - sc.Report.CutArea
			// Lines, hatches and marks hide some of it.
			require.Less(t, got, want*1.01)
			require.Greater(t, got, want*0.55, name)
		}
	}
}

// TestTheStretchOfADomedBandIsMapped holds the map to the radii: where a round
// band's edges lie h inside its middle, of radius R, what is as long as the
// middle when flat is shorter by h/R when domed.
func TestTheStretchOfADomedBandIsMapped(t *testing.T) {
	d, err := project.GalleryDesign("tide-bangle")
	require.NoError(t, err)
	b := &d.Band
	b.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 195, Ratio: 1}
	b.EndWidthMM, b.SwellLengthMM, b.TopEdge, b.BottomEdge = b.WidthMM, 0, nil, nil
	require.Nil(t, newStretchMap(sceneOf(t, d)), "a band that unrolls truly has no stretch")
	b.Dome, b.DomeRiseMM, b.DomeFlat = unroll.Outward, 1, unroll.ArcLength
	m := newStretchMap(sceneOf(t, d))
	h := unroll.DomeRise(b.WidthMM, unroll.DomeRadius(b.WidthMM, 1))
	want := -h / (195/(2*math.Pi) + b.Thickness.MM*b.NeutralK)
	low := float64(m.levels[0]) * m.step
	// The middle of the outermost cell; over so flat an arc it goes as the square.
	want *= math.Pow(1-1.0/stretchRows, 2)
	require.True(t, low <= want && want < low+m.step, "%g in %g", want, low)
	require.Equal(t, -1, m.levels[1], "nothing is longer")
}
