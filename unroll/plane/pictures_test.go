package plane

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var pictures = flag.String("pictures", "", "write pictures of tricky cases to this folder")

// TestPictures draws the tricky cases when asked:
//
//	go test ./unroll/plane -run Pictures -pictures /tmp/plane
//
// Grey is what goes in, red what comes out, blue a gap.
func TestPictures(t *testing.T) {
	ell := Polygon(Pt(0, 0), Pt(10, 0), Pt(10, 3), Pt(4, 3), Pt(4, 10), Pt(0, 10))
	bone := Loop{
		{Pt(0, 0), 0.8}, {Pt(4, 0), -0.05}, {Pt(9, 0), 0.8}, {Pt(13, 0), 0.8}, {Pt(9, 0.8), -0.05}, {Pt(4, 0.8), 0.8},
	}
	star := Loop{}
	for i := range 10 {
		a, r := math.Pi*float64(i)/5, 6.0
		if i%2 == 1 {
			r = 2.5
		}
		star = append(star, Vertex{Pt(r*math.Cos(a), r*math.Sin(a)), 0.15})
	}
	round := func(p Point) float64 { return math.Tan((2*math.Pi - 2*math.Atan2(p.Y, p.X)) / 4) }
	outer, inner := Pt(5, 0.6), Pt(3.6, 0.5)
	ring := Loop{{outer, round(outer)}, {Pt(5, -0.6), 0}, {Pt(3.6, -0.5), -round(inner)}, {inner, 0}}
	tip := Polygon(Pt(-4, -2), Pt(0.4, 0.3), Pt(-4, 2))
	ellipse := Curve(func(a float64) (Point, Point) {
		return Pt(8*math.Cos(a), 3*math.Sin(a)), Pt(-8*math.Sin(a), 3*math.Cos(a))
	})
	must := func(r Region, err error) Region {
		if err != nil {
			t.Error(err)
		}
		return r
	}
	var insets, stars Region
	for d := 0.3; d < 3; d += 0.3 {
		insets = append(insets, ell.Inset(d)...)
		stars = append(stars, star.Inset(d)...)
	}
	apart := Apart([]Region{{tip}, {tip.MirrorX()}}, 0.8, 0)
	thorn := Polygon(Pt(0, 0), Pt(6, 0), Pt(6, 1.4), Pt(10, 1.6), Pt(6, 1.8), Pt(6, 3), Pt(3, 1.5), Pt(0, 3))
	thorns := append(must(Region{thorn}.OffsetMitre(0.6, 2)), Region{thorn}.Offset(0.6)...)
	mixed := []Region{
		{Circle(Pt(0, 0), 2)}, {Circle(Pt(3.3, 0.6), 1.2)}, {Rect(Box{Pt(-1.5, 1.6), Pt(2, 4)})},
		{Polygon(Pt(-1.2, -1), Pt(-5, 0.4), Pt(-3.4, -3))}, {Loop{{Pt(-1, -2.6), 0.5}, {Pt(4, -1.2), 0.5}}},
		{star.Scale(0.35).Turn(0.2).Move(Pt(-3.6, 2.4))},
	}
	var laid, kept Region
	for i, r := range Apart(mixed, 0.5, 0) {
		laid, kept = append(laid, mixed[i]...), append(kept, r...)
	}
	plate := Region{Rect(laid.Bounds().Grow(0.6))}
	for _, l := range kept {
		plate = append(plate, l.Reverse())
	}
	fitted := Loop{}
	for _, e := range FitArcs(ellipse, 0, 2*math.Pi, FitTolerance) {
		fitted = append(fitted, Vertex{e.A, e.Bulge})
	}
	for _, c := range []struct {
		name    string
		in, out Region
		gaps    []Gap
	}{
		{"insets of an L until it vanishes", Region{ell}, insets, nil},
		{"insets of a star of arcs", Region{star}, stars, nil},
		{"a bone falls in two", Region{bone}, bone.Inset(0.6), nil},
		{"opened by a disc", Region{star}, Region{star}.Open(0.8), nil},
		{"closed by a disc", Region{star}, Region{star}.Close(0.8), nil},
		{"circles that touch, joined", Region{Circle(Pt(-2, 0), 2), Circle(Pt(2, 0), 2)}, must(Or(Region{Circle(Pt(-2, 0), 2)}, Region{Circle(Pt(2, 0), 2)})), nil},
		{"a disc on the same circle, taken off", Region{Circle(Point{}, 4)}, must(Not(Region{Circle(Point{}, 4)}, Region{{{Pt(4, 0), 1}, {Pt(-4, 0), 0}}})), nil},
		{"tips kept apart", Region{tip, tip.MirrorX()}, append(append(Region{}, apart[0]...), apart[1]...), nil},
		{"mixed openings kept apart", laid, kept, nil},
		{"the narrow places of a plate", plate, nil, plate.Necks(1.2)},
		{"outset with mitres and round", Region{thorn}, thorns, nil},
		{"the neck of an open ring", Region{ring}, nil, ring.Necks(3)},
		{"an ellipse as arcs, with their joints", Region{fitted}, joints(fitted), nil},
	} {
		if len(c.in) == 0 || len(c.out) == 0 && len(c.gaps) == 0 {
			t.Errorf("%s: nothing to draw", c.name)
		}
		if *pictures == "" {
			continue
		}
		if err := os.MkdirAll(*pictures, 0o755); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(*pictures, strings.ReplaceAll(c.name, " ", "-")+".svg")
		if err := os.WriteFile(file, []byte(picture(c.name, c.in, c.out, c.gaps)), 0o644); err != nil {
			t.Error(err)
		}
	}
}

// joints marks the vertices of a loop by small circles.
func joints(l Loop) (r Region) {
	for _, v := range l {
		r = append(r, Circle(v.Point, 0.08))
	}
	return r
}

// picture returns an SVG of the two regions and the gaps.
func picture(title string, in, out Region, gaps []Gap) string {
	box := in.Bounds().Union(out.Bounds()).Grow(1)
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%.0f" height="%.0f" viewBox="%g %g %g %g"><title>%s</title>`+"\n",
		40*box.W(), 40*box.H(), box.Min.X, -box.Max.Y, box.W(), box.H(), title)
	path := func(r Region, style string) {
		var d strings.Builder
		for _, l := range r {
			for i := range l {
				e := l.Edge(i)
				if i == 0 {
					fmt.Fprintf(&d, "M%.9g %.9g", e.A.X, -e.A.Y)
				}
				if e.IsLine() {
					fmt.Fprintf(&d, "L%.9g %.9g", e.B.X, -e.B.Y)
					continue
				}
				large, sweep := 0, 0
				if math.Abs(e.Bulge) > 1 {
					large = 1
				}
				if e.Bulge < 0 {
					sweep = 1
				}
				fmt.Fprintf(&d, "A%.9g %.9g 0 %d %d %.9g %.9g", e.Radius(), e.Radius(), large, sweep, e.B.X, -e.B.Y)
			}
			d.WriteString("Z")
		}
		fmt.Fprintf(&b, `<path d="%s" %s/>`+"\n", d.String(), style)
	}
	path(in, `fill="#ddd" stroke="#888" stroke-width="0.03"`)
	path(out, `fill="none" stroke="#b00" stroke-width="0.05"`)
	for _, g := range gaps {
		fmt.Fprintf(&b, `<path d="M%g %gL%g %g" stroke="#05a" stroke-width="0.08"/>`+"\n", g.A.X, -g.A.Y, g.B.X, -g.B.Y)
	}
	b.WriteString("</svg>\n")
	return b.String()
}
