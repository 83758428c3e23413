package bent

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

// ring is a ring of a finding on the outer face of the bent band, and the way
// out of the metal there.
type ring struct{ at, out unroll.Point3 }

// mostRinged is how many positions are ringed on the bent band: more would hide it.
const mostRinged = 60

// Ring rings places of the blank on the bent band, in the colour of a severity.
func (b *View) Ring(f unroll.Flat, at []plane.Point, s check.Severity) {
	at = at[:min(len(at), mostRinged)]
	if len(at) == 0 && len(b.Ringed) == 0 {
		return
	}
	b.ringsOn, b.ringsAt, b.severity = f, at, s
	b.placeRings()
	b.redraw()
}

// placeRings brings what is ringed onto the outer face of the bent band as it is drawn.
func (b *View) placeRings() {
	b.Ringed = nil
	f := b.ringsOn
	for _, p := range b.ringsAt {
		a, c := f.Bend(p, f.Thickness), f.Bend(p, 0)
		n := math.Sqrt((a.X-c.X)*(a.X-c.X) + (a.Y-c.Y)*(a.Y-c.Y) + (a.Z-c.Z)*(a.Z-c.Z))
		b.Ringed = append(b.Ringed, ring{b.b.onFace(f, p), unroll.Point3{X: (a.X - c.X) / n, Y: (a.Y - c.Y) / n, Z: (a.Z - c.Z) / n}})
	}
}

// facing is how squarely a position looks at the eye: 1 straight, under 0 away from it.
func facing(c view3d.Camera, p ring) float64 {
	sy, cy := math.Sincos(c.Yaw)
	sp, cp := math.Sincos(c.Pitch)
	return p.out.X*sy*cp + p.out.Y*cy*cp + p.out.Z*sp
}

// seenWell is how squarely a position must look at the eye so that the band need not be
// turned for it: within some 60 degrees.
const seenWell = 0.5

// TurnToRings turns the band so that the first position that is marked is in front, unless
// one of them is seen well already. It closes a cut that has taken all of them away.
func (b *View) TurnToRings() {
	if len(b.Ringed) == 0 {
		return
	}
	section, left := b.section(), false
	for _, p := range b.Ringed {
		if section.Keeps(p.at) && facing(b.Camera, p) >= seenWell {
			return
		}
		left = left || section.Keeps(p.at)
	}
	if !left { // what is to be looked at is cut away
		b.setSection(0)
	}
	p := b.Ringed[0]
	b.Camera.Yaw = math.Atan2(p.out.X, p.out.Y)
	b.Camera.Pitch = math.Max(-0.45, math.Min(0.45, b.Camera.Pitch))
	b.refit()
	b.looked()
}

// drawRings rings what is marked on the side that is seen.
func (b *View) drawRings(img *image.RGBA, w, h int) {
	if b.b.scene == nil {
		return
	}
	k, d := b.scale(), b.kit.Dress
	fill := paint.NewFill(w, h)
	section := b.section()
	for _, p := range b.Ringed {
		if facing(b.Camera, p) < 0.05 || !section.Keeps(p.at) {
			continue
		}
		x, y := b.b.scene.Project(b.Camera, p.at, w, h)
		fill.Ring(x, y, 9*k, 4.5*k)
		fill.Draw(img, kit.Alpha(d.Panel, 210))
		fill.Ring(x, y, 9*k, 2.2*k)
		fill.Draw(img, d.Severity(b.severity))
	}
}
