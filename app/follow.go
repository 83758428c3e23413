package app

import (
	"math"

	"fretband/pattern"
	"fretband/unroll"
)

// readAs says, by the path in the table, how a number is read that is kept in another way
// than a person says it.
var readAs = map[string]func(*pattern.Design, pattern.At) float64{
	"band.thickness.mm": func(d *pattern.Design, _ pattern.At) float64 {
		switch t := d.Band.Thickness; {
		case t.BSGauge != 0:
			return unroll.GaugeMM(t.BSGauge)
		case t.ImperialGauge != 0:
			return unroll.ImperialGaugeMM(t.ImperialGauge)
		default:
			return t.MM
		}
	},
	"reserves[].count": func(d *pattern.Design, at pattern.At) float64 {
		return float64(max(1, d.Reserves[at[0]].Count))
	},
}

// follows says, by the path in the table, how a number is written with which others change.
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
		a := &d.Fields[at[0]].Area
		a.FromMM = math.Min(v, pattern.PositionRange.Max-leastStretch)
		a.ToMM = math.Max(a.ToMM, a.FromMM+leastStretch)
	},
	"fields[].area.to_mm": func(d *pattern.Design, at pattern.At, v float64) {
		a := &d.Fields[at[0]].Area
		a.ToMM = math.Max(v, pattern.PositionRange.Min+leastStretch)
		a.FromMM = math.Min(a.FromMM, a.ToMM-leastStretch)
	},
	"fields[].grade_along[].at":  AlongCurve.place,
	"fields[].grade_across[].at": AcrossCurve.place,
	"fields[].bridge_along[].at": BridgeCurve.place,
	"rules.rim_along[].at":       RimCurve.place,
	"band.top_edge[].at":         TopEdge.place,
	"band.top_edge[].out_mm":     TopEdge.stand,
	"band.bottom_edge[].at":      BottomEdge.place,
	"band.bottom_edge[].out_mm":  BottomEdge.stand,
	"reserves[].count": func(d *pattern.Design, at pattern.At, v float64) {
		r := &d.Reserves[at[0]]
		was := r.Count
		if r.Count = int(v); r.Count == 1 { // one is kept as no row at all
			r.Count, r.SpacingMM = 0, 0
		} else if was <= 1 && r.SpacingMM == 0 { // a row that can be seen as one
			r.SpacingMM = pattern.SpacingRange.Clamp(round2(r.WidthMM + 2*r.MarginMM + 1))
		}
	},
}
