package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"

	"fretband/export"
)

// report tells what designs weigh and what to know of them: as text one after the
// other; for programs the report of a design, or a list of those of several or of a
// folder, in which null stands for one that can't be read.
func report(args []string, in io.Reader, out, errs io.Writer) (int, error) {
	fs := flag.NewFlagSet("report", flag.ContinueOnError)
	asJSON := fs.Bool("json", false, "")
	rest, err := parse(fs, args, anyNumber)
	if err != nil {
		return refused, err
	}
	if len(rest) == 0 {
		return refused, errors.New("report: name a design file; fretcut gallery lists built-in ones")
	}
	write := export.ReportText
	if *asJSON {
		write = export.ReportJSON
	}
	type outcome struct {
		text bytes.Buffer
		err  error
		exit int
	}
	items, folder := designs(rest, in, "")
	list := *asJSON && (folder || len(items) > 1)
	code, told, reports := fine, 0, []json.RawMessage{}
	inOrder(items, func(i item) *outcome {
		s, r, err := load(i)
		if err != nil {
			return &outcome{err: err, exit: refused}
		}
		t := &outcome{exit: verdict(r)}
		t.err = write(&t.text, s, r)
		return t
	}, func(t *outcome) {
		code = max(code, t.exit)
		switch {
		case t.err != nil:
			sayError(errs, t.err)
			reports = append(reports, json.RawMessage("null"))
		case list:
			reports = append(reports, t.text.Bytes())
		default:
			if told > 0 {
				fmt.Fprintln(out)
			}
			told++
			out.Write(t.text.Bytes())
		}
	})
	if !list {
		return code, nil
	}
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return code, e.Encode(reports)
}
