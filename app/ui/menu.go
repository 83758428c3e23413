package ui

import (
	"path/filepath"
	"strings"

	"fretband/app"
	"fretband/pattern"
	"fretband/pattern/project"

	"fyne.io/fyne/v2"
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
		designs = append(designs, m.item(title, nil, func() { w.files.OpenGallery(n) }))
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
	m.pickAll = fyne.NewMenuItem("Pick all openings", w.pickAll)
	m.pickAll.Shortcut = key(fyne.KeyA)
	quit := m.item("Quit", key(fyne.KeyQ), w.files.AskToClose)
	quit.IsQuit = true
	line := fyne.NewMenuItemSeparator
	adds := func(title string, kind app.ItemKind, kinds ...string) *fyne.MenuItem {
		i := fyne.NewMenuItem(title, nil)
		var items []*fyne.MenuItem
		for k := 0; k < len(kinds); k += 2 {
			items = append(items, m.item(kinds[k], nil, func() { w.ed.AddItem(kind, kinds[k+1]) }))
		}
		i.ChildMenu = fyne.NewMenu("", items...)
		return i
	}
	draw := fyne.NewMenuItem("Draw an opening", nil)
	draw.ChildMenu = fyne.NewMenu("",
		m.item("Circle (C)", nil, func() { w.ed.TakeTool(pattern.CircleShape) }),
		m.item("Oval (E)", nil, func() { w.ed.TakeTool(pattern.OvalShape) }),
		m.item("Rectangle (Q)", nil, func() { w.ed.TakeTool(pattern.RectangleShape) }))
	m.main = fyne.NewMainMenu(
		fyne.NewMenu("File",
			m.item("New", key(fyne.KeyN), w.files.New),
			m.item("Open...", key(fyne.KeyO), w.files.Open),
			m.recent, gallery, line(),
			m.item("Save", key(fyne.KeyS), w.files.Save),
			m.item("Save as...", key(fyne.KeyS, fyne.KeyModifierShift), w.files.SaveAs),
			line(),
			m.item("Hand over...", key(fyne.KeyE), w.handOver.Ask),
			line(), quit),
		fyne.NewMenu("Edit", m.undo, m.redo, line(),
			m.pickAll,
			m.item("Pick the row", nil, w.ed.PickRow),
			m.item("Pick the field", nil, w.ed.PickField),
			m.item("Leave solid (L)", nil, w.ed.LeaveSolid),
			m.item("Open again (U)", nil, w.ed.OpenAgain),
			m.item("Back to the pattern", nil, w.ed.UndoHand),
			draw,
			m.item("Draw by points (F2)", nil, func() { w.ed.TakeTool(app.PenTool) }),
			m.item("Tie an opening (I)", nil, func() { w.ed.TakeTool(app.TieTool) }), line(),
			adds("Add a reserve", app.ReserveItem, "Circle", pattern.CircleShape, "Oval", pattern.OvalShape, "Rectangle", pattern.RectangleShape),
			adds("Add a mark", app.EngravingItem, "Text", pattern.TextEngraving, "Line", pattern.LineEngraving, "Drawn lines", pattern.PathEngraving),
			adds("Add a stone, wire or part", app.AddedItem, "Stone", pattern.StonePart, "Wire", pattern.WirePart, "Beads", pattern.BeadsPart, "Part", pattern.OtherPart), line(),
			m.item("Name and note...", nil, w.help.AskName), line(),
			m.item("Reach a weight...", key(fyne.KeyG), w.compare.ForWeight),
			m.item("Lighten where it idles...", key(fyne.KeyL), w.compare.Lighten),
			m.item("Keep as a variant...", key(fyne.KeyK), w.compare.KeepVariant),
			m.item("Variants, side by side...", key(fyne.KeyB), w.compare.ShowVariants)),
		fyne.NewMenu("View",
			m.item("Fit (F)", nil, w.blank.Fit),
			m.item("True size (1)", nil, w.blank.TrueSize),
			m.item("Nearer (+)", nil, func() { w.blank.ZoomStep(1.25) }),
			m.item("Farther (-)", nil, func() { w.blank.ZoomStep(0.8) }),
			m.item("Set the screen's size...", nil, w.help.AskScreen),
			line(),
			m.item("Go to the thinnest bridge (T)", nil, w.showThinnest),
			m.item("Next finding (N)", nil, func() { w.findings.Next(1) }),
			m.item("The finding before (P)", nil, func() { w.findings.Next(-1) }),
			m.band,
			m.item("Bent band large, blank small, or back (F8)", nil, w.toggleLarge),
			m.item("Plain band, before it is pierced (Z)", nil, w.togglePlain),
			m.item("Stress over blank and band (Y)", nil, w.toggleStress),
			m.item("Bent band under the load of the stress (J)", nil, w.toggleLoad),
			m.item("Push at a position on the blank (K)", nil, func() { w.ed.TakeTool(app.PushTool) }),
			m.item("Stretch of a domed band (S)", nil, w.blank.ToggleStretch),
			m.item("Fold the controls (F9)", nil, w.fold),
			line(), m.light, m.dark),
		fyne.NewMenu("Help",
			m.item("Keys (F1)", nil, w.help.Keys),
			m.item("Cautions", nil, w.help.Cautions),
			m.item("About the figures", nil, w.help.Figures),
			m.item("About Fretband", nil, w.help.About)),
	)
	return m
}

// fill brings the list of recent files up to date.
func (m *menu) fill() {
	var items []*fyne.MenuItem
	for _, p := range m.w.settings.Recent {
		items = append(items, m.item(filepath.Base(p)+"   "+shortFolder(filepath.Dir(p)), nil, func() { m.w.files.OpenRecent(p) }))
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
	m.light.Label, m.dark.Label = "Light", "Dark (D)"
	if dark {
		m.light.Label, m.dark.Label = "Light (D)", "Dark"
	}
	m.main.Refresh()
}
