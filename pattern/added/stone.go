package added

import (
	"math"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// Cut is the shape of a stone: its outline seen from above and how heavy it is.
type Cut struct {
	Key, Name string
	// Even reports whether it is as wide as long: it has one size.
	Even bool
	// Domed reports whether it is a cabochon, with a flat back.
	Domed bool

	// k is carats per mm^3 and unit of specific gravity, of length x width x depth, or of the
	// square of the mean of length and width x depth if mean is set.
	k    float64
	mean bool
	// diamond returns carats per mm^3 of a diamond of that length to width, specific gravity in
	// it; nil where the general formula is used.
	diamond func(ratio float64) float64
	cleft   bool // it is not convex
	outline func(l, w float64) plane.Loop
}

// Cuts lists the cuts with the factors of their weights. These are those of the International
// Gem Society's "Estimating gem weights" and Dendritics' tables; those of diamonds of a1-diamond's
// table, whose values for the lengths of marquises and pears in between are interpolated by us.
// Such estimates are a few hundredths off: a stone with a bulging girdle weighs 2 to 6 % more
// (Gempulse).
func Cuts() []Cut {
	return []Cut{
		{Key: "round", Name: "Round", Even: true, k: 0.0018, mean: true, diamond: fixed(0.0061), outline: ellipse},
		{Key: "oval", Name: "Oval", k: 0.0020, mean: true, diamond: fixed(0.0062), outline: ellipse},
		{Key: "square", Name: "Square", Even: true, k: 0.0026, outline: box},
		{Key: "rectangle", Name: "Rectangle", k: 0.0026, outline: box},
		{Key: "cushion", Name: "Square cushion", Even: true, k: 0.0018, mean: true, outline: cushion},
		{Key: "long-cushion", Name: "Long cushion", k: 0.0022, mean: true, outline: cushion},
		{Key: "emerald", Name: "Emerald cut", k: 0.0025, diamond: between([]float64{1, 0.0080, 1.5, 0.0092, 2, 0.0100, 2.5, 0.0106}), outline: emerald},
		{Key: "marquise", Name: "Marquise", k: 0.0017, diamond: between([]float64{1.5, 0.00565, 3, 0.00595}), outline: marquise},
		{Key: "pear", Name: "Pear", k: 0.0018, diamond: between([]float64{1.25, 0.00615, 2, 0.00575}), outline: pear},
		{Key: "heart", Name: "Heart", k: 0.0021, cleft: true, outline: heart},
		{Key: "cabochon", Name: "Oval cabochon", Domed: true, k: 0.0027, outline: ellipse},
		{Key: "round-cabochon", Name: "Round cabochon", Even: true, Domed: true, k: 0.0027, outline: ellipse},
	}
}

// CutOf returns the cut of a key, and whether there is one.
func CutOf(key string) (Cut, bool) {
	for _, c := range Cuts() {
		if c.Key == key {
			return c, true
		}
	}
	return Cut{}, false
}

// Carats returns about how heavy a stone is, ct: its length, width and depth in mm.
func (c Cut) Carats(g Gem, length, width, depth float64) float64 {
	if c.Even {
		width = length
	}
	l, w := math.Max(length, width), math.Min(length, width)
	size := l * w
	if c.mean {
		size = (l + w) / 2 * (l + w) / 2
	}
	if g.Key == Diamond && c.diamond != nil {
		return c.diamond(l/w) * size * depth
	}
	return c.k * g.Gravity * size * depth
}

// Outline returns the stone's girdle seen from above about its middle, its length along x.
func (c Cut) Outline(length, width float64) plane.Loop {
	if c.Even {
		width = length
	}
	return c.outline(length, width)
}

// Girdle returns the area, mm^2, and the perimeter, mm, of the girdle: of a round or oval one
// exact, not those of fitted arcs.
func (c Cut) Girdle(length, width float64) (area, perimeter float64) {
	if c.Even {
		width = length
	}
	switch c.Key {
	case "round", "oval", "cabochon", "round-cabochon":
		o := unroll.Oval{A: length / 2, B: width / 2}
		return math.Pi * o.A * o.B, o.Circumference()
	}
	l := c.outline(length, width)
	return l.Area(), l.Len()
}

// Strip returns the length of the strip of a bezel round the stone for a wall so thick, mm: of
// a heart its true middle line, which spans the cleft, else [BezelStrip].
func (c Cut) Strip(length, width, wall float64) float64 {
	if c.cleft {
		return c.outline(length, width).Outset(wall / 2)[0].Len()
	}
	_, around := c.Girdle(length, width)
	return BezelStrip(around, wall)
}

// Base returns the area of the plate under the bezel, mm^2, as [BezelBase].
func (c Cut) Base(length, width, wall float64) float64 {
	if c.cleft {
		return plane.Region(c.outline(length, width).Outset(wall)).Area()
	}
	area, around := c.Girdle(length, width)
	return BezelBase(area, around, wall)
}

func fixed(k float64) func(float64) float64 { return func(float64) float64 { return k } }

// between goes in straight lines through pairs of a ratio and a factor, and level beyond.
func between(at []float64) func(float64) float64 {
	return func(r float64) float64 {
		for i := 2; i < len(at); i += 2 {
			if r < at[i] {
				u := math.Max(0, (r-at[i-2])/(at[i]-at[i-2]))
				return at[i-1] + u*(at[i+1]-at[i-1])
			}
		}
		return at[len(at)-1]
	}
}

func ellipse(l, w float64) plane.Loop {
	if l == w {
		return plane.Circle(plane.Point{}, l/2)
	}
	a, b := l/2, w/2
	run := plane.Curve(func(t float64) (plane.Point, plane.Point) {
		sin, cos := math.Sincos(t)
		return plane.Pt(a*cos, b*sin), plane.Pt(-a*sin, b*cos)
	}).Inward(-plane.FitTolerance / 2) // arcs nowhere inside of it
	var out plane.Loop
	for q := range 4 {
		out = append(out, plane.FitArcs(run, float64(q)*math.Pi/2, float64(q+1)*math.Pi/2, plane.FitTolerance/2).Loop()...)
	}
	return out
}

func box(l, w float64) plane.Loop {
	h := plane.Pt(l/2, w/2)
	return plane.Rect(plane.Box{Min: h.Mul(-1), Max: h})
}

// cushion has corners rounded to a quarter of its width: ours, they differ from cutter to
// cutter.
func cushion(l, w float64) plane.Loop {
	r := math.Min(l, w) / 4
	return plane.Region(box(l, w).Inset(r)).Offset(r)[0]
}

// emerald has corners cut off at a sixth of its width: ours, they differ from cutter to cutter.
func emerald(l, w float64) plane.Loop {
	a, b, c := l/2, w/2, math.Min(l, w)/6
	return plane.Polygon(plane.Pt(a, -b+c), plane.Pt(a, b-c), plane.Pt(a-c, b), plane.Pt(-a+c, b),
		plane.Pt(-a, b-c), plane.Pt(-a, -b+c), plane.Pt(-a+c, -b), plane.Pt(a-c, -b))
}

// marquise is two arcs from point to point.
func marquise(l, w float64) plane.Loop {
	a, b := plane.Pt(l/2, 0), plane.Pt(-l/2, 0)
	k := math.Min(1, w/l)
	return plane.Loop{{Point: a, Bulge: k}, {Point: b, Bulge: k}}
}

// pear is a half circle and two arcs that run on from it to the point, which lies to the
// right.
func pear(l, w float64) plane.Loop {
	r := w / 2
	c := plane.Pt(-l/2+r, 0) // of the half circle
	tip := plane.Pt(l/2, 0)
	top, bottom := c.Add(plane.Pt(0, r)), c.Sub(plane.Pt(0, r))
	// An arc that leaves along the band and comes to the point turns by twice the angle of
	// its chord.
	k := math.Tan(math.Atan2(r, tip.X-c.X) / 2)
	return plane.Loop{{Point: top, Bulge: 1}, {Point: bottom, Bulge: k}, {Point: tip, Bulge: k}}
}

// heart is two half circles side by side and two arcs to the point, which lies to the right.
func heart(l, w float64) plane.Loop {
	r := w / 4
	x := -l/2 + r
	tip := plane.Pt(l/2, 0)
	k := math.Tan(math.Atan2(w/2, tip.X-x) / 2)
	return plane.Loop{
		{Point: plane.Pt(x, w/2), Bulge: 1}, {Point: plane.Pt(x, 0), Bulge: 1},
		{Point: plane.Pt(x, -w/2), Bulge: k}, {Point: tip, Bulge: k},
	}
}
