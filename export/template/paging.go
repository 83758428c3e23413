package template

import (
	"strconv"

	"fretband/export"
	"fretband/unroll/plane"
)

// Measures of a sheet of paper, mm: ours, but for the margin, inside which
// common printers print nothing (some 4 to 6 mm: common practice).
const (
	margin     = 10.0
	headHeight = 13.0 // without the title block
	footHeight = 28.0
	bareHead   = 5.0 // of a sheet that the part needs wholly
	bareFoot   = 8.0
	rulerStrip = 10.0 // on the left, for the upright ruler
	overlap    = 10.0 // of neighbouring sheets
	overhang   = 4.0  // of the centre lines over the blank
	copyGap    = 6.0  // between copies, for the scissors
)

// paging is how the part lies on paper.
type paging struct {
	paper        export.Paper
	w, h         float64   // of the paper as it lies
	block        [][]cell  // of the title block, row by row
	area         plane.Box // of the paper that shows the part
	content      plane.Box // of the blank's frame that has to be shown
	across, down int       // sheets for one copy
	cols, rows   int       // of copies on a sheet, where one sheet holds one
	copies       int
	bare         int // what the sheets of the part go without to have room: 1 the head, 2 square and key too
}

// tile is one of the sheets that show a part: its row from the top, and its column.
type tile struct{ row, col int }

// lay lays the paper upright or across, whichever takes fewer sheets. A part that would need
// several has the head on another sheet if that saves them.
func (t *template) lay() paging {
	paper, _ := export.SheetOf(t.options.Paper)
	b := t.contentBox()
	lies := [][2]float64{{paper.H, paper.W}, {paper.W, paper.H}}
	if b.H() > b.W() {
		lies[0], lies[1] = lies[1], lies[0]
	}
	var best paging
	for bare := range 3 {
		for _, lie := range lies {
			l := paging{paper: paper, w: lie[0], h: lie[1], content: b, copies: t.options.Parts(), bare: bare}
			l.block = t.titleBlock(l)
			head := headHeight + blockRow*float64(len(l.block))
			if bare > 0 {
				head = bareHead
			}
			// Beside the upright ruler, or over it.
			lows := []plane.Point{plane.Pt(margin+rulerStrip, margin+footHeight), plane.Pt(margin, uprightY+rulerLength+3)}
			if bare == 2 {
				lows = []plane.Point{plane.Pt(margin, margin+bareFoot)}
			}
			for _, low := range lows {
				l.area = plane.Box{Min: low, Max: plane.Pt(l.w-margin, l.h-margin-head)}
				l.count()
				if best.across == 0 || bare == best.bare && l.pages() < best.pages() || bare > 0 && !l.tiled() && best.tiled() {
					best = l
				}
			}
		}
		if !best.tiled() {
			break
		}
	}
	return best
}

// count works out the sheets that the area needs.
func (l *paging) count() {
	l.across, l.down = sheets(l.content.W(), l.area.W()), sheets(l.content.H(), l.area.H())
	l.cols, l.rows = 1, 1
	if !l.tiled() {
		fit := func(all, each float64) int { return int((all + copyGap) / (each + copyGap)) }
		l.cols, l.rows = max(1, fit(l.area.W(), l.content.W())), max(1, fit(l.area.H(), l.content.H()))
		l.cols = min(l.cols, l.copies)
	}
}

// sheets returns how many sheets that show `each` mm are needed for `all` mm
// when neighbours overlap.
func sheets(all, each float64) int {
	n := 1
	for float64(n)*each-float64(n-1)*overlap < all {
		n++
	}
	return n
}

// tiled reports whether a copy lies on several sheets.
func (l paging) tiled() bool { return l.across*l.down > 1 }

// pages returns how many sheets show the part.
func (l paging) pages() int {
	if l.tiled() {
		return l.across * l.down * l.copies
	}
	each := l.cols * l.rows
	return (l.copies + each - 1) / each
}

// on returns what a sheet shows, from 0: the tile, and which copies, from 1.
func (l paging) on(page int) (tile, []int) {
	if l.tiled() {
		n := l.across * l.down
		return tile{page % n / l.across, page % l.across}, []int{page/n + 1}
	}
	each := l.cols * l.rows
	var copies []int
	for c := page * each; c < min((page+1)*each, l.copies); c++ {
		copies = append(copies, c+1)
	}
	return tile{}, copies
}

// place returns the move from the blank's frame to the page: of a tile, or of the i-th of n
// copies on a sheet. Copies and a single part begin at the top; of a part on several sheets
// the middle is that of the sheets.
func (l paging) place(at tile, i, n int) plane.Point {
	if l.tiled() {
		w := float64(l.across)*l.area.W() - float64(l.across-1)*overlap
		h := float64(l.down)*l.area.H() - float64(l.down-1)*overlap
		left := l.content.Min.X - (w-l.content.W())/2 + float64(at.col)*(l.area.W()-overlap)
		top := l.content.Max.Y + (h-l.content.H())/2 - float64(at.row)*(l.area.H()-overlap)
		return plane.Pt(l.area.Min.X-left, l.area.Max.Y-top)
	}
	row, col := i/l.cols, i%l.cols
	wide := float64(min(n, l.cols))*(l.content.W()+copyGap) - copyGap
	left := l.area.Min.X + (l.area.W()-wide)/2 + float64(col)*(l.content.W()+copyGap)
	top := l.area.Max.Y - float64(row)*(l.content.H()+copyGap)
	return plane.Pt(left-l.content.Min.X, top-l.content.Max.Y)
}

// notesArea returns the room under the head of a sheet that shows nothing at true size.
func (l paging) notesArea() plane.Box {
	return plane.Box{Min: plane.Pt(margin, margin), Max: plane.Pt(l.w-margin, l.h-margin-headHeight-blockRow*float64(len(l.block)))}
}

// underPart returns the room under the copies on the last sheet; none if the part
// lies on several.
func (l paging) underPart() plane.Box {
	room := plane.Box{Min: plane.Pt(margin+rulerStrip, margin+footHeight), Max: l.area.Max}
	if l.tiled() || l.bare > 0 {
		room.Max.Y = room.Min.Y
		return room
	}
	_, copies := l.on(l.pages() - 1)
	rows := (len(copies) + l.cols - 1) / l.cols
	room.Max.Y -= float64(rows)*(l.content.H()+copyGap) - copyGap + 4
	return room
}

// tileName names a sheet of several: rows are letters from the top, columns numbers.
func (l paging) tileName(at tile) string {
	if !l.tiled() {
		return ""
	}
	letter := ""
	for r := at.row; r >= 0; r = r/26 - 1 {
		letter = string(rune('A'+r%26)) + letter
	}
	return letter + strconv.Itoa(at.col+1)
}

// lying says in a word how the paper lies.
func (l paging) lying() string {
	if l.w > l.h {
		return "landscape"
	}
	return "portrait"
}
