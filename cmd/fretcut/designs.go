package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fretband/export/handover"
	"fretband/pattern"
	"fretband/pattern/project"
)

// fromInput is the operand that stands for a design on standard input.
const fromInput = "-"

// item is one design that is asked for, or why there is none to be had.
type item struct {
	path      string          // of its file; fromInput
	subfolder string          // the folders that it lies in, below the folder asked for
	name      string          // of its file, without the suffix; from standard input the design's own
	given     *pattern.Design // read already: standard input can be read only once
	err       error
}

// String names the item in errors.
func (i item) String() string {
	if i.path == fromInput {
		return "standard input"
	}
	return i.path
}

// read returns the design.
func (i item) read() (pattern.Design, error) {
	switch {
	case i.err != nil:
		return pattern.Design{}, i.err
	case i.given != nil:
		return *i.given, nil
	}
	return project.ReadFile(i.path)
}

// folder is where the design's own folder lies below the folder of all.
func (i item) folder() string { return filepath.Join(i.subfolder, i.name) }

// designs lists what the operands name: files, standard input, and of folders the
// design files that lie in them and in the folders in them, in the order of their
// names. Hidden files and folders are left out, and so is the folder except, where
// what is made goes. Links to folders are not followed, so that a loop of them can't
// hold the walk. What is named twice is taken once. folder is true if any operand is
// one.
func designs(operands []string, in io.Reader, except string) (items []item, folder bool) {
	operands = expanded(operands)
	for k, o := range operands {
		stat, err := os.Stat(o)
		switch {
		case o == fromInput:
			if !slices.Contains(operands[:k], o) {
				items = append(items, itemFrom(in))
			}
		case err != nil || !stat.IsDir():
			items = append(items, itemOf(o, "")) // what can't be read is reported when it is read
		default:
			folder = true
			found := designsIn(o, "", except)
			if found == nil {
				found = []item{{path: o, err: fmt.Errorf("%s: holds no design file, *%s or *.json", o, project.Suffix)}}
			}
			items = append(items, found...)
		}
	}
	var once []item
	for _, i := range items {
		if !slices.ContainsFunc(once, func(j item) bool { return i.same(j.path) }) {
			once = append(once, i)
		}
	}
	return once, folder
}

// expanded returns the operands with the files in place of those that are patterns, such as
// *.fretband: some shells leave that to the program. A name that is there is no pattern.
func expanded(operands []string) []string {
	var all []string
	for _, o := range operands {
		if _, err := os.Stat(o); err != nil && strings.ContainsAny(o, "*?[") {
			if found, err := filepath.Glob(o); err == nil && len(found) > 0 {
				all = append(all, found...)
				continue
			}
		}
		all = append(all, o)
	}
	return all
}

func itemOf(path, subfolder string) item {
	base := filepath.Base(path)
	return item{path: path, subfolder: subfolder, name: strings.TrimSuffix(base, filepath.Ext(base))}
}

func itemFrom(in io.Reader) item {
	d, err := project.Read(in)
	if err != nil {
		return item{path: fromInput, err: fmt.Errorf("%s: %w", item{path: fromInput}, err)}
	}
	return item{path: fromInput, name: handover.FileName(d.Name), given: &d}
}

// same reports whether the design comes from that file; standard input is none.
func (i item) same(path string) bool {
	return i.path != fromInput && path != fromInput && samePath(i.path, path)
}

// designsIn lists the design files that lie in a folder and in the folders in it, to
// be made in the folder place.
func designsIn(folder, subfolder, except string) []item {
	entries, err := os.ReadDir(folder) // in the order of their names
	if err != nil {
		return []item{{path: folder, err: err}}
	}
	var items []item
	for _, e := range entries {
		path := filepath.Join(folder, e.Name())
		switch {
		case strings.HasPrefix(e.Name(), "."):
		case e.IsDir():
			if except == "" || !samePath(path, except) {
				items = append(items, designsIn(path, filepath.Join(subfolder, e.Name()), except)...)
			}
		case project.IsFile(e.Name()) && canBeFile(e, path):
			items = append(items, itemOf(path, subfolder))
		}
	}
	return items
}

// canBeFile reports whether an entry of a folder is a file or a link to one. A link
// that leads nowhere counts as one, to be reported when it is read.
func canBeFile(e fs.DirEntry, path string) bool {
	if e.Type()&fs.ModeSymlink == 0 {
		return e.Type().IsRegular()
	}
	to, err := os.Stat(path)
	return err != nil || to.Mode().IsRegular()
}

// toldApart says which two designs would be made in one folder, if any. Folders that
// differ in capitals only are one on some computers.
func toldApart(items []item) error {
	first := map[string]string{}
	for _, i := range items {
		if i.err != nil {
			continue
		}
		key := strings.ToLower(i.folder())
		if other, taken := first[key]; taken {
			return fmt.Errorf("make: %s and %s would both be made in the folder %s: rename one of them, or make them apart; nothing is written", other, i, i.folder())
		}
		first[key] = i.String()
	}
	return nil
}

// samePath reports whether two paths name one place, as far as their words go.
func samePath(a, b string) bool {
	a, err1 := filepath.Abs(a)
	b, err2 := filepath.Abs(b)
	return errors.Join(err1, err2) == nil && a == b
}

// itemGiven is the design that an operand names: a file, or the one on standard input.
func itemGiven(operand string, in io.Reader) item {
	if operand == fromInput {
		return itemFrom(in)
	}
	return itemOf(operand, "")
}
