package view3d

import (
	"image/color"
	"math"
)

// tone is the colour of polished metal for each direction that its surface may
// look in: a disc of directions seen from the eye, x right and y up.
type tone [toneSize * toneSize]uint32

const toneSize = 256

// at returns the colour of a surface that looks in the direction n (in the
// picture's space, of any length), as r | g<<8 | b<<16.
func (t *tone) at(n vec) uint32 {
	x, y := towards(n)
	i, j := int(x), int(y)
	return t[min(max(j, 0), toneSize-1)*toneSize+min(max(i, 0), toneSize-1)]
}

// between is at with the mean of the four nearest directions, by their distances.
func (t *tone) between(n vec) uint32 {
	x, y := towards(n)
	// The table holds the middles of its squares.
	x, y = min(max(x-0.5, 0), toneSize-1.001), min(max(y-0.5, 0), toneSize-1.001)
	i, j := int(x), int(y)
	k := j*toneSize + i
	u, w := uint32((x-float32(i))*256), uint32((y-float32(j))*256)
	return mixed(mixed(t[k], t[k+1], u), mixed(t[k+toneSize], t[k+toneSize+1], u), w)
}

// towards returns the position of a direction in the table of a tone.
func towards(n vec) (x, y float32) {
	l := dot(n, n)
	if l == 0 {
		return toneSize / 2, toneSize / 2
	}
	k := float32(1 / math.Sqrt(float64(l)))
	x, y = n.x*k, n.y*k
	if n.z < 0 { // a smooth surface's rim seen just past its edge
		if r := float32(math.Sqrt(float64(x*x + y*y))); r > 0 {
			x, y = x/r, y/r
		}
	}
	return (x*0.5 + 0.5) * (toneSize - 1), (y*0.5 + 0.5) * (toneSize - 1)
}

// toneOf works out the tone of a metal of the given colour. light is the share
// of the room's light that reaches it, gloss how much of it is mirrored.
func toneOf(c color.NRGBA, light, gloss float64) *tone {
	f0 := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
	t := new(tone)
	for j := range toneSize {
		for i := range toneSize {
			x, y := (float64(i)+0.5)/toneSize*2-1, (float64(j)+0.5)/toneSize*2-1
			r2 := x*x + y*y
			if r2 > 0.9999 {
				k := math.Sqrt(0.9999 / r2)
				x, y, r2 = x*k, y*k, 0.9999
			}
			z := math.Sqrt(1 - r2)
			// The direction that is mirrored to the eye.
			mirrored := room(2*z*x, 2*z*y, 2*z*z-1)
			soft := 0.26 + 0.62*math.Max(0, -0.40*x+0.50*y+0.77*z) + 0.16*math.Max(0, 0.75*x-0.1*y+0.65*z)
			edge := math.Pow(1-z, 5) // C. Schlick's approximation of Fresnel's law
			var out uint32
			for k := range 3 {
				f := f0[k] + (1-f0[k])*edge*0.8
				v := light * (gloss*f*mirrored + (1-gloss)*f0[k]*1.5*soft)
				out |= uint32(encoded(rolledOff(v))) << (8 * k)
			}
			t[j*toneSize+i] = out
		}
	}
	return t
}

// room is the light that comes from a direction: walls that are lighter above, a
// broad soft light on the left and a narrow one on the right, both tall, so that
// an upright cylinder shows them as streaks, with dark between; and some light
// from behind that draws the edges.
func room(x, y, z float64) float64 {
	around := math.Atan2(x, z)
	tall := smooth(-1, -0.55, y) * smooth(1, 0.75, y)
	l := 0.36 + 0.34*smooth(-0.8, 0.9, y)
	l -= 0.20 * smooth(0.75, 0.1, math.Abs(around-0.22)) * tall
	l -= 0.20 * smooth(0.6, 0.1, math.Abs(around+1.75)) * tall
	l += 2.3 * smooth(0.85, 0.15, math.Abs(around+0.78)) * tall
	l += 1.5 * smooth(0.36, 0.06, math.Abs(around-1.15)) * tall
	l += 0.7 * smooth(0.1, -0.7, z)
	l += 0.9 * smooth(0.75, 0.97, -0.35*x+0.80*y+0.48*z) // the ceiling's lamp
	return math.Max(l, 0.03)
}

// smooth goes from 0 at a to 1 at b without corners.
func smooth(a, b, x float64) float64 {
	t := math.Max(0, math.Min(1, (x-a)/(b-a)))
	return t * t * (3 - 2*t)
}

// rolledOff keeps highlights below white, as film does: an exposure.
func rolledOff(x float64) float64 { return 1 - math.Exp(-1.3*x) }

// linear and encoded are sRGB's transfer (IEC 61966-2-1).
func linear(c uint8) float64 {
	v := float64(c) / 255
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

func encoded(v float64) uint8 {
	v = math.Max(0, math.Min(1, v))
	if v <= 0.0031308 {
		v *= 12.92
	} else {
		v = 1.055*math.Pow(v, 1/2.4) - 0.055
	}
	return uint8(v*255 + 0.5)
}
