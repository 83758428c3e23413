package cut

import (
	"strings"

	"fretband/unroll/plane"
)

// The DXF of release 12 (AC1009), which old machines and small programs read: no
// handles, no LWPOLYLINE but POLYLINE with a VERTEX each, arcs as bulges all the
// same. A header of that release can't name a unit; the notes do.

// openR12 writes what stands before the entities. Only what is referred to is
// needed: a line type and the layers.
func (d *dxf) openR12(ext plane.Box, layers []dxfLayer) {
	d.section("HEADER")
	d.pair(9, "$ACADVER")
	d.pair(1, "AC1009")
	d.extents(ext)
	d.decimals()
	d.endSection()

	d.section("TABLES")
	table := func(name string, n int) {
		d.pair(0, "TABLE")
		d.pair(2, name)
		d.num(70, n)
	}
	table("LTYPE", 1)
	d.pair(0, "LTYPE")
	d.pair(2, "CONTINUOUS")
	d.num(70, 0)
	d.pair(3, "Solid line")
	d.num(72, 65)
	d.num(73, 0)
	d.real(40, 0)
	d.pair(0, "ENDTAB")
	table("LAYER", len(layers))
	for _, l := range layers {
		d.pair(0, "LAYER")
		d.pair(2, l.name)
		d.num(70, 0)
		d.num(62, l.colour)
		d.pair(6, "CONTINUOUS")
	}
	d.pair(0, "ENDTAB")
	d.endSection()
}

func (d *dxf) beginR12(kind, layer string) {
	d.pair(0, kind)
	d.pair(8, layer)
}

// verticesR12 writes a line as POLYLINE.
func (d *dxf) verticesR12(layer string, l plane.Loop, closed bool) {
	d.beginR12("POLYLINE", layer)
	d.num(66, 1) // vertices follow
	d.point3(10, 0, 0, 0)
	if closed {
		d.num(70, 1)
	} else {
		d.num(70, 0)
	}
	for i, v := range l {
		d.beginR12("VERTEX", layer)
		d.point3(10, v.X, v.Y, 0)
		if v.Bulge != 0 && (closed || i < len(l)-1) {
			d.bulge(v.Bulge)
		}
	}
	d.beginR12("SEQEND", layer)
}

// latin lists letters beyond seven bits and what is written for them.
var latin = strings.NewReplacer(latinPairs()...)

func latinPairs() []string {
	ps := []string{
		"³", "3", "²", "2", "¹", "1", "µ", "u", "μ", "u", "×", "x", "÷", "/", "±", "+/-", "·", ".",
		"°", " deg", "º", " deg", "½", "1/2", "¼", "1/4", "¾", "3/4", "⌀", "dia. ",
		"–", "-", "—", "-", "−", "-", "‘", "'", "’", "'", "“", "\"", "”", "\"", "«", "\"", "»", "\"", "…", "...",
		"€", "EUR", "£", "GBP", "¥", "JPY", "\u00a0", " ", "\u202f", " ",
		"ß", "ss", "Æ", "AE", "æ", "ae", "Œ", "OE", "œ", "oe", "Þ", "Th", "þ", "th",
	}
	for _, row := range []struct{ plain, letters string }{
		{"A", "ÀÁÂÃÄÅĀĂĄ"}, {"a", "àáâãäåāăą"}, {"C", "ÇĆĈĊČ"}, {"c", "çćĉċč"}, {"D", "ĎĐÐ"}, {"d", "ďđð"},
		{"E", "ÈÉÊËĒĔĖĘĚ"}, {"e", "èéêëēĕėęě"}, {"G", "ĜĞĠĢ"}, {"g", "ĝğġģ"}, {"H", "ĤĦ"}, {"h", "ĥħ"},
		{"I", "ÌÍÎÏĨĪĬĮİ"}, {"i", "ìíîïĩīĭįı"}, {"J", "Ĵ"}, {"j", "ĵ"}, {"K", "Ķ"}, {"k", "ķ"},
		{"L", "ĹĻĽĿŁ"}, {"l", "ĺļľŀł"}, {"N", "ÑŃŅŇ"}, {"n", "ñńņň"}, {"O", "ÒÓÔÕÖØŌŎŐ"}, {"o", "òóôõöøōŏő"},
		{"R", "ŔŖŘ"}, {"r", "ŕŗř"}, {"S", "ŚŜŞŠȘ"}, {"s", "śŝşšș"}, {"T", "ŢŤŦȚ"}, {"t", "ţťŧț"},
		{"U", "ÙÚÛÜŨŪŬŮŰŲ"}, {"u", "ùúûüũūŭůűų"}, {"W", "Ŵ"}, {"w", "ŵ"}, {"Y", "ÝŶŸ"}, {"y", "ýŷÿ"},
		{"Z", "ŹŻŽ"}, {"z", "źżž"},
	} {
		for _, r := range row.letters {
			ps = append(ps, string(r), row.plain)
		}
	}
	return ps
}

// sevenBit writes text for readers that know no letters beyond seven bits and no
// escapes for them: accents go, signs are spelt out, what is left becomes '?'. The
// caret, which starts a control code, is followed by a space.
func sevenBit(s string) string {
	var b strings.Builder
	for _, r := range latin.Replace(s) {
		switch {
		case r == '^':
			b.WriteString("^ ")
		case r < 0x20 || r == 0x7f:
			b.WriteByte(' ')
		case r < 0x7f:
			b.WriteRune(r)
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}
