package handover

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
)

// No file says "Untitled": of a design without a name it says what it is.
func TestNoPaperSaysUntitled(t *testing.T) {
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	d.Name = pattern.Untitled
	sheet, r, err := check.Lay(d)
	require.NoError(t, err)
	r = check.Deepen(sheet, r)
	require.Equal(t, "Cuff", export.Title(d))
	for _, to := range append(export.Receivers(), export.Anyone()) {
		dir := t.TempDir()
		files, err := Write(dir, "part", sheet, r, export.Options{Words: export.WordsDrawn}, to)
		require.NoError(t, err, to.Key)
		for _, f := range files {
			b, err := os.ReadFile(f)
			require.NoError(t, err)
			require.False(t, bytes.Contains(b, []byte(pattern.Untitled)), f)
		}
	}
}

// The text of a PDF can't be searched: papers ask export.Title for the name, never the design.
func TestPapersAskForTheTitle(t *testing.T) {
	knows := map[string]bool{"../tag.go": true, "../words.go": true, "../facts.go": true, "../report/report.go": true, "../report/strength.go": true}
	err := filepath.WalkDir("..", func(path string, e fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.Contains(path, "sample") || knows[filepath.ToSlash(path)] {
			return err
		}
		b, err := os.ReadFile(path)
		require.NoError(t, err)
		require.NotContains(t, string(b), "Design.Name", path)
		return nil
	})
	require.NoError(t, err)
}
