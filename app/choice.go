package app

import (
	"math"

	"fretband/pattern"
	"fretband/unroll"
)

// Option is one thing that can be chosen: its key in the design file and what a
// person reads.
type Option struct{ Key, Title string }

// Choice is one of the design's either-ors.
type Choice struct {
	Path, Title, Tip string
	Options          func(pattern.Design) []Option
	Get              func(pattern.Design) string
	Set              func(*pattern.Design, string)
	Shown            func(pattern.Design) bool // nil: always
}

// BandChoices are the either-ors of the band.
func BandChoices() []Choice {
	return []Choice{
		{
			Path: "band.kind", Title: "Kind", Tip: "A cuff is open at the back; a bangle goes over the hand; a ring goes on a finger.",
			Options: func(pattern.Design) []Option {
				return []Option{{unroll.Cuff, "Cuff, open"}, {unroll.Bangle, "Bangle, closed"}, {unroll.Ring, "Ring"}}
			},
			Get: func(d pattern.Design) string { return d.Band.Kind },
			Set: SetKind,
		},
		{
			Path: "band.inside.by", Title: "Inside by", Tip: "How you know the size: measured across, round the inside, round the wrist, or as a trade size.",
			Options: waysOf,
			Get:     func(d pattern.Design) string { return d.Band.Inside.By },
			Set:     SetInsideBy,
		},
		{
			Path: "band.inside.scale", Title: "Scale", Tip: "Whose sizes these are. A bare number is never guessed.",
			Options: scalesOf,
			Get:     func(d pattern.Design) string { return d.Band.Inside.Scale },
			Set: func(d *pattern.Design, key string) {
				o, err := oval(*d)
				d.Band.Inside.Scale = key
				if err == nil {
					d.Band.Inside.Size = nearestSize(key, o.Circumference())
				}
			},
			Shown: by(unroll.BySize),
		},
		{
			Path: "band.inside.size", Title: "Size", Tip: "On that scale. The inside is round.",
			Options: func(d pattern.Design) []Option {
				var os []Option
				known := false
				for _, s := range Sizes(d.Band.Inside.Scale) {
					os = append(os, Option{s, s})
					known = known || s == d.Band.Inside.Size
				}
				if !known { // a quarter size, or another spelling
					os = append([]Option{{d.Band.Inside.Size, d.Band.Inside.Size}}, os...)
				}
				return os
			},
			Get:   func(d pattern.Design) string { return d.Band.Inside.Size },
			Set:   func(d *pattern.Design, key string) { d.Band.Inside.Size = key },
			Shown: by(unroll.BySize),
		},
		{
			Path: "band.joint", Title: "Closed by", Tip: "Soldered from sheet, a strip at the joint stays solid. Seamless, from tube or cast, openings may run over it.",
			Options: func(pattern.Design) []Option {
				return []Option{{unroll.Soldered, "Soldered joint"}, {unroll.Seamless, "Seamless"}}
			},
			Get: func(d pattern.Design) string { return d.Band.Joint },
			Set: func(d *pattern.Design, key string) {
				d.Band.Joint = key
				d.Band.JointMM = 0
				if key == unroll.Soldered {
					d.Band.JointMM = usualJoint(d.Band.Kind)
				}
			},
			Shown: func(d pattern.Design) bool { return d.Band.Kind != unroll.Cuff },
		},
	}
}

// FormChoices are the either-ors of the band's finer form.
func FormChoices() []Choice {
	domed := func(d pattern.Design) bool { return d.Band.Dome != "" }
	return []Choice{
		{
			Path: "band.end_shape", Title: "Ends", Tip: "The shape of a cuff's two ends.",
			Options: func(pattern.Design) []Option {
				return []Option{{"", "Square, corners rounded"}, {unroll.RoundEnd, "One round"}, {unroll.PointEnd, "Drawn to a point"}}
			},
			Get: func(d pattern.Design) string { return d.Band.EndShape },
			Set: func(d *pattern.Design, key string) {
				b := &d.Band
				b.EndShape, b.EndCornerMM, b.EndLengthMM, b.EndRadiusMM = key, 0, 0, 0
				switch key {
				case "":
					b.EndCornerMM = math.Min(3, b.EndWidthMM/4)
				case unroll.PointEnd:
					b.EndLengthMM, b.EndRadiusMM = round2(b.EndWidthMM*1.1), round2(math.Max(1, b.EndWidthMM/8))
				}
			},
			Shown: cuff,
		},
		{
			Path: "band.dome", Title: "Section", Tip: "Across the width: flat as a strip, or curved. A domed band can't be unrolled without stretching; what the blank keeps true is your choice.",
			Options: func(pattern.Design) []Option {
				return []Option{{"", "Flat"}, {unroll.Outward, "Domed outwards"}, {unroll.Hollow, "Hollow"}}
			},
			Get: func(d pattern.Design) string { return d.Band.Dome },
			Set: func(d *pattern.Design, key string) {
				b := &d.Band
				was := b.Dome
				b.Dome = key
				switch {
				case key == "":
					b.DomeRadiusMM, b.DomeRiseMM, b.DomeFlat = 0, 0, ""
				case was == "":
					b.FlareDeg = 0
					b.DomeRiseMM, b.DomeFlat = round2(b.WidthMM/30), unroll.EqualArea
				}
			},
		},
		{
			Path: "band.dome_flat", Title: "Keeps true", Tip: "What stays true where a domed section is made flat; the figures say how far the rest is off.",
			Options: func(pattern.Design) []Option {
				return []Option{{unroll.EqualArea, "Areas, so weights"}, {unroll.Conformal, "Angles, so shapes"}, {unroll.ArcLength, "Lengths across"}}
			},
			Get:   func(d pattern.Design) string { return d.Band.DomeFlat },
			Set:   func(d *pattern.Design, key string) { d.Band.DomeFlat = key },
			Shown: domed,
		},
		{
			Path: "band.making", Title: "Made", Tip: "Cut flat and then bent, the flat drawing is the part. Cut or cast as formed, walls follow the normal.",
			Options: func(pattern.Design) []Option {
				return []Option{{unroll.MadeFlat, "Cut flat, then bent"}, {unroll.Formed, "Cut or cast as formed"}}
			},
			Get: func(d pattern.Design) string {
				if d.Band.Making == "" {
					return unroll.MadeFlat
				}
				return d.Band.Making
			},
			Set: func(d *pattern.Design, key string) {
				d.Band.Making = key
				if key == unroll.MadeFlat {
					d.Band.Making, d.Band.Drawn = "", ""
				}
			},
		},
		{
			Path: "band.drawn", Title: "Drawing shows", Tip: "Which face of a formed band is drawn flat.",
			Options: func(pattern.Design) []Option {
				return []Option{{"", "The neutral surface"}, {unroll.InnerFace, "The inner face"}, {unroll.MiddleFace, "The middle"}, {unroll.OuterFace, "The outer face"}}
			},
			Get:   func(d pattern.Design) string { return d.Band.Drawn },
			Set:   func(d *pattern.Design, key string) { d.Band.Drawn = key },
			Shown: func(d pattern.Design) bool { return d.Band.Making == unroll.Formed },
		},
	}
}

// FollowChoice says what the cells do where the band is not of one width.
func FollowChoice() Choice {
	return Choice{
		Path: "field.follow", Title: "Taper", Tip: "Where the band is narrower, the rim cuts the pattern off, or the pattern grows smaller with the width.",
		Options: func(pattern.Design) []Option {
			return []Option{{pattern.FollowClip, "Cut off by the rim"}, {pattern.FollowWidth, "Smaller with the width"}}
		},
		Get: func(d pattern.Design) string {
			if d.Field.Follow == "" {
				return pattern.FollowClip
			}
			return d.Field.Follow
		},
		Set: func(d *pattern.Design, key string) {
			d.Field.Follow = key
			if key == pattern.FollowClip {
				d.Field.Follow = ""
			}
		},
		Shown: func(d pattern.Design) bool {
			return d.Band.WidthMM != d.Band.EndWidthMM || len(d.Band.TopEdge)+len(d.Band.BottomEdge) > 0
		},
	}
}

// AlloyChoice chooses the metal.
func AlloyChoice() Choice {
	return Choice{
		Path: "metal.alloy", Title: "Alloy", Tip: "Sets the weight. Alloys of one name differ by a few parts in a hundred: your supplier's figure is the better one.",
		Options: func(pattern.Design) []Option {
			var os []Option
			for _, a := range pattern.Alloys() {
				os = append(os, Option{a.Key, a.Name})
			}
			return os
		},
		Get: func(d pattern.Design) string { return d.Metal.Alloy },
		Set: func(d *pattern.Design, key string) {
			density, _ := densityOf(d.Metal)
			d.Metal.Alloy = key
			d.Metal.DensityGCM3 = 0
			if key == pattern.OwnAlloy {
				d.Metal.DensityGCM3 = density
			}
		},
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

// MotifChoice chooses the motif. Numbers that the new motif does not know are
// dropped; undo brings them back.
func MotifChoice() Choice {
	return Choice{
		Path: "field.motif", Title: "Motif", Tip: "The shape that repeats.",
		Options: func(pattern.Design) []Option {
			var os []Option
			for _, m := range pattern.Motifs() {
				os = append(os, Option{m.Key, m.Title})
			}
			return os
		},
		Get: func(d pattern.Design) string { return d.Field.Motif },
		Set: func(d *pattern.Design, key string) {
			d.Field.Motif = key
			d.Field.Numbers = nil
		},
	}
}

// ReserveShape chooses the shape of reserve i.
func ReserveShape(i int) Choice {
	return Choice{
		Path: "shape", Title: "Shape", Tip: "Of the area that is kept solid.",
		Options: func(pattern.Design) []Option {
			return []Option{{pattern.CircleReserve, "Circle"}, {pattern.RectangleReserve, "Rectangle"}}
		},
		Get: func(d pattern.Design) string {
			if i >= len(d.Reserves) {
				return ""
			}
			return d.Reserves[i].Shape
		},
		Set: func(d *pattern.Design, key string) {
			if i >= len(d.Reserves) {
				return
			}
			*d = Clone(*d)
			r := &d.Reserves[i]
			if r.Shape == key {
				return
			}
			r.Shape, r.HeightMM = key, 0
			if key == pattern.RectangleReserve {
				r.HeightMM = r.WidthMM
			}
		},
	}
}

// NewReserve returns a reserve that a person may start from: a quarter of the
// band's width across, at the middle of the blank.
func NewReserve(shape string, d pattern.Design) pattern.Reserve {
	w := math.Max(2, math.Min(12, math.Round(d.Band.WidthMM/4)))
	r := pattern.Reserve{Shape: shape, WidthMM: w, MarginMM: 1}
	if shape == pattern.RectangleReserve {
		r.WidthMM, r.HeightMM = 2*w, w
	}
	return r
}

func waysOf(d pattern.Design) []Option {
	os := []Option{{unroll.ByAxes, "Width and height"}, {unroll.BySides, "Straight sides"}, {unroll.ByCircumference, "Circumference"}}
	if d.Band.Kind != unroll.Ring {
		os = append(os, Option{unroll.ByWrist, "Wrist and ease"})
	}
	if d.Band.Kind != unroll.Cuff {
		os = append(os, Option{unroll.BySize, "Trade size"})
	}
	// These come from a design file and can be left, not entered.
	switch d.Band.Inside.By {
	case unroll.ByEdges:
		os = append(os, Option{unroll.ByEdges, "Its two edges"})
	case unroll.ByProfile:
		os = append(os, Option{unroll.ByProfile, "A profile of its own"})
	}
	return os
}

func scalesOf(d pattern.Design) []Option {
	var os []Option
	for _, s := range unroll.Scales() {
		if s.Kind == d.Band.Kind {
			os = append(os, Option{s.Key, s.Name})
		}
	}
	return os
}

// oval returns the inside of the design's band.
func oval(d pattern.Design) (unroll.Oval, error) {
	f, err := unroll.Unroll(d.Band)
	return f.Oval, err
}

// usualJoint is the length of a joint's solid strip: ours, a little more than a
// saw cut and two filed ends with solder need.
func usualJoint(kind string) float64 {
	if kind == unroll.Ring {
		return 2
	}
	return 4
}

// SetInsideBy has the inside given in another way and keeps its size as nearly
// as that way can say it.
func SetInsideBy(d *pattern.Design, way string) {
	if way == d.Band.Inside.By {
		return
	}
	o, err := oval(*d)
	if err != nil || o.A <= 0 || o.B <= 0 { // nothing to keep: a plain start
		o = unroll.OvalOf(170, 1)
		if d.Band.Kind == unroll.Ring {
			o = unroll.OvalOf(54, 1)
		}
	}
	setInside(d, way, o)
}

func setInside(d *pattern.Design, way string, o unroll.Oval) {
	in := unroll.Inside{By: way}
	switch way {
	case unroll.ByAxes, unroll.BySides:
		in.WidthMM, in.HeightMM = round2(2*o.A), round2(2*o.B)
	case unroll.ByCircumference:
		in.CircumferenceMM, in.Ratio = round2(o.Circumference()), math.Round(1000*o.A/o.B)/1000
	case unroll.ByWrist:
		in.Ratio = math.Round(1000*o.A/o.B) / 1000
		in.EaseMM = 10
		in.WristMM = round2(o.Circumference() - in.EaseMM)
	case unroll.BySize:
		if s := scalesOf(*d); len(s) > 0 {
			in.Scale = s[0].Key
		}
		in.Size = nearestSize(in.Scale, o.Circumference())
	}
	d.Band.Inside = in
}

// SetKind makes the band another kind, and everything that the old kind had and
// the new one can't have is replaced by something usual. A band that changes
// between finger and wrist starts from a usual size.
func SetKind(d *pattern.Design, kind string) {
	if kind == d.Band.Kind {
		return
	}
	o, err := oval(*d)
	known := err == nil && o.A > 0 && o.B > 0
	small := known && o.Circumference() < 90 // no wrist and no ring is near
	fresh := !known || small != (kind == unroll.Ring)
	if fresh {
		// Rows, bridges and places of a wrist do not fit a finger, nor the other
		// way round.
		b, f := &d.Band, &d.Field
		d.Reserves = nil
		b.TopEdge, b.BottomEdge, b.SwellLengthMM, b.FlareDeg = nil, nil, 0, 0
		b.Dome, b.DomeRadiusMM, b.DomeRiseMM, b.DomeFlat = "", 0, 0, ""
		if kind == unroll.Ring {
			o = unroll.OvalOf(54, 1)
			b.WidthMM, b.EndWidthMM = 8, 8
			f.Rows, f.Repeats, f.BridgeMM, f.RimMM, f.CornerMM, f.SmallestMM = 1, 14, 1, 1.2, 0.25, 0.8
		} else {
			o = unroll.OvalOf(180, 1.25)
			b.WidthMM, b.EndWidthMM = 30, 30
			f.Rows, f.Repeats, f.BridgeMM, f.RimMM, f.CornerMM, f.SmallestMM = 3, 20, 1.2, 2, 0.3, 1
		}
	}
	b := &d.Band
	b.Kind = kind
	b.GapMM, b.GapShare, b.EndCornerMM, b.Joint, b.JointMM = 0, 0, 0, "", 0
	b.EndShape, b.EndLengthMM, b.EndRadiusMM = "", 0, 0
	way := b.Inside.By
	if kind == unroll.Cuff {
		b.GapMM, b.EndCornerMM = 28, 3
		if way == unroll.BySize {
			way = unroll.ByAxes
		}
	} else {
		b.Joint, b.JointMM = unroll.Soldered, usualJoint(kind)
		if kind == unroll.Ring && way == unroll.ByWrist {
			way = unroll.ByCircumference
		}
	}
	switch {
	case way == unroll.ByProfile || way == unroll.ByEdges:
		if fresh {
			setInside(d, unroll.ByAxes, o)
		}
	default: // the scale goes with the kind, so a size is said anew as well
		setInside(d, way, o)
	}
}

// nearestSize returns the size on a scale whose circumference is nearest to c,
// found among the sizes as people write them.
func nearestSize(scale string, c float64) string {
	best, off := "", math.Inf(1)
	for _, s := range sizesOf(scale) {
		v, err := unroll.SizeCircumference(scale, s)
		if err == nil && math.Abs(v-c) < off {
			best, off = s, math.Abs(v-c)
		}
	}
	return best
}

// sizesOf lists the sizes of a scale as people write them: wholes and halves,
// letters and half letters, inches and sixteenths. Some may be outside the
// scale; those give no circumference.
func sizesOf(scale string) []string {
	var all []string
	switch scale {
	case "uk":
		for l := 'A'; l <= 'Z'; l++ {
			all = append(all, string(l), string(l)+" 1/2")
		}
	case "bangle":
		for in := 1; in <= 3; in++ {
			for n := range 16 {
				all = append(all, FormatNumber(float64(in), 0)+"-"+FormatNumber(float64(n), 0))
			}
		}
	case "us":
		for n := range 17 {
			all = append(all, FormatNumber(float64(n), 0), FormatNumber(float64(n), 0)+" 1/2")
		}
	default:
		for n := 1; n <= 80; n++ {
			all = append(all, FormatNumber(float64(n), 0))
		}
	}
	return all
}

// Sizes returns the sizes that can be chosen on a scale.
func Sizes(scale string) []string {
	var ok []string
	for _, s := range sizesOf(scale) {
		if _, err := unroll.SizeCircumference(scale, s); err == nil {
			ok = append(ok, s)
		}
	}
	return ok
}

func round2(v float64) float64 { return math.Round(v*100) / 100 }
