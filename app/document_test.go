package app

import (
	"os"
	"path/filepath"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"

	"github.com/stretchr/testify/require"
)

func gallery(t *testing.T) pattern.Design {
	t.Helper()
	d, err := project.GalleryDesign(project.Gallery()[0])
	require.NoError(t, err)
	return d
}

func TestADocumentKnowsWhetherItsFileSaysTheSame(t *testing.T) {
	d := gallery(t)
	doc := NewDocument(d)
	require.False(t, doc.Dirty())
	path := filepath.Join(t.TempDir(), "cuff.json")
	require.NoError(t, doc.SaveAs(path))
	doc.Change("", bridge(d, 1.23))
	require.True(t, doc.Dirty())
	doc.Undo()
	require.False(t, doc.Dirty(), "undone to what the file says")
	doc.Redo()
	require.NoError(t, doc.SaveAs(path))
	require.False(t, doc.Dirty())
	doc.Undo()
	require.True(t, doc.Dirty())

	again, err := Open(path)
	require.NoError(t, err)
	require.Equal(t, 1.23, again.Now().Rules.BridgeMM)
	require.False(t, again.CanUndo())
	require.Equal(t, path, again.Path)
}

func TestUnsavedWorkIsFoundAgain(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "conf")
	require.Empty(t, LeftBehind(dir))
	r := NewRecovery(dir)
	d := bridge(gallery(t), 1.11)
	require.NoError(t, r.Keep(d, "/jewels/cuff.json"))
	require.NoError(t, r.Keep(bridge(d, 1.12), "/jewels/cuff.json"), "the file is replaced")
	found := LeftBehind(dir)
	require.Len(t, found, 1)
	require.Equal(t, 1.12, found[0].Design.Rules.BridgeMM)
	doc := Restore(found[0])
	require.Equal(t, "/jewels/cuff.json", doc.Path)
	require.True(t, doc.Dirty())
	require.NoError(t, found[0].Discard())
	require.Empty(t, LeftBehind(dir))
	require.NoError(t, r.Clear(), "clearing what is gone is no error")
}

func TestWorkOfARunningProgramIsNotOffered(t *testing.T) {
	dir := t.TempDir()
	r := NewRecovery(dir)
	require.NoError(t, r.Keep(gallery(t), ""))
	files, _ := filepath.Glob(filepath.Join(dir, "*.json"))
	b, err := os.ReadFile(files[0])
	require.NoError(t, err)
	// The same note, said to be of our parent, which runs.
	note := replaceOnce(string(b), `"pid": `, os.Getppid())
	require.NoError(t, os.WriteFile(files[0], []byte(note), 0o600))
	require.Empty(t, LeftBehind(dir))
	// Broken files are passed over and kept.
	require.NoError(t, os.WriteFile(filepath.Join(dir, "unsaved-1-1.json"), []byte("{"), 0o600))
	require.Empty(t, LeftBehind(dir))
	require.FileExists(t, filepath.Join(dir, "unsaved-1-1.json"))
}

func replaceOnce(s, after string, pid int) string {
	for i := 0; i+len(after) < len(s); i++ {
		if s[i:i+len(after)] == after {
			j := i + len(after)
			for s[j] >= '0' && s[j] <= '9' {
				j++
			}
			return s[:i+len(after)] + FormatNumber(float64(pid), 0) + s[j:]
		}
	}
	return s
}
