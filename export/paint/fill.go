package paint

import (
	"image"
	"image/color"
	"math"
)

// Fill gathers closed paths and fills them. Use [NewFill]; Reset makes it ready
// for the next picture without new memory.
//
// Method: every edge adds, to each pixel that it passes, the signed area
// between the edge and the pixel's right side, and to the pixel after it the
// rest of its height; the running sum along a row is then the covered share of
// each pixel. (Known in font rasterisers as the signed-area accumulation
// buffer.) Exact for straight edges; cost is the number of pixels that the
// edges pass plus those of the box that they lie in.
type Fill struct {
	// Outer, when set, keeps only what lies inside more outer paths than holes:
	// paths run counter-clockwise on the screen are outer ones, and a hole that
	// sticks out of its outline leaves nothing there.
	Outer bool

	w, h  int
	sum   []float32 // (w+1) a row, and one more at the end: an edge at the right side spills
	pen   point
	start point
	// rows and columns that hold something
	x0, x1, y0, y1 int
}

type point struct{ x, y float64 }

// NewFill returns a fill for a picture of w x h pixels.
func NewFill(w, h int) *Fill {
	f := &Fill{}
	f.Reset(w, h)
	return f
}

// Reset empties the fill and sets its size.
func (f *Fill) Reset(w, h int) {
	n := (w+2)*h + 2
	if f.w == w && f.h == h && len(f.sum) == n {
		f.clear()
		return
	}
	if cap(f.sum) >= n {
		f.sum = f.sum[:n]
		clear(f.sum)
	} else {
		f.sum = make([]float32, n)
	}
	f.w, f.h = w, h
	f.empty()
}

func (f *Fill) empty() { f.x0, f.x1, f.y0, f.y1 = f.w, 0, f.h, 0 }

// clear empties the rows that hold something.
func (f *Fill) clear() {
	for y := f.y0; y < f.y1; y++ {
		clear(f.row(y)[f.x0:min(f.x1+2, f.w+2)])
	}
	f.empty()
}

func (f *Fill) row(y int) []float32 { return f.sum[y*(f.w+2) : (y+1)*(f.w+2)] }

// MoveTo closes the path under way and begins another.
func (f *Fill) MoveTo(x, y float64) {
	f.Close()
	f.pen = point{x, y}
	f.start = f.pen
}

// LineTo adds a straight edge.
func (f *Fill) LineTo(x, y float64) {
	f.edge(f.pen, point{x, y})
	f.pen = point{x, y}
}

// Close adds the edge back to where the path began.
func (f *Fill) Close() {
	if f.pen != f.start {
		f.edge(f.pen, f.start)
		f.pen = f.start
	}
}

// edge clips the edge to the picture and adds it. What lies left of the picture
// is moved to its left side, where it still covers the pixels right of it; what
// lies right of it covers nothing.
func (f *Fill) edge(a, b point) {
	if !(finite(a) && finite(b)) || a.y == b.y {
		return
	}
	dir := float32(1)
	if a.y > b.y {
		a, b, dir = b, a, -1
	}
	h, w := float64(f.h), float64(f.w)
	if b.y <= 0 || a.y >= h {
		return
	}
	dxdy := (b.x - a.x) / (b.y - a.y)
	if a.y < 0 {
		a = point{a.x - a.y*dxdy, 0}
	}
	if b.y > h {
		b = point{b.x + (h-b.y)*dxdy, h}
	}
	// Cut at the left and right side.
	f.clipX(a, b, dxdy, 0, w, dir)
}

func (f *Fill) clipX(a, b point, dxdy, lo, hi float64, dir float32) {
	cut := func(x float64) (point, bool) {
		if (a.x < x) == (b.x < x) || dxdy == 0 {
			return point{}, false
		}
		y := a.y + (x-a.x)/dxdy
		return point{x, math.Max(a.y, math.Min(b.y, y))}, true
	}
	pts := [4]point{a}
	n := 1
	first, second := lo, hi
	if a.x > b.x {
		first, second = hi, lo
	}
	for _, x := range [2]float64{first, second} {
		if p, ok := cut(x); ok {
			pts[n] = p
			n++
		}
	}
	pts[n] = b
	for i := 0; i < n; i++ {
		p, q := pts[i], pts[i+1]
		m := (p.x + q.x) / 2
		switch {
		case m >= hi:
			f.x1 = f.w // what it closes runs to the right side
			continue
		case m <= lo:
			p.x, q.x = lo, lo
		default:
			p.x = math.Max(lo, math.Min(hi, p.x))
			q.x = math.Max(lo, math.Min(hi, q.x))
		}
		f.add(p, q, dir)
	}
}

// add adds an edge that runs down (a.y < b.y) and lies within the picture.
func (f *Fill) add(a, b point, dir float32) {
	if a.y >= b.y {
		return
	}
	dxdy := (b.x - a.x) / (b.y - a.y)
	ytop := int(a.y)
	ybot := min(int(math.Ceil(b.y)), f.h)
	f.y0 = min(f.y0, ytop)
	f.y1 = max(f.y1, ybot)
	xl, xr := math.Min(a.x, b.x), math.Max(a.x, b.x)
	f.x0 = min(f.x0, int(xl))
	f.x1 = max(f.x1, min(int(xr)+1, f.w))
	x := a.x
	for y := ytop; y < ybot; y++ {
		row := f.row(y)
		dy := math.Min(float64(y+1), b.y) - math.Max(float64(y), a.y)
		xn := x + dxdy*dy
		if y == ybot-1 {
			xn = b.x // no drift: the end is the end
		}
		d := float32(dy) * dir
		l, r := x, xn
		if l > r {
			l, r = r, l
		}
		li := int(l)
		ri := int(math.Ceil(r))
		if ri <= li+1 {
			// Within one pixel: the part of its area right of the edge.
			mid := float32((l+r)/2 - float64(li))
			row[li] += d * (1 - mid)
			row[li+1] += d * mid
		} else {
			// Across several: two triangles at the ends, trapezia between.
			s := float32(1 / (r - l))
			lf := float32(l - float64(li))
			a0 := 0.5 * s * (1 - lf) * (1 - lf)
			rf := float32(r - float64(ri) + 1)
			am := 0.5 * s * rf * rf
			row[li] += d * a0
			if ri == li+2 {
				row[li+1] += d * (1 - a0 - am)
			} else {
				a1 := s * (1.5 - lf)
				row[li+1] += d * (a1 - a0)
				for xi := li + 2; xi < ri-1; xi++ {
					row[xi] += d * s
				}
				a2 := a1 + float32(ri-li-3)*s
				row[ri-1] += d * (1 - a2 - am)
			}
			row[ri] += d * am
		}
		x = xn
	}
}

func finite(p point) bool {
	const far = 1e9 // beyond this a float's pixel fraction is lost
	return p.x > -far && p.x < far && p.y > -far && p.y < far
}

// Each calls do with the covered share, above 0 and up to 1, of every pixel that
// the paths cover, row by row, and empties the fill.
func (f *Fill) Each(do func(x, y int, share float32)) {
	f.Close()
	for y := f.y0; y < f.y1; y++ {
		row := f.row(y)
		var acc float32
		// The sum runs to the right end of the box; beyond it everything closed.
		for x := f.x0; x < min(f.x1+1, f.w); x++ {
			acc += row[x]
			if a := f.share(acc); a > 0 {
				do(x, y, a)
			}
		}
	}
	f.clear()
}

// share turns a running sum into a covered share; what float32 leaves of a sum
// that should be zero is nothing.
func (f *Fill) share(acc float32) float32 {
	if acc < 0 && !f.Outer {
		acc = -acc
	}
	if acc < 1.0/512 {
		return 0
	}
	if acc > 511.0/512 {
		return 1
	}
	return acc
}

// Draw paints the paths in colour c over dst and empties the fill.
func (f *Fill) Draw(dst *image.RGBA, c color.NRGBA) {
	f.Close()
	b := dst.Bounds()
	w := min(f.w, b.Dx())
	opaque := [4]uint8{
		uint8(uint32(c.R) * uint32(c.A) / 255), uint8(uint32(c.G) * uint32(c.A) / 255),
		uint8(uint32(c.B) * uint32(c.A) / 255), c.A,
	}
	for y := f.y0; y < min(f.y1, b.Dy()); y++ {
		row := f.row(y)
		pix := dst.Pix[y*dst.Stride : y*dst.Stride+4*w]
		var acc float32
		for x := f.x0; x < min(f.x1+1, w); x++ {
			acc += row[x]
			a := f.share(acc)
			if a == 0 {
				continue
			}
			p := pix[4*x : 4*x+4 : 4*x+4]
			if a == 1 && c.A == 255 {
				p[0], p[1], p[2], p[3] = opaque[0], opaque[1], opaque[2], 255
				continue
			}
			blend(p, c, a)
		}
	}
	f.clear()
}

// Blend paints colour c with the covered share a over pixel (x, y) of dst.
func Blend(dst *image.RGBA, x, y int, c color.NRGBA, a float32) {
	i := y*dst.Stride + 4*x
	blend(dst.Pix[i:i+4:i+4], c, a)
}

// blend paints colour c with the covered share a over the pixel p, which holds
// premultiplied colour.
func blend(p []uint8, c color.NRGBA, a float32) {
	k := uint32(a*float32(c.A)*257 + 0.5) // 0..65535
	q := 65535 - k
	p[0] = uint8((uint32(c.R)*k + uint32(p[0])*q + 32767) / 65535)
	p[1] = uint8((uint32(c.G)*k + uint32(p[1])*q + 32767) / 65535)
	p[2] = uint8((uint32(c.B)*k + uint32(p[2])*q + 32767) / 65535)
	p[3] = uint8((255*k + uint32(p[3])*q + 32767) / 65535)
}
