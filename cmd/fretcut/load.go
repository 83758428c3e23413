package main

import (
	"context"
	"fmt"

	"fretband/pattern"
	"fretband/pattern/check"
)

// loader reads and lays out a design.
type loader func(item) (*pattern.Sheet, *check.Report, error)

// loadSolved is load, with the band's strength by a coarse mesh.
func loadSolved(i item) (*pattern.Sheet, *check.Report, error) {
	s, r, err := load(i)
	if err != nil {
		return nil, nil, err
	}
	return s, check.Strengthen(context.Background(), s, r, check.Unasked()), nil
}

// load reads and lays out a design.
func load(i item) (*pattern.Sheet, *check.Report, error) {
	d, err := i.read()
	if err != nil {
		return nil, nil, err
	}
	s, r, err := check.Lay(d)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", i, err)
	}
	return s, check.Deepen(s, r), nil
}

func verdict(r *check.Report) int {
	if r.Breached() {
		return breach
	}
	return fine
}
