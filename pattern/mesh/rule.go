package mesh

import (
	"math"
	"slices"

	"fretband/unroll"
	"fretband/unroll/plane"
)

// unit is the grid that the flat (straightened, if the band is flared) is
// triangulated on: 2^-20 mm, about a
// millionth. Whole numbers keep every decision exact: within a cell coordinates
// stay under 2^29, so a product of two differences fits 64 bits.
const unit = 1.0 / (1 << 20)

// near is the distance, in units, at which a point is taken onto a ruled line:
// about 0.0002 mm, so that there are no slivers thinner than that beside it.
const near = 1 << 8

func toGrid(x float64) int64 { return int64(math.Round(x / unit)) }

// ruling divides the flat into cells by lines x = X[i] and y = Y[j], in units.
// The first and last Y, and those X of a cuff, lie outside the blank; of a
// closed band the first and last X are one place.
type ruling struct {
	x, y   []int64
	period int64 // 0 for a cuff
}

// rule chooses the lines so that flat triangles between them, bent at their
// corners, lie within tol of the bent faces.
func (b *blank) rule(edge []corner, tol float64) ruling {
	box := plane.EmptyBox()
	for _, c := range edge {
		box = box.Add(plane.Pt(float64(c.X)*unit, float64(c.Y)*unit))
	}
	var r ruling
	x0, x1 := box.Min.X, box.Max.X
	if b.period > 0 {
		r.period = 2 * toGrid(b.period/2)
		x0, x1 = -b.period/2, b.period/2
	}
	// A chord of length d lies |f''| d^2/8 from its curve.
	alongY := func(y float64) float64 {
		return b.bending(plane.Pt(0, 1), box, [3]plane.Point{{X: x0, Y: y}, {X: (x0 + x1) / 2, Y: y}, {X: x1, Y: y}})
	}
	alongX := func(x float64) float64 {
		return b.bending(plane.Pt(1, 0), box, [3]plane.Point{{X: x, Y: box.Min.Y}, {X: x, Y: box.Centre().Y}, {X: x, Y: box.Max.Y}})
	}
	var most float64
	for i := 0; i <= 16; i++ {
		most = math.Max(most, alongY(box.Min.Y+box.H()*float64(i)/16))
	}
	var ys []float64
	if most*box.H()*box.H()/8 > tol/4 {
		tol /= 2 // the two ways of bending add up
		ys = divide(box.Min.Y, box.Max.Y, tol, 2, alongY)
	}
	xs := b.besideBreaks(divide(x0, x1, tol, 6, alongX), x0, x1)

	const margin = 1 << 20
	r.y = append(r.y, toGrid(box.Min.Y)-margin)
	for _, y := range ys {
		r.y = append(r.y, toGrid(y))
	}
	r.y = append(r.y, toGrid(box.Max.Y)+margin)
	if b.period > 0 {
		r.x = append(r.x, -r.period/2)
	} else {
		r.x = append(r.x, toGrid(x0)-margin)
	}
	for _, x := range xs {
		r.x = append(r.x, toGrid(x))
	}
	if b.period > 0 {
		r.x = append(r.x, r.period/2)
	} else {
		r.x = append(r.x, toGrid(x1)+margin)
	}
	return r
}

// breakStrip is half the width, mm, of the strips about the positions where the bend
// jumps: within them the sheet goes from one thickness to the other.
const breakStrip = 0.02

// besideBreaks adds lines on both sides of each break to the lines xs between x0
// and x1, and takes those away that would be too near to them.
func (b *blank) besideBreaks(xs []float64, x0, x1 float64) []float64 {
	const apart = 2 * breakStrip
	for _, x := range b.breaks {
		if x-x0 < 2*apart || x1-x < 2*apart {
			continue
		}
		xs = slices.DeleteFunc(xs, func(l float64) bool { return math.Abs(l-x) < apart })
		xs = append(xs, x-breakStrip, x+breakStrip)
	}
	slices.Sort(xs)
	return xs
}

// bending returns the largest second derivative, 1/mm, of the two bent faces in
// the direction dir of the flat, at the three positions.
func (b *blank) bending(dir plane.Point, box plane.Box, at [3]plane.Point) float64 {
	h := math.Min(0.1, math.Min(box.W(), box.H())/8)
	var most float64
	for _, p := range at {
		q0, q1 := b.bent(p)
		u0, u1 := b.bent(p.Sub(dir.Mul(h)))
		v0, v1 := b.bent(p.Add(dir.Mul(h)))
		most = math.Max(most, length(add(add(u0, v0), scale(q0, -2)))/(h*h))
		most = math.Max(most, length(add(add(u1, v1), scale(q1, -2)))/(h*h))
	}
	return most
}

// divide returns the inner points of a division of a..b into pieces of about
// sqrt(8 tol/|f”|), at least least of them. It is symmetric if f” is.
func divide(a, b, tol float64, least int, second func(float64) float64) []float64 {
	const n = 512
	// The sum of pieces up to each of n+1 places, by the midpoint rule.
	var sum [n + 1]float64
	w := (b - a) / n
	for i := range n {
		sum[i+1] = sum[i] + w*math.Sqrt(second(a+w*(float64(i)+0.5))/(8*tol))
	}
	total := math.Max(float64(least), math.Ceil(sum[n]*1.02+0.01))
	if sum[n] < 1e-6 {
		for i := range sum {
			sum[i] = float64(i)
		}
	}
	var pts []float64
	i := 0
	for k := 1; k < int(total); k++ {
		want := sum[n] * float64(k) / total
		for sum[i+1] < want {
			i++
		}
		pts = append(pts, a+w*(float64(i)+(want-sum[i])/(sum[i+1]-sum[i])))
	}
	return pts
}

func add(a, b unroll.Point3) unroll.Point3 {
	return unroll.Point3{X: a.X + b.X, Y: a.Y + b.Y, Z: a.Z + b.Z}
}
func sub(a, b unroll.Point3) unroll.Point3 {
	return unroll.Point3{X: a.X - b.X, Y: a.Y - b.Y, Z: a.Z - b.Z}
}
func scale(a unroll.Point3, k float64) unroll.Point3 {
	return unroll.Point3{X: a.X * k, Y: a.Y * k, Z: a.Z * k}
}
func dot(a, b unroll.Point3) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }
func length(a unroll.Point3) float64 { return math.Sqrt(dot(a, a)) }
func unitOf(a unroll.Point3) unroll.Point3 {
	if l := length(a); l > 0 {
		return scale(a, 1/l)
	}
	return a
}
func cross(a, b unroll.Point3) unroll.Point3 {
	return unroll.Point3{X: a.Y*b.Z - a.Z*b.Y, Y: a.Z*b.X - a.X*b.Z, Z: a.X*b.Y - a.Y*b.X}
}
