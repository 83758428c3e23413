package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"

	"fretband/export/report"
	"fretband/pattern"
	"fretband/pattern/check"
)

// reportOn prints what designs weigh and what to know of them: as text one after the
// other; for programs the report of a design, or a list of those of several or of a
// folder, in which null stands for one that can't be read.
func reportOn(args []string, in io.Reader, out, errs io.Writer) (int, error) {
	fs := flag.NewFlagSet("report", flag.ContinueOnError)
	asJSON, inFull := fs.Bool("json", false, ""), fs.Bool("full", false, "")
	rest, err := parse(fs, args, anyNumber)
	if err != nil {
		return refused, err
	}
	if len(rest) == 0 {
		return refused, errors.New("report: name a design file; fretcut gallery lists built-in ones")
	}
	write := report.Text
	switch {
	case *asJSON:
		write = report.JSON
	case *inFull:
		write = report.TextInFull
	}
	items, folder := designs(rest, in, "")
	list := *asJSON && (folder || len(items) > 1)
	code, shown, reports := fine, 0, []json.RawMessage{}
	inOrder(items, func(i item) told { return tellOf(i, loadSolved, write) }, func(t told) {
		code = max(code, t.exit)
		switch {
		case t.err != nil:
			sayError(errs, t.err)
			reports = append(reports, json.RawMessage("null"))
		case list:
			reports = append(reports, t.text)
		default:
			if shown > 0 {
				fmt.Fprintln(out)
			}
			shown++
			out.Write(t.text)
		}
	})
	if !list {
		return code, nil
	}
	return code, report.WriteJSON(out, reports)
}

// told is the report of one design, or why there is none.
type told struct {
	text []byte
	err  error
	exit int
}

func tellOf(i item, load loader, write func(io.Writer, *pattern.Sheet, *check.Report) error) told {
	s, r, err := load(i)
	if err != nil {
		return told{err: err, exit: exitOf(err)}
	}
	var text bytes.Buffer
	if err := write(&text, s, r); err != nil {
		return told{err: fmt.Errorf("%s: %w", i, err), exit: exitOf(err)}
	}
	return told{text: text.Bytes(), exit: verdict(r)}
}
