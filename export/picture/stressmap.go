package picture

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"slices"

	"fretband/export/paint"
	"fretband/pattern"
	"fretband/pattern/strength"
	"fretband/unroll/plane"
)

// stressShades are the shades of stress, from idle to full, a tenth each. Each is darker
// than the one before, so that the picture reads in grey and to every eye.
var stressShades = [...]color.NRGBA{
	{247, 241, 222, 255}, {242, 222, 178, 255}, {236, 198, 132, 255}, {227, 168, 96, 255}, {212, 135, 78, 255},
	{188, 102, 74, 255}, {157, 74, 76, 255}, {122, 52, 78, 255}, {86, 36, 72, 255}, {54, 24, 58, 255},
	{10, 8, 20, 255}, // full and over it
}

// StressShades is how many shades there are; the last is of metal at full stress and over.
const StressShades = len(stressShades)

// StressShade is the colour of a shade.
func StressShade(i int) color.NRGBA { return stressShades[min(max(i, 0), StressShades-1)] }

// StressLabel is what a shade's lower end is called in a legend, %.
func StressLabel(i int) string {
	if i == StressShades-1 {
		return "100 and more"
	}
	return fmt.Sprint(i * 100 / (StressShades - 1))
}

// StressMap is the stress of one case on the blank: von Mises on the worse face as a share
// of full, at the case's usual load or at that at which the first bridge yields, if that is
// less: beyond it the metal is not as the solve has it.
type StressMap struct {
	Case  strength.CaseFigures // at the load that is shown
	Full  float64              // MPa
	Proof bool                 // full is the proof stress; else what 99 % of the metal stay under
	Yield bool                 // the load shown is that at which the first whole bridge yields
	// Over are the outlines of the metal in each shade or a darker one; Idle those of
	// metal that hardly works.
	Over [StressShades][][]plane.Point
	Idle [][]plane.Point

	// Print is the shades and hatches as a picture on the flat: what is within a hair of
	// the mesh has the shade of the nearest, since edges are followed by chords.
	Print      *image.RGBA
	PrintMin   plane.Point // its lower left corner, mm
	PrintPerMM float64     // its pixels

	// Bending is how the band moves, and Times how many times as far a picture of its
	// loaded shape has it move.
	Bending *strength.Bending
	Times   float64

	spread *strength.Spread
}

// NewStressMap prepares the map of a case of the figures. proof is the proof stress, MPa,
// 0 if none is known.
func NewStressMap(f *strength.Figures, c strength.CaseFigures, proof float64) *StressMap {
	m := &StressMap{Full: proof, Proof: proof > 0, spread: f.Study.Spread(c.Result)}
	if !m.Proof {
		m.Full = c.P99
	} else if share := proof / c.Bridge; share < 1 {
		c, m.Yield = c.Scaled(share), true
	}
	m.Case = c
	for i := range m.Over {
		m.Over[i] = m.spread.Over(m.Full / c.ForceN * float64(i) / float64(StressShades-1))
	}
	m.Bending = f.Study.Bending(c.Result, m.spread)
	m.Times = m.drawnTimes()
	m.Idle = m.spread.Outlines(func(k int) bool { return f.Idle[k] })
	m.print()
	return m
}

// printWide is how wide the print is at most, printFine how many pixels it has to the
// millimetre at most: a window shows the bent band by no more.
const (
	printWide = 2400
	printFine = 24
	printHair = 2 // pixels of the print
	// printHatch is the width of its hatch, mm: a pixel or two of the bent band.
	printHatch = 0.28
)

func (m *StressMap) print() {
	box := plane.EmptyBox()
	for _, p := range m.spread.At {
		box = box.Add(p)
	}
	k := math.Min(printFine, printWide/box.W())
	box = box.Grow((printHair + 1) / k)
	wide, high := int(math.Ceil(box.W()*k)), int(math.Ceil(box.H()*k))
	box.Max = box.Min.Add(plane.Pt(float64(wide)/k, float64(high)/k))
	img := image.NewRGBA(image.Rect(0, 0, wide, high))
	b := &pixelBoard{img, box, k, paint.NewFill(wide, high), printHatch}
	for i, ps := range m.Over {
		b.fill(ps, StressShade(i))
	}
	b.hatch(m.Idle, pngInk)
	for range printHair {
		widen(img)
	}
	m.Print, m.PrintMin, m.PrintPerMM = img, box.Min, k
}

// widen gives pixels at the edge of what is painted the colour of a neighbour that is
// wholly painted.
func widen(img *image.RGBA) {
	was := slices.Clone(img.Pix)
	w, h := img.Rect.Dx(), img.Rect.Dy()
	for y := 1; y < h-1; y++ {
		for x := 1; x < w-1; x++ {
			i := y*img.Stride + 4*x
			if was[i+3] == 255 {
				continue
			}
			for _, j := range [4]int{i - 4, i + 4, i - img.Stride, i + img.Stride} {
				if was[j+3] == 255 {
					copy(img.Pix[i:i+4], was[j:j+4])
					break
				}
			}
		}
	}
}

// StressAt is the stress at a position on the blank, MPa; false where no metal is within
// near of it, mm.
func (m *StressMap) StressAt(p plane.Point, near float64) (float64, bool) {
	v, ok := m.spread.StressAt(p, near)
	return v * m.Case.ForceN, ok
}

// Load says at what load the stress is shown.
func (m *StressMap) Load() string {
	text := pattern.Say("at %.2f mm, %.1f N", m.Case.AtMM, m.Case.ForceN)
	if m.Yield {
		text += ", where the first whole bridge yields"
	}
	return text
}

// Of says what the shades are shares of.
func (m *StressMap) Of() string {
	if m.Proof {
		return pattern.Say("%% of the proof stress (%.0f MPa)", m.Full)
	}
	return pattern.Say("%% of what 99 %% of the metal stay under (%.0f MPa)", m.Full)
}

// StressCaution stands wherever stress is shown, at least its beginning.
const (
	StressEstimate = "An estimate for comparing designs, not a promise"
	StressCaution  = StressEstimate + ": a trial piece decides, and a trained goldsmith."
)
