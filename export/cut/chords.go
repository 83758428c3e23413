package cut

import (
	"slices"

	"fretband/pattern/own"
	"fretband/unroll/plane"
)

// For receivers who read no arcs, an arc becomes equal chords with their ends on it: as
// few as stay within the tolerance of the arc, n = ceil(sweep / (2 acos(1 - tol/r))), for
// the sagitta of a chord over the angle s is r (1 - cos(s/2)); and one for each quarter of
// a turn at least. So a chord lies on the hollow side of its curve by the tolerance at
// most: round openings come out smaller by that, and round corners of the outline too.
// Lines stay as they are.

// chordLoop returns the loop in chords.
func chordLoop(l plane.Loop, tol float64) plane.Loop {
	return plane.Polygon(l.Flatten(tol)...)
}

// chordEdges returns a chain of edges in chords.
func chordEdges(es plane.Chain, tol float64) plane.Chain {
	var out plane.Chain
	for _, e := range es {
		pts := e.Flatten(tol)
		for i := range len(pts) - 1 {
			out = append(out, plane.Edge{A: pts[i], B: pts[i+1]})
		}
	}
	return out
}

// inChords makes chords of one cutting line and its runs. Where metal reaches
// into the hollow of an arc, nearer to it than the tolerance, a chord would cross it, and
// of a lens thinner than that nothing would be left: then those of that
// line are shorter.
func (c *cuttingLine) inChords(tol float64) {
	const finest = 1e-4 // of the tolerance
	for t := tol; t > finest*tol; t /= 2 {
		l := chordLoop(c.loop, t)
		es := l.Edges()
		if slices.ContainsFunc(es, func(e plane.Edge) bool { return e.Len() < shortestEdge }) {
			break
		}
		if _, crosses := crossesItself(es); !crosses && l.Area()*c.loop.Area() > 0 {
			tol = t
			break
		}
	}
	c.loop = chordLoop(c.loop, tol)
	for i, r := range c.runs {
		c.runs[i] = run{chordEdges(r.lead, tol), chordEdges(r.edge, tol)}
	}
}

// inChords returns the engraving in chords.
func (e engraved) inChords(tol float64) engraved {
	strokes := e.strokes
	e.strokes = nil
	for _, s := range strokes {
		if s.Closed {
			s.Line = chordLoop(s.Line, tol)
		} else {
			es := chordEdges(s.Edges(), tol)
			s.Line = es.Loop()
			if len(es) > 0 {
				s.Line = append(s.Line, plane.Vertex{Point: es[len(es)-1].B})
			}
		}
		e.strokes = append(e.strokes, own.Stroke{Line: s.Line, Closed: s.Closed})
	}
	return e
}
