// Package template draws the saw template: the finished edges at true size on paper, with
// what the bench needs to know beside them.
package template

import (
	"fmt"
	"io"
	"math"
	"strconv"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// Everything on a template is black on white: a workshop's printer knows no grey, and
// a copy of a copy less.
var (
	edgePen      = pdf.Pen{Width: 0.15}
	outlinePen   = pdf.Pen{Width: 0.2}
	engravingPen = pdf.Pen{Width: 0.1}
	wastePen     = pdf.Pen{Width: 0.08}
	centrePen    = pdf.Pen{Width: 0.08, Dashes: []float64{4, 0.8, 0.6, 0.8}}
	reservePen   = pdf.Pen{Width: 0.1, Dashes: []float64{1, 0.7}}
	againPen     = pdf.Pen{Width: 0.1, Dashes: []float64{0.5, 0.5}}
	joinPen      = pdf.Pen{Width: 0.1, Dashes: []float64{2, 2}}
	gravePen     = pdf.Pen{Width: 0.06} // no dashes: they hide what letters say
	framePen     = pdf.Pen{Width: 0.1}

	titleFont   = pdf.Font{Size: 4.6, Bold: true}
	strongFont  = pdf.Font{Size: 3.2, Bold: true}
	textFont    = pdf.Font{Size: 2.6}
	headingFont = pdf.Font{Size: 2.6, Bold: true}
	smallFont   = pdf.Font{Size: 2.3}
	tinyFont    = pdf.Font{Size: 1.8}
)

// template is the saw template of one part in the making.
type template struct {
	doc        *pdf.Doc
	sheet      *pattern.Sheet
	report     *check.Report
	options    export.Options
	outline    plane.Loop
	drawn      plane.Box // round all that is drawn of the part
	drills     []check.Drilled
	pilotMarks []pilotMark
	labels     []rowLabel
	edges      []plane.Edge // strokes on the waste side of the outline

	paging
	notes        []paragraph
	under, apart [][]noteLine // columns of notes under the part, and on sheets of their own
	words        map[wordIn]float64
}

// Write writes the saw template: the finished edges at true size on as
// few sheets of paper as hold them, each with rulers and a square by which the
// print is checked. The kerf of the cut files is not allowed for here: a saw
// goes beside the line.
func Write(w io.Writer, s *pattern.Sheet, r *check.Report, o export.Options) error {
	t, err := newTemplate(s, r, o)
	if err != nil {
		return err
	}
	t.draw()
	_, err = t.doc.WriteTo(w)
	return err
}

// newTemplate lays the template out; nothing is drawn yet.
func newTemplate(s *pattern.Sheet, r *check.Report, o export.Options) (*template, error) {
	s, r = export.CutBy(s, r, export.Saw) // whatever the cut files are for
	if r.Pieces > 1 {
		return nil, fmt.Errorf("%d pieces: %w", r.Pieces, export.ErrPieces)
	}
	doc, err := pdf.New(export.Plain(s.Design.Name) + ", saw template")
	if err != nil {
		return nil, err
	}
	doc.Keywords = export.TagOf(s.Design, export.TagRoom)
	t := &template{doc: doc, sheet: s, report: r, options: o, outline: s.Flat.Outline.CCW(), drawn: drawnBox(s), words: map[wordIn]float64{}}
	t.drills = check.Drills(s, r.Blade)
	t.pilotMarks = pilotMarks(s, drillSizes(s, t.drills), func(text string, h float64) float64 { return doc.TextWidth(text, digits(h)) })
	t.edges = t.outlineWaste()
	// Where the ends of an arc lie rather than stand, there is no room beside them.
	if f := s.Flat; !f.Flared() || math.Abs(math.Cos(f.Length/2/f.Apex())) > 0.5 {
		t.labels = rowLabels(t.straightened(), s.Runs())
	}
	t.paging = t.lay()
	t.notes = t.paragraphs()
	t.under, t.apart = t.placeNotes(t.underPart())
	return t, nil
}

// draw draws all sheets: those of the part, then those of the notes that found no room
// under it.
func (t *template) draw() {
	n := t.pages()
	all := n + (len(t.apart)+1)/2
	for page := range n {
		t.doc.Page(t.w, t.h)
		tile, copies := t.on(page)
		for i, c := range copies {
			t.drawPart(t.place(tile, i, len(copies)), c)
		}
		t.drawFrame(page+1, all, t.pageName(tile, copies), &tile)
		t.drawJoins(tile)
		if page == n-1 {
			t.drawNotes(t.underPart(), t.under)
		}
	}
	for i := 0; i < len(t.apart); i += 2 {
		t.doc.Page(t.w, t.h)
		t.drawFrame(n+i/2+1, all, "notes", nil)
		t.drawNotes(t.notesArea(), t.apart[i:min(i+2, len(t.apart))])
	}
}

// pageName says what a sheet shows, besides its number; nothing if all is on it.
func (t *template) pageName(at tile, copies []int) string {
	name := t.tileName(at)
	if t.copies > 1 && t.tiled() {
		name += ", copy " + strconv.Itoa(copies[0])
	}
	return name
}

// drawnBox returns the smallest box round outline, openings and what is engraved.
func drawnBox(s *pattern.Sheet) plane.Box {
	b := s.Flat.Outline.Bounds()
	for _, o := range s.Openings {
		b = b.Union(o.Loop.Bounds())
	}
	for _, m := range s.Engravings {
		b = b.Union(engravedBox(m))
	}
	return b
}

func engravedBox(m pattern.EngravedLines) plane.Box {
	b := plane.EmptyBox()
	for _, st := range m.Strokes {
		b = b.Union(st.Edges().Bounds())
	}
	return b
}
