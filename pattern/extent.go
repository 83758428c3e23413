package pattern

import (
	"fmt"
	"math"

	"fretband/pattern/motif"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// FieldLayout is what came of the numbers asked of a field.
type FieldLayout struct {
	// LengthMM and HeightMM are the box that the field fills, along and across.
	LengthMM, HeightMM float64
	Repeats            int     // whole ones along it, if it is not turned
	PitchMM            float64 // of one repeat; graded, the mean
	RowMM              float64 // of the height that one row takes
	RotationDeg        float64 // on a closed band, that nearest to the asked one at which the pattern closes
}

// Layout says how field i is laid.
func (s *Sheet) Layout(i int) FieldLayout {
	f := s.Design.Fields[i]
	m, err := f.motif()
	if err != nil {
		return FieldLayout{} // Lay has seen to it
	}
	area, err := f.Area.land(s.Flat)
	if err != nil {
		return FieldLayout{}
	}
	e := s.extent(f, m, area)
	rotation := e.rotation * 180 / math.Pi
	rotation += 360 * math.Round((f.RotationDeg-rotation)/360)
	return FieldLayout{
		LengthMM: e.w, HeightMM: e.h, Repeats: e.frame.Repeats,
		PitchMM: e.frame.Pitch() * e.size, RowMM: e.frame.H / float64(e.frame.Rows) * e.size, RotationDeg: rotation,
	}
}

// extent is the box that a field fills and how its cells lie in it.
type extent struct {
	w, h float64
	mid  plane.Point // its middle: along and across the band, of a shape on the blank
	// shape says that the area is a shape on the blank, turned by tilt: its cells
	// are not bent with the band.
	shape  bool
	tilt   float64
	closed bool        // its ends are one line
	frame  motif.Frame // what the motif divides, about the middle
	// The cells are then moved along, turned and scaled, and graded.
	move, rotation, size float64
	along, across        *grading
	bridge               float64      // the field's
	bridges              *bridgeCurve // nil if it is the same all along
	half                 float64      // of a bridge along: from the edge of the ground to the box's
}

// extent works out that of a field.
func (s *Sheet) extent(f Field, m motif.Motif, area landed) extent {
	flat := s.Flat
	e := extent{size: 1, bridge: f.Bridge(s.Design.Rules)}
	e.closed = flat.Wraps() && (area.all || area.strip)
	mirrorX := f.Mirror == MirrorAlong || f.Mirror == MirrorBoth
	mirrorY := f.Mirror == MirrorAcross || f.Mirror == MirrorBoth
	e.along = newGrading(f.GradeAlong, e.closed, mirrorX)
	e.across = newGrading(f.GradeAcross, false, mirrorY)
	e.bridges = newBridgeCurve(f.BridgeAlong, e.closed, mirrorX)

	// The frame's edges run half a bridge outside the rim's, so that after the
	// inset the outer openings are exactly on the rim: half the widest of graded
	// bridges, or, where only whole cells are cut out, half the narrowest.
	whole := f.Edge == EdgeWhole || f.Edge == EdgeFit
	narrow, wide := e.bridgeRange(f, s.Rule)
	half := wide / 2
	if whole {
		half = narrow / 2
	}
	bottom, top := flat.Extent()
	if s.rim != nil {
		bottom, top = s.rim.low-s.EdgeRule, s.rim.high+s.EdgeRule
	}
	// Cells lose half of what bridges are wider by, at the rim too, where it isn't meant.
	hx, hy := half+f.WiderAcrossMM/2, half+f.WiderAlongMM/2
	e.half = hy
	outX, outY := hx-e.bridge/2, hy-e.bridge/2 // from an area's own edge
	lo, hi := plane.Pt(-flat.Length/2+s.EdgeRule-hx, bottom+s.EdgeRule-hy), plane.Pt(flat.Length/2-s.EdgeRule+hx, top-s.EdgeRule+hy)
	switch {
	case area.run:
		if flat.Wraps() {
			lo.X, hi.X = area.lo-outX, area.hi+outX
		} else {
			lo.X, hi.X = math.Max(lo.X, area.lo-outX), math.Min(hi.X, area.hi+outX)
		}
	case area.strip:
		lo.Y, hi.Y = math.Max(lo.Y, area.lo-outY), math.Min(hi.Y, area.hi+outY)
	case !area.all:
		e.shape, e.tilt = true, f.Area.RotationDeg*math.Pi/180
		b := area.loop.Turn(-e.tilt).Bounds()
		lo, hi = b.Min.Sub(plane.Pt(outX, outY)), b.Max.Add(plane.Pt(outX, outY))
	}
	e.w, e.h = hi.X-lo.X, hi.Y-lo.Y
	e.mid = lo.Mid(hi)
	if area.all {
		e.w, e.h, e.mid = flat.Length-2*s.EdgeRule+2*hx, top-bottom-2*s.EdgeRule+2*hy, plane.Pt(0, (bottom+top)/2)
	}
	// A closed flared band's ends meet by a turn about the apex. Its repeats close
	// over the joint as on any band; what is beyond the ends is cut there.
	if e.closed || flat.Flared() && !s.Design.Band.Open() && (area.all || area.strip) {
		e.w, e.mid.X = flat.Length, 0
	}
	if e.shape {
		e.mid = e.mid.Turn(e.tilt)
	}

	fr := motif.Frame{
		W: e.w, H: e.h, Rows: f.Rows, Repeats: f.Repeats, Stagger: f.Stagger, Closed: e.closed,
		Number: func(key string) float64 { return m.Number(f.Numbers, key) },
	}
	if f.PitchMM > 0 {
		if e.closed || f.Edge == EdgeFit {
			fr.Repeats = int(math.Max(1, math.Round(e.w/f.PitchMM)))
		} else {
			// As many whole ones as there is room for, and parts of others.
			fr.Repeats = int(math.Max(1, math.Floor(e.w/f.PitchMM+1e-9)))
			fr.W = f.PitchMM * float64(fr.Repeats)
			fr.Beyond = 1
			e.move = s.adjoining(f, e.mid.X, fr.Repeats)
		}
	}
	e.frame = fr
	if e.h <= 0 || e.w <= 0 {
		return e
	}
	if rotation := math.Remainder(f.RotationDeg, 360) * math.Pi / 180; rotation != 0 {
		e.rotate(m, rotation)
	}
	e.move += f.Phase * e.frame.Pitch()
	if e.closed && e.rotation == 0 {
		return e
	}
	// The box seen from the frame.
	sin, cos := math.Sincos(e.rotation)
	sin, cos = math.Abs(sin)/e.size, math.Abs(cos)/e.size
	x := (e.w*cos+e.h*sin)/2 + math.Abs(e.move)
	if a := e.frame.Pitch(); x > e.frame.W/2+1e-9*a {
		e.frame.Beyond = 1 + int(math.Ceil((x-e.frame.W/2)/a-1e-9))
	}
	if e.rotation != 0 {
		row := e.frame.H / float64(e.frame.Rows)
		if !m.OverInRows {
			row = math.Min(row, m.RiseOf(e.frame)/2)
		}
		y := (e.w*sin + e.h*cos) / 2
		e.frame.Over = 2 + int(math.Ceil(math.Max(0, y-e.frame.H/2)/row))
	}
	return e
}

// rotate turns the field, on a closed band to the nearest rotation at which it closes.
func (e *extent) rotate(m motif.Motif, rotation float64) {
	if !e.closed {
		e.rotation = rotation
		return
	}
	if m.Irregular {
		return // they close at no rotation, and look the same at any
	}
	n := float64(e.frame.Repeats)
	fr := e.frame
	fr.Over = 2
	e.rotation, e.size = closing(e.w, fr.Pitch(), m.RiseOf(fr), rotation)
	if math.Abs(math.Remainder(e.rotation, 2*math.Pi)) < 1e-12 && math.Abs(e.size*fr.Pitch()*n-e.w) < 1e-9 {
		e.rotation, e.size = 0, 1
		return
	}
	e.frame.Closed = false // one period is taken out of it
}

// bridgeRange returns the least and the greatest bridge of a field.
func (e extent) bridgeRange(f Field, rule float64) (lo, hi float64) {
	least, most := 1.0, 1.0
	for _, g := range []*grading{e.along, e.across} {
		if g != nil {
			least, most = least*g.lo, most*g.hi
		}
	}
	if e.along != nil && e.across != nil {
		least, most = math.Sqrt(least), math.Sqrt(most)
	}
	from, to := 1.0, 1.0
	if e.bridges != nil {
		from, to = e.bridges.lo, e.bridges.hi
	}
	return e.graded(f, rule, least, from), e.graded(f, rule, most, to)
}

// graded returns the bridge of cells of that size, in proportion to the mean, where the
// curve of bridges has that share.
func (e extent) graded(f Field, rule, size, share float64) float64 {
	return math.Max(rule, e.bridge*(1+f.GradeBridge*(size-1))*share)
}

// bridgeOf returns the bridge that a cell keeps, given as it is before it is graded: the
// widest that the curve of bridges has anywhere along it, so that no bridge is narrower
// than the curve.
func (e extent) bridgeOf(f Field, rule float64, cell plane.Loop) float64 {
	size, share := 1.0, 1.0
	if f.GradeBridge != 0 {
		size = e.sizeAt(cell.Centroid())
	}
	if e.bridges != nil {
		box := cell.Bounds()
		from, _, _ := e.grade(box.Min)
		to, _, _ := e.grade(box.Max)
		share = e.bridges.most(2*from.X/e.w, 2*to.X/e.w)
	}
	return e.graded(f, rule, size, share)
}

// sizeAt returns the size, in proportion to the mean, of the cell that would be
// at p without grading: along, across, or the mean of both.
func (e extent) sizeAt(p plane.Point) float64 {
	_, x, y := e.grade(p)
	switch {
	case e.across == nil:
		return x
	case e.along == nil:
		return y
	}
	return math.Sqrt(x * y)
}

// grade maps a position as the grading does, about the middle, and returns the scale
// there.
func (e extent) grade(p plane.Point) (q plane.Point, x, y float64) {
	x, y = 1, 1
	if e.along != nil {
		p.X, x = e.along.at(2 * p.X / e.w)
		p.X *= e.w / 2
	}
	if e.across != nil {
		p.Y, y = e.across.at(2 * p.Y / e.h)
		p.Y *= e.h / 2
	}
	return p, x, y
}

// tooMany reports fields that hold more cells than there may be.
func tooMany(cells int, path string) error {
	if cells > MaxCells {
		return &unroll.FieldError{Path: path, Msg: fmt.Sprintf("rows times as many as stand at this pitch must be at most %d, all fields together; it is %d", MaxCells, cells)}
	}
	return nil
}

// adjoining returns how far the cells of a run of an exact pitch, of which so many
// stand about its middle, are moved along so that they go on from run to run where
// several of that pitch adjoin: these are centred as one.
func (s *Sheet) adjoining(f Field, middle float64, repeats int) float64 {
	if !mayAdjoin(f) {
		return 0
	}
	lo, hi := f.Area.FromMM, f.Area.ToMM
	for range s.Design.Fields { // as often as a chain may be long
		for _, g := range s.Design.Fields {
			if !mayAdjoin(g) || g.PitchMM != f.PitchMM {
				continue
			}
			if g.Area.ToMM == lo {
				lo = g.Area.FromMM
			}
			if g.Area.FromMM == hi {
				hi = g.Area.ToMM
			}
		}
	}
	if lo == f.Area.FromMM && hi == f.Area.ToMM {
		return 0
	}
	if !s.Flat.Wraps() {
		end := s.Flat.Length/2 - s.EdgeRule
		lo, hi = math.Max(lo, -end), math.Min(hi, end)
	} else {
		middle = (f.Area.FromMM + f.Area.ToMM) / 2 // in the same period as the others
	}
	move := (lo+hi)/2 - middle
	if (int((hi-lo)/f.PitchMM+1e-9)-repeats)%2 != 0 {
		move += f.PitchMM / 2 // a cell is on the one middle, a bridge on the other
	}
	return math.Remainder(move, f.PitchMM)
}

// mayAdjoin reports whether a field is a run whose cells may go on in the next.
func mayAdjoin(f Field) bool {
	return f.Area.Shape == RunShape && f.PitchMM > 0 && (f.Edge == "" || f.Edge == EdgeClip) &&
		f.RotationDeg == 0 && (f.Mirror == "" || f.Mirror == MirrorAcross) && len(f.GradeAlong) == 0
}

// closing returns the rotation nearest to the one asked for, radians, at which an order of
// cells that repeats after pitch along and rise across closes round a band of that
// circumference, and the size of the cells, in proportion, with which it closes
// exactly.
//
// Turned by t and scaled by k the order repeats after k (p pitch, q rise) turned by
// t, for any whole p and q. One of these has to be the circumference: the one that
// is nearest to it already.
func closing(circumference, pitch, rise, rotation float64) (closed, size float64) {
	sin, cos := math.Sincos(rotation)
	aim := plane.Pt(circumference*cos, -circumference*sin)
	v := plane.Pt(pitch*math.Round(aim.X/pitch), rise*math.Round(aim.Y/rise))
	if v == (plane.Point{}) {
		along, across := plane.Pt(math.Copysign(pitch, aim.X), 0), plane.Pt(0, math.Copysign(rise, aim.Y))
		v = along
		if across.Dist(aim) < along.Dist(aim) {
			v = across
		}
	}
	closed = -math.Atan2(v.Y, v.X)
	closed += 2 * math.Pi * math.Round((rotation-closed)/(2*math.Pi))
	return closed, circumference / v.Len()
}
