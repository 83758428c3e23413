package export

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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

// Whatever the format, a file tells of which design it is made.
func TestEveryFileTellsOfWhichDesignItIsMade(t *testing.T) {
	s, r := ringNamed(t, `100 % <b>&amp; (a\b) -- "quoted"`)
	for _, f := range AllFormats() {
		for _, curves := range AllCurves() {
			if f.Key != "dxf" && curves != Arcs {
				continue
			}
			var b bytes.Buffer
			require.NoError(t, f.Write(&b, s, r, Options{Curves: curves}), f.Key)
			got, ok := readTag(b.Bytes())
			require.True(t, ok, "%s tells nothing", f.Key)
			assert.Equal(t, ContentNumber(s.Design), got.content, f.Key)
			assert.True(t, got.of(s.Design, nil), f.Key)
			if f.Key == "picture-png" {
				_, err := png.Decode(&b)
				require.NoError(t, err, "the text is a chunk of the standard, with its sum")
			}
			if f.Key != "stl" { // its header has room for a few letters
				assert.Equal(t, s.Design.Name, got.called(), f.Key)
			}
		}
	}
}

// Whatever the name, and however little room there is for it.
func TestATagKnowsItsDesign(t *testing.T) {
	for _, name := range []string{
		"Mooring ring", pattern.Untitled, "fretband:", "a  b c", strings.Repeat("é", 40), strings.Repeat("long ", 15), strings.Repeat("%41", 26),
	} {
		s, _ := ringNamed(t, name)
		other := s.Design
		other.Rules.RimMM += 0.01
		other.Name = "Another"
		edited := other
		edited.Name = name
		for room := 27; room < 280; room += 11 {
			text := tagOf(s.Design, room)
			require.LessOrEqual(t, len(text), room)
			got, ok := readTag([]byte("before" + text + " behind"))
			require.True(t, ok, text)
			require.True(t, got.of(s.Design, nil), text)
			require.False(t, got.of(other, nil), text)
			require.True(t, got.of(other, []string{"12345678", got.content}), text)
			require.Equal(t, name != pattern.Untitled, got.of(edited, nil), "%s made anew after an edit", text)
			start := strings.TrimSuffix(got.called(), "...")
			require.True(t, strings.HasPrefix(plain(name), start), "%q", got.called())
			if room >= len(tagBegin)+18+3*80 {
				require.Equal(t, plain(name), start)
			}
		}
	}
}

func TestWhatTellsOfNoDesignIsAStrangers(t *testing.T) {
	for _, text := range []string{"", "fretband:", "fretband:12345678", "fretband:12345678:9ABCDEFX:name", "PK\x03\x04"} {
		_, ok := readTag([]byte(text))
		require.False(t, ok, "%q", text)
	}
	got, ok := readTag([]byte("...fretband:12345678:9ABCDEF0:a%2"))
	require.False(t, ok, "%v", got)
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
	v := Receiver{Key: "laser", Formats: []string{"dxf", "note"}}
	dir := t.TempDir()
	make := func(s *pattern.Sheet, r *check.Report, o Options) ([]string, error) {
		return HandOver(dir, "ring", s, r, o, v)
	}
	paths, err := make(mine, r, Options{})
	require.NoError(t, err)
	_, err = make(mine, r, Options{})
	require.NoError(t, err, "the same again")
	_, err = make(&edited, r, Options{})
	require.NoError(t, err, "after an edit")
	_, err = make(&renamed, r, Options{Earlier: []string{ContentNumber(edited.Design)}})
	require.NoError(t, err, "after another name was given, known by its content")
	was := contents(t, dir)

	_, err = make(other, or, Options{})
	var e *StrangersError
	require.ErrorAs(t, err, &e)
	require.Len(t, e.Files, len(paths), "all of them are named")
	require.Equal(t, was, contents(t, dir), "and nothing is touched")
	for _, p := range paths {
		require.ErrorContains(t, err, filepath.Base(p))
	}
	require.ErrorContains(t, err, `is of "Mine too", content number `+ContentNumber(renamed.Design))
	_, err = make(other, or, Options{Replace: true})
	require.NoError(t, err)
	require.NotEqual(t, was, contents(t, dir))

	require.NoError(t, os.WriteFile(paths[0], []byte("a letter"), 0o644))
	_, err = make(other, or, Options{})
	require.ErrorAs(t, err, &e)
	require.Equal(t, []Stranger{{File: filepath.Base(paths[0])}}, e.Files)
	require.ErrorContains(t, err, "is of no known design")
	require.NoError(t, os.Remove(paths[0]))
	_, err = make(other, or, Options{})
	require.NoError(t, err, "a file that is missing is in nobody's way")

	_, err = make(unnamed, ur, Options{Replace: true})
	require.NoError(t, err)
	_, err = make(unnamed, ur, Options{})
	require.NoError(t, err)
	_, err = make(&unnamed2, ur, Options{})
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

// One after the other in one folder, no receiver's set loses a paper to another's.
func TestReceiversInOneFolderKeepTheirPapers(t *testing.T) {
	s, r := ringNamed(t, "Ring")
	dir := t.TempDir()
	papers := map[string]string{}
	for _, v := range Receivers() {
		v.Formats = slices.DeleteFunc(v.Formats, func(key string) bool { return key != "note" && key != "dxf" && !strings.HasPrefix(key, "job-") })
		paths, err := HandOver(dir, "ring", s, r, Options{}, v)
		require.NoError(t, err)
		for _, p := range paths {
			f, ok := FormatOf("ring", p)
			require.True(t, ok, p)
			if f.job() {
				require.Contains(t, filepath.Base(p), "ring-"+v.Key+"-job.")
				b, err := os.ReadFile(p)
				require.NoError(t, err)
				papers[p] = string(b)
			}
		}
	}
	require.Len(t, papers, 6)
	for p, text := range papers {
		b, err := os.ReadFile(p)
		require.NoError(t, err)
		require.True(t, text == string(b), p)
	}
}

func FuzzReadTag(f *testing.F) {
	f.Add([]byte("fretband:12345678:9ABCDEF0:name"))
	f.Add([]byte("PK\x05\x06\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if got, ok := readTag(data); ok && (len(got.content) != 8 || len(got.nameNumber) != 8) {
			t.Fatalf("%+v", got)
		}
	})
}
