package ui

import (
	"fmt"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export/paint"
	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/own"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// ownShape is the question for a shape of a person's own: one closed curve, read
// from a drawing or pasted as SVG path data.
type ownShape struct {
	win   *Window
	d     *kit.Dialog
	entry *kit.Entry
	state *kit.Passage
	// withSize says that the size in the drawing counts: of an area, not of a motif.
	withSize bool
	take     func(path string, size plane.Box)

	shape own.Shape
	path  string // as it is kept; "" while there is no shape that can be used
	from  string // the file that it was read from

	raster *canvas.Raster
	img    *image.RGBA
	fill   paint.Fill
}

const (
	shapeWide  = 540
	shapeHigh  = 190
	shapeEntry = 300
)

// ownMotif asks for the shape of the motif of field i.
func (w *Window) ownMotif(i int) {
	d := w.now()
	if i < 0 || i >= len(d.Fields) {
		return
	}
	start := ""
	if d.Fields[i].Motif == motif.OwnKey {
		start = d.Fields[i].Path
	}
	w.askShape("A motif of your own", start, false, func(path string, _ plane.Box) {
		w.pickOption(app.OwnMotif(i, path), motif.OwnKey)
	})
}

// ownArea asks for the outline of the area of field i.
func (w *Window) ownArea(i int) {
	d := w.now()
	if i < 0 || i >= len(d.Fields) {
		return
	}
	w.askShape("An area of your own", d.Fields[i].Area.Path, true, func(path string, size plane.Box) {
		w.controls.fields.chosen = true
		w.pickOption(app.OwnArea(i, path, size), pattern.PathShape)
	})
}

func (w *Window) askShape(title, start string, withSize bool, take func(string, plane.Box)) {
	k := w.kit
	s := &ownShape{win: w, withSize: withSize, take: take}
	s.entry = k.LongEntry("M 0 0 L 4 0 L 2 6 Z")
	s.entry.OnChanged = func(t string) { s.from = ""; s.read([]byte(t)) }
	s.raster = canvas.NewRaster(s.render)
	s.state = k.Passage("", kit.Soft, shapeWide)
	read := k.Button("Read a file\u2026", "An SVG file or an ASCII DXF file. Of several closed curves the largest is taken.", func() {
		w.choose(openDrawing, w.settings.Folder, "", s.readFile)
	}).Framed()
	right := container.NewBorder(
		kit.Down(4, container.New(kit.Columns{Widths: []float32{120, 0}, Height: rowHeight}, read, k.Label("", kit.Plain)),
			k.Label("or paste SVG path data of one closed curve:", kit.Soft)),
		nil, nil, nil, s.entry)
	body := kit.Down(8,
		kit.Sized(shapeWide, shapeHigh, container.NewBorder(nil, nil,
			kit.Sized(shapeWide-shapeEntry-12, shapeHigh, k.Framed(s.raster)), nil,
			kit.Inset(12, 0, 0, 0, right))),
		kit.AtLeast(shapeWide, 64, s.state))
	s.d = w.dialogs.Ask(title, body, nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Use it", Main: true, Stay: true, Do: s.use})
	s.d.Named("path", s.entry)
	s.d.Named("read", read)
	w.log.Event("dialog", "name", "shape")
	s.entry.SetText(start)
	s.read([]byte(start))
	w.win.Canvas().Focus(s.entry)
	w.tellSoon()
}

// readFile takes the shape from a drawing on the disk.
func (s *ownShape) readFile(path string) {
	s.win.settings.Folder = filepath.Dir(path)
	data, err := readDrawing(path)
	if err != nil {
		s.refuse(filepath.Base(path) + ": " + err.Error())
		return
	}
	s.from = filepath.Base(path)
	s.read(data)
	if s.path == "" {
		return
	}
	// What was read stands in the entry as path data, and can be copied from it.
	onChanged := s.entry.OnChanged
	s.entry.OnChanged = nil
	s.entry.SetText(s.path)
	s.entry.OnChanged = onChanged
}

// readDrawing reads a file unless it is too large for a drawing.
func readDrawing(path string) ([]byte, error) {
	st, err := os.Stat(path)
	if err != nil {
		return nil, fmt.Errorf("%s", plainError(err))
	}
	if st.Size() > own.MostBytes {
		return nil, fmt.Errorf("the drawing has %d bytes; at most %d are read", st.Size(), own.MostBytes)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("%s", plainError(err))
	}
	return data, nil
}

// read takes the shape from the bytes of a drawing or says what is wrong with it.
func (s *ownShape) read(data []byte) {
	s.shape, s.path = own.Shape{}, ""
	defer s.raster.Refresh()
	if strings.TrimSpace(string(data)) == "" {
		s.say("One closed curve that does not cross itself. "+s.meant(), kit.Soft)
		return
	}
	shape, err := own.Read(data)
	if err != nil {
		s.refuse(err.Error())
		return
	}
	path := own.Data(shape.Loop)
	if len(path) > pattern.MaxPath {
		s.refuse(fmt.Sprintf("the curve takes %d bytes of path data; at most %d are kept: draw it with fewer points", len(path), pattern.MaxPath))
		return
	}
	s.shape, s.path = shape, path
	b := shape.Loop.Bounds()
	text := fmt.Sprintf("It can be used: %d lines and arcs, %s x %s mm.", len(shape.Loop), app.FormatNumber(b.W(), 2), app.FormatNumber(b.H(), 2))
	if s.from != "" {
		text = s.from + ": " + text
	}
	s.say(strings.Join(append([]string{text + " " + s.meant()}, shape.Notes...), " "), kit.Soft)
}

// meant says what the size in the drawing means.
func (s *ownShape) meant() string {
	if s.withSize {
		return "A unit of the drawing is a millimetre, unless it says otherwise; the size can be changed afterwards."
	}
	return "Only the shape counts: rows and repeats give its size."
}

func (s *ownShape) refuse(why string) {
	s.say("This can't be used: "+strings.TrimSuffix(why, ".")+".", kit.Warn)
}

func (s *ownShape) say(text string, v kit.Voice) {
	s.state.Set(text, v, shapeWide)
	if s.d != nil {
		s.d.Panel.Refresh()
	}
}

func (s *ownShape) use() {
	if s.path == "" {
		s.win.log.Event("refused", "field", "shape", "why", s.state.Text)
		return
	}
	s.d.Close()
	s.take(s.path, s.shape.Loop.Bounds())
}

// render draws the shape as the metal round it would be cut.
func (s *ownShape) render(w, h int) image.Image {
	if s.img == nil || s.img.Rect.Dx() != w || s.img.Rect.Dy() != h {
		s.img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	d := s.win.kit.Dress
	paint.Box(s.img, 0, 0, w, h, d.Paper)
	l := s.shape.Loop
	if s.path == "" || len(l) == 0 || w < 20 || h < 20 {
		s.win.kit.Faces.Size(12).Draw(s.img, "no shape yet", float64(w)/2, float64(h)/2, kit.AlignMiddle, d.Faint)
		return s.img
	}
	paint.Box(s.img, 0, 0, w, h, kit.MetalOf(s.win.now().Metal.Alloy).Face)
	b := l.Bounds()
	k := min(0.8*float64(w)/max(b.W(), 1e-9), 0.8*float64(h)/max(b.H(), 1e-9))
	c := b.Centre()
	s.fill.Reset(w, h)
	for i, q := range l.Flatten(0.2 / k) {
		x, y := float64(w)/2+(q.X-c.X)*k, float64(h)/2-(q.Y-c.Y)*k
		if i == 0 {
			s.fill.MoveTo(x, y)
		} else {
			s.fill.LineTo(x, y)
		}
	}
	s.fill.Close()
	s.fill.Draw(s.img, color.NRGBA(d.Paper))
	return s.img
}
