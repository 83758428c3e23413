package main

import (
	"bufio"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"

	"fretband/pattern/check"
	"fretband/pattern/strength"
	"fretband/unroll"
	"fretband/unroll/plane"
)

type vector [3]float64

func vec(p unroll.Point3) vector        { return vector{p.X, p.Y, p.Z} }
func (a vector) plus(b vector) vector   { return vector{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }
func (a vector) less(b vector) vector   { return a.plus(b.times(-1)) }
func (a vector) times(s float64) vector { return vector{a[0] * s, a[1] * s, a[2] * s} }
func (a vector) dot(b vector) float64   { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vector) unit() vector           { return a.times(1 / math.Sqrt(a.dot(a))) }
func (a vector) cross(b vector) vector {
	return vector{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// mesh is the middle surface in triangles of six nodes.
type mesh struct {
	flat     unroll.Flat
	blank    []plane.Point
	at       []vector
	thick    []float64
	x        []float64 // along the middle line
	area     []float64 // of each node, as an even pressure loads a triangle of six nodes: all on the sides' nodes
	elements [][6]int
}

func (m *mesh) bend() {
	m.at, m.thick = make([]vector, len(m.blank)), make([]float64, len(m.blank))
	m.x, m.area = make([]float64, len(m.blank)), make([]float64, len(m.blank))
	for i, p := range m.blank {
		m.thick[i] = m.flat.ThicknessAt(p)
		m.at[i] = vec(m.flat.Bend(p, m.thick[i]/2))
		m.x[i], _ = m.flat.Where(p)
	}
	for _, e := range m.elements {
		n := m.at[e[1]].less(m.at[e[0]]).cross(m.at[e[2]].less(m.at[e[0]]))
		for _, i := range e[3:] {
			m.area[i] += math.Sqrt(n.dot(n)) / 6
		}
	}
}

func (m *mesh) place(x float64) vector { return m.bent(m.flat.Place(x, 0)) }

func (m *mesh) bent(p plane.Point) vector { return vec(m.flat.Bend(p, m.flat.Thickness/2)) }

func (m *mesh) home(x float64) float64 { return math.Remainder(x, m.flat.Length) }

// loading is forces on nodes, a newton in all, and where stress counts (nil: everywhere).
type loading struct {
	m      *mesh
	force  map[int]vector
	counts func(node int) bool
}

func (l *loading) list() (list []load) {
	for i := range l.m.at {
		if f, ok := l.force[i]; ok {
			list = append(list, load{i, f})
		}
	}
	return list
}

// take spreads a force whose line passes through p, and a couple, over the metal that
// in names: as forces alone, the couple by ones that grow with the distance from the
// middle, as a rigid grip does.
func (l *loading) take(in func(node int) bool, p *vector, force, couple vector) error {
	m := l.m
	var total float64
	var middle vector
	for i, a := range m.area {
		if a > 0 && in(i) {
			total += a
			middle = middle.plus(m.at[i].times(a))
		}
	}
	if total == 0 {
		return fmt.Errorf("no metal where the load takes hold")
	}
	middle = middle.times(1 / total)
	if p != nil {
		couple = couple.plus(p.less(middle).cross(force))
	}
	var inertia [3]vector
	for i, a := range m.area {
		if a > 0 && in(i) {
			r := m.at[i].less(middle)
			for j := range 3 {
				inertia[j][j] += r.dot(r) * a / total
				for k := range 3 {
					inertia[j][k] -= r[j] * r[k] * a / total
				}
			}
		}
	}
	c0, c1, c2 := inertia[1].cross(inertia[2]), inertia[2].cross(inertia[0]), inertia[0].cross(inertia[1])
	det := inertia[0].dot(c0)
	spin := c0.times(couple[0] / det).plus(c1.times(couple[1] / det)).plus(c2.times(couple[2] / det))
	for i, a := range m.area {
		if a > 0 && in(i) {
			f := force.plus(spin.cross(m.at[i].less(middle))).times(a / total)
			l.force[i] = l.force[i].plus(f)
		}
	}
	return nil
}

// press spreads a force whose line passes through p over the metal on the line across the
// band at x, evenly along it: what an element has of the line goes to its six nodes by their
// shape functions, at the two points of Gauss.
func (l *loading) press(x float64, p, force vector) error {
	m := l.m
	share := map[int]float64{}
	total := 0.0
	for _, e := range m.elements {
		var at [3]plane.Point
		for j, i := range e[:3] {
			_, v := m.flat.Where(m.blank[i])
			at[j] = plane.Pt(m.home(m.x[i]-x), v)
		}
		if math.Max(math.Abs(at[0].X-at[1].X), math.Abs(at[0].X-at[2].X)) > m.flat.Length/2 {
			continue // it lies opposite, where x jumps
		}
		// The line crosses two sides, or none. A corner on it counts as beyond it.
		var ends [][3]float64 // by the corners' shares
		for j := range 3 {
			k := (j + 1) % 3
			if (at[j].X < 0) != (at[k].X < 0) {
				t := at[j].X / (at[j].X - at[k].X)
				var b [3]float64
				b[j], b[k] = 1-t, t
				ends = append(ends, b)
			}
		}
		if len(ends) < 2 {
			continue
		}
		y := func(b [3]float64) float64 { return b[0]*at[0].Y + b[1]*at[1].Y + b[2]*at[2].Y }
		length := math.Abs(y(ends[1]) - y(ends[0]))
		total += length
		for _, t := range [2]float64{0.5 - math.Sqrt(3)/6, 0.5 + math.Sqrt(3)/6} {
			var b [3]float64
			for j := range 3 {
				b[j] = ends[0][j]*(1-t) + ends[1][j]*t
				share[e[j]] += length / 2 * b[j] * (2*b[j] - 1)
			}
			for j := range 3 {
				share[e[3+j]] += length / 2 * 4 * b[j] * b[(j+1)%3]
			}
		}
	}
	if total == 0 {
		return fmt.Errorf("no metal on the line at %g", x)
	}
	var middle vector
	nodes := slices.Sorted(maps.Keys(share))
	for _, i := range nodes {
		share[i] /= total
		middle = middle.plus(m.at[i].times(share[i]))
	}
	// The couple of a force off the middle stands square to the line: forces that grow
	// along it.
	inertia := 0.0
	for _, i := range nodes {
		r := m.at[i].less(middle)
		inertia += share[i] * r.dot(r)
	}
	spin := p.less(middle).cross(force).times(1 / inertia)
	for _, i := range nodes {
		l.force[i] = l.force[i].plus(force.plus(spin.cross(m.at[i].less(middle))).times(share[i]))
	}
	return nil
}

// widen makes a grip's reach longer until it holds metal.
func (m *mesh) widen(reach float64, grip func(reach float64) func(node int) bool) func(node int) bool {
	for ; ; reach *= 1.5 {
		in := grip(reach)
		for i, a := range m.area {
			if a > 0 && in(i) {
				return in
			}
		}
	}
}

// like loads the mesh as a case of our figures describes it, and returns how ours is
// made; nil where it is none of those judged.
func (m *mesh) like(c strength.CaseFigures, r *check.Report) (func(*strength.Study) (strength.Case, error), *loading, error) {
	l := &loading{m: m, force: map[int]vector{}}
	half := m.flat.Length / 2
	left := func(i int) bool { return m.x[i] < 3-half }
	right := func(i int) bool { return m.x[i] > half-3 }
	awayFromEnds := func(i int) bool { return math.Abs(m.x[i]) < half-4 }
	a, z := m.place(-half), m.place(half)
	apart := z.less(a)
	apart[2] = 0
	gap := math.Sqrt(apart.dot(apart))
	either := func(errs ...error) error {
		for _, err := range errs {
			if err != nil {
				return err
			}
		}
		return nil
	}
	switch {
	case c.Case == strength.Open:
		u := apart.unit()
		l.counts = awayFromEnds
		return (*strength.Study).Opened, l, either(l.take(left, &a, u.times(-1), vector{}), l.take(right, &z, u, vector{}))
	case c.Case == strength.Push && len(c.At) == 2: // rolled on
		l.counts = awayFromEnds
		whole := z.less(a)
		reach := math.Max(math.Sqrt(whole.dot(whole)), 6) / 2
		front := func(i int) bool { return math.Abs(m.x[i]) < reach }
		axis := vector{0, 0, 1}
		return (*strength.Study).Rolled, l, either(l.take(left, &a, axis.times(-1), vector{}), l.take(right, &z, axis, vector{}),
			l.take(front, nil, vector{}, whole.cross(axis).times(-1)))
	case c.Case == strength.Squeeze:
		x, _ := m.flat.Where(c.At[0])
		p, q := m.place(x), m.place(m.home(x+half))
		u := q.less(p)
		u[2] = 0
		u = u.unit()
		return func(s *strength.Study) (strength.Case, error) { return s.Squeezed(x) }, l,
			either(l.press(x, p, u), l.press(m.home(x+half), q, u.times(-1)))
	case c.Case == strength.CatchOn && gap > 0:
		for _, t := range r.Deep.Tongues {
			if t.Tip == c.At[0] {
				tip := strength.Tip{At: t.Tip, Root: t.RootAt, Length: t.Length}
				return func(s *strength.Study) (strength.Case, error) { return s.Caught(tip, c.Across) }, l, m.caught(l, tip, c.Across)
			}
		}
	}
	return nil, l, nil
}

// caught pulls a tip.
func (m *mesh) caught(l *loading, t strength.Tip, across bool) error {
	root, wide := t.Root[0].Mid(t.Root[1]), t.Root[0].Dist(t.Root[1])
	way := t.At.Sub(root).Unit()
	at := m.bent(t.At)
	in := m.bent(t.At.Add(way.Left().Mul(0.01))).less(at).unit()
	force := in
	if across {
		force = m.bent(t.At.Add(way.Mul(0.01))).less(at).cross(in).unit()
	}
	l.counts = func(i int) bool {
		q := m.blank[i]
		return q.Dist(root) < t.Length+wide && q.Dist(t.At) > t.Length/3 && q.Sub(root).Dot(way) > -wide
	}
	th := m.flat.Thickness
	tip := m.widen(math.Max(th/3, 0.2), func(reach float64) func(int) bool {
		return func(i int) bool { return m.blank[i].Dist(t.At) < reach }
	})
	hold := func(i int) bool {
		q := m.blank[i]
		return q.Dist(root) < wide+2*th && q.Sub(root).Dot(way) < -th/2
	}
	if err := l.take(tip, &at, force, vector{}); err != nil {
		return err
	}
	return l.take(hold, &at, force.times(-1), vector{})
}

// seen are the elements where stress counts.
func (m *mesh) seen(counts func(int) bool) []bool {
	list := make([]bool, len(m.elements))
	for k, e := range m.elements {
		list[k] = counts == nil || counts(e[0]) && counts(e[1]) && counts(e[2])
	}
	return list
}

// held are three corners far from each other: the first is held in all directions, the
// second square to the line to the first, the third square to the plane of all.
func (m *mesh) held() []int {
	far := func(measure func(p vector) float64) (best int) {
		for _, e := range m.elements {
			for _, i := range e[:3] {
				if measure(m.at[i]) > measure(m.at[best]) {
					best = i
				}
			}
		}
		return best
	}
	a := far(func(p vector) float64 { return -math.Abs(p[0]) + p[1] })
	b := far(func(p vector) float64 { d := p.less(m.at[a]); return d.dot(d) })
	line := m.at[b].less(m.at[a])
	c := far(func(p vector) float64 { d := line.cross(p.less(m.at[a])); return d.dot(d) })
	return []int{a, b, c}
}

func largest(v vector) (best int) {
	for k := range v {
		if math.Abs(v[k]) > math.Abs(v[best]) {
			best = k
		}
	}
	return best
}

// deck writes the input of CalculiX.
func (m *mesh) deck(file string, young, poisson float64, j *job) error {
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	defer f.Close()
	w := bufio.NewWriter(f)
	fmt.Fprintln(w, "*NODE,NSET=ALL")
	for i, p := range m.at {
		fmt.Fprintf(w, "%d,%.12g,%.12g,%.12g\n", i+1, p[0], p[1], p[2])
	}
	fmt.Fprintln(w, "*ELEMENT,TYPE=S6,ELSET=METAL")
	for k, e := range m.elements {
		fmt.Fprintf(w, "%d,%d,%d,%d,%d,%d,%d\n", k+1, e[0]+1, e[1]+1, e[2]+1, e[3]+1, e[4]+1, e[5]+1)
	}
	fmt.Fprintf(w, "*MATERIAL,NAME=M\n*ELASTIC\n%g,%g\n*SHELL SECTION,ELSET=METAL,MATERIAL=M,NODAL THICKNESS\n%g\n*NODAL THICKNESS\n", young, poisson, m.flat.Thickness)
	for i, t := range m.thick {
		fmt.Fprintf(w, "%d,%.9g\n", i+1, t)
	}
	h := j.Held
	line := m.at[h[1]].less(m.at[h[0]])
	along, out := largest(line), largest(line.cross(m.at[h[2]].less(m.at[h[0]])))
	fmt.Fprintf(w, "*NSET,NSET=HELD\n%d,%d,%d\n*BOUNDARY\n%d,1,3\n", h[0]+1, h[1]+1, h[2]+1, h[0]+1)
	for k := range 3 {
		if k != along {
			fmt.Fprintf(w, "%d,%d,%d\n", h[1]+1, k+1, k+1)
		}
	}
	fmt.Fprintf(w, "%d,%d,%d\n*STEP\n*STATIC\n*CLOAD\n", h[2]+1, out+1, out+1)
	for _, l := range j.Loads {
		for k, v := range l.Force {
			if v != 0 {
				fmt.Fprintf(w, "%d,%d,%.12g\n", l.Node+1, k+1, v)
			}
		}
	}
	fmt.Fprintln(w, "*NODE PRINT,NSET=ALL\nU\n*NODE PRINT,NSET=HELD\nRF\n*EL PRINT,ELSET=METAL\nS\n*END STEP")
	return w.Flush()
}
