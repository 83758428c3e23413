package export

import (
	"fmt"
	"html"
	"io"
	"math"
	"strconv"
	"strings"

	"fretband/export/pdf"
	"fretband/unroll/plane"
)

// svg returns the figure as an SVG element at its size on paper. Its units are steps of
// paper, so that numbers are whole and short.
func (f figure) svg() string {
	w, h := f.box.W(), f.box.H()
	var b strings.Builder
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %d %d\" role=\"img\" aria-label=\"%s\" fill=\"none\">\n",
		decimal(w, 1), decimal(h, 1), steps(w), steps(h), html.EscapeString(f.title))
	for i := 0; i < len(f.items); {
		it := f.items[i]
		if it.text != "" {
			anchor := [...]string{pdf.Left: "start", pdf.Centre: "middle", pdf.Right: "end"}[it.align]
			fmt.Fprintf(&b, "<text x=\"%d\" y=\"%d\" font-size=\"%d\" text-anchor=\"%s\" fill=\"#000\">%s</text>\n",
				steps(it.at.X-f.box.Min.X), steps(f.box.Max.Y-it.at.Y), steps(figureLetter), anchor, html.EscapeString(it.text))
			i++
			continue
		}
		pen := f.pen(it.kind)
		fmt.Fprintf(&b, "<path stroke=\"#%02[1]x%02[1]x%02[1]x\" stroke-width=\"%d\"", int(math.Round(255*pen.Grey)), steps(pen.Width))
		if len(pen.Dashes) > 0 {
			var ds []string
			for _, d := range pen.Dashes {
				ds = append(ds, strconv.Itoa(steps(d)))
			}
			fmt.Fprintf(&b, " stroke-dasharray=\"%s\"", strings.Join(ds, " "))
		}
		if it.white {
			b.WriteString(" fill=\"#fff\"")
		}
		b.WriteString(" d=\"")
		// Lines of one pen that follow one another are one path, of some length.
		const most = 1000
		for n := 0; i < len(f.items) && n < most; n++ {
			next := f.items[i]
			if next.text != "" || next.kind != it.kind || next.white != it.white || it.white && n > 0 {
				break
			}
			stepPath(&b, next.edges, next.closed, f.box)
			i++
		}
		b.WriteString("\"/>\n")
	}
	b.WriteString("</svg>\n")
	return b.String()
}

func steps(v float64) int { return int(math.Round(v / paperStep)) }

// stepPath writes edges that are given on paper as relative path data (SVG 1.1, 8.3) in
// whole steps, y down from the top of the box.
func stepPath(w io.Writer, es []plane.Edge, closed bool, box plane.Box) {
	at := func(p plane.Point) (int, int) { return steps(p.X - box.Min.X), steps(box.Max.Y - p.Y) }
	var b strings.Builder
	x, y := at(es[0].A)
	fmt.Fprintf(&b, "M%d%s", x, signed(y))
	letter := byte(0)
	for i, e := range es {
		nx, ny := at(e.B)
		dx, dy := nx-x, ny-y
		x, y = nx, ny
		if e.Bulge == 0 {
			if closed && i == len(es)-1 {
				break
			}
			if letter != 'l' {
				b.WriteByte('l')
				b.WriteString(strconv.Itoa(dx))
			} else {
				b.WriteString(signed(dx))
			}
			letter = 'l'
			b.WriteString(signed(dy))
			continue
		}
		// The radius belongs to the ends as written.
		r := math.Hypot(float64(dx), float64(dy)) * (1 + e.Bulge*e.Bulge) / (4 * math.Abs(e.Bulge))
		sweep := 0
		if e.Bulge < 0 { // clockwise with y up is clockwise to the eye with y down
			sweep = 1
		}
		fmt.Fprintf(&b, "a%s %[1]s 0 0 %d %d%s", decimal(r, 2), sweep, dx, signed(dy))
		letter = 'a'
	}
	if closed {
		b.WriteByte('z')
	}
	io.WriteString(w, b.String())
}

// signed writes a number after another: a minus sign parts them, else a space.
func signed(v int) string {
	if v < 0 {
		return strconv.Itoa(v)
	}
	return " " + strconv.Itoa(v)
}
