package main

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/report"
	"fretband/pattern"
	"fretband/pattern/check"
)

// spoilt loads designs and spoils their reports, as a fault of the program would: no
// design is known that brings one about.
func spoilt(spoil func(*check.Report)) loader {
	return func(i item) (*pattern.Sheet, *check.Report, error) {
		s, r, err := load(i)
		if err == nil {
			spoil(r)
		}
		return s, r, err
	}
}

func TestAFileThatReadsBackWrongIsTheProgramsFault(t *testing.T) {
	path, dir := galleryFile(t, "mooring-ring", nil), filepath.Join(t.TempDir(), "out")
	mk := task{dir: dir, receiver: export.Anyone(), load: spoilt(func(r *check.Report) { r.CutArea++ })}
	items, _ := designs([]string{path}, nil, dir)
	var out, errs bytes.Buffer
	code, err := mk.all(items, "", &out, &errs)
	require.NoError(t, err)
	require.Equal(t, ours, code)
	require.Contains(t, errs.String(), "read back before writing: the openings enclose")
	require.Contains(t, errs.String(), "The design is fine: this is a fault of Fretband. Please report it")
	require.NoDirExists(t, dir)
}

func TestAReportThatCannotBeEncodedIsTheProgramsFault(t *testing.T) {
	path := galleryFile(t, "mooring-ring", nil)
	items, _ := designs([]string{path}, nil, "")
	for _, odd := range []float64{math.NaN(), math.Inf(1)} {
		got := tellOf(items[0], spoilt(func(r *check.Report) { r.Left = odd }), report.JSON)
		require.Equal(t, ours, got.exit)
		require.ErrorContains(t, got.err, path)
		require.ErrorContains(t, got.err, "Please report it together with the design file")
		require.Empty(t, got.text)
	}
}

func TestOpeningsLaidTooNearAreTheProgramsFault(t *testing.T) {
	path, dir := galleryFile(t, "mooring-ring", nil), filepath.Join(t.TempDir(), "out")
	broken := func(i item) (*pattern.Sheet, *check.Report, error) {
		return nil, nil, fmt.Errorf("%s: %w", i, &check.FaultError{Openings: []int{3, 4}, What: "the metal between openings 3 and 4 is 0.000000 mm wide"})
	}
	items, _ := designs([]string{path}, nil, dir)
	got := tellOf(items[0], broken, report.Text)
	require.Equal(t, ours, got.exit)
	require.ErrorContains(t, got.err, "between openings 3 and 4")
	require.ErrorContains(t, got.err, "this is a fault of Fretband")
	var out, errs bytes.Buffer
	code, err := task{dir: dir, load: broken}.all(items, "", &out, &errs)
	require.NoError(t, err)
	require.Equal(t, ours, code)
	require.NoDirExists(t, dir)
}

func TestAPanicIsOurFault(t *testing.T) {
	var errs bytes.Buffer
	require.Equal(t, ours, run([]string{"help"}, nil, nil, &errs), "there is nothing to write to")
	require.Contains(t, errs.String(), "fault of Fretband")
	require.Contains(t, errs.String(), "goroutine", "where it was is told for the report")
}
