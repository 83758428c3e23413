package jobsheet

import (
	"math"
	"strconv"

	"fretband/export"
	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// numbered is a numbered place on the blank.
type numbered struct {
	number int
	at     plane.Point
}

// blankFigure is the flat blank with its length, width, ends and corners, the line at
// which its bend begins, and numbers where findings are.
func blankFigure(s *pattern.Sheet, r *check.Report, w, h float64, positions []numbered) figure {
	b := s.Flat.Outline.Bounds()
	title := "The blank, " + faceShown(s)
	f := fitted(title, b, w, h, 2, func(f *figure) { blankFrame(f, s, r, b) })
	frame, box := f.items, f.box
	f.items = nil
	f.blankLines(s)
	f.items = append(f.items, frame...)
	var taken []plane.Point
	for _, p := range positions {
		taken = append(taken, f.number(p.at, strconv.Itoa(p.number), taken))
	}
	f.box = box
	return f
}

// blankFrame draws what is round the blank.
func blankFrame(f *figure, s *pattern.Sheet, r *check.Report, b plane.Box) {
	drawn := b
	for _, o := range s.Openings { // those of a seamless band may reach past its ends
		drawn = drawn.Union(o.Box)
	}
	for _, r := range s.Reserves {
		if l := r.Loop.Bounds(); nearBlank(s, l) {
			drawn = drawn.Union(l)
		}
	}
	f.box = boxTimes(drawn, f.k)
	const past = 2.5
	lo, hi := f.to(drawn.Min), f.to(drawn.Max)
	f.stroke(plane.Pt(0, lo.Y-past), plane.Pt(0, hi.Y+past), centreLine)
	f.stroke(plane.Pt(lo.X-past, 0), plane.Pt(hi.X+past, 0), centreLine)
	f.word(plane.Pt(0.8, hi.Y+1.2), frontLine(s), pdf.Left)
	// Dimension lines stand clear of all that is drawn.
	off := 4.5 + math.Max(f.to(b.Min).X-lo.X, hi.X-f.to(b.Max).X)
	length := export.MM(r.BlankLen)
	if s.Flat.Flared() {
		length = "chord " + export.MM(b.W())
	}
	f.dimension(b.Min, plane.Pt(b.Max.X, b.Min.Y), lo.Y-f.to(b.Min).Y-5.5, length)
	f.dimension(b.Min, plane.Pt(b.Min.X, b.Max.Y), off, export.MM(b.H()))
	if s.Flat.Flared() {
		if radius, at, ok := cornerArc(s.Flat.Outline, plane.Pt(b.Max.X, b.Min.Y)); ok {
			f.leader(at, plane.Pt(hi.X+2.5, f.to(at).Y-3.5), "R "+export.MM(radius))
		}
		return
	}
	x := s.Flat.Length / 2
	bottom, top := s.Flat.EdgesAt(x)
	band := s.Design.Band
	switch {
	case band.EndShape == unroll.PointEnd:
		f.leader(plane.Pt(b.Max.X, 0), plane.Pt(hi.X+4, math.Min(hi.Y, 5)), "tip R "+export.MM(band.EndRadiusMM)+", point "+export.MM(band.EndLengthMM)+" long")
		return
	case math.Abs(top-bottom-b.H()) > 0.005:
		f.dimension(plane.Pt(x, bottom), plane.Pt(x, top), -off, export.MM(top-bottom))
	}
	if !band.Open() {
		if !band.Seamless() {
			f.word(plane.Pt(hi.X+0.8, 1), "joint", pdf.Left)
		}
		return
	}
	if radius, at, ok := cornerArc(s.Flat.Outline, plane.Pt(x, bottom)); ok {
		f.leader(at, plane.Pt(x*f.k+2.5, bottom*f.k-3.5), "R "+export.MM(radius))
	}
}

// nearBlank reports whether something lies near enough to the blank to be drawn with it:
// what lies far off is reported in words alone.
func nearBlank(s *pattern.Sheet, b plane.Box) bool {
	const near = 8 // mm of the part
	all := s.Flat.Outline.Bounds().Grow(near)
	return all.Contains(b.Min) && all.Contains(b.Max)
}

// cornerArc finds the arc that rounds the corner of an outline that would lie near p:
// its radius and its middle.
func cornerArc(l plane.Loop, p plane.Point) (radius float64, at plane.Point, ok bool) {
	best := math.Inf(1)
	for _, e := range l.Edges() {
		if e.IsLine() || math.Abs(e.Sweep()) < math.Pi/6 {
			continue
		}
		if d := e.Mid().Dist(p); d < best && d < 3*e.Radius() {
			best, radius, at, ok = d, e.Radius(), e.Mid(), true
		}
	}
	return radius, at, ok
}

// frontLine names the line across the middle of the blank.
func frontLine(s *pattern.Sheet) string {
	if s.Design.Band.Making == unroll.Formed {
		return "middle of the front"
	}
	return "middle: bend line of the front"
}

func faceShown(s *pattern.Sheet) string {
	if s.Design.Band.Making == unroll.Formed {
		return export.DrawnFace(s)
	}
	return "flat, outer face up"
}

// profileFigure is the band seen along its axis: both faces at mid width, with the
// inside across and the gap.
func profileFigure(s *pattern.Sheet, w, h float64) figure {
	t := s.Flat.Thickness
	const n = 240
	at := func(i int, depth float64) plane.Point {
		x := s.Flat.Length * (float64(i)/n - 0.5)
		p := s.Flat.Bend(s.Flat.Place(x, 0), depth)
		return plane.Pt(p.X, p.Y)
	}
	inner, outer := plane.EmptyBox(), plane.EmptyBox()
	var faces [2][]plane.Edge
	for k, depth := range [2]float64{0, t} {
		for i := range n {
			faces[k] = append(faces[k], plane.Edge{A: at(i, depth), B: at(i+1, depth)})
		}
	}
	for i := range n + 1 {
		inner, outer = inner.Add(at(i, 0)), outer.Add(at(i, t))
	}
	outer = outer.Union(inner)
	return fitted("The band along its axis", outer, w, h, 2, func(f *figure) {
		for _, face := range faces {
			f.chain(face, edgeLine)
		}
		if s.Design.Band.Open() {
			f.chain([]plane.Edge{{A: at(0, 0), B: at(0, t)}}, edgeLine)
			f.chain([]plane.Edge{{A: at(n, 0), B: at(n, t)}}, edgeLine)
			a, b := at(n, 0), at(0, 0)
			if a.X > b.X {
				a, b = b, a
			}
			// Below the oval, clear of the dimensions inside it.
			off := (outer.Min.Y-a.Y)*f.k - 4
			f.dimension(a, b, off, "gap straight across "+export.MM(a.Dist(b)))
		}
		mid := inner.Centre()
		f.dimension(plane.Pt(inner.Min.X, mid.Y), plane.Pt(inner.Max.X, mid.Y), 0, export.MM(inner.W()))
		f.dimension(plane.Pt(outer.Max.X, inner.Min.Y), plane.Pt(outer.Max.X, inner.Max.Y), -3, export.MM(inner.H()))
	})
}

// sectionFigure is the section across the band at the front.
func sectionFigure(s *pattern.Sheet, r *check.Report, w, h float64) figure {
	bottom, top := s.Flat.EdgesAt(0)
	const n = 48
	at := func(i int, depth float64) plane.Point {
		p := s.Flat.Bend(s.Flat.Place(0, bottom+(top-bottom)*float64(i)/n), depth)
		return plane.Pt(p.Y, p.Z)
	}
	var l plane.Loop
	for i := range n + 1 {
		l = append(l, plane.Vertex{Point: at(i, 0)})
	}
	for i := n; i >= 0; i-- {
		l = append(l, plane.Vertex{Point: at(i, s.Flat.Thickness)})
	}
	b := l.Bounds()
	return fitted("Section at the front", b, w, h, 5, func(f *figure) {
		f.loop(l, edgeLine)
		f.dimension(b.Min, plane.Pt(b.Min.X, b.Max.Y), 3.5, export.MM(b.H()))
		f.word(plane.Pt(b.Max.X*f.k+1.5, b.Centre().Y*f.k-0.36*figureLetter), "t "+export.MM(r.Thickness), pdf.Left)
	})
}
