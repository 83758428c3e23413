package export

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export/sample"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
)

// What a person reads of a reserve.
func TestReservesAreToldWithShapeSizeTurnAndRow(t *testing.T) {
	for want, r := range map[string]pattern.Reserve{
		"circle 4 mm across at x 1, y 2":                                                   {Shape: pattern.CircleShape, XMM: 1, YMM: 2, WidthMM: 4, RotationDeg: 20},
		"seat, oval 6 x 4 mm turned 30 degrees at x 1, y 2":                                {Shape: pattern.OvalShape, XMM: 1, YMM: 2, WidthMM: 6, HeightMM: 4, RotationDeg: 30, Note: "seat"},
		"drawn shape at x 0, y 0":                                                          {Shape: pattern.PathShape},
		"5 in a row (each circle 3 mm across), 8 mm from middle to middle, about x 0, y 0": {Shape: pattern.CircleShape, WidthMM: 3, Count: 5, SpacingMM: 8},
		"5 in a row (each circle 3 mm across), spread evenly, about x 0, y 0":              {Shape: pattern.CircleShape, WidthMM: 3, Count: 5},
	} {
		require.Equal(t, want, keptText(r))
	}
}

func TestFactsTellWhatIsEngravedAndKeptSolid(t *testing.T) {
	s, r := sample.Engraved(t)
	var facts []string
	for _, f := range Facts(s, r, Options{}) {
		facts = append(facts, f.String())
	}
	all := strings.Join(facts, "\n")
	require.Contains(t, all, "engrave, do not cut")
	require.Contains(t, all, `engrave, do not cut; "Gull <925>", capitals 2 mm`)
	require.Contains(t, all, "stone seat, 3 in a row (each oval")
}

// A closed band is closed whatever its blank looks like: that of a flared one is
// a sector whose ends meet by turning.
func TestWordsGoByTheKindOfBandNotByItsBlank(t *testing.T) {
	sample.EachForm(t, func(name string, d pattern.Design) {
		s, r := sample.Measured(t, d)
		all := said(s, r)
		switch {
		case d.Band.Open():
			assert.Contains(t, ends(s), "open cuff, gap 25 mm", name)
			assert.NotContains(t, all, "closed", name)
			return
		case d.Band.Seamless():
			assert.Contains(t, ends(s), "seamless band: both ends of the drawing are one place", name)
		default:
			assert.Contains(t, ends(s), fmt.Sprintf("closed band: the two ends meet and are joined; the last %g mm at each end stay solid", d.Band.JointMM/2), name)
		}
		assert.NotContains(t, all, "open ", name)
		assert.Contains(t, all, "closed", name)
		assert.NotContains(t, all, "gap ", name)
	})
	for name, want := range map[string]string{"flared-bangle": "closed flared bangle", "domed-cuff": "open domed cuff", "ring": "closed ring"} {
		s, _ := sample.Measured(t, sample.Form(t, name))
		assert.Equal(t, want, kind(s))
	}
}

// said is all that files say of a part.
func said(s *pattern.Sheet, r *check.Report) string {
	var lines []string
	for _, f := range Facts(s, r, Options{}) {
		lines = append(lines, f.String())
	}
	return strings.Join(append(lines, Cautions(s, r, Options{})...), "\n")
}

// The middle face lies where the neutral surface would.
func TestTheMiddleFaceLiesWhereItsShareSays(t *testing.T) {
	d := sample.Form(t, "flared-cuff")
	d.Band.Making, d.Band.NeutralK = unroll.Formed, 0.4
	s, _ := sample.Measured(t, d)
	assert.Contains(t, drawn(s), "drawn on the surface at 0.4 of the thickness over the inner face")
}
