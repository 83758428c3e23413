package main

import (
	"fmt"

	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
)

// load reads and lays out the design at path.
func load(path string) (*pattern.Sheet, *check.Report, error) {
	d, err := project.ReadFile(path)
	if err != nil {
		return nil, nil, err
	}
	s, err := pattern.Lay(d)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", path, err)
	}
	return s, check.All(s), nil
}

func verdict(r *check.Report) int {
	if r.Breached() {
		return breach
	}
	return fine
}
