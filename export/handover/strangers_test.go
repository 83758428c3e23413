package handover

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
)

func ringNamed(t *testing.T, name string) (*pattern.Sheet, *check.Report) {
	t.Helper()
	d, err := project.GalleryDesign("mooring-ring")
	require.NoError(t, err)
	d.Name = name
	require.NoError(t, d.Check())
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	return s, check.All(s)
}

// Whatever the format, a file says of which design it is made.
func TestEveryFileTellsOfWhichDesignItIsMade(t *testing.T) {
	s, r := ringNamed(t, `100 % <b>&amp; (a\b) -- "quoted"`)
	for _, f := range Formats() {
		for _, curves := range export.AllCurves() {
			if f.Key != "dxf" && curves != export.Arcs {
				continue
			}
			var b bytes.Buffer
			require.NoError(t, f.Write(&b, s, r, export.Options{Curves: curves}), f.Key)
			got, ok := packedTag(b.Bytes())
			require.True(t, ok, "%s tells nothing", f.Key)
			assert.Equal(t, export.ContentNumber(s.Design), got.Content, f.Key)
			assert.True(t, got.Of(s.Design, nil), f.Key)
			if f.Key == "picture-png" {
				_, err := png.Decode(&b)
				require.NoError(t, err, "the text is a chunk of the standard, with its sum")
			}
			if f.Key != "stl" { // its header has room for a few letters
				assert.Equal(t, s.Design.Name, got.Called(), f.Key)
			}
		}
	}
}

// A set takes the place of files of its own design, whatever edits lie between, and of
// nobody else's, unless it is asked to.
func TestASetReplacesItsOwnFilesAndAsksForOthers(t *testing.T) {
	mine, r := ringNamed(t, "Mine")
	edited := *mine
	edited.Design.Rules.RimMM += 0.01 // another content number
	edited.Design.Note = "made anew"
	renamed := edited
	renamed.Design.Name = "Mine too"
	other, or := ringNamed(t, "Not mine")
	unnamed, ur := ringNamed(t, pattern.Untitled)
	unnamed2 := *unnamed
	unnamed2.Design.Note = "another one"
	v := export.Receiver{Key: "laser", Formats: []string{"dxf", "note"}}
	dir := t.TempDir()
	make := func(s *pattern.Sheet, r *check.Report, o export.Options) ([]string, error) {
		return Write(dir, "ring", s, r, o, v)
	}
	paths, err := make(mine, r, export.Options{})
	require.NoError(t, err)
	_, err = make(mine, r, export.Options{})
	require.NoError(t, err, "the same again")
	_, err = make(&edited, r, export.Options{})
	require.NoError(t, err, "after an edit")
	_, err = make(&renamed, r, export.Options{Earlier: []string{export.ContentNumber(edited.Design)}})
	require.NoError(t, err, "after another name was given, known by its content")
	was := contents(t, dir)

	_, err = make(other, or, export.Options{})
	var e *StrangersError
	require.ErrorAs(t, err, &e)
	require.Len(t, e.Files, len(paths), "all of them are named")
	require.Equal(t, was, contents(t, dir), "and nothing is touched")
	for _, p := range paths {
		require.ErrorContains(t, err, filepath.Base(p))
	}
	require.ErrorContains(t, err, `is of "Mine too", content number `+export.ContentNumber(renamed.Design))
	_, err = make(other, or, export.Options{Replace: true})
	require.NoError(t, err)
	require.NotEqual(t, was, contents(t, dir))

	require.NoError(t, os.WriteFile(paths[0], []byte("a letter"), 0o644))
	_, err = make(other, or, export.Options{})
	require.ErrorAs(t, err, &e)
	require.Equal(t, []Stranger{{File: filepath.Base(paths[0])}}, e.Files)
	require.ErrorContains(t, err, "is of no known design")
	require.NoError(t, os.Remove(paths[0]))
	_, err = make(other, or, export.Options{})
	require.NoError(t, err, "a file that is missing is in nobody's way")

	_, err = make(unnamed, ur, export.Options{Replace: true})
	require.NoError(t, err)
	_, err = make(unnamed, ur, export.Options{})
	require.NoError(t, err)
	_, err = make(&unnamed2, ur, export.Options{})
	require.ErrorContains(t, err, "is of \"Untitled\", content number")
}

func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	is := map[string]string{}
	for _, e := range entries {
		b, err := os.ReadFile(filepath.Join(dir, e.Name()))
		require.NoError(t, err)
		is[e.Name()] = string(b)
	}
	return is
}
