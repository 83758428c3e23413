package template

import (
	"cmp"
	"fmt"
	"strconv"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/unroll/plane"
)

// printWords are on every sheet of a template that shows the part.
const printWords = "Print at 100 % (actual size). Do not scale or fit to page. Check both rulers and the square before sawing."

// rulerWords stand beside the ruler of a sheet that has no other check.
const rulerWords = "50 mm on the print, by a steel rule"

// blockRow is the height of a row of the title block, mm.
const blockRow = 7.0

// cell is one field of the title block.
type cell struct {
	label, text string
	w           float64
}

// titleBlock returns the fields of the title block in rows that fill the sheet's width.
func (t *template) titleBlock(l paging) [][]cell {
	s, r := t.sheet, t.report
	cells := []cell{
		{label: "Content number", text: export.ContentNumber(s.Design)},
		{label: "Size", text: export.InsideWords(s)},
		{label: "Blank", text: export.MM(r.BlankLen) + " x " + export.MM(r.BlankWidth) + " mm"},
		{label: "Metal", text: cmp.Or(export.Plain(r.Alloy.Name), export.Plain(s.Design.Metal.Alloy))},
		{label: "Thickness", text: export.MM(r.Thickness) + " mm"},
		{label: "Copies", text: strconv.Itoa(l.copies)},
		{label: "Paper", text: l.paper.Title + " " + l.lying()},
		{label: "Scale", text: "1:1"},
		{label: "Date", text: export.Plain(t.options.Date)},
	}
	all := l.w - 2*margin
	var rows [][]cell
	var row []cell
	used := 0.0
	end := func() {
		for i := range row {
			row[i].w += (all - used) / float64(len(row))
		}
		rows, row, used = append(rows, row), nil, 0
	}
	for _, c := range cells {
		if c.text == "" {
			continue
		}
		c.text = t.shortened(c.text, textFont, all/2)
		c.w = max(t.doc.TextWidth(c.text, textFont), t.doc.TextWidth(c.label, tinyFont)) + 3
		if used+c.w > all {
			end()
		}
		row, used = append(row, c), used+c.w
	}
	end()
	return rows
}

// shortened cuts text that is wider than that.
func (t *template) shortened(text string, f pdf.Font, width float64) string {
	for rs := []rune(text); t.doc.TextWidth(text, f) > width && len(rs) > 4; {
		rs = rs[:len(rs)-1]
		text = string(rs) + "..."
	}
	return text
}

// clearEdges clears the edges of the sheet, outside what shows the part, of what belongs to
// its neighbours.
func (t *template) clearEdges(area plane.Box) {
	// A millimetre more than the sheet, so that no hairline stays at its very edge.
	page := plane.Box{Max: plane.Pt(t.w, t.h)}.Grow(1)
	for _, b := range []plane.Box{
		{Min: page.Min, Max: plane.Pt(page.Max.X, area.Min.Y)},
		{Min: plane.Pt(page.Min.X, area.Max.Y), Max: page.Max},
		{Min: page.Min, Max: plane.Pt(area.Min.X, page.Max.Y)},
		{Min: plane.Pt(area.Max.X, page.Min.Y), Max: page.Max},
	} {
		t.doc.Fill(plane.Rect(b), plane.Point{}, 1)
	}
}

// drawHead draws the head of a sheet: of one that is wholly needed for the part one line
// alone, and of a part at true size that it is not to be scaled. at is the tile that the sheet
// shows, if it shows one.
func (t *template) drawHead(n, all int, name string, l paging, at *tile, trueSize bool) {
	d := t.doc
	top, right := t.h-margin, t.w-margin
	which := fmt.Sprintf("sheet %d of %d", n, all)
	if name != "" {
		which += ": " + name
	}
	title := export.Title(t.sheet.Design) + ": saw template"
	if l.bare > 0 {
		title += fmt.Sprintf(", %s, 1:1. Print at 100 %% (actual size); all else is on sheet %d", export.ContentNumber(t.sheet.Design), all)
		d.Text(plane.Pt(right, top-3), which, headingFont, pdf.Right)
		d.Text(plane.Pt(margin, top-3), t.shortened(title, headingFont, right-margin-d.TextWidth(which, headingFont)-5), headingFont, pdf.Left)
		return
	}
	if l.tiled() {
		const high = 8.0
		w, _ := l.mapCell(high)
		right -= float64(l.across)*w + 3
		l.drawMap(d, plane.Pt(right+3, top-high), high, at)
	}
	d.Text(plane.Pt(right, top-4), which, strongFont, pdf.Right)
	d.Text(plane.Pt(margin, top-4), t.shortened(title, titleFont, right-margin-d.TextWidth(which, strongFont)-5), titleFont, pdf.Left)
	words, x := strongFont, margin
	said := ""
	if n := t.breaches(); n > 0 {
		// A bar stands before it, as before the breaches in the notes.
		d.Fill(plane.Rect(plane.Box{Min: plane.Pt(x, top-9.2), Max: plane.Pt(x+breachBar/2, top-5.8)}), plane.Point{}, 0)
		x += breachBar
		said = "Do not saw yet: " + export.HowMany(n, "rule is broken", "rules are broken") + ", see the notes. "
	}
	if trueSize {
		said += printWords
	}
	if w := d.TextWidth(said, words); w > right-x {
		words.Size *= (right - x) / w
	}
	d.Text(plane.Pt(x, top-8.6), said, words, pdf.Left)
	t.drawBlock(top - 10.5)
}

// drawChecks draws what a print is checked by, and the key, where the sheet has room.
func (t *template) drawChecks() {
	if t.bare == 2 {
		t.drawRuler(plane.Pt(margin, margin), plane.Pt(1, 0))
		t.doc.Text(plane.Pt(margin+rulerLength+4, margin), rulerWords, smallFont, pdf.Left)
		return
	}
	t.drawSquare()
	t.drawRulers()
	t.drawKey()
}

// drawBlock draws the title block downwards from y.
func (t *template) drawBlock(y float64) {
	d := t.doc
	high := blockRow * float64(len(t.block))
	d.Loop(plane.Rect(plane.Box{Min: plane.Pt(margin, y-high), Max: plane.Pt(t.w-margin, y)}), plane.Point{}, framePen)
	for i, row := range t.block {
		low := y - blockRow*float64(i+1)
		if i > 0 {
			d.Line(plane.Pt(margin, low+blockRow), plane.Pt(t.w-margin, low+blockRow), framePen)
		}
		x := margin
		for k, c := range row {
			if k > 0 {
				d.Line(plane.Pt(x, low), plane.Pt(x, low+blockRow), framePen)
			}
			d.Text(plane.Pt(x+1.5, low+blockRow-2.1), c.label, tinyFont, pdf.Left)
			d.Text(plane.Pt(x+1.5, low+1.3), c.text, textFont, pdf.Left)
			x += c.w
		}
	}
}
