package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/project"
)

// call runs the program and returns its exit code and what it printed.
func call(args ...string) (code int, out, errs string) { return callWith("", args...) }

// callWith is call with something on standard input.
func callWith(in string, args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = run(args, strings.NewReader(in), &o, &e)
	return code, o.String(), e.String()
}

// galleryFile writes a design of the gallery, changed, to a file.
func galleryFile(t *testing.T, name string, change func(*pattern.Design)) string {
	t.Helper()
	d, err := project.GalleryDesign(name)
	require.NoError(t, err)
	if change != nil {
		change(&d)
	}
	path := filepath.Join(t.TempDir(), name+".json")
	require.NoError(t, project.WriteFile(path, d))
	return path
}

func TestTheWholeJobWithoutAWindow(t *testing.T) {
	code, out, _ := call("gallery")
	require.Equal(t, fine, code)
	names := strings.Fields(out)
	require.Equal(t, project.Gallery(), names)
	for _, name := range names {
		code, out, errs := call("gallery", name)
		require.Equal(t, fine, code, errs)
		path := filepath.Join(t.TempDir(), name+".json")
		require.NoError(t, os.WriteFile(path, []byte(out), 0o644))

		code, out, errs = call("report", path)
		require.Equal(t, fine, code, errs)
		require.Contains(t, out, "thinnest bridge")

		code, out, errs = call("report", "-json", path)
		require.Equal(t, fine, code, errs)
		var r map[string]any
		require.NoError(t, json.Unmarshal([]byte(out), &r))
		for _, key := range []string{"plain_g", "removed_g", "left_g", "open_share", "blank_area_mm2", "removed_area_mm2",
			"blank_length_mm", "openings", "dropped", "cut_length_mm", "bridge_rule_mm", "thinnest_mm", "thinnest_at", "findings"} {
			require.Contains(t, r, key)
		}
		// What is left is what is not taken out; grams are volume times density, and
		// for sheet that is cut flat area times sheet times density.
		num := func(k string) float64 { return r[k].(float64) }
		require.InDelta(t, num("plain_g")-num("removed_g"), num("left_g"), 1e-9)
		require.InDelta(t, num("volume_mm3")*num("density_g_cm3")/1000, num("left_g"), 1e-9)
		if r["making"] == "flat" {
			require.InDelta(t, num("removed_area_mm2")*num("thickness_mm")*num("density_g_cm3")/1000, num("removed_g"), 1e-9)
		}
		require.InDelta(t, num("removed_area_mm2")/num("blank_area_mm2"), num("open_share"), 1e-12)
		at := r["thinnest_at"].([]any)
		a, b := at[0].([]any), at[1].([]any)
		require.InDelta(t, num("thinnest_mm"), math.Hypot(a[0].(float64)-b[0].(float64), a[1].(float64)-b[1].(float64)), 1e-9)

		dir := filepath.Join(t.TempDir(), "new", "folder")
		code, out, errs = call("make", path, "-out", dir, "-paper", "letter", "-kerf", "0.1")
		require.Equal(t, fine, code, errs)
		for _, suffix := range []string{".svg", ".dxf", "-template.pdf"} {
			file := filepath.Join(dir, name+suffix)
			require.Contains(t, out, file)
			info, err := os.Stat(file)
			require.NoError(t, err)
			require.Greater(t, info.Size(), int64(1000))
		}
	}
}

func TestABrokenRuleIsExitOneAndStillDescribed(t *testing.T) {
	path := galleryFile(t, "harbour-cuff", func(d *pattern.Design) {
		d.Reserves = []pattern.Reserve{{Shape: pattern.CircleShape, YMM: 14, WidthMM: 8, MarginMM: 1, Note: "stone"}}
	})
	code, out, errs := call("report", path)
	require.Equal(t, breach, code)
	require.Empty(t, errs)
	require.Contains(t, out, "partly off the blank")
	dir := t.TempDir()
	code, out, _ = call("make", "-out", dir, path)
	require.Equal(t, breach, code)
	require.Contains(t, out, "partly off the blank")
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, files, 3)
}

func TestBadInputAndUsageAreExitTwoWithOneLine(t *testing.T) {
	good := galleryFile(t, "mooring-ring", nil)
	broken := filepath.Join(t.TempDir(), "broken.json")
	require.NoError(t, os.WriteFile(broken, []byte(`{"fretband": 1, "name": 7}`), 0o644))
	dir := t.TempDir()
	for _, c := range []struct {
		args []string
		says string
	}{
		{nil, "report, strength, make, reach, lighten, gallery or version"},
		{[]string{"melt"}, `"melt"`},
		{[]string{"report"}, "name a design file"},
		{[]string{"reach", good, good}, "one too many"},
		{[]string{"report", "-colour", good}, "-colour"},
		{[]string{"report", filepath.Join(dir, "none.json")}, "none.json"},
		{[]string{"report", broken}, "name: must be text in quotes"},
		{[]string{"make", good}, "-out DIR"},
		{[]string{"make", "-out", dir}, "name a design file"},
		{[]string{"make", "-out", dir, "-kerf", "-1", good}, "kerf"},
		{[]string{"make", "-out", dir, "-kerf", "wide", good}, "wide"},
		{[]string{"make", "-out", dir, "-paper", "vellum", good}, "a4, letter"},
		{[]string{"make", "-out", good, good}, filepath.Base(good)},
		{[]string{"make", "-out", dir, "-curves", "splines", good}, "arcs, arcs-r12, chords"},
		{[]string{"make", "-out", dir, "-copies", "0.5", good}, "copies"},
		{[]string{"make", "-out", dir, "-sheet", "200", good}, "such as 200x100"},
		{[]string{"make", "-out", dir, "-sheet", "200x-1", good}, "such as 200x100"},
		{[]string{"make", "-out", dir, "-tabs", "99", good}, "tabs 99"},
		{[]string{"gallery", "attic"}, "harbour-cuff"},
	} {
		code, out, errs := call(c.args...)
		require.Equal(t, refused, code, "%v", c.args)
		require.Empty(t, out, "%v", c.args)
		require.Contains(t, errs, c.says, "%v", c.args)
		require.Equal(t, 1, strings.Count(errs, "\n"), "%v: %s", c.args, errs)
	}
}

func TestSolidsAreMadeOnRequest(t *testing.T) {
	path := galleryFile(t, "mooring-ring", nil)
	dir := t.TempDir()
	code, out, errs := call("make", "-out", dir, path)
	require.Equal(t, fine, code, errs)
	require.Len(t, strings.Fields(out), 3, "only the flat's files by default")
	code, out, errs = call("make", "-out", dir, "-solid", "stl,3mf", path)
	require.Equal(t, fine, code, errs)
	for _, suffix := range []string{".stl", ".3mf"} {
		file := filepath.Join(dir, "mooring-ring"+suffix)
		require.Contains(t, out, file)
		info, err := os.Stat(file)
		require.NoError(t, err)
		require.Greater(t, info.Size(), int64(10000))
	}
	code, _, errs = call("make", "-out", dir, "-solid", "clay", path)
	require.Equal(t, refused, code)
	require.Contains(t, errs, "stl, 3mf")
}

func TestReachShowsTheWaysAndWritesOne(t *testing.T) {
	dir := t.TempDir()
	from, to := filepath.Join(dir, "cuff.json"), filepath.Join(dir, "lighter.json")
	var out, errs bytes.Buffer
	require.Zero(t, run([]string{"gallery", "harbour-cuff"}, nil, &out, &errs))
	require.NoError(t, os.WriteFile(from, out.Bytes(), 0o666))
	out.Reset()
	require.Equal(t, fine, run([]string{"reach", "-taken", "25", "-way", "bridge", "-out", to, from}, nil, &out, &errs), errs.String())
	require.Contains(t, out.String(), "bridge 1.2 to ")
	out.Reset()
	require.Equal(t, fine, run([]string{"report", "-json", to}, nil, &out, &errs))
	var r struct {
		Plain float64 `json:"plain_g"`
		Left  float64 `json:"left_g"`
	}
	require.NoError(t, json.Unmarshal(out.Bytes(), &r))
	require.InEpsilon(t, 0.75*r.Plain, r.Left, 0.001)
	for _, bad := range [][]string{{"reach", from}, {"reach", "-left", "30", "-lightest", from}, {"reach", "-left", "-3", from}, {"reach", "-left", "30", "-way", "magic", "-out", to, from}} {
		require.Equal(t, refused, run(bad, nil, &out, &errs), bad)
	}
}

func TestMakeForAReceiver(t *testing.T) {
	file := galleryFile(t, "harbour-cuff", nil)
	dir := t.TempDir()
	code, out, errs := call("make", "-for", "bench", "-date", "a day", "-out", dir, file)
	require.Equal(t, fine, code, errs)
	require.Contains(t, out, "-job.pdf")
	require.NotContains(t, out, ".dxf")
	code, _, errs = call("make", "-for", "nobody", "-out", dir, file)
	require.Equal(t, refused, code)
	require.Contains(t, errs, "must be one of bench, laser, client, casting")
}

func TestWhatIsAskedOfTheCutSheetIsPassedOn(t *testing.T) {
	var o export.Options
	fs := flag.NewFlagSet("make", flag.ContinueOnError)
	optionFlags(fs, &o)
	_, err := parse(fs, []string{"-copies", "6", "-curves", "chords", "-chord", "0.01", "-lead", "1.5", "-tabs", "3", "-tab-width", "0.6",
		"-sheet", "200x100.5", "-gap", "4", "-margin", "8", "-kerf", "0.1", "-paper", "a3", "-process", "laser", "-solid", "stl,3mf", "-outline-colour", "red", "-date", "a day"}, 0)
	require.NoError(t, err)
	require.Equal(t, export.Options{Copies: 6, Curves: export.Chords, ChordMM: 0.01, LeadMM: 1.5, Tabs: 3, TabMM: 0.6,
		StockW: 200, StockH: 100.5, GapMM: 4, MarginMM: 8, KerfMM: 0.1, Paper: export.A3, Process: export.Laser, Solids: []string{"stl", "3mf"}, Stress: export.NoStress, Words: export.WordsKept, OpeningsColour: "black", OutlineColour: "red", EngravingColour: "grey", Date: "a day"}, o)
	require.NoError(t, o.Check())
}

// Each line of the table of what may be asked has its line in the usage, with what is usual.
func TestTheUsageTellsOfAllThatMayBeAsked(t *testing.T) {
	for _, a := range export.Asks() {
		flag := " -" + a.Key + " "
		if a.Sides {
			flag = " -sheet WIDTHxHEIGHT "
		}
		require.Contains(t, usage, flag)
	}
	require.Contains(t, usage, fmt.Sprintf("(%g)", export.UsualChordMM))
	require.Contains(t, usage, fmt.Sprintf("%g wide", export.UsualTabMM))
	require.Contains(t, usage, fmt.Sprintf("(%g, %g)", export.UsualGapMM, export.UsualMarginMM))
	require.Contains(t, usage, strings.Join(export.Papers(), "|"))
	require.Contains(t, usage, strings.Join(export.AllCurves(), "|"))
}

func TestHelpIsToldOnRequestOfAnyCommand(t *testing.T) {
	for _, args := range [][]string{{"help"}, {"make", "-h"}, {"report", "-help"}} {
		code, out, errs := call(args...)
		require.Equal(t, fine, code)
		require.Empty(t, errs)
		require.Contains(t, out, "-tab-width MM")
	}
}
