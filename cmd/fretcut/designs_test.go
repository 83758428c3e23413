package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/project"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestADashIsADesignOnStandardInput(t *testing.T) {
	_, ring, _ := call("gallery", "mooring-ring")
	_, want, _ := call("report", galleryFile(t, "mooring-ring", nil))
	code, out, errs := callWith(ring, "report", "-")
	require.Equal(t, fine, code, errs)
	require.Equal(t, want, out)

	dir := t.TempDir()
	code, _, errs = callWith(ring, "make", "-out", dir, "-summary", "-", "-", "-")
	require.Equal(t, fine, code, errs)
	require.FileExists(t, filepath.Join(dir, "mooring-ring.svg"), "named as the design is, and once")

	cuff := galleryFile(t, "harbour-cuff", nil)
	code, _, errs = callWith(ring, "make", "-out", dir, cuff, "-")
	require.Equal(t, fine, code, errs)
	require.FileExists(t, filepath.Join(dir, "mooring-ring", "mooring-ring.svg"))
	code, _, errs = callWith(ring, "make", "-out", dir, galleryFile(t, "mooring-ring", nil), "-")
	require.Equal(t, refused, code)
	require.Contains(t, errs, "both be made in the folder mooring-ring")

	code, out, errs = callWith(ring, "reach", "-lightest", "-")
	require.Equal(t, fine, code, errs)
	require.Contains(t, out, "bridge")

	for _, bad := range []string{"", `{"fretband": 2, "na`} {
		code, _, errs = callWith(bad, "report", "-")
		require.Equal(t, refused, code)
		require.Contains(t, errs, "fretcut: standard input: ")
	}
}

func TestFoldersInFoldersAreTaken(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("links need rights there")
	}
	in := t.TempDir()
	put := func(path string) {
		path = filepath.Join(in, path)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o777))
		d, err := project.GalleryDesign("mooring-ring")
		require.NoError(t, err)
		require.NoError(t, project.WriteFile(path, d))
	}
	put("ring.json")
	put("spring/ring.json")
	put("spring/ring/ring.json")
	put(".trash/ring.json")
	put("out/ring.json")
	require.NoError(t, os.Symlink(in, filepath.Join(in, "spring", "loop")))
	require.NoError(t, os.Symlink(in, filepath.Join(in, "spring", "loop.json")))
	require.NoError(t, os.Symlink(filepath.Join(in, "ring.json"), filepath.Join(in, "spring", "linked.json")))

	out := filepath.Join(in, "out")
	code, told, errs := call("make", "-out", out, "-summary", "-", in)
	require.Equal(t, fine, code, errs)
	var sum struct {
		Designs []struct{ Design, Folder string }
	}
	require.NoError(t, json.Unmarshal([]byte(told), &sum))
	var got [][2]string
	for _, d := range sum.Designs {
		from, err1 := filepath.Rel(in, d.Design)
		to, err2 := filepath.Rel(out, d.Folder)
		require.NoError(t, err1)
		require.NoError(t, err2)
		got = append(got, [2]string{from, to})
	}
	require.Equal(t, [][2]string{
		{"ring.json", "ring"},
		{"spring/linked.json", "spring/linked"},
		{"spring/ring/ring.json", "spring/ring/ring"},
		{"spring/ring.json", "spring/ring"},
	}, got)
	require.FileExists(t, filepath.Join(out, "spring", "ring", "ring", "ring.svg"))

	// A link that leads nowhere is reported, and stops no other.
	require.NoError(t, os.Symlink("nowhere", filepath.Join(in, "spring", "gone.json")))
	code, _, errs = call("report", filepath.Join(in, "spring"))
	require.Equal(t, refused, code)
	require.Contains(t, errs, "gone.json")
}

func TestReachTellsByItsExitCodeThatNoWayGetsThere(t *testing.T) {
	file := galleryFile(t, "harbour-cuff", func(d *pattern.Design) { d.Rules.RimMM = 5 })
	code, out, errs := call("reach", "-taken", "90", file)
	require.Equal(t, breach, code, errs)
	require.Contains(t, out, "does not get there")
}

// Where the shell leaves patterns to the program, they are the files that they fit.
func TestPatternsAreExpanded(t *testing.T) {
	dir := t.TempDir()
	at := func(p string) string { return filepath.Join(dir, p) }
	for _, name := range []string{"a.fretband", "b.fretband", "c.json", "odd[1].fretband"} {
		code, _, errs := call("gallery", "tide-bangle", "-out", at(name))
		require.Equal(t, fine, code, errs)
	}
	assert.Equal(t, []string{at("a.fretband"), at("b.fretband"), at("odd[1].fretband"), at("none*"), at("odd[1].fretband")},
		expanded([]string{at("*.fretband"), at("none*"), at("odd[1].fretband")}))
	_, one, _ := call("report", at("a.fretband"))
	code, two, errs := call("report", at("?.fretband"))
	require.Equal(t, fine, code, errs)
	assert.Greater(t, len(two), 2*len(one)-10)
	// A file that is there and is another design is not replaced unasked.
	code, _, errs = call("gallery", "harbour-cuff", "-out", at("a.fretband"))
	assert.Equal(t, refused, code)
	assert.Contains(t, errs, "-replace")
	code, _, errs = call("gallery", "harbour-cuff", "-replace", "-out", at("a.fretband"))
	assert.Equal(t, fine, code, errs)
	code, _, _ = call("gallery", "-out", at("x.fretband"))
	assert.Equal(t, refused, code)
}

func TestTheVersionIsTold(t *testing.T) {
	code, out, _ := call("version")
	assert.Equal(t, fine, code)
	assert.Contains(t, out, "fretcut "+export.Version)
}
