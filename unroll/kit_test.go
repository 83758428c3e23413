package unroll

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The bands that tests share.

// forms are plain bands: ellipses and tapers, whose course is a neutralLine.
func forms() map[string]Band {
	return map[string]Band{
		"oval cuff":      cuff(60, 48, 25, 1.2),
		"standing cuff":  cuff(48, 60, 20, 1.2),
		"narrow cuff":    cuff(120, 30, 20, 2),
		"closed cuff":    cuff(60, 48, 0, 1.2),
		"oval bangle":    closed(Bangle, 62, 54, 1.5),
		"round bangle":   closed(Bangle, 63.5, 63.5, 1.5),
		"ring":           closed(Ring, 17.2, 17.2, 1.4),
		"least ring":     closed(Ring, 8, 8, 6),
		"tapering cuff":  tapered(cuff(60, 48, 25, 1.2), 30, 22),
		"flaring bangle": tapered(closed(Bangle, 62, 54, 1.5), 12, 20),
	}
}

func cuff(w, h, gap, t float64) Band {
	return Band{Kind: Cuff, Inside: Inside{By: ByAxes, WidthMM: w, HeightMM: h}, GapMM: gap,
		Thickness: Thickness{MM: t}, WidthMM: 25, EndWidthMM: 25, NeutralK: 0.5}
}

func closed(kind string, w, h, t float64) Band {
	return Band{Kind: kind, Inside: Inside{By: ByAxes, WidthMM: w, HeightMM: h},
		Thickness: Thickness{MM: t}, WidthMM: 8, EndWidthMM: 8, Joint: Soldered, JointMM: 3, NeutralK: 0.5}
}

func tapered(b Band, mid, end float64) Band {
	b.WidthMM, b.EndWidthMM = mid, end
	return b
}

func unroll(t testing.TB, b Band) Flat {
	t.Helper()
	f, err := Unroll(b)
	require.NoError(t, err)
	return f
}

// with returns the band changed.
func with(b Band, change func(*Band)) Band {
	change(&b)
	return b
}

// dShape is an inside flat above and round below, by its numbers.
func dShape() []Piece {
	// Half the flat 20, corner arcs of 10 mm through 90 degrees, then a half
	// circle of 30 mm: 20 + 10 = 30.
	return []Piece{{LengthMM: 20}, {RadiusMM: 10, AngleDeg: 90}, {RadiusMM: 30, AngleDeg: 180}, {RadiusMM: 10, AngleDeg: 90}, {LengthMM: 20}}
}

// moreForms are bands of the forms beyond ellipse and taper.
func moreForms() map[string]Band {
	c, r := cuff(60, 48, 25, 1.2), closed(Ring, 18, 18, 1.4)
	bangle := closed(Bangle, 63.5, 63.5, 1.5)
	profile := func(b *Band) { b.Inside = Inside{By: ByProfile, Profile: dShape()} }
	return map[string]Band{
		"straight sides, lying":   with(c, func(b *Band) { b.Inside.By = BySides }),
		"straight sides, upright": with(closed(Bangle, 50, 62, 1.5), func(b *Band) { b.Inside.By = BySides }),
		"straight sides, round":   with(bangle, func(b *Band) { b.Inside.By = BySides }),
		"profile cuff":            with(c, profile),
		"profile bangle":          with(bangle, profile),
		"profile with a hollow": with(bangle, func(b *Band) {
			// Two bows of 25 mm joined by hollow arcs: a waisted inside.
			a := 100.0
			b.Inside = Inside{By: ByProfile, Profile: waisted(22, 40, a)}
		}),
		"gap by share":         with(c, func(b *Band) { b.GapMM, b.GapShare = 0, 0.16 }),
		"swelling cuff":        with(tapered(c, 30, 14), func(b *Band) { b.SwellLengthMM = 60 }),
		"swelling ring":        with(tapered(r, 10, 4), func(b *Band) { b.SwellLengthMM = 20 }),
		"waved cuff":           with(c, func(b *Band) { b.TopEdge = waves(); b.BottomEdge = waves()[:2] }),
		"waved bangle":         with(bangle, func(b *Band) { b.WidthMM, b.EndWidthMM = 14, 14; b.TopEdge = waves() }),
		"round ends":           with(tapered(c, 25, 18), func(b *Band) { b.EndShape = RoundEnd }),
		"round ends, widening": with(tapered(c, 18, 25), func(b *Band) { b.EndShape = RoundEnd }),
		"pointed ends":         with(c, func(b *Band) { b.EndShape, b.EndLengthMM, b.EndRadiusMM = PointEnd, 20, 1 }),
		"waved and pointed": with(c, func(b *Band) {
			b.TopEdge, b.EndShape, b.EndLengthMM, b.EndRadiusMM = waves(), PointEnd, 24, 1.5
		}),
		"flared cuff":           with(cuff(60, 60, 25, 1.2), func(b *Band) { b.FlareDeg = 12; b.EndCornerMM = 5 }),
		"flared cuff, downward": with(cuff(60, 60, 25, 1.2), func(b *Band) { b.FlareDeg = -20; b.EndShape = RoundEnd }),
		"flared bangle":         with(bangle, func(b *Band) { b.FlareDeg = 30 }),
		"flared ring":           with(r, func(b *Band) { b.FlareDeg = 0.5 }),
		"flared tapering cuff":  with(tapered(cuff(60, 60, 25, 1.2), 25, 15), func(b *Band) { b.FlareDeg = 8; b.EndShape = PointEnd; b.EndLengthMM = 15; b.EndRadiusMM = 1 }),
		"flared by its edges": with(closed(Bangle, 60, 60, 1.2), func(b *Band) {
			b.WidthMM, b.EndWidthMM = 25, 25
			b.Inside = Inside{By: ByEdges, TopMM: 200, BottomMM: 180}
		}),
		"barrel": with(bangle, func(b *Band) {
			b.WidthMM, b.EndWidthMM = 20, 20
			b.Dome, b.DomeRadiusMM, b.DomeFlat = Outward, 30, ArcLength
		}),
		"barrel, equal": with(bangle, func(b *Band) {
			b.WidthMM, b.EndWidthMM = 20, 20
			b.Dome, b.DomeRadiusMM, b.DomeFlat = Outward, 30, EqualArea
		}),
		"barrel, conformal": with(bangle, func(b *Band) {
			b.WidthMM, b.EndWidthMM = 20, 20
			b.Dome, b.DomeRiseMM, b.DomeFlat = Outward, 2, Conformal
		}),
		"hollow ring":     with(r, func(b *Band) { b.Dome, b.DomeRadiusMM, b.DomeFlat = Hollow, 12, Conformal }),
		"domed oval cuff": with(tapered(c, 25, 18), func(b *Band) { b.Dome, b.DomeRadiusMM, b.DomeFlat, b.EndCornerMM = Outward, 40, EqualArea, 4 }),
		"formed, inner":   with(c, func(b *Band) { b.Making, b.Drawn = Formed, InnerFace }),
		"formed, outer":   with(c, func(b *Band) { b.Making, b.Drawn = Formed, OuterFace }),
		"formed, flared":  with(bangle, func(b *Band) { b.FlareDeg = 10; b.Making, b.Drawn = Formed, OuterFace }),
		"formed, domed": with(bangle, func(b *Band) {
			b.Dome, b.DomeRadiusMM, b.DomeFlat = Hollow, 20, EqualArea
			b.Making, b.Drawn = Formed, InnerFace
		}),
	}
}

// everyForm is all of them.
func everyForm() map[string]Band {
	all := forms()
	for name, b := range moreForms() {
		all[name] = b
	}
	return all
}

func waves() []EdgePoint {
	return []EdgePoint{{-0.8, 1}, {-0.3, -1.5}, {0.1, 3}, {0.6, 0}}
}

// waisted is a closed profile of two large bows and two hollow arcs, each bow
// through angle a + 80, symmetric about both axes.
func waisted(big, hollow, a float64) []Piece {
	// A quarter: half a hollow of -(a-90) degrees at the top, then half a bow of a.
	return []Piece{
		{RadiusMM: hollow, AngleDeg: -(a - 90)}, {RadiusMM: big, AngleDeg: 2 * a},
		{RadiusMM: hollow, AngleDeg: -2 * (a - 90)}, {RadiusMM: big, AngleDeg: 2 * a}, {RadiusMM: hollow, AngleDeg: -(a - 90)},
	}
}
