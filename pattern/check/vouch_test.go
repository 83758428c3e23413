package check

import (
	"math"
	"slices"
	"testing"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// vouchDesign is a bangle with openings that run over its seam.
func vouchDesign() pattern.Design {
	return pattern.Design{
		Name: "vouch", Band: strip(150, 20), Metal: pattern.Metal{Alloy: "copper"},
		Rules:  pattern.DesignRules{BridgeMM: 1, RimMM: 1.5, CornerMM: 0.3},
		Fields: []pattern.Field{{Motif: "bricks", Rows: 2, Repeats: 9, Stagger: 0.5}},
	}
}

func TestASheetThatKeepsTheRulesIsHandedOn(t *testing.T) {
	s, r, err := Lay(vouchDesign())
	require.NoError(t, err)
	assert.Equal(t, len(s.Openings), r.Openings)
	assert.Greater(t, r.Openings, 17)
	assert.Equal(t, r.Plain, r.Left+r.Removed)
	_, _, err = Lay(pattern.Design{})
	var field *unroll.FieldError
	assert.ErrorAs(t, err, &field, "a number that can't be used is no fault of the program")
}

// Each sheet is spoilt by hand, as a fault of the program would spoil it.
func TestASpoiltSheetIsNotHandedOn(t *testing.T) {
	reshape := func(o *pattern.Opening, l plane.Loop) {
		o.Loop, o.Box, o.Shape = l, l.Bounds(), -1
	}
	move := func(o *pattern.Opening, x, y float64) { reshape(o, o.Loop.Move(plane.Pt(x, y))) }
	for _, c := range []struct {
		name  string
		spoil func(s *pattern.Sheet)
		names []int
		says  string
	}{
		{"too near", func(s *pattern.Sheet) { move(&s.Openings[0], 1e-4, 0) }, []int{1, 20}, "between openings 1 and 20 is 0.999900 mm wide"},
		{"over each other", func(s *pattern.Sheet) { move(&s.Openings[0], 3, 0) }, []int{1, 20}, "between openings 1 and 20 is 0.000000 mm wide"},
		{"one in the other", func(s *pattern.Sheet) {
			c := s.Openings[1].Box.Centre()
			reshape(&s.Openings[0], plane.Circle(c, 0.5))
		}, []int{1, 2}, "is 0.000000 mm wide"},
		{"one in the other, both of a shape", func(s *pattern.Sheet) {
			big, small := plane.Circle(plane.Point{}, 6), plane.Circle(plane.Point{}, 2)
			s.Openings = s.Openings[:2]
			for i, l := range []plane.Loop{big, small} {
				o := &s.Openings[i]
				o.Loop, o.Shape, o.At = l, i, plane.Point{}
				o.Box = l.Bounds()
			}
		}, []int{1, 2}, "is 0.000000 mm wide"},
		{"near the edge", func(s *pattern.Sheet) { move(&s.Openings[0], 0, 0.6) }, []int{1}, "between opening 1 and the edge is 0.900000 mm wide"},
		{"off the blank", func(s *pattern.Sheet) { move(&s.Openings[0], 0, 30) }, []int{1}, "opening 1 lies off the blank"},
		{"a neck", func(s *pattern.Sheet) {
			s.Openings = s.Openings[:1]
			reshape(&s.Openings[0], plane.Polygon(
				plane.Pt(0, 0), plane.Pt(6, 0), plane.Pt(6, 4), plane.Pt(3.2, 4), plane.Pt(3.2, 2),
				plane.Pt(2.7, 2), plane.Pt(2.7, 4), plane.Pt(0, 4)))
		}, []int{1}, "within the edge of opening 1 is 0.500000 mm wide"},
	} {
		s, _, err := Lay(vouchDesign())
		require.NoError(t, err)
		c.spoil(s)
		err = vouch(s, Run(s))
		var fault *FaultError
		var program *unroll.ProgramError
		if !assert.ErrorAs(t, err, &fault, c.name) || !assert.ErrorAs(t, err, &program, c.name) {
			continue
		}
		assert.Contains(t, err.Error(), c.says, c.name)
		assert.Contains(t, err.Error(), "this is a fault of Fretband", c.name)
		if c.names != nil {
			assert.ElementsMatch(t, c.names, fault.Openings, c.name)
		}
	}
	s, r, err := Lay(vouchDesign())
	require.NoError(t, err)
	for _, odd := range []func(){
		func() { r.Removed = r.Plain + 1 },
		func() { r.Removed = math.NaN() },
		func() { r.Removed, r.Thinnest.Width = 0, math.NaN() },
	} {
		odd()
		assert.ErrorAs(t, vouch(s, r), new(*FaultError))
	}
}

// A corner that is no number is found before anything is measured by it.
func TestACornerThatIsNoNumberIsAFaultOfTheProgram(t *testing.T) {
	s, _, err := Lay(vouchDesign())
	require.NoError(t, err)
	require.NoError(t, finite(s))
	for _, spoil := range []func(v *plane.Vertex){
		func(v *plane.Vertex) { v.X = math.NaN() },
		func(v *plane.Vertex) { v.Y = math.Inf(-1) },
		func(v *plane.Vertex) { v.Bulge = math.NaN() },
		func(v *plane.Vertex) { v.Bulge = math.Inf(1) },
	} {
		l := slices.Clone(s.Openings[4].Loop)
		spoil(&l[1])
		bad := *s
		bad.Openings = slices.Clone(s.Openings)
		bad.Openings[4].Loop = l
		var fault *FaultError
		require.ErrorAs(t, finite(&bad), &fault)
		assert.Equal(t, []int{5}, fault.Openings)
		assert.ErrorContains(t, fault, "corner 2 of opening 5 is no number")
	}
}
