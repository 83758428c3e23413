package pattern

import (
	"fmt"
	"math"
	"slices"

	"fretband/pattern/lettering"
	"fretband/pattern/own"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// InsideFace is the side of an engraving on the inner face, which touches the skin. It reads
// right from inside, so the blank, seen from outside, shows it mirrored left to right.
const InsideFace = "inside"

// drawn is an engraving at its position on the blank, its lines not yet cut at the seam.
type drawn struct {
	strokes []own.Stroke
	frame   plane.Loop // the box round it, turned with it
	inside  bool
}

// drawEngravings draws all engravings of the design. The error is an [unroll.FieldError].
func drawEngravings(d Design) ([]drawn, error) {
	var ms []drawn
	edges, length := 0, 0.0
	for i, m := range d.Engravings {
		v, err := m.draw()
		if err != nil {
			return nil, &unroll.FieldError{Path: fmt.Sprintf("marks[%d].%s", i, m.Kind), Msg: err.Error()}
		}
		for _, s := range v.strokes {
			length += s.Edges().Len()
		}
		if length > MaxEngravedLength+plane.Snap {
			return nil, &unroll.FieldError{Path: fmt.Sprintf("marks[%d].%s", i, m.Kind), Msg: fmt.Sprintf("the lines of all engravings together are %.0f mm long or more; at most %d mm can be laid: draw fewer or shorter lines", length, MaxEngravedLength)}
		}
		if m.Kind == PathEngraving && m.MarginMM >= 0 {
			for _, s := range v.strokes {
				edges += len(s.Line)
			}
		}
		if edges > MaxEngravedEdges {
			return nil, &unroll.FieldError{Path: fmt.Sprintf("marks[%d].path", i), Msg: fmt.Sprintf("all paths together that openings keep away from have %d or more edges, lines and arcs; at most %d can be laid: draw it with fewer points, or let openings run through it (keep_mm -1)", edges, MaxEngravedEdges)}
		}
		ms = append(ms, v)
	}
	return ms, nil
}

// draw returns the engraving. The middle of a text is half way along its ink and half way
// up its capitals.
func (m Engraving) draw() (drawn, error) {
	var ss []own.Stroke
	box := plane.EmptyBox()
	middle := plane.Point{}
	switch m.Kind {
	case LineEngraving:
		a, b := plane.Pt(-m.LengthMM/2, 0), plane.Pt(m.LengthMM/2, 0)
		ss = []own.Stroke{{Line: plane.Loop{{Point: a}, {Point: b}}}}
		box = plane.Box{Min: a, Max: b}
	case PathEngraving:
		var err error
		if ss, err = own.Strokes(m.Path); err != nil {
			return drawn{}, err
		}
		for _, s := range ss {
			box = box.Union(s.Edges().Bounds())
		}
	default:
		text, err := lettering.Outlines(m.Text, m.HeightMM, plane.FitTolerance)
		if err != nil {
			return drawn{}, err
		}
		for _, l := range text.Loops {
			ss = append(ss, own.Stroke{Line: l, Closed: true})
		}
		box, middle = text.Box, plane.Pt(text.Box.W()/2, m.HeightMM/2)
	}
	place := func(l plane.Loop) plane.Loop {
		l = l.Move(middle.Mul(-1)).Turn(m.RotationDeg * math.Pi / 180)
		if m.Side == InsideFace { // the blank shows its outer face: this is seen through the metal
			for i := range l {
				l[i].X, l[i].Bulge = -l[i].X, -l[i].Bulge
			}
		}
		return l.Move(plane.Pt(m.XMM, m.YMM))
	}
	v := drawn{frame: place(plane.Rect(box)), inside: m.Side == InsideFace}
	for _, s := range ss {
		if s, ok := s.Followed(); ok {
			s.Line = place(s.Line)
			v.strokes = append(v.strokes, s)
		}
	}
	return v, nil
}

// keepOut returns the area that openings stay out of: of a text, its box grown by what
// is kept; of a line or path, all that is as near to it. An engraving may lie between two
// openings, so at least a bridge is left there.
func (v drawn) keepOut(m Engraving, bridge float64) (plane.Region, error) {
	if m.MarginMM < 0 {
		return nil, nil
	}
	switch m.Kind {
	case TextEngraving:
		a, b, c := v.frame[0].Point, v.frame[1].Point, v.frame[2].Point
		least := (bridge - math.Min(a.Dist(b), b.Dist(c))) / 2
		return v.frame.Outset(math.Max(m.MarginMM, least)), nil
	case PathEngraving:
		m.MarginMM += plane.FitTolerance // its curves lie so near to what is drawn
	}
	r := math.Max(m.MarginMM, bridge/2)
	var near []plane.Loop
	for _, s := range v.strokes {
		for _, e := range s.Edges() {
			near = append(near, nearEdge(e, r)...)
		}
	}
	return plane.Merge(near)
}

// nearEdge returns loops that hold together all that is within r of the edge.
func nearEdge(e plane.Edge, r float64) []plane.Loop {
	if e.Bulge < 0 {
		e = e.Reverse()
	}
	a, b := e.Tangent(0).Left().Mul(r), e.Tangent(1).Left().Mul(r) // to the left: inwards on an arc
	if e.Radius() > r {
		return []plane.Loop{{
			{Point: e.A.Sub(a), Bulge: e.Bulge}, {Point: e.B.Sub(b), Bulge: 1},
			{Point: e.B.Add(b), Bulge: -e.Bulge}, {Point: e.A.Add(a), Bulge: 1},
		}}
	}
	// All of the sector from the centre is near, and the discs about both ends.
	return []plane.Loop{
		{{Point: e.A.Sub(a), Bulge: e.Bulge}, {Point: e.B.Sub(b)}, {Point: e.Centre()}},
		plane.Circle(e.A, r), plane.Circle(e.B, r),
	}
}

// lines returns the engraving on the blank of its design, as number i.
func (v drawn) lines(i int, d Design, f unroll.Flat) EngravedLines {
	m := EngravedLines{Engraving: i, Inside: v.inside, Frame: v.frame}
	mid := v.frame.Bounds().Centre()
	for _, s := range v.strokes {
		if d.Band.Open() {
			m.Strokes = append(m.Strokes, s)
			continue
		}
		for _, s := range cutAtSeams(s, mid, f) {
			if s, ok := s.Followed(); ok {
				m.Strokes = append(m.Strokes, s)
			}
		}
	}
	return m
}

// run is an edge and how many periods of a closed band it is on.
type run struct {
	plane.Edge
	periods float64
}

// cutAtSeams cuts a stroke of an engraving about mid at every seam of a closed band and
// brings its pieces to where they come to lie on the blank.
func cutAtSeams(s own.Stroke, mid plane.Point, f unroll.Flat) []own.Stroke {
	var runs []run
	one := true
	for _, e := range s.Edges() {
		t0 := 0.0
		for _, t := range append(seamsOn(e, mid, f), 1) {
			if p := e.Part(t0, t); t-t0 > 0 && p.Len() > plane.Snap {
				x, _ := whereFrom(f, mid, p.Mid())
				runs = append(runs, run{p, math.Round(x / f.Length)})
				one = one && runs[len(runs)-1].periods == runs[0].periods
			}
			t0 = t
		}
	}
	if len(runs) == 0 {
		return nil
	}
	if one {
		if k := runs[0].periods; k != 0 {
			s.Line = onward(f, -k*f.Length).loop(s.Line)
		}
		return []own.Stroke{s}
	}
	if s.Closed { // begin at a seam
		i := 0
		for runs[i].periods == runs[(i+len(runs)-1)%len(runs)].periods {
			i++
		}
		runs = append(runs[i:len(runs):len(runs)], runs[:i]...)
	}
	var out []own.Stroke
	for i := 0; i < len(runs); {
		back := onward(f, -runs[i].periods*f.Length)
		var l plane.Loop
		j := i
		for ; j < len(runs) && runs[j].periods == runs[i].periods; j++ {
			e := back.edge(runs[j].Edge)
			l = append(l, plane.Vertex{Point: e.A, Bulge: e.Bulge})
			if j+1 == len(runs) || runs[j+1].periods != runs[i].periods {
				l = append(l, plane.Vertex{Point: e.B})
			}
		}
		out = append(out, own.Stroke{Line: l})
		i = j
	}
	return out
}

// seamsOn returns the fractions of the edge at which it crosses a seam, increasing.
func seamsOn(e plane.Edge, mid plane.Point, f unroll.Flat) []float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	low, high := lo, hi
	for i := range 9 {
		x, v := whereFrom(f, mid, e.At(float64(i)/8))
		lo, hi = math.Min(lo, x), math.Max(hi, x)
		low, high = math.Min(low, v), math.Max(high, v)
	}
	// Between the positions looked at an arc bulges a little further.
	long := e.Len() + 1
	lo, hi, low, high = lo-long, hi+long, low-long, high+long
	var ts []float64
	for k := math.Ceil(lo/f.Length - 0.5); (k+0.5)*f.Length <= hi; k++ {
		x := (k + 0.5) * f.Length
		for _, c := range plane.Crossings(e, plane.Edge{A: f.Place(x, low), B: f.Place(x, high)}) {
			if c.A > 0 && c.A < 1 {
				ts = append(ts, c.A)
			}
		}
	}
	slices.Sort(ts)
	return ts
}
