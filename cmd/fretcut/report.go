package main

import (
	"errors"
	"flag"
	"io"

	"fretband/export"
)

// report tells what one design weighs and what to know of it.
func report(args []string, out io.Writer) (int, error) {
	fs := flag.NewFlagSet("report", flag.ContinueOnError)
	asJSON := fs.Bool("json", false, "")
	rest, err := parse(fs, args, 1)
	if err != nil {
		return refused, err
	}
	if len(rest) == 0 {
		return refused, errors.New("report: name a design file; fretcut gallery lists built-in ones")
	}
	s, r, err := load(rest[0])
	if err != nil {
		return refused, err
	}
	write := export.ReportText
	if *asJSON {
		write = export.ReportJSON
	}
	return verdict(r), write(out, s, r)
}
