package pages

import (
	"image"
	"image/color"
	"slices"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export/paint"
	"fretband/pattern/check"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// FindingRow is one finding in one line: its shape, word and title, with the first way of
// mending it where there is room. Once it is chosen it says what was found, why it matters and
// how to mend it, with buttons for all that can be done at once.
type FindingRow struct {
	kit.Press
	owner   *Findings
	Index   int
	Finding check.Finding

	back, bar  *canvas.Rectangle
	sign       *canvas.Raster
	word       *canvas.Text
	Value      *canvas.Text
	Said       [3]*kit.Passage // what, why, how to mend it; or what and the reason to accept it
	Buttons    []*kit.Button
	buttonsFor string
	short      bool // the line has no room for the word of the severity
	width      float32
}

const (
	signSize    = 11
	findingLeft = 34
	findingEnd  = 14
	findingLine = 30 // height of the line
	valueWidth  = 92
	fixHeight   = 24
	fixGap      = 5
)

func newFindingRow(o *Findings, i int) *FindingRow {
	r := &FindingRow{owner: o, Index: i}
	r.back, r.bar = canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent)
	r.sign = canvas.NewRaster(func(w, h int) image.Image {
		d := o.Kit.Dress
		c := d.Severity(r.Finding.Severity)
		core := c
		if r.Finding.Accepted != "" {
			core = d.Panel
		}
		return drawSign(r.Finding.Severity, min(w, h), c, core)
	})
	r.word, r.Value = canvas.NewText("", color.Black), canvas.NewText("", color.Black)
	r.word.TextSize, r.Value.TextSize = 12, 12
	r.word.TextStyle.Bold = true
	r.Value.Alignment = fyne.TextAlignTrailing
	for i := range r.Said {
		r.Said[i] = o.Kit.Passage("", kit.Soft, 200)
	}
	r.Begin(o.Kit, r, "", func() {
		if r.Chosen() {
			o.Clear()
			return
		}
		o.choose(r.Index)
	})
	return r
}

// Chosen reports whether the row is the one that is selected.
func (r *FindingRow) Chosen() bool { return r.Index == r.owner.Selected }

func (r *FindingRow) show(f check.Finding, width float32) {
	r.Finding, r.width = f, width
	r.Refresh()
}

// tell lays out in words what the row says now.
func (r *FindingRow) tell() {
	f, w := r.Finding, max(80, r.width-findingLeft-findingEnd)
	what, why, how, voice := "", "", "", kit.Plain
	if r.Chosen() {
		what, why, how = f.What, f.Why, f.Mend
		for _, x := range f.Fixes {
			if x.Cost != "" {
				how += " " + x.Title + ": " + x.Cost + "."
			}
		}
		if f.Accepted != "" {
			voice, how = kit.Soft, "Accepted: "+f.Accepted
		}
	}
	if r.owner.stale(f) {
		voice = kit.Soft // the rest stays, so that nothing jumps
	}
	r.Said[0].Set(what, voice, w)
	r.Said[1].Set(why, kit.Soft, w)
	r.Said[2].Set(how, kit.Soft, w)
	r.makeButtons()
}

// makeButtons makes a button for each thing that can be done at once.
func (r *FindingRow) makeButtons() {
	f, o := r.Finding, r.owner
	type act struct {
		title, tip string
		do         func()
	}
	var acts []act
	if f.Accepted != "" && r.Chosen() {
		acts = append(acts, act{"Take back", "Accept it no longer: the finding is open again.", func() { o.takeUp(r.Finding) }})
	}
	fixes := f.Fixes
	if !r.Chosen() {
		fixes = fixes[:min(1, len(fixes))]
	}
	if f.Open() || f.Accepted == "" && r.Chosen() {
		for i, x := range fixes {
			acts = append(acts, act{x.Title, x.Title + ": one step, which can be undone.", func() { o.Mend(r.Finding, r.Finding.Fixes[i]) }})
		}
	}
	if f.Open() && r.Chosen() && f.Kind != check.KindPieces {
		acts = append(acts, act{"Accept\u2026", "Leave it as it is, with a reason that goes with the files.", func() { o.askToAccept(r.Finding) }})
	}
	key := ""
	for _, a := range acts {
		key += a.title + "\n"
	}
	if key != r.buttonsFor {
		r.buttonsFor, r.Buttons = key, nil
		for _, a := range acts {
			r.Buttons = append(r.Buttons, o.Kit.Button(a.title, a.tip, a.do).Framed())
		}
	}
	for _, b := range r.Buttons {
		b.SetOff(o.stale(f) || o.last) // they are of an older design
	}
	r.short = false
	if r.Chosen() || len(r.Buttons) == 0 {
		return
	}
	room := r.width - findingLeft - findingEnd - 6 - r.lineButton()
	r.short = r.titleWidth() > room // the shape says the severity, too
	if o.stale(f) || r.titleWidth() > room {
		r.buttonsFor, r.Buttons, r.short = "", nil, false // the line says that it is checked, or has no room
	}
}

// lineButton is how wide the button in the line is.
func (r *FindingRow) lineButton() float32 { return r.Buttons[0].MinSize().Width - 14 }

// title is what the line says: the word of the severity, and what it is about.
func (r *FindingRow) title() string {
	if r.short {
		return capital(r.Finding.Kind.Title)
	}
	if r.Finding.Accepted != "" {
		return "Accepted  " + r.Finding.Kind.Title
	}
	return severityWord(r.Finding.Severity) + "  " + r.Finding.Kind.Title
}

// Line returns what the line says at its left end.
func (r *FindingRow) Line() string { return r.word.Text }

func (r *FindingRow) titleWidth() float32 {
	return fyne.MeasureText(r.title(), r.word.TextSize, r.word.TextStyle).Width
}

// place lays the buttons in lines and returns how high they are.
func (r *FindingRow) place(top float32, put bool) float32 {
	if len(r.Buttons) == 0 {
		return 0
	}
	if !r.Chosen() { // in the line
		if put {
			w := r.lineButton()
			r.Buttons[0].Move(fyne.NewPos(r.width-findingEnd-w, 3))
			r.Buttons[0].Resize(fyne.NewSize(w, fixHeight))
		}
		return 0
	}
	room := max(80, r.width-findingLeft-findingEnd)
	x, y := float32(0), float32(4)
	for _, b := range r.Buttons {
		w := min(room, b.MinSize().Width-10)
		if x > 0 && x+w > room {
			x, y = 0, y+fixHeight+fixGap
		}
		if put {
			b.Move(fyne.NewPos(findingLeft+x, top+y))
			b.Resize(fyne.NewSize(w, fixHeight))
		}
		x += w + fixGap
	}
	return y + fixHeight + 2
}

func (r *FindingRow) height() float32 {
	h := float32(findingLine)
	if r.Chosen() {
		h += 6
	}
	for _, p := range r.Said {
		if p.Text != "" {
			h += p.Height() + 1
		}
	}
	return h + r.place(0, false)
}

// CreateRenderer implements fyne.Widget.
func (r *FindingRow) CreateRenderer() fyne.WidgetRenderer { return kit.Render(r) }

// Parts implements kit.Built.
func (r *FindingRow) Parts() []fyne.CanvasObject {
	os := []fyne.CanvasObject{r.back, r.bar, r.sign, r.word, r.Value, r.Said[0], r.Said[1], r.Said[2]}
	for _, b := range r.Buttons {
		os = append(os, b)
	}
	return os
}

// Least implements kit.Built.
func (r *FindingRow) Least() fyne.Size { return fyne.NewSize(60, r.height()) }

// Lay implements kit.Built.
func (r *FindingRow) Lay(s fyne.Size) {
	r.back.Resize(s)
	r.bar.Resize(fyne.NewSize(3, s.Height))
	r.sign.Move(fyne.NewPos(14, 12))
	r.sign.Resize(fyne.NewSize(signSize, signSize))
	r.word.Move(fyne.NewPos(findingLeft, 8))
	room := s.Width - findingLeft - findingEnd
	if r.Value.Text != "" {
		room -= fyne.MeasureText(r.Value.Text, r.Value.TextSize, r.Value.TextStyle).Width + 8
	}
	if !r.Chosen() && len(r.Buttons) > 0 {
		room = r.titleWidth() + 2
	}
	r.word.Text = kit.FitText(r.title(), room, r.word.TextSize, r.word.TextStyle)
	r.word.Resize(fyne.NewSize(room, 17))
	r.Value.Move(fyne.NewPos(s.Width-findingEnd-valueWidth, 8))
	r.Value.Resize(fyne.NewSize(valueWidth, 17))
	y := float32(findingLine - 2)
	for _, p := range r.Said {
		if p.Text == "" {
			continue
		}
		p.Move(fyne.NewPos(findingLeft, y))
		p.Resize(fyne.NewSize(p.Width, p.Height()))
		y += p.Height() + 1
	}
	r.place(y, true)
}

// Paint implements kit.Built.
func (r *FindingRow) Paint() {
	d := r.Dress()
	r.tell()
	r.back.FillColor, r.bar.FillColor = color.Transparent, color.Transparent
	if r.Over {
		r.back.FillColor = kit.Alpha(d.Ink, 14)
	}
	if r.Chosen() {
		r.back.FillColor, r.bar.FillColor = kit.Alpha(d.Selected, 26), d.Selected
	}
	r.back.StrokeColor, r.back.StrokeWidth = color.Transparent, 0
	if r.Focused {
		r.back.StrokeColor, r.back.StrokeWidth = d.Selected, 1.5
	}
	r.word.Color = d.Severity(r.Finding.Severity)
	if r.Finding.Accepted != "" {
		r.word.Color = d.Soft
	}
	r.Value.Text = ""
	if !r.Chosen() && len(r.Buttons) > 0 {
		// The way of mending it has its place.
	} else if r.owner.stale(r.Finding) {
		r.Value.Text = "checking..."
	} else if r.Finding.Unit != "" {
		places := 3
		if r.Finding.Value >= 2 {
			places = 2
		}
		r.Value.Text = app.FormatNumber(r.Finding.Value, places) + " " + r.Finding.Unit
	}
	r.Value.Color = d.Soft
	for _, p := range r.Said {
		kit.Show(p, p.Text != "")
	}
}

// ButtonTitled returns the button of that title, for the script that drives the window
// and for tests; nil if there is none.
func (r *FindingRow) ButtonTitled(title string) *kit.Button {
	i := slices.IndexFunc(r.Buttons, func(b *kit.Button) bool { return b.Text == title })
	if i < 0 {
		return nil
	}
	return r.Buttons[i]
}

// drawSign draws the shape that stands for a severity, so that it can be recognised
// without its colour: a diamond for a breach, a triangle for a caution, a ring
// for a note. The picture is n pixels square. A core of another colour than c, that of the
// ground, makes the shape hollow, for what is accepted.
func drawSign(s check.Severity, n int, c, core color.NRGBA) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, n, n))
	f := paint.NewFill(n, n)
	w := float64(n)
	draw := func(size float64, c color.NRGBA) {
		switch s {
		case check.Breach:
			r, mid := w*0.46*size, w/2
			f.Polygon(mid, mid-r, mid+r, mid, mid, mid+r, mid-r, mid)
		case check.Caution:
			r, mid := w*0.47*size, w*0.64
			f.Polygon(w/2, mid-1.19*r, w/2+r, mid+0.6*r, w/2-r, mid+0.6*r)
		default:
			f.Ring(w/2, w/2, w*0.36, w*0.16)
		}
		f.Draw(img, c)
	}
	draw(1, c)
	if core != c && s != check.Note {
		draw(0.55, core)
	}
	return img
}

// severityWord is the word that goes with the shape.
func severityWord(s check.Severity) string {
	switch s {
	case check.Breach:
		return "Breach"
	case check.Caution:
		return "Caution"
	}
	return "Note"
}
