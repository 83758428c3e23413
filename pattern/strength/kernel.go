package strength

import "math"

// Matrices are stored in strips of three rows, column by column: entry (r, c) of a strip
// stands at 3c+r. So a product of two strips reads both from end to end, a tile of three
// by three is nine numbers in a row, and since a node has six freedoms nothing is ever
// left over. Nine sums are what fits into the registers beside what is read.

// takeProduct subtracts from tile c the product of the strips a and b: c(3j+i) loses the
// sum over columns of a's row i times b's row j. Both have the same length, of whole
// tiles.
func takeProduct(c *[9]float64, a, b []float64) {
	c0, c1, c2 := c[0], c[1], c[2]
	c3, c4, c5 := c[3], c[4], c[5]
	c6, c7, c8 := c[6], c[7], c[8]
	for len(a) >= 9 && len(b) >= 9 {
		x, y, z, u := a[0], a[1], a[2], b[0]
		c0 -= x * u
		c1 -= y * u
		c2 -= z * u
		u = b[1]
		c3 -= x * u
		c4 -= y * u
		c5 -= z * u
		u = b[2]
		c6 -= x * u
		c7 -= y * u
		c8 -= z * u

		x, y, z, u = a[3], a[4], a[5], b[3]
		c0 -= x * u
		c1 -= y * u
		c2 -= z * u
		u = b[4]
		c3 -= x * u
		c4 -= y * u
		c5 -= z * u
		u = b[5]
		c6 -= x * u
		c7 -= y * u
		c8 -= z * u

		x, y, z, u = a[6], a[7], a[8], b[6]
		c0 -= x * u
		c1 -= y * u
		c2 -= z * u
		u = b[7]
		c3 -= x * u
		c4 -= y * u
		c5 -= z * u
		u = b[8]
		c6 -= x * u
		c7 -= y * u
		c8 -= z * u
		a, b = a[9:], b[9:]
	}
	c[0], c[1], c[2] = c0, c1, c2
	c[3], c[4], c[5] = c3, c4, c5
	c[6], c[7], c[8] = c6, c7, c8
}

// takeTransposed subtracts from every column of a strip w the product of the same column
// of l, transposed, with the tile x: w(3c+j) loses the sum over i of l(3c+i) x(3i+j).
func takeTransposed(w, l []float64, x *[9]float64) {
	x0, x1, x2 := x[0], x[1], x[2]
	x3, x4, x5 := x[3], x[4], x[5]
	x6, x7, x8 := x[6], x[7], x[8]
	for len(w) >= 3 && len(l) >= 3 {
		p, q, r := l[0], l[1], l[2]
		w[0] -= p*x0 + q*x3 + r*x6
		w[1] -= p*x1 + q*x4 + r*x7
		w[2] -= p*x2 + q*x5 + r*x8
		w, l = w[3:], l[3:]
	}
}

// rootTile replaces the tile on the diagonal by its Cholesky factor, with one over each
// pivot on the diagonal. least is what a pivot must exceed; it returns the row of the
// first one that does not, or -1.
func rootTile(t *[9]float64, least float64) int {
	if !(t[0] > least) {
		return 0
	}
	a := 1 / math.Sqrt(t[0])
	b, c := t[1]*a, t[2]*a
	d := t[4] - b*b
	if !(d > least) {
		return 1
	}
	d = 1 / math.Sqrt(d)
	e := (t[5] - c*b) * d
	f := t[8] - c*c - e*e
	if !(f > least) {
		return 2
	}
	t[0], t[1], t[2] = a, b, c
	t[4], t[5] = d, e
	t[8] = 1 / math.Sqrt(f)
	return -1
}

// divideRows divides the tile x by the transposed factor t from the right: the step below
// the diagonal.
func divideRows(x, t *[9]float64) {
	for r := range 3 {
		a := x[r] * t[0]
		b := (x[3+r] - a*t[1]) * t[4]
		x[6+r] = (x[6+r] - a*t[2] - b*t[5]) * t[8]
		x[r], x[3+r] = a, b
	}
}

// forwardTile divides the tile of three right-hand sides x(3i+j) by the factor t.
func forwardTile(x, t *[9]float64) {
	for j := range 3 {
		a := x[j] * t[0]
		b := (x[3+j] - t[1]*a) * t[4]
		x[6+j] = (x[6+j] - t[2]*a - t[5]*b) * t[8]
		x[j], x[3+j] = a, b
	}
}

// backwardTile divides it by the transposed factor.
func backwardTile(x, t *[9]float64) {
	for j := range 3 {
		c := x[6+j] * t[8]
		b := (x[3+j] - t[5]*c) * t[4]
		x[j] = (x[j] - t[1]*b - t[2]*c) * t[0]
		x[3+j], x[6+j] = b, c
	}
}
