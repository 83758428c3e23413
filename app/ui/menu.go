package ui

import (
	"fmt"
	"path/filepath"
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/project"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
)

// menu is the window's menu.
type menu struct {
	w                       *Window
	main                    *fyne.MainMenu
	recent, band            *fyne.MenuItem
	undo, redo, light, dark *fyne.MenuItem
	pickAll                 *fyne.MenuItem
}

func key(name fyne.KeyName, mod ...fyne.KeyModifier) fyne.Shortcut {
	m := fyne.KeyModifierShortcutDefault
	for _, x := range mod {
		m |= x
	}
	return &desktop.CustomShortcut{KeyName: name, Modifier: m}
}

func (m *menu) item(title string, sh fyne.Shortcut, do func()) *fyne.MenuItem {
	i := fyne.NewMenuItem(title, m.w.guard(do))
	i.Shortcut = sh
	return i
}

func newMenu(w *Window) *menu {
	m := &menu{w: w}
	gallery := fyne.NewMenuItem("Gallery", nil)
	var designs []*fyne.MenuItem
	for _, n := range project.Gallery() {
		title := n
		if d, err := project.GalleryDesign(n); err == nil {
			title = d.Name
		}
		designs = append(designs, m.item(title, nil, func() { w.openGallery(n) }))
	}
	gallery.ChildMenu = fyne.NewMenu("", designs...)
	m.recent = fyne.NewMenuItem("Recent", nil)
	m.band = fyne.NewMenuItem("Look at the band", nil)
	m.band.ChildMenu = fyne.NewMenu("", w.bent.Items()...)
	m.undo = m.item("Undo", &fyne.ShortcutUndo{}, w.undo)
	m.redo = m.item("Redo", key(fyne.KeyZ, fyne.KeyModifierShift), w.redo)
	m.light = m.item("Light", nil, func() { w.wear("light") })
	m.dark = m.item("Dark", nil, func() { w.wear("dark") })
	// Not guarded: in a dialog, too, Ctrl+A is the entry's.
	m.pickAll = fyne.NewMenuItem("Pick all openings", w.chooseAll)
	m.pickAll.Shortcut = key(fyne.KeyA)
	quit := m.item("Quit", key(fyne.KeyQ), w.askToClose)
	quit.IsQuit = true
	line := fyne.NewMenuItemSeparator
	adds := func(title string, mark bool, kinds ...string) *fyne.MenuItem {
		i := fyne.NewMenuItem(title, nil)
		var items []*fyne.MenuItem
		for k := 0; k < len(kinds); k += 2 {
			items = append(items, m.item(kinds[k], nil, func() { w.addItem(mark, kinds[k+1]) }))
		}
		i.ChildMenu = fyne.NewMenu("", items...)
		return i
	}
	m.main = fyne.NewMainMenu(
		fyne.NewMenu("File",
			m.item("New", key(fyne.KeyN), w.newDesign),
			m.item("Open...", key(fyne.KeyO), w.openDesign),
			m.recent, gallery, line(),
			m.item("Save", key(fyne.KeyS), w.save),
			m.item("Save as...", key(fyne.KeyS, fyne.KeyModifierShift), w.saveAs),
			line(),
			m.item("Hand over...", key(fyne.KeyE), w.handOver),
			line(), quit),
		fyne.NewMenu("Edit", m.undo, m.redo, line(),
			m.pickAll,
			m.item("Pick the row", nil, w.chooseRow),
			m.item("Pick the field", nil, w.chooseField),
			m.item("Leave solid (L)", nil, w.leaveSolid),
			m.item("Open again (U)", nil, w.openAgain),
			m.item("Undo the hand", nil, w.undoHand), line(),
			adds("Add a reserve", false, "Circle", pattern.CircleShape, "Oval", pattern.OvalShape, "Rectangle", pattern.RectangleShape),
			adds("Add a mark", true, "Text", pattern.TextMark, "Line", pattern.LineMark, "Drawn lines", pattern.PathMark), line(),
			m.item("Name and note...", nil, w.editName), line(),
			m.item("Reach a weight...", key(fyne.KeyG), w.reachWeight),
			m.item("Keep as a variant...", key(fyne.KeyK), w.keepVariant),
			m.item("Variants, side by side...", key(fyne.KeyB), w.showVariants)),
		fyne.NewMenu("View",
			m.item("Fit (F)", nil, w.fit),
			m.item("True size (1)", nil, w.trueSize),
			m.item("Set the screen's size...", nil, w.askDPI),
			line(),
			m.item("Go to the thinnest bridge (T)", nil, func() { w.typed(&fyne.KeyEvent{Name: fyne.KeyT}) }),
			m.band,
			m.item("Stretch of a domed band (S)", nil, func() { w.typed(&fyne.KeyEvent{Name: fyne.KeyS}) }),
			m.item("Fold the controls (F9)", nil, w.fold),
			line(), m.light, m.dark),
		fyne.NewMenu("Help",
			m.item("Keys (F1)", nil, w.showKeys),
			m.item("Cautions", nil, w.showCautions),
			m.item("About the figures", nil, w.showFigures)),
	)
	return m
}

// fill brings the list of recent files up to date.
func (m *menu) fill() {
	var items []*fyne.MenuItem
	for _, p := range m.w.settings.Recent {
		items = append(items, m.item(filepath.Base(p)+"   "+shortFolder(filepath.Dir(p)), nil, func() { m.w.openRecent(p) }))
	}
	if len(items) == 0 {
		none := fyne.NewMenuItem("None yet", nil)
		none.Disabled = true
		items = append(items, none)
	}
	m.recent.ChildMenu = fyne.NewMenu("", items...)
	m.main.Refresh()
}

func shortFolder(p string) string {
	parts := strings.Split(filepath.ToSlash(p), "/")
	if len(parts) > 3 {
		return "\u2026/" + strings.Join(parts[len(parts)-2:], "/")
	}
	return p
}

// show ticks and greys what the document and the dress say.
func (m *menu) show(d *app.Document) {
	u, r, dark := !d.CanUndo(), !d.CanRedo(), m.w.settings.Theme == "dark"
	// Undo stays open while there is typing to take back.
	if m.undo.Disabled == u && m.redo.Disabled == r && m.dark.Checked == dark && m.light.Checked == !dark {
		return
	}
	m.undo.Disabled, m.redo.Disabled, m.dark.Checked, m.light.Checked = u, r, dark, !dark
	m.main.Refresh()
}

func (w *Window) showKeys() {
	k := w.kit
	rows := kit.Down(3)
	for _, l := range keyList {
		rows.Add(container.New(kit.Columns{Widths: []float32{170, 330}, Gap: 12, Height: 19},
			k.Label(l[0], kit.Strong), k.Label(l[1], kit.Plain)))
	}
	w.dialogs.Ask("Keys", rows, nil, kit.Answer{Text: "Close", Main: true})
}

func (w *Window) showCautions() {
	k := w.kit
	rows := kit.Down(8)
	cautions := export.Cautions(nil, nil, export.Options{})
	if w.scene != nil {
		cautions = export.Cautions(w.scene.sheet, w.scene.report, export.Options{})
	}
	for _, c := range cautions {
		rows.Add(k.Passage(c, kit.Plain, 600))
	}
	w.dialogs.Ask("Cautions", rows, nil, kit.Answer{Text: "Close", Main: true})
}

func (w *Window) showFigures() {
	k := w.kit
	rows := kit.Down(8)
	for _, c := range []string{
		"Weights are the flat sheet's: area times thickness times the alloy's density. Bending keeps the volume where the length is taken on the neutral surface. A band that is cut or cast as formed, or domed, is weighed by the volume of its form.",
		"The thinnest bridge is the exact least distance between two openings, or between an opening and the edge, with its two points. In the bent band the inner face is a little shorter and the outer a little longer than the flat.",
		"The net section is how much of the width is metal in each cross-section. It is a picture of where the band is weak, not a strength.",
		"Saw blade and drill are advice from nominal sizes. Measure the blade at hand.",
		"All figures are estimates from the drawing. Weigh the finished piece, and ask your assay office before marking.",
	} {
		rows.Add(k.Passage(c, kit.Plain, 560))
	}
	if w.scene != nil {
		for _, n := range w.scene.sheet.Flat.Notes {
			rows.Add(k.Passage("Of this band: "+n+".", kit.Soft, 560))
		}
	}
	w.dialogs.Ask("About the figures", rows, nil, kit.Answer{Text: "Close", Main: true})
}

func (w *Window) askDPI() {
	k := w.kit
	e := w.dialogs.Entry(app.FormatNumber(w.settings.ScreenDPI, 1))
	bad := k.Label("", kit.Warn)
	body := kit.Down(8,
		k.Passage("True size is as good as this number. Choose true size, hold a ruler to the screen, and change the number until the drawing's ruler agrees.", kit.Plain, 400),
		container.New(kit.Columns{Widths: []float32{150, entryWidth, 60}, Gap: 8, Height: rowHeight},
			k.Label("Pixels to the inch", kit.Plain), e, k.Label("40 to 800", kit.Soft)), bad)
	var d *kit.Dialog
	d = w.dialogs.Ask("The screen's size", body, nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Set", Main: true, Stay: true, Do: func() {
		q, err := app.ReadQuantity(e.Text, "", false)
		if err != nil || q.Value < 40 || q.Value > 800 {
			bad.SetText("Type a number from 40 to 800.")
			return
		}
		d.Close()
		w.settings.ScreenDPI = q.Value
		w.keepSettings()
		w.trueSize()
		w.status.zoom(w.zoomText())
	}})
	w.win.Canvas().Focus(e)
}

func (w *Window) editName() {
	k := w.kit
	d := w.doc.Now()
	name, note := w.dialogs.Entry(d.Name), w.dialogs.Entry(strings.ReplaceAll(d.Note, "\n", " "))
	row := func(t string, o fyne.CanvasObject) fyne.CanvasObject {
		return container.New(kit.Columns{Widths: []float32{60, 360}, Gap: 8, Height: rowHeight + 2}, k.Label(t, kit.Plain), o)
	}
	bad := k.Label("", kit.Warn)
	var dl *kit.Dialog
	dl = w.dialogs.Ask("Name and note", kit.Down(4, row("Name", name), row("Note", note), bad), nil,
		kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Set", Main: true, Stay: true, Do: func() {
			n := strings.TrimSpace(name.Text)
			if n == "" || len(n) > 80 {
				bad.SetText("A name has 1 to 80 letters.")
				return
			}
			next := w.doc.Now()
			next.Name = n
			if note.Text != strings.ReplaceAll(d.Note, "\n", " ") {
				next.Note = note.Text
			}
			dl.Close()
			w.doc.Seal()
			w.change("", "name", d.Name, fmt.Sprint(n), next)
		}})
	w.win.Canvas().Focus(name)
}
