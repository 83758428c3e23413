package own

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"fretband/unroll/plane"
)

// SVG reads an SVG file: its paths, circles, ellipses, rectangles and polygons
// with their transforms. What is not shown is left out; an outline that is only
// stroked counts as its middle line, and an open one that is filled as closed by a
// straight line. Style sheets, units and the view box are not looked at.
func SVG(data []byte) (Shape, error) {
	dec := xml.NewDecoder(bytes.NewReader(data))
	dec.CharsetReader = func(label string, in io.Reader) (io.Reader, error) {
		return nil, fmt.Errorf("the SVG file is encoded as %.40q; save it as UTF-8", label)
	}
	maps, paints := []affine{same}, []paint{firstPaint(data)}
	var curves []curve
	left := map[string]int{} // elements that can't be read
	order := []string{}      // of left
	seen, hidden := 0, 0     // hidden is how deep within what is not drawn
	unseen := 0
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return Shape{}, fmt.Errorf("the SVG file can't be read: %w", err)
		}
		switch e := tok.(type) {
		case xml.EndElement:
			maps, paints = maps[:len(maps)-1], paints[:len(paints)-1]
			if hidden > 0 {
				hidden--
			}
		case xml.StartElement:
			m := maps[len(maps)-1]
			if t := attr(e, "transform"); t != "" {
				own, err := transform(t)
				if err != nil {
					return Shape{}, fmt.Errorf("<%s>: %w", e.Name.Local, err)
				}
				m = m.after(own)
			}
			look := paints[len(paints)-1].within(e)
			maps, paints = append(maps, m), append(paints, look)
			if hidden > 0 {
				hidden++
				continue
			}
			if property(e, "display") == "none" {
				hidden = 1
				unseen++
				continue
			}
			switch e.Name.Local {
			case "defs", "clipPath", "mask", "symbol", "pattern", "marker", "metadata", "title", "desc", "style":
				hidden = 1
			case "use", "text", "image", "foreignObject":
				if left[e.Name.Local] == 0 {
					order = append(order, e.Name.Local)
				}
				left[e.Name.Local]++
			case "path", "circle", "ellipse", "rect", "polygon", "polyline", "line":
				seen++
				cs, err := element(e, fmt.Sprintf("%s %d", e.Name.Local, seen))
				if err != nil {
					return Shape{}, err
				}
				if !look.shows() {
					unseen++
					continue
				}
				for _, c := range cs {
					c.filled = look.fills() && e.Name.Local != "line"
					curves = append(curves, c.through(m))
				}
			}
		}
	}
	var notes []string
	for _, k := range order {
		notes = append(notes, fmt.Sprintf("Left out: %d <%s>; make paths of them.", left[k], k))
	}
	if unseen > 0 {
		notes = append(notes, fmt.Sprintf("Left out as not shown (hidden, or without fill and stroke): %d.", unseen))
	}
	return choose(upright(curves), notes)
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

// element returns the curves of one element.
func element(e xml.StartElement, name string) ([]curve, error) {
	var bad error
	num := func(key string) float64 {
		s := strings.TrimSuffix(strings.TrimSpace(attr(e, key)), "px")
		if s == "" {
			return 0
		}
		r := &pathReader{d: s}
		v, err := r.number(false)
		if err == nil && r.at < len(r.d) {
			err = fmt.Errorf("%.40q has a unit; only px are read", s)
		}
		if err != nil {
			bad = fmt.Errorf("%s: %s: %w", name, key, err)
		}
		return v
	}
	length := func(key string) float64 {
		r := num(key)
		if r < 0 && bad == nil {
			bad = fmt.Errorf("%s: %s: %g is negative; it must not be", name, key, r)
		}
		return r
	}
	one := func(closed bool, ps ...piece) ([]curve, error) {
		return []curve{{name: name, pieces: ps, closed: closed}}, bad
	}
	switch e.Name.Local {
	case "path":
		cs, err := readPath(attr(e, "d"), name+", curve")
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		return cs, nil
	case "circle":
		return one(true, ring(plane.Pt(num("cx"), num("cy")), length("r"), length("r")))
	case "ellipse":
		return one(true, ring(plane.Pt(num("cx"), num("cy")), length("rx"), length("ry")))
	case "line":
		return one(false, line(plane.Pt(num("x1"), num("y1")), plane.Pt(num("x2"), num("y2"))))
	case "rect":
		x, y, w, h := num("x"), num("y"), length("width"), length("height")
		rx, ry := length("rx"), length("ry")
		if attr(e, "ry") == "" {
			ry = rx
		}
		if attr(e, "rx") == "" {
			rx = ry
		}
		rx, ry = math.Max(0, math.Min(rx, w/2)), math.Max(0, math.Min(ry, h/2))
		d := fmt.Sprintf("M%g %gH%gA%g %g 0 0 1 %g %gV%gA%g %g 0 0 1 %g %gH%gA%g %g 0 0 1 %g %gV%gA%g %g 0 0 1 %g %gZ",
			x+rx, y, x+w-rx, rx, ry, x+w, y+ry, y+h-ry, rx, ry, x+w-rx, y+h, x+rx, rx, ry, x, y+h-ry, y+ry, rx, ry, x+rx, y)
		cs, err := readPath(d, name+", curve")
		if bad != nil {
			err = bad
		}
		return cs, err
	}
	// polygon, polyline: as a path of lines
	r := &pathReader{d: attr(e, "points")}
	var pts []plane.Point
	for r.space(); r.at < len(r.d); r.space() {
		x, err := r.number(false)
		if err == nil {
			var y float64
			y, err = r.number(false)
			pts = append(pts, plane.Pt(x, y))
		}
		if err != nil {
			return nil, fmt.Errorf("%s: points, place %d: %w", name, r.at+1, err)
		}
	}
	var ps []piece
	for i := 1; i < len(pts); i++ {
		ps = append(ps, line(pts[i-1], pts[i]))
	}
	return one(e.Name.Local == "polygon" && len(ps) > 0, ps...)
}

// transform reads a list of SVG transforms (W3C, SVG 1.1, chapter 7.6).
func transform(s string) (affine, error) {
	m := same
	for rest := strings.Trim(s, " \t\r\n,"); rest != ""; rest = strings.TrimLeft(rest, " \t\r\n,") {
		name, after, ok := strings.Cut(rest, "(")
		inside, after2, ok2 := strings.Cut(after, ")")
		if !ok || !ok2 {
			return m, fmt.Errorf("transform %.40q can't be read", s)
		}
		rest = after2
		name = strings.TrimSpace(name)
		r := &pathReader{d: inside}
		var v []float64
		for r.space(); r.at < len(r.d); r.space() {
			x, err := r.number(false)
			if err != nil {
				return m, fmt.Errorf("transform %.40q: %w", s, err)
			}
			v = append(v, x)
		}
		var t affine
		rad := math.Pi / 180
		switch n := len(v); {
		case name == "matrix" && n == 6:
			t = affine{v[0], v[1], v[2], v[3], v[4], v[5]}
		case name == "translate" && (n == 1 || n == 2):
			t = shift(plane.Pt(v[0], append(v, 0)[1]))
		case name == "scale" && (n == 1 || n == 2):
			t = affine{a: v[0], d: append(v, v[0])[1]}
		case name == "rotate" && (n == 1 || n == 3):
			sin, cos := math.Sincos(v[0] * rad)
			t = affine{a: cos, b: sin, c: -sin, d: cos}
			if n == 3 {
				p := plane.Pt(v[1], v[2])
				t = shift(p).after(t).after(shift(p.Mul(-1)))
			}
		case name == "skewX" && n == 1:
			t = affine{a: 1, c: math.Tan(v[0] * rad), d: 1}
		case name == "skewY" && n == 1:
			t = affine{a: 1, b: math.Tan(v[0] * rad), d: 1}
		default:
			return m, fmt.Errorf("transform %.40q: %.40q with %d numbers is not one of SVG's", s, name, n)
		}
		m = m.after(t)
	}
	return m, nil
}
