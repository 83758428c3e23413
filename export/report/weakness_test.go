package report

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
)

// What the JSON report lists of weak places is what the report holds, and is reported
// only once it has been looked for.
func TestTheReportListsWeakPlaces(t *testing.T) {
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	d.Rules.Process = "laser"
	d.Rules.BridgeMM, d.Rules.RimMM = 0.8, 1
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	read := func(r *check.Report) *weaknessJSON {
		var b bytes.Buffer
		require.NoError(t, JSON(&b, s, r))
		var j struct {
			Weakness *weaknessJSON `json:"weakness"`
		}
		require.NoError(t, json.Unmarshal(b.Bytes(), &j))
		return j.Weakness
	}
	require.Nil(t, read(check.Run(s)))
	r := check.All(s)
	w := read(r)
	require.NotNil(t, w.Across)
	require.Equal(t, r.Deep.WeakestPaths.Across.Metal, w.Across.Metal)
	require.Len(t, w.Across.At, len(r.Deep.WeakestPaths.Across.Bridges))
	require.Len(t, w.Bridges, len(r.Deep.Bridges))
	require.Positive(t, len(w.Bridges), "bridges of 0.8 mm in sheet of 1.2 are under what is usual")
	for i, b := range w.Bridges {
		require.Less(t, b.Width, b.Limit)
		if i > 0 {
			require.GreaterOrEqual(t, b.Width/b.Limit, w.Bridges[i-1].Width/w.Bridges[i-1].Limit-1e-9, "worst first")
		}
	}
}
