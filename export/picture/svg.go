// Package picture draws what a client sees: the bent band and the flat pattern in the
// colour of their metal, nothing to measure by.
package picture

import (
	"bufio"
	"fmt"
	"image/color"
	"io"
	"math"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"
)

// WriteSVG writes the blank as a picture for the client: metal in its colour, the
// name beneath, nothing to measure by.
func WriteSVG(out io.Writer, s *pattern.Sheet, _ *check.Report, o export.Options) error {
	b := s.Flat.Outline.Bounds()
	box := b.Grow(b.W() / 35)
	line := math.Max(b.W()/1400, paperStep)
	w := bufio.NewWriter(out)
	name := export.Title(s.Design)
	letter := math.Min(math.Max(b.W()/40, 1.6), 0.95*b.W()/(export.LetterWide*float64(max(1, len([]rune(name))))))
	high := box.H() + 2*letter
	tone := toneOf(s.Design.Metal.Alloy)
	fmt.Fprintf(w, "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %d %d\">\n",
		export.MM(box.W()), export.MM(high), Steps(box.W()), Steps(high))
	fmt.Fprintf(w, "<title>%s</title>\n<desc>A picture, not a drawing to cut from. %s</desc>\n", export.XMLText(name), export.TagOf(s.Design, export.TagRoom))
	// The sheen of a rolled sheet that lies in daylight.
	fmt.Fprintf(w, "<defs><linearGradient id=\"metal\" x1=\"0\" y1=\"0\" x2=\"1\" y2=\".35\">")
	for _, stop := range [][2]float64{{0, 0.35}, {0.3, 0}, {0.55, 0.75}, {0.8, 0.2}, {1, 1}} {
		fmt.Fprintf(w, "<stop offset=\"%s\" stop-color=\"%s\"/>", export.MM(stop[0]), hexColour(between(tone.light, tone.dark, stop[1])))
	}
	fmt.Fprintln(w, "</linearGradient></defs>")
	fmt.Fprintf(w, "<rect width=\"%d\" height=\"%d\" fill=\"#ffffff\"/>\n", Steps(box.W()), Steps(high))
	fmt.Fprintf(w, "<path fill=\"url(#metal)\" stroke=\"%s\" stroke-width=\"%d\" stroke-linejoin=\"round\" fill-rule=\"evenodd\" d=\"", hexColour(tone.edge), Steps(line))
	paperLoop(w, s.Flat.Outline, box)
	for _, l := range openingsOnBlank(s) {
		paperLoop(w, l, box)
	}
	fmt.Fprintln(w, "\"/>")
	if len(s.Engravings) > 0 {
		fmt.Fprintf(w, "<path fill=\"none\" stroke=\"%s\" stroke-width=\"%d\" stroke-linecap=\"round\" d=\"", hexColour(tone.edge), Steps(1.5*line))
		for _, m := range s.Engravings {
			if m.Inside {
				continue // it is not seen from outside
			}
			for _, st := range m.Strokes {
				if es := OnPaper(st.Edges(), 1); len(es) > 0 {
					StepPath(w, es, st.Closed, box)
				}
			}
		}
		fmt.Fprintln(w, "\"/>")
	}
	writeAdded(w, s, tone, line, box)
	fmt.Fprintf(w, "<text x=\"%d\" y=\"%d\" font-family=\"sans-serif\" font-size=\"%d\" text-anchor=\"middle\" fill=\"%s\">%s</text>\n",
		Steps(box.W()/2), Steps(box.H()+0.9*letter), Steps(letter), hexColour(pngInk), export.XMLText(name))
	fmt.Fprintln(w, "</svg>")
	return w.Flush()
}

// openingsOnBlank returns the openings as they are seen on the blank. One that runs past
// the end of a seamless band's blank is cut there, and comes in again at the other.
func openingsOnBlank(s *pattern.Sheet) []plane.Loop {
	var out []plane.Loop
	b := s.Flat.Outline.Bounds()
	for _, opening := range s.Openings {
		if within(opening.Box, b) {
			out = append(out, opening.Loop)
			continue
		}
		for _, l := range s.Again(opening.Loop) {
			if on, err := plane.And(plane.Region{l}, plane.Region{s.Flat.Outline}); err == nil {
				out = append(out, on...)
			}
		}
	}
	return out
}

func within(a, b plane.Box) bool { return b.Contains(a.Min) && b.Contains(a.Max) }

func hexColour(c color.NRGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

func paperLoop(w io.Writer, l plane.Loop, box plane.Box) {
	if es := OnPaper(l.Edges(), 1); len(es) > 1 {
		StepPath(w, es, true, box)
	}
}
