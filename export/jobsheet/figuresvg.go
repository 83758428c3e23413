package jobsheet

import (
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/export/picture"
)

// svg returns the figure as an SVG element at its size on paper. Its units are steps of
// paper, so that numbers are whole and short.
func (f figure) svg() string {
	w, h := f.box.W(), f.box.H()
	var b strings.Builder
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %d %d\" role=\"img\" aria-label=\"%s\" fill=\"none\">\n",
		export.Decimal(w, 1), export.Decimal(h, 1), picture.Steps(w), picture.Steps(h), html.EscapeString(f.title))
	for i := 0; i < len(f.items); {
		it := f.items[i]
		if it.text != "" {
			anchor := [...]string{pdf.Left: "start", pdf.Centre: "middle", pdf.Right: "end"}[it.align]
			fmt.Fprintf(&b, "<text x=\"%d\" y=\"%d\" font-size=\"%d\" text-anchor=\"%s\" fill=\"#000\">%s</text>\n",
				picture.Steps(it.at.X-f.box.Min.X), picture.Steps(f.box.Max.Y-it.at.Y), picture.Steps(figureLetter), anchor, html.EscapeString(it.text))
			i++
			continue
		}
		pen := f.pen(it.kind)
		fmt.Fprintf(&b, "<path stroke=\"#%02[1]x%02[1]x%02[1]x\" stroke-width=\"%d\"", int(math.Round(255*pen.Grey)), picture.Steps(pen.Width))
		if len(pen.Dashes) > 0 {
			var ds []string
			for _, d := range pen.Dashes {
				ds = append(ds, strconv.Itoa(picture.Steps(d)))
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
			picture.StepPath(&b, next.edges, next.closed, f.box)
			i++
		}
		b.WriteString("\"/>\n")
	}
	b.WriteString("</svg>\n")
	return b.String()
}
