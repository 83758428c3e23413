package check

import (
	"cmp"
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

// checkMaking tells of a formed band whose bridges are thinner on one face than the rule.
func checkMaking(s *pattern.Sheet, r *Report) []Finding {
	least := math.Min(r.Faces.InnerBridge, r.Faces.OuterBridge)
	if s.Design.Band.Making != unroll.Formed || r.Openings == 0 || r.Thinnest.None() || least >= 0.95*r.Rule {
		return nil
	}
	drawn := cmp.Or(s.Design.Band.Drawn, unroll.MiddleFace)
	face := "inner"
	if r.Faces.OuterBridge < r.Faces.InnerBridge {
		face = "outer"
	}
	f := Finding{
		Kind: KindFaces, Severity: Note,
		What:  pattern.Say("On the %s face the thinnest bridge is %.2f mm, under the rule of %.2f mm.", face, least, r.Rule),
		Why:   pattern.Say("The drawing shows the %s face, and the walls of openings stand square to it. So the metal is narrower on the %s face.", drawn, face),
		Value: least, Limit: r.Rule, Unit: "mm", At: []plane.Point{r.Thinnest.A, r.Thinnest.B},
		Mend: "Widen the bridge by as much.",
	}
	if face == unroll.InnerFace && drawn != unroll.InnerFace {
		f.Mend = "Let the drawing show the inner face, or widen the bridge by as much."
		f.Fixes = bandFix(s.Design, "Let the drawing show the inner face", func(b *unroll.Band) { b.Drawn = unroll.InnerFace })
	}
	if least < processOf(s.Process).Bridge(r.Thickness)*far {
		f.Severity = Caution
	}
	return []Finding{f}
}

// Doming is how far lengths on a domed surface are from the drawing, which no flat can keep
// all of.
type Doming struct {
	Most     float64 // the greatest difference as a share; 0 of a band that is not domed
	At       plane.Point
	Factor   float64 // there, from the drawing to the surface
	Kept     string  // what the drawing keeps true, in words
	BlankG   float64 // g, of the pierced blank while it is flat; 0 of a band cut as formed
	ofFormed bool
}

// domingOf measures it at the neutral surface, all over the blank.
func domingOf(s *pattern.Sheet, r *Report) Doming {
	f := s.Flat
	if !f.Domed() {
		return Doming{}
	}
	d := Doming{Kept: keptTrue(s.Design.Band.DomeFlat), ofFormed: s.Design.Band.Making == unroll.Formed}
	const n = 64
	for i := range n + 1 {
		x := f.Length * (float64(i)/n - 0.5)
		bottom, top := f.EdgesAt(x)
		for _, v := range [3]float64{bottom, 0, top} {
			along, across := f.Stretch(plane.Pt(x, v), f.Neutral)
			for _, k := range [2]float64{along, across} {
				if off := math.Abs(k - 1); off > d.Most+1e-12 {
					d.Most, d.At, d.Factor = off, plane.Pt(x, v), k
				}
			}
		}
	}
	if !d.ofFormed {
		d.BlankG = (r.BlankArea - r.CutArea) * r.Thickness * r.Density / 1000
	}
	return d
}

// How far metal may stretch when a pierced blank is domed before that is told, and before it
// is a caution, as shares: common practice and ours; we know no published limit.
const domedHardly, domedFar = 0.01, 0.1

// checkDome says what the bench must expect of a band that is domed after it has been
// pierced.
func checkDome(s *pattern.Sheet, r *Report) []Finding {
	d := r.Doming
	if d.ofFormed || r.Openings == 0 || d.Most < domedHardly {
		return nil
	}
	f := Finding{
		Kind: KindDoming, Severity: Note,
		What: pattern.Say("Doming the pierced blank stretches or shortens it by up to %.1f %%.", 100*d.Most),
		Why: "The metal moves where it is weakest: bridges stretch or buckle and openings lose their shape (common practice). " +
			pattern.Say("The drawing keeps %s; weights are those of the domed band of full thickness all over.", d.Kept),
		Value: 100 * d.Most, Limit: 100 * domedHardly, Unit: "%", At: []plane.Point{d.At},
		Mend:  "Dome first and pierce after; or anneal, dome in small steps in a soft former, leave bridges wider and try a piece first (common practice).",
		Fixes: bandFix(s.Design, "Cut it as formed", func(b *unroll.Band) { b.Making = unroll.Formed }),
	}
	if d.Most >= domedFar {
		f.Severity = Caution
	}
	return []Finding{f}
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

// Words say where the heavy side is: worn loosely, the band turns until it hangs down.
func (h Hang) Words() string {
	// A thirtieth of the height: ours. Less is lost in how a wrist is held.
	if h.Off < h.Height/30 {
		return "nearly balanced"
	}
	return side(h.Angle)
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
