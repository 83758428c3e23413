package pattern

import (
	"math"
	"testing"

	"fretband/pattern/motif"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// taperedCuff is a cuff whose cells follow the width.
func taperedCuff(motif string) Design {
	return Design{
		Name: "test", Metal: Metal{Alloy: "copper"},
		Band: unroll.Band{
			Kind: unroll.Cuff, Inside: unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 180, Ratio: 1}, GapMM: 28,
			Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 30, EndWidthMM: 18, NeutralK: 0.5,
		},
		Rules:  DesignRules{BridgeMM: 1.2, RimMM: 2},
		Fields: []Field{{Motif: motif, Rows: 3, Repeats: 16, Stagger: 0.5, Follow: FollowWidth}},
	}
}

// warpOf returns the warp and the tiling that Lay uses for the design.
func warpOf(t *testing.T, d Design) (*warp, motif.Tiling) {
	t.Helper()
	flat, err := unroll.Unroll(d.Band)
	if err != nil {
		t.Fatal(err)
	}
	s := &Sheet{Design: d, Flat: flat, Rule: d.Rules.BridgeMM, EdgeRule: d.Rules.RimMM}
	bottom, top := flat.Extent()
	m, _ := motif.ByKey(d.Fields[0].Motif)
	f := motif.Frame{
		W: flat.Length - 2*s.EdgeRule + s.Rule, H: top - bottom - 2*s.EdgeRule + s.Rule,
		Rows: d.Fields[0].Rows, Repeats: d.Fields[0].Repeats, Stagger: d.Fields[0].Stagger,
		Number: func(key string) float64 { return m.Number(d.Fields[0].Numbers, key) },
	}
	w := newWarp(s, d.Fields[0], f)
	if w == nil {
		t.Fatal("the design needs no warp")
	}
	return w, m.Cells(f)
}

// The fitted image of a cell against the map itself at many places, both ways; and
// a cell that is taken from its mirror image or turned one against its own.
func TestWarpedCellsAreTheImagesOfTheirCells(t *testing.T) {
	flared := taperedCuff("triangles")
	flared.Band.FlareDeg = 20
	rigid := flared
	rigid.Fields = []Field{flared.Fields[0]}
	rigid.Fields[0].Follow = ""
	for name, d := range map[string]Design{"tapered": taperedCuff("scallops"), "flared": flared, "flared, clipped": rigid} {
		w, tiling := warpOf(t, d)
		poses, models := w.poses(tiling)
		if len(models) > len(poses)*6/10 { // halves, and the middle column
			t.Errorf("%s: %d cells are worked out for %d places: nothing is shared", name, len(models), len(poses))
		}
		for i, p := range tiling.Cells {
			if i%5 != 0 {
				continue
			}
			cell := tiling.Shapes[p.Shape].Move(p.At)
			image := w.posed(w.cell(models[poses[i].like]), poses[i])
			if err := image.Check(); err != nil || image.Area() <= 0 {
				t.Fatalf("%s: cell %d: %v, area %g", name, i, err, image.Area())
			}
			area := 0.0
			var last, first plane.Point
			for j := range cell {
				for k := range 20 {
					q, _ := w.at(cell.Edge(j).At(float64(k)/20), plane.Pt(1, 0))
					if d := image.Nearest(q).D; d > 1.1*fitSlack {
						t.Fatalf("%s: cell %d is %.6f mm off its true edge", name, i, d)
					}
					if j == 0 && k == 0 {
						first = q
					} else {
						area += last.Cross(q) / 2
					}
					last = q
				}
			}
			area += last.Cross(first) / 2
			if math.Abs(area-image.Area()) > image.Len()*fitSlack+0.004*area {
				t.Errorf("%s: cell %d has the area %.4f, its true image %.4f", name, i, image.Area(), area)
			}
		}
	}
}

// The direction that the warp gives for a line is that of its image.
func TestTheWarpsDirectionsAreThoseOfItsPlaces(t *testing.T) {
	d := taperedCuff("triangles")
	d.Band.FlareDeg = -15
	d.Band.TopEdge = []unroll.EdgePoint{{At: -0.4, OutMM: 0}, {At: 0.2, OutMM: 3}, {At: 0.8, OutMM: 0}}
	w, _ := warpOf(t, d)
	const h = 1e-5
	for _, q := range []plane.Point{{X: 3, Y: 2}, {X: -41, Y: -7}, {X: 60, Y: 5}} {
		for _, dir := range []plane.Point{{X: 1}, {Y: 1}, {X: 0.6, Y: -0.8}} {
			_, got := w.at(q, dir)
			a, _ := w.at(q.Sub(dir.Mul(h)), dir)
			b, _ := w.at(q.Add(dir.Mul(h)), dir)
			if want := b.Sub(a).Mul(1 / (2 * h)); want.Dist(got) > 1e-5 {
				t.Errorf("at %v along %v: %v, differences give %v", q, dir, got, want)
			}
		}
	}
}

// Rows that follow the width reach both rims all along, so more is cut at the
// narrow ends, and the outer openings stand on the rim.
func TestCellsThatFollowTheWidthKeepTheirRows(t *testing.T) {
	d := taperedCuff("triangles")
	s, err := Lay(d)
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range s.Openings {
		c := o.Box.Centre()
		if math.Abs(c.X) > s.Flat.Length/2-6 {
			continue // the ends cut them
		}
		bottom, top := s.Flat.EdgesAt(c.X)
		row := int((top - c.Y) / ((top - bottom) / 3))
		if row != o.Row {
			t.Errorf("opening %d of row %d stands in third %d of the width", o.Number, o.Row, row)
		}
	}
	if n := len(s.Openings); n < 3*2*15 {
		t.Errorf("only %d openings", n)
	}
	d.Band.EndWidthMM = d.Band.WidthMM
	even, err := Lay(d)
	if err != nil {
		t.Fatal(err)
	}
	d.Fields[0].Follow = FollowClip
	clip, _ := Lay(d)
	if len(even.Openings) != len(clip.Openings) || even.Openings[7].Loop.Area() != clip.Openings[7].Loop.Area() {
		t.Error("on a band of one width there is nothing to follow")
	}
}

// The short way of working a cell out against the long one.
func TestACellThatNothingCutsIsTheSameWorkedOutTheShortWay(t *testing.T) {
	short := 0
	for _, motif := range motif.All() {
		for _, flare := range []float64{0, 15} {
			d := taperedCuff(motif.Key)
			d.Band.FlareDeg = flare
			w, tiling := warpOf(t, d)
			c := &cutter{rule: 1.2, corner: 0.3, smallest: 1}
			_, models := w.poses(tiling)
			for i := 0; i < len(models); i += 7 {
				image := w.cell(models[i])
				a, ok := c.clearCell(image, c.rule/2+fitSlack)
				if !ok {
					continue
				}
				short++
				b := c.blankCell(image, c.rule/2+fitSlack)
				if len(b.whole) != 1 || len(b.not) != 0 {
					t.Errorf("%s: the long way makes %d openings and drops %v", motif.Key, len(b.whole), b.not)
					continue
				}
				for j := range a.whole[0] {
					if g := b.whole[0].Nearest(a.whole[0].Edge(j).Mid()); g.D > 1e-7 {
						t.Errorf("%s: the two ways differ by %g mm", motif.Key, g.D)
						break
					}
				}
			}
		}
	}
	if short < 200 {
		t.Errorf("the short way was taken only %d times", short)
	}
}

func TestCellsThatGoRoundTheBandKeepTheRuleFromTheirCopies(t *testing.T) {
	d := Design{
		Name: "test", Metal: Metal{Alloy: "copper"},
		Band: unroll.Band{
			Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 164, Ratio: 1},
			Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 50, EndWidthMM: 37, NeutralK: 0.5, Joint: unroll.Seamless,
			TopEdge:    []unroll.EdgePoint{{At: -0.58, OutMM: 13.96}, {At: 0.18, OutMM: 12.96}, {At: 0.82, OutMM: 0.5}},
			BottomEdge: []unroll.EdgePoint{{At: -0.87, OutMM: 4.49}, {At: 0.44, OutMM: 9.97}, {At: 0.75, OutMM: 0}},
		},
		Rules: DesignRules{BridgeMM: 1.23, SmallestMM: 0.4},
	}
	for _, motif := range []string{"chevrons", "waves", "squares"} {
		for repeats := 1; repeats <= 3; repeats++ {
			d.Fields = []Field{{Motif: motif, Rows: 9, Repeats: repeats, Follow: FollowWidth}}
			s, err := Lay(d)
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range s.Pairs(s.Rule - 1e-6) {
				t.Errorf("%s, %d repeats: openings %d and %d, %d times round: %.6f mm apart", motif, repeats, s.Openings[p.I].Number, s.Openings[p.J].Number, p.N, p.D)
			}
		}
	}
}

// Edges much longer than the swell of the band, as few large cells of a turned field have:
// wherever the bend lies between their ends the image follows the map, which is asked every
// tenth of a mm.
func TestTheImageOfALongEdgeFollowsAShortSwell(t *testing.T) {
	w, _ := warpOf(t, Design{
		Name: "swell",
		Band: unroll.Band{Kind: unroll.Bangle, Inside: unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 177, Ratio: 1.26},
			Thickness: unroll.Thickness{MM: 1.2}, WidthMM: 41, EndWidthMM: 22, SwellLengthMM: 31, Joint: unroll.Soldered, JointMM: 5, NeutralK: 0.5},
		Metal: Metal{Alloy: "copper"}, Rules: DesignRules{BridgeMM: 0.8, RimMM: 1.4},
		Fields: []Field{{Motif: "sails", Rows: 2, Repeats: 1, Follow: FollowWidth}},
	})
	for _, long := range []float64{10, 60, 170, 340} {
		for _, turn := range []float64{0.02, 0.1, 0.37, 0.8} {
			for _, from := range []float64{-1, -0.93, -0.5, 0, 0.3} {
				for _, bulge := range []float64{0, 0.02} {
					a := plane.Pt(from*long, 0).Turn(turn)
					b := a.Add(plane.Pt(long, 0).Turn(turn))
					cell := plane.Loop{{Point: a, Bulge: bulge}, {Point: b}, {Point: a.Mid(b).Add(plane.Pt(0, 4))}}
					image := w.cell(cell)
					run := curveOf(cell.Edge(0))
					edges, last := image.Edges(), 0
					for k := range int(10 * long) {
						p, _ := w.at(run(float64(k) / (10 * long)))
						near := false // mostly to the edge that the last place is near to
						for i := 0; i < len(edges) && !near; i++ {
							j := (last + i) % len(edges)
							if near = edges[j].Dist(p) <= 3*fitSlack; near {
								last = j
							}
						}
						if !near {
							t.Fatalf("%g mm long, turned by %g, from %g, bulge %g: %.6f mm off at %v", long, turn, from, bulge, image.Nearest(p).D, p)
						}
					}
				}
			}
		}
	}
}

// Between the places at which the course is worked out, middle, scale and their slopes are
// those of the edges at that place itself: half way between the rims' inner edges, at right
// angles to the slope, and as their distance is to the frame's height.
func TestTheCourseFollowsTheEdgesBetweenItsPlaces(t *testing.T) {
	d := taperedCuff("squares")
	d.Band.TopEdge = []unroll.EdgePoint{{At: -0.4, OutMM: 0}, {At: 0.2, OutMM: 3}, {At: 0.8, OutMM: 0}}
	for _, flare := range []float64{0, 12} {
		d.Band.FlareDeg = flare
		w, _ := warpOf(t, d)
		bottom, top := w.flat.Extent()
		h := top - bottom - 2*d.Rules.RimMM + d.Rules.BridgeMM
		in := d.Rules.RimMM - d.Rules.BridgeMM/2
		exact := func(u float64) (mid, scale float64) {
			b, t, bs, ts := w.flat.EdgeSlopes(u)
			b, t = b+in*math.Sqrt(1+bs*bs), t-in*math.Sqrt(1+ts*ts)
			return (b + t) / 2, (t - b) / h
		}
		for i := range 500 {
			u := w.flat.Length * (float64(i)/499 - 0.5) * 0.98
			mid, scale, dm, ds := w.width.at(u)
			m, s := exact(u)
			m1, s1 := exact(u + 1e-4)
			m0, s0 := exact(u - 1e-4)
			for what, v := range map[string][3]float64{
				"middle": {mid, m, 1e-4}, "scale": {scale, s, 1e-3}, "slope of the middle": {dm, (m1 - m0) / 2e-4, 2e-3}, "slope of the scale": {ds, (s1 - s0) / 2e-4, 2e-4},
			} {
				if math.Abs(v[0]-v[1]) > v[2] {
					t.Errorf("flare %g, %s at %.3f: %.6f, by the edges %.6f", flare, what, u, v[0], v[1])
				}
			}
		}
	}
}
