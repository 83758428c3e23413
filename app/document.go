package app

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/pattern/project/disk"
)

// Document is the design that is open: its history, the file it lives in, and
// whether the file says the same.
type Document struct {
	*History
	Path   string   // "" until it has been saved
	Handed []string // content numbers that it had when this window handed it over
	saved  *pattern.Design
	onDisk content // of the file when it was last read or written here
	claims string  // folder of claims; "" makes none
	claim  *claim  // on Path; nil if it could not be locked
}

// ErrChanged says that a file holds something else than when it was last read or
// written here.
var ErrChanged = errors.New("changed since it was opened here")

// NewDocument opens d as a design that is not in any file. It counts as
// unchanged until it is edited.
func NewDocument(d pattern.Design) *Document {
	c := Clone(d)
	return &Document{History: NewHistory(d), saved: &c}
}

// Open reads the design file at path.
func Open(path string) (*Document, error) {
	// Named first: if the file changes before it is read, that is noticed when it is saved.
	onDisk, err := contentAt(path)
	d, readErr := project.ReadFile(path)
	if err := cmp.Or(readErr, err); err != nil {
		return nil, err
	}
	if !d.Named() {
		d.Name = nameOf(path)
	}
	doc := NewDocument(d)
	doc.Path, doc.onDisk = path, onDisk
	return doc, nil
}

// Restore opens work that was left behind: it belongs to its file but is not
// saved there.
func Restore(r Recovered) *Document {
	doc := NewDocument(r.Design)
	doc.Path, doc.onDisk = r.Path, r.onDisk
	doc.saved = nil
	return doc
}

// Claim shows other windows, by a lock in the folder dir, that the document's file is
// open in this one, now and wherever it is saved later. The document open before,
// if anything, hands its lock over if it is the same file. Claim fails with [ErrElsewhere]
// if another window has claimed it; any other error means that other windows can't know.
func (d *Document) Claim(dir string, before *Document) (err error) {
	d.claims = dir
	switch {
	case d.Path == "" || d.claim != nil:
	case before != nil && before.claim != nil && before.Lives(d.Path):
		d.claim, before.claim = before.claim, nil
	default:
		d.claim, err = claimDesign(dir, d.Path)
	}
	return err
}

// Release ends what [Document.Claim] began.
func (d *Document) Release() {
	d.claim.release()
	d.claim, d.claims = nil, ""
}

// Copy returns the same design in no file.
func (d *Document) Copy() *Document {
	c := NewDocument(d.now)
	c.claims = d.claims
	if d.Dirty() {
		c.saved = nil
	}
	return c
}

// Lives reports whether path leads to the document's file.
func (d *Document) Lives(path string) bool {
	return d.Path != "" && realPath(d.Path) == realPath(path)
}

// SaveAs writes the design to path, whole or not at all; that is then the document's file,
// whose name a design takes that has none.
// It writes nothing and fails with [ErrChanged] if the document's own file was changed
// by others meanwhile, and with [ErrElsewhere] if another one is open in another window.
func (d *Document) SaveAs(path string) error { return d.save(path, false) }

// Overwrite is SaveAs without those checks: the user has been asked.
func (d *Document) Overwrite(path string) error { return d.save(path, true) }

func (d *Document) save(path string, sure bool) error {
	now := d.Now()
	if !now.Named() {
		now.Name = nameOf(path)
	}
	if f := d.UnderlayPath(); f != "" {
		now.Underlay.File = underlayIn(path, f)
	}
	var file bytes.Buffer
	if err := project.Write(&file, now); err != nil {
		return err
	}
	onDisk := contentOf(file.Bytes())
	own := d.Lives(path)
	if own && !sure {
		there, err := contentAt(path)
		if err != nil {
			return err
		}
		if there != "" && there != d.onDisk && there != onDisk {
			return fmt.Errorf("%s: %w", path, ErrChanged)
		}
	}
	held := d.claim
	if d.claims != "" && (held == nil || !own) {
		var err error
		held, err = claimDesign(d.claims, path)
		if errors.Is(err, ErrElsewhere) && !own && !sure {
			return fmt.Errorf("%s: %w", path, err)
		}
	}
	if err := disk.WriteFile(path, file.Bytes(), disk.Shared); err != nil {
		if held != d.claim {
			held.release()
		}
		return err
	}
	if held != d.claim {
		d.claim.release()
		d.claim = held
	}
	d.entitle(now.Name)
	d.now.Underlay.File = now.Underlay.File
	d.Path, d.onDisk, d.saved = path, onDisk, &now
	d.Seal()
	return nil
}

// Reload takes in what the file holds now. Undo brings back what was here.
func (d *Document) Reload() error {
	from, err := Open(d.Path)
	if err != nil {
		return err
	}
	d.Seal()
	d.Change("", from.now)
	d.saved, d.onDisk = from.saved, from.onDisk
	return nil
}

// Dirty reports whether there are changes that the file does not have.
func (d *Document) Dirty() bool { return d.saved == nil || !Equal(*d.saved, d.now) }

// SavedText says whether the design is saved, and where.
func (d *Document) SavedText() string {
	switch {
	case d.Dirty() && d.Path == "":
		return "not saved yet"
	case d.Dirty():
		return "changed since " + filepath.Base(d.Path) + " was saved"
	case d.Path == "":
		return "not in a file"
	}
	return "saved in " + filepath.Base(d.Path)
}

// Title names the document for a person: the design's name, or its file's.
func (d *Document) Title() string {
	switch {
	case d.now.Named():
		return strings.TrimSpace(d.now.Name)
	case d.Path != "":
		return nameOf(d.Path)
	}
	return pattern.Untitled
}

// nameOf returns the name that a design takes from its file while it has none.
func nameOf(path string) string {
	return AsName(strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)))
}

// AsName returns as much of a text as has room in a design's name.
func AsName(text string) string {
	name := []rune(strings.TrimSpace(text))
	for len(string(name)) > pattern.ByPath("name")[0].Bytes {
		name = name[:len(name)-1]
	}
	return strings.TrimSpace(string(name))
}
