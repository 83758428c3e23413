// Fe lays pierced strips for the finite elements beside it: for each it writes the
// edges of metal and openings and our sections along it, as one JSON object.
//
// Usage: go run ./cmd/judge/fe -out DIR
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
	"fretband/unroll/plane"
)

func main() {
	dir := flag.String("out", ".", "folder for the strips")
	flag.Parse()
	if err := write(*dir); err != nil {
		fmt.Fprintln(os.Stderr, "fe:", err)
		os.Exit(2)
	}
}

// strip is a pierced strip: its motif lies within pierced mm left and right of the
// middle; beyond that the metal is solid.
type strip struct {
	name   string
	field  pattern.Field
	width  float64
	bridge float64
	corner float64
	limit  float64 // on how far our stiffness may be off
	bent   bool    // is tried as a cuff as well
}

const pierced = 32.0 // mm

func strips() []strip {
	const near = 0.1
	// Long thin slanting openings turn the metal into leaf springs, which are softer
	// than we say: leaves by a tenth, waves by a quarter. Known, and on the safe side
	// for the stress of a given opening.
	const known = 0.3
	return []strip{
		// The share of shade was fitted to these.
		{"circles", pattern.Field{Motif: "circles", Rows: 1, Repeats: 8}, 13, 1.6, 0, near, true},
		{"square", pattern.Field{Motif: "circles", Rows: 3, Repeats: 9}, 25, 1.5, 0, near, false},
		{"staggered", pattern.Field{Motif: "circles", Rows: 3, Repeats: 8, Stagger: 0.5}, 24, 1.6, 0, near, false},
		{"triangles", pattern.Field{Motif: "triangles", Rows: 3, Repeats: 8}, 26, 1.2, 0.4, near, true},
		{"diamonds", pattern.Field{Motif: "diamonds", Rows: 2, Repeats: 8, Stagger: 0.5}, 22, 1.4, 0.4, near, false},
		{"graded", pattern.Field{Motif: "ellipses", Rows: 2, Repeats: 8, GradeAlong: []pattern.Grade{{At: -1, Size: 0.5}, {At: 0, Size: 1.4}, {At: 1, Size: 0.5}}}, 22, 1.4, 0, near, false},
		// And these it had not seen.
		{"hexagons", pattern.Field{Motif: "hexagons", Rows: 3, Repeats: 8}, 24, 1.4, 0.4, near, false},
		{"leaves", pattern.Field{Motif: "leaves", Rows: 3, Repeats: 8, Stagger: 0.5}, 24, 1.4, 0.4, known, true},
		{"squares", pattern.Field{Motif: "squares", Rows: 2, Repeats: 8, Stagger: 0.5}, 20, 1.8, 0.5, near, false},
		{"waves", pattern.Field{Motif: "waves", Rows: 3, Repeats: 6}, 22, 1.4, 0.4, known, false},
	}
}

func (s strip) design() pattern.Design {
	f := s.field
	f.Area = pattern.Area{Shape: pattern.RunShape, FromMM: -pierced, ToMM: pierced}
	return pattern.Design{
		Name: s.name,
		Band: unroll.Band{
			Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: 50, HeightMM: 50}, GapMM: 48,
			Thickness: unroll.Thickness{MM: 1.2}, WidthMM: s.width, EndWidthMM: s.width, NeutralK: 0.5,
		},
		Metal:  pattern.Metal{Alloy: "sterling-925"},
		Rules:  pattern.DesignRules{BridgeMM: s.bridge, RimMM: 1.8, CornerMM: s.corner, SmallestMM: 0.8},
		Fields: []pattern.Field{f},
	}
}

type stripJSON struct {
	Name      string         `json:"name"`
	Length    float64        `json:"length_mm"`
	Width     float64        `json:"width_mm"`
	Thickness float64        `json:"thickness_mm"`
	Openings  [][][2]float64 `json:"openings"`
	X         []float64      `json:"x_mm"`
	Net       []float64      `json:"net_mm"`
	Stiff     []float64      `json:"stiff_mm"`
	Limit     float64        `json:"limit"`
	Bent      bool           `json:"bent"`
	Inner     float64        `json:"inner_mm"`     // radius, as a cuff
	Opening   float64        `json:"opening_mm_n"` // of the cuff by 1 N
}

func write(dir string) error {
	for _, s := range strips() {
		sheet, r, err := check.Lay(s.design())
		if err != nil {
			return err
		}
		j := stripJSON{Name: s.name, Length: sheet.Flat.Length, Width: sheet.Flat.Width, Thickness: r.Thickness, X: r.Net.X, Net: r.Net.Net, Limit: s.limit}
		sp := check.SpringOf(sheet, r)
		if sp == nil {
			return fmt.Errorf("%s: falls to pieces", s.name)
		}
		j.Bent, j.Inner, j.Opening = s.bent, sheet.Flat.Oval.A, sp.PerN
		j.Stiff = check.SpringWidths(sheet, r)
		for _, o := range sheet.Openings {
			j.Openings = append(j.Openings, chords(o.Loop))
		}
		text, err := json.Marshal(j)
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(dir, s.name+".json"), text, 0o666); err != nil {
			return err
		}
	}
	return nil
}

// chords returns the corners of a polygon within 0.01 mm of the loop.
func chords(l plane.Loop) [][2]float64 {
	var out [][2]float64
	for _, p := range l.Flatten(0.01) {
		out = append(out, [2]float64{p.X, p.Y})
	}
	return out
}
