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

// A file that others have changed is not overwritten unasked.
func TestAFileChangedMeanwhileIsNotOverwrittenUnasked(t *testing.T) {
	path := filepath.Join(t.TempDir(), "cuff.json")
	d := gallery(t)
	require.NoError(t, NewDocument(d).SaveAs(path))
	one, err := Open(path)
	require.NoError(t, err)
	two, err := Open(path)
	require.NoError(t, err)
	one.Change("", bridge(d, 1.21))
	two.Change("", bridge(d, 1.22))
	require.NoError(t, one.SaveAs(path))
	require.NoError(t, one.SaveAs(path), "its own changes are no others'")

	link := filepath.Join(t.TempDir(), "link.json")
	require.NoError(t, os.Symlink(path, link))
	for _, way := range []string{path, link} {
		require.ErrorIs(t, two.SaveAs(way), ErrChanged)
		require.True(t, two.Dirty())
	}
	other := filepath.Join(filepath.Dir(path), "other.json")
	require.NoError(t, two.SaveAs(other), "under another name")
	require.Equal(t, other, two.Path)

	three, err := Open(path)
	require.NoError(t, err)
	one.Change("", bridge(d, 1.23))
	require.NoError(t, one.SaveAs(path))
	three.Change("", bridge(d, 1.24))
	require.ErrorIs(t, three.SaveAs(path), ErrChanged)
	require.NoError(t, three.Reload())
	require.Equal(t, 1.23, three.Now().Rules.BridgeMM)
	require.False(t, three.Dirty())
	require.True(t, three.Undo())
	require.Equal(t, 1.24, three.Now().Rules.BridgeMM, "reloading loses nothing")
	require.NoError(t, three.SaveAs(path), "it has been seen")

	require.ErrorIs(t, one.SaveAs(path), ErrChanged)
	require.NoError(t, one.Overwrite(path))
	require.NoError(t, os.WriteFile(path, []byte("no design"), 0o644))
	require.ErrorIs(t, one.SaveAs(path), ErrChanged)
	require.Error(t, one.Reload())
	require.Equal(t, 1.23, one.Now().Rules.BridgeMM, "what can't be read changes nothing")
	require.NoError(t, os.Remove(path))
	require.NoError(t, one.SaveAs(path), "nothing stands there")
}

// What was recovered belongs to its file as that was when it was opened.
func TestRecoveredWorkAsksBeforeItReplacesAFileThatHasChanged(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "cuff.json")
	d := gallery(t)
	require.NoError(t, NewDocument(d).SaveAs(path))
	for _, changed := range []bool{false, true} {
		doc, err := Open(path)
		require.NoError(t, err)
		doc.Change("", bridge(d, 1.31))
		r := NewRecovery(dir)
		require.NoError(t, r.Write(doc))
		found, err := readRecovery(r.file)
		require.NoError(t, err)
		require.NoError(t, r.Close())
		if changed {
			require.NoError(t, os.WriteFile(path, []byte("{}"), 0o644))
			require.ErrorIs(t, Restore(found).SaveAs(path), ErrChanged)
			continue
		}
		require.NoError(t, Restore(found).SaveAs(path))
	}
}

// Two windows on one file: the second is warned, and so is one that saves over a file that
// is open elsewhere.
func TestAFileThatIsOpenInAnotherWindowIsKnown(t *testing.T) {
	dir, designs := t.TempDir(), t.TempDir()
	path, other := filepath.Join(designs, "cuff.json"), filepath.Join(designs, "other.json")
	d := gallery(t)
	require.NoError(t, NewDocument(d).SaveAs(path))
	link := filepath.Join(designs, "link.json")
	require.NoError(t, os.Symlink("cuff.json", link))
	open := func(path string) *Document {
		doc, err := Open(path)
		require.NoError(t, err)
		return doc
	}
	one := open(path)
	require.NoError(t, one.Claim(dir, nil))
	require.ErrorIs(t, open(path).Claim(dir, nil), ErrElsewhere)
	require.ErrorIs(t, open(link).Claim(dir, nil), ErrElsewhere, "by whatever link")

	fresh := NewDocument(bridge(d, 1.4))
	require.NoError(t, fresh.Claim(dir, nil), "it is in no file")
	require.ErrorIs(t, fresh.SaveAs(path), ErrElsewhere)
	require.NoError(t, fresh.SaveAs(other))
	require.ErrorIs(t, open(other).Claim(dir, nil), ErrElsewhere, "it is held where it was saved")

	knowing := open(path)
	require.ErrorIs(t, knowing.Claim(dir, nil), ErrElsewhere)
	require.NoError(t, knowing.SaveAs(path), "nobody has changed it")
	require.NoError(t, one.SaveAs(path), "the design is the same")
	knowing.Change("", bridge(d, 1.5))
	require.NoError(t, knowing.SaveAs(path))
	one.Change("", bridge(d, 1.6))
	require.ErrorIs(t, one.SaveAs(path), ErrChanged)
	require.NoError(t, one.SaveAs(filepath.Join(designs, "third.json")))
	require.NoError(t, open(path).Claim(dir, nil), "it lives elsewhere now")
	one.Release()

	// The same window opens its file anew.
	again := open(other)
	require.NoError(t, again.Claim(dir, fresh))
	fresh.Release()
	require.ErrorIs(t, open(other).Claim(dir, nil), ErrElsewhere)
	again.Release()
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, left, 1, "the lock of third.json alone, which is the test's to forget")
}

func TestACopyIsInNoFileAndKnowsWhetherItIsSaved(t *testing.T) {
	path := filepath.Join(t.TempDir(), "cuff.json")
	d := gallery(t)
	doc := NewDocument(d)
	require.NoError(t, doc.SaveAs(path))
	require.Empty(t, doc.Copy().Path)
	require.False(t, doc.Copy().Dirty())
	doc.Change("", bridge(d, 1.7))
	require.True(t, doc.Copy().Dirty())
}
