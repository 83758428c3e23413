package own

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"fretband/unroll/plane"
)

// DXF reads an ASCII DXF file: closed polylines of either kind with their arcs,
// circles, ellipses, and chains of lines, arcs and open polylines whose ends
// meet. Group numbers as in the open description of the format: 10/20 and 11/21
// points, 40 a radius or ratio, 42 a bulge or end, 50/51 angles in degrees, 70
// flags, 230 the direction of the plane's normal.
func DXF(data []byte) (Shape, error) {
	if bytes.IndexByte(data, 0) >= 0 {
		return Shape{}, errors.New("the DXF file is binary; save it as ASCII")
	}
	ents, unit, err := entities(data)
	if err != nil {
		return Shape{}, err
	}
	var curves []curve
	var order []string
	left := map[string]int{}
	for i := 0; i < len(ents); i++ {
		e := ents[i]
		c := curve{name: fmt.Sprintf("%s at line %d", e.kind, e.line)}
		mirrored := e.num(230, 1) < 0 // drawn on the plane's back: x is turned round
		if r := e.num(40, 0); r < 0 && (e.kind == "CIRCLE" || e.kind == "ARC") {
			return Shape{}, fmt.Errorf("%s: its radius is %g; it must not be negative", c.name, r)
		}
		switch e.kind {
		case "LINE":
			c.pieces = []piece{line(e.point(10), e.point(11))}
			mirrored = false
		case "CIRCLE":
			c.closed = true
			c.pieces = []piece{ring(e.point(10), e.num(40, 0), e.num(40, 0))}
		case "ARC":
			p := ring(e.point(10), e.num(40, 0), e.num(40, 0))
			p.t0, p.t1 = e.num(50, 0)*math.Pi/180, e.num(51, 0)*math.Pi/180
			if p.t1 <= p.t0 {
				p.t1 += 2 * math.Pi // always counter-clockwise
			}
			c.pieces = []piece{p}
		case "ELLIPSE":
			u := e.point(11)
			v := u.Left().Mul(e.num(40, 1))
			if mirrored {
				v = v.Mul(-1)
			}
			p := piece{c: e.point(10), u: u, v: v, t0: e.num(41, 0), t1: e.num(42, 2*math.Pi)}
			if p.t1 <= p.t0 {
				p.t1 += 2 * math.Pi
			}
			c.closed = p.t1-p.t0 > 2*math.Pi-1e-6
			c.pieces = []piece{p}
			mirrored = false
		case "LWPOLYLINE":
			c.closed = int(e.num(70, 0))&1 != 0
			c.pieces = polyline(e.vertices(), c.closed)
		case "POLYLINE":
			flags := int(e.num(70, 0))
			if flags&(8|16|64) != 0 {
				return Shape{}, fmt.Errorf("%s is a polyline in space or a mesh; draw it flat", c.name)
			}
			if flags&(2|4) != 0 {
				return Shape{}, fmt.Errorf("%s has a curve fitted to it; explode it into lines and arcs", c.name)
			}
			var vs []plane.Vertex
			for i+1 < len(ents) && ents[i+1].kind == "VERTEX" {
				i++
				vs = append(vs, plane.Vertex{Point: ents[i].point(10), Bulge: ents[i].num(42, 0)})
			}
			c.closed = flags&1 != 0
			c.pieces = polyline(vs, c.closed)
		case "SEQEND", "VERTEX", "POINT":
			continue
		case "SPLINE":
			return Shape{}, fmt.Errorf("%s: splines are not read from a DXF; convert it to a polyline with arcs, or save the drawing as SVG", c.name)
		default:
			if left[e.kind] == 0 {
				order = append(order, e.kind)
			}
			left[e.kind]++
			continue
		}
		if len(c.pieces) == 0 {
			continue
		}
		m := affine{a: unit, d: unit}
		if mirrored {
			m.a = -unit
		}
		curves = append(curves, c.through(m))
	}
	var notes []string
	for _, k := range order {
		notes = append(notes, fmt.Sprintf("Left out: %d %s; explode them into lines and arcs.", left[k], k))
	}
	return choose(curves, notes)
}

// polyline returns the pieces between vertices, and from the last to the first if
// it is closed.
func polyline(vs []plane.Vertex, closed bool) []piece {
	n := len(vs) - 1
	if closed {
		n = len(vs)
	}
	var ps []piece
	for i := range max(n, 0) {
		a, b := vs[i], vs[(i+1)%len(vs)]
		if a.Point == b.Point {
			continue
		}
		if math.Abs(a.Bulge) < 1e-7 { // no arc that a drawing could show
			ps = append(ps, line(a.Point, b.Point))
			continue
		}
		// The bulge is the tangent of a quarter of the arc's angle.
		e := plane.Edge{A: a.Point, B: b.Point, Bulge: a.Bulge}
		c := e.Centre()
		u := a.Point.Sub(c)
		ps = append(ps, piece{c: c, u: u, v: u.Left(), t1: 4 * math.Atan(a.Bulge)})
	}
	return ps
}

// entity is one entity of the file: its groups in order.
type entity struct {
	kind   string
	line   int // of the file, from 1
	groups []group
}

type group struct {
	code  int
	value string
}

// num returns the first number of a group, or what stands for it if there is none.
func (e entity) num(code int, otherwise float64) float64 {
	for _, g := range e.groups {
		if g.code == code {
			return number(g.value)
		}
	}
	return otherwise
}

func (e entity) point(code int) plane.Point { return plane.Pt(e.num(code, 0), e.num(code+10, 0)) }

// vertices returns those of a light polyline: each begins with its group 10.
func (e entity) vertices() []plane.Vertex {
	var vs []plane.Vertex
	for _, g := range e.groups {
		if g.code == 10 {
			vs = append(vs, plane.Vertex{Point: plane.Pt(number(g.value), 0)})
		}
		if len(vs) == 0 {
			continue
		}
		switch v := &vs[len(vs)-1]; g.code {
		case 20:
			v.Y = number(g.value)
		case 42:
			v.Bulge = number(g.value)
		}
	}
	return vs
}

// number returns NaN, which choose refuses, for what is none.
func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// entities returns the entities of the section ENTITIES, and how many mm the
// drawing's unit has ($INSUNITS: 1 inch, 2 foot, 4 mm, 5 cm, 6 m; memory), 1 if
// it names none.
func entities(data []byte) ([]entity, float64, error) {
	lines := strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(string(data)), "\n")
	var out []entity
	unit := 1.0
	section, header := "", ""
	opening, found := false, false
	for i := 0; i+1 < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		if err != nil {
			return nil, 0, fmt.Errorf("the DXF file can't be read: line %d should be a group number and is %.20q", i+1, lines[i])
		}
		v := strings.TrimSpace(lines[i+1])
		switch {
		case code == 0 && v == "SECTION":
			opening = true
		case code == 0 && (v == "ENDSEC" || v == "EOF"):
			section = ""
		case opening && code == 2:
			section, opening = v, false
			found = found || v == "ENTITIES"
		case section == "HEADER" && code == 9:
			header = v
		case section == "HEADER" && header == "$INSUNITS" && code == 70:
			if u, ok := map[string]float64{"1": 25.4, "2": 304.8, "4": 1, "5": 10, "6": 1000}[v]; ok {
				unit = u
			}
		case section == "ENTITIES" && code == 0:
			out = append(out, entity{kind: v, line: i + 1})
		case section == "ENTITIES" && len(out) > 0:
			e := &out[len(out)-1]
			e.groups = append(e.groups, group{code, v})
		}
	}
	if !found {
		return nil, 0, errors.New("the DXF file has no section ENTITIES: nothing is drawn in it")
	}
	return out, unit, nil
}
