// Package own reads the one closed curve of a drawing that shall be a motif: SVG
// path data as pasted, an SVG file, or an ASCII DXF file.
//
// What may come in is any bytes; nothing panics on them. What comes out is one
// simple loop of lines and arcs, or an error that says what is wrong with the
// drawing and how to mend it. A drawing of several closed curves gives the
// largest; what else was left out is told in notes. Only the shape counts: its
// size on the band is the motif's business.
//
// A design keeps a curve as SVG path data in mm, y down as SVG has it. [Outline]
// and [Strokes] read them where they were drawn, [Data] writes them.
package own

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"

	"fretband/unroll/plane"
)

// MostBytes is the greatest size of a drawing: one motif's outline has some
// kilobytes.
const MostBytes = 4 << 20

// Limits of a loop that can be a motif. Ours: a loop smaller than Smallest, mm, is
// a speck left over from drawing or was drawn in another unit; one of more than
// MostEdges edges would make a sheet too slow to work on.
const (
	Smallest  = 0.1
	MostEdges = 2000
)

// Check says why a loop can't be a motif, or nil if it can.
func Check(l plane.Loop) error {
	if len(l) > MostEdges {
		return fmt.Errorf("the shape has %d edges; a motif may have %d at most: draw it with fewer points", len(l), MostEdges)
	}
	if b := l.Bounds(); !b.Empty() && math.Max(b.W(), b.H()) < Smallest {
		return fmt.Errorf("the shape is only %.3g by %.3g mm; a motif must be at least %g mm long: draw it larger, its size on the band is set there", b.W(), b.H(), Smallest)
	}
	if err := l.Check(); err != nil {
		return fmt.Errorf("the shape can't be cut out: %w", err)
	}
	return nil
}

// Shape is the curve taken from a drawing.
type Shape struct {
	// Loop runs counter-clockwise, the middle of its box at the origin, y up. Its
	// unit is the drawing's: a DXF's own if it names one, else a millimetre.
	Loop plane.Loop
	// Notes are sentences about what was left out or mended.
	Notes []string
}

// Read tells the three kinds of drawing apart by how they begin.
func Read(data []byte) (Shape, error) {
	if len(data) > MostBytes {
		return Shape{}, fmt.Errorf("the drawing has %d bytes; at most %d are read", len(data), MostBytes)
	}
	s := bytes.TrimSpace(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")))
	switch {
	case len(s) == 0:
		return Shape{}, errors.New("the drawing is empty")
	case s[0] == '<':
		return SVG(s)
	case s[0] == 'M' || s[0] == 'm':
		return Path(string(s))
	case s[0] >= '0' && s[0] <= '9':
		return DXF(s)
	}
	return Shape{}, errors.New("this is neither SVG path data (begins with M), nor an SVG file (begins with <), nor an ASCII DXF file (begins with a group number)")
}

// Limits, ours.
const (
	// mostCurves is the greatest number of curves of a drawing: joining their
	// ends looks at all pairs.
	mostCurves = 2000
	// joined is the part of the drawing's size by which ends may lie apart that
	// are meant as one point.
	joined = 1.0 / 2000
	// fitted is the size at which a fitted curve deviates by no more than
	// plane.FitTolerance, mm: no opening of a band is longer.
	fitted = 50.0
)

// choose makes the shape of the curves of a drawing.
func choose(curves []curve, notes []string) (Shape, error) {
	box := plane.EmptyBox()
	n := 0
	for _, c := range curves {
		n += len(c.pieces)
		for _, p := range c.pieces {
			for _, q := range p.hull() {
				if !q.Finite() {
					return Shape{}, fmt.Errorf("%s: a coordinate is not a finite number", c.name)
				}
				box = box.Add(q)
			}
		}
	}
	if n == 0 {
		return Shape{}, errors.New("the drawing holds no curve" + because(notes))
	}
	if n > 20*mostCurves || len(curves) > mostCurves {
		return Shape{}, fmt.Errorf("the drawing holds %d curves of %d pieces; a motif is one outline: at most %d curves of %d pieces are read", len(curves), n, mostCurves, 20*mostCurves)
	}
	size := math.Max(box.W(), box.H())
	if !(size >= Smallest) {
		return Shape{}, fmt.Errorf("the drawing is only %.3g by %.3g units in size; it must be at least %g: draw it larger", box.W(), box.H(), Smallest)
	}
	if size > plane.MaxCoord {
		return Shape{}, fmt.Errorf("the drawing is %.3g units in size; at most %g are read", size, plane.MaxCoord)
	}
	// About the origin, where coordinates have the most digits.
	move := shift(box.Centre().Mul(-1))
	for i := range curves {
		curves[i] = curves[i].through(move)
	}
	curves, open := join(curves, joined*size)
	if len(curves) == 0 {
		c := open[0]
		for _, o := range open {
			if o.gap() < c.gap() {
				c = o
			}
		}
		return Shape{}, fmt.Errorf("%s is open: it ends %.3g units from where it begins; close it%s", c.name, c.gap(), because(notes))
	}
	var best plane.Loop
	var from curve
	for _, c := range curves {
		l, err := c.loop(size * plane.FitTolerance / fitted)
		if err != nil {
			return Shape{}, fmt.Errorf("%s: %w", c.name, err)
		}
		if best == nil || math.Abs(l.Area()) > math.Abs(best.Area()) {
			best, from = l, c
		}
	}
	if len(best) > 0 {
		best = best.Move(best.Bounds().Centre().Mul(-1))
	}
	if err := Check(best); err != nil {
		return Shape{}, fmt.Errorf("%s: %w", from.name, err)
	}
	if len(curves) > 1 {
		b := best.Bounds()
		notes = append(notes, fmt.Sprintf("The drawing holds %d closed curves; the one with the largest area is taken (%s, %.4g by %.4g).", len(curves), from.name, b.W(), b.H()))
	}
	if len(open) > 0 {
		notes = append(notes, fmt.Sprintf("Left out as open: %d curves.", len(open)))
	}
	return Shape{Loop: best.CCW(), Notes: notes}, nil
}

// because adds what was left out to an error.
func because(notes []string) string {
	if len(notes) == 0 {
		return ""
	}
	return ". " + strings.Join(notes, " ")
}
