package export

import (
	"cmp"
	"crypto/sha256"
	"fmt"
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

// TagRoom is short enough for a line of DXF of release 12 (255 letters). A name of 80
// bytes, the longest there is, may need more if every letter of it has to be escaped.
const TagRoom = 250

// TagOf returns what a file says of the design that it is made of, at most room letters
// of it, of which the numbers take 27.
func TagOf(d pattern.Design, room int) string {
	name := Plain(d.Name)
	if !d.Named() {
		name = "" // its number says so
	}
	tag := tagBegin + cmp.Or(ContentNumber(d), noContent) + ":" + nameNumber(d.Name) + ":" + url.QueryEscape(name)
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
	sum := sha256.Sum256([]byte(Plain(name)))
	return fmt.Sprintf("%X", sum[:4])
}

// Tag is what a file says of the design that it is made of.
type Tag struct {
	Content    string // number of the design's content
	nameNumber string
	name       string // as far as there was room for it
}

// ReadTag reads the tag of a file that is not packed, and reports whether it has one.
func ReadTag(data []byte) (Tag, bool) {
	m := tagForm.FindSubmatch(data)
	if m == nil {
		return Tag{}, false
	}
	name, err := url.QueryUnescape(string(m[3]))
	if err != nil {
		return Tag{}, false
	}
	return Tag{string(m[1]), string(m[2]), strings.ToValidUTF8(name, "")}, true
}

// Of reports whether the file is made of the design d: as it is now, as it was at one of
// the earlier content numbers, or under the same name, which a design keeps while it is
// worked on. An untitled one is known by its content alone: any two of them have one name.
func (t Tag) Of(d pattern.Design, earlier []string) bool {
	if t.Content != noContent && (t.Content == ContentNumber(d) || slices.Contains(earlier, t.Content)) {
		return true
	}
	return Plain(d.Name) != pattern.Untitled && t.nameNumber == nameNumber(d.Name)
}

// Called is the design's name, with dots where the file had no room for all of it.
func (t Tag) Called() string {
	if t.name == "" && t.nameNumber == nameNumber(pattern.Untitled) {
		return pattern.Untitled
	}
	if nameNumber(t.name) != t.nameNumber {
		return t.name + "..."
	}
	return t.name
}
