package view3d

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Smooth moves no edge, and steps from pixel to pixel within the front's sheen become
// smaller.
func TestASmoothPictureIsTheSameButForItsSteps(t *testing.T) {
	s := sceneOf(t, bangle(t))
	var a, b View
	l := Light()
	c := s.Fit(standard(t, "Front"), w, h)
	plain := a.Draw(nil, w, h, s, c, l)
	l.Smooth = true
	smooth := b.Draw(nil, w, h, s, c, l)
	assert.Equal(t, a.id, b.id)
	apart := 0
	for i := range plain.Pix {
		apart = max(apart, int(plain.Pix[i])-int(smooth.Pix[i]), int(smooth.Pix[i])-int(plain.Pix[i]))
	}
	assert.Positive(t, apart)
	assert.Less(t, apart, 24, "no more than a step or two of the table")

	tone := toneOf(l.Metal, 1, 0.7)
	rough, fine := 0, 0
	for i := range 2000 { // directions a tenth of the table's step apart
		x := -0.4 + 0.0004*float32(i)
		step := func(f func(vec) uint32) int {
			p, q := f(vec{x, 0, 0.8}), f(vec{x + 0.0004, 0, 0.8})
			d := int(p&255) - int(q&255)
			return max(d, -d)
		}
		rough, fine = max(rough, step(tone.at)), max(fine, step(tone.between))
	}
	assert.Greater(t, rough, 2)
	assert.LessOrEqual(t, fine, rough/2)
}
