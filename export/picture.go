package export

import (
	"bufio"
	"fmt"
	"io"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// writePicture writes the blank as a picture for the client: metal filled, nothing
// to measure by.
func writePicture(out io.Writer, s *pattern.Sheet, _ *check.Report, o Options) error {
	if err := o.Check(); err != nil {
		return err
	}
	b := s.Flat.Outline.Bounds().Grow(4)
	f := svgFrame{x: -b.Min.X, y: b.Max.Y}
	w := bufio.NewWriter(out)
	fmt.Fprintf(w, "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\">\n",
		mm(b.W()), mm(b.H()), mm(b.W()), mm(b.H()))
	fmt.Fprintf(w, "<title>%s</title>\n<desc>A picture, not a drawing to cut from.</desc>\n", xmlText(plain(s.Design.Name)))
	fmt.Fprint(w, "<path fill=\"#b8b2a6\" stroke=\"#6a645a\" stroke-width=\"0.12\" fill-rule=\"evenodd\" d=\"")
	fmt.Fprint(w, f.path(s.Flat.Outline))
	for _, opening := range s.Openings {
		for _, l := range s.Again(opening.Loop) {
			if on, err := plane.And(plane.Region{l}, plane.Region{s.Flat.Outline}); err == nil {
				for _, part := range on {
					fmt.Fprint(w, f.path(part))
				}
			}
		}
	}
	fmt.Fprintln(w, "\"/>")
	fmt.Fprint(w, f.svgMarks(engravings(s)))
	fmt.Fprintln(w, "</svg>")
	return w.Flush()
}
