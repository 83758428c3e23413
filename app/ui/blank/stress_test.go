package blank

import (
	"testing"

	"fretband/app/ui/kit"
	"fretband/export/picture"
	"fretband/pattern/check"
	"fretband/pattern/project"

	"github.com/stretchr/testify/require"
)

// The window shows stress in the colours of the files' picture: in pixels, the metal that
// bears at least half of full stress is as large as the map has it, and nothing is coloured
// in openings.
func TestStressOnTheBlankIsAsLargeAsItIsInMetal(t *testing.T) {
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	sc := sceneOf(t, d)
	f, err := check.StrengthOf(t.Context(), sc.Sheet, sc.Report, check.StrengthAsk{Coarse: true})
	require.NoError(t, err)
	m := noOverlay()
	m.stress = picture.NewStressMap(f, f.Cases[0], d.Temper().ProofMPa)
	v := viewport{k: 1, frame: newFrame(1400, 380, 1)}
	v = v.fit(sc.Sheet.Flat.Outline.Bounds())
	shades := map[[3]uint8]int{}
	for i := range picture.StressShades {
		c := picture.StressShade(i)
		shades[[3]uint8{c.R, c.G, c.B}] = i
	}
	for _, dress := range []string{"light", "dark"} {
		p := sheetPainter{faces: kit.New(dress).Faces}
		count := func() (metal, half int) {
			img := p.paint(v, sc, kit.DressNamed(dress), m)
			for y := int(v.frame.top); y < int(v.frame.bottom); y++ {
				for x := int(v.frame.left); x < int(v.frame.right); x++ {
					c := img.RGBAAt(x, y)
					i, ok := shades[[3]uint8{c.R, c.G, c.B}]
					if !ok {
						continue
					}
					metal++
					if i >= 5 {
						half++
					}
					require.Less(t, sc.OpeningAt(v.mm(float64(x)+0.5, float64(y)+0.5)), 0, "stress in an opening")
				}
			}
			return metal, half
		}
		metal, half := count()
		over := 0.0
		for _, l := range m.stress.Over[5] {
			for i, a := range l {
				over += a.Cross(l[(i+1)%len(l)]) / 2
			}
		}
		mm2 := v.k * v.k
		// Edges, hatches and the ring hide some of it.
		require.InDelta(t, 0.8, float64(metal)/mm2/(sc.Report.BlankArea-sc.Report.CutArea), 0.2, dress)
		require.InDelta(t, 0.85, float64(half)/mm2/over, 0.15, dress)
		m.pale = true
		metal, _ = count()
		require.Zero(t, metal, "what is old has no shade of what is new")
		m.pale = false
	}
}
