package ui

import (
	"image"
	"strings"
	"testing"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/app/ui/pages"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"
)

// listed returns the keys that the list of keys names.
func listed() map[string]bool {
	keys := map[string]bool{}
	for _, g := range pages.KeyList {
		for _, l := range g.Lines {
			for _, part := range strings.FieldsFunc(strings.ReplaceAll(l.Keys, " or ", ", "), func(r rune) bool { return r == ',' }) {
				keys[strings.TrimSpace(part)] = true
			}
		}
	}
	return keys
}

// inWords is what the list calls the toolkit's keys.
func inWords(name fyne.KeyName) string {
	switch name {
	case fyne.KeyEscape:
		return "Esc"
	case fyne.KeyPageUp:
		return "PgUp"
	case fyne.KeyPageDown:
		return "PgDn"
	case fyne.KeyReturn, fyne.KeyEnter:
		return "Enter"
	}
	return string(name)
}

func shortcutInWords(s fyne.Shortcut) string {
	switch c := s.(type) {
	case *desktop.CustomShortcut:
		t := "Ctrl+"
		if c.Modifier&fyne.KeyModifierShift != 0 {
			t += "Shift+"
		}
		return t + string(c.KeyName)
	case *fyne.ShortcutUndo:
		return "Ctrl+Z"
	case *fyne.ShortcutRedo:
		return "Ctrl+Y"
	}
	return s.ShortcutName()
}

// Every key that is bound is in the list, and all of the list can be read.
func TestTheListOfKeysIsCompleteAndLegible(t *testing.T) {
	w, _ := usual(t)
	list := listed()
	for name := range w.keys {
		require.True(t, list[inWords(name)], "the list has no %s", name)
	}
	var look func(items []*fyne.MenuItem)
	look = func(items []*fyne.MenuItem) {
		for _, i := range items {
			if i.Shortcut != nil {
				require.True(t, list[shortcutInWords(i.Shortcut)], "the list has no %s for %s", shortcutInWords(i.Shortcut), i.Label)
			}
			// A single key, in brackets, does what the line says: it is bound.
			if at := strings.LastIndex(i.Label, "("); at >= 0 {
				key := strings.Trim(i.Label[at:], "()")
				require.True(t, list[key], "the list has no %s of %s", key, i.Label)
			}
			if i.ChildMenu != nil {
				look(i.ChildMenu.Items)
			}
		}
	}
	for _, m := range w.menu.main.Items {
		look(m.Items)
	}
	for _, s := range w.shortcuts {
		require.True(t, list[shortcutInWords(s)], "the list has no %s", shortcutInWords(s))
	}
	for c := 'A'; c <= 'Z'; c++ {
		if w.keys[fyne.KeyName(c)] == nil && w.bent.Key(&fyne.KeyEvent{Name: fyne.KeyName(c)}) {
			require.True(t, list[string(c)], "the list has no %c, which the bent band takes", c)
		}
	}

	for _, size := range []fyne.Size{{Width: 1400, Height: 870}, {Width: 1000, Height: 626}} {
		w.win.Resize(size)
		w.help.Keys()
		img := w.win.Canvas().Capture()
		keepPicture(t, "keys-"+app.FormatNumber(float64(size.Width), 0), func() image.Image { return img })
		panel := w.kit.Dialogs.Top().Panel.MinSize()
		require.True(t, panel.Width <= size.Width && panel.Height <= size.Height, "%v in %v", panel, size)
		var read func(o fyne.CanvasObject)
		read = func(o fyne.CanvasObject) {
			switch o := o.(type) {
			case *kit.Label:
				require.LessOrEqual(t, o.MinSize().Width, o.Size().Width+0.5, "%q is cut off", o.Text)
			case *fyne.Container:
				for _, x := range o.Objects {
					read(x)
				}
			}
		}
		read(w.kit.Dialogs.Top().Panel)
		w.escape()
	}
}
