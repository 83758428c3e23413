package cut

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fretband/export"
	"fretband/unroll/plane"
)

// dxfReader goes through the pairs of a DXF file.
type dxfReader struct {
	rest  string
	said  strings.Builder // the comments
	row   int             // of the pair's first line, from 1
	code  int
	value string
}

// next reads a pair that is no comment; at the end of the text it is code -1.
func (d *dxfReader) next() error {
	for {
		if err := d.pair(); err != nil || d.code != dxfComment {
			return err
		}
		d.said.WriteString(d.value + "\n")
	}
}

func (d *dxfReader) pair() error {
	if d.rest == "" {
		d.code, d.value = -1, ""
		return nil
	}
	code, rest, ok := strings.Cut(d.rest, "\n")
	value, rest, ok2 := strings.Cut(rest, "\n")
	if !ok || !ok2 {
		return fmt.Errorf("row %d: a group without a value, or a last row without an end", d.row)
	}
	n, err := strconv.Atoi(strings.TrimLeft(code, " "))
	if err != nil || n < 0 {
		return fmt.Errorf("row %d: %.20q is no group code", d.row, code)
	}
	d.row += 2
	d.rest, d.code, d.value = rest, n, value
	return nil
}

func (d *dxfReader) wrong(format string, a ...any) error {
	return fmt.Errorf("row %d: %s", d.row-2, fmt.Sprintf(format, a...))
}

func (d *dxfReader) number() (float64, error) {
	v, err := strconv.ParseFloat(d.value, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, d.wrong("%.30q is no number", d.value)
	}
	return v, nil
}

// readDXFBack reads a cut file in DXF of the release that the options ask for.
func readDXFBack(data []byte, o export.Options) (readBack, error) {
	d := &dxfReader{rest: string(data), row: 1}
	back := readBack{paper: plane.EmptyBox()}
	header := map[string]string{}
	seen := map[string]bool{}
	if err := d.next(); err != nil {
		return back, err
	}
	for d.value != "EOF" {
		if d.code != 0 || d.value != "SECTION" {
			return back, d.wrong("group %d %.20q where a section should begin", d.code, d.value)
		}
		if err := d.next(); err != nil {
			return back, err
		}
		section := d.value
		if d.code != 2 || seen[section] {
			return back, d.wrong("section %.20q has no name or stands twice", section)
		}
		seen[section] = true
		if err := d.next(); err != nil {
			return back, err
		}
		variable := ""
		for d.code != 0 || d.value != "ENDSEC" {
			switch {
			case d.code < 0:
				return back, fmt.Errorf("section %s has no end", section)
			case section == "ENTITIES":
				if err := d.entity(&back, o); err != nil {
					return back, err
				}
				continue
			case section == "HEADER" && d.code == 9:
				variable = d.value
			case section == "HEADER" && header[variable] == "":
				header[variable] = d.value
			}
			if err := d.next(); err != nil {
				return back, err
			}
		}
		if err := d.next(); err != nil {
			return back, err
		}
	}
	if d.rest != "" {
		return back, d.wrong("something follows the end of the file")
	}
	if !seen["ENTITIES"] {
		return back, fmt.Errorf("the file has no section of entities")
	}
	return back, dxfSays(header, words(d.said.String()), o)
}

// dxfSays checks release and units.
func dxfSays(header map[string]string, comments string, o export.Options) error {
	release := "AC1015"
	if o.Curves == export.ArcsR12 || o.Curves == export.Chords {
		release = "AC1009"
	}
	if header["$ACADVER"] != release {
		return fmt.Errorf("release %q, must be %s", header["$ACADVER"], release)
	}
	if release == "AC1015" && (header["$INSUNITS"] != "4" || header["$MEASUREMENT"] != "1") {
		return fmt.Errorf("the header's units are %q in system %q, must be 4 (millimetres) in 1 (metric)", header["$INSUNITS"], header["$MEASUREMENT"])
	}
	if !strings.Contains(comments, "Units: millimetres") {
		return fmt.Errorf("units: no comment in the file says that they are millimetres")
	}
	return nil
}

// entity reads the entity that the reader is at, and leaves it at the next.
func (d *dxfReader) entity(back *readBack, o export.Options) error {
	kind := d.value
	if d.code != 0 {
		return d.wrong("group %d where an entity should begin", d.code)
	}
	switch kind {
	case "LWPOLYLINE", "LINE", "TEXT":
		v, err := d.groups(kind)
		if err != nil {
			return err
		}
		if kind == "TEXT" {
			if o.Words != export.WordsDrawn || v.layer != "NOTES_NOT_CUT" {
				return d.wrong("a text on layer %.40q: words are comments unless they are asked for", v.layer)
			}
			return nil
		}
		if kind == "LWPOLYLINE" && v.count != len(v.points) {
			return d.wrong("LWPOLYLINE of %d vertices says that it has %d", len(v.points), v.count)
		}
		return d.add(back, v)
	case "POLYLINE":
		v, err := d.groups(kind)
		if err != nil {
			return err
		}
		if !v.follow || len(v.points) != 1 || v.points[0].Point != (plane.Point{}) {
			return d.wrong("POLYLINE does not say that vertices follow (66), or has a place")
		}
		v.points = nil
		for d.code == 0 && d.value == "VERTEX" {
			x, err := d.groups("VERTEX")
			if err != nil {
				return err
			}
			if x.layer != v.layer || len(x.points) != 1 {
				return d.wrong("VERTEX on another layer than its POLYLINE, or without a place")
			}
			v.points = append(v.points, x.points[0])
		}
		if d.code != 0 || d.value != "SEQEND" {
			return d.wrong("POLYLINE without SEQEND")
		}
		if _, err := d.groups("SEQEND"); err != nil {
			return err
		}
		return d.add(back, v)
	}
	return d.wrong("entity %.20q does not belong in a cut file", kind)
}

// dxfEntity is what the groups of an entity say.
type dxfEntity struct {
	layer  string
	closed bool
	follow bool // group 66
	count  int  // group 90
	points plane.Loop
}

// dxfGroups lists the groups that an entity may have. Colour and line type are not
// among them: they belong to the layer.
var dxfGroups = map[string][]int{
	"LWPOLYLINE": {5, 330, 100, 8, 90, 70, 43, 10, 20, 42},
	"POLYLINE":   {8, 66, 70, 10, 20, 30},
	"VERTEX":     {8, 10, 20, 30, 42},
	"SEQEND":     {8},
	"LINE":       {5, 330, 100, 8, 10, 20, 30, 11, 21, 31},
	"TEXT":       {5, 330, 100, 8, 10, 20, 30, 40, 1},
}

// groups reads the groups of an entity up to the next.
func (d *dxfReader) groups(kind string) (v dxfEntity, err error) {
	allowed := dxfGroups[kind]
	yNext := false // an x must be followed by its y
	for {
		if err := d.next(); err != nil {
			return v, err
		}
		if d.code == 0 || d.code < 0 {
			break
		}
		known := false
		for _, c := range allowed {
			known = known || c == d.code
		}
		if !known {
			return v, d.wrong("group %d does not belong in %s", d.code, kind)
		}
		if yNext != (d.code == 20 || d.code == 21) {
			return v, d.wrong("group %d: an x without its y, or a y without its x", d.code)
		}
		yNext = false
		switch d.code {
		case 8:
			v.layer = d.value
		case 1:
			// What is drawn of the words is not looked at.
		case 66:
			v.follow = d.value == "1"
		case 70:
			if d.value != "0" && d.value != "1" {
				return v, d.wrong("flags %.20q: must be 1 (closed) or 0", d.value)
			}
			v.closed = d.value == "1"
		case 90:
			if v.count, err = strconv.Atoi(d.value); err != nil {
				return v, d.wrong("%.20q is no count", d.value)
			}
		case 10, 11, 20, 21, 30, 31, 42, 43:
			x, err := d.number()
			if err != nil {
				return v, err
			}
			n := len(v.points) - 1
			switch {
			case d.code == 10 || d.code == 11:
				v.points = append(v.points, plane.Vertex{Point: plane.Pt(x, 0)})
				yNext = true
			case d.code == 20 || d.code == 21:
				v.points[n].Y = x
			case d.code == 42 && n >= 0:
				v.points[n].Bulge = x
			case x != 0 || n < 0 && d.code != 43:
				return v, d.wrong("group %d of %s is %v: must be 0", d.code, kind, x)
			}
		}
	}
	if yNext {
		return v, d.wrong("%s: an x without its y", kind)
	}
	return v, nil
}

// add adds the line of an entity.
func (d *dxfReader) add(back *readBack, v dxfEntity) error {
	l := line{closed: v.closed}
	switch v.layer {
	case "OPENINGS":
		l.as = forOpening
	case "OUTLINE":
		l.as = forOutline
	case "ENGRAVE_NOT_CUT":
		l.as = forEngraving
	case "ENGRAVE_INSIDE_NOT_CUT":
		l.as = forEngravingInside
	default:
		return d.wrong("a line on layer %.40q", v.layer)
	}
	n := len(v.points)
	if n < 2 {
		return d.wrong("a line of %d vertices on layer %s", n, v.layer)
	}
	if !v.closed {
		n--
	}
	l.edges = make([]plane.Edge, n)
	for i := range l.edges {
		a, b := v.points[i], v.points[(i+1)%len(v.points)]
		l.edges[i] = plane.Edge{A: a.Point, B: b.Point, Bulge: a.Bulge}
	}
	back.lines = append(back.lines, l)
	return nil
}
