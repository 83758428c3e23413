package check

import (
	"math"
	"path/filepath"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"

	"github.com/stretchr/testify/require"
)

// On every form, cells that are cut by the rim and rows that follow it keep off the long
// edges what the curve asks.
func TestTheRimIsGradedOnEveryForm(t *testing.T) {
	files, err := filepath.Glob("../../testdata/forms/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		for _, follow := range []string{pattern.FollowClip, pattern.FollowWidth} {
			d, err := project.ReadFile(file)
			require.NoError(t, err)
			d.Rules.RimMM = math.Max(d.Rules.RimMM, 1.2*d.Rules.BridgeMM)
			d.Rules.RimAlong = []pattern.Grade{{At: -0.9, Size: 1}, {At: 0, Size: 1.5}, {At: 0.9, Size: 1}}
			for i := range d.Fields {
				if d.Fields[i].Area == (pattern.Area{}) {
					d.Fields[i].Follow = follow
				}
			}
			s, _, err := Lay(d)
			require.NoError(t, err, file)
			require.NotEmpty(t, s.Openings, file)
			half := s.Flat.Length / 2
			asked := pattern.GradeCurve(d.Rules.RimAlong)
			for _, o := range s.Openings {
				for _, v := range o.Loop {
					x, _ := s.Flat.Where(v.Point)
					if math.Abs(x) > 0.8*half {
						continue // beside the ends and the seam
					}
					near := s.Flat.Outline.Nearest(v.Point)
					on, across := s.Flat.Where(near.B)
					if bottom, top := s.Flat.EdgesAt(on); math.Min(math.Abs(across-bottom), math.Abs(across-top)) > 0.01 {
						continue // on an end
					}
					require.GreaterOrEqual(t, near.D, d.Rules.RimMM*asked(on/half)-0.03, "%s, %s: opening %d at %v", file, follow, o.Number, v.Point)
				}
			}
		}
	}
}
