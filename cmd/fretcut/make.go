package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
)

// makeFiles writes the hand-over files of a design.
func makeFiles(args []string, out io.Writer) (int, error) {
	fs := flag.NewFlagSet("make", flag.ContinueOnError)
	dir := fs.String("out", "", "")
	to := fs.String("for", "", "")
	var o export.Options
	optionFlags(fs, &o)
	rest, err := parse(fs, args, 1)
	if err != nil {
		return refused, err
	}
	if *dir == "" {
		return refused, errors.New("make: say where with -out DIR")
	}
	if len(rest) == 0 {
		return refused, errors.New("make: name a design file; fretcut gallery lists built-in ones")
	}
	if err := o.Check(); err != nil {
		return refused, fmt.Errorf("make: %w", err)
	}
	s, r, err := load(rest[0])
	if err != nil {
		return refused, err
	}
	name := strings.TrimSuffix(filepath.Base(rest[0]), filepath.Ext(rest[0]))
	write := export.WriteAll
	if *to != "" {
		receiver, ok := export.ReceiverByKey(*to)
		if !ok {
			var keys []string
			for _, v := range export.Receivers() {
				keys = append(keys, v.Key)
			}
			return refused, fmt.Errorf("make: -for %q: must be one of %s", *to, strings.Join(keys, ", "))
		}
		write = func(dir, name string, s *pattern.Sheet, r *check.Report, o export.Options) ([]string, error) {
			return export.HandOver(dir, name, s, r, o, receiver)
		}
	}
	files, err := write(*dir, name, s, r, o)
	if errors.Is(err, export.ErrPieces) {
		return breach, err
	}
	if err != nil {
		return refused, err
	}
	for _, f := range files {
		fmt.Fprintln(out, f)
	}
	for _, f := range r.Findings {
		switch {
		case f.Open():
			fmt.Fprintf(out, "%s: %s %s\n", f.Severity, f.What, f.Mend)
		case f.Accepted != "":
			fmt.Fprintf(out, "%s, let stand: %s Reason: %s\n", f.Severity, f.What, f.Accepted)
		}
	}
	return verdict(r), nil
}
