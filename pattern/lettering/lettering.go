// Package lettering draws a line of text as outlines to be engraved.
//
// What may come in is any text; what comes out are closed loops of lines and arcs,
// or an error that names the letter for which there is no outline. The same text
// gives the same loops.
//
// The letters are those of Go Regular, a sans face by the Bigelow & Holmes foundry,
// Copyright (c) 2016 Bigelow & Holmes Inc., which is under the Go project's own
// BSD-style licence and is embedded by golang.org/x/image/font/gofont/goregular. It
// has Latin, Greek and Cyrillic letters, digits and common signs. It has no table of
// kerning; were it replaced by one that has, its kerning would be kept.
package lettering

import (
	"errors"
	"fmt"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"fretband/unroll/plane"
)

// Line is one line of text as outlines.
type Line struct {
	// Loops are the letters' edges, outer and inner ones: those of the first letter
	// first. The baseline is y = 0, x runs from 0 where the first letter is drawn,
	// not where its space begins.
	Loops []plane.Loop
	Box   plane.Box // round all loops
}

// Outlines draws the text with capitals of the given height, mm: that of a capital H,
// which is flat at both ends. Curves are followed within tol, mm.
func Outlines(text string, height, tol float64) (Line, error) {
	f, err := open()
	if err != nil {
		return Line{}, err
	}
	capital, err := f.capital()
	if err != nil {
		return Line{}, err
	}
	k := height / capital
	known := map[sfnt.GlyphIndex][]plane.Loop{}
	line := Line{Box: plane.EmptyBox()}
	x, last := 0.0, sfnt.GlyphIndex(0)
	for _, r := range text {
		g, err := f.glyph(r)
		if err != nil {
			return Line{}, err
		}
		if last != 0 {
			x += f.kern(last, g)
		}
		loops, ok := known[g]
		if !ok {
			if loops, err = f.loops(g, k, tol); err != nil {
				return Line{}, fmt.Errorf("letter %q: %w", r, err)
			}
			known[g] = loops
		}
		for _, l := range loops {
			l = l.Move(plane.Pt(k*x, 0))
			line.Loops = append(line.Loops, l)
			line.Box = line.Box.Union(l.Bounds())
		}
		w, err := f.font.GlyphAdvance(&f.buf, g, f.unit, font.HintingNone)
		if err != nil {
			return Line{}, fmt.Errorf("letter %q: %w", r, err)
		}
		x, last = x+units(w), g
	}
	if len(line.Loops) == 0 {
		return Line{}, errors.New("the text holds no letter that can be seen")
	}
	left := plane.Pt(-line.Box.Min.X, 0)
	for i, l := range line.Loops {
		line.Loops[i] = l.Move(left)
	}
	line.Box = line.Box.Move(left)
	return line, nil
}

// Check returns the error that [Outlines] would for that text, without drawing it.
func Check(text string) error {
	f, err := open()
	if err != nil {
		return err
	}
	for _, r := range text {
		if _, err := f.glyph(r); err != nil {
			return err
		}
	}
	return nil
}

// face is the font, measured in its own units: those in which its outlines are
// drawn, of which unit make an em.
type face struct {
	font *sfnt.Font
	buf  sfnt.Buffer
	unit fixed.Int26_6
}

func open() (*face, error) {
	f, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil, fmt.Errorf("the font of the lettering: %w", err)
	}
	return &face{font: f, unit: fixed.I(int(f.UnitsPerEm()))}, nil
}

func units(v fixed.Int26_6) float64 { return float64(v) / 64 }

func (f *face) glyph(r rune) (sfnt.GlyphIndex, error) {
	g, err := f.font.GlyphIndex(&f.buf, r)
	if err != nil {
		return 0, fmt.Errorf("letter %q: %w", r, err)
	}
	if g == 0 { // the glyph of what is missing
		return 0, fmt.Errorf("the lettering has no outline for %q (%U); write it another way, or draw it as a path", r, r)
	}
	return g, nil
}

func (f *face) kern(a, b sfnt.GlyphIndex) float64 {
	k, err := f.font.Kern(&f.buf, a, b, f.unit, font.HintingNone)
	if err != nil {
		return 0 // the font says nothing of this pair
	}
	return units(k)
}

// capital returns the height of the capitals in the font's units.
func (f *face) capital() (float64, error) {
	g, err := f.glyph('H')
	if err != nil {
		return 0, err
	}
	segs, err := f.font.LoadGlyph(&f.buf, g, f.unit, nil)
	if err != nil {
		return 0, err
	}
	top := 0.0
	for _, s := range segs {
		top = math.Max(top, -units(s.Args[0].Y))
	}
	if top == 0 {
		return 0, errors.New("the font of the lettering has no capitals")
	}
	return top, nil
}

// loops returns the edges of one glyph, scaled by k, y up.
func (f *face) loops(g sfnt.GlyphIndex, k, tol float64) ([]plane.Loop, error) {
	segs, err := f.font.LoadGlyph(&f.buf, g, f.unit, nil)
	if err != nil {
		return nil, err
	}
	at := func(p fixed.Point26_6) plane.Point { return plane.Pt(k*units(p.X), -k*units(p.Y)) }
	var loops []plane.Loop
	var l plane.Loop
	var pen plane.Point
	end := func() {
		if l = l.Tidy(); l != nil {
			loops = append(loops, l)
		}
		l = nil
	}
	add := func(es ...plane.Edge) {
		for _, e := range es {
			if e.A != e.B {
				l = append(l, plane.Vertex{Point: e.A, Bulge: e.Bulge})
			}
		}
	}
	for _, s := range segs {
		a, b, c := at(s.Args[0]), at(s.Args[1]), at(s.Args[2])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			end()
			pen = a
		case sfnt.SegmentOpLineTo:
			add(plane.Edge{A: pen, B: a})
			pen = a
		case sfnt.SegmentOpQuadTo:
			add(bezier(tol, pen, a, b)...)
			pen = b
		case sfnt.SegmentOpCubeTo:
			add(bezier(tol, pen, a, b, c)...)
			pen = c
		}
	}
	end()
	return loops, nil
}

// bezier fits lines and arcs to a Bézier curve of degree 2 or 3.
func bezier(tol float64, ps ...plane.Point) []plane.Edge {
	first, last := ps[0], ps[len(ps)-1]
	straight := true
	for _, p := range ps[1 : len(ps)-1] {
		straight = straight && plane.Edge{A: first, B: last}.Dist(p) <= plane.Snap
	}
	if straight {
		return []plane.Edge{{A: first, B: last}}
	}
	return plane.FitArcs(func(t float64) (plane.Point, plane.Point) {
		var qs [4]plane.Point
		n := copy(qs[:], ps)
		for n--; n > 1; n-- {
			for i := range n {
				qs[i] = qs[i].Mul(1 - t).Add(qs[i+1].Mul(t))
			}
		}
		at, along := qs[0].Mul(1-t).Add(qs[1].Mul(t)), qs[1].Sub(qs[0])
		if along.Len() <= plane.Snap { // a control point on an end
			along = last.Sub(first)
		}
		return at, along
	}, 0, 1, tol)
}
