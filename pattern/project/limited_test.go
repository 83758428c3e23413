package project

import (
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/testdata"
	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// someDesigns are designs that together have every value of the table.
func someDesigns(t *testing.T) []pattern.Design {
	t.Helper()
	ds := []pattern.Design{rich(), full()}
	for _, e := range testdata.Gallery() {
		ds = append(ds, read(t, string(e.JSON)))
	}
	files, err := filepath.Glob("../../testdata/forms/*.json")
	require.NoError(t, err)
	for _, f := range files {
		d, err := ReadFile(f)
		require.NoError(t, err)
		ds = append(ds, d)
	}
	share, edges := full(), full()
	share.Band = gallery(t, "harbour-cuff").Band
	share.Band.GapMM, share.Band.GapShare = 0, 0.15
	edges.Band.Inside = unroll.Inside{By: unroll.ByEdges, TopMM: 210, BottomMM: 208}
	edges.Band.EndWidthMM = edges.Band.WidthMM
	return append(ds, share, edges)
}

// eachValue calls do with each entry of the table at each place where a design has it.
func eachValue(d *pattern.Design, do func(e *pattern.Entry, at pattern.At)) {
	table := pattern.Table()
	for i := range table {
		e := &table[i]
		for _, at := range []pattern.At{{}, {0, 1}, {1}, {1, 1}, {2}, {3}, {4}} {
			if deep := strings.Count(e.Path, "[]"); (deep < 1 && at[0] > 0) || (deep < 2 && at[1] > 0) || !e.In(d, at) || !e.Applies(d, at) {
				continue
			}
			do(e, at)
		}
	}
}

// copied returns the design anew, with lists of its own.
func copied(t *testing.T, d pattern.Design) pattern.Design { return read(t, written(t, d)) }

// Each number of a design is refused beyond both ends of its range, with its own path, and
// each choice and text where it is none.
func TestEachLineOfTheTableIsLimited(t *testing.T) {
	limited := map[string]int{}
	refused := func(d pattern.Design, path string, what any) bool {
		err := d.Check()
		var f *unroll.FieldError
		if !errors.As(err, &f) {
			return false
		}
		// Of the band some numbers are named by what they make together.
		at := f.Path == path || strings.HasPrefix(path, "band.")
		assert.True(t, at, "%s %v: %v", path, what, err)
		return at
	}
	for _, d := range someDesigns(t) {
		eachValue(&d, func(e *pattern.Entry, at pattern.At) {
			path := e.PathAt(at)
			if limited[e.Path] > 6 {
				return
			}
			c := copied(t, d)
			try := func(what any) {
				if assert.True(t, refused(c, path, what), "%s %v is not refused", path, what) {
					limited[e.Path]++
				}
			}
			low, high := e.Min-math.Abs(e.Min)-1, 2*e.Max+1
			switch {
			case e.Number != nil:
				for _, v := range []float64{low, high, math.NaN()} {
					*e.Number(&c, at) = v
					try(v)
				}
			case e.Whole != nil:
				for _, v := range []float64{low, high} {
					*e.Whole(&c, at) = int(v)
					try(v)
				}
			case e.Text != nil && (e.Options != nil || e.Data):
				*e.Text(&c, at) = "bogus"
				if e.Data && e.Bytes == 0 && c.Check() == nil {
					return
				}
				if e.Path == "fields[].area.path" && d.Fields[at[0]].Area.Shape != pattern.PathShape {
					return
				}
				try("bogus")
			case e.Text != nil:
				*e.Text(&c, at) = strings.Repeat("x", e.Bytes+1)
				try(fmt.Sprint(e.Bytes+1, " bytes"))
			}
		})
	}
	table := pattern.Table()
	for i := range table {
		if e := &table[i]; e.Number != nil || e.Whole != nil || e.Text != nil {
			assert.Positive(t, limited[e.Path], "%s has not been tried", e.Path)
		}
	}
}
