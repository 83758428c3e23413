// Package testdata holds the designs that the program brings along. The scenario
// is invented: a small workshop at a harbour and its first commissions.
package testdata

import "embed"

//go:embed gallery/*.json
var gallery embed.FS

// Entry is a design file of the gallery.
type Entry struct {
	Name string
	JSON []byte
}

// Gallery returns the designs in the order in which a person reads them.
func Gallery() []Entry {
	var list []Entry
	for _, name := range []string{"harbour-cuff", "tide-bangle", "mooring-ring", "lighthouse-cuff", "buoy-bangle", "keel-cuff"} {
		b, err := gallery.ReadFile("gallery/" + name + ".json")
		if err != nil {
			panic(err) // it was there when the program was built
		}
		list = append(list, Entry{name, b})
	}
	return list
}
