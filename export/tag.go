package export

import (
	"archive/zip"
	"bufio"
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"fretband/pattern"
)

// Every file says of which design it is made, in one form that all formats can hold:
// the design's content number, a number of its name, and as much of the name as there is
// room for, escaped as in the address of a page so that no format has to escape it again.
const tagBegin = "fretband:"

var tagForm = regexp.MustCompile(tagBegin + `([0-9A-F]{8}):([0-9A-F]{8}):([A-Za-z0-9._~%+-]*)`)

// noContent stands for the content number of a design that can't be saved.
const noContent = "00000000"

// tagRoom is short enough for a line of DXF of release 12 (255 letters). A name of 80
// bytes, the longest there is, may need more if every letter of it has to be escaped.
const tagRoom = 250

// tagOf returns what a file says of the design that it is made of, at most room letters
// of it, of which the numbers take 27.
func tagOf(d pattern.Design, room int) string {
	content := ContentNumber(d)
	if content == "" {
		content = noContent
	}
	tag := tagBegin + content + ":" + nameNumber(d.Name) + ":" + url.QueryEscape(plain(d.Name))
	if len(tag) > room {
		tag = tag[:room]
		for i := 1; i <= 2; i++ { // no half of an escaped letter
			if tag[len(tag)-i] == '%' {
				tag = tag[:len(tag)-i]
				break
			}
		}
	}
	return tag
}

// nameNumber is the first eight digits of the SHA-256 (FIPS 180-4) of a design's name.
func nameNumber(name string) string {
	sum := sha256.Sum256([]byte(plain(name)))
	return fmt.Sprintf("%X", sum[:4])
}

// tag is what a file says of the design that it is made of.
type tag struct {
	content, nameNumber string
	name                string // as far as there was room for it
}

// readTag reads a file's tag and reports whether it has one.
func readTag(data []byte) (tag, bool) {
	if m := tagForm.FindSubmatch(data); m != nil {
		name, err := url.QueryUnescape(string(m[3]))
		if err != nil {
			return tag{}, false
		}
		return tag{string(m[1]), string(m[2]), strings.ToValidUTF8(name, "")}, true
	}
	// The parts of a 3MF are packed.
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return tag{}, false
	}
	for _, f := range z.File {
		if f.Name != model3MFName {
			continue
		}
		part, err := f.Open()
		if err != nil {
			return tag{}, false
		}
		defer part.Close()
		head, _ := io.ReadAll(io.LimitReader(part, 1<<20))
		if bytes.Contains(head, []byte(tagBegin)) {
			return readTag(head)
		}
	}
	return tag{}, false
}

// of reports whether the file is made of the design d: as it is now, as it was at one of
// the earlier content numbers, or under the same name, which a design keeps while it is
// worked on. An untitled one is known by its content alone: any two of them have one name.
func (t tag) of(d pattern.Design, earlier []string) bool {
	if t.content != noContent && (t.content == ContentNumber(d) || slices.Contains(earlier, t.content)) {
		return true
	}
	return plain(d.Name) != pattern.Untitled && t.nameNumber == nameNumber(d.Name)
}

// called is the design's name, with dots where the file had no room for all of it.
func (t tag) called() string {
	if nameNumber(t.name) != t.nameNumber {
		return t.name + "..."
	}
	return t.name
}

// Stranger is a file that stands where one of a set has to go and is not made of the
// set's design.
type Stranger struct {
	File    string // without its folder
	Name    string // of the design that it is made of
	Content string // that design's content number; empty if the file tells of no design
}

func (s Stranger) String() string {
	if s.Content == "" {
		return s.File + " is of no known design"
	}
	return fmt.Sprintf("%s is of %q, content number %s", s.File, s.Name, s.Content)
}

// StrangersError says that a set would replace files that are not of its design. Nothing
// has been written. [Options.Replace] replaces them.
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
func strangers(dir, part string, formats []Format, d pattern.Design, o Options) error {
	if o.Replace {
		return nil
	}
	e := &StrangersError{Dir: dir}
	for _, f := range formats {
		name := part + f.Suffix
		path := filepath.Join(dir, name)
		st, err := os.Stat(path)
		if err != nil || !st.Mode().IsRegular() {
			continue // nothing there that could be lost; what can't be replaced is told when it is tried
		}
		t, told, err := tagIn(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case !told:
			e.Files = append(e.Files, Stranger{File: name})
		case !t.of(d, o.Earlier):
			e.Files = append(e.Files, Stranger{name, t.called(), t.content})
		}
	}
	if e.Files == nil {
		return nil
	}
	return e
}

func tagIn(path string) (tag, bool, error) {
	f, err := os.Open(path)
	if err != nil {
		return tag{}, false, err
	}
	defer f.Close()
	// Most formats tell at their beginning.
	b := bufio.NewReaderSize(f, 1<<16)
	if head, _ := b.Peek(b.Size()); tagForm.Match(head) {
		t, ok := readTag(head)
		return t, ok, nil
	}
	data, err := io.ReadAll(io.LimitReader(b, largestTagged))
	if err != nil {
		return tag{}, false, err
	}
	t, ok := readTag(data)
	return t, ok, nil
}
