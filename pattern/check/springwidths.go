package check

import (
	"math"
	"sort"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// SpringWidths returns, for each station of r.Net.X, the width of metal, mm, that
// carries bending along the band: what is left there, less what lies in the shade
// of openings. It is never more than r.Net.Net.
//
// Bending passes round an opening, so the metal just beyond its ends hardly takes
// part, and a slanting strut is softer than its section says. Each opening is
// therefore taken as longer than it is: by [shade] of its height at either end. That
// share is ours, fitted to six pierced strips bent by finite elements (cmd/judge/fe);
// it meets their stiffness within a twentieth and that of three others within a
// tenth, where the net section alone makes triangles and diamonds half as stiff again
// as they are. Long thin slanting openings, as waves, are softer by a quarter still.
func SpringWidths(s *pattern.Sheet, r *Report) []float64 {
	n := r.Net
	taken := make([][][2]float64, len(n.X)) // heights from, to
	step := n.X[1] - n.X[0]
	for i := range s.Openings {
		l := straight(s, s.Openings[i].Loop)
		box := l.Bounds()
		mid, half := (box.Min.X+box.Max.X)/2, box.W()/2
		stretch := 1 + shade*box.H()/half
		poly := l.Flatten(0.005)
		from := int(math.Ceil((mid - half*stretch - n.X[0]) / step))
		to := int(math.Floor((mid + half*stretch - n.X[0]) / step))
		for k := max(from, 0); k <= min(to, len(n.X)-1); k++ {
			taken[k] = appendSpans(taken[k], poly, mid+(n.X[k]-mid)/stretch)
		}
	}
	out := make([]float64, len(n.X))
	for k, spans := range taken {
		sort.Slice(spans, func(a, b int) bool { return spans[a][0] < spans[b][0] })
		out[k] = n.Full[k]
		end := math.Inf(-1)
		for _, s := range spans {
			if from := math.Max(s[0], end); s[1] > from {
				out[k] -= s[1] - from
				end = s[1]
			}
		}
		// Chords and rounding must not make more of it than there is, and where shades
		// meet something still holds.
		out[k] = math.Min(math.Max(out[k], leastShare*n.Net[k]), n.Net[k])
	}
	return out
}

const (
	// shade is the length, as a share of an opening's height, that it takes from the
	// metal beyond either end.
	shade = 1.0 / 6
	// leastShare of the net section carries even where all of it lies in shades.
	leastShare = 0.1
)

// appendSpans appends the stretches of the upright line at x within the polygon.
func appendSpans(dst [][2]float64, poly []plane.Point, x float64) [][2]float64 {
	var ys []float64
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a.X <= x) != (b.X <= x) {
			ys = append(ys, a.Y+(x-a.X)/(b.X-a.X)*(b.Y-a.Y))
		}
	}
	sort.Float64s(ys)
	for i := 0; i+1 < len(ys); i += 2 {
		dst = append(dst, [2]float64{ys[i], ys[i+1]})
	}
	return dst
}
