package template

import (
	"fmt"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

const underStep = 3.2 // mm, from line to line under the blank

// underItem is a piece of what is written under the blank.
type underItem struct {
	text  string
	align pdf.Align
	bend  int  // an arrow that bends away before the words (-1) or behind them (1)
	grain bool // words within the arrow of the grain
}

// underRows returns what is written under a blank of that width, line by line: what its
// ends become, which face is up, how the grain runs, and which copy it is.
func (t *template) underRows(wide float64, copy int) [][]underItem {
	end, bent := endLabel(t.sheet), export.Bends(t.sheet)
	face := "outer face up"
	if t.sheet.Design.Band.Making == unroll.Formed {
		face = "seen from outside"
	}
	left, right := underItem{text: end, align: pdf.Left}, underItem{text: end, align: pdf.Right}
	if bent {
		left.bend, right.bend = -1, 1
	}
	first := []underItem{left, {text: "middle", align: pdf.Centre}, right}
	second := []underItem{{text: face, align: pdf.Left}}
	if t.grain() {
		second = append(second, underItem{text: "grain", align: pdf.Centre, grain: true})
	}
	if n := t.options.Parts(); n > 1 {
		second = append(second, underItem{text: fmt.Sprintf("copy %d of %d", copy, n), align: pdf.Right})
	}
	rows := [][]underItem{first}
	if t.lapped {
		rows = [][]underItem{{{text: "left end: on top", align: pdf.Left}, {text: pattern.Say("%.2f mm to the dashed line, round the outside", t.sheet.Flat.Length), align: pdf.Centre},
			{text: "right end: under, " + export.MM(wrapLap) + " mm", align: pdf.Right}}}
	} else if 2*t.doc.TextWidth(end, smallFont)+2*bendArrow+14 > wide {
		rows = [][]underItem{{{text: "both sides: " + end, align: pdf.Centre}}}
	}
	// Each keeps to its third, or has a line of its own.
	for _, it := range second {
		if len(second) > 1 && t.itemWidth(it)+2 > wide/3 {
			for _, it := range second {
				it.align = pdf.Centre
				rows = append(rows, []underItem{it})
			}
			return rows
		}
	}
	return append(rows, second)
}

const (
	bendArrow  = 3.2 // room that it takes, mm
	grainArrow = 16.0
)

func (t *template) itemWidth(it underItem) float64 {
	if it.grain {
		return grainArrow
	}
	return t.doc.TextWidth(it.text, smallFont)
}

// drawUnder writes what stands under the blank. Where the ends of an arc point up, what
// they become stands above them.
func (t *template) drawUnder(v plane.Point, seen plane.Box, copy int) {
	b := t.outline.Bounds()
	low, high := t.beyond()
	y := low - smallFont.CapHeight() - 0.8
	for _, row := range t.underRows(b.W(), copy) {
		for _, it := range row {
			p := plane.Pt(0, y)
			switch it.align {
			case pdf.Left:
				p.X = b.Min.X
			case pdf.Right:
				p.X = b.Max.X
			}
			if it.bend != 0 && t.sheet.Flat.Apex() > 0 {
				p.Y = max(b.Max.Y, high-overhang) + 1.2
			}
			if !seen.Contains(p) {
				continue
			}
			at := p.Add(v)
			if it.grain {
				if t.across%2 == 0 {
					at.X += grainArrow + 4 // the middle is where sheets are joined
				}
				t.drawGrain(at, it.text)
				continue
			}
			if it.bend != 0 {
				t.drawBend(at, it.bend)
				at.X -= float64(it.bend) * bendArrow
			}
			t.doc.Text(at, it.text, smallFont, it.align)
		}
		y -= underStep
	}
}

// drawGrain draws an arrow along the grain with its word in the middle.
func (t *template) drawGrain(at plane.Point, word string) {
	at.Y += smallFont.CapHeight() / 2
	t.drawArrow(at, grainArrow, true)
	w := t.doc.TextWidth(word, smallFont)/2 + 0.8
	h := smallFont.CapHeight() / 2
	t.doc.Fill(plane.Rect(plane.Box{Min: at.Sub(plane.Pt(w, h)), Max: at.Add(plane.Pt(w, h))}), plane.Point{}, 1)
	t.doc.Text(at.Sub(plane.Pt(0, h)), word, smallFont, pdf.Centre)
}

// drawBend draws an arrow that runs out to the left (-1) or right (1) and bends down, its
// point at a position.
func (t *template) drawBend(at plane.Point, side int) {
	const quarter = 0.41421356237309503 // tan(pi/8), the bulge of a quarter of a circle
	const r = 2.0
	x := float64(side)
	tip := at.Sub(plane.Pt(x*0.5, 0.2))
	t.doc.Chain([]plane.Edge{{A: tip.Add(plane.Pt(-x*r, r)), B: tip, Bulge: -x * quarter}}, false, plane.Point{}, engravingPen)
	t.drawPoint(tip, plane.Pt(0, -1))
}

// endLabel says in a few words what an end of the blank becomes.
func endLabel(s *pattern.Sheet) string {
	end, bend := "end", "; bends away from you"
	if s.Design.Band.Making == unroll.Formed {
		bend = ""
	}
	switch {
	case s.Design.Band.Open():
	case !s.Design.Band.Seamless():
		end = "joint"
	default:
		return "both ends are one place"
	}
	return end + bend
}

// grain reports whether the grain of the sheet matters: it does if the part is bent.
func (t *template) grain() bool { return export.Bends(t.sheet) }
