package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"fretband/export"
	"fretband/export/handover"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
)

// task is how the designs of one call are made.
type task struct {
	dir      string
	apart    bool // each design in a folder of its own
	receiver export.Receiver
	options  export.Options
	load     loader
}

// makeFiles writes the hand-over files of designs.
func makeFiles(args []string, in io.Reader, out, errs io.Writer) (int, error) {
	fs := flag.NewFlagSet("make", flag.ContinueOnError)
	t := task{load: load}
	fs.StringVar(&t.dir, "out", "", "")
	to := fs.String("for", "", "")
	sumFile := fs.String("summary", "", "")
	fs.BoolVar(&t.options.Replace, "replace", false, "")
	fs.BoolVar(&t.options.Quote, "quote", false, "")
	optionFlags(fs, &t.options)
	rest, err := parse(fs, args, anyNumber)
	if err != nil {
		return refused, err
	}
	if t.dir == "" {
		return refused, errors.New("make: say where with -out DIR")
	}
	if len(rest) == 0 {
		return refused, errors.New("make: name a design file; fretcut gallery lists built-in ones")
	}
	if err := t.options.Check(); err != nil {
		return refused, fmt.Errorf("make: %w", err)
	}
	if t.receiver, err = receiverFor(*to); err != nil {
		return refused, err
	}
	items, folder := designs(rest, in, t.dir)
	t.apart = folder || len(items) > 1
	if t.apart {
		if err := toldApart(items); err != nil {
			return refused, err
		}
	}
	for _, i := range items {
		if *sumFile != "" && i.same(*sumFile) {
			return refused, fmt.Errorf("make: -summary %s: is the design itself; nothing is written", *sumFile)
		}
	}
	if *sumFile != toOutput && !t.options.Replace && isOtherThanSummary(*sumFile) {
		return refused, fmt.Errorf("make: -summary %s: is there and is no summary, so nothing is written: choose another name, or say -replace", *sumFile)
	}
	return t.all(items, *sumFile, out, errs)
}

// receiverFor returns the receiver of that key.
func receiverFor(key string) (export.Receiver, error) {
	if v, ok := export.ReceiverByKey(key); ok {
		return v, nil
	}
	var keys []string
	for _, v := range export.Receivers() {
		keys = append(keys, v.Key)
	}
	return export.Receiver{}, fmt.Errorf("make: -for %s: must be one of %s", unroll.Quote(key), strings.Join(keys, ", "))
}

// all makes the designs on all cores, and reports each in the order of items. The
// exit code is the worst of all.
func (t task) all(items []item, sumFile string, out, errs io.Writer) (int, error) {
	aside := sumFile == toOutput // then nothing but the summary goes to out
	code, sum := fine, summary{Designs: []madeJSON{}}
	inOrder(items, t.one, func(r result) {
		code = max(code, r.exit)
		sum.add(r)
		if !aside {
			t.tell(out, r)
		}
		if r.err != nil {
			sayError(errs, r.err)
		}
	})
	if t.apart && !aside {
		fmt.Fprintln(out, sum.Totals)
	}
	if sumFile == "" {
		return code, nil
	}
	return code, sum.write(sumFile, out)
}

// result is what came of one design.
type result struct {
	item   item
	folder string
	files  []string // written
	said   []string // findings, a line each
	err    error
	exit   int
	made   madeJSON
}

// one makes the files of one design.
func (t task) one(i item) result {
	r := result{item: i, folder: t.dir}
	if t.apart {
		r.folder = filepath.Join(t.dir, i.folder())
	}
	var d *pattern.Design
	var rep *check.Report
	d, rep, r.files, r.err = t.files(r)
	if r.err != nil {
		r.exit = exitOf(r.err)
	} else {
		r.exit = verdict(rep)
		r.said = said(rep)
	}
	r.made = t.madeOf(r, d, rep)
	return r
}

// files reads the design and writes its files. What can't be read or laid has neither
// design nor report.
func (t task) files(r result) (*pattern.Design, *check.Report, []string, error) {
	s, rep, err := t.load(r.item)
	if err != nil {
		return nil, nil, nil, err
	}
	s, rep, o := handover.CutFor(s, rep, t.options, t.receiver)
	files, err := handover.Write(r.folder, r.item.name, s, rep, o, t.receiver)
	var others *handover.StrangersError
	switch {
	case errors.As(err, &others):
		err = fmt.Errorf("%s: %w, or say -replace", r.item, err)
	case err != nil:
		err = fmt.Errorf("%s: %w", r.item, err)
	}
	return &s.Design, rep, files, err
}

// said is what is to be known of a design that is made.
func said(r *check.Report) []string {
	var lines []string
	for _, f := range r.Findings {
		switch {
		case f.Open():
			lines = append(lines, fmt.Sprintf("%s: %s %s", f.Severity, f.What, f.Mend))
		case f.Accepted != "":
			lines = append(lines, fmt.Sprintf("%s, accepted: %s Reason: %s", f.Severity, f.What, f.Accepted))
		}
	}
	return lines
}

// tell prints what was made and what is to be known of it; of several designs under
// the name of each.
func (t task) tell(out io.Writer, r result) {
	lines := append(append([]string{}, r.files...), r.said...)
	indent := ""
	if t.apart {
		indent = "  "
		fmt.Fprintln(out, r.item.path)
		if r.err != nil {
			lines = append(lines, "not made")
		}
	}
	for _, line := range lines {
		fmt.Fprintln(out, indent+line)
	}
}

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
