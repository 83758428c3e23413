package paint

import "math"

// Through adds the closed path through n points.
func (f *Fill) Through(n int, at func(k int) (x, y float64)) {
	for k := range n {
		if x, y := at(k); k == 0 {
			f.MoveTo(x, y)
		} else {
			f.LineTo(x, y)
		}
	}
	f.Close()
}

// Polygon adds the closed path through the points x0, y0, x1, y1, ...
func (f *Fill) Polygon(xy ...float64) {
	f.Through(len(xy)/2, func(k int) (x, y float64) { return xy[2*k], xy[2*k+1] })
}

// Rect adds the rectangle with corners (x0, y0) and (x1, y1).
func (f *Fill) Rect(x0, y0, x1, y1 float64) { f.Polygon(x0, y0, x1, y0, x1, y1, x0, y1) }

// Round adds the rectangle with its corners rounded by r.
func (f *Fill) Round(x0, y0, x1, y1, r float64) {
	r = math.Max(0, math.Min(r, math.Min(x1-x0, y1-y0)/2))
	const n = 6
	corners := [4][2]float64{{x1 - r, y0 + r}, {x1 - r, y1 - r}, {x0 + r, y1 - r}, {x0 + r, y0 + r}}
	f.Through(4*(n+1), func(k int) (x, y float64) {
		i := k / (n + 1)
		a := (float64(i)-1)*math.Pi/2 + float64(k%(n+1))/n*math.Pi/2
		return corners[i][0] + r*math.Cos(a), corners[i][1] + r*math.Sin(a)
	})
}

// Disc adds the circle of radius r about (x, y).
func (f *Fill) Disc(x, y, r float64) { f.circle(x, y, r, smooth(r), 2*math.Pi) }

// smooth is how many corners make a circle of that radius look round.
func smooth(r float64) int { return max(12, int(4*math.Sqrt(math.Abs(r))*2)) }

// circle adds a circle of n corners, run once round by an angle.
func (f *Fill) circle(x, y, r float64, n int, round float64) {
	f.Through(n, func(k int) (float64, float64) {
		a := round * float64(k) / float64(n)
		return x + r*math.Cos(a), y + r*math.Sin(a)
	})
}

// Ring adds a circle's line of width w.
func (f *Fill) Ring(x, y, r, w float64) {
	f.Disc(x, y, r+w/2)
	f.circle(x, y, math.Max(0, r-w/2), smooth(r), -2*math.Pi) // the hole, the other way round
}

// Line adds a straight line of width w with flat ends.
func (f *Fill) Line(x0, y0, x1, y1, w float64) {
	dx, dy := x1-x0, y1-y0
	l := math.Hypot(dx, dy)
	if l == 0 {
		return
	}
	nx, ny := -dy/l*w/2, dx/l*w/2
	// The same sense as Rect, whichever way the line runs.
	f.Polygon(x0-nx, y0-ny, x1-nx, y1-ny, x1+nx, y1+ny, x0+nx, y0+ny)
}

// Path adds a line of width w through the points x0, y0, x1, y1, ... with round
// joins; closed reports whether it runs back to the first.
func (f *Fill) Path(w float64, closed bool, xy []float64) {
	n := len(xy) / 2
	for i := 0; i+1 < n || closed && i < n; i++ {
		j := (i + 1) % n
		f.Line(xy[2*i], xy[2*i+1], xy[2*j], xy[2*j+1], w)
	}
	if w > 2 {
		for i := range n {
			f.Disc(xy[2*i], xy[2*i+1], w/2)
		}
	}
}

// Dashes adds a straight broken line: on and off are lengths of line and gap.
func (f *Fill) Dashes(x0, y0, x1, y1, w, on, off float64) {
	l := math.Hypot(x1-x0, y1-y0)
	if l == 0 || on <= 0 || on+off <= 0 {
		return
	}
	if l/(on+off) > 5000 { // far outside any screen
		f.Line(x0, y0, x1, y1, w)
		return
	}
	ux, uy := (x1-x0)/l, (y1-y0)/l
	for s := 0.0; s < l; s += on + off {
		e := math.Min(l, s+on)
		f.Line(x0+ux*s, y0+uy*s, x0+ux*e, y0+uy*e, w)
	}
}

// Arrow adds a solid arrow head with its tip at (x, y), pointing in direction
// (dx, dy), of length l and half as wide.
func (f *Fill) Arrow(x, y, dx, dy, l float64) {
	d := math.Hypot(dx, dy)
	if d == 0 {
		return
	}
	dx, dy = dx/d, dy/d
	bx, by := x-dx*l, y-dy*l
	f.Polygon(x, y, bx-dy*l/4, by+dx*l/4, bx+dy*l/4, by-dx*l/4)
}
