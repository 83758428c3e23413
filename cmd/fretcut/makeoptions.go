package main

import (
	"errors"
	"flag"
	"strconv"
	"strings"

	"fretband/export"
)

// optionFlags adds the flags that say how the files are to be used.
func optionFlags(fs *flag.FlagSet, o *export.Options) {
	for _, a := range export.Asks() {
		switch {
		case a.Sides: // both are one flag
		case a.Number != nil:
			fs.Float64Var(a.Number(o), a.Key, 0, "")
		case a.Whole != nil:
			fs.IntVar(a.Whole(o), a.Key, 0, "")
		default:
			fs.StringVar(a.Text(o), a.Key, a.Usual, "")
		}
	}
	fs.Func("solid", "", func(keys string) error {
		o.Solids = strings.Split(keys, ",")
		return nil
	})
	fs.Func("sheet", "", func(size string) (err error) {
		o.StockW, o.StockH, err = twoSides(size)
		return err
	})
}

// twoSides reads "200x100".
func twoSides(size string) (w, h float64, err error) {
	a, b, ok := strings.Cut(strings.ToLower(size), "x")
	w, err1 := strconv.ParseFloat(strings.TrimSpace(a), 64)
	h, err2 := strconv.ParseFloat(strings.TrimSpace(b), 64)
	if !ok || err1 != nil || err2 != nil || !(w > 0) || !(h > 0) {
		return 0, 0, errors.New("must be width x height in mm, such as 200x100")
	}
	return w, h, nil
}
