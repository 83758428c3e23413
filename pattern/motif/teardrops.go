package motif

import (
	"math"

	"fretband/unroll/plane"
)

var teardrops = Motif{
	Key:   "teardrops",
	Title: "Teardrops",
	What:  "Drops, point up and point down by turns, the point of one between the bellies of its neighbours. A finer tip has hollow flanks.",
	Usual: Proportions{0.9, 1.8, 0.5},
	Numbers: []Number{
		{"tip", "tip", "fineness", 1.6, 1, 3},
		{"size", "width", "of widest", 1, 0.2, 1},
	},
	Cells: func(f Frame) Tiling {
		var t Tiling
		a, h := f.Pitch(), f.H/float64(f.Rows)
		k := f.Number("tip")
		// The sum of the half widths of one drop and of one upside down at the
		// same height is greatest here; it has half a pitch. A drop wider than
		// four fifths of its height is none.
		both := greatest(func(q float64) float64 { return dropHalf(k, q) + dropHalf(k, 1-q) })
		one := greatest(func(q float64) float64 { return dropHalf(k, q) })
		w := math.Min(a/2/math.Max(both, one), 0.4*h/one) * f.Number("size")
		up := t.add(drop(k, w, h))
		down := t.add(t.Shapes[up].MirrorY())
		for r := -f.Over; r < f.Rows+f.Over; r++ {
			y := f.H/2 - (float64(r)+0.5)*h
			t.row(f, up, r, y, f.odd(r))
			t.row(f, down, r, y, f.odd(r)+0.5)
		}
		return t
	},
}

// dropHalf is half the width of a drop at the share q of its height below the
// tip. It is the teardrop curve x = cos t, y = sin t sin^m(t/2) (MathWorld,
// "Teardrop Curve"; memory) with q = sin^2(t/2) and k = (m+1)/2.
func dropHalf(k, q float64) float64 {
	return math.Pow(q, k) * math.Sqrt(1-q)
}

// drop returns a drop of height h, its tip above, w times as wide as [dropHalf].
func drop(k, w, h float64) plane.Loop {
	// From the middle of the belly (s = 0) to the tip (s = 1): with q = 1 - s^2
	// the curve has a direction all along.
	flank := func(s float64) (plane.Point, plane.Point) {
		q := 1 - s*s
		p := plane.Pt(w*math.Pow(q, k)*s, h/2-h*q)
		return p, plane.Pt(w*(math.Pow(q, k)-2*k*s*s*math.Pow(q, k-1)), 2*h*s)
	}
	// The radius at the bottom: x = w s, y = h s^2 there. The belly's sides are
	// flatter or, in a wide drop, rounder.
	tol := math.Min(plane.FitTolerance, math.Min(w*w/(2*h), w)/16)
	// Moved inwards, the flanks meet below the tip.
	inner := plane.Curve(flank).Inward(tol)
	end := 1 - largest(0.5, func(s float64) bool {
		p, _ := inner(1 - s)
		return p.X <= 0
	})
	right := plane.FitArcs(inner, 0, end, tol)
	right[0].A.X = 0
	right[len(right)-1].B.X = 0
	return symmetric(right)
}

// greatest returns the greatest value on 0 to 1 of a function with one or two
// humps.
func greatest(f func(float64) float64) float64 {
	const n = 64
	at, best := 0.0, math.Inf(-1)
	for i := range n + 1 {
		if v := f(float64(i) / n); v > best {
			at, best = float64(i)/n, v
		}
	}
	lo, hi := math.Max(0, at-1.0/n), math.Min(1, at+1.0/n)
	for range 60 {
		if a, b := lo+(hi-lo)/3, hi-(hi-lo)/3; f(a) < f(b) {
			lo = a
		} else {
			hi = b
		}
	}
	return math.Max(best, f((lo+hi)/2))
}
