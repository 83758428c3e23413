package own

import (
	"fmt"
	"math"
	"strconv"

	"fretband/unroll/plane"
)

// Path reads the data of an SVG path (W3C, SVG 1.1, chapter 8.3), as it is in
// the attribute d. It counts as filled, as it is where nothing else is said.
func Path(d string) (Shape, error) {
	cs, err := readPath(d, "curve")
	if err != nil {
		return Shape{}, err
	}
	for i := range cs {
		cs[i].filled = true
	}
	return choose(upright(cs), nil)
}

// upright turns curves whose y points down.
func upright(cs []curve) []curve {
	for i := range cs {
		cs[i] = cs[i].through(affine{a: 1, d: -1})
	}
	return cs
}

// pathReader reads path data.
type pathReader struct {
	d  string
	at int
}

// numbersOf is how many numbers follow a command.
var numbersOf = map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'C': 6, 'S': 4, 'Q': 4, 'T': 2, 'A': 7, 'Z': 0}

// Pieces counts the lines, curves and moves of path data up to the first fault. It takes a
// hundredth of the time of reading them.
func Pieces(d string) int {
	r := &pathReader{d: d}
	pieces, numbers, each := 0, 0, 0
	for ; r.at < len(d); r.at++ {
		if r.more() {
			if _, err := r.number(each == 7 && (numbers%7 == 3 || numbers%7 == 4)); err != nil {
				return pieces
			}
			r.at--
			if numbers++; each > 0 && numbers%each == 0 {
				pieces++
			}
		} else if n, ok := numbersOf[d[r.at]&^0x20]; ok {
			each, numbers = n, 0
		}
	}
	return pieces
}

// readPath returns the curves of the data, named by name and a number from 1.
func readPath(d, name string) ([]curve, error) {
	r := &pathReader{d: d}
	var out []curve
	var pos, begin, ctrl plane.Point // ctrl is the last control point, mirrored by S and T
	var last byte                    // the last command, upper case
	for {
		r.space()
		if r.at >= len(d) {
			return out, nil
		}
		cmd := d[r.at]
		upper := cmd &^ 0x20
		n, ok := numbersOf[upper]
		if !ok || cmd < 'A' {
			return nil, fmt.Errorf("path data, place %d: %q is not a command; commands are M L H V C S Q T A Z", r.at+1, d[r.at:r.at+1])
		}
		if last == 0 && upper != 'M' {
			return nil, fmt.Errorf("path data, place %d: begins with %q; it must begin with M", r.at+1, cmd)
		}
		r.at++
		for again := false; ; again = true {
			var v [7]float64
			for i := range n {
				var err error
				if v[i], err = r.number(upper == 'A' && (i == 3 || i == 4)); err != nil {
					return nil, fmt.Errorf("path data, place %d: %q needs %d numbers: %w", r.at+1, cmd, n, err)
				}
			}
			origin := plane.Point{}
			if cmd >= 'a' {
				origin = pos
			}
			pt := func(i int) plane.Point { return plane.Pt(v[i], v[i+1]).Add(origin) }
			do := upper
			if again && do == 'M' {
				do = 'L' // further pairs are lines
			}
			if do != 'M' && do != 'Z' && (len(out) == 0 || out[len(out)-1].closed) {
				// After a close without a move the next curve begins where that one did.
				out = append(out, curve{name: fmt.Sprintf("%s %d", name, len(out)+1)})
			}
			draw := func(p piece) {
				c := &out[len(out)-1]
				c.pieces = append(c.pieces, p)
				pos = p.end()
			}
			switch do {
			case 'M':
				pos = pt(0)
				begin = pos
				out = append(out, curve{name: fmt.Sprintf("%s %d", name, len(out)+1)})
			case 'L':
				draw(line(pos, pt(0)))
			case 'H':
				draw(line(pos, plane.Pt(v[0]+origin.X, pos.Y)))
			case 'V':
				draw(line(pos, plane.Pt(pos.X, v[0]+origin.Y)))
			case 'C':
				ctrl = pt(2)
				draw(piece{ctrl: []plane.Point{pos, pt(0), ctrl, pt(4)}})
			case 'S':
				first := pos
				if last == 'C' || last == 'S' {
					first = pos.Mul(2).Sub(ctrl)
				}
				ctrl = pt(0)
				draw(piece{ctrl: []plane.Point{pos, first, ctrl, pt(2)}})
			case 'Q':
				ctrl = pt(0)
				draw(piece{ctrl: []plane.Point{pos, ctrl, pt(2)}})
			case 'T':
				if last == 'Q' || last == 'T' {
					ctrl = pos.Mul(2).Sub(ctrl)
				} else {
					ctrl = pos
				}
				draw(piece{ctrl: []plane.Point{pos, ctrl, pt(0)}})
			case 'A':
				draw(arcTo(pos, v[0], v[1], v[2]*math.Pi/180, v[3] != 0, v[4] != 0, pt(5)))
			case 'Z':
				if c := len(out) - 1; c >= 0 {
					out[c].closed = len(out[c].pieces) > 0
				}
				pos = begin
			}
			last = do
			r.space()
			if n == 0 || !r.more() {
				break
			}
		}
	}
}

// space skips white space and commas.
func (r *pathReader) space() {
	for r.at < len(r.d) {
		switch r.d[r.at] {
		case ' ', '\t', '\n', '\r', '\f', ',':
			r.at++
		default:
			return
		}
	}
}

// more reports whether a number follows.
func (r *pathReader) more() bool {
	if r.at >= len(r.d) {
		return false
	}
	c := r.d[r.at]
	return c >= '0' && c <= '9' || c == '.' || c == '-' || c == '+'
}

// number reads a number, or a flag: a single 0 or 1 that may be before the
// next number without space.
func (r *pathReader) number(flag bool) (float64, error) {
	r.space()
	if !r.more() {
		if r.at >= len(r.d) {
			return 0, fmt.Errorf("the data end before the last of them")
		}
		return 0, fmt.Errorf("%q is none", r.d[r.at:r.at+1])
	}
	if flag {
		c := r.d[r.at]
		if c != '0' && c != '1' {
			return 0, fmt.Errorf("%q is no flag, which is 0 or 1", r.d[r.at:r.at+1])
		}
		r.at++
		return float64(c - '0'), nil
	}
	i := r.at
	digits := func() {
		for i < len(r.d) && r.d[i] >= '0' && r.d[i] <= '9' {
			i++
		}
	}
	if r.d[i] == '+' || r.d[i] == '-' {
		i++
	}
	digits()
	if i < len(r.d) && r.d[i] == '.' {
		i++
		digits()
	}
	if i < len(r.d) && (r.d[i] == 'e' || r.d[i] == 'E') {
		e := i
		i++
		if i < len(r.d) && (r.d[i] == '+' || r.d[i] == '-') {
			i++
		}
		from := i
		if digits(); i == from {
			i = e // not an exponent
		}
	}
	v, err := strconv.ParseFloat(r.d[r.at:i], 64)
	if err != nil {
		return 0, fmt.Errorf("%.40q is none", r.d[r.at:i])
	}
	r.at = i
	return v, nil
}

// arcTo returns the arc of an ellipse from a to b with half-axes rx and ry, turned
// by phi, of which large and sweep choose one of four (W3C, SVG 1.1, appendix
// F.6.5, "Conversion from endpoint to center parameterization"; out-of-range
// radii as in F.6.6).
func arcTo(a plane.Point, rx, ry, phi float64, large, sweep bool, b plane.Point) piece {
	rx, ry = math.Abs(rx), math.Abs(ry)
	if rx == 0 || ry == 0 || a == b {
		return line(a, b)
	}
	h := a.Sub(b).Mul(0.5).Turn(-phi)
	if k := math.Hypot(h.X/rx, h.Y/ry); k > 1 {
		rx, ry = rx*k, ry*k
	}
	x, y := h.X/rx, h.Y/ry // on the circle of radius 1
	k := math.Sqrt(math.Max(0, 1/(x*x+y*y)-1))
	if large == sweep {
		k = -k
	}
	cx, cy := k*y, -k*x
	c := plane.Pt(cx*rx, cy*ry).Turn(phi).Add(a.Mid(b))
	t0 := math.Atan2(y-cy, x-cx)
	t1 := math.Atan2(-y-cy, -x-cx)
	switch {
	case sweep && t1 <= t0:
		t1 += 2 * math.Pi
	case !sweep && t1 >= t0:
		t1 -= 2 * math.Pi
	}
	return piece{c: c, u: plane.Pt(rx, 0).Turn(phi), v: plane.Pt(0, ry).Turn(phi), t0: t0, t1: t1}
}
