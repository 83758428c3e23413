package project

import (
	"bytes"
	"fmt"
	"strings"

	"fretband/pattern"
	"fretband/testdata"
	"fretband/unroll"
)

// Gallery returns the names of the built-in designs, in the order in which a
// person reads them.
func Gallery() []string {
	var names []string
	for _, e := range testdata.Gallery() {
		names = append(names, e.Name)
	}
	return names
}

// GalleryDesign returns the built-in design of that name.
func GalleryDesign(name string) (pattern.Design, error) {
	for _, e := range testdata.Gallery() {
		if e.Name == name {
			return Read(bytes.NewReader(e.JSON))
		}
	}
	return pattern.Design{}, fmt.Errorf("%s is not in the gallery; it holds %s", unroll.Quote(name), strings.Join(Gallery(), ", "))
}
