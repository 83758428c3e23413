package export

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"regexp"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func painted(c *coverage) (area float64) {
	img := image.NewRGBA(image.Rect(0, 0, c.w, c.h))
	c.paint(img, func(int, int) color.NRGBA { return color.NRGBA{255, 255, 255, 255} })
	for i := 0; i < len(img.Pix); i += 4 {
		area += float64(img.Pix[i]) / 255
	}
	return area
}

// The areas are closed forms: a disc, half of it past the picture's edge, and a disc
// with a square hole. Chords within 0.05 pixel lose up to 0.05 x 192 of 2922.
func TestCoverageIsTheAreaOfTheLoops(t *testing.T) {
	same := func(p plane.Point) plane.Point { return p }
	disc := func(x float64) plane.Loop { return plane.Circle(plane.Pt(x, 50.2), 30.5) }
	whole, half, ring := newCoverage(100, 100), newCoverage(100, 100), newCoverage(100, 100)
	whole.add(disc(50.3), 1, same)
	half.add(disc(100), 1, same)
	ring.add(disc(50.3), 1, same)
	hole := newCoverage(100, 100)
	hole.add(plane.Rect(plane.Box{Min: plane.Pt(40.25, 40.5), Max: plane.Pt(52.75, 60)}), 1, same)
	ring.less(hole)
	want := math.Pi * 30.5 * 30.5
	assert.InEpsilon(t, want, painted(whole), 0.003)
	assert.InEpsilon(t, want/2, painted(half), 0.003)
	assert.InEpsilon(t, want-12.5*19.5, painted(ring), 0.003)
	left := newCoverage(100, 100)
	left.add(disc(0), 1, same)
	assert.InEpsilon(t, want/2, painted(left), 0.003, "what lies left of the picture counts for its rows")
}

func TestTheClientsPictureIsTheSameEachTimeAndShowsMetalOnWhite(t *testing.T) {
	d, err := project.GalleryDesign("mooring-ring")
	require.NoError(t, err)
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	var a, b bytes.Buffer
	require.NoError(t, writePicturePNG(&a, s, nil, Options{}))
	require.NoError(t, writePicturePNG(&b, s, nil, Options{}))
	require.True(t, bytes.Equal(a.Bytes(), b.Bytes()))
	img, err := png.Decode(&a)
	require.NoError(t, err)
	assert.Equal(t, pngWide, img.Bounds().Dx())
	white, most := 0, img.Bounds().Dx()*img.Bounds().Dy()
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			if r, g, b, _ := img.At(x, y).RGBA(); r&g&b == 0xffff {
				white++
			}
		}
	}
	assert.Greater(t, white, most/4)
	assert.Less(t, white, most*9/10)
}

func TestAPictureNeedsNoNameThatCanBeDrawn(t *testing.T) {
	d, err := project.GalleryDesign("mooring-ring")
	require.NoError(t, err)
	for _, name := range []string{"指輪", strings.Repeat("WM", 40)} {
		d.Name = name
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		require.NoError(t, writePicturePNG(&bytes.Buffer{}, s, nil, Options{}))
	}
}

func TestThePictureInLinesHoldsEveryOpeningAndCutsThoseOverTheEnds(t *testing.T) {
	for name, over := range map[string]bool{"harbour-cuff": false, "buoy-bangle": true} {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		var b bytes.Buffer
		require.NoError(t, writePicture(&b, s, nil, Options{}))
		closed := len(regexp.MustCompile(`z[M"]`).FindAllString(b.String(), -1))
		if over { // in two parts, one at each end
			assert.Greater(t, closed, len(s.Openings)+1, name)
		} else {
			assert.Equal(t, len(s.Openings)+1, closed, name)
		}
	}
}
