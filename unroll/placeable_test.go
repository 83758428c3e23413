package unroll

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"

	"fretband/unroll/plane"
)

// steep are flared bands of all half-angles that are let through, wide and narrow.
func steep() map[string]Band {
	all := everyForm()
	for name, deg := range map[string]float64{"45 up": 45, "45 down": -45, "30 down": -30, "0.01 up": 0.01} {
		all["cuff flared "+name] = with(cuff(60, 60, 1, 1.2), func(b *Band) { b.FlareDeg = deg })
		all["ring flared "+name] = with(closed(Ring, 16, 16, 1), func(b *Band) { b.FlareDeg = deg })
	}
	return all
}

// Within what Placeable names the map goes there and back, and the blank lies in it.
func TestWhatCanBePlacedHasAPlaceOfItsOwn(t *testing.T) {
	rng := rand.New(rand.NewSource(5))
	for name, b := range steep() {
		f := unroll(t, b)
		room := f.Placeable()
		for _, v := range f.Outline {
			x, y := f.Where(v.Point)
			assert.True(t, room.Grow(1e-6).Contains(plane.Pt(x, y)), "%s: the blank's corner %v lies outside of %v", name, v.Point, room)
		}
		some := plane.Box{Min: plane.Pt(-3*f.Length, -3*f.Width), Max: plane.Pt(3*f.Length, 3*f.Width)}
		for range 500 {
			q := room.Nearest(plane.Pt(some.Min.X+some.W()*rng.Float64(), some.Min.Y+some.H()*rng.Float64()))
			x, v := f.Where(f.Place(q.X, q.Y))
			assert.InDelta(t, 0, q.Dist(plane.Pt(x, v)), 1e-7, "%s: %v comes back as %v, %v", name, q, x, v)
		}
	}
}

// What is carried past the ends of a cuff does not come to lie on it again; a whole
// way round a closed band leads back.
func TestWhatIsCarriedFarStaysOffTheBlankOrComesRound(t *testing.T) {
	for name, b := range steep() {
		f := unroll(t, b)
		if !f.Flared() {
			continue
		}
		for x := -0.45; x < 0.5; x += 0.15 {
			p := f.Place(x*f.Length, 1)
			assert.InDelta(t, 0, p.Dist(f.Carried(p, 0, 0)), 1e-9, name)
			for far := 0.02; far < 3; far += 0.1 {
				q := f.Carried(p, far*f.Length, 0)
				if b.Kind != Cuff {
					at, _ := f.Where(q)
					off := math.Remainder(at-(x+far)*f.Length, f.Length)
					assert.InDelta(t, 0, off, 1e-6, "%s: %g + %g turns", name, x, far)
					continue
				}
				on := f.Outline.Contains(q)
				assert.Equal(t, x+far < 0.5, on, "%s: %g of the length carried by %g", name, x, far)
			}
		}
	}
}
