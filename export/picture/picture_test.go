package picture

import (
	"bytes"
	"image/png"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/pattern/strength"
	"fretband/testdata"
	"fretband/unroll/plane"
)

func TestTheClientsPictureIsTheSameEachTimeAndShowsMetalOnWhite(t *testing.T) {
	d, err := project.GalleryDesign("mooring-ring")
	require.NoError(t, err)
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	var a, b bytes.Buffer
	require.NoError(t, WritePNG(&a, s, nil, export.Options{}))
	require.NoError(t, WritePNG(&b, s, nil, export.Options{}))
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
		require.NoError(t, WritePNG(&bytes.Buffer{}, s, nil, export.Options{}))
	}
}

func TestThePictureInLinesHoldsEveryOpeningAndCutsThoseOverTheEnds(t *testing.T) {
	for name, over := range map[string]bool{"harbour-cuff": false, "buoy-bangle": true} {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		s, err := pattern.Lay(d)
		require.NoError(t, err)
		var b bytes.Buffer
		require.NoError(t, WriteSVG(&b, s, nil, export.Options{}))
		closed := len(regexp.MustCompile(`z[M"]`).FindAllString(b.String(), -1))
		if over { // in two parts, one at each end
			assert.Greater(t, closed, len(s.Openings)+1, name)
		} else {
			assert.Equal(t, len(s.Openings)+1, closed, name)
		}
	}
}

// On paper a loop is within a step and a half of where it is: a step of the grid's
// diagonal and one of the chords.
func TestFiguresAreDrawnWithinAStepOfPaper(t *testing.T) {
	for _, l := range []plane.Loop{
		plane.Circle(plane.Pt(3.333, 1.777), 20), plane.Circle(plane.Pt(0, 0), 0.3), plane.Circle(plane.Pt(0, 0), 0.04),
		{{Point: plane.Pt(0, 0), Bulge: 1}, {Point: plane.Pt(7.123, 0.456), Bulge: 0.98}, {Point: plane.Pt(-3, 2)}},
	} {
		for _, k := range []float64{0.3, 1, 2} {
			es := OnPaper(l.Edges(), k)
			require.NotEmpty(t, es)
			for i, e := range es {
				require.Equal(t, es[(i+1)%len(es)].A, e.B, "it runs on")
				for _, u := range []float64{0, 0.25, 0.5, 0.75} {
					d := l.Nearest(e.At(u).Mul(1/k)).D * k
					assert.LessOrEqual(t, d, 2*paperStep, "k %g", k)
				}
			}
		}
	}
	assert.Empty(t, OnPaper(plane.Circle(plane.Pt(1, 1), 0.002).Edges(), 1), "smaller than a step")
}

// The picture of stress holds as much shaded metal as the report has metal, on a cuff, on a
// band that wraps and on a flared one whose ends meet by turning.
func TestThePictureOfStressShowsMetalWhereThereIsMetal(t *testing.T) {
	designs := map[string]pattern.Design{}
	for _, name := range []string{"harbour-cuff", "tide-bangle"} {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		designs[name] = d
	}
	for _, e := range testdata.Forms() {
		if d, err := project.Read(bytes.NewReader(e.JSON)); err == nil && d.Band.FlareDeg != 0 && !d.Band.Open() {
			designs[e.Name] = d
			break
		}
	}
	require.Len(t, designs, 3)
	for name, d := range designs {
		s, r, err := check.Lay(d)
		require.NoError(t, err)
		f, err := check.StrengthOf(t.Context(), s, r, check.StrengthAsk{Coarse: true})
		require.NoError(t, err)
		p := NewStressPicture(s, f, f.Cases[0], d.Temper().ProofMPa)
		img, err := p.image()
		require.NoError(t, err)
		k := p.perMM()
		shown := 0
		bottom := int((p.box.Max.Y - s.Flat.Outline.Bounds().Min.Y + 0.5) * k)
		for y := range bottom {
			for x := range stressWide {
				if c := img.RGBAAt(x, y); c.R&c.G&c.B != 255 {
					shown++
				}
			}
		}
		// Lines along edges add their half, and half of a pixel that they cover in part.
		assert.InEpsilon(t, r.BlankArea-r.CutArea+r.CutLength*(p.letter/50+0.5/k), float64(shown)/k/k, 0.02, name)
	}
}

// Bending is drawn a round number of times, so far that it is seen and not so far that the
// band looks like another; the same load the other way round moves it the other way.
func TestBendingIsDrawnAsFarAsItIsSaid(t *testing.T) {
	for _, name := range []string{"harbour-cuff", "tide-bangle", "mooring-ring"} {
		d, err := project.GalleryDesign(name)
		require.NoError(t, err)
		s, r, err := check.Lay(d)
		require.NoError(t, err)
		f, err := check.StrengthOf(t.Context(), s, r, check.StrengthAsk{Coarse: true, Pushes: []plane.Point{{X: 12, Y: s.Flat.Outline.Bounds().Max.Y - 1}}})
		require.NoError(t, err)
		at := plane.Pt(s.Flat.Length/2-1, 0)
		for _, c := range f.Cases {
			m := NewStressMap(f, c, d.Temper().ProofMPa)
			require.Regexp(t, `^Bending drawn [125]0*\.?0* times$|as it is$`, m.Drawn())
			far := m.Bending.Most * m.Case.ForceN * m.Times
			if m.Times > 1 {
				assert.LessOrEqual(t, far, mostDrawn*m.Bending.Size*(1+1e-9), c.What)
			}
			assert.Greater(t, far, 0.01*m.Bending.Size, "%s: it is seen", c.What)
			move, _ := m.Moving()(at)
			moved, _ := m.Bending.At(at)
			k := m.Case.ForceN * m.Times
			if c.Case == strength.Close {
				k = -k
			}
			assert.InDelta(t, k*moved.X, move.X, 1e-9, c.What)
			assert.InDelta(t, k*moved.Y, move.Y, 1e-9, c.What)
		}
		if name == "harbour-cuff" {
			right := s.Flat.Bend(at, 0)
			open, _ := NewStressMap(f, f.Cases[0], 100).Moving()(at)
			shut, _ := NewStressMap(f, f.Cases[1], 100).Moving()(at)
			assert.Equal(t, strength.Close, f.Cases[1].Case)
			assert.Positive(t, open.X*right.X, "the ends go apart")
			assert.Negative(t, shut.X*right.X, "the ends come together")
		}
	}
}
