package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

const designSuffix = ".json"

// item is one design that is asked for, or why there is none to be had.
type item struct {
	path string
	name string // of its file, without the suffix
	err  error
}

// designs lists what the operands name: files, and of folders the design files that
// lie in them, in the order of their names. Hidden files are left out, folders in
// folders are not entered, and what is named twice is taken once. folder is true if
// any operand is one.
func designs(operands []string) (items []item, folder bool) {
	for _, o := range operands {
		if stat, err := os.Stat(o); err != nil || !stat.IsDir() {
			items = append(items, itemOf(o)) // what can't be read is told when it is read
			continue
		}
		folder = true
		items = append(items, designsIn(o)...)
	}
	var once []item
	for _, i := range items {
		if !slices.ContainsFunc(once, func(j item) bool { return samePath(i.path, j.path) }) {
			once = append(once, i)
		}
	}
	return once, folder
}

func itemOf(path string) item {
	base := filepath.Base(path)
	return item{path: path, name: strings.TrimSuffix(base, filepath.Ext(base))}
}

// designsIn lists the design files that lie in a folder.
func designsIn(folder string) []item {
	entries, err := os.ReadDir(folder) // in the order of their names
	if err != nil {
		return []item{{path: folder, err: err}}
	}
	var items []item
	for _, e := range entries {
		if e.IsDir() || strings.HasPrefix(e.Name(), ".") || !strings.EqualFold(filepath.Ext(e.Name()), designSuffix) {
			continue
		}
		items = append(items, itemOf(filepath.Join(folder, e.Name())))
	}
	if items == nil {
		return []item{{path: folder, err: fmt.Errorf("%s: holds no design file, *%s", folder, designSuffix)}}
	}
	return items
}

// toldApart says which two designs would be made in one folder, if any. Folders that
// differ in capitals only are one on some computers.
func toldApart(items []item) error {
	first := map[string]string{}
	for _, i := range items {
		if i.err != nil {
			continue
		}
		key := strings.ToLower(i.name)
		if other, taken := first[key]; taken {
			return fmt.Errorf("make: %s and %s would both be made in the folder %s: rename one of them, or make them apart; nothing is written", other, i.path, i.name)
		}
		first[key] = i.path
	}
	return nil
}

// samePath reports whether two paths name one place, as far as their words go.
func samePath(a, b string) bool {
	a, err1 := filepath.Abs(a)
	b, err2 := filepath.Abs(b)
	return errors.Join(err1, err2) == nil && a == b
}
