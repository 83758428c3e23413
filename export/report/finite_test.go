package report

import (
	"bytes"
	"encoding/json"
	"math"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/testdata"
)

// eachJSONNumber calls do with every number of a decoded JSON text.
func eachJSONNumber(path string, v any, do func(path string, n json.Number)) {
	switch v := v.(type) {
	case json.Number:
		do(path, v)
	case []any:
		for _, x := range v {
			eachJSONNumber(path+"[]", x, do)
		}
	case map[string]any:
		for k, x := range v {
			eachJSONNumber(path+"."+k, x, do)
		}
	}
}

// Cuffs whose ends touch and bands without an opening are among the designs.
func TestEveryReportCanBeWrittenAndNothingInItIsMinusNothing(t *testing.T) {
	minusNothing := regexp.MustCompile(`(^|[^\w.])-0(\.0+)?($|[^\d.]|\.$|\.\D)`)
	var designs []pattern.Design
	for _, list := range [][]testdata.Entry{testdata.Gallery(), testdata.Forms(), testdata.Faults()} {
		for _, e := range list {
			d, err := project.Read(bytes.NewReader(e.JSON))
			require.NoError(t, err, e.Name)
			designs = append(designs, d)
		}
	}
	for _, name := range []string{"sided-cuff", "round-bangle", "flared-cuff", "domed-cuff"} {
		bare := sample.Form(t, name)
		bare.Fields, bare.Name = nil, "bare "+name
		shut := sample.Form(t, name)
		shut.Band.GapMM, shut.Name = 0, "without a gap: "+name
		designs = append(designs, bare, shut)
	}
	for _, d := range designs {
		s, err := pattern.Lay(d)
		require.NoError(t, err, d.Name)
		r := check.All(s)
		var b bytes.Buffer
		require.NoError(t, JSON(&b, s, r), d.Name)
		dec := json.NewDecoder(bytes.NewReader(b.Bytes()))
		dec.UseNumber()
		var v any
		require.NoError(t, dec.Decode(&v), d.Name)
		eachJSONNumber("", v, func(path string, n json.Number) {
			x, err := n.Float64()
			assert.NoError(t, err, "%s: %s", d.Name, path)
			assert.False(t, x == 0 && math.Signbit(x), "%s: %s is %s", d.Name, path, n)
		})
		b.Reset()
		require.NoError(t, Text(&b, s, r), d.Name)
		assert.NotRegexp(t, minusNothing, b.String(), d.Name)
		assert.NotRegexp(t, `\bInf\b|\bNaN\b`, b.String(), d.Name)
		for _, l := range factsOf(s, r) {
			assert.NotRegexp(t, minusNothing, l, d.Name)
			assert.NotRegexp(t, `\bInf\b|\bNaN\b`, l, d.Name)
		}
	}
}

func TestTheSignIsTakenOffNothingAndOffNothingElse(t *testing.T) {
	var b bytes.Buffer
	below := math.Copysign(0, -1)
	require.NoError(t, WriteJSON(&b, map[string]any{"a": below, "b": []float64{-0.5, below, 1e-9, -1e-9}, "-0": `"-0, \`, "c": -0}))
	var c bytes.Buffer
	require.NoError(t, json.Compact(&c, b.Bytes()))
	assert.Equal(t, `{"-0":"\"-0, \\","a":0,"b":[-0.5,0,1e-9,-1e-9],"c":0}`, c.String())
}

// factsOf is what files say of a part.
func factsOf(s *pattern.Sheet, r *check.Report) []string {
	var lines []string
	for _, f := range export.Facts(s, r, export.Options{}) {
		lines = append(lines, f.String())
	}
	return append(lines, export.Cautions(s, r, export.Options{})...)
}
