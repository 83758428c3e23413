package picture

import (
	"image"
	"image/color"
	"math"

	"fretband/unroll/plane"
)

// coverage is how much of each pixel lies inside loops that were added to it, counted
// by their winding: a counter-clockwise loop adds its inside, a clockwise one takes it
// away. Each edge leaves in its rows the area that lies to its right, exactly; sums
// along the rows give the rest (the signed-area way of filling outlines, as used by
// scan converters of fonts).
type coverage struct {
	w, h int
	acc  []float32
}

func newCoverage(w, h int) *coverage { return &coverage{w, h, make([]float32, w*h+1)} }

// rasterTolerance is how far chords may lie from arcs, pixels.
const rasterTolerance = 0.05

// add adds a loop in mm, y up, that is placed by to: pixels, y down.
func (c *coverage) add(l plane.Loop, k float64, to func(plane.Point) plane.Point) {
	pts := l.Flatten(rasterTolerance / k)
	for i, p := range pts {
		c.line(to(p), to(pts[(i+1)%len(pts)]))
	}
}

func (c *coverage) line(a, b plane.Point) {
	if a.Y == b.Y {
		return
	}
	sign := 1.0
	if a.Y > b.Y {
		a, b, sign = b, a, -1
	}
	slope := (b.X - a.X) / (b.Y - a.Y)
	for y := max(0, int(math.Floor(a.Y))); y < min(c.h, int(math.Ceil(b.Y))); y++ {
		y0, y1 := math.Max(a.Y, float64(y)), math.Min(b.Y, float64(y+1))
		if y1 <= y0 {
			continue
		}
		c.strip(y, a.X+(y0-a.Y)*slope, a.X+(y1-a.Y)*slope, sign*(y1-y0))
	}
}

// strip adds the part of an edge within row y, from x0 to x1, whose height is dy.
func (c *coverage) strip(y int, x0, x1, dy float64) {
	if x0 > x1 {
		x0, x1 = x1, x0
	}
	limit := func(x float64) float64 { return math.Min(math.Max(x, 0), float64(c.w)) }
	if x1 <= 0 || x0 >= float64(c.w) || x1-x0 < 1e-9 {
		c.part(y, limit(x0), limit(x1), dy)
		return
	}
	per := dy / (x1 - x0)
	if x0 < 0 {
		c.part(y, 0, 0, -x0*per)
		x0 = 0
	}
	if x1 > float64(c.w) {
		x1 = float64(c.w) // what lies beyond covers nothing of the row
	}
	for x0 < x1 {
		next := math.Min(x1, math.Floor(x0)+1)
		c.part(y, x0, next, (next-x0)*per)
		x0 = next
	}
}

// part is strip within one pixel: its right share of the pixel takes dy in part, all
// pixels to the right of it take it whole.
func (c *coverage) part(y int, x0, x1, dy float64) {
	i := int(x0)
	if i >= c.w {
		return
	}
	right := 1 - ((x0+x1)/2 - float64(i))
	c.acc[y*c.w+i] += float32(dy * right)
	if i+1 < c.w {
		c.acc[y*c.w+i+1] += float32(dy * (1 - right))
	}
}

// less takes away what another covers.
func (c *coverage) less(other *coverage) {
	for y := range c.h {
		var mine, theirs, before float32
		for x := range c.w {
			i := y*c.w + x
			mine += c.acc[i]
			theirs += other.acc[i]
			left := covered(mine) * (1 - covered(theirs))
			c.acc[i], before = left-before, left
		}
	}
}

// covered turns a sum of windings into the share of a pixel.
func covered(sum float32) float32 { return min(max(sum, -sum), 1) }

// paint lays a colour over the picture where the loops are.
func (c *coverage) paint(img *image.RGBA, colour func(x, y int) color.NRGBA) {
	for y := range c.h {
		var sum float32
		for x := range c.w {
			sum += c.acc[y*c.w+x]
			share := covered(sum)
			if share < 1.0/512 {
				continue
			}
			col := colour(x, y)
			p := img.Pix[img.PixOffset(img.Rect.Min.X+x, img.Rect.Min.Y+y):]
			for k, v := range [3]uint8{col.R, col.G, col.B} {
				p[k] = uint8(float32(p[k]) + share*(float32(v)-float32(p[k])) + 0.5)
			}
		}
	}
}
