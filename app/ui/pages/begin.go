package pages

import (
	"fmt"
	"os"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/unroll"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// beginning is the page on which a piece is begun: a band of a kind by its three numbers, a
// file that was open before, or a piece of the gallery.
type beginning struct {
	*Files
	desk  *Desk // of the band that is begun, apart from the design in the window
	kinds [3]*tile
	bands [3]pattern.Design // as they would be begun
	shown [3]*portrait
	kind  int
	rows  []row
	box   *fyne.Container // of the rows
	says  [3]string       // what comes of the numbers
	said  *kit.Passage    // of the kind that is chosen
	bad   *kit.Passage
	d     *kit.Dialog
	queue []func() // pictures that are still to be made
	busy  bool
}

// beginKinds are what may be begun, in the order in which they are shown.
var beginKinds = [3]struct{ kind, title, tip string }{
	{unroll.Cuff, "Cuff", "Open at the back of the wrist, and sprung on."},
	{unroll.Bangle, "Bangle", "Closed, and put on over the hand."},
	{unroll.Ring, "Ring", "Closed, for a finger."},
}

// Measures of the page: three columns of kinds and one of numbers, over as many small pictures
// as stand in a row.
const (
	kindWide   = 186
	kindHigh   = 152
	pieceWide  = 121
	pieceHigh  = 74
	piecesSeen = 7
	beginWide  = piecesSeen*pieceWide + (piecesSeen-1)*tileGap
	tileGap    = 4
)

// Begin asks what is to be made.
func (fs *Files) Begin() {
	b := &beginning{Files: fs}
	k := fs.Kit
	ed := app.NewEditor(app.NewDocument(pattern.Begin(unroll.Cuff)), app.NewLog(nil))
	desk := *fs.Desk
	desk.Ed = ed
	b.desk = &desk
	b.bad = k.Passage("", kit.Warn, beginWide)
	ed.On.Changed = b.changed
	b.box = kit.Down(2)
	b.said = k.Passage("", kit.Caption, beginWide-3*(kindWide+tileGap)-22)
	kinds := kit.Along(tileGap)
	for i, x := range beginKinds {
		b.bands[i] = pattern.Begin(x.kind)
		b.shown[i] = newPortrait(k)
		b.kinds[i] = newTile(k, b.shown[i].Raster, kindWide, kindHigh, x.title, x.tip, func() { b.choose(i) })
		b.kinds[i].move = func(dx, _ int) {
			if to := i + dx; to >= 0 && to < len(b.kinds) {
				k.Dialogs.Focus(b.kinds[to])
			}
		}
		kinds.Add(b.kinds[i])
		b.drawKind(i)
	}
	top := container.NewBorder(nil, nil, kinds, nil, kit.Inset(18, 4, 0, 0, b.box))
	parts := []fyne.CanvasObject{top, b.bad}
	named := []kit.Field{}
	if pieces := b.recent(&named); len(pieces) > 0 {
		parts = append(parts, b.pieces("Go on with", pieces))
	}
	parts = append(parts, b.pieces("Or from the gallery, to look at and to change", b.gallery(&named)))
	b.d = k.Dialogs.Ask("What will you make?", kit.AtLeast(beginWide, 0, kit.Down(6, parts...)), nil,
		kit.Answer{Text: "Open a file\u2026", Do: fs.Open},
		kit.Answer{Text: "Cancel"},
		kit.Answer{Text: "Begin", Main: true, Stay: true, Do: b.begin})
	for i, x := range beginKinds {
		b.d.Named("kind:"+x.kind, b.kinds[i])
	}
	b.d.Fields = append(b.d.Fields, named...)
	b.choose(0)
	fs.Ed.Log.Event("dialog", "name", "begin")
}

// choose turns to a kind of band.
func (b *beginning) choose(i int) {
	b.kind = i
	for n, t := range b.kinds {
		t.choose(n == i)
	}
	b.desk.Ed.Open(app.NewDocument(b.bands[i]))
	k, ed := b.Kit, b.desk.Ed
	b.say("")
	b.box.RemoveAll()
	b.rows = nil
	add := func(r row) {
		b.rows = append(b.rows, r)
		b.box.Add(r.object())
	}
	number := func(path, name string) {
		n, _ := app.NumberAt(ed.Now(), path)
		r := newNumberRow(k, ed, n, b.say)
		b.nameField(name, r.Entry)
		add(r)
	}
	switch b.bands[i].Band.Inside.By {
	case unroll.BySize:
		add(newChoiceRow(k, ed, app.ChoiceOf("band.inside.scale")))
		r := newSizeRow(b.desk, "Size", b.say)
		b.nameField("begin:size", r.Entry)
		add(r)
	case unroll.ByWrist:
		number("band.inside.wrist_mm", "begin:size")
	default:
		number("band.inside.circumference_mm", "begin:size")
	}
	number("band.width_mm", "begin:width")
	number("band.thickness.mm", "begin:sheet")
	motif := newMotifRow(k, 0, func() { Shapes{b.desk}.ChooseMotif(0) })
	b.nameField("begin:motif", motif.button)
	add(motif)
	b.box.Add(b.said)
	b.said.Set(b.says[i], kit.Caption, b.said.Width)
	b.show()
	b.box.Refresh()
	b.Opened()
}

// nameField tells the script that drives the window where something is.
func (b *beginning) nameField(name string, o fyne.CanvasObject) {
	for i := range b.d.Fields {
		if b.d.Fields[i].Name == name {
			b.d.Fields[i].Object = o
			return
		}
	}
	b.d.Named(name, o)
}

func (b *beginning) show() {
	for _, r := range b.rows {
		r.show(b.bands[b.kind])
	}
}

func (b *beginning) say(s string) {
	b.bad.Set(s, kit.Warn, beginWide)
	kit.Show(b.bad, s != "")
	if b.d != nil {
		b.d.Panel.Refresh()
	}
}

// changed takes a number: all others of the band follow it.
func (b *beginning) changed() {
	d := b.desk.Ed.Now()
	b.bands[b.kind] = pattern.BeginWith(d.Band, d.Fields[0])
	b.drawKind(b.kind)
	b.show()
}

// drawKind draws the band of a kind as it would be begun, and says what it is.
func (b *beginning) drawKind(i int) {
	b.draw(b.shown[i], func() (pattern.Design, error) { return b.bands[i], nil }, func(s *pattern.Sheet) {
		b.says[i] = fmt.Sprintf("%d openings in a blank of %s x %s mm", len(s.Openings), app.FormatNumber(s.Flat.Length, 1), app.FormatNumber(s.Flat.Width, 1))
		if i == b.kind {
			b.said.Set(b.says[i], kit.Caption, b.said.Width)
			b.box.Refresh()
		}
	})
}

// begin makes the band the design of the window.
func (b *beginning) begin() {
	b.Kit.Dialogs.Commit()
	d := b.bands[b.kind]
	if err := d.Check(); err != nil {
		b.say(b.desk.Ed.Why(err))
		return
	}
	b.d.Close()
	b.unlessLost(func() {
		b.Use(app.NewDocument(d))
		b.Ed.Log.Event("new", "kind", d.Band.Kind)
	})
}

// pieces lays small pictures in a row that can be moved sideways.
func (b *beginning) pieces(title string, tiles []*tile) fyne.CanvasObject {
	line := kit.Along(tileGap)
	for i, t := range tiles {
		t.move = func(dx, _ int) {
			if to := i + dx; to >= 0 && to < len(tiles) {
				b.Kit.Dialogs.Focus(tiles[to])
			}
		}
		line.Add(t)
	}
	var o fyne.CanvasObject = line
	if len(tiles) > piecesSeen {
		o = container.NewHScroll(line)
	}
	return kit.Down(2, b.Kit.Label(title, kit.Strong), o)
}

// piece is a small picture of a design; taking it closes the page.
func (b *beginning) piece(title, tip string, read func() (pattern.Design, error), take func()) *tile {
	p := newPortrait(b.Kit)
	t := newTile(b.Kit, p.Raster, pieceWide, pieceHigh, title, tip, func() {
		b.d.Close()
		take()
	})
	b.draw(p, read, nil)
	return t
}

func (b *beginning) recent(named *[]kit.Field) (tiles []*tile) {
	for _, path := range b.Settings.Recent {
		if _, err := os.Stat(path); err != nil {
			continue
		}
		name := project.NameOf(path)
		t := b.piece(short(name, 19), path, func() (pattern.Design, error) {
			d, err := app.Open(path)
			if err != nil {
				return pattern.Design{}, err
			}
			return d.Now(), nil
		}, func() { b.OpenRecent(path) })
		*named = append(*named, kit.Field{Name: "recent:" + name, Object: t})
		tiles = append(tiles, t)
	}
	return tiles
}

func (b *beginning) gallery(named *[]kit.Field) (tiles []*tile) {
	for _, name := range project.Gallery() {
		d, err := project.GalleryDesign(name)
		if err != nil {
			continue
		}
		t := b.piece(short(d.Name, 19), d.Note, func() (pattern.Design, error) { return d, nil }, func() { b.OpenGallery(name) })
		*named = append(*named, kit.Field{Name: "gallery:" + name, Object: t})
		tiles = append(tiles, t)
	}
	return tiles
}

// short cuts a name that is too long for a tile.
func short(s string, most int) string {
	if r := []rune(s); len(r) > most {
		return strings.TrimSpace(string(r[:most-1])) + "\u2026"
	}
	return s
}

// draw has a picture made in the background, one at a time. read returns its design, and
// tell, if it is not nil, is told of what was laid.
func (b *beginning) draw(p *portrait, read func() (pattern.Design, error), tell func(*pattern.Sheet)) {
	p.asked++
	asked := p.asked
	b.queue = append(b.queue, func() {
		if p.asked != asked || b.d != nil && b.d.Closed {
			b.next() // it has changed since, or nobody looks
			return
		}
		b.Background(func() {
			var draws func(*kit.Picture)
			d, err := read()
			var s *pattern.Sheet
			if err == nil {
				if s, err = pattern.Lay(d); err == nil {
					draws = b.Portrait(s)
				}
			}
			b.Post(func() {
				if p.asked == asked {
					p.draws = draws
					p.Refresh()
					if tell != nil && err == nil {
						tell(s)
					}
				}
				b.next()
			})
		})
	})
	if !b.busy {
		b.next()
	}
}

func (b *beginning) next() {
	b.busy = len(b.queue) > 0
	if b.busy {
		do := b.queue[0]
		b.queue = b.queue[1:]
		do()
	}
}

// portrait is a picture of a bent band, empty until it has been made.
type portrait struct {
	*kit.Picture
	draws func(*kit.Picture)
	asked int
}

func newPortrait(k *kit.Kit) *portrait {
	p := &portrait{}
	p.Picture = k.Picture(func(q *kit.Picture) {
		if p.draws != nil {
			p.draws(q)
			return
		}
		q.Ground(q.Dress.Panel)
	})
	return p
}
