package strength

// The membrane is the OPT element of C. A. Felippa, "A study of optimal membrane
// triangles with drilling freedoms", Computer Methods in Applied Mechanics and
// Engineering 192 (2003) 2125-2168. Its stiffness is a basic part, which passes the
// patch test by itself, and a higher part on the corners' rotations beyond the mean one:
//
//	K = L E Lᵀ / V + ¾ β0 Tᵀ Kθ T
//
// Here E is the plane stress modulus and V the volume. L gives the force of a constant
// stress at each freedom, so Lᵀ/V gives the mean strain. T takes the mean rotation of the
// triangle from the rotation of each corner, and Kθ is the energy of these rests.

// Felippa's alpha_b: how far the rotations bend the sides; 3/2 is the optimal one.
const drillShare = 1.5

// The numbers beta 1 to 9 of the optimal element, as they stand in the first row of
// Felippa's matrices Q1, Q2 and Q3; rows 2 and 3 hold the same, side by side.
var optimal = [3][3][3]float64{
	{{1, 2, 1}, {0, 1, -1}, {-1, -1, -2}},
	{{-2, -1, -1}, {1, 1, 2}, {-1, 0, 1}},
	{{1, -1, 0}, {-1, -2, -1}, {2, 1, 1}},
}

// makeMembrane fills the three mean strains and the three rests of rotation of in, and
// their energies.
func (e *element) makeMembrane() {
	for i := range 3 {
		j := next[i]
		k := next[j]
		// Differences as Felippa writes them: of corners j and k as they stand around i.
		yjk, xkj := e.y[j]-e.y[k], e.x[k]-e.x[j]
		yij, xji := e.y[i]-e.y[j], e.x[j]-e.x[i]
		yki, xik := e.y[k]-e.y[i], e.x[i]-e.x[k]
		s := 1 / (2 * e.area)
		c := 3 * i
		e.in[0][c], e.in[1][c], e.in[2][c] = s*yjk, 0, s*xkj
		e.in[0][c+1], e.in[1][c+1], e.in[2][c+1] = 0, s*xkj, s*yjk
		// For corner 1 these are y23 (y13 - y21), x32 (x31 - x12) and x31 y13 - x12 y21.
		e.in[0][c+2] = s * drillShare / 6 * yjk * (-yki + yij)
		e.in[1][c+2] = s * drillShare / 6 * xkj * (-xik + xji)
		e.in[2][c+2] = s * drillShare / 3 * (xik*yki - xji*yij)
		t := 1 / (4 * e.area)
		for r := range 3 {
			e.in[3+r][c], e.in[3+r][c+1], e.in[3+r][c+2] = t*xkj, t*-yjk, 0
		}
		e.in[3+i][c+2] = 1
	}
	stress, volume := e.plane(), e.area*e.thick
	for r := range 3 {
		for c := range 3 {
			e.stiffIn[r][c] = stress[r][c] * volume
		}
	}
	// The rests: strain at the middle of each side, integrated over these three points.
	beta := (1 - 4*e.nu*e.nu) / 2
	scale := 0.75 * beta * volume
	var q [3][3][3]float64
	for i := range q {
		q[i] = e.bentStrain(i)
	}
	var sum [3][3]float64
	for i := range 3 {
		j := next[i]
		var mid [3][3]float64
		for r := range 3 {
			for c := range 3 {
				mid[r][c] = (q[i][r][c] + q[j][r][c]) / 2
			}
		}
		addSquare(&sum, &mid, &stress, scale)
	}
	for r := range 3 {
		for c := range 3 {
			e.stiffIn[3+r][3+c] = sum[r][c]
		}
	}
}

// bentStrain takes the rests of rotation to the strains (xx, yy, xy) at corner i:
// Felippa's Te · Qi.
func (e *element) bentStrain(i int) (b [3][3]float64) {
	a := 1 / (4 * e.area * e.area)
	third := 2 * e.area / 3
	for k := range 3 {
		// The side k to j: natural strain is the strain along it. Te's column k.
		j := next[k]
		l := next[j]
		ykl := e.y[j] - e.y[l]
		ylj := e.y[k] - e.y[l]
		xlj, xlk := e.x[j]-e.x[l], e.x[k]-e.x[l]
		// For the side 1-2 these are y23 y13, x23 x13 and y23 x31 + x32 y13; times the
		// square of the side, which Q divides by.
		te := [3]float64{ykl * ylj, xlj * xlk, -ykl*xlk - xlj*ylj}
		for c := range 3 {
			n := optimal[i][k][c] * third * a
			b[0][c] += te[0] * n
			b[1][c] += te[1] * n
			b[2][c] += te[2] * n
		}
	}
	return b
}

// addSquare adds scale · bᵀ d b to sum.
func addSquare(sum, b, d *[3][3]float64, scale float64) {
	for c := range 3 {
		x, y, z := b[0][c], b[1][c], b[2][c]
		p := scale * (d[0][0]*x + d[0][1]*y + d[0][2]*z)
		q := scale * (d[1][0]*x + d[1][1]*y + d[1][2]*z)
		s := scale * (d[2][0]*x + d[2][1]*y + d[2][2]*z)
		for r := range 3 {
			sum[r][c] += b[0][r]*p + b[1][r]*q + b[2][r]*s
		}
	}
}
