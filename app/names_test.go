package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"

	"github.com/stretchr/testify/require"
)

// A design takes its file's name while it has none, in all its history and in the file; a
// name that it was given stays.
func TestADesignTakesItsFilesName(t *testing.T) {
	d := gallery(t)
	d.Name = pattern.Untitled
	doc := NewDocument(d)
	d.Rules.RimMM++
	doc.Change("", d)
	require.Equal(t, pattern.Untitled, doc.Title())
	dir := t.TempDir()
	path := filepath.Join(dir, "Sea holly.json")
	require.NoError(t, doc.SaveAs(path))
	require.Equal(t, "Sea holly", doc.Title())
	require.Equal(t, "Sea holly", doc.Now().Name)
	require.False(t, doc.Dirty())
	in, err := project.ReadFile(path)
	require.NoError(t, err)
	require.True(t, Equal(in, doc.Now()))
	// Undo takes back the edit, not the name.
	require.True(t, doc.Undo())
	require.Equal(t, "Sea holly", doc.Now().Name)
	// Under another file's name it is the same piece.
	require.NoError(t, doc.SaveAs(filepath.Join(dir, "b.json")))
	require.Equal(t, "Sea holly", doc.Now().Name)

	// A file whose design has no name: it has the file's as soon as it is open, unchanged.
	file, err := os.ReadFile(path)
	require.NoError(t, err)
	third := filepath.Join(dir, "Third.json")
	require.NoError(t, os.WriteFile(third, []byte(strings.Replace(string(file), "Sea holly", pattern.Untitled, 1)), 0o600))
	doc, err = Open(third)
	require.NoError(t, err)
	require.Equal(t, "Third", doc.Now().Name)
	require.False(t, doc.Dirty())

	// A file's name may be longer than a design's.
	d.Name = ""
	long := NewDocument(d)
	require.NoError(t, long.SaveAs(filepath.Join(dir, strings.Repeat("\u00e4", 100)+".json")))
	require.Equal(t, strings.Repeat("\u00e4", 40), long.Now().Name)
	require.NoError(t, long.Now().Check())
}
