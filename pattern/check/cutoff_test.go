package check

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/pattern/motif"
)

// A fish whose tail hangs on a wrist narrower than the bridge loses it, and one with a broad
// tail does not; corners that are only rounded are no loss.
func TestAPartOfAnOwnShapeThatIsLostIsTold(t *testing.T) {
	for name, c := range map[string]struct {
		path     string
		from, to float64 // percent, by hand: the box and the tail by their areas, less what rounds
	}{
		// A body of 8 x 4 with a tail 4 long and 0.4 high: 1.6 of 33.6.
		"a thin tail": {"M0 0L8 0L8 1.8L12 1.8L12 2.2L8 2.2L8 4L0 4Z", 3.5, 5},
		// The tail spreads to a fin 1.2 high, of which a bridge all round leaves nothing.
		"a fin":        {"M0 0L8 0L8 1.8L10 1.8L10 1.4L12 1.4L12 2.6L10 2.6L10 2.2L8 2.2L8 4L0 4Z", 7, 11},
		"a broad tail": {"M0 0L8 0L8 .5L12 .5L12 3.5L8 3.5L8 4L0 4Z", 0, 0},
		"a triangle":   {"M0 0L8 0L4 6.928Z", 0, 0},
		"a disc":       {"M0 0A4 4 0 0 1 8 0A4 4 0 0 1 0 0Z", 0, 0},
	} {
		d := benchCuff()
		d.Rules.BridgeMM, d.Rules.RimMM, d.Rules.CornerMM, d.Rules.SmallestMM = 1, 2, 0.2, 1
		d.Fields = []pattern.Field{{Motif: motif.OwnKey, Path: c.path, Rows: 2, Repeats: 10}}
		_, r, err := Lay(d)
		require.NoError(t, err, name)
		lost := 0.0
		for _, f := range r.Findings {
			if f.Kind == KindCutOff {
				lost = f.Value
				assert.NotEmpty(t, f.At, name)
			}
		}
		assert.GreaterOrEqual(t, lost, c.from, name)
		assert.LessOrEqual(t, lost, c.to, name)
	}
}
