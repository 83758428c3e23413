package main

import (
	"math"

	"fretband/pattern"
	"fretband/pattern/added"
)

// paths of areas and engravings, in commands that the judges read by themselves: M, L, C
// and Z, absolute.
var (
	closedPaths = []string{
		"M0 5C-6 1 -5 -5 0 -2C5 -5 6 1 0 5Z",
		"M-6 -3L6 -3L6 0L0 0L0 3L-6 3Z",
		"M-7 0L0 -2L7 0L0 2Z",
	}
	engravedPaths = []string{
		"M-8 0C-4 -6 4 6 8 0",
		"M-5 2L0 -2L5 2M-5 3L5 3",
		closedPaths[0],
	}
	engravedTexts = []string{"925", "Gull & Rock", "AVE 1898", "gjpqy", "No. 7 é"}
)

// reservedAndEngraved adds reserves of all other shapes, turned, in rows and over the
// seam, and engravings of every kind, some of which openings may run through.
func (r draw) reservedAndEngraved(d pattern.Design, length float64) pattern.Design {
	width := d.Band.WidthMM
	small := 1.0
	if d.Band.OnFinger() {
		small = 0.4
	}
	place := func() (x, y float64) { return r.in(-length/2, length/2), r.in(-width/3, width/3) }
	for range r.IntN(3) {
		v := pattern.Reserve{Shape: pattern.OvalShape, WidthMM: r.in(2, 14*small), HeightMM: r.in(0.5, 9*small), MarginMM: r.in(0, 1.5), RotationDeg: r.in(-180, 180)}
		v.XMM, v.YMM = place()
		switch r.IntN(4) {
		case 0:
			v.Shape = pattern.RectangleShape
		case 1:
			v.Shape, v.Path = pattern.PathShape, closedPaths[r.IntN(len(closedPaths))]
			if r.chance(0.5) {
				v.WidthMM, v.HeightMM = 0, 0
			}
		case 2:
			v.Shape, v.HeightMM = pattern.CircleShape, 0
		}
		if r.chance(0.6) {
			v.Count = 2 + r.IntN(6)
			if r.chance(0.5) {
				v.SpacingMM = r.in(3, 15)
			}
		}
		d.Reserves = append(d.Reserves, v)
	}
	for range r.IntN(4) {
		m := pattern.Engraving{Kind: pattern.LineEngraving, RotationDeg: r.in(-180, 180), MarginMM: r.in(0, 1.5)}
		m.XMM, m.YMM = place()
		if r.chance(0.2) {
			m.MarginMM = -1
		}
		switch r.IntN(3) {
		case 0:
			m.LengthMM = r.in(1, math.Min(60, length))
		case 1:
			m.Kind, m.Path = pattern.PathEngraving, engravedPaths[r.IntN(len(engravedPaths))]
		case 2:
			m.Kind, m.Text, m.HeightMM = pattern.TextEngraving, engravedTexts[r.IntN(len(engravedTexts))], r.in(0.8, 1+4*small)
		}
		if len(d.Engravings) == 2 { // without a number drawn: designs of a seed stay what they were
			m.Side = pattern.InsideFace
		}
		d.Engravings = append(d.Engravings, m)
	}
	if r.chance(0.4) {
		d.Added = r.added(place, small)
	}
	return d
}

// added are stones, wire and beads. On some bands they have no room; these are refused when they
// are laid.
func (r draw) added(place func() (x, y float64), small float64) []pattern.Added {
	var all []pattern.Added
	if r.chance(0.6) {
		all = append(all, pattern.Added{
			Kind: pattern.WirePart, Section: []string{"round", "half-round", "square"}[r.IntN(3)], WidthMM: r.in(0.3, 1.5),
			Row: []string{pattern.RowTop, pattern.RowBottom, pattern.RowBoth}[r.IntN(3)], MarginMM: r.in(0, 0.5),
		})
	}
	if r.chance(0.4) {
		all = append(all, pattern.Added{Kind: pattern.BeadsPart, Row: pattern.RowTop, WidthMM: r.in(0.8, 1.6), GapMM: r.in(0, 0.5), InsetMM: r.in(0, 2)})
	}
	for range r.IntN(3) {
		cuts := added.Cuts()
		c := cuts[r.IntN(len(cuts))]
		a := pattern.Added{
			Kind: pattern.StonePart, Cut: c.Key, Gem: "quartz", WidthMM: r.in(1.5, 2+4*small), DepthMM: r.in(0.5, 4), RotationDeg: r.in(-180, 180), MarginMM: r.in(0, 1),
		}
		if !c.Even {
			a.HeightMM = a.WidthMM * r.in(0.5, 1)
		}
		if r.chance(0.5) {
			a.Setting, a.WallMM, a.RiseMM = pattern.Bezel, 0.3, 2
		}
		if a.XMM, a.YMM = place(); r.chance(0.3) {
			a.Count, a.SpacingMM = 2+r.IntN(3), 2*a.WidthMM+2
		}
		all = append(all, a)
	}
	return all
}
