package strength_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/pattern/strength"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Cuffs of 60 mm, 24 mm wide and 1.2 mm thick, pulled open by their ends: how many mm
// they open a newton by solid elements. The references are ours, made once by CalculiX
// with gmsh's wedges (C3D15, two layers), Young's modulus 75 GPa, Poisson's ratio
// 0.37; solid elements share nothing with a shell.
func TestPiercedCuffsGiveAsSolidsDo(t *testing.T) {
	for name, c := range map[string]struct {
		field string
		opens float64
	}{
		"circles": {`"rows": 3, "repeats": 21, "stagger": 0.5`, 2.734},
		"leaves":  {`"rows": 3, "repeats": 14, "stagger": 0.5, "turn_deg": 35`, 2.050},
		"squares": {`"rows": 2, "repeats": 14, "stagger": 0`, 4.080},
	} {
		t.Run(name, func(t *testing.T) {
			d, err := project.Read(strings.NewReader(fmt.Sprintf(`{"fretband": 2, "name": "reference",
				"band": {"kind": "cuff", "inside": {"by": "axes", "width_mm": 60, "height_mm": 60}, "gap_mm": 28,
					"thickness": {"mm": 1.2}, "width_mm": 24, "end_width_mm": 24, "neutral_k": 0.5},
				"metal": {"alloy": "sterling-925", "price_per_g": 1, "currency": "EUR"},
				"rules": {"bridge_mm": 1.2, "rim_mm": 2, "corner_mm": 0.4, "smallest_mm": 1.4, "process": "saw"},
				"fields": [{"motif": %q, %s}], "wear": {"open_mm": 10}}`, name, c.field)))
			require.NoError(t, err)
			s, err := pattern.Lay(d)
			require.NoError(t, err)
			for _, f := range []struct {
				fine   strength.Fineness
				within float64
			}{{strength.Coarse(), 0.05}, {strength.Fine(), 0.015}} {
				m, err := metalOf(s).Mesh(context.Background(), f.fine)
				require.NoError(t, err)
				model, err := strength.NewModel(context.Background(), m, strength.Material{Young: 75000, Poisson: 0.37}, strength.Isostatic(m))
				require.NoError(t, err)
				answers, err := model.Solve(context.Background(), pullOpen(m))
				require.NoError(t, err)
				b := answers[0].Balance()
				assert.Less(t, max(b.Whole, b.Nodes, b.Supports), 1e-7)
				// A newton at each end opens it by the work that both do.
				opens := 0.0
				for _, l := range pullOpen(m) {
					for k := range 3 {
						opens += l.Force[k] * answers[0].Move[l.Node][k]
					}
				}
				t.Logf("%d freedoms: stiffness %.3f of the solid's", 6*len(m.At), c.opens/opens)
				assert.InEpsilon(t, c.opens, opens, f.within)
			}
		})
	}
}

// pullOpen spreads a newton over each end of a cuff, away from the other.
func pullOpen(m *strength.Mesh) (loads []strength.Load) {
	far := 0.0
	for _, p := range m.Flat {
		far = max(far, p.X)
	}
	for _, side := range []float64{-1, 1} {
		var end []int
		for i, p := range m.Flat {
			if math.Abs(p.X-side*far) < 1e-3 {
				end = append(end, i)
			}
		}
		slices.SortFunc(end, func(i, j int) int {
			if m.Flat[i].Y < m.Flat[j].Y {
				return -1
			}
			return 1
		})
		last := len(end) - 1
		width := m.Flat[end[last]].Y - m.Flat[end[0]].Y
		for k, n := range end {
			share := (m.Flat[end[min(k+1, last)]].Y - m.Flat[end[max(k-1, 0)]].Y) / 2 / width
			loads = append(loads, strength.Load{Node: n, Force: [3]float64{math.Copysign(share, m.At[n].X)}})
		}
	}
	return loads
}
