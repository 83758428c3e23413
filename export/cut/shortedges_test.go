package cut

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/motif"
	"fretband/pattern/project"
	"fretband/unroll"
)

// inChords is a circle of 20 mm as programs without arcs write it.
func inChords(n int) string {
	var b strings.Builder
	for i := range n {
		t := 2 * math.Pi * float64(i) / float64(n)
		fmt.Fprintf(&b, "%c%.6f %.6f", "ML"[min(i, 1)], 10*math.Cos(t), 10*math.Sin(t))
	}
	return b.String() + "Z"
}

// Designs whose cut files once did not read back as the report counts, since edges too
// short to be cut were taken out of the files alone.
func TestDesignsWithShortEdgesCanBeMade(t *testing.T) {
	cuff, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	with := func(r pattern.Reserve, margin float64) pattern.Design {
		d := cuff
		r.MarginMM = margin
		d.Reserves = append(append([]pattern.Reserve{}, d.Reserves...), r)
		return d
	}
	designs := map[string]pattern.Design{}
	for _, deg := range []float64{10, 33} {
		for _, margin := range []float64{0, 0.0005, 0.001, 0.002} {
			turned := pattern.Reserve{Shape: pattern.RectangleShape, XMM: 20, YMM: 1, WidthMM: 8, HeightMM: 4, RotationDeg: deg}
			designs[fmt.Sprintf("a rectangle turned by %g, margin %g", deg, margin)] = with(turned, margin)
			path := pattern.Reserve{Shape: pattern.PathShape, XMM: -15, YMM: 1, RotationDeg: deg, Path: "M-6 -3L6 -3L6 0L0 0L0 3L-6 3Z"}
			designs[fmt.Sprintf("a path turned by %g, margin %g", deg, margin)] = with(path, margin)
		}
	}
	for _, corner := range []float64{0.1, 0.03, 0.001} {
		d := cuff
		d.Rules.CornerMM = corner
		d.Fields = []pattern.Field{{Motif: motif.OwnKey, Path: inChords(360), Rows: 2, Repeats: 9}}
		designs[fmt.Sprintf("a circle in chords, corners of %g", corner)] = d
	}
	for name, d := range designs {
		s, err := pattern.Lay(d)
		require.NoError(t, err, name)
		require.Greater(t, len(s.Openings), 10, name)
		r := check.Run(s)
		for _, o := range []export.Options{{}, {LeadMM: 0.5, Tabs: 2, Copies: 2}, {Curves: export.Chords, ChordMM: export.MinChordMM}} {
			require.NoError(t, madeAndReadBack(s, r, o), "%s: %+v", name, o)
		}
	}
}

func TestNoKerfIsRefusedForAShortEdge(t *testing.T) {
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		r := check.Run(s)
		for i := range 20 {
			o := export.Options{KerfMM: 0.002 + 0.0134*float64(i)}
			err := madeAndReadBack(s, r, o)
			var ours *unroll.ProgramError
			require.False(t, errors.As(err, &ours), "%s, kerf %g: %v", name, o.KerfMM, err)
		}
	}
}
