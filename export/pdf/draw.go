package pdf

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"io"
	"math"

	"github.com/tdewolff/canvas"
	writer "github.com/tdewolff/canvas/renderers/pdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"fretband/unroll/plane"
)

// Pen is how a line is drawn: its width and dashes, mm, and its grey, 0 black to
// 1 white.
type Pen struct {
	Width  float64
	Dashes []float64
	Grey   float64
}

// Align says which end of a text stands at its position.
type Align int

const (
	Left Align = iota
	Centre
	Right
)

// Font is how a text is set: its size is the em, mm.
type Font struct {
	Size float64
	Bold bool
	Grey float64
}

// capHeight is the height of capitals and digits in the faces used, as a share
// of the em (their OS/2 table: 1480 of 2048).
const capHeight = 1480.0 / 2048

// CapHeight returns the height of capitals and digits, mm.
func (f Font) CapHeight() float64 { return f.Size * capHeight }

// Doc is a PDF file in the making. A Doc is not for several goroutines.
type Doc struct {
	// Keywords go into what the file says of itself. In ASCII they stand there as they are,
	// so that a search finds them.
	Keywords string

	buf           bytes.Buffer
	out           *writer.PDF
	title         string
	regular, bold *canvas.FontFamily
	faces         map[Font]*canvas.FontFace
}

// New returns a file without pages. An error means that the fonts built in
// can't be read.
func New(title string) (*Doc, error) {
	d := &Doc{title: title, faces: map[Font]*canvas.FontFace{}}
	d.regular = canvas.NewFontFamily("Go")
	d.bold = canvas.NewFontFamily("Go Bold")
	if err := d.regular.LoadFont(goregular.TTF, 0, canvas.FontRegular); err != nil {
		return nil, fmt.Errorf("font of the page: %w", err)
	}
	if err := d.bold.LoadFont(gobold.TTF, 0, canvas.FontRegular); err != nil {
		return nil, fmt.Errorf("font of the page: %w", err)
	}
	return d, nil
}

// Page begins a new page of the given size, mm. All drawing goes to the page
// begun last; before the first one there is nothing to draw on.
func (d *Doc) Page(w, h float64) {
	if d.out == nil {
		d.out = writer.New(&d.buf, w, h, &writer.Options{Compress: true, SubsetFonts: true})
		return
	}
	d.out.NewPage(w, h)
}

// Loop draws a closed loop, moved by at.
func (d *Doc) Loop(l plane.Loop, at plane.Point, p Pen) {
	if len(l) > 0 {
		d.stroke(loopPath(l, at), p)
	}
}

// Chain draws edges that run into one another, closed or open, moved by at.
func (d *Doc) Chain(es []plane.Edge, closed bool, at plane.Point, p Pen) {
	if len(es) > 0 {
		d.stroke(chainPath(es, closed, at), p)
	}
}

// Line draws a straight line.
func (d *Doc) Line(a, b plane.Point, p Pen) {
	path := &canvas.Path{}
	path.MoveTo(a.X, a.Y)
	path.LineTo(b.X, b.Y)
	d.stroke(path, p)
}

// Fill fills a loop with a grey, 0 black to 1 white.
func (d *Doc) Fill(l plane.Loop, at plane.Point, grey float64) {
	if len(l) == 0 {
		return
	}
	style := canvas.DefaultStyle
	style.Fill = canvas.Paint{Color: greyColour(grey)}
	d.out.RenderPath(loopPath(l, at), style, canvas.Identity)
}

// Text writes one line with its baseline at p.
func (d *Doc) Text(p plane.Point, s string, f Font, a Align) {
	if s == "" {
		return
	}
	switch a {
	case Centre:
		p.X -= d.TextWidth(s, f) / 2
	case Right:
		p.X -= d.TextWidth(s, f)
	}
	line := canvas.NewTextLine(d.face(f), s, canvas.Left)
	d.out.RenderText(line, canvas.Identity.Translate(p.X, p.Y))
}

// TextWidth returns the width of a line of text, mm.
func (d *Doc) TextWidth(s string, f Font) float64 { return d.face(f).TextWidth(s) }

// WriteTo ends the file and writes it.
func (d *Doc) WriteTo(w io.Writer) (int64, error) {
	if d.out == nil {
		return 0, fmt.Errorf("pdf: no page was begun")
	}
	if err := d.out.Close(); err != nil {
		return 0, err
	}
	b, err := finish(d.buf.Bytes(), d.title, d.Keywords)
	if err != nil {
		return 0, err
	}
	n, err := w.Write(b)
	return int64(n), err
}

func (d *Doc) face(f Font) *canvas.FontFace {
	if face, ok := d.faces[f]; ok {
		return face
	}
	family := d.regular
	if f.Bold {
		family = d.bold
	}
	const ptPerMM = 72 / 25.4
	face := family.Face(f.Size*ptPerMM, greyColour(f.Grey), canvas.FontRegular, canvas.FontNormal)
	d.faces[f] = face
	return face
}

func (d *Doc) stroke(path *canvas.Path, p Pen) { d.out.RenderPath(path, p.style(), canvas.Identity) }

func (p Pen) style() canvas.Style {
	style := canvas.DefaultStyle
	style.Fill = canvas.Paint{}
	style.Stroke = canvas.Paint{Color: greyColour(p.Grey)}
	style.StrokeWidth = p.Width
	style.StrokeJoiner = canvas.RoundJoiner{}
	for _, v := range p.Dashes {
		// The library takes dashes as multiples of the line's width.
		style.Dashes = append(style.Dashes, v/p.Width)
	}
	return style
}

func loopPath(l plane.Loop, at plane.Point) *canvas.Path { return chainPath(l.Edges(), true, at) }

func chainPath(es []plane.Edge, closed bool, at plane.Point) *canvas.Path {
	p := &canvas.Path{}
	addChain(p, es, closed, at)
	return p
}

func addChain(p *canvas.Path, es []plane.Edge, closed bool, at plane.Point) {
	a := es[0].A.Add(at)
	p.MoveTo(a.X, a.Y)
	for i, e := range es {
		b := e.B.Add(at)
		switch {
		case e.Bulge != 0:
			// The file has cubics for arcs. They are made here, since the library takes
			// time that grows with the square of the arcs in a path, and strays more.
			// A cubic whose handles are 4/3 tan(a/4) of the radius long is off by 4e-6
			// of the radius at an eighth of a turn (a = pi/4); wide arcs are cut finer,
			// so that they lie within a micron too.
			n := int(math.Ceil(math.Abs(e.Sweep())/(math.Pi/4)*math.Max(1, math.Sqrt(e.Radius()/100)) - 1e-9))
			handle := 4.0 / 3 * math.Tan(math.Abs(e.Sweep())/float64(n)/4) * e.Radius()
			for k := range n {
				from, to := float64(k)/float64(n), float64(k+1)/float64(n)
				c := e.At(from).Add(e.Tangent(from).Mul(handle)).Add(at)
				d := e.At(to).Sub(e.Tangent(to).Mul(handle)).Add(at)
				b := e.At(to).Add(at)
				p.CubeTo(c.X, c.Y, d.X, d.Y, b.X, b.Y)
			}
		case !closed || i < len(es)-1:
			p.LineTo(b.X, b.Y)
		}
	}
	if closed {
		p.Close()
	}
}

func greyColour(g float64) color.RGBA {
	v := uint8(math.Round(255 * min(max(g, 0), 1)))
	return color.RGBA{v, v, v, 255}
}

// Image draws a picture w mm wide with its lower left corner at p. It is kept without
// loss.
func (d *Doc) Image(img image.Image, p plane.Point, w float64) {
	if img.Bounds().Empty() || w <= 0 {
		return
	}
	k := w / float64(img.Bounds().Dx())
	d.out.RenderImage(img, canvas.Identity.Translate(p.X, p.Y).Scale(k, k))
}
