package app

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// elsewhere says how the window writes the values of the table that have no row of a group.
var elsewhere = map[string]string{
	"name": "saving, and the list of variants", "note": "the design file alone",
	"band.thickness.bs_gauge": "the thickness, typed as a gauge", "band.thickness.imperial_gauge": "the same",
	"underlay.file": "the page by hand", "metal.currency": "a row of text", "fields[].name": "a row of text", "fields[].motif": "the sheet of motifs", "fields[].path": "a drawing",
	"fields[].area.path": "a drawing", "reserves[].path": "a drawing", "reserves[].note": "a row of text",
	"marks[].kind": "the button that adds it", "marks[].text": "a row of text", "marks[].path": "a drawing", "marks[].note": "a row of text",
	"added[].kind": "the button that adds it", "added[].note": "a row of text",
	"edits[].do": "the hand", "edits[].at[].x_mm": "the hand", "edits[].at[].y_mm": "the hand", "edits[].path": "a drawing", "edits[].note": "the design file alone",
	"accepted[].finding": "the list of findings", "accepted[].reason": "the list of findings", "accepted[].at.x_mm": "the list of findings", "accepted[].at.y_mm": "the list of findings",
}

// everyAdded are parts of all kinds, which have all values between them.
func everyAdded(d pattern.Design) []pattern.Added {
	stone, ring := NewAdded(pattern.StonePart, d), NewAdded(pattern.StonePart, d)
	setGem(&stone, "own")
	setRow(&d, &ring, pattern.RowOval)
	setSetting(&ring, pattern.Prongs)
	wire, part := NewAdded(pattern.WirePart, d), NewAdded(pattern.OtherPart, d)
	setSection(&wire, "oval")
	setSeat(&part, pattern.OvalShape)
	part.Count, part.SpacingMM = 2, 12
	return []pattern.Added{stone, ring, wire, NewAdded(pattern.BeadsPart, d), part}
}

// Each line of the table that has a group is shown in some design, with its title, and is
// changed there by a step or by the choice of another word; the design stays one that can
// be made.
func TestEachLineOfTheTableIsShownAndWritten(t *testing.T) {
	designs := forms(t)
	designs["fields"] = manyFields(t)
	items := manyFields(t)
	items.Reserves = []pattern.Reserve{NewReserve(pattern.CircleShape, items), NewReserve(pattern.OvalShape, items), {Shape: pattern.PathShape, Path: dropPath, WidthMM: 5, HeightMM: 6, Count: 2, SpacingMM: 9}}
	items.Engravings = []pattern.Engraving{NewEngraving(pattern.LineEngraving, items), NewEngraving(pattern.TextEngraving, items), NewEngraving(pattern.PathEngraving, items)}
	items.Added = everyAdded(items)
	items.Metal.Alloy, items.Metal.DensityGCM3 = pattern.OwnAlloy, 10
	items.Underlay = pattern.Underlay{File: "sketch.png", WidthMM: 100}
	designs["items"] = items
	size := gallery(t)
	SetKind(&size, unroll.Ring)
	SetInsideBy(&size, unroll.BySize)
	size.Rules.RimAlong = []pattern.Grade{{At: -1, Size: 0.6}, {At: 0, Size: 1}, {At: 1, Size: 0.6}}
	designs["size"] = size
	wrist := gallery(t)
	SetInsideBy(&wrist, unroll.ByWrist)
	designs["wrist"] = wrist
	written := map[string]bool{}
	table := pattern.Table()
	for _, name := range slices.Sorted(maps.Keys(designs)) {
		d := designs[name]
		require.NoError(t, d.Check(), name)
		for i := range table {
			e := &table[i]
			if e.Group == "" || e.Group == pattern.HandGroup {
				continue
			}
			for _, at := range []pattern.At{{}, {0, 1}, {1}, {2}, {3}, {3, 1}, {4}, {5}, {5, 1}} {
				deep := strings.Count(e.Path, "[]")
				if deep == 0 && at[0] > 0 || deep < 2 && at[1] > 0 || !e.Visible(&d, at) {
					continue
				}
				what := fmt.Sprint(name, " ", e.Key(), at)
				if isNumber(e) {
					n := numberOf(e, at)
					assert.Equal(t, n.Path, e.PathAt(at))
					for _, steps := range []float64{1, -1} {
						c := Clone(d)
						n.Slide(&c, n.Get(c)+steps*n.Step)
						if !Equal(c, d) {
							written[e.Key()] = true
						}
					}
					continue
				}
				ch := choiceOf(e, at)
				for _, o := range ch.Options(d) {
					c := Clone(d)
					ch.Set(&c, o.Key)
					assert.Equal(t, o.Key, ch.Get(c), what)
					if e.Group != pattern.ProfileGroup { // a profile is closed once all pieces are there
						assert.NoError(t, c.Check(), "%s %s", what, o.Key)
					}
					if !Equal(c, d) {
						written[e.Key()] = true
					}
				}
			}
		}
	}
	for i := range table {
		e := &table[i]
		value := e.Number != nil || e.Whole != nil || e.Text != nil
		switch {
		case e.Group == pattern.HandGroup: // hand_test.go
		case e.Group != "":
			assert.True(t, written[e.Key()], "nothing writes %s", e.Key())
		case value:
			assert.NotEmpty(t, elsewhere[e.Path], "%s has no row in the window", e.Path)
		}
	}
}
