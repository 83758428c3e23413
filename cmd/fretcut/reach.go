package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"text/tabwriter"

	"fretband/export/report"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/project"
	"fretband/pattern/target"
	"fretband/unroll"
)

// reach finds numbers that bring a design to a weight, shows the choices side by
// side, and writes the one that is asked for.
func reach(args []string, in io.Reader, out io.Writer) (int, error) {
	flags := flag.NewFlagSet("reach", flag.ContinueOnError)
	left := flags.Float64("left", 0, "")
	taken := flags.Float64("taken", 0, "")
	lightest := flags.Bool("lightest", false, "")
	w := waysOf(flags, "choice")
	rest, err := parse(flags, args, 1)
	if err != nil {
		return refused, err
	}
	var goals []target.Target
	flags.Visit(func(f *flag.Flag) {
		switch f.Name {
		case "left":
			goals = append(goals, target.Target{Kind: target.Left, Value: *left})
		case "taken":
			goals = append(goals, target.Target{Kind: target.Taken, Value: *taken / 100})
		case "lightest":
			if *lightest {
				goals = append(goals, target.Target{Kind: target.Lightest})
			}
		}
	})
	if len(goals) != 1 {
		return refused, errors.New("reach: say one of -left GRAMS, -taken PERCENT or -lightest")
	}
	from, d, err := w.design(rest, in)
	if err != nil {
		return refused, err
	}
	choices, err := target.Find(context.Background(), d, goals[0])
	if err != nil {
		return refused, fmt.Errorf("%s: %w", from, err)
	}
	if err := w.keep(choices); err != nil {
		return refused, err
	}
	show := choicesText
	if *w.json {
		show = choicesJSON
	}
	if err := show(out, choices); err != nil {
		return refused, err
	}
	for _, c := range choices {
		if c.Met {
			return fine, nil
		}
	}
	return breach, nil
}

// ways are what is asked of a command that finds ways: which of them is written, and where.
type ways struct {
	command, called string // called is what the ways are called in errors
	json, replace   *bool
	way, file       *string
}

func waysOf(flags *flag.FlagSet, called string) ways {
	return ways{flags.Name(), called, flags.Bool("json", false, ""), flags.Bool("replace", false, ""), flags.String("way", "", ""), flags.String("out", "", "")}
}

// design reads the design that the operand names, if a way of it may be written.
func (w ways) design(rest []string, in io.Reader) (from item, d pattern.Design, err error) {
	switch {
	case len(rest) == 0:
		return from, d, fmt.Errorf("%s: name a design file; fretcut gallery lists built-in ones", w.command)
	case (*w.way == "") != (*w.file == ""):
		return from, d, fmt.Errorf("%s: -way KEY and -out FILE go together: which %s is written, and where", w.command, w.called)
	}
	from = itemGiven(rest[0], in)
	if d, err = from.read(); err != nil || *w.file == "" || *w.replace {
		return from, d, err
	}
	if err = replaceable(*w.file, d.Name); err != nil {
		err = fmt.Errorf("%s: %w", w.command, err)
	}
	return from, d, err
}

// replaceable says why the file, if there is one, should not be replaced by a design of
// that name without -replace.
func replaceable(file, name string) error {
	if _, err := os.Lstat(file); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	const so = "so nothing is written: choose another name, or say -replace"
	switch d, err := project.ReadFile(file); {
	case err != nil:
		return fmt.Errorf("-out %s: is there and is no design, %s", file, so)
	case d.Name != name || name == pattern.Untitled:
		return fmt.Errorf("-out %s: is there and holds the design %q, %s", file, d.Name, so)
	}
	return nil
}

// keep writes the way that is asked for, if any.
func (w ways) keep(choices []target.Choice) error {
	if *w.file == "" {
		return nil
	}
	var keys []string
	for _, c := range choices[1:] {
		if c.Way != *w.way {
			keys = append(keys, c.Way)
			continue
		}
		if !c.Met {
			return fmt.Errorf("%s is not written, since the goal is not reached: %s", *w.file, c.Why)
		}
		return project.WriteFile(*w.file, c.Design)
	}
	return fmt.Errorf("%s is no way here; use one of %q", unroll.Quote(*w.way), keys)
}

func choicesText(out io.Writer, choices []target.Choice) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "way\tleft\topen\topenings\tthinnest\tweakest section\t")
	for _, c := range choices {
		r := c.Report
		thin := "none"
		if !r.Thinnest.None() {
			thin = pattern.Say("%.2f mm", r.Thinnest.Width)
		}
		fmt.Fprint(w, pattern.Say("%s\t%.2f g\t%.1f %%\t%d\t%s\t%.0f %%\t%s\n", c.Way, r.Left, 100*r.OpenShare, r.Openings, thin, 100*c.WeakestShare(), c.Says))
	}
	if err := w.Flush(); err != nil {
		return err
	}
	for _, c := range choices[1:] {
		if !c.Met {
			fmt.Fprintf(out, "%s does not get there. %s\n", c.Title, c.Why)
		}
	}
	return nil
}

func choicesJSON(out io.Writer, choices []target.Choice) error {
	type row struct {
		Way      string   `json:"way"`
		Says     string   `json:"says"`
		Reached  bool     `json:"reached"`
		Why      string   `json:"why,omitempty"`
		Left     float64  `json:"left_g"`
		Removed  float64  `json:"removed_g"`
		Open     float64  `json:"open_share"`
		Openings int      `json:"openings"`
		Thinnest *float64 `json:"thinnest_mm"`
		Weakest  float64  `json:"weakest_share"`
		Findings []string `json:"cautions,omitempty"`
	}
	rows := []row{}
	for _, c := range choices {
		r := c.Report
		one := row{c.Way, c.Says, c.Met, c.Why, r.Left, r.Removed, r.OpenShare, r.Openings, nil, c.WeakestShare(), nil}
		if w := r.Thinnest.Width; !r.Thinnest.None() {
			one.Thinnest = &w
		}
		one.Findings = cautionsOf(r)
		rows = append(rows, one)
	}
	return report.WriteJSON(out, rows)
}

// cautionsOf says what findings ask for something.
func cautionsOf(r *check.Report) (said []string) {
	for _, f := range r.Findings {
		if f.Severity > check.Note {
			said = append(said, f.What)
		}
	}
	return said
}
