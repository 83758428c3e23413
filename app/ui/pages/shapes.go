package pages

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/own"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Shapes ask for what is drawn: a motif, an area, a reserve, an opening, lines.
type Shapes struct{ *Desk }

// ownShape is the question for a shape of a person's own: one closed curve, read
// from a drawing or pasted as SVG path data.
type ownShape struct {
	desk  *Desk
	d     *kit.Dialog
	entry *kit.Entry
	state *kit.Passage
	// withSize says that the size in the drawing counts: of an area, not of a motif.
	withSize bool
	take     func(path string, size plane.Box)

	shape own.Shape
	path  string // as it is kept; "" while there is no shape that can be used
	from  string // the file that it was read from

	picture *kit.Picture
}

const (
	shapeWide  = 540
	shapeHigh  = 190
	shapeEntry = 300
)

// OwnMotif asks for the shape of the motif of field i.
func (sh Shapes) OwnMotif(i int) {
	d := sh.Ed.Now()
	if i < 0 || i >= len(d.Fields) {
		return
	}
	start := ""
	if d.Fields[i].Motif == motif.OwnKey {
		start = d.Fields[i].Path
	}
	sh.askShape("A motif of your own", start, false, func(path string, _ plane.Box) {
		sh.Ed.Choose(app.OwnMotif(i, path), motif.OwnKey)
	})
}

// OwnArea asks for the outline of the area of field i.
func (sh Shapes) OwnArea(i int) {
	d := sh.Ed.Now()
	if i < 0 || i >= len(d.Fields) {
		return
	}
	sh.askShape("An area of your own", d.Fields[i].Area.Path, true, func(path string, size plane.Box) {
		sh.Ed.FieldShown = true
		sh.Ed.Choose(app.OwnArea(i, path, size), pattern.PathShape)
	})
}

func (sh Shapes) askShape(title, start string, withSize bool, take func(string, plane.Box)) {
	k := sh.Kit
	s := &ownShape{desk: sh.Desk, withSize: withSize, take: take}
	s.entry = k.LongEntry("M 0 0 L 4 0 L 2 6 Z")
	s.entry.OnChanged = func(t string) { s.from = ""; s.read([]byte(t)) }
	s.picture = k.Picture(s.draw)
	s.state = k.Passage("", kit.Soft, shapeWide)
	read := k.Button("Read a file\u2026", "An SVG file or an ASCII DXF file. Of several closed curves the largest is taken.", func() {
		sh.Choose(openDrawing, sh.Settings.Folder, "", s.readFile)
	}).Framed()
	right := container.NewBorder(
		kit.Down(4, container.New(kit.Columns{Widths: []float32{120, 0}, Height: rowHeight}, read, k.Label("", kit.Plain)),
			k.Label("or paste SVG path data of one closed curve:", kit.Soft)),
		nil, nil, nil, s.entry)
	body := kit.Down(8,
		kit.Sized(shapeWide, shapeHigh, container.NewBorder(nil, nil,
			kit.Sized(shapeWide-shapeEntry-12, shapeHigh, k.Framed(s.picture.Raster)), nil,
			kit.Inset(12, 0, 0, 0, right))),
		kit.AtLeast(shapeWide, 64, s.state))
	s.d = sh.Kit.Dialogs.Ask(title, body, nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Use it", Main: true, Stay: true, Do: s.use})
	s.d.Named("path", s.entry)
	s.d.Named("read", read)
	sh.Ed.Log.Event("dialog", "name", "shape")
	s.entry.SetText(start)
	s.read([]byte(start))
	sh.Kit.Dialogs.Focus(s.entry)
	sh.Opened()
}

// readFile takes the shape from a drawing on the disk.
func (s *ownShape) readFile(path string) {
	s.desk.Settings.Folder = filepath.Dir(path)
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
	// What was read is in the entry as path data, and can be copied from it.
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
	defer s.picture.Refresh()
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
		s.desk.Ed.Log.Event("refused", "field", "shape", "why", s.state.Text)
		return
	}
	s.d.Close()
	s.take(s.path, s.shape.Loop.Bounds())
}

// draw draws the shape as the metal round it would be cut.
func (s *ownShape) draw(p *kit.Picture) {
	d, l := p.Dress, s.shape.Loop
	p.Ground(d.Paper)
	if s.path == "" || len(l) == 0 || p.W < 20 || p.H < 20 {
		s.desk.Kit.Faces.Size(12).Draw(p.Img, "no shape yet", p.W/2, p.H/2, kit.AlignMiddle, d.Soft)
		return
	}
	p.Ground(kit.MetalOf(s.desk.Ed.Now().Metal.Alloy).Face)
	b := l.Bounds()
	k := min(0.8*p.W/max(b.W(), 1e-9), 0.8*p.H/max(b.H(), 1e-9))
	c := b.Centre()
	p.Loop(l.Flatten(0.2/k), func(q plane.Point) (x, y float64) { return p.W/2 + (q.X-c.X)*k, p.H/2 - (q.Y-c.Y)*k })
	p.Draw(d.Paper)
}

// ChooseMotif opens pictures of all motifs; the one that is clicked becomes the
// motif of field i.
func (sh Shapes) ChooseMotif(i int) {
	d := sh.Ed.Now()
	if i < 0 || i >= len(d.Fields) {
		return
	}
	f := d.Fields[i]
	tone := kit.MetalOf(d.Metal.Alloy)
	var dlg *kit.Dialog
	var tiles []*tile
	grid := kit.Down(4)
	add := func(t *tile) {
		at := len(tiles)
		t.move = func(dx, dy int) {
			if to := at + dx + dy*tileColumns; to >= 0 && to < len(tiles) {
				sh.Kit.Dialogs.Focus(tiles[to])
			}
		}
		if at%tileColumns == 0 {
			grid.Add(kit.Along(4))
		}
		grid.Objects[at/tileColumns].(*fyne.Container).Add(t)
		tiles = append(tiles, t)
	}
	for _, m := range motif.All() {
		picture := newMotifPicture(sh.Kit)
		t := newTile(sh.Kit, picture.Raster, tileWide, tilePicture, m.Title, m.What, func() {
			dlg.Close()
			sh.Ed.Choose(app.ChoiceOf("fields[].motif", i), m.Key)
		})
		sample := pattern.Field{Motif: m.Key}
		if !m.Interlock {
			sample.Stagger = m.Usual.Stagger
		}
		if t.chosen = m.Key == f.Motif; t.chosen {
			sample.Numbers, sample.Stagger = f.Numbers, f.Stagger
		}
		picture.show(sample, tone)
		add(t)
	}
	picture := newMotifPicture(sh.Kit)
	own := newTile(sh.Kit, picture.Raster, tileWide, tilePicture, "Your own\u2026", "A shape of your own, read from an SVG or DXF file or pasted as SVG path data.", func() {
		dlg.Close()
		sh.OwnMotif(i)
	})
	own.chosen = f.Motif == motif.OwnKey
	sample := f
	if !own.chosen {
		sample = pattern.Field{Motif: motif.OwnKey, Path: sampleOwn}
	}
	picture.show(sample, tone)
	add(own)
	dlg = sh.Kit.Dialogs.Ask("Motif", grid, nil, kit.Answer{Text: "Close", Main: true})
	sh.Ed.Log.Event("dialog", "name", "motif")
	for k, t := range tiles {
		dlg.Named("motif:"+motifKeyAt(k), t)
		if t.chosen {
			sh.Kit.Dialogs.Focus(t)
		}
	}
}

// ofPicked asks for the outline that what is picked is cut by.
func (sh Shapes) ofPicked() {
	start, ok := sh.Ed.HandPath(sh.Ed.Now())
	if !ok {
		return
	}
	sh.askShape("An opening of your own", start, true, func(path string, size plane.Box) {
		d := sh.Ed.Now()
		sh.Ed.SetHandPath(&d, path, size.W(), size.H())
		sh.Ed.Change("", "edits", "", "outline", d)
	})
}

// OfItem asks for the outline of a reserve or the lines of an engraving.
func (sh Shapes) OfItem(it app.Item) {
	d := sh.Ed.Now()
	if it.Kind == app.EngravingItem {
		sh.askLines(it)
		return
	}
	start := ""
	if it.In(d) {
		start = d.Reserves[it.Index].Path
	}
	sh.askShape("A reserve of your own shape", start, true, func(path string, size plane.Box) {
		if !it.In(sh.Ed.Now()) {
			sh.Ed.AddItem(app.ReserveItem, pattern.CircleShape)
			it = app.Item{Index: len(sh.Ed.Now().Reserves) - 1}
		}
		sh.Ed.Choose(app.OwnReserve(it.Index, path, size), pattern.PathShape)
		sh.Ed.Select(it)
	})
}

// askLines asks for the lines of a drawn engraving: SVG path data of any curves, or the
// closed shape of a drawing.
func (sh Shapes) askLines(it app.Item) {
	d := sh.Ed.Now()
	if !it.In(d) {
		return
	}
	k := sh.Kit
	entry := k.LongEntry("M -8 0 C -4 -4 4 4 8 0")
	const wide = 460
	state := k.Passage("", kit.Soft, wide)
	good := ""
	var q *kit.Dialog
	say := func(s string, v kit.Voice) {
		state.Set(s, v, wide)
		if q != nil {
			q.Panel.Refresh()
		}
	}
	entry.OnChanged = func(t string) {
		good = ""
		t = strings.TrimSpace(t)
		switch ss, err := own.Strokes(t); {
		case t == "":
			say("Path data in mm, y down as in SVG; its origin comes to lie at the mark's place.", kit.Soft)
		case err != nil:
			say("This can't be used: "+strings.TrimSuffix(err.Error(), ".")+".", kit.Warn)
		case len(t) > pattern.MaxPath:
			say(fmt.Sprintf("This can't be used: %d bytes of path data; at most %d are kept.", len(t), pattern.MaxPath), kit.Warn)
		default:
			good = t
			n := 0.0
			for _, s := range ss {
				n += s.Edges().Len()
			}
			say(fmt.Sprintf("It can be used: %d curves, %s mm of line.", len(ss), app.FormatNumber(n, 1)), kit.Soft)
		}
	}
	read := k.Button("Read a file\u2026", "An SVG file or an ASCII DXF file. Of its closed curves the largest is taken.", func() {
		sh.Choose(openDrawing, sh.Settings.Folder, "", func(path string) {
			sh.Settings.Folder = filepath.Dir(path)
			data, err := readDrawing(path)
			if err == nil {
				var s own.Shape
				if s, err = own.Read(data); err == nil {
					entry.SetText(own.Data(s.Loop))
					if good != "" { // what was assumed of the drawing
						say(strings.Join(append([]string{state.Text}, s.Notes...), " "), kit.Soft)
					}
					return
				}
			}
			say(filepath.Base(path)+": "+err.Error(), kit.Warn)
		})
	}).Framed()
	body := kit.Down(8,
		container.New(kit.Columns{Widths: []float32{120, 0}, Gap: columnGap, Height: rowHeight}, read, k.Label("or paste SVG path data, open or closed:", kit.Soft)),
		kit.Sized(wide, 120, entry),
		kit.AtLeast(wide, 40, state))
	q = sh.Kit.Dialogs.Ask("Lines to be engraved", body, nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Use it", Main: true, Stay: true, Do: func() {
		if good == "" {
			sh.Ed.Log.Event("refused", "field", it.Path()+".path", "why", state.Text)
			return
		}
		q.Close()
		sh.Ed.Choose(app.ChoiceOf("marks[].path", it.Index), good)
	}})
	q.Named("path", entry)
	q.Named("read", read)
	sh.Ed.Log.Event("dialog", "name", "lines")
	entry.SetText(d.Engravings[it.Index].Path)
	sh.Kit.Dialogs.Focus(entry)
	sh.Opened()
}
