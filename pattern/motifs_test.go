package pattern

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"fretband/pattern/motif"
	"fretband/unroll"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var picture = flag.String("picture", "", "write a sheet of all motifs to this SVG file")

// becoming are rows, repeats and stagger that become a motif on the sheet's cuff.
var becoming = map[string]struct {
	rows, repeats int
	stagger       float64
}{
	"triangles": {3, 24, 0.5}, "squares": {4, 31, 0}, "bricks": {6, 16, 0}, "chevrons": {4, 20, 0},
	"circles": {4, 30, 0.5}, "ellipses": {3, 32, 0.5}, "scallops": {5, 24, 0}, "ogees": {2, 20, 0}, "waves": {6, 12, 0},
	"leaves": {3, 20, 0}, "petals": {2, 15, 0}, "teardrops": {2, 17, 0.5}, "trefoils": {2, 18, 0.5}, "quatrefoils": {3, 23, 0},
	"lancets": {2, 22, 0}, "crosses": {2, 15, 0}, "hexastars": {3, 19, 0}, "cells": {4, 32, 0}, "sails": {2, 18, 0},
}

// A sheet of all motifs with their own numbers, to be looked at:
//
//	go test ./pattern -run AllMotifs -picture motifs.svg
func TestAllMotifsMakeAPicture(t *testing.T) {
	const wide, high, columns = 66.0, 29.0, 3
	var b strings.Builder
	for i, m := range motif.All() {
		d := Design{
			Name: m.Title, Metal: Metal{Alloy: "copper"},
			Band:   closedBand(180, 22),
			Rules:  DesignRules{BridgeMM: 0.8, RimMM: 1.2, CornerMM: 0.15, SmallestMM: 0.5},
			Fields: []Field{{Motif: m.Key, Rows: 3, Repeats: 26}},
		}
		d.Band.Kind, d.Band.Joint, d.Band.GapMM, d.Band.EndCornerMM = unroll.Cuff, "", 28, 6
		if p, ok := becoming[m.Key]; ok {
			d.Fields[0].Rows, d.Fields[0].Repeats, d.Fields[0].Stagger = p.rows, p.repeats, p.stagger
		}
		s, err := Lay(d)
		if err != nil {
			t.Fatalf("%s: %v", m.Key, err)
		}
		if len(s.Openings) < 30 {
			t.Errorf("%s: only %d openings", m.Key, len(s.Openings))
		}
		open := 0.0
		var path strings.Builder
		draw := func(l plane.Loop) {
			for j, p := range l.Flatten(0.01) {
				fmt.Fprintf(&path, "%c%.3f %.3f", "ML"[min(j, 1)], p.X, -p.Y)
			}
			path.WriteByte('Z')
		}
		draw(s.Flat.Outline)
		for _, o := range s.Openings {
			draw(o.Loop)
			open += o.Loop.Area()
		}
		share := 100 * open / s.Flat.Outline.Area()
		// The left end, past the middle.
		x, y := float64(i%columns)*wide, float64(i/columns)*high
		fmt.Fprintf(&b, `<svg x="%g" y="%g" width="%g" height="%g" viewBox="%g -12 %g 24"><path fill-rule="evenodd" fill="#b98a4a" d="%s"/></svg>`,
			x+2, y+4, wide-4, high-5, -s.Flat.Length/2-1, wide-4, path.String())
		fmt.Fprintf(&b, `<text x="%g" y="%g" font-size="2.2" font-family="sans-serif">%s: %d openings, %.0f %% open, %d left solid</text>`+"\n", x+2, y+3, m.Title, len(s.Openings), share, len(s.Dropped))
	}
	if *picture == "" {
		return
	}
	n := len(motif.All())
	svg := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %g %g"><rect width="100%%" height="100%%" fill="white"/>%s</svg>`,
		wide*columns, high*float64((n+columns-1)/columns), b.String())
	if err := os.WriteFile(*picture, []byte(svg), 0o666); err != nil {
		t.Fatal(err)
	}
}

// Openings between straight bars of one width, against the formulas for struts.
func TestOpenShareBetweenStraightBarsMatchesHandbooks(t *testing.T) {
	root3 := math.Sqrt(3)
	for _, c := range []struct {
		source  string
		field   Field
		length  float64
		height  float64 // of the frame
		corners int     // of the openings that are meant
		cell    float64
		want    float64
	}{
		{
			"square holes, pitch p, bars w: ((p - w)/p)^2",
			Field{Motif: "squares", Rows: 4, Repeats: 30, BridgeMM: 0.8},
			180, 24, 4, 36, (5.2 / 6) * (5.2 / 6),
		},
		{
			"oblong holes l1 x l2 at pitches p1, p2: l1 l2/(p1 p2)",
			Field{Motif: "bricks", Rows: 4, Repeats: 20, BridgeMM: 0.8, Numbers: map[string]float64{"header": 0}},
			160, 16, 4, 32, 7.2 * 3.2 / 32,
		},
		{
			"hexagons of the strapwork, across flats s: ((s - w)/s)^2; s = 6, side 2 sqrt3, pitch 12",
			Field{Motif: "hexastars", Rows: 2, Repeats: 15, BridgeMM: 0.5},
			180, 2 * 6 * root3, 6, 18 * root3, (5.5 / 6) * (5.5 / 6),
		},
	} {
		f := c.field
		s, err := Lay(Design{Name: "test", Band: closedBand(c.length, c.height+f.BridgeMM), Metal: Metal{Alloy: "copper"},
			Rules: DesignRules{BridgeMM: f.BridgeMM, RimMM: f.BridgeMM}, Fields: []Field{f}})
		if err != nil {
			t.Fatal(err)
		}
		whole := 0
		for _, o := range s.Openings {
			if o.Shape < 0 || len(o.Loop) != c.corners {
				continue
			}
			whole++
			if got := o.Loop.Area() / c.cell; math.Abs(got-c.want) > 1e-9 {
				t.Fatalf("%s: opening %d: share %.9f, want %.9f", c.source, o.Number, got, c.want)
			}
		}
		if whole < f.Repeats {
			t.Errorf("%s: only %d whole openings", c.source, whole)
		}
	}
}

// Openings that are told to be of one shape are one loop, moved.
func TestOpeningsOfOneShapeAreOneLoopMoved(t *testing.T) {
	shared := 0
	for _, m := range motif.All() {
		for _, bridge := range []float64{0.8, 1.6} { // the wider one takes some cells apart
			s, err := Lay(Design{Name: "test", Band: closedBand(120, 20), Metal: Metal{Alloy: "copper"},
				Rules:  DesignRules{BridgeMM: bridge, RimMM: 1},
				Fields: []Field{{Motif: m.Key, Rows: 2, Repeats: 12, BridgeMM: bridge}}})
			require.NoError(t, err, m.Key)
			first := map[int]Opening{}
			for _, o := range s.Openings {
				if o.Shape < 0 {
					continue
				}
				a, ok := first[o.Shape]
				if !ok {
					first[o.Shape] = o
					continue
				}
				shared++
				move := o.At.Sub(a.At)
				require.Len(t, o.Loop, len(a.Loop), m.Key)
				for i, v := range o.Loop {
					w := a.Loop[i]
					if v.Point.Dist(w.Point.Add(move)) > 1e-9 || math.Abs(v.Bulge-w.Bulge) > 1e-9 {
						t.Fatalf("%s: openings %d and %d are told to be one shape and are not", m.Key, a.Number, o.Number)
					}
				}
			}
		}
	}
	assert.Greater(t, shared, 500)
}

// A shape belongs to one field, even where two fields lay the same motif.
func TestFieldsShareNoShape(t *testing.T) {
	f := Field{Motif: "squares", Rows: 3, Repeats: 8}
	left, right := f, f
	left.Area = Area{Shape: RunShape, FromMM: -60, ToMM: 0}
	right.Area = Area{Shape: RunShape, FromMM: 0, ToMM: 60}
	s := sheetOf(t, fieldsOn(openBand(24), left, right))
	owner := map[int]int{}
	for _, o := range s.Openings {
		if o.Shape < 0 {
			continue
		}
		if field, known := owner[o.Shape]; known {
			assert.Equal(t, field, o.Field, "shape %d", o.Shape)
		}
		owner[o.Shape] = o.Field
	}
	assert.GreaterOrEqual(t, len(owner), 2)
}
