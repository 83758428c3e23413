package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func put(t *testing.T, path, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

// lies returns everything in dir with its content, folders as "folder".
func lies(t *testing.T, dir string) map[string]string {
	t.Helper()
	found := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		require.NoError(t, err)
		name, _ := filepath.Rel(dir, path)
		switch {
		case path == dir:
		case e.IsDir():
			found[name] = "folder"
		default:
			b, err := os.ReadFile(path)
			require.NoError(t, err)
			found[name] = string(b)
		}
		return nil
	}))
	return found
}

func files(names ...string) []File {
	var fs []File
	for _, n := range names {
		fs = append(fs, File{n, []byte("new " + n)})
	}
	return fs
}

func TestASetAppearsWhole(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "b"), "old b")
	put(t, filepath.Join(dir, "other"), "other")
	paths, err := WriteSet(dir, files("a", "b", "c"))
	require.NoError(t, err)
	require.Equal(t, []string{filepath.Join(dir, "a"), filepath.Join(dir, "b"), filepath.Join(dir, "c")}, paths)
	require.Equal(t, map[string]string{"a": "new a", "b": "new b", "c": "new c", "other": "other"}, lies(t, dir))

	_, err = WriteSet(filepath.Join(dir, "x", "y"), files("a"))
	require.NoError(t, err)
	require.Equal(t, "new a", lies(t, dir)[filepath.Join("x", "y", "a")])
}

// Whatever stands in the way of one file, no file of the set appears, and what was
// there stays; folders that were made for it are gone.
func TestASetThatCantBeWrittenLeavesThingsAsTheyWere(t *testing.T) {
	for name, c := range map[string]struct {
		way  func(dir string)
		out  string
		says string
	}{
		"a folder in the way": {func(dir string) { _ = os.MkdirAll(filepath.Join(dir, "c", "in"), 0o755) }, "", "c: is a folder, where a file has to go"},
		"a protected file": {func(dir string) {
			put(t, filepath.Join(dir, "c"), "keep")
			_ = os.Chmod(filepath.Join(dir, "c"), 0o444)
		}, "", "c: is write-protected"},
		"a link in a circle":  {func(dir string) { _ = os.Symlink("c", filepath.Join(dir, "c")) }, "", "leads in a circle"},
		"two names of a file": {func(dir string) { _ = os.Symlink("a", filepath.Join(dir, "c")) }, "", "c: is a link to another file of the set"},
		"a file as folder":    {func(dir string) { put(t, filepath.Join(dir, "f"), "f") }, "f", "f: is a file, where a folder has to be"},
		"a file on the way":   {func(dir string) { put(t, filepath.Join(dir, "f"), "f") }, "f/g/h", "f: is a file, where a folder has to be"},
		"a dangling link":     {func(dir string) { _ = os.Symlink("nowhere", filepath.Join(dir, "l")) }, "l", "l: is a link to nowhere, which can't be opened: make that folder"},
		"one on the way":      {func(dir string) { _ = os.Symlink("nowhere", filepath.Join(dir, "l")) }, "l/m", "l: is a link to nowhere"},
	} {
		dir := t.TempDir()
		put(t, filepath.Join(dir, "a"), "old a")
		c.way(dir)
		was, err := os.ReadDir(dir)
		require.NoError(t, err)
		paths, err := WriteSet(filepath.Join(dir, c.out), files("a", "b", "c"))
		require.ErrorContains(t, err, c.says, name)
		require.NotContains(t, err.Error(), hidden, "%s: names only the program knows", name)
		require.Empty(t, paths)
		is, err := os.ReadDir(dir)
		require.NoError(t, err)
		require.Equal(t, fmt.Sprint(was), fmt.Sprint(is), name)
		b, err := os.ReadFile(filepath.Join(dir, "a"))
		require.NoError(t, err)
		require.Equal(t, "old a", string(b), name)
	}

	dir := t.TempDir()
	put(t, filepath.Join(dir, "f"), "f")
	_, err := WriteSet(filepath.Join(dir, "x", "y"), files("a", "no/such"))
	require.Error(t, err)
	require.Equal(t, map[string]string{"f": "f"}, lies(t, dir), "folders made for the set are gone")
}

// If something gets in the way after everything was written aside, the moves already made
// are undone.
func TestMovesAreUndoneWhenALaterOneFails(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "a"), "old a")
	s, err := begin(dir)
	require.NoError(t, err)
	for _, f := range files("a", "b", "c") {
		require.NoError(t, s.stage(filepath.Join(dir, f.Name), f.Data, Shared))
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, "c"), 0o755))
	require.ErrorContains(t, s.move(), "c: is a folder")
	s.end()
	require.Equal(t, map[string]string{"a": "old a", "c": "folder"}, lies(t, dir))

	// The new file itself is gone: its move fails after what it replaces was put by.
	require.NoError(t, os.Remove(filepath.Join(dir, "c")))
	s, err = begin(dir)
	require.NoError(t, err)
	put(t, filepath.Join(dir, "c"), "old c")
	for _, f := range files("a", "b", "c") {
		require.NoError(t, s.stage(filepath.Join(dir, f.Name), f.Data, Shared))
	}
	require.NoError(t, os.Remove(s.moves[2].aside))
	require.ErrorIs(t, s.move(), fs.ErrNotExist)
	s.end()
	require.Equal(t, map[string]string{"a": "old a", "c": "old c"}, lies(t, dir))
}

// A file system of 64 kB is full before the set is written. This needs the right to mount a
// file system.
func TestAFullDiskLeavesThingsAsTheyWere(t *testing.T) {
	dir := t.TempDir()
	mount(t, dir, 64<<10)
	put(t, filepath.Join(dir, "b"), "old b")
	for _, each := range []int{20 << 10, 200 << 10} {
		var set []File
		for _, n := range []string{"a", "b", "c", "d"} {
			set = append(set, File{n, make([]byte, each)})
		}
		_, err := WriteSet(filepath.Join(dir, "in"), set)
		require.ErrorIs(t, err, syscall.ENOSPC)
		require.Contains(t, err.Error(), "no space left on device")
		require.NotContains(t, err.Error(), hidden)
		_, err = WriteSet(dir, set)
		require.ErrorIs(t, err, syscall.ENOSPC)
		require.Equal(t, map[string]string{"b": "old b"}, lies(t, dir))
		require.ErrorIs(t, WriteFile(filepath.Join(dir, "b"), make([]byte, 5*each), Shared), syscall.ENOSPC)
		require.Equal(t, map[string]string{"b": "old b"}, lies(t, dir))
	}
}

func mount(t *testing.T, dir string, bytes int) {
	t.Helper()
	if runtime.GOOS != "linux" || os.Geteuid() != 0 {
		t.Skip("only root of a Linux system can mount a file system of limited size")
	}
	if err := mountTmpfs(dir, bytes); err != nil {
		t.Skipf("a file system of limited size can't be mounted: %v", err)
	}
	t.Cleanup(func() { require.NoError(t, unmount(dir)) })
}

func TestAFileIsReplacedAndKeepsWhatItsOwnerGaveIt(t *testing.T) {
	dir := t.TempDir()
	file, link := filepath.Join(dir, "real"), filepath.Join(dir, "link")
	require.NoError(t, WriteFile(file, []byte("1"), Private))
	st, err := os.Stat(file)
	require.NoError(t, err)
	require.Equal(t, Private, st.Mode().Perm())
	require.NoError(t, os.Chmod(file, 0o640))
	require.NoError(t, os.Symlink("real", link))
	require.NoError(t, WriteFile(link, []byte("2"), Shared))
	st, err = os.Lstat(file)
	require.NoError(t, err)
	require.Equal(t, fs.FileMode(0o640), st.Mode().Perm())
	to, err := os.Readlink(link)
	require.NoError(t, err, "a link stays one")
	require.Equal(t, "real", to)
	require.NoError(t, os.Remove(file))
	require.NoError(t, WriteFile(link, []byte("3"), Shared), "through a dangling link the file is made")
	require.Equal(t, "3", lies(t, dir)["real"])
}

func TestWhatEndedProgramsLeftIsRemovedAfterADay(t *testing.T) {
	dir := t.TempDir()
	long := filepath.Join(dir, hidden+"1"+isNew)
	just, kept := filepath.Join(dir, hidden+"2"+isNew), filepath.Join(dir, hidden+"1"+isNew+isOld)
	for _, f := range []string{long, just, kept} {
		put(t, f, "x")
	}
	day := time.Now().Add(-25 * time.Hour)
	require.NoError(t, errors.Join(os.Chtimes(long, day, day), os.Chtimes(kept, day, day)))
	_, err := WriteSet(dir, files("a"))
	require.NoError(t, err)
	var names []string
	for n := range lies(t, dir) {
		names = append(names, n)
	}
	require.ElementsMatch(t, []string{"a", filepath.Base(just), filepath.Base(kept)}, names)
	require.True(t, strings.HasPrefix(hidden, "."))
}

// A program that is ended at any step leaves hidden files; the next one that writes there
// takes them away if nothing had been moved, or else moves the rest.
func TestWhatAnEndedProgramLeftIsSettledByTheNext(t *testing.T) {
	for moved := -1; moved <= 3; moved++ { // -1: the list of moves is not whole
		dir := t.TempDir()
		put(t, filepath.Join(dir, "a"), "old a")
		put(t, filepath.Join(dir, "b"), "old b")
		s, err := begin(dir)
		require.NoError(t, err)
		for _, f := range files("a", "b", "c") {
			require.NoError(t, s.stage(filepath.Join(dir, f.Name), f.Data, Shared))
		}
		require.NoError(t, s.writeMoves())
		want := map[string]string{"a": "new a", "b": "new b", "c": "new c", "other": "new other"}
		if moved < 0 {
			want = map[string]string{"a": "old a", "b": "old b", "other": "new other"}
			require.NoError(t, os.Truncate(s.file(isMoves), 10))
		}
		for i := range moved {
			require.NoError(t, s.moves[i].do(true))
		}
		had := lies(t, dir)
		_, err = WriteSet(dir, files("other"))
		require.NoError(t, err)
		had["other"] = "new other"
		require.Equal(t, had, lies(t, dir), "what is being written is left alone")
		require.NoError(t, s.lock.Close()) // as the system does when a program ends
		require.NoError(t, WriteFile(filepath.Join(dir, "other"), []byte("new other"), Shared))
		require.Equal(t, want, lies(t, dir), "%d moved", moved)
	}
}

// A file that somebody has put there since, or that stands in the way, is not replaced.
func TestSettlingReplacesNothingThatCameLater(t *testing.T) {
	dir := t.TempDir()
	s, err := begin(dir)
	require.NoError(t, err)
	for _, f := range files("a", "b", "c") {
		require.NoError(t, s.stage(filepath.Join(dir, f.Name), f.Data, Shared))
	}
	require.NoError(t, s.writeMoves())
	require.NoError(t, s.lock.Close())
	put(t, filepath.Join(dir, "a"), "later a")
	later := time.Now().Add(time.Minute)
	require.NoError(t, os.Chtimes(filepath.Join(dir, "a"), later, later))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "b"), 0o755))
	require.NoError(t, WriteFile(filepath.Join(dir, "x"), []byte("x"), Shared))
	require.Equal(t, "later a", lies(t, dir)["a"])
	require.Equal(t, "folder", lies(t, dir)["b"])
	require.NoError(t, os.Remove(filepath.Join(dir, "b")))
	require.NoError(t, WriteFile(filepath.Join(dir, "x"), []byte("x"), Shared))
	require.Equal(t, map[string]string{"a": "later a", "b": "new b", "c": "new c", "x": "x"}, lies(t, dir))
}
