package view3d

import (
	"image/color"

	"fretband/unroll"
)

// Look says how a picture is dressed.
type Look struct {
	Ground  color.NRGBA // behind the band
	Metal   color.NRGBA // as the polished metal looks in soft light
	Hovered color.NRGBA // the opening under the pointer
	Ink     color.NRGBA // the ruler
	Skin    color.NRGBA // the wrist
	// Hover is the number of the opening that is marked, 0 for none.
	Hover int
	// Wrist shows an oval wrist or finger inside.
	Wrist bool
	// Ruler shows a scale bar in the lower left corner.
	Ruler bool
	// Rough looks at each pixel once instead of four times, for pictures that follow one
	// another: in a third of the time, with steps along edges.
	Rough bool
	// Smooth takes shades between those that are worked out beforehand: for pictures so
	// large that their steps would be seen.
	Smooth bool
	// Print is laid over the metal, nil for none.
	Print *Print
	// Section cuts the band by a plane, nil for none.
	Section *Plane
}

// Plane keeps what lies on its side, where the scalar product with Normal is at
// most Offset, mm.
type Plane struct {
	Normal unroll.Point3
	Offset float64
}

// Keeps reports whether a position is left when the band is cut by the plane; none keeps all.
func (p *Plane) Keeps(at unroll.Point3) bool {
	return p == nil || dot(vecOf(p.Normal), vecOf(at)) <= float32(p.Offset)
}

// Light is a look on light ground, Dark one on dark.
func Light() Look {
	return Look{
		Ground: color.NRGBA{240, 238, 234, 255}, Metal: color.NRGBA{224, 184, 122, 255},
		Hovered: color.NRGBA{20, 105, 190, 255}, Ink: color.NRGBA{60, 58, 55, 255}, Skin: color.NRGBA{214, 176, 150, 255},
	}
}

// Dark is a look on dark ground.
func Dark() Look {
	return Look{
		Ground: color.NRGBA{38, 37, 36, 255}, Metal: color.NRGBA{224, 184, 122, 255},
		Hovered: color.NRGBA{90, 175, 255, 255}, Ink: color.NRGBA{205, 202, 196, 255}, Skin: color.NRGBA{196, 152, 126, 255},
	}
}
