package ui

import (
	"image"
	"math"

	"fretband/app/ui/kit"
	"fretband/export/paint"
	"fretband/pattern/check"
	"fretband/pattern/view3d"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// bentPlace is a place of a finding on the outer face of the bent band, and the way
// out of the metal there.
type bentPlace struct{ at, out unroll.Point3 }

// mostMarked is how many places are ringed on the bent band: more would hide it.
const mostMarked = 60

// bentPlaces brings places of the blank onto the outer face of the bent band.
func bentPlaces(f unroll.Flat, at []plane.Point) []bentPlace {
	var out []bentPlace
	for _, p := range at[:min(len(at), mostMarked)] {
		a, b := f.Bend(p, f.Thickness), f.Bend(p, 0)
		n := math.Sqrt((a.X-b.X)*(a.X-b.X) + (a.Y-b.Y)*(a.Y-b.Y) + (a.Z-b.Z)*(a.Z-b.Z))
		out = append(out, bentPlace{a, unroll.Point3{X: (a.X - b.X) / n, Y: (a.Y - b.Y) / n, Z: (a.Z - b.Z) / n}})
	}
	return out
}

// mark rings places on the bent band, in the colour of a severity.
func (b *bentView) mark(places []bentPlace, s check.Severity) {
	if len(places) == 0 && len(b.places) == 0 {
		return
	}
	b.places, b.severity = places, s
	b.redraw()
}

// facing is how squarely a place looks at the eye: 1 straight, under 0 away from it.
func facing(c view3d.Camera, p bentPlace) float64 {
	sy, cy := math.Sincos(c.Yaw)
	sp, cp := math.Sincos(c.Pitch)
	return p.out.X*sy*cp + p.out.Y*cy*cp + p.out.Z*sp
}

// seenWell is how squarely a place must look at the eye so that the band need not be
// turned for it: within some 60 degrees.
const seenWell = 0.5

// turnToMarks turns the band so that the first place that is marked is in front, unless
// one of them is seen well already.
func (b *bentView) turnToMarks() {
	if len(b.places) == 0 {
		return
	}
	for _, p := range b.places {
		if facing(b.camera, p) >= seenWell {
			return
		}
	}
	p := b.places[0]
	b.camera.Yaw = math.Atan2(p.out.X, p.out.Y)
	b.camera.Pitch = math.Max(-0.45, math.Min(0.45, b.camera.Pitch))
	b.refit()
	b.looked()
}

// drawPlaces rings what is marked on the side that is seen.
func (b *bentView) drawPlaces(img *image.RGBA, w, h int) {
	if b.b.scene == nil {
		return
	}
	k, d := b.scale(), b.kit.Dress
	fill := paint.NewFill(w, h)
	for _, p := range b.places {
		if facing(b.camera, p) < 0.05 {
			continue
		}
		x, y := b.b.scene.Project(b.camera, p.at, w, h)
		fill.Ring(x, y, 9*k, 4.5*k)
		fill.Draw(img, kit.Alpha(d.Panel, 210))
		fill.Ring(x, y, 9*k, 2.2*k)
		fill.Draw(img, d.Severity(b.severity))
	}
}
