package project

import (
	"bytes"
	"encoding/json"
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
	s := strings.Replace(b.String(), `"fretband": 3`, `"fretband": 2`, 1)
	require.NotEqual(t, b.String(), s)
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
	assert.Equal(t, 3, version(d))
	d.Accepted, d.Variants[0].Accepted = nil, rich().Accepted
	assert.Equal(t, 3, version(d))
	d.Variants[0].Accepted = nil
	assert.Equal(t, 2, version(d))
}
