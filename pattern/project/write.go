package project

import (
	"bytes"
	"encoding/json"
	"io"
	"slices"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/project/disk"
)

// Write writes the design. It writes nothing of a design that
// [pattern.Design.Check] refuses, since that could not be read again.
func Write(w io.Writer, d pattern.Design) error {
	b, err := checked(d)
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}

// WriteFile writes the design to the file at path, whole or not at all, as package disk
// does.
func WriteFile(path string, d pattern.Design) error {
	b, err := checked(d)
	if err != nil {
		return err
	}
	return disk.WriteFile(path, b, disk.Shared)
}

func checked(d pattern.Design) ([]byte, error) {
	if err := d.Check(); err != nil {
		return nil, err
	}
	return Bytes(d)
}

// Bytes returns the file of a design that has been laid or read, and so checked. The error
// is that of a number that is none.
func Bytes(d pattern.Design) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(struct {
		Fretband int `json:"fretband"`
		pattern.Design
	}{versionFor(d), listed(d)})
	return b.Bytes(), err
}

// versionFor returns the oldest version that holds the design: so that a design that
// needs nothing new stays the same file, and keeps its content number.
func versionFor(d pattern.Design) int {
	v := 2
	if len(d.Accepted) > 0 {
		v = 3
	}
	if slices.ContainsFunc(d.Fields, func(f pattern.Field) bool { return f.Motif == motif.OwnKey }) {
		v = 4
	}
	if len(d.Added) > 0 {
		v = 5
	}
	for _, other := range d.Variants {
		v = max(v, versionFor(other))
	}
	return v
}

// listed returns the design with an empty list of fields where it has none: the format
// has no null.
func listed(d pattern.Design) pattern.Design {
	if d.Fields == nil {
		d.Fields = []pattern.Field{}
	}
	d.Variants = slices.Clone(d.Variants)
	for i, v := range d.Variants {
		d.Variants[i] = listed(v)
	}
	return d
}
