// Package own reads the one closed curve of a drawing that shall be a motif: SVG
// path data as pasted, an SVG file, or an ASCII DXF file.
//
// What may come in is any bytes; nothing panics on them. What comes out is one
// simple loop of lines and arcs, or an error that says what is wrong with the
// drawing and how to mend it. A drawing of several closed curves gives the
// largest; one that touches itself counts as the several that it bounds, and one
// that SVG fills though it is open as closed by a straight line. What was assumed or
// left out is reported in notes. Only the shape counts: its
// size on the band is the motif's business.
//
// A design keeps a curve as SVG path data in mm, y down as SVG has it. [Outline]
// and [Strokes] read them where they were drawn, [Data] writes them.
package own

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
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
	closed, open := join(curves, joined*size)
	fit := size * plane.FitTolerance / fitted
	closed, open = closeFilled(closed, open, fit)
	if len(closed) == 0 {
		c := open[0]
		for _, o := range open {
			if o.gap() < c.gap() {
				c = o
			}
		}
		return Shape{}, fmt.Errorf("%s is open: it ends %.3g units from where it begins; close it%s", c.name, c.gap(), because(notes))
	}
	return largest(closed, open, fit, notes)
}

// found is a loop of a drawing, and the curve that it was made of.
type found struct {
	loop plane.Loop
	from curve
}

// largest makes the shape of the largest of the loops that the closed curves bound.
func largest(closed, open []curve, tol float64, notes []string) (Shape, error) {
	var loops []found
	for _, c := range closed {
		l, err := c.loop(tol)
		switch {
		case len(closed) > 1 && (errors.Is(err, errFlat) || err == nil && flat(l)):
			continue // if there is more, it is a speck
		case err != nil:
			return Shape{}, fmt.Errorf("%s: %w", c.name, err)
		}
		loops = append(loops, found{l, c})
	}
	if len(loops) == 0 {
		return Shape{}, fmt.Errorf("%s and all others: %w%s", closed[0].name, errFlat, because(notes))
	}
	best := 0
	apart := map[string]bool{} // curves that were taken apart
	for {
		for i := range loops {
			if math.Abs(loops[i].loop.Area()) > math.Abs(loops[best].loop.Area()) {
				best = i
			}
		}
		f := &loops[best]
		f.loop = f.loop.Move(f.loop.Bounds().Centre().Mul(-1))
		err := Check(f.loop)
		if err == nil {
			break
		}
		parts := untouched(f.loop)
		if parts == nil || apart[f.from.name] {
			return Shape{}, fmt.Errorf("%s: %w", f.from.name, err)
		}
		apart[f.from.name] = true
		f.loop = parts[0]
		for _, l := range parts[1:] {
			loops = append(loops, found{l, f.from})
		}
	}
	l, from := loops[best].loop, loops[best].from
	if from.fill {
		notes = append(notes, fmt.Sprintf("%s is open; it is read as closed by a straight line of %.3g units, as SVG fills it.", capital(from.name), from.gap()))
	}
	if apart[from.name] {
		notes = append(notes, fmt.Sprintf("%s touches itself; it is taken apart there.", capital(from.name)))
	}
	if len(loops) > 1 {
		b := l.Bounds()
		notes = append(notes, fmt.Sprintf("The drawing holds %d closed curves; the one with the largest area is taken (%s, %.4g by %.4g).", len(loops), from.name, b.W(), b.H()))
	}
	if len(open) > 0 {
		notes = append(notes, fmt.Sprintf("Left out as open: %d curves.", len(open)))
	}
	return Shape{Loop: l.CCW(), Notes: notes}, nil
}

// hair is the share of a curve's area by which it may differ from what it bounds
// where it crosses itself by no more than the rounding of its coordinates.
const hair = 1e-3

// untouched returns the simple loops that a curve which touches itself bounds, the
// largest first and specks left out; nil if it crosses itself. Of a curve that only
// touches itself the loops have its area: it runs round no position twice, nor the
// other way about.
func untouched(l plane.Loop) []plane.Loop {
	whole := math.Abs(l.Area())
	r, err := plane.Merge([]plane.Loop{l.CCW()})
	if err != nil || math.Abs(r.Area()-whole) > hair*whole {
		return nil
	}
	r = slices.DeleteFunc(r, func(l plane.Loop) bool { return math.Abs(l.Area()) <= hair*whole })
	slices.SortStableFunc(r, func(a, b plane.Loop) int { return cmp.Compare(math.Abs(b.Area()), math.Abs(a.Area())) })
	return r
}

// capital returns a name as a sentence begins with it.
func capital(name string) string { return strings.ToUpper(name[:1]) + name[1:] }

// because adds what was left out to an error.
func because(notes []string) string {
	if len(notes) == 0 {
		return ""
	}
	return ". " + strings.Join(notes, " ")
}
