package app

import (
	"path/filepath"
	"strings"

	"fretband/pattern"
	"fretband/pattern/project"
)

// Document is the design that is open: its history, the file it lives in, and
// whether the file says the same.
type Document struct {
	*History
	Path  string // "" until it has been saved
	saved *pattern.Design
}

// NewDocument opens d as a design that is not in any file. It counts as
// unchanged until it is edited.
func NewDocument(d pattern.Design) *Document {
	c := Clone(d)
	return &Document{History: NewHistory(d), saved: &c}
}

// Open reads the design file at path.
func Open(path string) (*Document, error) {
	d, err := project.ReadFile(path)
	if err != nil {
		return nil, err
	}
	doc := NewDocument(d)
	doc.Path = path
	return doc, nil
}

// Restore opens work that was left behind: it belongs to its file but is not
// saved there.
func Restore(r Recovered) *Document {
	doc := NewDocument(r.Design)
	doc.Path = r.Path
	doc.saved = nil
	return doc
}

// SaveAs writes the design to path, atomically, and from then on lives there.
func (d *Document) SaveAs(path string) error {
	now := d.Now()
	if err := project.WriteFile(path, now); err != nil {
		return err
	}
	d.Path = path
	d.saved = &now
	d.Seal()
	return nil
}

// Dirty reports whether there are changes that the file does not have.
func (d *Document) Dirty() bool { return d.saved == nil || !Equal(*d.saved, d.now) }

// Title names the document for a person: the design's name, or its file's.
func (d *Document) Title() string {
	if n := strings.TrimSpace(d.now.Name); n != "" {
		return n
	}
	if d.Path != "" {
		return strings.TrimSuffix(filepath.Base(d.Path), filepath.Ext(d.Path))
	}
	return "Untitled"
}
