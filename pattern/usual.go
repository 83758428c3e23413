package pattern

import (
	"math"

	"fretband/pattern/motif"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Begin returns the design that a band of a kind begins with: a usual size, sheet and width,
// pierced by one field.
func Begin(kind string) Design {
	b := unroll.Band{Kind: kind, Thickness: unroll.Thickness{MM: 1.2}, NeutralK: 0.5}
	motif := "ogees"
	switch kind {
	case unroll.Cuff:
		b.Inside = unroll.Inside{By: unroll.ByWrist, WristMM: 165, EaseMM: 10, Ratio: 1.25}
		b.GapMM, b.WidthMM = 28, 28
	case unroll.Ring:
		b.Inside = unroll.Inside{By: unroll.BySize, Scale: "iso", Size: "54"}
		b.WidthMM = 8
		motif = "lancets"
	default:
		b.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 200, Ratio: 1}
		b.WidthMM = 18
		motif = "leaves"
	}
	return BeginWith(b, Field{Motif: motif})
}

// BeginWith returns the design of a band of that kind, size, width and sheet whose other
// numbers are usual for them, with one field of the motif of f over the whole of it.
func BeginWith(b unroll.Band, f Field) Design {
	b.EndWidthMM, b.EndCornerMM = b.WidthMM, 0
	switch {
	case b.Open(): // a little narrower at the ends, where it lies under the wrist
		b.EndWidthMM = math.Round(b.WidthMM * 0.8)
		b.EndCornerMM = math.Round(b.EndWidthMM * 0.25)
	case b.Joint == "":
		b.Joint, b.JointMM = unroll.Soldered, UsualJoint(b.Kind)
	}
	d := Design{Name: Untitled, Band: b, Metal: Metal{Alloy: "sterling-925"}, Rules: UsualRules(b)}
	d.Fields = []Field{UsualField(d, Field{Motif: f.Motif, Path: f.Path, Numbers: f.Numbers})}
	return d
}

// UsualJoint is the length of a joint's solid strip: ours, a little more than a
// saw cut and two filed ends with solder need.
func UsualJoint(kind string) float64 {
	if kind == unroll.Ring {
		return 2
	}
	return 4
}

// UsualRules returns rules that suit the band's size, and its sheet by whatever process it is
// cut by hand or laser: no bridge and no opening narrower than the sheet is thick.
func UsualRules(b unroll.Band) DesignRules {
	r := DesignRules{BridgeMM: 1.2, RimMM: 2, CornerMM: 0.3, SmallestMM: 1}
	if b.OnFinger() {
		r = DesignRules{BridgeMM: 1, RimMM: 1.2, CornerMM: 0.25, SmallestMM: 0.8}
	}
	t := b.Thickness.Measured()
	for _, key := range []string{"saw", "laser"} {
		p, _ := ProcessByKey(key)
		r.BridgeMM = math.Max(r.BridgeMM, upTo(p.Bridge(t), 0.05))
		r.SmallestMM = math.Max(r.SmallestMM, upTo(p.Opening(t), 0.05))
		r.CornerMM = math.Max(r.CornerMM, upTo(p.Corner(t), 0.05))
	}
	r.RimMM = math.Max(r.RimMM, r.BridgeMM)
	return r
}

// upTo rounds v up to whole steps.
func upTo(v, step float64) float64 { return math.Round(math.Ceil(v/step-1e-9)*step*1e4) / 1e4 }

// How high a row of a new field is, by eye: a share of the band's width, but not so low that
// there is little more than bridges, nor higher than a wrist can carry.
const (
	usualRows    = 3.2
	rowOfBridges = 4.0
	mostRow      = 9.0
)

// roomy is by how much the first openings are larger than the smallest that may be cut.
const roomy = 1.2

// UsualField returns a field of the motif and the area of f as a maker would begin with it:
// openings in the motif's good proportions and of a size that suits the band, whole ones only,
// which follow the band's width. A field in a run keeps its pitch when the run is made longer.
func UsualField(d Design, f Field) Field {
	f.Stagger, f.Edge = motif.Usual(f.Motif).Stagger, EdgeWhole
	switch f.Area.Shape {
	case "":
		f.Follow = FollowWidth
	case RunShape:
		f.Follow, f.Edge, f.PitchMM = FollowWidth, EdgeFit, 1
	}
	_, high := d.span(f)
	row := math.Min(math.Max(high/usualRows, rowOfBridges*f.Bridge(d.Rules)), mostRow)
	f = d.Fitted(f, row*row)
	// A soldered joint had better lie in the middle of a cell, if that takes fewer away.
	if e, m, s := d.extentOf(f); s != nil && e.closed && s.Flat.JointStrip > 0 {
		plain := s.sample(m, e, f.Rows, f.Repeats)
		e.move += e.frame.Pitch() / 2
		if s.sample(m, e, f.Rows, f.Repeats).fill > plain.fill+1e-9 {
			f.Phase = 0.5
		}
	}
	return f
}

// CellArea returns the area that a plain motif's cell of the field's size has, mm^2: what
// stays the same when a field of the same look is laid elsewhere, or of another motif.
func (d Design) CellArea(f Field) float64 {
	long, high := d.span(f)
	pitch := f.PitchMM
	if pitch == 0 {
		pitch = long / float64(max(1, f.Repeats))
	}
	return pitch * high / float64(max(1, f.Rows)) / motif.Usual(f.Motif).Size
}

// Fitted returns the field with the rows and repeats, or the pitch, that become its motif:
// its cells have about that area ([Design.CellArea]) and good proportions, and as much as
// can be of the field is filled by whole openings. None of them is too small to be cut.
func (d Design) Fitted(f Field, area float64) Field {
	long, high := d.span(f)
	rows, repeats := Grid(f.Motif, long, high, area)
	with := func(rows, repeats int) Field {
		f := f
		f.Rows = rows
		if f.PitchMM > 0 {
			f.PitchMM = PitchRange.Clamp(math.Floor(long/float64(repeats)*100) / 100)
		} else {
			f.Repeats = repeats
		}
		return f
	}
	best := with(rows, repeats)
	e, m, s := d.extentOf(best)
	if s == nil || m.Irregular || e.rotation != 0 {
		return best
	}
	first := s.sample(m, e, rows, repeats)
	most := first.score(first)
	for r := max(1, rows-2); r <= rows+2; r++ {
		for k := 0.55; k < 1.6; k += 0.05 {
			n := inRange(float64(repeats)*k, RepeatsRange)
			if v := s.sample(m, e, r, n).score(first); v > most+1e-9 {
				best, most = with(r, n), v
			}
		}
	}
	return best
}

// Grid divides a piece, mm long and high, into the rows and repeats of a motif that have its
// good proportions and about that area ([Design.CellArea]).
func Grid(key string, long, high, area float64) (rows, repeats int) {
	u := motif.Usual(key)
	rows = inRange(high/math.Sqrt(area*u.Size/u.Aspect), RowsRange)
	return rows, inRange(long/(high/float64(rows)*u.Aspect), RepeatsRange)
}

func inRange(v float64, r Range) int { return int(r.Clamp(math.Round(v))) }

// span returns how long and how high the box is that the field's cells fill, mm.
func (d Design) span(f Field) (long, high float64) {
	e, _, _ := d.extentOf(f)
	return math.Max(e.w, 1), math.Max(e.h, 1)
}

// extentOf works out the extent of a field that need not stand in the design yet. If the band
// can't be unrolled, or the field not be read, it is the box of a band about as large.
func (d Design) extentOf(f Field) (extent, motif.Motif, *Sheet) {
	f.Rows = max(1, f.Rows)
	if f.PitchMM == 0 {
		f.Repeats = max(1, f.Repeats)
	}
	w := d.Band.WidthMM
	around := extent{w: 4 * w, h: w}
	flat, err := unroll.Unroll(d.Band)
	if err != nil {
		return around, motif.Motif{}, nil
	}
	m, err := f.motif()
	if err != nil {
		return around, m, nil
	}
	area, err := f.Area.land(flat)
	if err != nil {
		return around, m, nil
	}
	s := &Sheet{Design: d, Flat: flat, Rule: d.Rules.BridgeMM}
	s.EdgeRule, s.rim = newRim(d.Rules, flat)
	return s.extent(f, m, area), m, s
}

// fieldSample is how a field would come out with some rows and repeats, in the plain box
// that its cells fill before they are bent with the band.
type fieldSample struct {
	fill   float64 // the share of the box that whole openings fill
	cell   float64 // the area of a cell, mm^2: the mean in which each counts by its area
	aspect float64 // the length of the largest cell over its height
	made   float64 // the share of cells that have room and make openings
}

// sample lays cells with so many rows and repeats.
func (s *Sheet) sample(m motif.Motif, e extent, rows, repeats int) (out fieldSample) {
	fr := e.frame
	fr.W, fr.Rows, fr.Repeats = e.w, rows, repeats
	t := m.Cells(fr)
	c := s.cutter(e.bridge)
	c.smallest *= roomy
	x, y := e.w/2-e.half, e.h/2-e.half
	if e.closed {
		x = e.w/2 - s.Flat.JointStrip
		if s.Flat.JointStrip == 0 {
			x = 2 * e.w
		}
	}
	room := plane.Box{Min: plane.Pt(-x-touch, -y-touch), Max: plane.Pt(x+touch, y+touch)}
	cells := make([]*blankCell, len(t.Shapes))
	var open, area, squares, largest, made, lost float64
	for _, p := range t.Cells {
		b := cells[p.Shape]
		if b == nil {
			one := c.blankCell(t.Shapes[p.Shape], e.bridge/2)
			b = &one
			cells[p.Shape] = b
		}
		if len(b.inset) == 0 {
			lost++
			continue
		}
		at := p.At
		if e.closed {
			at.X -= e.w * math.Floor((at.X+e.move+e.w/2)/e.w)
		}
		at.X += e.move
		if box := b.box.Move(at); box.Min.X < room.Min.X || box.Max.X > room.Max.X || box.Min.Y < room.Min.Y || box.Max.Y > room.Max.Y {
			continue
		}
		if len(b.whole) == 0 {
			lost++
			continue
		}
		made++
		for _, l := range b.whole {
			open += l.Area()
		}
		a := b.cell.Area()
		area += a
		squares += a * a
		if a > largest {
			box := b.cell.Bounds()
			largest, out.aspect = a, box.W()/box.H()
		}
	}
	if made == 0 {
		return fieldSample{}
	}
	out.fill, out.cell, out.made = open/(e.w*e.h), squares/area, made/(made+lost)
	return out
}

// How far cells may be from the size and the proportions that were asked for, as natural
// logarithms, before a better filled field does not make up for it: by eye.
const (
	offSize   = 0.55
	offAspect = 0.3
)

// score is the greater the better a field looks, beside the one that was asked for.
func (s fieldSample) score(asked fieldSample) float64 {
	if s.fill == 0 {
		return 0
	}
	v := s.fill * s.made * s.made
	if asked.cell > 0 {
		size, aspect := math.Log(s.cell/asked.cell)/offSize, math.Log(s.aspect/asked.aspect)/offAspect
		v *= math.Exp(-size*size - aspect*aspect)
	}
	return v
}
