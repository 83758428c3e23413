package project

import (
	"errors"
	"strings"

	"fretband/pattern"
	"fretband/unroll"
)

// designOne is a design as version 1 of the format had it: one field, which held
// the rules as well.
type designOne struct {
	Name     string            `json:"name"`
	Note     string            `json:"note,omitempty"`
	Band     unroll.Band       `json:"band"`
	Metal    pattern.Metal     `json:"metal"`
	Field    fieldOne          `json:"field"`
	Reserves []pattern.Reserve `json:"reserves,omitempty"`
}

type fieldOne struct {
	Motif      string             `json:"motif"`
	Rows       int                `json:"rows"`
	Repeats    int                `json:"repeats"`
	Stagger    float64            `json:"stagger"`
	BridgeMM   float64            `json:"bridge_mm"`
	RimMM      float64            `json:"rim_mm"`
	CornerMM   float64            `json:"corner_mm"`
	SmallestMM float64            `json:"smallest_mm"`
	Follow     string             `json:"follow,omitempty"`
	Numbers    map[string]float64 `json:"numbers,omitempty"`
}

// readOne reads a file of version 1. What is wrong is named as that version names
// it.
func readOne(n node) (pattern.Design, error) {
	var o designOne
	if err := fillAll(n, &o); err != nil {
		return pattern.Design{}, err
	}
	f := o.Field
	d := pattern.Design{
		Name: o.Name, Note: o.Note, Band: o.Band, Metal: o.Metal, Reserves: o.Reserves,
		Rules:  pattern.DesignRules{BridgeMM: f.BridgeMM, RimMM: f.RimMM, CornerMM: f.CornerMM, SmallestMM: f.SmallestMM},
		Fields: []pattern.Field{{Motif: f.Motif, Rows: f.Rows, Repeats: f.Repeats, Stagger: f.Stagger, Follow: f.Follow, Numbers: f.Numbers}},
	}
	err := d.Check()
	var fault *unroll.FieldError
	if errors.As(err, &fault) {
		path := strings.Replace(fault.Path, "fields[0].", "field.", 1)
		if rest, ok := strings.CutPrefix(path, "rules."); ok {
			path = "field." + rest
		}
		return pattern.Design{}, &unroll.FieldError{Path: path, Msg: fault.Msg}
	}
	if err != nil {
		return pattern.Design{}, err
	}
	return d, nil
}
