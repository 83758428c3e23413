package check

import (
	"math"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Faces is what the drawing becomes on the two faces of the band in its form.
type Faces struct {
	// Volume of the metal left and of the band before piercing, mm^3.
	Volume, PlainVolume float64
	// Areas, mm^2, of the band before piercing and of all openings, on either face.
	// Of a band that is cut flat they are measured by [Deepen] only.
	InnerArea, OuterArea float64
	InnerCut, OuterCut   float64
	// The thinnest bridge of the drawing, mm, on either face; 0 without one.
	InnerBridge, OuterBridge float64
	// The least and the greatest factor, over the blank, from a length along the
	// band on the drawing to the same on the inner and on the outer face.
	InnerLeast, InnerMost float64
	OuterLeast, OuterMost float64
	// TrueArea is the area, mm^2, of the surface that the drawing shows. It is the
	// blank's for all but domed bands.
	TrueArea float64
}

// facesOf measures the faces. Along the normal an area grows evenly with the
// depth where the band is bent one way only; then two faces give the volume.
func facesOf(s *pattern.Sheet, r *Report) Faces {
	f := s.Flat
	t := f.Thickness
	var c Faces
	c.InnerArea, c.OuterArea = f.AreaAt(f.Outline, 0), f.AreaAt(f.Outline, t)
	c.PlainVolume = f.Volume(f.Outline)
	c.Volume = c.PlainVolume
	for i := range s.Openings {
		l := s.Openings[i].Loop
		inner, outer := f.AreaAt(l, 0), f.AreaAt(l, t)
		c.InnerCut += inner
		c.OuterCut += outer
		if f.Domed() {
			c.Volume -= f.Volume(l)
		} else {
			c.Volume -= t * (inner + outer) / 2
		}
	}
	if s.Design.Band.Making != unroll.Formed && !f.Domed() {
		// Prisms in the sheet; bending keeps what they hold.
		c.PlainVolume, c.Volume = r.BlankArea*r.Thickness, (r.BlankArea-r.CutArea)*r.Thickness
	}
	c.TrueArea = r.BlankArea
	if f.Domed() {
		c.TrueArea = f.AreaAt(f.Outline, f.Neutral)
	}
	c.InnerLeast, c.InnerMost = lengths(f, 0)
	c.OuterLeast, c.OuterMost = lengths(f, t)
	return c
}

// faceBridges adds the thinnest bridge as it is on the faces.
func (c *Faces) faceBridges(s *pattern.Sheet, b Bridge) {
	if !b.None() {
		c.InnerBridge = s.Flat.LengthAt(b.A, b.B, 0)
		c.OuterBridge = s.Flat.LengthAt(b.A, b.B, s.Flat.Thickness)
	}
}

// lengths returns the least and greatest factor along the band at a depth, from
// places all over the blank.
func lengths(f unroll.Flat, depth float64) (least, most float64) {
	least, most = math.Inf(1), math.Inf(-1)
	const n = 256
	for i := range n + 1 {
		x := f.Length * (float64(i)/n - 0.5)
		bottom, top := f.EdgesAt(x)
		for _, v := range [3]float64{bottom, 0, top} {
			along, _ := f.Stretch(f.Place(x, v), depth)
			least, most = math.Min(least, along), math.Max(most, along)
		}
	}
	return least, most
}

// checkMaking says how the two faces of a formed band differ from the drawing.
func checkMaking(s *pattern.Sheet, r *Report) []Finding {
	if s.Design.Band.Making != unroll.Formed || r.Openings == 0 {
		return nil
	}
	drawn := s.Design.Band.Drawn
	if drawn == "" {
		drawn = unroll.MiddleFace
	}
	f := Finding{
		Kind: KindFaces, Severity: Note,
		What: pattern.Say("The thinnest bridge is %.3f mm on the inner face and %.3f mm on the outer.", r.Faces.InnerBridge, r.Faces.OuterBridge),
		Why: pattern.Say("The drawing shows the %s face: lengths along the band are %.3f to %.3f of it inside, %.3f to %.3f outside. The weight is that of walls square to the surface.",
			drawn, r.Faces.InnerLeast, r.Faces.InnerMost, r.Faces.OuterLeast, r.Faces.OuterMost),
		Value: r.Faces.InnerBridge, Limit: r.Rule, Unit: "mm", At: []plane.Point{r.Thinnest.A, r.Thinnest.B},
		Mend: "Nothing need be done. To hold the bridge on the inner face, let the drawing show that.",
	}
	if least := math.Min(r.Faces.InnerBridge, r.Faces.OuterBridge); least < 0.95*r.Rule {
		f.Severity = Caution
		f.Value = least
		f.Mend = "Let the drawing show the inner face, or widen the bridge by as much."
		if drawn != unroll.InnerFace {
			f.Fixes = bandFix(s.Design, "Let the drawing show the inner face", func(b *unroll.Band) { b.Drawn = unroll.InnerFace })
		}
	}
	return []Finding{f}
}

// checkDome says what the bench must expect of a band that is domed after it has
// been pierced.
func checkDome(s *pattern.Sheet, r *Report) []Finding {
	f := s.Flat
	if !f.Domed() {
		return nil
	}
	most, at, share := 0.0, plane.Point{}, 0.0
	const n = 64
	for i := range n + 1 {
		x := f.Length * (float64(i)/n - 0.5)
		bottom, top := f.EdgesAt(x)
		for _, v := range [3]float64{bottom, 0, top} {
			along, across := f.Stretch(plane.Pt(x, v), f.Neutral)
			for _, k := range [2]float64{along, across} {
				if d := math.Abs(k - 1); d > most+1e-12 {
					most, at, share = d, plane.Pt(x, v), k
				}
			}
		}
	}
	g := Finding{
		Kind: KindDoming, Severity: Note,
		What: pattern.Say("Lengths on the domed surface differ from the drawing by up to %.1f %%.", 100*most),
		Why: pattern.Say("A dome has no true flat. Here %s are kept true; the largest factor is %.4f, the surface measures %.1f mm², the blank %.1f mm².",
			keptTrue(s.Design.Band.DomeFlat), share, r.Faces.TrueArea, r.BlankArea),
		Value: 100 * most, Unit: "%", At: []plane.Point{at},
		Mend: "Choose what the drawing keeps true: lengths across, angles or areas; none keeps all.",
	}
	if s.Design.Band.Making == unroll.Formed {
		return []Finding{g}
	}
	// Common practice; we know no published limit.
	g.Why += pattern.Say(" Weights are those of the domed band of full thickness all over; the pierced blank, cut flat, weighs %.2f g.", (r.BlankArea-r.CutArea)*r.Thickness*r.Density/1000)
	if r.Openings > 0 && most >= 0.01 {
		g.Severity = Caution
		g.Why += " When a pierced blank is domed, the metal moves where it is weakest: bridges stretch or buckle and openings lose their shape."
		g.Mend = "Anneal, dome in small steps in a soft former, leave bridges wider, try a piece first; or dome first and pierce after (common practice)."
		g.Fixes = bandFix(s.Design, "Cut it as formed", func(b *unroll.Band) { b.Making = unroll.Formed })
	}
	return []Finding{g}
}

// keptTrue says in words what a way of flattening keeps.
func keptTrue(flat string) string {
	switch flat {
	case unroll.ArcLength:
		return "lengths across the band"
	case unroll.Conformal:
		return "angles"
	}
	return "areas"
}

// checkHang says where the band is heavy.
func checkHang(_ *pattern.Sheet, r *Report) []Finding {
	h := r.Hang
	f := Finding{Kind: KindBalance, Severity: Note, Value: h.Off, Unit: "mm", Mend: "Nothing need be done."}
	// A thirtieth of the height: ours. Less is lost in how a wrist is held.
	if h.Off < h.Height/30 {
		f.What = pattern.Say("Nearly balanced: the centre of gravity is %.1f mm from the middle of the inside.", h.Off)
		f.Why = "The band stays as it is put."
		return []Finding{f}
	}
	f.What = pattern.Say("The centre of gravity is %.1f mm from the middle of the inside, %s.", h.Off, side(h.Angle))
	f.Why = "Worn loosely, the band turns until that side hangs down."
	f.Mend = "Nothing need be done. To bring it nearer to the middle, pierce more on the heavy side or make the gap smaller."
	return []Finding{f}
}

// side names the way from the middle in words.
func side(angle float64) string {
	deg := angle * 180 / math.Pi
	switch a := math.Abs(deg); {
	case a < 15:
		return "towards the front"
	case a > 165:
		return "towards the back"
	case deg > 0:
		return pattern.Say("%.0f degrees from the front to the right", a)
	default:
		return pattern.Say("%.0f degrees from the front to the left", a)
	}
}
