package main

import (
	"encoding/json"
	"path/filepath"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"

	"github.com/stretchr/testify/require"
)

func TestLightenShowsWaysAndWritesTheOneAskedFor(t *testing.T) {
	cuff := galleryFile(t, "harbour-cuff", func(d *pattern.Design) {
		d.Reserves, d.Band.WidthMM, d.Band.EndWidthMM, d.Band.EndCornerMM = nil, 16, 16, 2
		d.Fields = []pattern.Field{{Motif: "squares", Rows: 1, Repeats: 14}}
	})
	to := filepath.Join(t.TempDir(), "lighter.json")
	code, out, errs := call("lighten", "-json", "-way", "taper", "-out", to, cuff)
	require.Equal(t, fine, code, errs)
	var got struct {
		Uniform float64 `json:"uniform_g"`
		Worth   bool    `json:"worth_having"`
		Ways    []struct {
			Way, Why string
			Held     bool
			Left     float64 `json:"left_g"`
			Saved    float64 `json:"saved_share"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.True(t, got.Worth)
	require.Equal(t, "now", got.Ways[0].Way)
	d, err := project.ReadFile(to)
	require.NoError(t, err)
	require.Less(t, d.Band.EndWidthMM, 16.0)
	for _, w := range got.Ways[1:] {
		require.Equal(t, w.Held, w.Why == "", w.Way)
		if w.Way == "taper" {
			require.Greater(t, w.Saved, 0.02)
			code, out, errs = call("report", "-json", to)
			require.Equal(t, fine, code, errs)
			var r struct {
				Left float64 `json:"left_g"`
			}
			require.NoError(t, json.Unmarshal([]byte(out), &r))
			require.InEpsilon(t, w.Left, r.Left, 1e-9, "the file weighs what was told")
		}
	}

	code, out, errs = call("lighten", galleryFile(t, "mooring-ring", nil))
	require.Equal(t, breach, code, errs)
	require.Contains(t, out, "Nothing worth having")
	code, _, errs = call("lighten", "-way", "rim", cuff)
	require.Equal(t, refused, code)
	require.Contains(t, errs, "go together")
}
