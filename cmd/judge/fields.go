package main

import (
	"math"
	"math/rand/v2"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/unroll"
)

// withFields gives every other design one to three fields of all that a field may
// ask for, on areas of their own. Its numbers are drawn apart, so that the rest of
// the design is as it would be without.
func (r draw) withFields(d pattern.Design, seed uint64, i int) pattern.Design {
	if i%2 == 0 {
		return d
	}
	r.Rand = rand.New(rand.NewPCG(seed, 0x6669656c64+uint64(i)))
	flat, err := unroll.Unroll(d.Band)
	if err != nil {
		return d
	}
	n := 1 + r.IntN(3)
	plain := d.Fields[0]
	var fields []pattern.Field
	for tries := 0; len(fields) < n && tries < 50; tries++ {
		f := r.field(plain, flat, i+7*len(fields), r.most/n)
		d.Fields = append(fields, f)
		if d.Check() == nil {
			fields = d.Fields
		}
	}
	d.Fields = fields
	return d
}

// field draws a field of about as many openings at most.
func (r draw) field(plain pattern.Field, flat unroll.Flat, i, openings int) pattern.Field {
	f := pattern.Field{Follow: plain.Follow, Rows: 1 + r.IntN(4)}
	motifs := motif.All()
	f.Motif = motifs[i%len(motifs)].Key
	if r.chance(0.1) {
		f.Motif, f.Path = motif.OwnKey, "M0 0 L3 0 A2 2 0 0 1 3 4 L0 4 L1 2 Z"
	}
	long := flat.Length
	switch r.IntN(7) {
	case 0: // the whole band
	case 1:
		long = r.in(0.15, 0.6) * flat.Length
		from := r.in(-0.5, 0.4) * flat.Length
		f.Area = pattern.Area{Shape: pattern.RunShape, FromMM: math.Round(from*100) / 100, ToMM: math.Round((from+long)*100) / 100}
	case 2:
		from := r.in(-0.5, 0) * flat.Width
		f.Area = pattern.Area{Shape: pattern.StripShape, FromMM: math.Round(from*100) / 100, ToMM: math.Round((from+r.in(0.3, 0.8)*flat.Width)*100) / 100}
	default:
		long = r.in(5, 50)
		f.Area = pattern.Area{
			Shape: []string{pattern.CircleShape, pattern.OvalShape, pattern.RectangleShape, pattern.PathShape}[r.IntN(4)],
			XMM:   r.in(-flat.Length/2, flat.Length/2), YMM: r.in(-flat.Width/4, flat.Width/4),
			WidthMM: long, RotationDeg: r.in(-90, 90),
		}
		if f.Area.Shape != pattern.CircleShape {
			f.Area.HeightMM = r.in(4, 30)
		}
		if f.Area.Shape == pattern.PathShape {
			f.Area.Path = "M 0 0 L 10 0 L 10 4 L 6 4 C 3 4 3 10 6 10 L 0 10 Z"
		}
	}
	f.PitchMM = math.Round(math.Max(long*float64(f.Rows)/float64(openings), r.in(3, 12))*100) / 100
	if r.chance(0.5) {
		f.Repeats, f.PitchMM = int(math.Max(1, long/f.PitchMM)), 0
	}
	if r.chance(0.5) {
		f.Stagger = r.in(0, 0.5)
	}
	if r.chance(0.4) {
		f.Phase = r.in(-1, 1)
	}
	if r.chance(0.4) {
		f.RotationDeg = r.in(-180, 180)
	}
	if r.chance(0.4) {
		f.Mirror = []string{pattern.MirrorAlong, pattern.MirrorAcross, pattern.MirrorBoth}[r.IntN(3)]
	}
	f.Edge = []string{"", pattern.EdgeClip, pattern.EdgeWhole, pattern.EdgeFit}[r.IntN(4)]
	if r.chance(0.4) {
		f.BridgeMM = r.in(0.5, 2)
	}
	if r.chance(0.4) {
		f.GradeAlong = r.grades()
	}
	if r.chance(0.2) {
		f.GradeAcross = r.grades()
	}
	if r.chance(0.5) {
		f.GradeBridge = r.in(0, 1)
	}
	if r.chance(0.3) {
		f.BridgeAlong = r.grades()
	}
	if r.chance(0.2) {
		f.WiderAlongMM, f.WiderAcrossMM = r.in(0, 1.5), r.in(0, 1.5)
	}
	return f
}

// grades returns sizes at some places of an area.
func (r draw) grades() []pattern.Grade {
	var g []pattern.Grade
	for at := r.in(-1, 0); at <= 1; at += r.in(0.1, 0.9) {
		g = append(g, pattern.Grade{At: math.Round(at*100) / 100, Size: r.in(0.4, 2.5)})
	}
	return g
}
