package blank

import (
	"image"
	"image/color"
	"math"

	"fretband/app/ui/kit"
	"fretband/export/paint"
	"fretband/export/picture"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// stressLayer is the shades of stress over the whole picture, clear where no metal was
// solved. It is drawn anew only when the view or the map changes: while a hand drags, the
// metal is painted with what was there.
type stressLayer struct {
	img  *image.RGBA
	view viewport
	of   *picture.StressMap
}

// paleShare is how much, of 256, of the metal's own tone is mixed into the shades of an older design.
const paleShare = 154

// layStress draws the layer.
func (p *sheetPainter) layStress(v viewport, m *picture.StressMap) *image.RGBA {
	l := &p.stress
	if l.img == nil || l.img.Rect != p.base.Rect {
		l.img, l.of = image.NewRGBA(p.base.Rect), nil
	}
	if l.of == m && l.view == v {
		return l.img
	}
	l.of, l.view = m, v
	clear(l.img.Pix)
	was := p.target
	p.target = l.img
	defer func() { p.target = was }()
	for i, lines := range m.Over {
		p.stressPath(v, lines)
		p.draw(picture.StressShade(i))
	}
	p.stressPath(v, m.Idle)
	p.hatch(v, idleInk, 1)
	return l.img
}

// idleInk hatches idle metal: its shade is light in either dress.
var idleInk = color.NRGBA{70, 68, 65, 255}

func (p *sheetPainter) stressPath(v viewport, lines [][]plane.Point) {
	f := v.frame
	sight := plane.Box{Min: v.mm(0, float64(f.h)), Max: v.mm(float64(f.w), 0)}
	for _, l := range lines {
		box := plane.EmptyBox()
		for _, q := range l {
			box = box.Add(q)
		}
		if box.Meets(sight) {
			p.loopPath(v, l, plane.Point{}, false)
		}
	}
}

// drawStressed paints the metal that the fill holds with its stress.
func (p *sheetPainter) drawStressed(layer *image.RGBA, pale bool) {
	tone := p.tone.Face
	share := uint32(0)
	if pale {
		share = paleShare
	}
	mix := func(shade, metal uint8, a uint32) uint8 { // shade is multiplied by its own cover a
		c := uint32(shade) + uint32(metal)*(255-a)/255
		return uint8((c*(256-share) + uint32(metal)*share) >> 8)
	}
	p.fill.Each(func(x, y int, a float32) {
		q := layer.Pix[y*layer.Stride+4*x:][:4:4]
		c := tone
		if k := uint32(q[3]); k > 0 {
			c.R, c.G, c.B = mix(q[0], c.R, k), mix(q[1], c.G, k), mix(q[2], c.B, k)
		}
		paint.Blend(p.target, x, y, c, a)
	})
}

// Measures of the legend, in the toolkit's pixels.
const (
	shadeWidth   = 27
	beside       = 150 // what is right of the shades
	legendWidth  = float32(shadeWidth*picture.StressShades + beside)
	legendHeight = 42
)

// drawStressLegend draws what the shades stand for into a picture of its own, which is that
// wide in the toolkit's pixels.
func drawStressLegend(img *image.RGBA, wide float32, k float64, m *picture.StressMap, d *kit.Dress, faces *kit.Faces) {
	face := faces.Size(11 * k)
	fill := paint.NewFill(img.Rect.Dx(), img.Rect.Dy())
	face.Draw(img, "Stress on the worse face, "+m.Of(), 0, 11*k, kit.AlignLeft, d.Soft)
	top, bottom, foot := 16*k, 27*k, 39*k
	// frame leaves a line round, so that the lightest and the darkest show on any ground.
	px := math.Max(1, math.Floor(k))
	frame := func(x0, x1 float64) {
		fill.Rect(x0, top, x1, bottom)
		fill.Draw(img, d.Rule)
	}
	inner := func(x0, x1 float64, c color.NRGBA) {
		fill.Rect(x0, top+px, x1, bottom-px)
		fill.Draw(img, c)
	}
	// Narrower shades where there is less room, and then not a label to each.
	shade := math.Max(5, math.Min(shadeWidth, float64(wide-beside-shadeWidth)/float64(picture.StressShades))) * k
	labelled := int(math.Ceil(22 * k / shade))
	frame(0, shade*float64(picture.StressShades)+px)
	for i := range picture.StressShades {
		x := shade * float64(i)
		inner(x+px, x+shade, picture.StressShade(i))
		if last := picture.StressShades - 1; i == last || i%labelled == 0 && i+labelled <= last {
			face.Draw(img, picture.StressLabel(i), x, foot, kit.AlignLeft, d.Soft)
		}
	}
	x := shade*float64(picture.StressShades-1) + (shadeWidth+54)*k // after "100 and more"
	frame(x, x+shadeWidth*k)
	inner(x+px, x+shadeWidth*k-px, picture.StressShade(0))
	fill.Rect(x+px, top+px, x+shadeWidth*k-px, bottom-px)
	gap, stroke := hatchOf(k)
	fill.Each(func(px, py int, a float32) {
		if (px+py)%gap < stroke {
			paint.Blend(img, px, py, idleInk, a)
		}
	})
	face.Draw(img, "idle", x, foot, kit.AlignLeft, d.Soft)
	x += (shadeWidth + 12) * k
	fill.Ring(x+6*k, (top+bottom)/2, 4.5*k, 2*k)
	fill.Draw(img, d.Ink)
	face.Draw(img, pattern.Say("%.0f MPa", m.Case.Peak), x, foot, kit.AlignLeft, d.Soft)
}

// hatchOf returns the step and the width of the lines of a hatch, device pixels.
func hatchOf(scale float64) (gap, wide int) { return int(7*scale + 0.5), max(1, int(scale+0.5)) }
