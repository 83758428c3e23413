package pages

import (
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"

	"fretband/app/ui/kit"
	"fretband/pattern/project"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// chooser asks for a file or a folder and returns its path; it reads folders and writes
// nothing.
type chooser struct {
	desk   *Desk
	mode   chooseMode
	folder string
	name   *kit.Entry
	path   *kit.Entry
	list   *widget.List
	rows   []place
	bad    *kit.Label
	d      *kit.Dialog
	done   func(path string)
}

type chooseMode int

const (
	openFile chooseMode = iota
	SaveFile
	chooseFolder
	openDrawing
	openPicture
)

// lists reports whether a mode lists a file of that name.
func (m chooseMode) lists(name string) bool {
	switch m {
	case chooseFolder:
		return false
	case openDrawing:
		return slices.Contains([]string{".svg", ".dxf"}, strings.ToLower(filepath.Ext(name)))
	case openPicture:
		return slices.Contains([]string{".png", ".jpg", ".jpeg"}, strings.ToLower(filepath.Ext(name)))
	}
	return project.IsFile(name)
}

// opens reports whether a file must be there already.
func (m chooseMode) opens() bool { return m == openFile || m == openDrawing || m == openPicture }

type place struct {
	name   string
	folder bool
}

// Choose opens a dialog for a path. Saving over a file is asked about before
// done is called.
func (desk *Desk) Choose(mode chooseMode, folder, name string, done func(path string)) {
	if folder == "" {
		folder, _ = os.UserHomeDir()
	}
	if abs, err := filepath.Abs(folder); err == nil {
		folder = abs
	}
	k := desk.Kit
	c := &chooser{desk: desk, mode: mode, folder: folder, done: done}
	c.path, c.name = k.Entry(), k.Entry()
	c.path.OnCommit = func(t string) { c.enter(t) }
	c.name.SetText(name)
	c.name.OnSubmitted = func(string) { c.take() }
	c.bad = k.Label("", kit.Warn)
	c.list = widget.NewList(
		func() int { return len(c.rows) },
		func() fyne.CanvasObject {
			return container.New(kit.Columns{Widths: []float32{0, 70}, Gap: 8, Height: 24},
				k.Label("", kit.Plain), k.Label("", kit.Caption).Right())
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			r := c.rows[i]
			cell := o.(*fyne.Container).Objects
			cell[0].(*kit.Label).SetText(r.name)
			kind := "design"
			switch {
			case r.folder:
				kind = "folder"
			case mode == openDrawing:
				kind = "drawing"
			case mode == openPicture:
				kind = "picture"
			}
			cell[1].(*kit.Label).SetText(kind)
		})
	c.list.OnSelected = func(i widget.ListItemID) {
		r := c.rows[i]
		c.list.UnselectAll()
		if r.folder {
			c.enter(filepath.Join(c.folder, r.name))
			return
		}
		if c.name.Text == r.name && mode.opens() {
			c.take()
			return
		}
		c.name.SetText(r.name)
	}
	up := k.Button("Up", "To the folder above.", func() { c.enter(filepath.Dir(c.folder)) }).Framed()
	top := container.New(kit.Columns{Widths: []float32{56, 0, 46}, Gap: 8, Height: rowHeight}, k.Label("Folder", kit.Plain), c.path, up)
	bottom := kit.Down(4,
		container.New(kit.Columns{Widths: []float32{56, 0}, Gap: 8, Height: rowHeight}, k.Label("Name", kit.Plain), c.name), c.bad)
	if mode == chooseFolder {
		bottom.Objects[0].Hide()
	}
	title, do := "Open a design", "Open"
	switch mode {
	case SaveFile:
		title, do = "Save the design as", "Save"
	case chooseFolder:
		title, do = "Choose a folder", "Choose"
	case openDrawing:
		title, do = "Read a shape from a drawing (SVG or DXF)", "Read"
	case openPicture:
		title, do = "A picture to trace (PNG or JPEG)", "Lay it under"
	}
	body := kit.Sized(520, 330, container.NewBorder(
		kit.Inset(0, 0, 0, 6, top), kit.Inset(0, 6, 0, 0, bottom), nil, nil, c.list))
	c.d = desk.Kit.Dialogs.Ask(title, body, nil,
		kit.Answer{Text: "Cancel"}, kit.Answer{Text: do, Main: true, Stay: true, Do: c.take})
	c.d.Named("folder", c.path)
	c.d.Named("name", c.name)
	c.enter(folder)
	desk.Ed.Log.Event("dialog", "name", title)
	desk.Opened()
	if mode != chooseFolder {
		desk.Kit.Dialogs.Focus(c.name)
	}
}

// enter shows a folder.
func (c *chooser) enter(folder string) {
	folder = filepath.Clean(folder)
	entries, err := os.ReadDir(folder)
	if err != nil {
		c.bad.SetText(plainError(err))
		return
	}
	c.bad.SetText("")
	c.folder = folder
	c.path.Shown = folder
	c.path.SetText(folder)
	c.rows = c.rows[:0]
	for _, e := range entries {
		n := e.Name()
		if strings.HasPrefix(n, ".") {
			continue
		}
		isDir := e.IsDir()
		if e.Type()&os.ModeSymlink != 0 {
			if st, err := os.Stat(filepath.Join(folder, n)); err == nil {
				isDir = st.IsDir()
			}
		}
		if isDir || c.mode.lists(n) {
			c.rows = append(c.rows, place{n, isDir})
		}
	}
	sort.SliceStable(c.rows, func(i, j int) bool {
		if c.rows[i].folder != c.rows[j].folder {
			return c.rows[i].folder
		}
		return strings.ToLower(c.rows[i].name) < strings.ToLower(c.rows[j].name)
	})
	c.list.Refresh()
	c.list.ScrollToTop()
}

// take ends the choice with what is in the entries.
func (c *chooser) take() {
	if c.path.Text != c.folder {
		c.enter(c.path.Text)
		if c.path.Text != c.folder {
			return
		}
	}
	if c.mode == chooseFolder {
		c.d.Close()
		c.done(c.folder)
		return
	}
	name := strings.TrimSpace(c.name.Text)
	if name == "" {
		c.bad.SetText("Give the file a name.")
		return
	}
	path := name
	if !filepath.IsAbs(name) {
		path = filepath.Join(c.folder, name)
	}
	st, err := os.Stat(path)
	if err == nil && st.IsDir() {
		c.name.SetText("")
		c.enter(path)
		return
	}
	if c.mode.opens() {
		if err != nil {
			c.bad.SetText(plainError(err))
			return
		}
		c.d.Close()
		c.done(path)
		return
	}
	if !project.IsFile(path) {
		path += project.Suffix
		_, err = os.Stat(path)
	}
	if dir := filepath.Dir(path); !isFolder(dir) {
		c.bad.SetText(dir + " is not a folder.")
		return
	}
	if err != nil { // there is no such file yet
		c.d.Close()
		c.done(path)
		return
	}
	c.desk.Kit.Dialogs.Ask("Replace the file?",
		c.desk.Kit.Passage(filepath.Base(path)+" is there already. Saving replaces what it holds.", kit.Plain, 380), nil,
		kit.Answer{Text: "Keep it"}, kit.Answer{Text: "Replace", Main: true, Do: func() {
			c.d.Close()
			c.done(path)
		}})
}

func isFolder(p string) bool {
	st, err := os.Stat(p)
	return err == nil && st.IsDir()
}

// plainError says what the system found wrong, in one line.
func plainError(err error) string {
	switch {
	case os.IsNotExist(err):
		return "There is no such file or folder."
	case os.IsPermission(err):
		return "The system does not let you in there."
	}
	return err.Error()
}
