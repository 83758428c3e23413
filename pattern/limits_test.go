package pattern

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fretband/pattern/motif"
	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// spiky is path data of n straight edges.
func spiky(n int) string {
	var b strings.Builder
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r := 5 - 2*float64(i%2)
		fmt.Fprintf(&b, "%c%.3f %.3f", "ML"[min(i, 1)], r*cos, r*sin)
	}
	return b.String() + "Z"
}

// zigzag is path data of an open line along the band of n straight edges' corners.
func zigzag(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "%c%g %d", "ML"[min(i, 1)], 0.02*float64(i), i%2)
	}
	return b.String()
}

// Every limit of how much a design holds is admitted, and one more is refused with its
// path and the limit.
func TestEachLimitIsAdmittedAndOneMoreIsRefused(t *testing.T) {
	plain := Design{
		Name:  "limits",
		Band:  unroll.Band{Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 48}, GapMM: 28, Thickness: unroll.Thickness{MM: 1}, WidthMM: 30, EndWidthMM: 30, NeutralK: 0.5},
		Metal: Metal{Alloy: "copper"}, Rules: DesignRules{BridgeMM: 1, RimMM: 1},
	}
	field := Field{Motif: "squares", Rows: 1, Repeats: 1}
	reserve := Reserve{Shape: CircleShape, WidthMM: 1}
	add := Edit{Do: Add, Shape: CircleShape, WidthMM: 1, At: []Spot{{}}}
	for _, c := range []struct {
		path  string
		limit int
		with  func(d *Design, n int)
		lay   bool // it is seen when the design is laid
		step  int  // by how much more than the limit the next may be, 1 if 0
	}{
		{path: "fields", limit: MaxFields, with: func(d *Design, n int) { d.Fields = slices.Repeat([]Field{field}, n) }},
		{path: "reserves", limit: MaxReserves, with: func(d *Design, n int) { d.Reserves = slices.Repeat([]Reserve{reserve}, n) }},
		{path: "marks", limit: MaxEngravings, with: func(d *Design, n int) {
			d.Engravings = slices.Repeat([]Engraving{{Kind: LineEngraving, LengthMM: 1}}, n)
		}},
		{path: "edits", limit: MaxEdits, with: func(d *Design, n int) { d.Edits = slices.Repeat([]Edit{add}, n) }},
		{path: "accepted", limit: MaxAccepted, with: func(d *Design, n int) {
			d.Accepted = slices.Repeat([]Accepted{{Finding: "tongue", Reason: "so"}}, n)
		}},
		{path: "variants", limit: MaxVariants, with: func(d *Design, n int) { d.Variants = slices.Repeat([]Design{plain}, n) }},
		{path: "edits[0].at", limit: MaxSpots, with: func(d *Design, n int) {
			d.Edits = []Edit{add}
			d.Edits[0].At = make([]Spot, n)
		}},
		{path: "edits[1].at", limit: MaxEditPositions, with: func(d *Design, n int) {
			d.Edits = []Edit{add, add}
			d.Edits[0].At, d.Edits[0].Mirror = make([]Spot, 1500), MirrorAlong
			d.Edits[1].At = make([]Spot, n-3000)
		}},
		{path: "reserves[10].count", limit: MaxReserved, with: func(d *Design, n int) {
			r := reserve
			r.Count = 200
			d.Reserves = append(slices.Repeat([]Reserve{r}, 9), reserve)
			r.Count = n - 1801
			d.Reserves = append(d.Reserves, r)
		}},
		{path: "fields[1].repeats", limit: MaxCells, step: 30, with: func(d *Design, n int) {
			d.Fields = []Field{{Motif: "squares", Rows: 30, Repeats: 900}, {Motif: "squares", Rows: 30, Repeats: n/30 - 900}}
		}},
		{path: "fields[0].rows", limit: int(RowsRange.Max), with: func(d *Design, n int) {
			d.Fields = []Field{field}
			d.Fields[0].Rows = n
		}},
		{path: "fields[0].repeats", limit: int(RepeatsRange.Max), with: func(d *Design, n int) {
			d.Fields = []Field{field}
			d.Fields[0].Repeats = n
		}},
		{path: "fields[0].grade_along", limit: MaxGrades, with: func(d *Design, n int) {
			d.Fields = []Field{field}
			for i := range n {
				d.Fields[0].GradeAlong = append(d.Fields[0].GradeAlong, Grade{At: float64(i)/20 - 0.9, Size: 1})
			}
		}},
		{path: "reserves[0].path", limit: MaxPath, with: func(d *Design, n int) {
			d.Reserves = []Reserve{{Shape: PathShape, Path: spiky(6) + strings.Repeat(" ", n-len(spiky(6)))}}
		}},
		{path: "band.top_edge", limit: unroll.MaxEdgePoints, with: func(d *Design, n int) {
			for i := range n {
				d.Band.TopEdge = append(d.Band.TopEdge, unroll.EdgePoint{At: float64(i)/20 - 0.9})
			}
		}},
		{path: "marks[10].path", limit: MaxPieces, step: 11, with: func(d *Design, n int) {
			for i := range 11 {
				d.Engravings = append(d.Engravings, Engraving{Kind: PathEngraving, Path: "M0 0" + strings.Repeat("h1", (n+i)/11-1), MarginMM: -1})
			}
		}},
		{path: "reserves[0]", limit: MaxShapeEdges, step: 100, lay: true, with: func(d *Design, n int) {
			d.Reserves = []Reserve{{Shape: PathShape, Path: spiky(n / 100), Count: 100}}
		}},
		{path: "edits[0]", limit: MaxShapeEdges, step: 20, lay: true, with: func(d *Design, n int) {
			d.Edits = []Edit{{Do: Add, Shape: PathShape, Path: spiky(n / 20), WidthMM: 1, HeightMM: 1}}
			for i := range 20 {
				d.Edits[0].At = append(d.Edits[0].At, Spot{XMM: 3*float64(i) - 30})
			}
		}},
		{path: "marks[1].path", limit: MaxEngravedLength, step: 500, lay: true, with: func(d *Design, n int) {
			for _, k := range []int{n - 500, 500} {
				d.Engravings = append(d.Engravings, Engraving{Kind: PathEngraving, Path: strings.Repeat("M-250 0H250", k/500), MarginMM: -1})
			}
		}},
		{path: "fields[2].area", limit: MaxShapeEdges, step: 2, lay: true, with: func(d *Design, n int) {
			for _, k := range []int{2000, 2000, n - 4000} {
				d.Fields = append(d.Fields, Field{Motif: "squares", Rows: 1, Repeats: 1, Area: Area{Shape: PathShape, Path: spiky(k)}})
			}
		}},
		{path: "marks[1].path", limit: MaxEngravedEdges, lay: true, with: func(d *Design, n int) {
			for i, k := range []int{1000, n - 1000} {
				d.Engravings = append(d.Engravings, Engraving{Kind: PathEngraving, Path: zigzag(k), XMM: 40*float64(i) - 50})
			}
		}},
		{path: "fields[0].path", limit: MaxMotifEdges, step: 6000, lay: true, with: func(d *Design, n int) {
			d.Fields = []Field{{Motif: motif.OwnKey, Path: spiky(n / 6000), Rows: 60, Repeats: 100}}
		}},
	} {
		t.Run(fmt.Sprintf("%s %d", c.path, c.limit), func(t *testing.T) {
			try := func(n int) error {
				d := plain
				c.with(&d, n)
				err := d.Check()
				if err == nil && c.lay {
					_, err = Lay(d)
				}
				return err
			}
			require.NoError(t, try(c.limit))
			err := try(c.limit + max(1, c.step))
			var f *unroll.FieldError
			require.True(t, errors.As(err, &f), "%v", err)
			assert.Equal(t, c.path, f.Path)
			assert.Contains(t, f.Msg, fmt.Sprint(c.limit))
		})
	}
}

// However many openings a hand lays in one place, as many are trimmed as the work
// allows, and each of the others is told with its place.
func TestOpeningsLaidOverEachOtherAreTrimmedAsFarAsTheWorkAllows(t *testing.T) {
	if testing.Short() {
		t.Skip("slow: as much work as is allowed")
	}
	d := Design{
		Name:  "crowd",
		Band:  unroll.Band{Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 60, HeightMM: 48}, GapMM: 28, Thickness: unroll.Thickness{MM: 1}, WidthMM: 30, EndWidthMM: 30, NeutralK: 0.5},
		Metal: Metal{Alloy: "copper"}, Rules: DesignRules{BridgeMM: 0.1, RimMM: 1},
		Edits: []Edit{{Do: Add, Shape: CircleShape, WidthMM: 20}},
	}
	for i := range 200 {
		d.Edits[0].At = append(d.Edits[0].At, Spot{XMM: float64(i) / 100})
	}
	s, err := Lay(d)
	require.NoError(t, err)
	crowded := 0
	for _, i := range s.Idle {
		if strings.Contains(i.Why, "too many") {
			crowded++
		}
	}
	assert.Greater(t, crowded, 100)
	assert.NotEmpty(t, s.Openings)
}
