package ui

import (
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"

	"github.com/stretchr/testify/require"
)

// dresses are those that a test goes through whose answers are the same in all: one will
// do, unless pictures are to be looked at.
func dresses() []string {
	if os.Getenv("FRETBAND_PICTURES") == "" {
		return []string{"light"}
	}
	return []string{"light", "dark"}
}

// keepPicture writes a picture where FRETBAND_PICTURES says, for a person to
// look at; without it nothing is written.
func keepPicture(t *testing.T, name string, picture func() image.Image) {
	t.Helper()
	dir := os.Getenv("FRETBAND_PICTURES")
	if dir == "" {
		return
	}
	require.NoError(t, os.MkdirAll(dir, 0o755))
	f, err := os.Create(filepath.Join(dir, name+".png"))
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, png.Encode(f, picture()))
}

func testScene(t *testing.T, name string) *scene {
	t.Helper()
	d, err := project.GalleryDesign(name)
	require.NoError(t, err)
	return sceneOf(t, d)
}

func sceneOf(t *testing.T, d pattern.Design) *scene {
	t.Helper()
	s, err := pattern.Lay(d)
	require.NoError(t, err)
	return newScene(1, s, check.Run(s))
}

func testKit(t testing.TB) *kit.Kit {
	t.Helper()
	k, err := kit.New("light")
	require.NoError(t, err)
	return k
}

func TestTheDrawingShowsMetalWhereThereIsMetal(t *testing.T) {
	for _, name := range project.Gallery() {
		for _, d := range []*kit.Dress{kit.DressNamed("light"), kit.DressNamed("dark")} {
			sc := testScene(t, name)
			p := sheetPainter{faces: testKit(t).Faces}
			v := view{k: 1, frame: newFrame(1400, 380, 1)}
			v = v.fit(sc.sheet.Flat.Outline.Bounds())
			bare := noMarks()
			bare.noStretch = true // it tints the metal
			img := p.paint(v, sc, d, bare)
			keepPicture(t, "sheet-"+name+"-"+d.Name, func() image.Image { return img })
			// The share of metal pixels is the report's share, an independent figure.
			metal := 0
			for y := int(v.frame.top); y < int(v.frame.bottom); y++ {
				for x := int(v.frame.left); x < int(v.frame.right); x++ {
					if c := img.RGBAAt(x, y); c.R == sc.tone.Face.R && c.G == sc.tone.Face.G && c.B == sc.tone.Face.B {
						metal++
					}
				}
			}
			got := float64(metal) / (v.k * v.k)
			want := sc.report.BlankArea - sc.report.CutArea
			// Lines, hatches and marks hide some of it.
			require.Less(t, got, want*1.01)
			require.Greater(t, got, want*0.55, name)
		}
	}
}
