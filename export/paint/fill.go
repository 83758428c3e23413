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

// edge adds an edge. What lies left of the picture still covers the pixels right of it;
// what lies right of it covers nothing.
func (f *Fill) edge(a, b point) {
	if !(finite(a) && finite(b)) || a.y == b.y {
		return
	}
	dir := 1.0
	if a.y > b.y {
		a, b, dir = b, a, -1
	}
	top, bottom := max(0, int(math.Floor(a.y))), min(f.h, int(math.Ceil(b.y)))
	if top >= bottom {
		return
	}
	f.y0, f.y1 = min(f.y0, top), max(f.y1, bottom)
	slope := (b.x - a.x) / (b.y - a.y)
	if w := float64(f.w); min(a.x, b.x) >= 0 && max(a.x, b.x) < w && a.y >= 0 && b.y <= float64(f.h) {
		f.inside(a, b, dir, slope)
		return
	}
	at := func(y float64) float64 { return a.x + (y-a.y)*slope }
	for y := top; y < bottom; y++ {
		y0, y1 := max(a.y, float64(y)), min(b.y, float64(y+1))
		if y1 > y0 {
			f.strip(f.row(y), at(y0), at(y1), dir*(y1-y0))
		}
	}
	l, r := at(max(a.y, float64(top))), at(min(b.y, float64(bottom)))
	f.x0 = min(f.x0, int(f.within(min(l, r))))
	f.x1 = max(f.x1, min(int(f.within(max(l, r)))+1, f.w))
}

// inside is edge for one that lies wholly in the picture, as most do, from its upper end a
// to its lower end b.
func (f *Fill) inside(a, b point, dir, slope float64) {
	f.x0 = min(f.x0, int(min(a.x, b.x)))
	f.x1 = max(f.x1, min(int(max(a.x, b.x))+1, f.w))
	wide := f.w + 2
	x, y := a.x, a.y
	for at := int(a.y) * wide; y < b.y; at += wide {
		below := math.Floor(y) + 1
		to := x + (below-y)*slope
		if below >= b.y {
			below, to = b.y, b.x
		}
		dy := dir * (below - y)
		l, r := min(x, to), max(x, to)
		i, last := int(l), int(r)
		if i == last {
			over := float32(dy * ((l+r)/2 - float64(i)))
			f.sum[at+i] += float32(dy) - over
			f.sum[at+i+1] += over
		} else {
			per := dy / (r - l)
			first := float64(i+1) - l
			over := float32(first * per * (1 - first/2))
			f.sum[at+i] += float32(first*per) - over
			carried := over
			for i++; i < last; i++ {
				f.sum[at+i] += carried + float32(per/2)
				carried = float32(per / 2)
			}
			rest := r - float64(last)
			over = float32(rest * per * rest / 2)
			f.sum[at+last] += carried + float32(rest*per) - over
			f.sum[at+last+1] += over
		}
		x, y = to, below
	}
}

// within returns the nearest to x that lies in the picture.
func (f *Fill) within(x float64) float64 { return min(max(x, 0), float64(f.w)) }

// strip adds the part of an edge within a row, from l to r, whose height is dy.
func (f *Fill) strip(row []float32, l, r, dy float64) {
	if l > r {
		l, r = r, l
	}
	w := float64(f.w)
	if r <= 0 || l >= w || r-l < 1e-9 {
		part(row, f.within(l), f.within(r), dy)
		return
	}
	per := dy / (r - l)
	if l < 0 {
		part(row, 0, 0, -l*per)
		l = 0
	}
	for r = min(r, w); l < r; {
		next := min(r, float64(int(l)+1))
		part(row, l, next, (next-l)*per)
		l = next
	}
}

// part is strip within one pixel: the share of the pixel that lies right of the edge takes
// dy, all pixels to the right of it take the whole.
func part(row []float32, l, r, dy float64) {
	i := int(l)
	right := 1 - ((l+r)/2 - float64(i))
	row[i] += float32(dy * right)
	row[i+1] += float32(dy * (1 - right))
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
			if a := f.share(acc); a >= least {
				do(x, y, a)
			}
		}
	}
	f.clear()
}

// least is the smallest share that counts: what float32 leaves of a sum that should be
// zero is nothing.
const least = 1.0 / 512

// share turns a running sum into a covered share.
func (f *Fill) share(acc float32) float32 {
	if acc < 0 && !f.Outer {
		acc = -acc
	}
	return min(max(acc, 0), 1)
}

// Less takes away what another fill of the same size covers, and empties that.
func (f *Fill) Less(g *Fill) {
	f.Close()
	g.Close()
	for y := f.y0; y < f.y1; y++ {
		row, other := f.row(y), g.row(y)
		var mine, theirs, before float32
		for x := range f.w {
			mine += row[x]
			theirs += other[x]
			left := f.share(mine) * (1 - g.share(theirs))
			row[x], before = left-before, left
		}
	}
	f.x0, f.x1 = 0, f.w
	g.clear()
}

// Draw paints the paths in colour c over dst and empties the fill.
func (f *Fill) Draw(dst *image.RGBA, c color.NRGBA) { f.DrawWithin(dst, dst.Rect, c) }

// DrawWithin is Draw for what lies within a part of dst.
func (f *Fill) DrawWithin(dst *image.RGBA, part image.Rectangle, c color.NRGBA) {
	f.Close()
	part = part.Intersect(dst.Rect)
	for y := max(f.y0, part.Min.Y); y < min(f.y1, part.Max.Y); y++ {
		row := f.row(y)
		pix := dst.Pix[y*dst.Stride:]
		var acc float32
		for x := f.x0; x < min(f.x1+1, f.w, part.Max.X); x++ {
			acc += row[x]
			if a := f.share(acc); a >= least && x >= part.Min.X {
				over(pix[4*x:4*x+4:4*x+4], c, a)
			}
		}
	}
	f.clear()
}

// DrawLifted is Draw with the shadow of the paths under them, so many rows lower.
func (f *Fill) DrawLifted(dst *image.RGBA, c, shadow color.NRGBA, rows int) {
	f.Close()
	none := make([]float32, f.w+2)
	for y := f.y0; y < min(f.y1+rows, f.h, dst.Rect.Dy()); y++ {
		row, above := none, none
		if y < f.y1 {
			row = f.row(y)
		}
		if y-rows >= f.y0 {
			above = f.row(y - rows)
		}
		pix := dst.Pix[y*dst.Stride:]
		var acc, dark float32
		for x := f.x0; x < min(f.x1+1, f.w, dst.Rect.Dx()); x++ {
			acc += row[x]
			dark += above[x]
			a := f.share(acc)
			p := pix[4*x : 4*x+4 : 4*x+4]
			if s := f.share(dark); s >= least && !(a > 1-least && c.A == 255) {
				over(p, shadow, s)
			}
			if a >= least {
				over(p, c, a)
			}
		}
	}
	f.clear()
}

// over paints colour c with the covered share a over the pixel p.
func over(p []uint8, c color.NRGBA, a float32) {
	if a > 1-least && c.A == 255 { // as good as whole
		p[0], p[1], p[2], p[3] = c.R, c.G, c.B, 255
		return
	}
	blend(p, c, a)
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
