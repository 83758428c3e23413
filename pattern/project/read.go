package project

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/pattern/motif"
)

// Version is the newest version of the format, which is written where an older one
// can't hold the design, and the newest one that is read.
const Version = 5

// Suffix is what the name of a design file ends in. Before there was one of its own they
// ended in .json; both are read.
const Suffix = ".fretband"

var suffixes = []string{Suffix, ".json"}

// IsFile reports whether a file is a design file by its name.
func IsFile(name string) bool {
	return slices.Contains(suffixes, strings.ToLower(filepath.Ext(name)))
}

// NameOf returns the name of a design file without its folder and suffix.
func NameOf(path string) string {
	base := filepath.Base(path)
	if IsFile(base) {
		return strings.TrimSuffix(base, filepath.Ext(base))
	}
	return base
}

// MaxBytes is the size of the largest file that is read. A design with all the
// reserves it may have takes some tens of kilobytes.
const MaxBytes = 4 << 20

// ReadFile reads the design file at path.
func ReadFile(path string) (pattern.Design, error) {
	file, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return pattern.Design{}, fmt.Errorf("%s: check its name and folder: %w", path, fs.ErrNotExist)
	}
	if err != nil {
		return pattern.Design{}, err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return pattern.Design{}, err
	}
	if info.IsDir() {
		return pattern.Design{}, fmt.Errorf("%s: is a folder; name a design file in it", path)
	}
	if info.Mode().IsRegular() && info.Size() > MaxBytes {
		return pattern.Design{}, fmt.Errorf("%s: %w", path, tooLarge(info.Size()))
	}
	d, err := Read(file)
	if err != nil {
		return pattern.Design{}, fmt.Errorf("%s: %w", path, err)
	}
	return d, nil
}

// Read reads one design. The design it returns has passed
// [pattern.Design.Check]. Its error is one line, names the field or the line of
// the file, and says what may be there; several faults are in it one after
// the other. It reads at most a little over [MaxBytes] and never panics.
func Read(r io.Reader) (pattern.Design, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return pattern.Design{}, err
	}
	if len(data) > MaxBytes {
		return pattern.Design{}, tooLarge(0)
	}
	n, err := parse(data)
	if err != nil {
		return pattern.Design{}, err
	}
	if n.kind != groupKind {
		return pattern.Design{}, fmt.Errorf("the file must hold a group in braces {}; it holds %s", n)
	}
	n, v, err := version(n)
	if err != nil {
		return pattern.Design{}, err
	}
	var d pattern.Design
	switch v {
	case 1:
		d, err = readOne(n)
	case 2:
		d, err = readTwo(n)
	default:
		d, err = readDesign(n)
	}
	if v < 4 {
		mirrorOwn(&d)
	}
	return d, err
}

// mirrorOwn has shapes of the user's own be mirrored on a cuff's left half, as they all were
// before version 4.
func mirrorOwn(d *pattern.Design) {
	for i := range d.Fields {
		if f := &d.Fields[i]; f.Motif == motif.OwnKey {
			f.LeftHalf = pattern.LeftMirrored
		}
	}
	for i := range d.Variants {
		mirrorOwn(&d.Variants[i])
	}
}

// readDesign reads a design of the newest version.
func readDesign(n node) (pattern.Design, error) {
	var d pattern.Design
	if err := fillAll(n, &d); err != nil {
		return pattern.Design{}, err
	}
	if err := d.Check(); err != nil {
		return pattern.Design{}, err
	}
	return d, nil
}

// fillAll sets the fields of the structure that into points at.
func fillAll(n node, into any) error {
	var f filler
	f.fill("", n, reflect.ValueOf(into).Elem())
	if len(f.problems) > 0 {
		return &faults{f.problems}
	}
	return nil
}

// version checks the file's version and returns the rest of the file and it.
func version(n node) (node, int, error) {
	var rest []member
	var found *member
	for i, m := range n.members {
		if m.key != "fretband" {
			rest = append(rest, m)
			continue
		}
		if found != nil {
			return n, 0, fmt.Errorf("fretband: is given twice, in line %d and line %d; remove one", found.line, m.line)
		}
		found = &n.members[i]
	}
	if found == nil {
		return n, 0, fmt.Errorf("fretband: is missing; a design file starts with {\"fretband\": %d (is this another kind of file?)", Version)
	}
	var f filler
	var v int
	f.fill("fretband", found.node, reflect.ValueOf(&v).Elem())
	switch {
	case len(f.problems) > 0:
		return n, 0, f.problems[0]
	case v > Version:
		return n, 0, fmt.Errorf("fretband: made by a newer Fretband: version %d; this one reads %d", v, Version)
	case v < 1:
		return n, 0, fmt.Errorf("fretband: must be 1 to %d; it is %d", Version, v)
	}
	n.members = rest
	return n, v, nil
}

func tooLarge(size int64) error {
	const mb = 1 << 20
	if size > 0 {
		return fmt.Errorf("the file has %.0f MB; a design has at most %d MB (is this another kind of file?)", float64(size)/mb, MaxBytes/mb)
	}
	return fmt.Errorf("the file has more than %d MB; a design has at most that (is this another kind of file?)", MaxBytes/mb)
}

// faults are all that stand in the way of reading a file.
type faults struct{ list []error }

// mostTold is how many of them are reported at once.
const mostTold = 4

func (f *faults) Error() string {
	var told []string
	for i, e := range f.list {
		if i == mostTold {
			told = append(told, fmt.Sprintf("and %d more", len(f.list)-i))
			break
		}
		told = append(told, e.Error())
	}
	return strings.Join(told, "; ")
}

func (f *faults) Unwrap() []error { return f.list }
