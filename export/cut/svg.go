package cut

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strings"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// Measures of the SVG sheet, mm: ours.
const (
	loneMargin = 5.0  // round a part without a sheet
	svgStroke  = 0.05 // a hairline: thinner than any kerf, so that the line says where, not how wide
)

// drawSVG writes the cuts of a plan in SVG.
func drawSVG(out io.Writer, p cuttingPlan, s *pattern.Sheet, r *check.Report, o export.Options) error {
	b := page(p, o)
	words := fileWords(s, r, o)
	drawn, err := drawnWords(b, words, o)
	if err != nil {
		return err
	}
	// y is turned over here and nowhere else.
	f := svgFrame{x: -b.Min.X, y: b.Max.Y}

	w := bufio.NewWriter(out)
	fmt.Fprintln(w, `<?xml version="1.0" encoding="UTF-8"?>`)
	fmt.Fprintf(w, "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\">\n",
		export.MM(b.W()), export.MM(b.H()), export.MM(b.W()), export.MM(b.H()))
	fmt.Fprintf(w, "<title>%s</title>\n", export.XMLText(export.Title(s.Design)))
	fmt.Fprintln(w, "<desc>")
	for _, line := range words {
		fmt.Fprintln(w, export.XMLText(line))
	}
	fmt.Fprintf(w, "Origin in this drawing: x %s, y %s from the upper left corner\n", export.MM(f.x), export.MM(f.y))
	fmt.Fprintf(w, "%s\n</desc>\n", export.TagOf(s.Design, export.TagRoom))

	fmt.Fprint(w, f.engraved(p.engraved, o.EngravedLine().SVG))
	f.lines(w, p, o)
	if drawn != nil {
		fmt.Fprintf(w, "<g id=\"%s\" font-family=\"sans-serif\" font-size=\"%s\" fill=\"#000000\" stroke=\"none\">\n", groupWords, export.MM(wordsHigh))
		for _, l := range drawn {
			at := f.at(l.at)
			fmt.Fprintf(w, "<text x=\"%s\" y=\"%s\">%s</text>\n", export.MM(at.X), export.MM(at.Y), export.XMLText(strings.TrimSpace(l.text)))
		}
		fmt.Fprintln(w, "</g>")
	}
	fmt.Fprintln(w, "</svg>")
	return w.Flush()
}

// groupWords is the group of the words that are drawn, if they are asked for.
const groupWords = "notes-not-cut"

// page returns what a file shows: the sheet that is cut from, edge to edge, or one part with
// a margin.
func page(p cuttingPlan, o export.Options) plane.Box {
	if o.OnSheet() {
		return p.sheet
	}
	return p.bounds().Grow(pageMargin(o))
}

// pageMargin is the width of the page's margin, in which nothing is cut.
func pageMargin(o export.Options) float64 {
	if o.OnSheet() {
		return o.Margin()
	}
	return loneMargin
}

// lines writes the cuts in their order: a group for the openings and one for the
// outline of each copy. What is cut in one go is one path, its lead-in first.
func (f svgFrame) lines(w io.Writer, p cuttingPlan, o export.Options) {
	group := ""
	outlines := map[int]int{} // of each copy, so far
	for _, c := range p.lines {
		g, name, colour := "openings", fmt.Sprintf("opening-%d", c.number), o.OpeningsLine()
		if c.outline() {
			outlines[c.copy]++
			g, name, colour = "outline", fmt.Sprintf("outline-%d", outlines[c.copy]), o.OutlineLine()
		}
		id := ""
		if len(p.copies) > 1 {
			id = copyID(c.copy)
		}
		if id+g != group {
			if group != "" {
				fmt.Fprintln(w, "</g>")
			}
			group = id + g
			fmt.Fprintf(w, "<g id=\"%s\" fill=\"none\" fill-rule=\"nonzero\" stroke=\"%s\" stroke-width=\"%s\">\n", group, colour.SVG, export.Decimal(svgStroke, 3))
		}
		name = id + name
		if c.runs == nil {
			fmt.Fprintf(w, "<path id=\"%s\" d=\"%s\"/>\n", name, f.path(c.loop))
		}
		for i, r := range c.runs {
			which := ""
			if len(c.runs) > 1 {
				which = fmt.Sprintf("-run-%d", i+1)
			}
			fmt.Fprintf(w, "<path id=\"%s%s\" d=\"%s\"/>\n", name, which, f.edges(r.path(), false))
		}
	}
	if group != "" {
		fmt.Fprintln(w, "</g>")
	}
}

// copyID is what the names in a file of several copies begin with.
func copyID(copy int) string {
	if copy == 0 {
		return ""
	}
	return fmt.Sprintf("copy-%d-", copy)
}

// svgFrame carries points of the blank (y up) to the paper (y down).
type svgFrame struct{ x, y float64 }

func (f svgFrame) at(p plane.Point) plane.Point {
	return plane.Point{X: export.Rounded(f.x + p.X), Y: export.Rounded(f.y - p.Y)}
}

// path writes a loop as path data (SVG 1.1, section 8.3): M, then L and A, then
// Z, which stands for the last edge where that is a line.
func (f svgFrame) path(l plane.Loop) string { return f.edges(l.Edges(), true) }

// edges writes a chain of edges, closed or open.
func (f svgFrame) edges(es []plane.Edge, closed bool) string {
	var b strings.Builder
	start := f.at(es[0].A)
	fmt.Fprintf(&b, "M%s %s", export.Coord(start.X), export.Coord(start.Y))
	for i, whole := range es {
		last := closed && i == len(es)-1
		for _, e := range svgArcs(whole) {
			a, c := f.at(e.A), f.at(e.B)
			if e.Bulge == 0 {
				if !last {
					fmt.Fprintf(&b, "L%s %s", export.Coord(c.X), export.Coord(c.Y))
				}
				continue
			}
			sweep := 0
			if e.Bulge < 0 { // clockwise with y up; the eye sees the same turn with y down
				sweep = 1
			}
			// The radius belongs to the ends as written, so that no reader has
			// to correct it.
			r := export.Coord(plane.Edge{A: a, B: c, Bulge: e.Bulge}.Radius())
			fmt.Fprintf(&b, "A%s %s 0 0 %d %s %s", r, r, sweep, export.Coord(c.X), export.Coord(c.Y))
		}
	}
	if closed {
		b.WriteString("Z")
	}
	return b.String()
}

// svgArcs returns the edge in parts that path data can hold well. An arc is
// given there by its ends and radius, and near half a turn the radius says
// almost nothing of the height: its error is the root of the radius's, with the
// 32-bit floats of many readers some 0.005 mm on an arc of 2 mm. So arcs are cut to
// a third of a turn at most.
func svgArcs(e plane.Edge) []plane.Edge {
	n := int(math.Ceil(math.Abs(e.Sweep())/(2*math.Pi/3) - 1e-9))
	if n <= 1 {
		return []plane.Edge{e}
	}
	parts := make([]plane.Edge, n)
	for i := range parts {
		parts[i] = e.Part(float64(i)/float64(n), float64(i+1)/float64(n))
	}
	return parts
}
