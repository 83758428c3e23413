package cut

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"fretband/export"
	"fretband/unroll/plane"
)

// readSVGBack reads a cut file in SVG. Points come with y up, the corner of the paper
// as origin.
func readSVGBack(data []byte, o export.Options) (readBack, error) {
	back := readBack{paper: plane.EmptyBox()}
	var group string
	var inside []string // the elements that are open
	var text strings.Builder
	ids := map[string]bool{}
	d := xml.NewDecoder(bytes.NewReader(data))
	for {
		token, err := d.RawToken()
		if err == io.EOF {
			break
		}
		if err != nil {
			return back, err
		}
		switch e := token.(type) {
		case xml.CharData:
			text.Write(e)
		case xml.EndElement:
			n := len(inside) - 1
			if n < 0 || inside[n] != e.Name.Local {
				return back, fmt.Errorf("element %q ends where it is not open", e.Name.Local)
			}
			if inside = inside[:n]; e.Name.Local == "g" {
				group = ""
			}
		case xml.StartElement:
			var id, path string
			for _, a := range e.Attr {
				switch a.Name.Local {
				case "id":
					id = a.Value
				case "d":
					path = a.Value
				case "transform", "style", "href":
					return back, fmt.Errorf("%s %q: must not have %s", e.Name.Local, id, a.Name.Local)
				}
			}
			if id != "" && ids[id] {
				return back, fmt.Errorf("the name %q stands twice", id)
			}
			ids[id] = true
			switch e.Name.Local {
			case "svg":
				if back.paper, err = svgPaper(e.Attr); err != nil {
					return back, err
				}
			case "g":
				if len(inside) != 1 {
					return back, fmt.Errorf("group %q lies in another", id)
				}
				group = id
			case "path":
				l, err := svgName(group, id)
				if err != nil {
					return back, err
				}
				if l.edges, l.closed, err = readPathData(path); err != nil {
					return back, fmt.Errorf("path %q: %w", id, err)
				}
				back.lines = append(back.lines, l)
			case "text":
				if o.Words != export.WordsDrawn || group != groupWords {
					return back, fmt.Errorf("words are drawn in group %q: must be in the description alone unless they are asked for", group)
				}
				text.WriteByte('\n')
			case "title", "desc":
				text.WriteByte('\n')
			default:
				return back, fmt.Errorf("element %q does not belong in a cut file", e.Name.Local)
			}
			inside = append(inside, e.Name.Local)
		}
	}
	if len(inside) != 0 || back.paper.Empty() {
		return back, fmt.Errorf("the file is not whole")
	}
	if !strings.Contains(words(text.String()), "Units: millimetres") {
		return back, fmt.Errorf("units: the description does not say that they are millimetres")
	}
	return back, nil
}

// svgPaper returns the size of the paper, and checks that a user unit is a millimetre.
func svgPaper(attrs []xml.Attr) (plane.Box, error) {
	at := map[string]string{}
	for _, a := range attrs {
		at[a.Name.Local] = a.Value
	}
	w, wide := strings.CutSuffix(at["width"], "mm")
	h, high := strings.CutSuffix(at["height"], "mm")
	if !wide || !high || at["viewBox"] != "0 0 "+w+" "+h {
		return plane.EmptyBox(), fmt.Errorf("units: width %q, height %q, viewBox %q: a user unit must be 1 mm", at["width"], at["height"], at["viewBox"])
	}
	x, err := strconv.ParseFloat(w, 64)
	y, err2 := strconv.ParseFloat(h, 64)
	if err != nil || err2 != nil || !(x > 0 && y > 0) {
		return plane.EmptyBox(), fmt.Errorf("width %q, height %q: must be over 0 mm", at["width"], at["height"])
	}
	return plane.Box{Min: plane.Pt(0, -y), Max: plane.Pt(x, 0)}, nil
}

// svgName says by its group and name what a path is.
func svgName(group, id string) (line, error) {
	l := line{copy: 1, named: true}
	inGroup, name := group, id
	for _, part := range []*string{&inGroup, &name} {
		rest, ok := strings.CutPrefix(*part, "copy-")
		if !ok {
			continue
		}
		n, after, ok := strings.Cut(rest, "-")
		c, err := strconv.Atoi(n)
		if !ok || err != nil || c < 1 {
			return l, fmt.Errorf("path %q in group %q: no copy of that name", id, group)
		}
		if part == &name && inGroup != group && c != l.copy {
			return l, fmt.Errorf("path %q lies in group %q", id, group)
		}
		l.copy, *part = c, after
	}
	kind, rest, _ := strings.Cut(name, "-")
	number, rest, _ := strings.Cut(rest, "-")
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 {
		return l, fmt.Errorf("path %q: no number in its name", id)
	}
	l.number = n
	switch {
	case inGroup == "openings" && kind == "opening":
		l.as = forOpening
	case inGroup == "outline" && kind == "outline":
		l.as, l.number = forOutline, 0
	case inGroup == "engrave-not-cut" && kind == "mark":
		l.as = forEngraving
		return l, nil
	case inGroup == "engrave-inside-not-cut" && kind == "mark":
		l.as = forEngravingInside
		return l, nil
	default:
		return l, fmt.Errorf("path %q does not belong in group %q", id, group)
	}
	if rest != "" && !strings.HasPrefix(rest, "run-") {
		return l, fmt.Errorf("path %q: not a name that a cut file has", id)
	}
	return l, nil
}

// readPathData reads absolute M, L, A and Z (SVG 1.1, 8.3), one line a path, y turned
// up. Arcs are of circles, at most half a turn, and as high over their chord as ends
// and radius make them (F.6.5, F.6.6).
func readPathData(d string) (es plane.Chain, closed bool, err error) {
	es = make(plane.Chain, 0, strings.Count(d, "L")+strings.Count(d, "A")+1)
	var start, at plane.Point
	for i := 0; len(d) > 0; i++ {
		letter := d[0]
		end := strings.IndexAny(d[1:], "MLAZ") + 1
		if end == 0 {
			end = len(d)
		}
		var buf [7]float64
		n, err := numbers(buf[:0], d[1:end])
		if err != nil {
			return nil, false, err
		}
		d = d[end:]
		if (letter == 'M') != (i == 0) || closed {
			return nil, false, fmt.Errorf("%c is step %d: one line from M to Z makes a path", letter, i+1)
		}
		var to plane.Point
		var bulge float64
		switch {
		case letter == 'M' && len(n) == 2:
			start = plane.Pt(n[0], -n[1])
			at = start
			continue
		case letter == 'L' && len(n) == 2:
			to = plane.Pt(n[0], -n[1])
		case letter == 'A' && len(n) == 7 && n[0] == n[1] && n[0] > 0 && n[2] == 0 && n[3] == 0 && (n[4] == 0 || n[4] == 1):
			to = plane.Pt(n[5], -n[6])
			half := at.Dist(to) / 2
			if half > n[0]*(1+1e-6)+1e-9 {
				return nil, false, fmt.Errorf("step %d: a radius of %v mm does not reach over a chord of %v mm", i+1, n[0], 2*half)
			}
			// tan of a quarter of the sweep, with sin(sweep/2) = half/radius.
			s := math.Min(half/n[0], 1)
			if half > n[0]-2e-13 { // half a turn, as exactly as the digits say
				s = 1
			}
			bulge = s / (1 + math.Sqrt((1-s)*(1+s)))
			if n[4] == 1 { // a positive angle with y down is clockwise with y up
				bulge = -bulge
			}
		case letter == 'Z' && len(n) == 0:
			closed = true
			if at == start {
				continue
			}
			to = start
		default:
			return nil, false, fmt.Errorf("step %d: %c with %d numbers %v", i+1, letter, len(n), n)
		}
		es = append(es, plane.Edge{A: at, B: to, Bulge: bulge})
		at = to
	}
	return es, closed, nil
}

// numbers appends the numbers in a text, which are separated by spaces.
func numbers(out []float64, text string) ([]float64, error) {
	for text != "" {
		var one string
		one, text, _ = strings.Cut(text, " ")
		v, err := strconv.ParseFloat(one, 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, fmt.Errorf("%.30q is no number", one)
		}
		out = append(out, v)
	}
	return out, nil
}
