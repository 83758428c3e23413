package check_test

import (
	"bytes"
	"context"
	"testing"

	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/testdata"

	"github.com/stretchr/testify/require"
)

// BenchmarkStrength is what a cuff and a bangle of the gallery take, from the sheet to the
// figures: coarse while a hand drags, fine at rest.
func BenchmarkStrength(b *testing.B) {
	for _, e := range testdata.Gallery()[:2] {
		d, err := project.Read(bytes.NewReader(e.JSON))
		require.NoError(b, err)
		s, r, err := check.Lay(d)
		require.NoError(b, err)
		r = check.Deepen(s, r)
		for name, coarse := range map[string]bool{"coarse": true, "fine": false} {
			b.Run(e.Name+"/"+name, func(b *testing.B) {
				for b.Loop() {
					f, err := check.StrengthOf(context.Background(), s, r, check.StrengthAsk{Coarse: coarse})
					require.NoError(b, err)
					b.ReportMetric(float64(f.Freedoms), "freedoms")
				}
			})
		}
	}
}
