package pages

import (
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fretband/app/ui/kit"
	"fretband/export/paint"
	"fretband/pattern"
	"fretband/pattern/motif"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// TestASheetOfAllMotifs draws every motif with its own numbers as it is cut from a
// piece of band 24 mm wide. The picture that README shows is made by
//
//	FRETBAND_PICTURES=$PWD/testdata/pictures go test ./app/ui/pages -run SheetOfAllMotifs
func TestASheetOfAllMotifs(t *testing.T) {
	a := test.NewApp()
	t.Cleanup(a.Quit)
	k := kit.New("light")
	const wide, high, gapX, gapY, name = 228, 118, 14, 12, 22
	fields := []pattern.Field{}
	titles := []string{}
	for _, m := range motif.All() {
		fields = append(fields, pattern.Field{Motif: m.Key, Stagger: m.Usual.Stagger})
		titles = append(titles, m.Title)
	}
	fields = append(fields, pattern.Field{Motif: motif.OwnKey, Path: sampleOwn}, pattern.Field{
		Motif: "leaves", GradeAlong: []pattern.Grade{{At: -1, Size: 0.5}, {At: 0, Size: 1}, {At: 1, Size: 0.5}}})
	titles = append(titles, "Your own", "Leaves, graded")
	const columns = 6
	rows := (len(fields) + columns - 1) / columns
	img := image.NewRGBA(image.Rect(0, 0, columns*(wide+gapX)+gapX, rows*(high+name+gapY)+gapY))
	paint.Box(img, 0, 0, img.Rect.Dx(), img.Rect.Dy(), k.Dress.Panel)
	face := k.Faces.Size(14)
	for i, f := range fields {
		p := newMotifPicture(k)
		p.show(f, kit.MetalOf("sterling-925"))
		part := p.Generator(wide, high).(*image.RGBA)
		// Metal and openings are both on it, and neither is a trifle.
		metal := 0
		for j := 0; j < len(part.Pix); j += 4 {
			if part.Pix[j] == p.tone.Face.R && part.Pix[j+1] == p.tone.Face.G {
				metal++
			}
		}
		require.InDelta(t, 0.5, float64(metal)/(wide*high), 0.42, titles[i])
		x, y := gapX+i%columns*(wide+gapX), gapY+i/columns*(high+name+gapY)
		for r := range high {
			copy(img.Pix[img.PixOffset(x, y+r):], part.Pix[r*part.Stride:r*part.Stride+4*wide])
		}
		face.Draw(img, titles[i], float64(x)+wide/2, float64(y+high+16), kit.AlignMiddle, k.Dress.Ink)
	}
	if dir := os.Getenv("FRETBAND_PICTURES"); dir != "" {
		f, err := os.Create(filepath.Join(dir, "motifs.png"))
		require.NoError(t, err)
		defer f.Close()
		require.NoError(t, png.Encode(f, fewColours(img, k.Dress)))
	}
}

// fewColours draws a picture in the shades between its few colours, which makes a
// small file of it.
func fewColours(img *image.RGBA, d *kit.Dress) image.Image {
	p := color.Palette{}
	face := kit.MetalOf("sterling-925").Face
	for i := range 32 {
		t := uint8(255 * i / 31)
		p = append(p, kit.Over(d.Paper, kit.Alpha(face, t), d.Panel), kit.Over(d.Panel, kit.Alpha(d.Ink, t), d.Panel))
	}
	out := image.NewPaletted(img.Rect, p)
	draw.Draw(out, img.Rect, img, image.Point{}, draw.Src)
	return out
}
