package pdf

import (
	"github.com/tdewolff/canvas"

	"fretband/unroll/plane"
)

// batch is how many loops go into one path: enough that what a path costs by itself
// does not count, few enough that the path stays small in memory.
const batch = 500

// Loops draws closed loops, moved by at, many to a path: several times faster and smaller
// than one by one.
func (d *Doc) Loops(ls []plane.Loop, at plane.Point, p Pen) {
	inPaths(ls, at, func(path *canvas.Path) { d.stroke(path, p) })
}

// Filled fills loops that do not overlap with a grey and draws them, as [Doc.Loops] does.
func (d *Doc) Filled(ls []plane.Loop, at plane.Point, grey float64, p Pen) {
	style := p.style()
	style.Fill = canvas.Paint{Color: greyColour(grey)}
	inPaths(ls, at, func(path *canvas.Path) { d.out.RenderPath(path, style, canvas.Identity) })
}

func inPaths(ls []plane.Loop, at plane.Point, do func(*canvas.Path)) {
	for len(ls) > 0 {
		n := min(batch, len(ls))
		path := &canvas.Path{}
		for _, l := range ls[:n] {
			if len(l) > 0 {
				addChain(path, l.Edges(), true, at)
			}
		}
		if !path.Empty() {
			do(path)
		}
		ls = ls[n:]
	}
}

// Lines draws straight lines, each from its A to its B, moved by at.
func (d *Doc) Lines(es []plane.Edge, at plane.Point, p Pen) {
	for len(es) > 0 {
		n := min(8*batch, len(es))
		path := &canvas.Path{}
		for _, e := range es[:n] {
			path.MoveTo(e.A.X+at.X, e.A.Y+at.Y)
			path.LineTo(e.B.X+at.X, e.B.Y+at.Y)
		}
		d.stroke(path, p)
		es = es[n:]
	}
}
