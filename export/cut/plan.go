// Package cut makes the files that are cut from. A part is laid out for cutting once: its
// lines with the kerf allowed for (part.go), led in (leads.go), held by tabs (tabs.go),
// placed on the sheet (nest.go), in chords if asked for (chords.go), in the order of
// cutting (plan.go). SVG and DXF only write that plan down, and what was written is read
// back and compared with it before it counts (readback.go).
package cut

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// cuttingPlan is what the cut files of a part hold: the lines of every copy in the
// order in which they are cut. Every cut file is written from one, and the
// read-back compares the file with it.
type cuttingPlan struct {
	// sheet is the stock that the parts lie on, or the box round them with its
	// margin where no stock is given.
	sheet    plane.Box
	copies   []placed
	engraved []engraved    // of all copies, before anything is cut: the sheet lies firm
	lines    []cuttingLine // openings of a copy, then its outline, then the next copy
}

// Files makes the cut files of a part, all from one plan.
type Files struct {
	sheet   *pattern.Sheet
	report  *check.Report
	options export.Options
	plan    cuttingPlan
}

// NewFiles lays the part out for cutting as the options ask for it.
//
// Errors: [ErrForm], [KerfError], tabs without a position, more lines than a file may hold, and
// [RoomError].
func NewFiles(s *pattern.Sheet, r *check.Report, o export.Options) (*Files, error) {
	p, err := newCuttingPlan(s, r, o)
	if err != nil {
		return nil, err
	}
	return &Files{s, r, o, p}, nil
}

// WriteSVG writes the cut file in SVG 1.1: one user unit is a millimetre, true
// arcs, one path a closed line, openings before the outline.
func (f *Files) WriteSVG(w io.Writer) error { return drawSVG(w, f.plan, f.sheet, f.report, f.options) }

// WriteDXF writes the cut file in DXF: millimetres, closed polylines, layers by
// purpose in the default colour, openings before the outline. [export.Options.Curves] picks
// the release: "arcs" that of 2000, the others release 12. Arcs are bulges.
func (f *Files) WriteDXF(w io.Writer) error { return drawDXF(w, f.plan, f.sheet, f.report, f.options) }

// CheckSVG reads an SVG file back and compares it with the plan and the report. Its
// errors are [export.ReadBackError] without File.
func (f *Files) CheckSVG(data []byte) error {
	got, err := readSVGBack(data, f.options)
	b := page(f.plan, f.options)
	got.move(plane.Pt(b.Min.X, b.Max.Y)) // from the page's upper left corner
	return f.check(got, err)
}

// CheckDXF is CheckSVG for DXF.
func (f *Files) CheckDXF(data []byte) error { return f.check(readDXFBack(data, f.options)) }

// mostLines bounds the lines of a cut sheet: half a million of them are files of 300 MB,
// for which writing and reading back take some 3 GB of memory. Ours.
const mostLines = 500_000

// placed says where a copy of the part lies on the sheet: turned about the middle
// of the blank, then moved there.
type placed struct {
	rotation float64 // rad, counter-clockwise
	at       plane.Point
}

// cuttingLine is one closed line to be cut. Openings run clockwise and outlines
// counter-clockwise, so that the metal that is kept lies on the left of every cut
// and the waste on its right.
type cuttingLine struct {
	copy   int // from 1
	number int // of the opening, from 1; 0 for an outline
	loop   plane.Loop
	// runs are the open lines in which loop is cut, in order: one that goes all round it if
	// there is a lead-in, several where tabs hold the part or where a tube's edges go round
	// it. None means that loop is cut as one closed line.
	runs []run
}

// run is an open line that is cut in one go. The beam pierces at the beginning of its
// lead-in, in waste, and goes on along the edge without a stop: a lead-in that was a line by
// itself would have the beam pierce the finished edge.
type run struct {
	lead plane.Chain // none if empty
	edge plane.Chain // of loop
}

func (r run) path() plane.Chain { return slices.Concat(r.lead, r.edge) }

// outline reports whether it is the outline of a copy.
func (c cuttingLine) outline() bool { return c.number == 0 }

// newCuttingPlan lays the part out for cutting as the options ask for it.
//
// Errors: [ErrForm], those of [newPart], tabs without a position, more lines than a file may hold, and
// a [RoomError] if the sheet has no room.
func newCuttingPlan(s *pattern.Sheet, r *check.Report, o export.Options) (cuttingPlan, error) {
	if err := checkForm(s, o); err != nil {
		return cuttingPlan{}, err
	}
	p, err := newPart(s, r, o.KerfMM)
	if err != nil {
		return cuttingPlan{}, err
	}
	one, err := p.lines(s, o)
	if err != nil {
		return cuttingPlan{}, err
	}
	if n := o.Parts() * len(one); n > mostLines {
		return cuttingPlan{}, fmt.Errorf("copies %d: %d lines each make %d lines on the sheet: must be %d at most: make %d parts at a time",
			o.Parts(), len(one), n, mostLines, max(1, mostLines/len(one)))
	}
	plan := cuttingPlan{}
	plan.sheet, plan.copies, err = place(body(one, p.engraved), s, o)
	if err != nil {
		return cuttingPlan{}, err
	}
	if tol := o.Chord(); tol > 0 {
		for i := range one {
			one[i].inChords(tol)
		}
		for i, m := range p.engraved {
			p.engraved[i] = m.inChords(tol)
		}
	}
	for i, c := range plan.copies {
		for _, m := range p.engraved {
			m = c.engraved(m)
			if len(plan.copies) > 1 {
				m.copy = i + 1
			}
			plan.engraved = append(plan.engraved, m)
		}
		for _, t := range one {
			plan.lines = append(plan.lines, c.line(t, i+1))
		}
	}
	plan.engraved = append(onFace(plan.engraved, false), onFace(plan.engraved, true)...)
	return plan, nil
}

// lines returns the cutting lines of one copy in their order, in the blank's frame, with lead-ins
// and tabs, and in chords, as asked for.
//
// Errors: tabs for which the outline has no positions.
func (p part) lines(s *pattern.Sheet, o export.Options) ([]cuttingLine, error) {
	cs := make([]cuttingLine, 0, len(p.openings)+len(p.outline))
	enter := entries{map[int]knownEntry{}}
	for i, h := range p.openings {
		c := cuttingLine{number: h.number, loop: h.loop.Reverse()}
		if o.LeadMM > 0 {
			leadOpening(&c, enter.of(s.Openings[i], c.loop), o.LeadMM)
		}
		cs = append(cs, c)
	}
	slices.SortStableFunc(cs, func(a, b cuttingLine) int { return cmp.Compare(a.number, b.number) })
	out, err := outlineLines(p.outline, s, o)
	if err != nil {
		return nil, err
	}
	return append(cs, out...), nil
}

// outlineLines returns the cutting lines of the outline alone, in arcs.
func outlineLines(outline plane.Region, s *pattern.Sheet, o export.Options) ([]cuttingLine, error) {
	var cs []cuttingLine
	for _, l := range outline {
		c := cuttingLine{loop: l}
		if Tube(s, o) {
			if err := openAtEnds(&c, s.Flat.Length, o); err != nil {
				return nil, err
			}
			cs = append(cs, c)
			continue
		}
		if o.LeadMM > 0 {
			enterOutline(&c, o.LeadMM, leadSide(s))
		}
		if o.Tabs > 0 {
			if err := holdByTabs(&c, o.Tabs, o.Tab(), o.KerfMM); err != nil {
				return nil, err
			}
		}
		if o.LeadMM > 0 {
			leadRuns(&c, o.LeadMM, outward)
		}
		cs = append(cs, c)
	}
	return cs, nil
}

// body returns what of one copy has to keep its distance from others and from the
// sheet's edge: outlines and their lead-ins, openings that run over an end, and engraving
// that runs over the outline, so that it does not end up on the neighbour.
func body(one []cuttingLine, engravings []engraved) []plane.Loop {
	var outline plane.Region
	for _, c := range one {
		if c.outline() {
			outline = append(outline, c.loop)
		}
	}
	box := outline.Bounds()
	var ls []plane.Loop
	for _, c := range one {
		if !c.outline() {
			if b := c.loop.Bounds(); !box.Contains(b.Min) || !box.Contains(b.Max) {
				ls = append(ls, c.loop)
			}
			continue
		}
		ls = append(ls, c.loop)
		for _, r := range c.runs {
			for _, e := range r.lead {
				ls = append(ls, plane.Polygon(e.A, e.B))
			}
		}
	}
	for _, m := range engravings {
		// All that runs over in one box: an engraving has many lines.
		over := plane.EmptyBox()
		for _, s := range m.strokes {
			for _, e := range s.Edges() {
				if !outline.Contains(e.A) || !outline.Contains(e.B) || !outline.Contains(e.Mid()) {
					over = over.Union(e.Bounds())
				}
			}
		}
		if !over.Empty() {
			ls = append(ls, plane.Rect(over))
		}
	}
	return ls
}

// bounds returns the smallest box round all lines.
func (p cuttingPlan) bounds() plane.Box {
	b := plane.EmptyBox()
	for _, c := range p.lines {
		b = b.Union(c.loop.Bounds())
		for _, r := range c.runs {
			b = b.Union(r.lead.Bounds())
		}
	}
	for _, m := range p.engraved {
		b = b.Union(m.bounds())
	}
	return b
}

// line carries a cut from the blank's frame to the sheet.
func (c placed) line(t cuttingLine, copy int) cuttingLine {
	t.copy = copy
	if c == (placed{}) {
		return t
	}
	t.loop = c.loop(t.loop)
	runs := t.runs
	t.runs = nil
	for _, r := range runs {
		t.runs = append(t.runs, run{c.edges(r.lead), c.edges(r.edge)})
	}
	return t
}

func (c placed) engraved(m engraved) engraved {
	if c == (placed{}) {
		return m
	}
	strokes := m.strokes
	m.strokes = nil
	for _, s := range strokes {
		s.Line = c.loop(s.Line)
		m.strokes = append(m.strokes, s)
	}
	return m
}

func (c placed) loop(l plane.Loop) plane.Loop {
	if c.rotation != 0 {
		l = l.Turn(c.rotation)
	}
	return l.Move(c.at)
}

func (c placed) edges(es plane.Chain) plane.Chain {
	out := make(plane.Chain, len(es))
	for i, e := range es {
		out[i] = plane.Edge{A: e.A.Turn(c.rotation).Add(c.at), B: e.B.Turn(c.rotation).Add(c.at), Bulge: e.Bulge}
	}
	return out
}

// RoomError says that a sheet of stock does not hold the parts asked for.
type RoomError struct {
	Asked, Fit  int
	WideMM      float64 // of the part with nothing round it, as it lies best
	HighMM      float64
	SheetWideMM float64
	SheetHighMM float64
	MarginMM    float64
	ClearanceMM float64
}

func (e *RoomError) Error() string {
	return fmt.Sprintf("sheet of %s x %s mm: %d of the %d parts asked for have room (each %s x %s mm, %s mm from the edge, %s mm apart): "+
		"give a larger sheet, or make fewer parts at a time",
		export.MM(e.SheetWideMM), export.MM(e.SheetHighMM), e.Fit, e.Asked, export.MM(e.WideMM), export.MM(e.HighMM), export.MM(e.MarginMM), export.MM(e.ClearanceMM))
}
