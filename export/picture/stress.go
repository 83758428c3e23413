package picture

import (
	"bufio"
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"strings"

	"fretband/export"
	"fretband/export/paint"
	"fretband/pattern"
	"fretband/pattern/lettering"
	"fretband/pattern/strength"
	"fretband/unroll/plane"
)

// Shades of stress, from idle to full. Each is darker than the one before, so that the
// picture reads in grey and to every eye.
var stressShades = [...]color.NRGBA{
	{247, 241, 222, 255}, {242, 222, 178, 255}, {236, 198, 132, 255}, {227, 168, 96, 255}, {212, 135, 78, 255},
	{188, 102, 74, 255}, {157, 74, 76, 255}, {122, 52, 78, 255}, {86, 36, 72, 255}, {54, 24, 58, 255},
}

// stressOver is the shade of metal over its proof stress.
var stressOver = color.NRGBA{10, 8, 20, 255}

// Measures of the picture of stress on the blank.
const (
	stressWide  = 2000 // pixels
	hatchStep   = 1.6  // mm between the lines over idle metal
	hatchLine   = 0.12 // mm
	stressChord = 0.01 // mm
)

// StressPicture draws the stress of one case on the blank: shades of the von Mises stress
// on the worse face as a share of full, MPa, idle metal hatched, a legend beneath.
type StressPicture struct {
	sheet  *pattern.Sheet
	title  []string
	shades [len(stressShades) + 1][]polygon
	idle   []polygon
	metal  []polygon // outline and openings
	peak   plane.Point
	labels [len(stressShades) + 1]string
	box    plane.Box // of the blank and its margin, mm
	letter float64   // mm
}

type polygon []plane.Point

// NewStressPicture prepares the picture of a case of the figures, at its usual load or
// at that at which the first bridge yields, if that is less: beyond it the metal is not
// as the solve has it.
func NewStressPicture(s *pattern.Sheet, f *strength.Figures, c strength.CaseFigures, proof float64) *StressPicture {
	p := &StressPicture{sheet: s, peak: c.PeakAt}
	full, of, at := proof, "of the proof stress", ""
	if full == 0 {
		full, of = c.P99, "of what 99 % of the metal stay under"
	}
	if share := full / c.Bridge; proof > 0 && share < 1 {
		c = c.Scaled(share)
		at = ", where the first whole bridge yields"
	}
	b := s.Flat.Outline.Bounds()
	p.letter = math.Min(math.Max(b.W()/60, 1.6), 4)
	p.box = plane.Box{Min: plane.Pt(b.Min.X-2*p.letter, b.Min.Y-9*p.letter), Max: plane.Pt(b.Max.X+2*p.letter, b.Max.Y+2*p.letter)}
	p.title = []string{
		pattern.Say("%s: %s", export.Plain(s.Design.Name), c.What),
		pattern.Say("at %.2f mm, %.1f N%s. Stress on the worse face, %% %s (%.0f MPa). Hatched: idle metal. Ring: the greatest, %.0f MPa.", c.AtMM, c.ForceN, at, of, full, c.Peak),
		"An estimate for comparing designs, not a promise: a trial piece decides, and a trained goldsmith.",
	}
	for i := range stressShades {
		p.labels[i] = fmt.Sprint(i * 100 / len(stressShades))
	}
	p.labels[len(stressShades)] = "100 and more"
	for k, tri := range f.Study.OnBlank(c.Result) {
		for j := range tri {
			tri[j].Stress *= c.ForceN / full * float64(len(stressShades))
		}
		p.shade(tri)
		if f.Idle[k] {
			p.idle = append(p.idle, polygon{tri[0].At, tri[1].At, tri[2].At})
		}
	}
	p.metal = append(p.metal, s.Flat.Outline.Flatten(stressChord))
	for _, l := range openingsOnBlank(s) {
		p.metal = append(p.metal, l.Flatten(stressChord))
	}
	return p
}

// shade divides a triangle along the lines of equal stress.
func (p *StressPicture) shade(t [3]strength.Spot) {
	lo := math.Min(t[0].Stress, math.Min(t[1].Stress, t[2].Stress))
	hi := math.Max(t[0].Stress, math.Max(t[1].Stress, t[2].Stress))
	last := len(p.shades) - 1
	for i := min(int(lo), last); i <= min(int(hi), last); i++ {
		part := t[:]
		if float64(i) > lo {
			part = clip(part, float64(i), 1)
		}
		if i < last && float64(i+1) < hi {
			part = clip(part, float64(i+1), -1)
		}
		if len(part) > 2 {
			poly := make(polygon, len(part))
			for k, s := range part {
				poly[k] = s.At
			}
			p.shades[i] = append(p.shades[i], poly)
		}
	}
}

// clip keeps the part of a convex polygon where the stress is over (side 1) or under
// (side -1) a level.
func clip(poly []strength.Spot, level, side float64) []strength.Spot {
	var out []strength.Spot
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		da, db := side*(a.Stress-level), side*(b.Stress-level)
		if da >= 0 {
			out = append(out, a)
		}
		if (da > 0 && db < 0) || (da < 0 && db > 0) {
			t := da / (da - db)
			out = append(out, strength.Spot{At: a.At.Add(b.At.Sub(a.At).Mul(t)), Stress: level})
		}
	}
	return out
}

// board is what a picture is drawn on, in mm of the blank, y up.
type board interface {
	fill(ps []polygon, c color.NRGBA)
	hatch(ps []polygon, c color.NRGBA)
	text(at plane.Point, height float64, words string)
}

func (p *StressPicture) draw(b board) {
	for i, ps := range p.shades {
		b.fill(ps, stressShade(i))
	}
	b.hatch(p.idle, pngInk)
	var edges []polygon
	for _, m := range p.metal {
		for i, a := range m {
			edges = append(edges, stroke(a, m[(i+1)%len(m)], p.letter/25))
		}
	}
	b.fill(edges, pngInk)
	var ring []polygon
	circle := plane.Circle(p.peak, 0.6*p.letter).Flatten(stressChord)
	for i, a := range circle {
		ring = append(ring, stroke(a, circle[(i+1)%len(circle)], p.letter/6))
	}
	b.fill(ring, pngInk)
	// The legend.
	bottom := p.sheet.Flat.Outline.Bounds().Min
	x, y := bottom.X, bottom.Y-3*p.letter
	wide := math.Min(4*p.letter, (p.box.W()-14*p.letter)/float64(len(p.shades)))
	for i := range p.shades {
		b.fill([]polygon{{plane.Pt(x, y), plane.Pt(x+wide, y), plane.Pt(x+wide, y+p.letter), plane.Pt(x, y+p.letter)}}, stressShade(i))
		b.text(plane.Pt(x, y-0.9*p.letter), 0.55*p.letter, p.labels[i])
		x += wide
	}
	for i, line := range p.title {
		b.text(plane.Pt(bottom.X, y-(2.3+1.15*float64(i))*p.letter), 0.62*p.letter, line)
	}
}

func stressShade(i int) color.NRGBA {
	if i < len(stressShades) {
		return stressShades[i]
	}
	return stressOver
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
	fmt.Fprintf(w, "<title>%s</title>\n<desc>A picture, not a drawing to cut from. %s</desc>\n", export.XMLText(p.title[0]), export.TagOf(p.sheet.Design, export.TagRoom))
	fmt.Fprintf(w, "<defs><pattern id=\"idle\" width=\"%d\" height=\"%d\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path d=\"M0 0h%[1]d\" stroke=\"%[3]s\" stroke-width=\"%[4]d\"/></pattern></defs>\n",
		Steps(hatchStep), Steps(hatchStep), hexColour(pngInk), Steps(2*hatchLine))
	fmt.Fprintf(w, "<rect width=\"%d\" height=\"%d\" fill=\"#ffffff\"/>\n", Steps(p.box.W()), Steps(p.box.H()))
	p.draw(&svgBoard{w, p.box})
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
			x, y := Steps(q.X-b.box.Min.X), Steps(b.box.Max.Y-q.Y)
			if i == 0 {
				fmt.Fprintf(&d, "M%d %d", x, y)
			} else {
				fmt.Fprintf(&d, "L%d %d", x, y)
			}
		}
		d.WriteString("z")
	}
	fmt.Fprintf(b.w, "<path %s d=\"%s\"/>\n", paint, d.String())
}

// fill draws each shade with a thin line of its own colour, which closes the hair
// between neighbours that are smoothed one by one.
func (b *svgBoard) fill(ps []polygon, c color.NRGBA) {
	b.path(ps, fmt.Sprintf("fill=\"%s\" stroke=\"%[1]s\" stroke-width=\"3\"", hexColour(c)))
}

func (b *svgBoard) hatch(ps []polygon, _ color.NRGBA) { b.path(ps, "fill=\"url(#idle)\"") }

func (b *svgBoard) text(at plane.Point, height float64, words string) {
	fmt.Fprintf(b.w, "<text x=\"%d\" y=\"%d\" font-family=\"sans-serif\" font-size=\"%d\" fill=\"%s\">%s</text>\n",
		Steps(at.X-b.box.Min.X), Steps(b.box.Max.Y-at.Y), Steps(height/0.7), hexColour(pngInk), export.XMLText(words))
}

// WritePNG writes the picture as PNG.
func (p *StressPicture) WritePNG(out io.Writer) error {
	var file bytes.Buffer
	if err := png.Encode(&file, p.image(stressWide)); err != nil {
		return err
	}
	_, err := out.Write(withPNGText(file.Bytes(), "Description", export.TagOf(p.sheet.Design, export.TagRoom)))
	return err
}

func (p *StressPicture) image(wide int) *image.RGBA {
	k := float64(wide) / p.box.W()
	img := image.NewRGBA(image.Rect(0, 0, wide, int(math.Ceil(p.box.H()*k))))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	p.draw(&pixelBoard{img, p.box, k, paint.NewFill(wide, img.Rect.Dy())})
	return img
}

type pixelBoard struct {
	img   *image.RGBA
	box   plane.Box
	k     float64 // pixels a millimetre
	paint *paint.Fill
}

func (b *pixelBoard) gather(ps []polygon) {
	for _, p := range ps {
		for i, q := range p {
			x, y := (q.X-b.box.Min.X)*b.k, (b.box.Max.Y-q.Y)*b.k
			if i == 0 {
				b.paint.MoveTo(x, y)
			} else {
				b.paint.LineTo(x, y)
			}
		}
		b.paint.Close()
	}
}

func (b *pixelBoard) fill(ps []polygon, c color.NRGBA) {
	b.gather(ps)
	b.paint.Draw(b.img, c)
}

func (b *pixelBoard) hatch(ps []polygon, c color.NRGBA) {
	b.gather(ps)
	step, line := hatchStep*b.k*math.Sqrt2, hatchLine*b.k*math.Sqrt2
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
