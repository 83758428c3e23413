package app

import (
	"math"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/unroll"
)

// way says how to read and make a choice that is more than a word of the design. A question
// that only the window asks has two options: whether it is the second, and how the design
// becomes that or the first.
type way struct {
	get    func(*pattern.Design, pattern.At) string
	set    func(*pattern.Design, pattern.At, string)
	is     func(*pattern.Design, pattern.At) bool
	become func(d *pattern.Design, at pattern.At, second bool)
}

// ways has the choices with which other values change, by their keys in the table.
var ways = map[string]way{
	"band.kind":      {set: func(d *pattern.Design, _ pattern.At, key string) { SetKind(d, key) }},
	"band.inside.by": {set: func(d *pattern.Design, _ pattern.At, key string) { SetInsideBy(d, key) }},
	"band.inside.scale": {set: func(d *pattern.Design, _ pattern.At, key string) {
		_, around, err := oval(*d)
		d.Band.Inside.Scale = key
		if err == nil {
			d.Band.Inside.Size = nearestSize(key, around)
		}
	}},
	"band.gap": {
		is:     func(d *pattern.Design, _ pattern.At) bool { return d.Band.GapShare != 0 },
		become: setGapBy,
	},
	"band.joint": {set: func(d *pattern.Design, _ pattern.At, key string) {
		d.Band.Joint = key
		d.Band.JointMM = 0
		if key == unroll.Soldered {
			d.Band.JointMM = pattern.UsualJoint(d.Band.Kind)
		}
	}},
	"band.inside.profile[]": {
		is:     func(d *pattern.Design, at pattern.At) bool { return !d.Band.Inside.Profile[at[0]].Straight() },
		become: setPiece,
	},
	"band.end_shape": {set: setEndShape},
	"band.dome":      {set: setDome},
	"band.dome_by": {
		is:     func(d *pattern.Design, _ pattern.At) bool { return d.Band.DomeRadiusMM != 0 },
		become: setDomeBy,
	},
	"band.making": {set: func(d *pattern.Design, _ pattern.At, key string) {
		d.Band.Making = key
		if key == unroll.MadeFlat {
			d.Band.Making, d.Band.Drawn = "", ""
		}
	}},
	"metal.alloy":         {set: setAlloy},
	"wear.temper":         {get: temper, set: setTemper},
	"fields[].motif":      {set: setMotif},
	"fields[].area.shape": {set: func(d *pattern.Design, at pattern.At, key string) { setArea(d, at[0], key) }},
	"fields[].count": {
		is:     func(d *pattern.Design, at pattern.At) bool { return d.Fields[at[0]].PitchMM != 0 },
		become: setCount,
	},
	"reserves[].shape": {set: setReserve},
	"added[].cut":      {set: ofAdded(setCut)},
	"added[].gem":      {set: ofAdded(setGem)},
	"added[].section":  {set: ofAdded(setSection)},
	"added[].seat":     {set: ofAdded(setSeat)},
	"added[].setting":  {set: ofAdded(setSetting)},
	"added[].row": {set: func(d *pattern.Design, at pattern.At, key string) {
		setRow(d, &d.Added[at[0]], key)
	}},
	"marks[].keep_mm:by": {
		is:     func(d *pattern.Design, at pattern.At) bool { return d.Engravings[at[0]].MarginMM < 0 },
		become: setEngravingMargin,
	},
}

func ofAdded(set func(*pattern.Added, string)) func(*pattern.Design, pattern.At, string) {
	return func(d *pattern.Design, at pattern.At, key string) { set(&d.Added[at[0]], key) }
}

func setGapBy(d *pattern.Design, _ pattern.At, share bool) {
	b := &d.Band
	_, around, err := oval(*d)
	switch {
	case share && b.GapShare == 0:
		b.GapShare = 0.15 // where the size can't be read from the design: ours
		if err == nil && around > 0 {
			b.GapShare = math.Max(pattern.LeastGapShare, math.Round(b.GapMM/around*10000)/10000)
		}
		b.GapMM = 0
	case !share && b.GapShare != 0:
		b.GapMM = 28
		if err == nil {
			b.GapMM = hundredths(b.GapShare * around)
		}
		b.GapShare = 0
	}
}

// setPiece replaces a straight run by an arc of a usual size, or the other way round.
func setPiece(d *pattern.Design, at pattern.At, arc bool) {
	p := &d.Band.Inside.Profile[at[0]]
	switch {
	case arc && p.Straight():
		*p = unroll.Piece{RadiusMM: 20, AngleDeg: 20}
	case !arc && !p.Straight():
		*p = unroll.Piece{LengthMM: 5}
	}
}

func setEndShape(d *pattern.Design, _ pattern.At, key string) {
	b := &d.Band
	b.EndShape, b.EndCornerMM, b.EndLengthMM, b.EndRadiusMM = key, 0, 0, 0
	switch key {
	case "":
		b.EndCornerMM = math.Min(3, b.EndWidthMM/4)
	case unroll.PointEnd:
		b.EndLengthMM, b.EndRadiusMM = hundredths(b.EndWidthMM*1.1), hundredths(math.Max(1, b.EndWidthMM/8))
	}
}

func setDome(d *pattern.Design, _ pattern.At, key string) {
	b := &d.Band
	was := b.Dome
	b.Dome = key
	switch {
	case key == "":
		b.DomeRadiusMM, b.DomeRiseMM, b.DomeFlat = 0, 0, ""
	case was == "":
		b.FlareDeg = 0
		if b.Inside.By == unroll.ByEdges { // it can be flared no longer
			SetInsideBy(d, unroll.ByCircumference)
			b.FlareDeg = 0
		}
		b.DomeRiseMM, b.DomeFlat = hundredths(b.WidthMM/30), unroll.EqualArea
	}
}

func setDomeBy(d *pattern.Design, _ pattern.At, radius bool) {
	b := &d.Band
	switch {
	case radius && b.DomeRadiusMM == 0:
		b.DomeRadiusMM, b.DomeRiseMM = hundredths(unroll.DomeRadius(b.WidthMM, b.DomeRiseMM)), 0
	case !radius && b.DomeRadiusMM != 0:
		b.DomeRiseMM, b.DomeRadiusMM = math.Round(1000*unroll.DomeRise(b.WidthMM, b.DomeRadiusMM))/1000, 0
	}
}

func setAlloy(d *pattern.Design, _ pattern.At, key string) {
	density, _ := densityOf(d.Metal)
	if key != d.Metal.Alloy { // another metal bears something else
		d.Wear.Temper, d.Wear.ProofMPa, d.Wear.ModulusGPa = "", 0, 0
	}
	d.Metal.Alloy = key
	d.Metal.DensityGCM3 = 0
	if key == pattern.OwnAlloy {
		d.Metal.DensityGCM3 = density
	}
}

func densityOf(m pattern.Metal) (float64, bool) {
	if m.Alloy == pattern.OwnAlloy && m.DensityGCM3 > 0 {
		return m.DensityGCM3, true
	}
	if a, ok := pattern.AlloyByKey(m.Alloy); ok {
		return a.Density, true
	}
	return 10, false
}

// temper is the softest where none is named that the alloy has.
func temper(d *pattern.Design, _ pattern.At) string {
	ts := pattern.Tempers(d.Metal.Alloy)
	for _, t := range ts {
		if t.Key == d.Wear.Temper {
			return t.Key
		}
	}
	return ts[0].Key
}

func setTemper(d *pattern.Design, _ pattern.At, key string) {
	if key == pattern.Tempers(d.Metal.Alloy)[0].Key {
		key = ""
	}
	d.Wear.Temper = key
}

// setMotif drops numbers that the new motif does not know, and takes the rows and repeats
// that keep the size of cells and become the new motif; undo brings all back.
func setMotif(d *pattern.Design, at pattern.At, key string) {
	if d.Fields[at[0]].Motif != key {
		changeMotif(d, at[0], key, "")
	}
}

func changeMotif(d *pattern.Design, i int, key, path string) {
	f := &d.Fields[i]
	area, was := d.CellArea(*f), motif.Usual(f.Motif)
	same := f.Motif == key
	f.Motif, f.Path = key, path
	if same {
		return
	}
	f.Numbers = nil
	if f.Stagger == was.Stagger { // it was not chosen
		f.Stagger = motif.Usual(key).Stagger
	}
	*f = d.Fitted(*f, area)
}

// setCount changes between a number of repeats and a pitch, and keeps the look.
func setCount(d *pattern.Design, at pattern.At, byPitch bool) {
	repeats, pitch := standing(*d, at[0])
	f := &d.Fields[at[0]]
	switch {
	case byPitch && f.PitchMM == 0:
		// Rounded down, so that as many have room.
		f.PitchMM = pattern.PitchRange.Clamp(math.Floor(pitch*1e4) / 1e4)
		f.Repeats = 0
	case !byPitch && f.PitchMM != 0:
		f.Repeats = whole(repeats, pattern.RepeatsRange)
		f.PitchMM = 0
	}
}

// standing says how many repeats of field i are along it, and their pitch, mm.
func standing(d pattern.Design, i int) (repeats, pitch float64) {
	if s, err := pattern.Lay(d); err == nil {
		l := s.Layout(i)
		return float64(l.Repeats), l.PitchMM
	}
	// Something else stands in the way of laying the design: by its numbers.
	f := d.Fields[i]
	long := lengthOf(d, f)
	if f.PitchMM > 0 {
		return long / f.PitchMM, f.PitchMM
	}
	return float64(f.Repeats), long / float64(max(1, f.Repeats))
}

// setReserve keeps the size. A drawn shape comes from a drawing ([OwnReserve]).
func setReserve(d *pattern.Design, at pattern.At, key string) {
	r := &d.Reserves[at[0]]
	if r.Shape == key || key == pattern.PathShape {
		return
	}
	if r.WidthMM == 0 {
		r.WidthMM, r.HeightMM = 8, 6 // a path as large as it was drawn
	}
	if r.HeightMM == 0 {
		r.HeightMM = r.WidthMM
		if key == pattern.OvalShape {
			r.HeightMM = pattern.SizeRange.Clamp(hundredths(r.WidthMM * 0.7))
		}
	}
	if r.Shape, r.Path = key, ""; key == pattern.CircleShape {
		r.HeightMM, r.RotationDeg = 0, 0
	}
}

// usualEngravingMargin is what openings keep from a new engraving, mm: ours.
const usualEngravingMargin = 0.5

func setEngravingMargin(d *pattern.Design, at pattern.At, through bool) {
	m := &d.Engravings[at[0]]
	if (m.MarginMM < 0) == through {
		return
	}
	if m.MarginMM = usualEngravingMargin; through {
		m.MarginMM = pattern.EngravingMarginRange.Min
	}
}

// readAs says, by the path in the table, how to read a number that the design keeps in
// another form than a person uses.
var readAs = map[string]func(*pattern.Design, pattern.At) float64{
	"band.thickness.mm": func(d *pattern.Design, _ pattern.At) float64 {
		return d.Band.Thickness.Measured()
	},
	"reserves[].count": func(d *pattern.Design, at pattern.At) float64 {
		return float64(max(1, d.Reserves[at[0]].Count))
	},
	"added[].count": addedCount,
}

// addedCount is one for a part that stands alone; of beads 0 is as many as fit.
func addedCount(d *pattern.Design, at pattern.At) float64 {
	a := d.Added[at[0]]
	if a.Kind != pattern.BeadsPart {
		return float64(max(1, a.Count))
	}
	return float64(a.Count)
}

// follows says, by the path in the table, how to write a number that changes others with it.
var follows = map[string]func(*pattern.Design, pattern.At, float64){
	"band.width_mm": func(d *pattern.Design, _ pattern.At, v float64) {
		// A band of constant width stays one.
		if d.Band.EndWidthMM == d.Band.WidthMM {
			d.Band.EndWidthMM = v
		}
		d.Band.WidthMM = v
	},
	"band.thickness.mm": func(d *pattern.Design, _ pattern.At, v float64) { d.Band.Thickness = unroll.Thickness{MM: v} },
	"fields[].area.from_mm": func(d *pattern.Design, at pattern.At, v float64) {
		a := d.Fields[at[0]].Area
		a.FromMM = math.Min(v, pattern.PositionRange.Max-leastStretch)
		a.ToMM = math.Max(a.ToMM, a.FromMM+leastStretch)
		put(d, at[0], a)
	},
	"fields[].area.to_mm": func(d *pattern.Design, at pattern.At, v float64) {
		a := d.Fields[at[0]].Area
		a.ToMM = math.Max(v, pattern.PositionRange.Min+leastStretch)
		a.FromMM = math.Min(a.FromMM, a.ToMM-leastStretch)
		put(d, at[0], a)
	},
	"fields[].grade_along[].at":  AlongCurve.place,
	"fields[].grade_across[].at": AcrossCurve.place,
	"fields[].bridge_along[].at": BridgeCurve.place,
	"rules.rim_along[].at":       RimCurve.place,
	"band.top_edge[].at":         TopEdge.place,
	"band.top_edge[].out_mm":     TopEdge.stand,
	"band.bottom_edge[].at":      BottomEdge.place,
	"band.bottom_edge[].out_mm":  BottomEdge.stand,
	"added[].count": func(d *pattern.Design, at pattern.At, v float64) {
		a := &d.Added[at[0]]
		was := a.Count
		a.Count = int(v)
		switch {
		case a.Kind == pattern.BeadsPart && a.WidthMM == 0 && a.Count < 3:
			a.Count = 3 // they close the row
		case a.Kind == pattern.BeadsPart:
		case a.Row == pattern.RowCircle || a.Row == pattern.RowOval:
			a.Count = max(2, a.Count)
		case a.Count <= 1:
			a.Count, a.SpacingMM = 0, 0
		case was <= 1 && a.SpacingMM == 0 && a.Row == pattern.RowLine: // a row that can be seen as one
			a.SpacingMM = pattern.SpacingRange.Clamp(hundredths(a.WidthMM + 2*(a.WallMM+a.MarginMM) + 1))
		}
	},
	"added[].width_mm": func(d *pattern.Design, at pattern.At, v float64) {
		a := &d.Added[at[0]]
		if v < pattern.SizeRange.Min {
			v = 0
		}
		if a.WidthMM = v; v == 0 && a.Count < 3 {
			a.Count = 100 // beads that close the row
		}
		if a.Kind == pattern.StonePart {
			a.HeightMM = math.Min(a.HeightMM, v)
		}
	},
	"added[].height_mm": func(d *pattern.Design, at pattern.At, v float64) {
		a := &d.Added[at[0]]
		if a.HeightMM = v; a.Kind == pattern.StonePart {
			a.HeightMM = math.Min(v, a.WidthMM)
		}
	},
	"reserves[].count": func(d *pattern.Design, at pattern.At, v float64) {
		r := &d.Reserves[at[0]]
		was := r.Count
		if r.Count = int(v); r.Count == 1 { // one is kept as no row at all
			r.Count, r.SpacingMM = 0, 0
		} else if was <= 1 && r.SpacingMM == 0 { // a row that can be seen as one
			r.SpacingMM = pattern.SpacingRange.Clamp(hundredths(r.WidthMM + 2*r.MarginMM + 1))
		}
	},
}
