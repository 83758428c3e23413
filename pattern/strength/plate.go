package strength

// The plate is the DKMT element of I. Katili, "A new discrete Kirchhoff-Mindlin element
// based on Mindlin-Reissner plate theory and assumed shear strain fields, part I",
// International Journal for Numerical Methods in Engineering 36 (1993) 1859-1883.
// The slope of the normal varies along each side as a square, by an amount that the
// side's own bending and shear decide: side k as a beam has
//
//	rest_k = -3/2 / (1 + phi_k) (rise over the side + mean slope along it)
//	shear along side k = -2/3 phi_k rest_k,   phi = 2 / (κ (1 - ν)) (thickness / length)²
//
// So a thin plate bends as Kirchhoff's and a thick bridge shears. Z holds three constant
// curvatures and the three rests.

// The share of the section that carries shear across the plane: 5/6 of a rectangle
// (Reissner 1945).
const shearShare = 5.0 / 6

// makePlate fills out and its energies.
func (e *element) makePlate() {
	for i := range 3 {
		j := next[i]
		k := next[j]
		dx, dy := (e.y[j]-e.y[k])/(2*e.area), (e.x[k]-e.x[j])/(2*e.area) // gradient of corner i's share
		c := 3 * i
		// Slopes: x falls with the rotation about y, y rises with it about x.
		e.out[0][c], e.out[0][c+1], e.out[0][c+2] = 0, 0, dx
		e.out[1][c], e.out[1][c+1], e.out[1][c+2] = 0, -dy, 0
		e.out[2][c], e.out[2][c+1], e.out[2][c+2] = 0, -dx, dy
	}
	for k, s := range e.side {
		i, j := 3*k, 3*next[k]
		f := -1.5 / (1 + s.soft)
		row := &e.out[3+k]
		*row = [9]float64{}
		row[i], row[j] = -f/s.length, f/s.length
		row[i+1], row[j+1] = -f/2*s.sin, -f/2*s.sin
		row[i+2], row[j+2] = f/2*s.cos, f/2*s.cos
	}
	bend := e.plane()
	cube := e.thick * e.thick * e.thick / 12
	for r := range 3 {
		for c := range 3 {
			bend[r][c] *= cube
		}
	}
	// Curvatures of the rests are linear: three points at the middle of the sides
	// integrate their squares exactly, the centroid their mean.
	mean := e.restCurvature([3]float64{1.0 / 3, 1.0 / 3, 1.0 / 3})
	var rests [3][3]float64
	stiff := shearShare * e.young / (2 * (1 + e.nu)) * e.thick
	for i := range 3 {
		at := [3]float64{}
		at[i], at[next[i]] = 0.5, 0.5
		g := e.restCurvature(at)
		addSquare(&rests, &g, &bend, e.area/3)
		f := e.restShear(at)
		for r := range 3 {
			for c := range 3 {
				rests[r][c] += e.area / 3 * stiff * (f[0][r]*f[0][c] + f[1][r]*f[1][c])
			}
		}
	}
	for r := range 3 {
		for c := range 3 {
			both := 0.0
			for k := range 3 {
				both += bend[r][k] * mean[k][c]
			}
			e.stiffOut[r][c] = e.area * bend[r][c]
			e.stiffOut[r][3+c], e.stiffOut[3+c][r] = e.area*both, e.area*both
			e.stiffOut[3+r][3+c] = rests[r][c]
		}
	}
}

// restCurvature takes the rests of the three sides to curvatures (xx, yy, xy) at a
// position, given as the shares of the corners.
func (e *element) restCurvature(at [3]float64) (g [3][3]float64) {
	for k, s := range e.side {
		i, j := k, next[k]
		l := next[j]
		// The rest of side k spreads as 4 times the shares of its two corners.
		t := 2 / e.area
		dx := t * (at[j]*(e.y[j]-e.y[l]) + at[i]*(e.y[l]-e.y[i]))
		dy := t * (at[j]*(e.x[l]-e.x[j]) + at[i]*(e.x[i]-e.x[l]))
		g[0][k], g[1][k], g[2][k] = dx*s.cos, dy*s.sin, dy*s.cos+dx*s.sin
	}
	return g
}

// restShear takes the rests to the shear strain across the plane (xz, yz): at each corner
// it agrees with both sides, between corners it is linear.
func (e *element) restShear(at [3]float64) (f [2][3]float64) {
	for i := range 3 {
		k, l := i, next[next[i]] // the sides that leave corner i and that come to it
		s, p := e.side[k], e.side[l]
		turn := s.cos*p.sin - p.cos*s.sin
		one, two := -2.0/3*s.soft*at[i]/turn, -2.0/3*p.soft*at[i]/turn
		f[0][k] += p.sin * one
		f[0][l] -= s.sin * two
		f[1][k] -= p.cos * one
		f[1][l] += s.cos * two
	}
	return f
}
