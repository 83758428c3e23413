package mesh

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/testdata"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// forms are designs of every form, and some made otherwise.
func forms(t *testing.T) map[string]pattern.Design {
	t.Helper()
	all := map[string]pattern.Design{}
	for _, e := range testdata.Forms() {
		d, err := project.Read(bytes.NewReader(e.JSON))
		require.NoError(t, err, e.Name)
		all[e.Name] = d
	}
	for _, c := range []struct {
		name, from string
		change     func(b *unroll.Band)
	}{
		{"formed, outer", "oval-cuff", func(b *unroll.Band) { b.Making, b.Drawn = unroll.Formed, unroll.OuterFace }},
		{"formed, flared", "flared-bangle", func(b *unroll.Band) { b.Making, b.Drawn = unroll.Formed, unroll.OuterFace }},
		{"soft neutral", "oval-cuff", func(b *unroll.Band) { b.NeutralK = 0.36 }},
		{"soft neutral, straight sides", "profile-bangle", func(b *unroll.Band) {
			b.NeutralK, b.Inside = 0.36, unroll.Inside{By: unroll.BySides, WidthMM: 22, HeightMM: 15}
			b.WidthMM, b.EndWidthMM = 12, 12
		}},
		{"hard neutral", "flared-cuff", func(b *unroll.Band) { b.NeutralK = 0.6 }},
	} {
		d := all[c.from]
		c.change(&d.Band)
		all[c.name] = d
	}
	return all
}

// The volume of the metal left, by integrals along the loops of the flat (see
// unroll.Flat.Volume, which is held to handbooks there): another way altogether.
//
// Sheet that is cut flat and bent keeps its volume: area times thickness.
func exactVolume(s *pattern.Sheet) float64 {
	if s.Design.Band.Making != unroll.Formed && !s.Flat.Domed() {
		return area(s) * s.Flat.Thickness
	}
	v := math.Abs(s.Flat.Volume(s.Flat.Outline.CCW()))
	for _, o := range s.Openings {
		v -= math.Abs(s.Flat.Volume(o.Loop.CCW()))
	}
	return v
}

func TestEveryFormIsClosedAndHoldsItsMetal(t *testing.T) {
	for name, d := range forms(t) {
		for _, motif := range []string{"circles", "lattice"} {
			d.Fields = []pattern.Field{{Motif: motif, Rows: 2, Repeats: 16, Stagger: 0.5}}
			s, err := pattern.Lay(d)
			require.NoError(t, err, name)
			require.NotEmpty(t, s.Openings, name)
			for _, c := range []struct{ tol, within float64 }{{Screen, 6e-3}, {Solid, 1e-3}} {
				m, err := Build(s, Options{Tolerance: c.tol, Lids: true})
				if !assert.NoError(t, err, "%s at %g", name, c.tol) {
					continue
				}
				assert.NoError(t, m.Check(), "%s at %g", name, c.tol)
				assert.InEpsilon(t, exactVolume(s), m.Volume(), c.within, "%s at %g", name, c.tol)
				// Both faces lie where they should, by the inverse of the map; and
				// the place told is on the metal.
				metal := plane.Region{s.Flat.Outline}
				var worst float64
				for i, tr := range m.Triangles {
					if tr.Kind == Wall || i%7 != 0 {
						continue
					}
					p, depth := m.FlatAt(tr, 1./3, 1./3, 1./3)
					require.True(t, metal.Contains(p) || metal.Nearest(p).D < 2*c.tol, "%s at %g: %v", name, c.tol, p)
					q := m.Vertices[tr.V[0]]
					_, got := s.Flat.Unbend(scale(add(add(q, m.Vertices[tr.V[1]]), m.Vertices[tr.V[2]]), 1./3))
					if slices.ContainsFunc(s.Flat.Breaks(), func(x float64) bool { return math.Abs(x-p.X) < breakStrip }) {
						continue // between two thicknesses
					}
					if strings.HasPrefix(name, "soft neutral") || name == "hard neutral" {
						depth *= s.Flat.ThicknessAt(p) / s.Flat.Thickness
					}
					worst = math.Max(worst, math.Abs(got-depth))
				}
				assert.Less(t, worst, c.tol*1.05, "%s at %g", name, c.tol)
			}
		}
	}
}
