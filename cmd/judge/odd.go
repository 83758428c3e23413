package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/unroll"
)

// someOpenings keeps the designs of a soak small, so that a hundred thousand of them
// take less than an hour.
const someOpenings = 16

// odd makes design i of a seed: a small one of all that the format admits, with what
// designs for the readers do not have: reserves with next to no margin, edits by hand,
// motifs traced in chords, strong flares with few repeats. It is the same whichever others
// are made.
func odd(seed uint64, i int) (pattern.Design, bool) {
	r := draw{rand.New(rand.NewPCG(seed, 0x6f6464<<32+uint64(i))), someOpenings}
	for range 20 { // until the numbers go together
		d := r.withFields(r.design(i), r.Uint64(), i)
		r.flared(&d)
		flat, err := unroll.Unroll(d.Band)
		if err != nil {
			continue
		}
		r.tracedFields(&d)
		r.smallMargins(&d, flat)
		r.byHand(&d, flat)
		switch r.IntN(6) {
		case 0:
			d.Rules.CornerMM = 0
		case 1:
			d.Rules.CornerMM = r.tiny()
		}
		d.Name = fmt.Sprintf("odd %d of seed %d", i, seed)
		if d.Check() == nil {
			return d, true
		}
	}
	return pattern.Design{}, false
}

// tiny returns a length of some micrometres, or 0.
func (r draw) tiny() float64 {
	if r.chance(0.3) {
		return 0
	}
	return math.Round(1e6*math.Pow(10, -4+2*r.Float64())) / 1e6 // 0.0001 to 0.01
}

// flared gives some bands a strong flare, or few repeats.
func (r draw) flared(d *pattern.Design) {
	b := &d.Band
	if b.Inside.By == unroll.ByCircumference && r.chance(0.5) && b.Dome == "" && !b.Seamless() {
		b.FlareDeg = r.in(-45, 45)
	}
	if r.chance(0.2) {
		f := &d.Fields[0]
		f.Rows, f.Repeats, f.PitchMM = 1+r.IntN(2), 1+r.IntN(5), 0
	}
}

// traced returns a closed curve as others' programs write it, in chords: an oval, or one
// with lobes.
func (r draw) traced() string {
	n := 12 + r.IntN(100)
	if r.chance(0.2) {
		n = 360
	}
	a, b := r.in(1, 12), r.in(1, 12)
	lobes, deep := float64(2+r.IntN(6)), 0.0
	if r.chance(0.5) {
		deep = 0.4 * r.Float64()
	}
	digits := 2 + r.IntN(5)
	var path strings.Builder
	for i := range n {
		t := 2 * math.Pi * float64(i) / float64(n)
		q := 1 + deep*math.Cos(lobes*t)
		fmt.Fprintf(&path, "%c%.*f %.*f", "ML"[min(i, 1)], digits, a*q*math.Cos(t), digits, b*q*math.Sin(t))
	}
	return path.String() + "Z"
}

// tracedFields gives some fields a motif traced in chords.
func (r draw) tracedFields(d *pattern.Design) {
	for i := range d.Fields {
		if r.chance(0.15) {
			d.Fields[i].Motif, d.Fields[i].Path, d.Fields[i].Numbers = motif.OwnKey, r.traced(), nil
		}
	}
}

// somewhere returns a place on the blank.
func (r draw) somewhere(f unroll.Flat) pattern.Spot {
	return pattern.Spot{XMM: r.in(-f.Length/2, f.Length/2), YMM: r.in(-f.Width/2, f.Width/2)}
}

// smallMargins adds reserves that openings come next to, turned by any angle, and takes
// the margins of others away.
func (r draw) smallMargins(d *pattern.Design, flat unroll.Flat) {
	for i := range d.Reserves {
		if r.chance(0.5) {
			d.Reserves[i].MarginMM = r.tiny()
		}
	}
	for range r.IntN(3) {
		at := r.somewhere(flat)
		v := pattern.Reserve{Shape: pattern.RectangleShape, XMM: at.XMM, YMM: at.YMM, WidthMM: r.in(1, 12), HeightMM: r.in(1, 8), MarginMM: r.tiny(), RotationDeg: r.in(-180, 180)}
		if r.chance(0.6) {
			v.Shape, v.Path = pattern.PathShape, closedPaths[r.IntN(len(closedPaths))]
			if r.chance(0.3) {
				v.Path = r.traced()
			}
		}
		d.Reserves = append(d.Reserves, v)
	}
}

// byHand adds edits of every kind: slots and other shapes among them.
func (r draw) byHand(d *pattern.Design, flat unroll.Flat) {
	for range r.IntN(5) {
		e := pattern.Edit{At: []pattern.Spot{r.somewhere(flat)}}
		for range r.IntN(3) {
			e.At = append(e.At, r.somewhere(flat))
		}
		if r.chance(0.2) {
			e.Mirror = []string{pattern.MirrorAlong, pattern.MirrorAcross, pattern.MirrorBoth}[r.IntN(3)]
		}
		switch r.IntN(5) {
		case 4:
			e.Do = pattern.Tie
			e.SpanXMM, e.SpanYMM = r.in(-30, 30), r.in(-20, 20)
			if r.chance(0.5) {
				e.BowMM = 0.45 * r.in(-1, 1) * math.Hypot(e.SpanXMM, e.SpanYMM)
			}
			if r.chance(0.6) {
				e.WidthMM = r.in(0.1, 6)
			}
		case 0:
			e.Do = pattern.LeaveSolid
		case 1:
			e.Do = pattern.Change
			e.MoveXMM, e.MoveYMM, e.RotationDeg = r.in(-3, 3), r.in(-3, 3), r.in(-180, 180)
			if r.chance(0.5) {
				e.Scale = r.in(0.3, 2)
			}
		default:
			e.Do = []string{pattern.Replace, pattern.Add}[r.IntN(2)]
			e.RotationDeg, e.WidthMM = r.in(-180, 180), r.in(0.5, 12)
			switch r.IntN(4) {
			case 0:
				e.Shape = pattern.CircleShape
				e.RotationDeg = 0
			case 1:
				e.Shape, e.HeightMM = pattern.RectangleShape, r.in(0.3, 3) // a slot
			case 2:
				e.Shape, e.HeightMM = pattern.OvalShape, r.in(0.5, 8)
			case 3:
				e.Shape, e.WidthMM, e.Path = pattern.PathShape, 0, r.traced()
			}
		}
		d.Edits = append(d.Edits, e)
	}
}

// options draws what a shop may ask for. Plain ones ask for nothing that a part may have
// no room for.
func (r draw) options(plain bool) export.Options {
	o := export.Options{Curves: export.AllCurves()[r.IntN(3)]}
	if r.chance(0.3) {
		o.ChordMM = math.Round(1e4*math.Pow(10, -2.39+1.39*r.Float64())) / 1e4 // 0.004 to 0.1
	}
	if r.chance(0.5) {
		o.LeadMM = r.in(0.01, 2)
	}
	if plain {
		return o
	}
	o.KerfMM = math.Round(1000*0.3*r.Float64()) / 1000
	if r.chance(0.3) {
		o.Copies = 1 + r.IntN(3)
	}
	if r.chance(0.3) {
		o.Tabs, o.TabMM = r.IntN(5), r.in(0.1, 0.6)
	}
	return o
}

// optionsOf draws what is asked for of design i.
func optionsOf(seed uint64, i int, plain bool) export.Options {
	return draw{rand.New(rand.NewPCG(seed, 0x61736b<<32+uint64(i))), 0}.options(plain)
}
