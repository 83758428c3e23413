package handover

import (
	"archive/zip"
	"bufio"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"fretband/export"
	"fretband/export/solid"
	"fretband/pattern"
)

// Stranger is a file in the place of one of a set that is not made of the
// set's design.
type Stranger struct {
	File    string // without its folder
	Name    string // of the design that it is made of
	Content string // that design's content number; empty if the file names no design
}

func (s Stranger) String() string {
	if s.Content == "" {
		return s.File + " is of no known design"
	}
	return fmt.Sprintf("%s is of %q, content number %s", s.File, s.Name, s.Content)
}

// StrangersError says that a set would replace files that are not of its design. Nothing
// has been written. [export.Options.Replace] replaces them.
type StrangersError struct {
	Dir   string
	Files []Stranger
}

func (e *StrangersError) Error() string {
	var told []string
	for _, f := range e.Files {
		told = append(told, f.String())
	}
	return fmt.Sprintf("%s: files of the same name are there that are not of this design (%s), so nothing is written: choose another folder or name",
		e.Dir, strings.Join(told, "; "))
}

// largestTagged is the largest file that is searched for a tag; the largest solid that a
// design can have is far smaller.
const largestTagged = 256 << 20

// strangers returns a [StrangersError] if files that a set would replace are not made of
// the design d, unless the options say that they may be.
func strangers(dir, part string, formats []Format, d pattern.Design, o export.Options) error {
	if o.Replace {
		return nil
	}
	d.Name = cmp.Or(o.Was, d.Name)
	e := &StrangersError{Dir: dir}
	for _, f := range formats {
		name := part + f.Suffix
		path := filepath.Join(dir, name)
		st, err := os.Stat(path)
		if err != nil || !st.Mode().IsRegular() {
			continue // nothing there that could be lost; what can't be replaced is reported when it is tried
		}
		t, told, err := tagIn(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case !told:
			e.Files = append(e.Files, Stranger{File: name})
		case !t.Of(d, o.Earlier):
			e.Files = append(e.Files, Stranger{name, t.Called(), t.Content})
		}
	}
	if e.Files == nil {
		return nil
	}
	return e
}

func tagIn(path string) (export.Tag, bool, error) {
	f, err := os.Open(path)
	if err != nil {
		return export.Tag{}, false, err
	}
	defer f.Close()
	// Most formats tell at their beginning.
	b := bufio.NewReaderSize(f, 1<<16)
	head, _ := b.Peek(b.Size())
	if t, ok := export.ReadTag(head); ok {
		return t, true, nil
	}
	data, err := io.ReadAll(io.LimitReader(b, largestTagged))
	if err != nil {
		return export.Tag{}, false, err
	}
	t, ok := packedTag(data)
	return t, ok, nil
}

// packedTag reads a file's tag, also that of a 3MF, whose parts are packed.
func packedTag(data []byte) (export.Tag, bool) {
	if t, ok := export.ReadTag(data); ok {
		return t, true
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return export.Tag{}, false
	}
	part, err := z.Open(solid.ModelPart)
	if err != nil {
		return export.Tag{}, false
	}
	defer part.Close()
	head, _ := io.ReadAll(io.LimitReader(part, 1<<20))
	return export.ReadTag(head)
}
