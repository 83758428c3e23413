package export

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"fmt"
	"io"
	"net/url"
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
