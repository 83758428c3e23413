package motif

import (
	"math"
	"testing"

	"fretband/unroll/plane"

	"github.com/stretchr/testify/require"
)

// From an opening to the next of a tiling by lines along and across, with no bridge of its
// own, it is as far as is asked for.
func TestBridgesAlongAndAcrossAreAsMuchWiderAsAsked(t *testing.T) {
	f := Frame{W: 40, H: 20, Rows: 2, Repeats: 4, Closed: true, Number: func(string) float64 { return 0 }}
	squares, _ := ByKey("squares")
	l := squares.Wider(0.8, 1.4).Cells(f).Shapes[0].Bounds()
	require.InDelta(t, 10-1.4, l.W(), 1e-9)
	require.InDelta(t, 10-0.8, l.H(), 1e-9)
}

// Every cell of every motif only loses, and what it has is at least half of what bridges
// are wider by from the cell's edge, straight along and straight across.
func TestWiderBridgesOnlyTakeFromCells(t *testing.T) {
	const along, across = 0.6, 0.9
	for _, m := range All() {
		f := Frame{W: 120, H: 24, Rows: 2, Repeats: 10, Stagger: m.Usual.Stagger, Closed: true, Number: func(key string) float64 { return m.Number(nil, key) }}
		was, now := m.Cells(f), m.Wider(along, across).Cells(f)
		require.Equal(t, was.Cells, now.Cells, m.Key)
		require.Len(t, now.Shapes, len(was.Shapes), m.Key)
		for i, l := range now.Shapes {
			cell := was.Shapes[i]
			require.Less(t, l.Area(), cell.Area(), m.Key)
			for k := range l {
				for _, share := range []float64{0, 0.3, 0.7} {
					p := l.Edge(k).At(share)
					for _, d := range []plane.Point{plane.Pt(across/2, 0), plane.Pt(-across/2, 0), plane.Pt(0, along/2), plane.Pt(0, -along/2)} {
						q := p.Add(d)
						require.True(t, cell.Contains(q) || cell.Nearest(q).D < 1e-6, "%s: %v of %v", m.Key, q, p)
					}
				}
			}
		}
	}
	squares, _ := ByKey("squares")
	f := Frame{W: 40, H: 20, Rows: 2, Repeats: 4, Closed: true, Number: func(string) float64 { return 0 }}
	require.Less(t, math.Abs(squares.Wider(0, 11).Cells(f).Shapes[0].Area()), 1e-6, "nothing is left")
}
