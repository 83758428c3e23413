package cut

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/pattern/check"
)

// The length of cut that the papers name is what the lines of the plan add up to along the
// finished edges, tabs or none: lead-ins are waste. One line is one pierce.
func TestTheLengthOfCutNamedIsThatOfTheLines(t *testing.T) {
	for name, s := range sample.Gallery(t) {
		if s.Seamless() { // whose ends are drawn, but not counted
			continue
		}
		r := check.Run(s)
		for _, o := range []export.Options{{}, {Tabs: 3}, {Tabs: 4, TabMM: 0.7, LeadMM: 0.8, Copies: 2}, {LeadMM: 1}} {
			p, err := newCuttingPlan(s, r, o)
			require.NoError(t, err)
			var length float64
			pierces := 0
			for _, l := range p.wants() {
				if l.as.engraves() {
					continue
				}
				length += l.cut().Len()
				pierces++
			}
			n := float64(o.Parts())
			assert.InDelta(t, n*o.CutLength(r), length, 1e-6*math.Max(1, length), "%s: %+v", name, o)
			s.Process = export.Laser
			named := ""
			for _, f := range export.PartFacts(s, r, o) {
				if f.Label == "Pierces" {
					named = f.Text
				}
			}
			assert.Contains(t, named, fmt.Sprintf("%d a part", pierces/o.Parts()), "%s: %+v", name, o)
		}
	}
}
