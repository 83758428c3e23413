package jobsheet

import (
	"image"
	"image/color"

	"fretband/export/picture"
	"fretband/pattern"
)

// pictureWide is the width of the picture on a job sheet, pixels: some 370 to an inch
// where it is on paper.
const pictureWide = 900

// Picture returns the picture of the bent band that both job sheets of a part show, in
// grey.
func Picture(s *pattern.Sheet) (*image.Gray, error) {
	img, err := picture.Bent(s, pictureWide, pictureWide*3/4, color.NRGBA{214, 214, 214, 255})
	if err != nil {
		return nil, err
	}
	grey := image.NewGray(img.Rect)
	for i := range grey.Pix {
		p := img.Pix[4*i : 4*i+3]
		// The brightness of a colour (ITU-R BT.601's weights, as image/color has them).
		grey.Pix[i] = color.GrayModel.Convert(color.NRGBA{p[0], p[1], p[2], 255}).(color.Gray).Y
	}
	return grey, nil
}
