package solid

import (
	"bufio"
	"cmp"
	"encoding/binary"
	"io"
	"math"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
)

// WriteSTL writes the bent band as binary STL: a header of 80 bytes that must not
// begin with "solid", the number of triangles, and for each its normal, its
// three corners counter-clockwise seen from outside, and an unused word; all
// little-endian (3D Systems' StereoLithography Interface Specification, 1989, as
// described by M. Burns, "Automated Fabrication", 1993, section 6.5). The format
// knows no units: the header says millimetres, the usual reading.
func WriteSTL(w io.Writer, s *pattern.Sheet, r *check.Report, _ export.Options) error {
	corners, triangles, err := solidOf(s, r)
	if err != nil {
		return err
	}
	out := bufio.NewWriterSize(w, 1<<16)
	var head [84]byte
	copy(head[:80], stlHead(s))
	binary.LittleEndian.PutUint32(head[80:], uint32(len(triangles)))
	out.Write(head[:])
	var rec [50]byte
	for _, t := range triangles {
		a, b, c := corners[t.V[0]], corners[t.V[1]], corners[t.V[2]]
		for i, p := range [4]corner{facing(a, b, c), a, b, c} {
			for k := range 3 {
				binary.LittleEndian.PutUint32(rec[12*i+4*k:], math.Float32bits(p[k]))
			}
		}
		out.Write(rec[:])
	}
	return out.Flush()
}

// stlHead is the header's text: at most 79 letters, the last of them the tag.
func stlHead(s *pattern.Sheet) string {
	shows := "flat sheet"
	if s.Design.Band.Making == unroll.Formed {
		shows = cmp.Or(s.Design.Band.Drawn, unroll.MiddleFace) + " face drawn"
	}
	words := "mm, finished size, " + shows + "; "
	return words + export.TagOf(s.Design, 79-len(words)) // one is left to end it
}

// facing returns the unit normal of a triangle, zero if rounding left it no area.
func facing(a, b, c corner) corner {
	d := func(p corner, k int) float64 { return float64(p[k]) - float64(a[k]) }
	x := d(b, 1)*d(c, 2) - d(b, 2)*d(c, 1)
	y := d(b, 2)*d(c, 0) - d(b, 0)*d(c, 2)
	z := d(b, 0)*d(c, 1) - d(b, 1)*d(c, 0)
	l := math.Sqrt(x*x + y*y + z*z)
	if l == 0 {
		return corner{}
	}
	return corner{float32(x/l) + 0, float32(y/l) + 0, float32(z/l) + 0}
}
