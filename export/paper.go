package export

import (
	"strings"

	"fretband/pattern"
)

// Paper is a sheet of paper, upright, mm.
type Paper struct {
	Name, Title string
	W, H        float64
}

var papers = []Paper{
	{A4, "A4", 210, 297},
	{Letter, "Letter", 215.9, 279.4},
	{A3, "A3", 297, 420},
	{Legal, "Legal", 215.9, 355.6},
	{Tabloid, "Tabloid", 279.4, 431.8},
}

// Papers lists the names that [Options.Paper] takes.
func Papers() []string {
	var names []string
	for _, p := range papers {
		names = append(names, p.Name)
	}
	return names
}

func paperOptions() []pattern.Option {
	var os []pattern.Option
	for _, p := range papers {
		os = append(os, pattern.Option{Key: p.Name, Title: p.Title})
	}
	return os
}

// SheetOf returns the sheet of that name and whether there is one; none named is A4.
func SheetOf(name string) (Paper, bool) {
	if name == "" {
		return papers[0], true
	}
	for _, p := range papers {
		if strings.EqualFold(name, p.Name) {
			return p, true
		}
	}
	return Paper{}, false
}
