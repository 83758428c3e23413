package project

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The files are made by hand: a sound small ring with one fault each. Most are of
// version 1, whose faults are named as it names them.
func TestBrokenFilesAreRefusedWithAClearLine(t *testing.T) {
	want := map[string]string{
		"version-newer":             "fretband: made by a newer Fretband: version 6; this one reads 5",
		"version-zero":              "fretband: must be 1 to 5; it is 0",
		"version-text":              `fretband: must be a whole number; it is the text "1"`,
		"version-missing":           "fretband: is missing",
		"version-twice":             "fretband: is given twice, in line 2 and line 3",
		"another-kind-of-file":      "is this another kind of file?",
		"unknown-field":             `field.rws: is not a field of a design; did you mean "rows"?`,
		"unknown-field-in-capitals": `field.Bridge_MM: is not a field of a design; did you mean "bridge_mm"?`,
		"unknown-field-far-off":     "band.sparkle: is not a field of a design; here are allowed: kind, inside, gap_mm",
		"missing-rows":              "field.rows: is missing; it must be a whole number",
		"missing-band-width":        "band.width_mm: is missing; it must be a number",
		"missing-name":              "name: is missing; it must be text in quotes",
		"rows-as-text":              `field.rows: must be a whole number; it is the text "2"`,
		"rows-fraction":             "field.rows: must be a whole number; it is 2.5",
		"rows-negative":             "field.rows: must be a whole number from 1 to 60; it is -3",
		"rows-null":                 "field.rows: must be a whole number; it is null",
		"rows-huge":                 "field.rows: must be a whole number; it is 1e300",
		"name-null":                 "name: must be text in quotes; it is null",
		"band-list":                 "band.thickness: must be a group in braces {}; it is a list",
		"reserves-group":            "reserves: must be a list in brackets []; it is a group in braces",
		"reserve-number":            "reserves[0]: must be a group in braces {}; it is 7",
		"reserve-true":              "reserves[0].x_mm: must be a number; it is true",
		"nan":                       "field.bridge_mm: NaN in line 19 is not a number that can be used",
		"minus-infinity":            "field.bridge_mm: Infinity in line 19 is not a number that can be used",
		"too-large-a-number":        "field.bridge_mm: must be a number of a size that can be used; it is 1e999",
		"negative-thickness":        "band.thickness.mm: must be from 0.2 to 6 mm; it is -1.4",
		"absurd-bridge":             "field.bridge_mm: must be a number from 0.1 to 20; it is 9000",
		"own-number-as-text":        `field.numbers.size: must be a number; it is the text "half"`,
		"own-number-unknown":        "field.numbers",
		"given-twice":               "field.rows: is given twice, in line 16 and line 17; remove one",
		"given-twice-inside":        "band.inside.by: is given twice, in line 6 and line 6",
		"trailing-garbage":          "line 28: something follows after the design's closing brace",
		"trailing-comma":            "line 23, column 3: '}' can't stand here",
		"missing-comma":             `line 17, column 5: '"' can't stand here`,
		"comment":                   "line 16: comments are not allowed",
		"cut-off":                   "line 9: the file ends too early",
		"cut-off-in-text":           "line 3: the file ends too early",
		"empty":                     "the file is empty",
		"blank":                     "the file is empty",
		"only-a-number":             "the file must hold a group in braces {}; it holds 42",
		"a-list":                    "it holds a list",
		"not-utf8":                  "line 3: the file is not UTF-8 text",
		"utf16":                     "the file is UTF-16 text and ends within a character; save it as UTF-8",
		"deep":                      "line 1: nested more than 16 deep",
		"zip":                       "line 1, column 1: 'P' can't stand here",
		"kind-unknown":              `band.kind: must be "cuff", "bangle" or "ring"; it is "tiara"`,
		"gap-on-a-ring":             "band.gap_mm: a ring is closed and has no gap",
		"size-unclear":              "band.inside.scale: must be one of",
		"alloy-unknown":             `metal.alloy: "unobtainium" is not in the table`,
		"several-faults":            `field.rows: must be a whole number; it is the text "2"; field.repeats: must be a whole number; it is 18.5; field.stagger: is missing`,
		"many-faults":               "reserves[3]: must be a group in braces {}; it is 4; and 16 more",
		"key-with-a-line-break":     "field.ro\ufffdws: is not a field of a design",
	}
	files, err := filepath.Glob("testdata/broken/*.json")
	require.NoError(t, err)
	assert.Len(t, files, len(want))
	for _, f := range files {
		name := strings.TrimSuffix(filepath.Base(f), ".json")
		_, err := ReadFile(f)
		require.Error(t, err, name)
		require.NotEmpty(t, want[name], "%s has no row", name)
		assert.Contains(t, err.Error(), want[name])
		assert.Contains(t, err.Error(), f, "the file is named")
		assert.NotContains(t, err.Error(), "\n", name)
		assert.Less(t, len(err.Error()), 1000, name)
	}
}

func TestAFieldAtFaultCanBeFoundByProgram(t *testing.T) {
	_, err := ReadFile("testdata/broken/rows-as-text.json")
	var field *unroll.FieldError
	require.True(t, errors.As(err, &field))
	assert.Equal(t, "field.rows", field.Path)
}

func TestTooLargeFilesAreRefusedUnread(t *testing.T) {
	path := filepath.Join(t.TempDir(), "large.json")
	require.NoError(t, os.WriteFile(path, nil, 0o600))
	require.NoError(t, os.Truncate(path, 100<<20))
	_, err := ReadFile(path)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "the file has 100 MB; a design has at most 4 MB")

	endless := &countingReader{}
	_, err = Read(endless)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "more than 4 MB")
	assert.LessOrEqual(t, endless.n, MaxBytes+1)
}

type countingReader struct{ n int }

func (r *countingReader) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '['
	}
	r.n += len(p)
	return len(p), nil
}

func TestFoldersAndMissingFilesAreNamed(t *testing.T) {
	dir := t.TempDir()
	_, err := ReadFile(dir)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "is a folder")
	_, err = ReadFile(filepath.Join(dir, "none.json"))
	require.ErrorIs(t, err, os.ErrNotExist)
}
