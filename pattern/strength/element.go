package strength

import "math"

// An element is one flat triangle of the shell with 18 freedoms: three displacements
// and three rotations at each corner. In its plane it is Felippa's optimal membrane
// triangle with drilling freedoms (membrane.go), across its plane Katili's DKMT plate
// (plate.go).
//
// Each part writes its stiffness as Zᵀ Q Z: Z takes its nine freedoms to six strain
// measures, and Q (6 by 6, symmetric) says what energy these hold. So stiffness and
// stresses come from the same Z.
type element struct {
	axis        [3]vector // along, across and out of the plane; they turn the world into the plane
	x, y        [3]float64
	area, thick float64
	young, nu   float64
	in, out     [6][9]float64 // Z of the membrane (u, v, drill a corner) and of the plate (w, rotations about x and y)
	stiffIn     [6][6]float64
	stiffOut    [6][6]float64
	side        [3]sideOf
}

// A sideOf is what the element needs of its side k, from corner k to corner k+1.
type sideOf struct {
	cos, sin, length float64
	soft             float64 // Katili's phi: how much softer the side is in shear than in bending
}

var next = [3]int{1, 2, 0}

// makeElement prepares triangle t of m.
func (e *element) make(m *Mesh, mat Material, t int) {
	tri := m.Tri[t]
	a, b, c := vec(m.At[tri[0]]), vec(m.At[tri[1]]), vec(m.At[tri[2]])
	ab, ac := b.less(a), c.less(a)
	normal := ab.cross(ac)
	twice := normal.length()
	e.axis[0] = ab.times(1 / ab.length())
	e.axis[2] = normal.times(1 / twice)
	e.axis[1] = e.axis[2].cross(e.axis[0])
	e.x = [3]float64{0, ab.dot(e.axis[0]), ac.dot(e.axis[0])}
	e.y = [3]float64{0, 0, ac.dot(e.axis[1])}
	e.area, e.thick, e.young, e.nu = twice/2, m.Thick[t], mat.Young, mat.Poisson
	for k := range e.side {
		s, j := &e.side[k], next[k]
		dx, dy := e.x[j]-e.x[k], e.y[j]-e.y[k]
		s.length = math.Sqrt(dx*dx + dy*dy)
		s.cos, s.sin = dx/s.length, dy/s.length
		s.soft = 2 / (shearShare * (1 - e.nu)) * (e.thick / s.length) * (e.thick / s.length)
	}
	e.makeMembrane()
	e.makePlate()
}

// plane returns Young's modulus in plane stress: stress = plane · strain, with the shear
// strain as engineers count it.
func (e *element) plane() [3][3]float64 {
	s := e.young / (1 - e.nu*e.nu)
	return [3][3]float64{{s, s * e.nu, 0}, {s * e.nu, s, 0}, {0, 0, s * (1 - e.nu) / 2}}
}

// stiffness writes the element's stiffness in world axes: row and column 6i+f is freedom
// f of corner i.
func (e *element) stiffness(k *[18][18]float64) {
	var in, out [9][9]float64
	product(&e.in, &e.stiffIn, &in)
	product(&e.out, &e.stiffOut, &out)
	x, y, z := e.axis[0], e.axis[1], e.axis[2]
	for i := range 3 {
		for j := range i + 1 {
			m, p := 3*i, 3*j
			// Displacements against displacements.
			tu := x.times(in[m][p]).plus(y.times(in[m][p+1]))
			tv := x.times(in[m+1][p]).plus(y.times(in[m+1][p+1]))
			tw := z.times(out[m][p])
			// Displacements against rotations.
			ru, rv := z.times(in[m][p+2]), z.times(in[m+1][p+2])
			rw := x.times(out[m][p+1]).plus(y.times(out[m][p+2]))
			// Rotations against displacements.
			dx, dy := z.times(out[m+1][p]), z.times(out[m+2][p])
			dz := x.times(in[m+2][p]).plus(y.times(in[m+2][p+1]))
			// Rotations against rotations.
			qx := x.times(out[m+1][p+1]).plus(y.times(out[m+1][p+2]))
			qy := x.times(out[m+2][p+1]).plus(y.times(out[m+2][p+2]))
			qz := z.times(in[m+2][p+2])
			for r := range 3 {
				xr, yr, zr := x[r], y[r], z[r]
				low, high := &k[6*i+r], &k[6*i+3+r]
				for c := range 3 {
					low[6*j+c] = xr*tu[c] + yr*tv[c] + zr*tw[c]
					low[6*j+3+c] = xr*ru[c] + yr*rv[c] + zr*rw[c]
					high[6*j+c] = xr*dx[c] + yr*dy[c] + zr*dz[c]
					high[6*j+3+c] = xr*qx[c] + yr*qy[c] + zr*qz[c]
				}
			}
		}
	}
	for i := range 18 {
		for j := range i {
			k[j][i] = k[i][j]
		}
	}
}

// product computes zᵀ q z, of which only the lower half is filled by corners.
func product(z *[6][9]float64, q *[6][6]float64, k *[9][9]float64) {
	for j := range 9 {
		var col [6]float64
		z0, z1, z2, z3, z4, z5 := z[0][j], z[1][j], z[2][j], z[3][j], z[4][j], z[5][j]
		for r := range 6 {
			row := &q[r]
			col[r] = row[0]*z0 + row[1]*z1 + row[2]*z2 + row[3]*z3 + row[4]*z4 + row[5]*z5
		}
		for i := j - j%3; i < 9; i++ {
			k[i][j] = z[0][i]*col[0] + z[1][i]*col[1] + z[2][i]*col[2] + z[3][i]*col[3] + z[4][i]*col[4] + z[5][i]*col[5]
		}
	}
}

// local turns displacements and rotations of the world (six a corner) into the freedoms
// of the membrane and of the plate.
func (e *element) local(u *[18]float64) (in, out [9]float64) {
	for i := range 3 {
		move, turn := vector(u[6*i:6*i+3]), vector(u[6*i+3:6*i+6])
		in[3*i], in[3*i+1], in[3*i+2] = e.axis[0].dot(move), e.axis[1].dot(move), e.axis[2].dot(turn)
		out[3*i], out[3*i+1], out[3*i+2] = e.axis[2].dot(move), e.axis[0].dot(turn), e.axis[1].dot(turn)
	}
	return in, out
}

// measures returns the six strain measures z · u.
func measures(z *[6][9]float64, u *[9]float64) (s [6]float64) {
	for r := range s {
		for c, v := range u {
			s[r] += z[r][c] * v
		}
	}
	return s
}

// energy returns half of sᵀ q s.
func energy(q *[6][6]float64, s *[6]float64) float64 {
	sum := 0.0
	for r := range s {
		for c := range s {
			sum += s[r] * q[r][c] * s[c]
		}
	}
	return sum / 2
}
