package cut

import (
	"fmt"
	"strings"

	"fretband/unroll/plane"
)

// The DXF of release 2000 (AC1015): the sections, and what each has to hold, are
// those of the open DXF reference.

// open2000 writes what stands before the entities.
func (d *dxf) open2000(ext plane.Box, layers []dxfLayer) {
	d.header2000(ext)
	d.section("CLASSES")
	d.endSection()
	d.tables2000(ext, layers)
	d.blocks2000()
}

// Handles of the fixed objects. Entities count up from firstEntity; dxfHandSeed
// is above them all, and the header, which comes first, may name any such number.
const (
	hVPORT = iota + 1
	hLTYPE
	hLAYER
	hSTYLE
	hVIEW
	hUCS
	hAPPID
	hDIMSTYLE
	hBLOCKS
	hViewport
	hByBlock
	hByLayer
	hContinuous
	hLayer0
	hLayerOpenings
	hLayerOutline
	hLayerNotes
	hStandardText
	hAppACAD
	hStandardDim
	hModelRecord
	hPaperRecord
	hModelBlock
	hModelEnd
	hPaperBlock
	hPaperEnd
	hRoot
	hGroups
	hLayouts
	hModelLayout
	hPaperLayout
	hPlotStyles
	hPlotNormal
	hLayerMarks
	hLayerLeads

	firstEntity = 0x100
	dxfHandSeed = 0xFFFFFF
)

func (d *dxf) handle(code, h int) { d.pair(code, fmt.Sprintf("%X", h)) }

// begin2000 opens an entity of the model. Colour and line type are left to the
// layer.
func (d *dxf) begin2000(kind, layer, class string) {
	d.pair(0, kind)
	d.handle(5, firstEntity+d.entity)
	d.entity++
	d.handle(330, hModelRecord)
	d.pair(100, "AcDbEntity")
	d.pair(8, layer)
	d.pair(100, class)
}

// vertices2000 writes a line as LWPOLYLINE.
func (d *dxf) vertices2000(layer string, l plane.Loop, closed bool) {
	d.begin2000("LWPOLYLINE", layer, "AcDbPolyline")
	d.num(90, len(l))
	if closed {
		d.num(70, 1)
	} else {
		d.num(70, 0)
	}
	d.real(43, 0)
	for i, v := range l {
		d.point(10, v.Point)
		if v.Bulge != 0 && (closed || i < len(l)-1) {
			d.bulge(v.Bulge)
		}
	}
}

// dxfString writes text in the seven-bit form that every reader takes: other
// letters as \U+XXXX, and the caret, which starts a control code, with a space.
func dxfString(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '^':
			b.WriteString("^ ")
		case r < 0x20 || r == 0x7f:
			b.WriteByte(' ')
		case r < 0x7f:
			b.WriteRune(r)
		case r <= 0xFFFF:
			fmt.Fprintf(&b, `\U+%04X`, r)
		default:
			b.WriteByte('?') // the form has room for four digits
		}
	}
	return b.String()
}

func (d *dxf) header2000(ext plane.Box) {
	d.section("HEADER")
	set := func(name string) { d.pair(9, name) }
	set("$ACADVER")
	d.pair(1, "AC1015")
	set("$DWGCODEPAGE")
	d.pair(3, "ANSI_1252")
	d.extents(ext)
	set("$CLAYER")
	d.pair(8, "0")
	d.decimals()
	set("$MEASUREMENT")
	d.num(70, 1) // metric
	set("$INSUNITS")
	d.num(70, 4) // millimetres
	set("$HANDSEED")
	d.handle(5, dxfHandSeed)
	d.endSection()
}

// table opens a symbol table of n entries.
func (d *dxf) table(name string, h, n int) {
	d.pair(0, "TABLE")
	d.pair(2, name)
	d.handle(5, h)
	d.pair(330, "0")
	d.pair(100, "AcDbSymbolTable")
	d.num(70, n)
}

func (d *dxf) endTable() { d.pair(0, "ENDTAB") }

// record opens an entry of a table.
func (d *dxf) record(kind string, h, owner int, class string) {
	d.pair(0, kind)
	if kind == "DIMSTYLE" {
		d.handle(105, h) // its code 5 is a block name
	} else {
		d.handle(5, h)
	}
	d.handle(330, owner)
	d.pair(100, "AcDbSymbolTableRecord")
	d.pair(100, class)
}

func (d *dxf) tables2000(ext plane.Box, layers []dxfLayer) {
	d.section("TABLES")

	d.table("VPORT", hVPORT, 1)
	d.record("VPORT", hViewport, hVPORT, "AcDbViewportTableRecord")
	d.pair(2, "*Active")
	d.num(70, 0)
	d.point(10, plane.Pt(0, 0))
	d.point(11, plane.Pt(1, 1))
	d.point(12, ext.Centre())
	d.point(13, plane.Pt(0, 0))
	d.point(14, plane.Pt(1, 1))
	d.point(15, plane.Pt(10, 10))
	d.point3(16, 0, 0, 1)
	d.point3(17, 0, 0, 0)
	// The view is 3 wide to 2 high and shows everything.
	d.real(40, 1.1*max(ext.H(), ext.W()/1.5))
	d.real(41, 1.5)
	d.real(42, 50)
	d.real(43, 0)
	d.real(44, 0)
	d.real(50, 0)
	d.real(51, 0)
	for _, v := range [][2]int{{71, 0}, {72, 1000}, {73, 1}, {74, 3}, {75, 0}, {76, 0}, {77, 0}, {78, 0}} {
		d.num(v[0], v[1])
	}
	d.endTable()

	d.table("LTYPE", hLTYPE, 3)
	for _, l := range []struct {
		name, text string
		h          int
	}{{"ByBlock", "", hByBlock}, {"ByLayer", "", hByLayer}, {"Continuous", "Solid line", hContinuous}} {
		d.record("LTYPE", l.h, hLTYPE, "AcDbLinetypeTableRecord")
		d.pair(2, l.name)
		d.num(70, 0)
		d.pair(3, l.text)
		d.num(72, 65)
		d.num(73, 0)
		d.real(40, 0)
	}
	d.endTable()

	d.table("LAYER", hLAYER, len(layers))
	for _, l := range layers {
		d.record("LAYER", l.h, hLAYER, "AcDbLayerTableRecord")
		d.pair(2, l.name)
		d.num(70, 0)
		d.num(62, l.colour)
		d.pair(6, "Continuous")
		if l.name == layerNotes {
			d.num(290, 0) // is not plotted
		}
		d.num(370, -3) // default line weight
		d.handle(390, hPlotNormal)
	}
	d.endTable()

	d.table("STYLE", hSTYLE, 1)
	d.record("STYLE", hStandardText, hSTYLE, "AcDbTextStyleTableRecord")
	d.pair(2, "Standard")
	d.num(70, 0)
	d.real(40, 0)
	d.real(41, 1)
	d.real(50, 0)
	d.num(71, 0)
	d.real(42, dxfText)
	d.pair(3, "txt")
	d.pair(4, "")
	d.endTable()

	d.table("VIEW", hVIEW, 0)
	d.endTable()
	d.table("UCS", hUCS, 0)
	d.endTable()

	d.table("APPID", hAPPID, 1)
	d.record("APPID", hAppACAD, hAPPID, "AcDbRegAppTableRecord")
	d.pair(2, "ACAD")
	d.num(70, 0)
	d.endTable()

	d.table("DIMSTYLE", hDIMSTYLE, 1)
	d.pair(100, "AcDbDimStyleTable")
	d.record("DIMSTYLE", hStandardDim, hDIMSTYLE, "AcDbDimStyleTableRecord")
	d.pair(2, "Standard")
	d.num(70, 0)
	d.endTable()

	d.table("BLOCK_RECORD", hBLOCKS, 2)
	for _, b := range []struct {
		name      string
		h, layout int
	}{{"*Model_Space", hModelRecord, hModelLayout}, {"*Paper_Space", hPaperRecord, hPaperLayout}} {
		d.record("BLOCK_RECORD", b.h, hBLOCKS, "AcDbBlockTableRecord")
		d.pair(2, b.name)
		d.handle(340, b.layout)
	}
	d.endTable()
	d.endSection()
}

func (d *dxf) blocks2000() {
	d.section("BLOCKS")
	for _, b := range []struct {
		name          string
		owner, h, end int
		inPaper       bool
	}{
		{"*Model_Space", hModelRecord, hModelBlock, hModelEnd, false},
		{"*Paper_Space", hPaperRecord, hPaperBlock, hPaperEnd, true},
	} {
		entity := func(kind string, h int, class string) {
			d.pair(0, kind)
			d.handle(5, h)
			d.handle(330, b.owner)
			d.pair(100, "AcDbEntity")
			if b.inPaper {
				d.num(67, 1)
			}
			d.pair(8, "0")
			d.pair(100, class)
		}
		entity("BLOCK", b.h, "AcDbBlockBegin")
		d.pair(2, b.name)
		d.num(70, 0)
		d.point3(10, 0, 0, 0)
		d.pair(3, b.name)
		d.pair(1, "")
		entity("ENDBLK", b.end, "AcDbBlockEnd")
	}
	d.endSection()
}

func (d *dxf) objects2000(ext plane.Box) {
	d.section("OBJECTS")
	dict := func(h, owner int, kind string, entries ...any) {
		d.pair(0, kind)
		d.handle(5, h)
		d.handle(330, owner)
		d.pair(100, "AcDbDictionary")
		d.num(281, 1)
		for i := 0; i < len(entries); i += 2 {
			d.pair(3, entries[i].(string))
			d.handle(350, entries[i+1].(int))
		}
	}
	dict(hRoot, 0, "DICTIONARY",
		"ACAD_GROUP", hGroups, "ACAD_LAYOUT", hLayouts, "ACAD_PLOTSTYLENAME", hPlotStyles)
	dict(hGroups, hRoot, "DICTIONARY")
	dict(hLayouts, hRoot, "DICTIONARY", "Layout1", hPaperLayout, "Model", hModelLayout)
	dict(hPlotStyles, hRoot, "ACDBDICTIONARYWDFLT", "Normal", hPlotNormal)
	d.pair(100, "AcDbDictionaryWithDefault")
	d.handle(340, hPlotNormal)
	d.pair(0, "ACDBPLACEHOLDER")
	d.handle(5, hPlotNormal)
	d.handle(330, hPlotStyles)
	d.layout("Model", hModelLayout, hModelRecord, 0, 1024+688, ext)
	d.layout("Layout1", hPaperLayout, hPaperRecord, 1, 688, plane.Box{Max: plane.Pt(277, 190)})
	d.endSection()
}

// layout writes how a space is plotted: A4, one millimetre to a millimetre.
func (d *dxf) layout(name string, h, record, order, flags int, lim plane.Box) {
	d.pair(0, "LAYOUT")
	d.handle(5, h)
	d.handle(330, hLayouts)
	d.pair(100, "AcDbPlotSettings")
	d.pair(1, "")
	d.pair(2, "none_device")
	d.pair(4, "ISO_A4_(297.00_x_210.00_MM)")
	d.pair(6, "")
	for c := 40; c <= 43; c++ {
		d.real(c, 10) // margins
	}
	d.real(44, 297)
	d.real(45, 210)
	for c := 46; c <= 49; c++ {
		d.real(c, 0)
	}
	d.real(140, 0)
	d.real(141, 0)
	d.real(142, 1) // 1 mm on paper
	d.real(143, 1) // to 1 unit drawn
	d.num(70, flags)
	d.num(72, 1) // millimetres
	d.num(73, 0)
	d.num(74, 5)
	d.pair(7, "")
	d.num(75, 16) // 1:1
	d.real(147, 1)
	d.real(148, 0)
	d.real(149, 0)
	d.pair(100, "AcDbLayout")
	d.pair(1, name)
	d.num(70, 1)
	d.num(71, order)
	d.point(10, lim.Min)
	d.point(11, lim.Max)
	d.point3(12, 0, 0, 0)
	d.point3(14, lim.Min.X, lim.Min.Y, 0)
	d.point3(15, lim.Max.X, lim.Max.Y, 0)
	d.real(146, 0)
	d.point3(13, 0, 0, 0)
	d.point3(16, 1, 0, 0)
	d.point3(17, 0, 1, 0)
	d.num(76, 0)
	d.handle(330, record)
}
