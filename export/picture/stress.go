package picture

import (
	"bufio"
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"math"
	"slices"
	"strings"

	"fretband/export"
	"fretband/export/paint"
	"fretband/pattern"
	"fretband/pattern/lettering"
	"fretband/pattern/strength"
	"fretband/unroll/plane"
)

// Measures of the picture of stress on the blank.
const (
	stressWide  = 2000 // pixels
	hatchStep   = 1.6  // mm between the lines over idle metal
	hatchLine   = 0.12 // mm
	stressChord = 0.01 // mm
	bentWide    = 1300 // pixels, of the bent band
	bentHigh    = 900  // at most
)

// StressPicture draws the stress of one case on the blank: its map, a legend beneath, and
// under that, if it is wanted, the bent band as it is under the load.
type StressPicture struct {
	*StressMap
	sheet  *pattern.Sheet
	words  []string
	metal  []polygon // outline and openings
	box    plane.Box // of the blank and its margin, mm
	letter float64   // mm

	bent   *image.RGBA // nil if it is not wanted
	bentAt plane.Point // its upper left corner, mm
}

type polygon = []plane.Point

// NewStressPicture prepares the picture of a case of the figures.
func NewStressPicture(s *pattern.Sheet, f *strength.Figures, c strength.CaseFigures, proof float64) *StressPicture {
	p := &StressPicture{sheet: s, StressMap: NewStressMap(f, c, proof)}
	b := s.Flat.Outline.Bounds()
	p.letter = math.Min(math.Max(b.W()/60, 1.6), 4)
	p.box = plane.Box{Min: plane.Pt(b.Min.X-2*p.letter, b.Min.Y-10*p.letter), Max: plane.Pt(b.Max.X+2*p.letter, b.Max.Y+2*p.letter)}
	p.words = []string{
		pattern.Say("%s: %s,", export.Title(s.Design), c.What),
		p.Load() + ".",
		pattern.Say("Stress on the worse face, %s. Hatched: idle metal. Ring: the greatest, %.0f MPa.", p.Of(), p.Case.Peak),
		StressCaution,
	}
	p.metal = append(p.metal, s.Flat.Outline.Flatten(stressChord))
	for _, l := range openingsOnBlank(s) {
		p.metal = append(p.metal, l.Flatten(stressChord))
	}
	return p
}

// AddBent adds the bent band as it is under the load, beneath the legend.
func (p *StressPicture) AddBent() (err error) {
	if p.bent, err = p.loaded(p.sheet, bentWide, bentHigh); err != nil {
		return err
	}
	p.words = slices.Insert(p.words, len(p.words)-1, p.Drawn()+" below; thin lines: the band without load.")
	p.box.Min.Y -= 1.15 * p.letter // for the line more
	k := p.perMM()
	p.bentAt = plane.Pt(p.box.Centre().X-bentWide/2/k, p.box.Min.Y)
	p.box.Min.Y -= float64(p.bent.Rect.Dy()) / k
	return nil
}

// perMM is how many pixels a millimetre of the blank has.
func (p *StressPicture) perMM() float64 { return stressWide / p.box.W() }

// board is what a picture is drawn on, in mm of the blank, y up.
type board interface {
	fill(ps []polygon, c color.NRGBA)
	hatch(ps []polygon, c color.NRGBA)
	text(at plane.Point, height float64, words string)
	picture(at plane.Point, perMM float64, img *image.RGBA) error // with its upper left corner there
}

func (p *StressPicture) draw(b board) error {
	for i, ps := range p.Over {
		b.fill(ps, StressShade(i))
	}
	b.hatch(p.Idle, pngInk)
	// The mesh follows edges by chords, and runs on past the ends of a closed band.
	b.fill(p.ground(), paperWhite)
	line := func(wide float64, ms ...polygon) {
		var edges []polygon
		for _, m := range ms {
			for i, a := range m {
				edges = append(edges, stroke(a, m[(i+1)%len(m)], wide))
			}
		}
		b.fill(edges, pngInk)
	}
	line(p.letter/25, p.metal...)
	line(p.letter/6, plane.Circle(p.Case.PeakAt, 0.6*p.letter).Flatten(stressChord))
	// The legend.
	bottom := p.sheet.Flat.Outline.Bounds().Min
	x, y := bottom.X, bottom.Y-3*p.letter
	wide := math.Min(4*p.letter, (p.box.W()-14*p.letter)/float64(StressShades))
	for i := range StressShades {
		b.fill([]polygon{{plane.Pt(x, y), plane.Pt(x+wide, y), plane.Pt(x+wide, y+p.letter), plane.Pt(x, y+p.letter)}}, StressShade(i))
		b.text(plane.Pt(x, y-0.9*p.letter), 0.55*p.letter, StressLabel(i))
		x += wide
	}
	for i, line := range p.words {
		b.text(plane.Pt(bottom.X, y-(2.3+1.15*float64(i))*p.letter), 0.62*p.letter, line)
	}
	if p.bent == nil {
		return nil
	}
	return b.picture(p.bentAt, p.perMM(), p.bent)
}

// ground is what is not metal.
func (p *StressPicture) ground() []polygon {
	b := p.box
	out := []polygon{{b.Min, plane.Pt(b.Max.X, b.Min.Y), b.Max, plane.Pt(b.Min.X, b.Max.Y)}}
	outline := slices.Clone(p.metal[0])
	slices.Reverse(outline)
	return append(append(out, outline), p.metal[1:]...)
}

// stroke is a line of some width.
func stroke(a, b plane.Point, wide float64) polygon {
	d := b.Sub(a)
	if d.Len() == 0 {
		return nil
	}
	n := d.Unit().Left().Mul(wide / 2)
	d = d.Unit().Mul(wide / 2)
	a, b = a.Sub(d), b.Add(d)
	return polygon{a.Add(n), a.Sub(n), b.Sub(n), b.Add(n)}
}

// WriteSVG writes the picture as SVG.
func (p *StressPicture) WriteSVG(out io.Writer) error {
	w := bufio.NewWriter(out)
	fmt.Fprintf(w, "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %d %d\">\n",
		export.MM(p.box.W()), export.MM(p.box.H()), Steps(p.box.W()), Steps(p.box.H()))
	fmt.Fprintf(w, "<title>%s</title>\n<desc>A picture, not a drawing to cut from. %s</desc>\n", export.XMLText(p.words[0]), export.TagOf(p.sheet.Design, export.TagRoom))
	fmt.Fprintf(w, "<defs><pattern id=\"idle\" width=\"%d\" height=\"%d\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path d=\"M0 0h%[1]d\" stroke=\"%[3]s\" stroke-width=\"%[4]d\"/></pattern></defs>\n",
		Steps(hatchStep), Steps(hatchStep), hexColour(pngInk), Steps(2*hatchLine))
	fmt.Fprintf(w, "<rect width=\"%d\" height=\"%d\" fill=\"#ffffff\"/>\n", Steps(p.box.W()), Steps(p.box.H()))
	if err := p.draw(&svgBoard{w, p.box}); err != nil {
		return err
	}
	fmt.Fprintln(w, "</svg>")
	return w.Flush()
}

type svgBoard struct {
	w   io.Writer
	box plane.Box
}

func (b *svgBoard) path(ps []polygon, paint string) {
	if len(ps) == 0 {
		return
	}
	var d strings.Builder
	for _, p := range ps {
		for i, q := range p {
			fmt.Fprintf(&d, "%c%d %d", "ML"[min(i, 1)], Steps(q.X-b.box.Min.X), Steps(b.box.Max.Y-q.Y))
		}
		d.WriteString("z")
	}
	fmt.Fprintf(b.w, "<path %s d=\"%s\"/>\n", paint, d.String())
}

func (b *svgBoard) fill(ps []polygon, c color.NRGBA) {
	b.path(ps, fmt.Sprintf("fill=\"%s\"", hexColour(c)))
}

func (b *svgBoard) hatch(ps []polygon, _ color.NRGBA) { b.path(ps, "fill=\"url(#idle)\"") }

func (b *svgBoard) text(at plane.Point, height float64, words string) {
	fmt.Fprintf(b.w, "<text x=\"%d\" y=\"%d\" font-family=\"sans-serif\" font-size=\"%d\" fill=\"%s\">%s</text>\n",
		Steps(at.X-b.box.Min.X), Steps(b.box.Max.Y-at.Y), Steps(height/0.7), hexColour(pngInk), export.XMLText(words))
}

func (b *svgBoard) picture(at plane.Point, perMM float64, img *image.RGBA) error {
	var file bytes.Buffer
	if err := png.Encode(&file, img); err != nil {
		return err
	}
	_, err := fmt.Fprintf(b.w, "<image x=\"%d\" y=\"%d\" width=\"%d\" height=\"%d\" href=\"data:image/png;base64,%s\"/>\n",
		Steps(at.X-b.box.Min.X), Steps(b.box.Max.Y-at.Y), Steps(float64(img.Rect.Dx())/perMM), Steps(float64(img.Rect.Dy())/perMM), base64.StdEncoding.EncodeToString(file.Bytes()))
	return err
}

// WritePNG writes the picture as PNG.
func (p *StressPicture) WritePNG(out io.Writer) error {
	var file bytes.Buffer
	img, err := p.image()
	if err != nil {
		return err
	}
	if err := png.Encode(&file, img); err != nil {
		return err
	}
	_, err = out.Write(withPNGText(file.Bytes(), "Description", export.TagOf(p.sheet.Design, export.TagRoom)))
	return err
}

func (p *StressPicture) image() (*image.RGBA, error) {
	k := p.perMM()
	img := image.NewRGBA(image.Rect(0, 0, stressWide, int(math.Ceil(p.box.H()*k))))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	return img, p.draw(&pixelBoard{img, p.box, k, paint.NewFill(stressWide, img.Rect.Dy()), hatchLine})
}

type pixelBoard struct {
	img   *image.RGBA
	box   plane.Box
	k     float64 // pixels a millimetre
	paint *paint.Fill
	line  float64 // width of the hatch, mm
}

func (b *pixelBoard) gather(ps []polygon) {
	for _, p := range ps {
		b.paint.Through(len(p), func(i int) (x, y float64) { return (p[i].X - b.box.Min.X) * b.k, (b.box.Max.Y - p[i].Y) * b.k })
	}
}

func (b *pixelBoard) fill(ps []polygon, c color.NRGBA) {
	b.gather(ps)
	b.paint.Draw(b.img, c)
}

func (b *pixelBoard) hatch(ps []polygon, c color.NRGBA) {
	b.gather(ps)
	step, line := hatchStep*b.k*math.Sqrt2, b.line*b.k*math.Sqrt2
	b.paint.Each(func(x, y int, share float32) {
		if math.Mod(float64(x+y), step) < line {
			paint.Blend(b.img, x, y, c, share)
		}
	})
	b.paint.Reset(b.img.Rect.Dx(), b.img.Rect.Dy())
}

func (b *pixelBoard) text(at plane.Point, height float64, words string) {
	line, err := lettering.Outlines(words, height, stressChord)
	if err != nil {
		return // a letter that the face has not; the figures stand in the report
	}
	for _, l := range line.Loops {
		add(b.paint, l, b.k, func(p plane.Point) plane.Point {
			return plane.Pt((at.X+p.X-b.box.Min.X)*b.k, (b.box.Max.Y-at.Y-p.Y)*b.k)
		})
	}
	b.paint.Draw(b.img, pngInk)
}

func (b *pixelBoard) picture(at plane.Point, _ float64, img *image.RGBA) error {
	x, y := int((at.X-b.box.Min.X)*b.k), int((b.box.Max.Y-at.Y)*b.k)
	draw.Draw(b.img, img.Rect.Add(image.Pt(x, y)), img, image.Point{}, draw.Src)
	return nil
}
