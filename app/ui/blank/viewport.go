package blank

import (
	"image"
	"math"

	"fretband/unroll/plane"
)

// viewport says which part of the blank is on the screen: the position in the middle
// of the drawing and how many pixels a millimetre takes. It is in device pixels;
// y is up on the blank and down on the screen, and this is where it turns.
type viewport struct {
	frame  frame
	k      float64     // pixels per mm
	centre plane.Point // mm
}

// frame is where the parts of the drawing lie, device pixels: a ruler along the
// top and one at the left, the blank, and under it the net section on the same
// axis.
type frame struct {
	w, h  int
	scale float64 // device pixels to the toolkit's
	// The blank's corner, and the graph's.
	left, top, right, bottom float64
	graphTop, graphBottom    float64
}

func newFrame(w, h int, scale float64) frame {
	f := frame{w: w, h: h, scale: scale}
	f.left, f.top = 46*scale, 24*scale
	f.right = float64(w)
	graph := math.Max(64*scale, math.Min(112*scale, float64(h)*0.30))
	if float64(h) < 170*scale {
		graph = 0
	}
	f.bottom = float64(h) - graph
	f.graphTop, f.graphBottom = f.bottom+24*scale, float64(h)-10*scale
	return f
}

// middle returns the pixel in the middle of the blank's part.
func (f frame) middle() (x, y float64) { return (f.left + f.right) / 2, (f.top + f.bottom) / 2 }

func (f frame) hasGraph() bool { return f.graphBottom > f.graphTop+4 }

// inBlank reports whether a pixel lies on the drawing of the blank.
func (f frame) inBlank(x, y float64) bool {
	return x >= f.left && x <= f.right && y >= f.top && y <= f.bottom
}

// blankPixels are those whose middles lie on the drawing of the blank.
func (f frame) blankPixels() image.Rectangle {
	px := func(at float64) int { return int(math.Ceil(at - 0.5)) }
	return image.Rect(px(f.left), px(f.top), px(math.Nextafter(f.right, math.Inf(1))), px(math.Nextafter(f.bottom, math.Inf(1))))
}

// region is a part of the drawing.
type region int

const (
	elsewhere region = iota
	onBlank
	onGraph
)

func (f frame) where(x, y float64) region {
	switch {
	case f.inBlank(x, y):
		return onBlank
	case f.hasGraph() && x >= f.left && y > f.bottom:
		return onGraph
	}
	return elsewhere
}

// x and y take a position on the blank to the screen.
func (v viewport) x(mm float64) float64 {
	return (v.frame.left+v.frame.right)/2 + (mm-v.centre.X)*v.k
}

func (v viewport) y(mm float64) float64 {
	return (v.frame.top+v.frame.bottom)/2 - (mm-v.centre.Y)*v.k
}

// mm takes a pixel to the blank.
func (v viewport) mm(x, y float64) plane.Point {
	return plane.Pt(
		v.centre.X+(x-(v.frame.left+v.frame.right)/2)/v.k,
		v.centre.Y-(y-(v.frame.top+v.frame.bottom)/2)/v.k)
}

// Limits of zoom, pixels per mm: a metre over a small screen, a hair over a large.
const (
	leastZoom = 0.5
	mostZoom  = 4000
)

// zoom changes the scale by factor and keeps the position under (x, y) where it is.
func (v viewport) zoom(factor, x, y float64) viewport {
	at := v.mm(x, y)
	v.k = math.Max(leastZoom, math.Min(mostZoom, v.k*factor))
	now := v.mm(x, y)
	v.centre = v.centre.Add(at.Sub(now))
	return v
}

// pan moves the drawing by pixels.
func (v viewport) pan(dx, dy float64) viewport {
	v.centre = v.centre.Add(plane.Pt(-dx/v.k, dy/v.k))
	return v
}

// fit shows a box whole, with room round it.
func (v viewport) fit(b plane.Box) viewport {
	if b.Empty() {
		return v
	}
	room := 18 * v.frame.scale
	w := math.Max(20, v.frame.right-v.frame.left-3*room)
	h := math.Max(20, v.frame.bottom-v.frame.top-2*room)
	v.k = math.Max(leastZoom, math.Min(mostZoom, math.Min(w/math.Max(b.W(), 1e-3), h/math.Max(b.H(), 1e-3))))
	v.centre = b.Centre()
	return v
}

// tick is the distance of the ruler's labelled marks, mm, and into how many
// parts each is divided, for labels at least room pixels apart.
func (v viewport) tick(room float64) (mm float64, parts int) {
	need := room / v.k
	p := math.Pow(10, math.Floor(math.Log10(need)))
	for _, c := range [4]struct {
		m     float64
		parts int
	}{{1, 10}, {2, 4}, {5, 5}, {10, 10}} {
		if c.m*p >= need {
			return c.m * p, c.parts
		}
	}
	return 10 * p, 10
}
