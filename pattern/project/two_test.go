package project

import (
	"bytes"
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"fretband/pattern"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// asTwo returns a design as version 2 wrote it: the findings by their titles.
func asTwo(t *testing.T, d pattern.Design) string {
	var b bytes.Buffer
	require.NoError(t, Write(&b, d))
	s := strings.Replace(b.String(), `"fretband": 5`, `"fretband": 2`, 1)
	require.NotEqual(t, b.String(), s)
	s = regexp.MustCompile(`"left_half": "mirrored",\s*`).ReplaceAllString(s, "")
	s = strings.ReplaceAll(s, `"finding": "pilot-hole"`, `"check": "pilot hole"`)
	return strings.ReplaceAll(s, `"finding": "tongue"`, `"check": "tongue"`)
}

func TestAFileOfVersionTwoIsTheSameDesign(t *testing.T) {
	want := rich()
	want.Variants[0].Accepted = want.Accepted
	two := asTwo(t, want)
	require.NotContains(t, two, "finding")
	require.Equal(t, 4, strings.Count(two, `"check"`))
	got, err := Read(strings.NewReader(two))
	require.NoError(t, err)
	assert.Equal(t, want, got)

	for old, says := range map[string]string{
		`"check": 7`:                           `accepted[0].check: must be text in quotes; it is 7`,
		`"check": ""`:                          `accepted[0].check`,
		`"finding": "pilot-hole"`:              `accepted[0].finding in version 2: is not a field`,
		`"check": "tongue", "check": "tongue"`: `accepted[0].check: is given twice`,
	} {
		_, err := Read(strings.NewReader(strings.Replace(two, `"check": "pilot hole"`, old, 1)))
		assert.ErrorContains(t, err, says, old)
	}
}

// A design that has nothing of version 3 stays the file of version 2 that it was.
func TestADesignIsWrittenInTheOldestVersionThatHoldsIt(t *testing.T) {
	version := func(d pattern.Design) (v int) {
		var b bytes.Buffer
		require.NoError(t, Write(&b, d))
		var f struct{ Fretband int }
		require.NoError(t, json.Unmarshal(b.Bytes(), &f))
		return f.Fretband
	}
	d := rich()
	assert.Equal(t, 5, version(d))
	d.Added = nil
	assert.Equal(t, 4, version(d))
	d.Fields = d.Fields[:1]
	require.NotEqual(t, "own", d.Fields[0].Motif)
	for i := range d.Variants {
		d.Variants[i].Fields = d.Fields
	}
	assert.Equal(t, 3, version(d))
	d.Accepted, d.Variants[0].Accepted = nil, rich().Accepted
	assert.Equal(t, 3, version(d))
	d.Variants[0].Accepted = nil
	assert.Equal(t, 2, version(d))
	d.Variants[0].Fields = []pattern.Field{{Motif: "own", Path: "M0 0L3 0L2 2Z", Rows: 1, Repeats: 3}}
	assert.Equal(t, 4, version(d))
}

// Before version 4 shapes of the user's own were always mirrored on a cuff's left half; since
// then only if asked for. A file stays the band that it was.
func TestOwnShapesOfOlderFilesStayMirrored(t *testing.T) {
	const file = `{"fretband": %d, "name": "fish", "band": {"kind": "cuff", "inside": {"by": "axes", "width_mm": 60, "height_mm": 48},
		"gap_mm": 28, "thickness": {"mm": 1.2}, "width_mm": 20, "end_width_mm": 20, "end_corner_mm": 3, "neutral_k": 0.5},
		"metal": {"alloy": "copper"}, "rules": {"bridge_mm": 1, "rim_mm": 2, "corner_mm": 0.2, "smallest_mm": 1},
		"fields": [{"motif": "own", "path": "M0 0L6 2L6 -2Z", "rows": 1, "repeats": 8, "stagger": 0}]}`
	lefts := func(v int) (pointed, blunt int) {
		d, err := Read(strings.NewReader(fmt.Sprintf(file, v)))
		require.NoError(t, err)
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		for _, o := range s.Openings {
			if at := o.Loop.Centroid().X - o.Box.Centre().X; o.Box.Max.X < 0 {
				if at < 0 { // the blunt side of a triangle is nearer to its centroid
					blunt++
				} else {
					pointed++
				}
			}
		}
		return pointed, blunt
	}
	asDrawn, mirrored := lefts(4)
	require.Greater(t, asDrawn, 2)
	require.Zero(t, mirrored)
	for v := 2; v < 4; v++ {
		drawn, was := lefts(v)
		assert.Zero(t, drawn)
		assert.Equal(t, asDrawn, was)
	}
}
