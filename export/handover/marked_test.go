package handover

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
)

// The bench gets what it can work by, whatever the band; what it gets is named before it is
// made and is known afterwards.
func TestTheBenchGetsPatchesForWhatNoTemplateLiesOn(t *testing.T) {
	for name, key := range map[string]string{"buoy-bangle": "patches", "harbour-cuff": "template"} {
		s, r := sample.Measured(t, sample.Gallery(t)[name].Design)
		bench, _ := export.ReceiverByKey(export.Bench)
		require.Equal(t, key, GetsOf(s, bench, export.Options{})[0].Key)
		paths, err := Write(t.TempDir(), "part", s, r, export.Options{}, bench)
		require.NoError(t, err, name)
		require.Len(t, paths, 3)
		require.Equal(t, "part-bench-"+key+".pdf", filepath.Base(paths[0]))
		f, ok := FormatOf("part", paths[0])
		require.True(t, ok)
		require.Equal(t, key, f.Key)
	}
}
