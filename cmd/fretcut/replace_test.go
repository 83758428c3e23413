package main

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fretband/export"
	"fretband/pattern"

	"github.com/stretchr/testify/require"
)

// designAt writes a design of the gallery to path, with a name and a rim of its own.
func designAt(t *testing.T, path, name string, rimMM float64) string {
	t.Helper()
	b, err := os.ReadFile(galleryFile(t, "mooring-ring", func(d *pattern.Design) { d.Name, d.Rules.RimMM = name, rimMM }))
	require.NoError(t, err)
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o777))
	require.NoError(t, os.WriteFile(path, b, 0o644))
	return path
}

func TestFilesOfAnotherDesignAreReplacedOnlyOnRequest(t *testing.T) {
	dir, out := t.TempDir(), t.TempDir()
	mine := designAt(t, filepath.Join(dir, "a", "ring.json"), "Mine", 1)
	edited := designAt(t, filepath.Join(dir, "b", "ring.json"), "Mine", 1.1)
	other := designAt(t, filepath.Join(dir, "c", "ring.json"), "Other", 1)
	for _, path := range []string{mine, mine, edited} {
		code, _, errs := call("make", "-out", out, path)
		require.Equal(t, fine, code, errs)
	}
	was := tree(t, out)
	require.Len(t, was, 3)
	sum := filepath.Join(dir, "sum.json")
	code, said, errs := call("make", "-out", out, "-summary", sum, other)
	require.Equal(t, refused, code)
	require.Equal(t, 1, strings.Count(errs, "\n"), errs)
	require.Contains(t, errs, other)
	require.Contains(t, errs, `ring.dxf is of "Mine", content number `)
	require.Contains(t, errs, "or say -replace")
	require.Empty(t, said)
	require.Equal(t, was, tree(t, out))
	b, err := os.ReadFile(sum)
	require.NoError(t, err)
	var told struct {
		Designs []struct {
			Exit     int
			Error    string
			Content  string `json:"content_number"`
			Files    []any
			InTheWay []struct {
				Name, Design string
				Content      string `json:"content_number"`
			} `json:"in_the_way"`
		}
		Totals struct{ Made, Refused int }
	}
	require.NoError(t, json.Unmarshal(b, &told))
	require.Equal(t, []int{0, 1}, []int{told.Totals.Made, told.Totals.Refused})
	d := told.Designs[0]
	require.Equal(t, refused, d.Exit)
	require.Contains(t, d.Error, "nothing is written")
	require.Empty(t, d.Files)
	require.Len(t, d.InTheWay, 3)
	require.Equal(t, "ring.svg", d.InTheWay[0].Name)
	require.Equal(t, "Mine", d.InTheWay[0].Design)
	require.Len(t, d.InTheWay[0].Content, 8)
	require.NotEqual(t, d.Content, d.InTheWay[0].Content)

	code, _, errs = call("make", "-out", out, "-replace", "-summary", sum, other)
	require.Equal(t, fine, code, errs)
	require.NotEqual(t, was, tree(t, out))
	b, err = os.ReadFile(sum)
	require.NoError(t, err)
	require.NotContains(t, string(b), "in_the_way")
}

func TestWhatStandsInTheWayOfASummaryOrAWayIsReplacedOnlyOnRequest(t *testing.T) {
	dir := t.TempDir()
	ring := designAt(t, filepath.Join(dir, "ring.json"), "Ring", 1)
	other := designAt(t, filepath.Join(dir, "other.json"), "Other", 1)
	letter := filepath.Join(dir, "letter.txt")
	require.NoError(t, os.WriteFile(letter, []byte("a letter"), 0o644))
	was := tree(t, dir)
	out := filepath.Join(t.TempDir(), "out")
	for _, way := range []string{other, letter} {
		code, _, errs := call("make", "-out", out, "-summary", way, ring)
		require.Equal(t, refused, code)
		require.Contains(t, errs, "is no summary, so nothing is written")
		require.NoDirExists(t, out)
		code, _, errs = call("reach", "-taken", "20", "-way", "bridge", "-out", way, ring)
		require.Equal(t, refused, code)
		require.Contains(t, errs, "-replace")
	}
	require.Equal(t, was, tree(t, dir))
	same := designAt(t, filepath.Join(dir, "lighter.json"), "Ring", 1.2)
	for _, args := range [][]string{{"-out", same}, {"-out", letter, "-replace"}} {
		code, _, errs := call(append([]string{"reach", "-lightest", "-way", "lightest", ring}, args...)...)
		require.NotContains(t, errs, "-replace", "%d", code)
	}
}

func TestAFolderThatCantBeMadeIsToldPlainly(t *testing.T) {
	dir := t.TempDir()
	link := filepath.Join(dir, "link")
	require.NoError(t, os.Symlink(filepath.Join(dir, "nowhere"), link))
	code, _, errs := call("make", "-out", link, galleryFile(t, "mooring-ring", nil))
	require.Equal(t, refused, code)
	require.Contains(t, errs, "link: is a link to "+filepath.Join(dir, "nowhere")+", which can't be opened: make that folder, remove the link, or choose another folder")
}

// What one receiver was given stays as it was when another gets his files of the same
// design, made with other options, into the same folder. So each job sheet's checksums fit
// the files beside it, and each note the cut files that it is about.
func TestReceiversInOneFolderNeverReplaceEachOthersFiles(t *testing.T) {
	ring := designAt(t, filepath.Join(t.TempDir(), "ring.json"), "Ring", 1)
	whom := []string{""}
	for _, v := range export.Receivers() {
		whom = append(whom, v.Key)
	}
	checksum := regexp.MustCompile(`\b[0-9a-f]{64}\b`)
	for range 2 { // in this order, and in the opposite one
		out, was := t.TempDir(), map[string]string{}
		for i, to := range whom {
			args := []string{"make", "-for", to, "-kerf", fmt.Sprintf("0.0%d", i+1), "-copies", fmt.Sprint(i + 1), "-out", out, ring}
			if to == "" {
				args = slices.Insert(args, 1, "-solid", "stl,3mf")
			}
			code, _, errs := call(args...)
			require.Equal(t, fine, code, errs)
			is := tree(t, out)
			for name, text := range was {
				require.True(t, is[name] == text, "%s is not what it was before the files for %q came", name, to)
			}
			require.Greater(t, len(is), len(was))
			was = is
		}
		sums, sheets := map[string]bool{}, 0
		for _, text := range was {
			sums[fmt.Sprintf("%x", sha256.Sum256([]byte(text)))] = true
		}
		for name, text := range was {
			if !strings.HasSuffix(name, "-job.html") {
				continue
			}
			sheets++
			listed := checksum.FindAllString(text, -1)
			require.NotEmpty(t, listed, name)
			for _, sum := range listed {
				require.True(t, sums[sum], "%s lists %s, which no file has", name, sum)
			}
		}
		require.Equal(t, 3, sheets)
		slices.Reverse(whom)
	}
}
