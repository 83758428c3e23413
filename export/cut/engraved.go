package cut

import (
	"fmt"
	"strings"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/own"
	"fretband/unroll/plane"
)

// engraved is one engraving as the files draw it. The kerf does not touch it: a graver or
// beam follows the line itself.
type engraved struct {
	copy    int // of the part, from 1; 0 where there is no plan
	number  int // of the engraving, from 1
	inside  bool
	strokes []own.Stroke
}

func engravings(s *pattern.Sheet) []engraved {
	var es []engraved
	for _, m := range s.Engravings {
		es = append(es, engraved{number: m.Engraving + 1, inside: m.Inside, strokes: m.Strokes})
	}
	return es
}

func (e engraved) bounds() plane.Box {
	b := plane.EmptyBox()
	for _, s := range e.strokes {
		b = b.Union(s.Edges().Bounds())
	}
	return b
}

// onFace returns the engravings of one face.
func onFace(es []engraved, inside bool) []engraved {
	var on []engraved
	for _, e := range es {
		if e.inside == inside {
			on = append(on, e)
		}
	}
	return on
}

// engraved writes the groups of engravings, one a face: a path for each line, open ones left
// open.
func (f svgFrame) engraved(es []engraved, colour string) string {
	return f.engravedOn(export.GroupEngraved, onFace(es, false), colour) + f.engravedOn(export.GroupInside, onFace(es, true), colour)
}

func (f svgFrame) engravedOn(group string, es []engraved, colour string) string {
	if len(es) == 0 {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, "<g id=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%s\">\n", group, colour, export.Decimal(svgStroke, 3))
	for _, e := range es {
		for i, s := range e.strokes {
			fmt.Fprintf(&b, "<path id=\"%smark-%d-%d\" d=\"%s\"/>\n", copyID(e.copy), e.number, i+1, f.stroke(s))
		}
	}
	b.WriteString("</g>\n")
	return b.String()
}

// stroke writes a line as path data.
func (f svgFrame) stroke(s own.Stroke) string {
	if s.Closed {
		return f.path(s.Line)
	}
	return f.edges(s.Edges(), false)
}

// engraved writes an engraving: a straight line as LINE, all else as LWPOLYLINE with
// bulges, closed only where the line is.
func (d *dxf) engraved(e engraved) {
	layer := export.LayerEngraved
	if e.inside {
		layer = export.LayerInside
	}
	for _, s := range e.strokes {
		if len(s.Line) == 2 && !s.Closed && s.Line[0].Bulge == 0 {
			d.begin("LINE", layer, "AcDbLine")
			a, b := s.Line[0].Point, s.Line[1].Point
			d.point3(10, a.X, a.Y, 0)
			d.point3(11, b.X, b.Y, 0)
			continue
		}
		d.vertices(layer, s.Line, s.Closed)
	}
}
