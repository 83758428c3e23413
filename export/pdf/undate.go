package pdf

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
)

var packedStream = regexp.MustCompile(`^\d+ 0 obj\n<</Filter/FlateDecode/Length (\d+)>>\s*stream\r?\n`)

// undateFonts removes the date from the fonts that stand before tail: the font library
// writes it into each, and the same design has to give the same bytes. It returns what is
// before tail and moves the places of the objects there.
func undateFonts(file []byte, offsets []int, tail int) []byte {
	var order []int
	for n, p := range offsets {
		if n > 0 && p < tail {
			order = append(order, n)
		}
	}
	slices.SortFunc(order, func(a, b int) int { return offsets[a] - offsets[b] })
	var out bytes.Buffer
	at := 0
	for i, n := range order {
		out.Write(file[at:offsets[n]])
		at = offsets[n]
		end := tail
		if i+1 < len(order) {
			end = offsets[order[i+1]]
		}
		offsets[n] = out.Len()
		out.Write(undateObject(file[at:end]))
		at = end
	}
	out.Write(file[at:tail])
	return out.Bytes()
}

// undateObject returns the object with the date of the font in it set to nothing,
// or the object itself if it is no font.
func undateObject(o []byte) []byte {
	m := packedStream.FindSubmatchIndex(o)
	if m == nil {
		return o
	}
	n, err := strconv.Atoi(string(o[m[2]:m[3]]))
	if err != nil || m[1]+n > len(o) {
		return o
	}
	z, err := zlib.NewReader(bytes.NewReader(o[m[1] : m[1]+n]))
	if err != nil {
		return o
	}
	font, err := io.ReadAll(z)
	if err != nil || !undate(font) {
		return o
	}
	var packed bytes.Buffer
	w := zlib.NewWriter(&packed)
	if _, err := w.Write(font); err != nil || w.Close() != nil {
		return o
	}
	var out bytes.Buffer
	out.Write(o[:m[2]])
	fmt.Fprint(&out, packed.Len())
	out.Write(o[m[3]:m[1]])
	out.Write(packed.Bytes())
	out.Write(o[m[1]+n:])
	return out.Bytes()
}

// undate sets the field "modified" of a TrueType font's head table to 0 and the
// two sums that cover it anew (OpenType 1.9, tables head and directory). It
// reports whether font is one.
func undate(font []byte) bool {
	be := binary.BigEndian
	if len(font) < 12 || be.Uint32(font) != 0x00010000 {
		return false
	}
	for i := range int(be.Uint16(font[4:])) {
		rec := 12 + 16*i
		if rec+16 > len(font) {
			return false
		}
		off, size := int(be.Uint32(font[rec+8:])), int(be.Uint32(font[rec+12:]))
		if string(font[rec:rec+4]) != "head" || size < 54 || off+(size+3)/4*4 > len(font) {
			continue
		}
		clear(font[off+8 : off+12])
		clear(font[off+28 : off+36])
		be.PutUint32(font[rec+4:], sum32(font[off:off+(size+3)/4*4]))
		be.PutUint32(font[off+8:], 0xB1B0AFBA-sum32(font))
		return true
	}
	return false
}

// sum32 adds up big-endian words; a last one cut short is filled with zeros.
func sum32(b []byte) (s uint32) {
	for ; len(b) >= 4; b = b[4:] {
		s += binary.BigEndian.Uint32(b)
	}
	var last [4]byte
	copy(last[:], b)
	return s + binary.BigEndian.Uint32(last[:])
}
