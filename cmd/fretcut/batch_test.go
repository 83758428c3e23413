package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"

	"github.com/stretchr/testify/require"
)

// folderOf writes a folder of designs: two good ones, one with a stone over the edge,
// one that is no design, and a hidden file.
func folderOf(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	put := func(name, gallery string, change func(*pattern.Design)) {
		d, err := project.GalleryDesign(gallery)
		require.NoError(t, err)
		if change != nil {
			change(&d)
		}
		require.NoError(t, project.WriteFile(filepath.Join(dir, name), d))
	}
	put("a-ring.json", "mooring-ring", nil)
	put("b-stone.json", "mooring-ring", func(d *pattern.Design) {
		d.Reserves = []pattern.Reserve{{Shape: pattern.CircleShape, YMM: d.Band.WidthMM / 2, WidthMM: 3, MarginMM: 0.5, Note: "stone"}}
	})
	put("d-cuff.JSON", "harbour-cuff", nil)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "c-torn.json"), []byte(`{"fretband": 2, "na`), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, ".hidden.json"), []byte(`no design`), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "note.txt"), []byte(`no design`), 0o644))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "older.json"), 0o755))
	return dir
}

// tree reads all files under dir by their path in it.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	require.NoError(t, filepath.Walk(dir, func(path string, info os.FileInfo, err error) error {
		if err != nil || info.IsDir() {
			return err
		}
		b, err := os.ReadFile(path)
		rel, _ := filepath.Rel(dir, path)
		files[filepath.ToSlash(rel)] = string(b)
		return err
	}))
	return files
}

func TestAFolderOfDesignsIsMadeAndSummedUp(t *testing.T) {
	in, out := folderOf(t), t.TempDir()
	file := filepath.Join(t.TempDir(), "new", "summary.json")
	args := []string{"make", "-for", "laser", "-copies", "3", "-out", out, "-summary", file, in}
	code, said, errs := call(args...)
	require.Equal(t, refused, code, "the worst of all")
	require.Equal(t, 1, strings.Count(errs, "\n"), errs)
	require.Contains(t, errs, "c-torn.json")
	require.Contains(t, said, "4 designs: 3 made, 1 not made, 1 with a broken rule")
	// Told in the order of the names.
	at := -1
	for _, name := range []string{"a-ring", "b-stone", "c-torn", "d-cuff"} {
		next := strings.Index(said, filepath.Join(in, name+"."))
		require.Greater(t, next, at, name)
		at = next
	}

	b, err := os.ReadFile(file)
	require.NoError(t, err)
	var sum struct {
		Designs []struct {
			Design, Name, Receiver, Folder, Error string
			Content                               string `json:"content_number"`
			Exit, Copies                          int
			Files                                 []struct {
				Name, What, Sha256 string
				Bytes              int
			}
			Left     *float64 `json:"left_g"`
			Removed  float64  `json:"removed_g"`
			Open     float64  `json:"open_share"`
			Thinnest float64  `json:"thinnest_mm"`
			Openings int
			Pieces   int
			Breaches int
			Findings []struct{ Severity, Check, What string }
		}
		Totals struct {
			Designs, Made, Refused, Breached int
			Left                             float64 `json:"left_g"`
		}
	}
	require.NoError(t, json.Unmarshal(b, &sum))
	var exits []int
	total := 0.0
	made := tree(t, out)
	for _, d := range sum.Designs {
		exits = append(exits, d.Exit)
		require.Equal(t, "laser", d.Receiver)
		require.Equal(t, 3, d.Copies)
		if d.Error != "" {
			require.Contains(t, d.Error, "c-torn.json")
			require.Empty(t, d.Files)
			require.Nil(t, d.Left)
			continue
		}
		total += 3 * *d.Left
		laser, _ := export.ReceiverByKey("laser")
		require.Len(t, d.Files, len(laser.Formats))
		for _, f := range d.Files {
			require.NotEmpty(t, f.What, f.Name)
			path := filepath.ToSlash(filepath.Join(filepath.Base(d.Folder), f.Name))
			body, there := made[path]
			require.True(t, there, path)
			require.Equal(t, fmt.Sprintf("%x", sha256.Sum256([]byte(body))), f.Sha256, path)
			require.Len(t, body, f.Bytes, path)
			delete(made, path)
		}
		// The figures are those of the report.
		_, told, _ := call("report", "-json", d.Design)
		var r struct {
			Name     string
			Left     float64 `json:"left_g"`
			Removed  float64 `json:"removed_g"`
			Open     float64 `json:"open_share"`
			Thinnest float64 `json:"thinnest_mm"`
			Openings int
			Findings []struct{ Severity string }
		}
		require.NoError(t, json.Unmarshal([]byte(told), &r))
		require.Equal(t, []any{r.Name, r.Left, r.Removed, r.Open, r.Thinnest, r.Openings, len(r.Findings)},
			[]any{d.Name, *d.Left, d.Removed, d.Open, d.Thinnest, d.Openings, len(d.Findings)})
		require.Equal(t, d.Exit == breach, d.Breaches > 0)
		require.Len(t, d.Content, 8)
	}
	require.Empty(t, made, "no file but those of the summary")
	require.Equal(t, []int{fine, breach, refused, fine}, exits)
	require.Equal(t, []int{4, 3, 1, 1}, []int{sum.Totals.Designs, sum.Totals.Made, sum.Totals.Refused, sum.Totals.Breached})
	require.InDelta(t, total, sum.Totals.Left, 1e-9)

	// Once more, elsewhere: the same bytes; and the summary alone on standard output.
	again := t.TempDir()
	args[6] = again
	args[8] = "-"
	_, alone, _ := call(args...)
	require.Equal(t, tree(t, out), tree(t, again))
	require.Equal(t, string(b), strings.ReplaceAll(alone, again, out))
}

func TestADesignThatFallsToPiecesIsNotMadeAndStopsNoOther(t *testing.T) {
	// The rule of the bridge leaves no design file that falls to pieces, so that its
	// report is made to say so.
	in, dir := folderOf(t), t.TempDir()
	mk := task{dir: dir, apart: true, receiver: export.Anyone(), load: func(i item) (*pattern.Sheet, *check.Report, error) {
		s, r, err := load(i)
		if err == nil && strings.Contains(i.path, "a-ring") {
			r.Pieces = 2
		}
		return s, r, err
	}}
	items, _ := designs([]string{filepath.Join(in, "a-ring.json"), filepath.Join(in, "d-cuff.JSON")}, nil, dir)
	var out, errs bytes.Buffer
	code, err := mk.all(items, "", &out, &errs)
	require.NoError(t, err)
	require.Equal(t, breach, code)
	require.Contains(t, errs.String(), "a-ring.json: 2 pieces")
	require.Contains(t, out.String(), "2 designs: 1 made, 1 not made")
	require.NoDirExists(t, filepath.Join(dir, "a-ring"))
	require.FileExists(t, filepath.Join(dir, "d-cuff", "d-cuff.svg"))
}

func TestDesignsOfOneFileNameAreRefusedBeforeAnythingIsWritten(t *testing.T) {
	one, other := galleryFile(t, "mooring-ring", nil), galleryFile(t, "mooring-ring", nil)
	dir := filepath.Join(t.TempDir(), "out")
	code, out, errs := call("make", "-out", dir, one, other)
	require.Equal(t, refused, code)
	require.Empty(t, out)
	require.Contains(t, errs, one+" and "+other+" would both be made in the folder mooring-ring")
	require.NoDirExists(t, dir)
	// The same file named twice is one design.
	code, _, errs = call("make", "-out", dir, one, filepath.Join(filepath.Dir(one), ".", filepath.Base(one)))
	require.Equal(t, fine, code, errs)
	require.FileExists(t, filepath.Join(dir, "mooring-ring.svg"))
	// A summary does not take a design's place.
	code, _, errs = call("make", "-out", dir, "-summary", one, one)
	require.Equal(t, refused, code)
	require.Contains(t, errs, "is the design itself")
	// An empty folder is reported.
	code, _, errs = call("make", "-out", dir, t.TempDir())
	require.Equal(t, refused, code)
	require.Contains(t, errs, "holds no design file")
}

func TestReportsOfAFolderAreAList(t *testing.T) {
	code, out, errs := call("report", "-json", folderOf(t))
	require.Equal(t, refused, code)
	require.Contains(t, errs, "c-torn.json")
	var rs []*struct {
		Left float64 `json:"left_g"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &rs))
	require.Len(t, rs, 4)
	require.Nil(t, rs[2], "the one that can't be read")
	require.Greater(t, rs[0].Left, 0.0)
}
