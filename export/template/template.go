// Package template draws the saw template: the finished edges at true size on paper, with
// what the bench needs to know beside them.
package template

import (
	"fmt"
	"io"
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
	largePen     = pdf.Pen{Width: 0.12} // of the larger drawing, from which nothing is sawn
	wastePen     = pdf.Pen{Width: 0.08}
	ledPen       = pdf.Pen{Width: 0.06}
	centrePen    = pdf.Pen{Width: 0.08, Dashes: []float64{4, 0.8, 0.6, 0.8}}
	reservePen   = pdf.Pen{Width: 0.1, Dashes: []float64{1, 0.7}}
	againPen     = pdf.Pen{Width: 0.1, Dashes: []float64{0.5, 0.5}}
	joinPen      = pdf.Pen{Width: 0.1, Dashes: []float64{2, 2}}
	gravePen     = pdf.Pen{Width: 0.06} // no dashes: they hide what letters say
	innerPen     = pdf.Pen{Width: 0.06, Dashes: []float64{0.25, 0.15}}
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
	part       *pattern.Sheet
	sheet      *pattern.Sheet // as it is drawn: part, or a strip round it
	lapped     bool           // the strip's ends overlap
	report     *check.Report
	options    export.Options
	outline    plane.Loop
	drawn      plane.Box       // round all that is drawn of the part
	drills     []check.Drilled // of the openings that are sawn
	drilled    []hole          // the others
	pilotMarks []pilotMark
	edges      []plane.Edge // strokes on the waste side of the outline

	paging
	large        enlarged
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
	drawn := s
	if export.RoundAlready(s, o) {
		var err error
		if drawn, err = strip(s, o); err != nil {
			return nil, err
		}
	}
	doc, err := pdf.New(export.Title(s.Design) + ", saw template")
	if err != nil {
		return nil, err
	}
	doc.Keywords = export.TagOf(s.Design, export.TagRoom)
	t := &template{doc: doc, part: s, sheet: drawn, lapped: drawn != s && s.Seamless(), report: r, options: o, outline: drawn.Flat.Outline.CCW(), drawn: drawnBox(drawn), words: map[wordIn]float64{}}
	if t.lapped {
		t.drawn.Max.X = max(t.drawn.Max.X, drawn.Flat.Length/2+wrapLap)
	}
	t.drilled = t.holes()
	t.drills = sawn(check.Drills(s, r.Blade), t.drilled)
	t.edges = t.outlineWaste()
	t.markOpenings()
	t.paging = t.lay()
	t.large = t.enlarge()
	t.notes = t.paragraphs()
	t.under, t.apart = t.placeNotes(t.underPart())
	return t, nil
}

// draw draws all sheets: those of the part, those of the larger drawing if there is one,
// and the notes if they found no room under the part.
func (t *template) draw() {
	n := t.pages()
	first := n + len(t.large.tiles) // of the notes
	all := first + (len(t.apart)+1)/2
	for page := range n {
		t.doc.Page(t.w, t.h)
		at, copies := t.on(page)
		for i, c := range copies {
			t.drawPart(t.place(at, i, len(copies)), c)
		}
		t.clearEdges(t.area)
		t.drawHead(page+1, all, t.pageName(at, copies), t.paging, &at, true)
		t.drawChecks()
		t.drawJoins(at)
		if page == n-1 {
			t.drawNotes(t.underPart(), t.under)
		}
	}
	for i, at := range t.large.tiles {
		t.doc.Page(t.w, t.h)
		t.drawEnlarged(t.large, at)
		t.clearEdges(t.large.area)
		name := fmt.Sprintf("numbers of small openings, %g times as large. Do not saw from this sheet", t.large.scale)
		t.drawHead(n+i+1, all, name, t.large.paging, &at, false)
	}
	for i := 0; i < len(t.apart); i += 2 {
		t.doc.Page(t.w, t.h)
		l := t.paging
		l.bare = 0
		t.drawHead(first+i/2+1, all, "notes", l, nil, false)
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
