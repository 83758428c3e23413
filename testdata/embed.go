// Package testdata holds the designs that the program brings along. The scenario
// is invented: a small workshop at a harbour and its first commissions. And it
// holds a band of each form, for the tests of all rooms.
package testdata

import (
	"embed"
	"strings"
)

//go:embed gallery/*.json
var gallery embed.FS

//go:embed forms/*.json
var forms embed.FS

// Entry is a design file.
type Entry struct {
	Name string
	JSON []byte
}

// Gallery returns the designs in the order in which a person reads them.
func Gallery() []Entry {
	var list []Entry
	for _, name := range []string{"harbour-cuff", "tide-bangle", "mooring-ring", "lighthouse-cuff", "buoy-bangle", "keel-cuff", "beacon-bangle"} {
		b, err := gallery.ReadFile("gallery/" + name + ".json")
		if err != nil {
			panic(err) // it was there when the program was built
		}
		list = append(list, Entry{name, b})
	}
	return list
}

// Forms returns a design with a band of each form, for tests.
func Forms() []Entry {
	files, err := forms.ReadDir("forms")
	if err != nil {
		panic(err)
	}
	var list []Entry
	for _, f := range files {
		b, err := forms.ReadFile("forms/" + f.Name())
		if err != nil {
			panic(err)
		}
		list = append(list, Entry{strings.TrimSuffix(f.Name(), ".json"), b})
	}
	return list
}

//go:embed faults/*.json
var faults embed.FS

// Faults returns hand-made designs, each with one known fault, and each as NAME-mended
// without it, for the tests of the checks.
func Faults() []Entry {
	files, err := faults.ReadDir("faults")
	if err != nil {
		panic(err)
	}
	var list []Entry
	for _, f := range files {
		b, err := faults.ReadFile("faults/" + f.Name())
		if err != nil {
			panic(err)
		}
		list = append(list, Entry{strings.TrimSuffix(f.Name(), ".json"), b})
	}
	return list
}

//go:embed strength/*.json
var strength embed.FS

// Strength returns invented cuffs whose stiffness is known from finite elements of
// another program, for the tests of strength.
func Strength() map[string][]byte {
	files, err := strength.ReadDir("strength")
	if err != nil {
		panic(err)
	}
	list := map[string][]byte{}
	for _, f := range files {
		b, err := strength.ReadFile("strength/" + f.Name())
		if err != nil {
			panic(err)
		}
		list[strings.TrimSuffix(f.Name(), ".json")] = b
	}
	return list
}
