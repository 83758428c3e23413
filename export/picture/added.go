package picture

import (
	"bufio"
	"fmt"
	"image"
	"image/color"

	"fretband/export/paint"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// stoneColour is that of stones on the flat pattern, as in the bent picture: a plain blue, like
// no metal.
var stoneColour = color.NRGBA{120, 152, 190, 255}

// face is an outline of an added part on the flat pattern, in its colour.
type face struct {
	loop   plane.Loop
	colour color.NRGBA
}

// addedFaces returns what is added as it is seen from above, the lowest first.
func addedFaces(s *pattern.Sheet, metal color.NRGBA) []face {
	var fs []face
	for _, set := range s.Added {
		stone := s.Design.Added[set.Added].Kind == pattern.StonePart
		for _, w := range set.Wires {
			fs = append(fs, face{w.Loop, metal})
		}
		for _, seat := range set.Seats {
			fs = append(fs, face{seat.Outside, metal})
			if stone {
				fs = append(fs, face{seat.Loop, stoneColour})
			}
		}
	}
	return fs
}

// paintAdded paints what is added over the flat pattern, edged.
func paintAdded(img *image.RGBA, s *pattern.Sheet, k float64, origin plane.Point, tone metalTone) {
	const edge = 0.8 // pixels
	to := func(p plane.Point) plane.Point { return plane.Pt(origin.X+p.X*k, origin.Y-p.Y*k) }
	lay := func(ls []plane.Loop, c color.NRGBA) {
		f := paint.NewFill(img.Rect.Dx(), img.Rect.Dy())
		for _, l := range ls {
			add(f, l.CCW(), k, to)
		}
		paintOn(img, 0, 0, f, func(int) color.NRGBA { return c })
	}
	faces := addedFaces(s, tone.light)
	for i := 0; i < len(faces); {
		// Those of one colour in a row go together: hundreds of beads are one fill.
		var outer, inner []plane.Loop
		c := faces[i].colour
		for ; i < len(faces) && faces[i].colour == c; i++ {
			outer = append(outer, faces[i].loop)
			inner = append(inner, faces[i].loop.Inset(edge/k)...)
		}
		lay(outer, tone.edge)
		lay(inner, c)
	}
}

// writeAdded writes what is added over the flat pattern.
func writeAdded(w *bufio.Writer, s *pattern.Sheet, tone metalTone, line float64, box plane.Box) {
	for _, f := range addedFaces(s, tone.light) {
		fmt.Fprintf(w, "<path fill=\"%s\" stroke=\"%s\" stroke-width=\"%d\" d=\"", hexColour(f.colour), hexColour(tone.edge), Steps(line))
		paperLoop(w, f.loop, box)
		fmt.Fprintln(w, "\"/>")
	}
}
