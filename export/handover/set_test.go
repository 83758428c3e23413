package handover

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/pattern/project"
)

func TestEveryFormatGivesTheSameBytesTwice(t *testing.T) {
	s, r := sample.Cuff()
	for _, f := range Gets(export.Anyone(), export.Options{}) {
		for _, o := range []export.Options{{}, {Paper: export.Letter, Process: export.Laser}} {
			var a, b bytes.Buffer
			require.NoError(t, f.Write(&a, s, r, o))
			require.NoError(t, f.Write(&b, s, r, o))
			assert.True(t, bytes.Equal(a.Bytes(), b.Bytes()), f.Key)
		}
	}
}

func TestAPartInPiecesIsNotWritten(t *testing.T) {
	s, r := sample.Cuff()
	r.Pieces = 3
	dir := t.TempDir()
	files, err := Write(dir, "cuff", s, r, export.Options{}, export.Anyone())
	require.ErrorIs(t, err, export.ErrPieces)
	assert.ErrorContains(t, err, "3 pieces")
	assert.Empty(t, files)
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left)
	for _, f := range Gets(export.Anyone(), export.Options{}) {
		var b bytes.Buffer
		assert.ErrorIs(t, f.Write(&b, s, r, export.Options{}), export.ErrPieces, f.Key)
		assert.Zero(t, b.Len(), f.Key)
	}
}

func TestASetReplacesWholeFilesOnly(t *testing.T) {
	s, r := sample.Cuff()
	dir := filepath.Join(t.TempDir(), "new", "folder")
	for range 2 {
		files, err := Write(dir, "cuff", s, r, export.Options{}, export.Anyone())
		require.NoError(t, err)
		assert.Equal(t, []string{
			filepath.Join(dir, "cuff.svg"), filepath.Join(dir, "cuff.dxf"), filepath.Join(dir, "cuff-template.pdf"),
		}, files)
	}
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 3, "something was left behind")

	// A folder in the way is not replaced, and an error leaves the others as they were.
	require.NoError(t, os.Mkdir(filepath.Join(dir, "other.svg"), 0o777))
	_, err = Write(dir, "other", s, r, export.Options{}, export.Anyone())
	assert.Error(t, err)
	_, err = Write(dir, "third", s, r, export.Options{KerfMM: 0.99, Paper: "a4"}, export.Anyone())
	assert.NoError(t, err)
}

func TestUnsafeFileNamesAreRefused(t *testing.T) {
	for _, n := range []string{"", "..", ".", "a/b", `a\b`, "../x", "c:x", "a\x00b", "a\nb", "-rf", ".hidden",
		"nul", "COM1.old", "x ", "x.", "a*", strings.Repeat("a", 121), "\xff"} {
		assert.Error(t, CheckName(n), "%q", n)
	}
	for _, n := range []string{"cuff", "gull-rock 2", "Möwe", "a.b", "console"} {
		assert.NoError(t, CheckName(n), "%q", n)
	}
}

func TestFileNameOfAnyDesignIsSafe(t *testing.T) {
	assert.Equal(t, "gull-rock-cuff-no-2", FileName("Gull Rock cuff, no. 2"))
	for _, n := range []string{"", "///", "NUL", "..", strings.Repeat("é", 500), "\xff\xfe", "日本"} {
		assert.NoError(t, CheckName(FileName(n)), "%q", n)
	}
}

func TestSolidsAreWrittenOnlyWhenAskedFor(t *testing.T) {
	d, err := project.GalleryDesign("harbour-cuff")
	require.NoError(t, err)
	s, r := sample.Measured(t, d)
	dir := t.TempDir()
	count := func(o export.Options) int {
		paths, err := Write(dir, "part", s, r, o, export.Anyone())
		require.NoError(t, err)
		return len(paths)
	}
	assert.Equal(t, 3, count(export.Options{}))
	assert.Equal(t, 3+1, count(export.Options{Solids: []string{"stl"}}))
	assert.Equal(t, 3+2, count(export.Options{Solids: []string{"3mf", "stl"}}))
	for _, f := range []string{"part.stl", "part.3mf"} {
		_, err := os.Stat(dir + "/" + f)
		assert.NoError(t, err)
	}
}

func TestNothingIsWrittenIfTheReportCountsOtherwise(t *testing.T) {
	s, r := sample.Cuff()
	r.CutArea += 0.01
	dir := t.TempDir()
	_, err := Write(dir, "cuff", s, r, export.Options{}, export.Anyone())
	var e *export.ReadBackError
	require.ErrorAs(t, err, &e)
	assert.Equal(t, "cuff.svg", e.File)
	assert.ErrorContains(t, err, "the report counts")
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left)
}
