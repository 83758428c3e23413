package main

import (
	"bufio"
	"bytes"
	"fmt"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// drawing takes the blank to the plane that gmsh meshes, so that angles are kept. A
// closed band becomes a ring there, without a joint; a flared one is first laid straight.
type drawing struct {
	flat   unroll.Flat
	apex   float64 // 0 if not flared
	radius float64 // of the middle line of a closed band; 0 if open
}

func drawingOf(f unroll.Flat) drawing {
	d := drawing{flat: f, apex: -f.Apex()}
	if f.Closed() {
		d.radius = f.Length / (2 * math.Pi)
	}
	return d
}

// straight is where a point of the blank lies along and across, angles kept.
func (d drawing) straight(p plane.Point) plane.Point {
	if d.apex == 0 {
		return p
	}
	x, v := d.flat.Where(p)
	return plane.Pt(x, d.apex*math.Log1p(v/d.apex))
}

func (d drawing) blank(q plane.Point) plane.Point {
	if d.apex == 0 {
		return q
	}
	return d.flat.Place(q.X, d.apex*math.Expm1(q.Y/d.apex))
}

// on returns where a point of the blank is drawn, and by how much lengths grow there.
func (d drawing) on(p plane.Point) (plane.Point, float64) {
	q, grows := d.straight(p), 1.0
	if d.apex != 0 {
		grows = math.Exp(-q.Y / d.apex)
	}
	if d.radius == 0 {
		return q, grows
	}
	// The other way round, so that the front side stays in front.
	far := d.radius * math.Exp(q.Y/d.radius)
	sin, cos := math.Sincos(-q.X / d.radius)
	return plane.Pt(far*cos, far*sin), grows * far / d.radius
}

// off is the inverse of on, but for straight places.
func (d drawing) off(q plane.Point) plane.Point {
	if d.radius == 0 {
		return q
	}
	return plane.Pt(-d.radius*math.Atan2(q.Y, q.X), d.radius*math.Log(q.Len()/d.radius))
}

// between is the blank's point half way between two straight places.
func (d drawing) between(a, b plane.Point) plane.Point {
	m := a.Mid(b)
	if d.radius != 0 {
		l := d.flat.Length
		m = a.Add(plane.Pt(math.Remainder(b.X-a.X, l), b.Y-a.Y).Mul(0.5))
		m.X = math.Remainder(m.X, l)
	}
	return d.blank(m)
}

// meshed has gmsh mesh the metal, puts nodes half way along all sides, those of an edge
// on the true line, and bends all.
func meshed(dir, name string, s *pattern.Sheet, size sizes) (*mesh, error) {
	d := drawingOf(s.Flat)
	var geo bytes.Buffer
	var corners []plane.Point // on the blank, as gmsh numbers them
	mids := map[[2]int]plane.Point{}
	alike := map[int][]string{} // points by the size of elements about them, in powers of the root of 2
	count := 0
	list := rings(s, size)
	for _, r := range list {
		start := len(corners)
		for k, p := range r.at {
			corners = append(corners, p)
			q, grows := d.on(p)
			fmt.Fprintf(&geo, "Point(%d) = {%.12g, %.12g, 0};\n", len(corners), q.X, q.Y)
			class := int(math.Round(2 * math.Log2(r.size[k]*grows)))
			alike[class] = append(alike[class], fmt.Sprint(len(corners)))
			to := start + (k+1)%len(r.at)
			a, b := min(start+k, to), max(start+k, to)
			mids[[2]int{a, b}] = r.mid[k]
		}
		for k := range r.at {
			count++
			fmt.Fprintf(&geo, "Line(%d) = {%d, %d};\n", count, start+k+1, start+(k+1)%len(r.at)+1)
		}
	}
	fmt.Fprintf(&geo, "Transfinite Line {1:%d} = 2;\n", count)
	start := 0
	var loops []string
	for i, r := range list {
		fmt.Fprintf(&geo, "Line Loop(%d) = {%d:%d};\n", i+1, start+1, start+len(r.at))
		start += len(r.at)
		loops = append(loops, fmt.Sprint(i+1))
	}
	fmt.Fprintf(&geo, "Plane Surface(1) = {%s};\nPhysical Surface(1) = {1};\n", strings.Join(loops, ", "))
	// Elements grow from the edges inwards by 0.9 mm a mm.
	var fields []string
	for _, class := range slices.Sorted(maps.Keys(alike)) {
		n, h := 2*len(fields)+1, math.Min(math.Pow(2, float64(class)/2), size.most)
		fmt.Fprintf(&geo, "Field[%d] = Distance;\nField[%d].PointsList = {%s};\n", n, n, strings.Join(alike[class], ", "))
		fmt.Fprintf(&geo, "Field[%d] = Threshold;\nField[%d].InField = %d;\nField[%d].SizeMin = %.6g;\nField[%d].SizeMax = %g;\nField[%d].DistMin = 0;\nField[%d].DistMax = %.6g;\n",
			n+1, n+1, n, n+1, h, n+1, size.most, n+1, n+1, (size.most-h)/0.9+1e-3)
		fields = append(fields, fmt.Sprint(n+1))
	}
	fmt.Fprintf(&geo, "Field[%d] = Min;\nField[%d].FieldsList = {%s};\nBackground Field = %d;\n", 2*len(fields)+1, 2*len(fields)+1, strings.Join(fields, ", "), 2*len(fields)+1)
	geo.WriteString("Mesh.MeshSizeExtendFromBoundary = 0;\nMesh.MeshSizeFromPoints = 0;\nMesh.Algorithm = 6;\nMesh.MshFileVersion = 2.2;\nGeneral.NumThreads = 1;\n")
	file := filepath.Join(dir, name+".geo")
	if err := os.WriteFile(file, geo.Bytes(), 0o666); err != nil {
		return nil, err
	}
	if out, err := exec.Command("gmsh", "-2", "-v", "2", "-o", filepath.Join(dir, name+".msh"), file).CombinedOutput(); err != nil {
		return nil, fmt.Errorf("gmsh: %w: %s", err, out)
	}
	points, tri, err := readMesh(filepath.Join(dir, name+".msh"))
	if err != nil {
		return nil, err
	}
	m := &mesh{flat: s.Flat}
	number := make([]int, len(points))
	straight := make([]plane.Point, 0, len(points))
	for i := range number {
		number[i] = -1
	}
	node := func(i int) (int, error) {
		if number[i] < 0 {
			number[i] = len(m.blank)
			p := d.blank(d.off(points[i]))
			if i < len(corners) {
				p = corners[i]
				if q, grows := d.on(p); q.Dist(points[i]) > 1e-6*grows {
					return 0, fmt.Errorf("gmsh moved point %d", i+1)
				}
			}
			m.blank = append(m.blank, p)
			straight = append(straight, d.straight(p))
		}
		return number[i], nil
	}
	for i := range tri {
		t := &tri[i]
		a, b, c := points[t[0]], points[t[1]], points[t[2]]
		if b.Sub(a).Cross(c.Sub(a)) < 0 {
			t[1], t[2] = t[2], t[1]
		}
		var e [6]int
		for k := range 3 {
			if e[k], err = node(t[k]); err != nil {
				return nil, err
			}
		}
		m.elements = append(m.elements, e)
	}
	// Nodes half way stand after the corners.
	half := map[[2]int]int{}
	for i, t := range tri {
		e := &m.elements[i]
		for k := range 3 {
			a, b := t[k], t[(k+1)%3]
			side := [2]int{min(a, b), max(a, b)}
			n, ok := half[side]
			if !ok {
				n = len(m.blank)
				half[side] = n
				p, edge := mids[side]
				if !edge {
					p = d.between(straight[number[a]], straight[number[b]])
				}
				m.blank = append(m.blank, p)
			}
			e[3+k] = n
		}
	}
	m.bend()
	return m, nil
}

// readMesh reads the nodes and triangles of a file of gmsh's format 2.2.
func readMesh(file string) (points []plane.Point, tri [][3]int, err error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, nil, err
	}
	defer f.Close()
	in := bufio.NewScanner(f)
	section := ""
	for in.Scan() {
		line := in.Text()
		if strings.HasPrefix(line, "$") {
			section = line
			continue
		}
		switch section {
		case "$Nodes":
			var n int
			var x, y, z float64
			if k, _ := fmt.Sscan(line, &n, &x, &y, &z); k != 4 {
				continue
			}
			for len(points) < n {
				points = append(points, plane.Point{})
			}
			points[n-1] = plane.Pt(x, y)
		case "$Elements":
			var n, kind, tags, x, y, a, b, c int
			if k, _ := fmt.Sscan(line, &n, &kind, &tags, &x, &y, &a, &b, &c); k == 8 && kind == 2 && tags == 2 {
				tri = append(tri, [3]int{a - 1, b - 1, c - 1})
			}
		}
	}
	if len(tri) == 0 {
		return nil, nil, fmt.Errorf("%s: gmsh made no triangles", file)
	}
	return points, tri, in.Err()
}
