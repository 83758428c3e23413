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
	fs.StringVar(&o.Paper, "paper", export.A4, "")
	fs.StringVar(&o.Process, "process", "", "")
	fs.StringVar(&o.Date, "date", "", "")
	fs.StringVar(&o.Curves, "curves", "", "")
	fs.IntVar(&o.Copies, "copies", 0, "")
	fs.IntVar(&o.Tabs, "tabs", 0, "")
	for _, length := range []struct {
		name string
		mm   *float64
	}{
		{"kerf", &o.KerfMM}, {"chord", &o.ChordMM}, {"lead", &o.LeadMM}, {"tab-width", &o.TabMM},
		{"gap", &o.GapMM}, {"margin", &o.MarginMM},
	} {
		fs.Float64Var(length.mm, length.name, 0, "")
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
