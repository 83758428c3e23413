package sample

import (
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Cuff is a cuff laid by hand: a rectangle with rounded ends and six openings
// of every kind of edge: circles, a triangle, a rounded triangle, a slot, a lens.
// The figures are summed here, not by the code that is tested.
func Cuff() (*pattern.Sheet, *check.Report) {
	outline := plane.Loop{
		{Point: plane.Pt(-57, -12)}, {Point: plane.Pt(57, -12), Bulge: Quarter},
		{Point: plane.Pt(60, -9)}, {Point: plane.Pt(60, 9), Bulge: Quarter},
		{Point: plane.Pt(57, 12)}, {Point: plane.Pt(-57, 12), Bulge: Quarter},
		{Point: plane.Pt(-60, 9)}, {Point: plane.Pt(-60, -9), Bulge: Quarter},
	}
	loops := []plane.Loop{
		plane.Circle(plane.Pt(-45, 1.0/3), 5),
		plane.Circle(plane.Pt(-30.1, 0), 0.6),
		plane.Polygon(plane.Pt(-20, -5), plane.Pt(-8, -5), plane.Pt(-14, 6)),
		RoundedTriangle().Move(plane.Pt(5, -3)),
		// A slot 10 long and 2 wide: 19.14159265 mm2 (TRADE-FACTS 16, case 14).
		{{Point: plane.Pt(18, -1)}, {Point: plane.Pt(26, -1), Bulge: 1}, {Point: plane.Pt(26, 1)}, {Point: plane.Pt(18, 1), Bulge: 1}},
		// A lens and more than half a circle: bulges 0.5 and 1.7.
		{{Point: plane.Pt(40, -4), Bulge: 0.5}, {Point: plane.Pt(40, 4), Bulge: 1.7}},
	}
	s := &pattern.Sheet{
		Design: pattern.Design{
			Name: "Gull <Rock> cuff & é",
			Band: unroll.Band{Kind: unroll.Cuff},
		},
		Flat:     unroll.Flat{Length: 120, Width: 24, Thickness: 1.2, Outline: outline, GapInner: 25},
		Rule:     1,
		EdgeRule: 1.5,
		Reserves: []pattern.Reserved{{Loop: plane.Circle(plane.Pt(10.5, 6), 2)}},
	}
	s.Design.Reserves = []pattern.Reserve{{Shape: pattern.CircleShape, XMM: 10.5, YMM: 6, WidthMM: 4, Note: "seat"}}
	r := &check.Report{
		Alloy: check.Alloy{Key: "own", Name: "Invented metal"}, Density: 10.36, Plain: 35, Removed: 4, Left: 31, OpenShare: 0.1,
		BlankArea: outline.Area(), BlankLen: 120, BlankWidth: 24, Thickness: 1.2,
		Openings: len(loops), Rule: 1, EdgeRule: 1.5, Pieces: 1,
		Thinnest: check.Bridge{Width: 1.25, Rule: 1, A: plane.Pt(-8, -1), B: plane.Pt(-6.75, -1), From: 3, To: 4},
		Blade:    check.Blade{Size: "2/0", ThickMM: 0.26, WidthMM: 0.52, PilotMM: 0.6, Drill: "drill 0.6 mm"},
		Findings: []check.Finding{{Kind: check.Kind{Key: "corner", Title: "corner"}, Severity: check.Caution, What: "Opening 3 has sharp corners.", Mend: "Set a corner radius."}},
	}
	for i, l := range loops {
		s.Openings = append(s.Openings, pattern.Opening{Number: i + 1, Loop: l, Shape: -1, At: l.Centroid()})
		r.CutArea += l.Area()
		r.OpenLength += l.Len()
	}
	r.CutLength = r.OpenLength + outline.Len()
	return s, r
}

// Quarter is the bulge of a Quarter of a circle, tan(90/4 degrees) (TRADE-FACTS
// 12, ezdxf's tests).
const Quarter = 0.41421356237309503

// RoundedTriangle is equilateral with side 6 and corners of radius 0.5: area
// 15.07481733 mm2 (TRADE-FACTS 16, case 16).
func RoundedTriangle() plane.Loop {
	const third = 0.5773502691896257 // tan(120/4 degrees)
	const cut = 0.8660254037844386   // 0.5 / tan(30 degrees), from a corner to the arc
	var l plane.Loop
	for i := range 3 {
		a, b := corner(i), corner(i+1)
		u := b.Sub(a).Unit()
		l = append(l,
			plane.Vertex{Point: a.Add(u.Mul(cut))},
			plane.Vertex{Point: b.Sub(u.Mul(cut)), Bulge: third})
	}
	return l
}

func corner(i int) plane.Point {
	return plane.Pt(0, 2*1.7320508075688772).Turn(float64(i) * 2.0943951023931953)
}
