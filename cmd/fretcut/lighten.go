package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"text/tabwriter"

	"fretband/export/report"
	"fretband/pattern"
	"fretband/pattern/target"
)

// lighten looks for less metal that carries as much, shows the ways side by side, and
// writes the one that is asked for.
func lighten(args []string, in io.Reader, out io.Writer) (int, error) {
	flags := flag.NewFlagSet("lighten", flag.ContinueOnError)
	w := waysOf(flags, "way")
	left := flags.Float64("left", 0, "")
	rest, err := parse(flags, args, 1)
	if err != nil {
		return refused, err
	}
	from, d, err := w.design(rest, in)
	if err != nil {
		return refused, err
	}
	l, err := target.Lighten(context.Background(), d, *left, nil)
	if err != nil {
		return refused, fmt.Errorf("%s: %w", from, err)
	}
	choices := []target.Choice{l.Start.Choice}
	for _, way := range l.Ways {
		choices = append(choices, way.Choice)
	}
	if err := w.keep(choices); err != nil {
		return refused, err
	}
	show := lightenedText
	if *w.json {
		show = lightenedJSON
	}
	if err := show(out, l); err != nil {
		return refused, err
	}
	if !l.Worth() {
		return breach, nil
	}
	return fine, nil
}

func lightenedText(out io.Writer, l *target.Lightened) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "way\tleft\tsaved\topens\tholds\tstiffness\tbridges yield at\twith\trolled on\topenings\t")
	row := func(way target.Lighter) {
		yield, force := "not known", "not known"
		if way.YieldForce() > 0 {
			yield, force = pattern.Say("%.2f mm", way.Load().BridgeYield), pattern.Say("%.1f N", way.YieldForce())
		}
		rolled := "-"
		if n := way.Rolled(); n > 0 {
			rolled = pattern.Say("%.3g N/mm", n)
		}
		fmt.Fprint(w, pattern.Say("%s\t%.2f g\t%.1f %%\t%+.1f %%\t%.0f %%\t%.3g N/mm\t%s\t%s\t%s\t%d\t%s\n",
			way.Way, way.Report.Left, 100*way.Saved, 100*way.Opens, 100*way.Holds, way.Stiffness(), yield, force, rolled, way.Report.Openings, way.Says))
	}
	row(l.Start)
	for _, way := range l.Ways {
		if way.Met {
			row(way)
		}
	}
	if err := w.Flush(); err != nil {
		return err
	}
	for _, way := range l.Ways {
		if !way.Met {
			fmt.Fprintf(out, "%s: no. %s\n", way.Title, way.Why)
		}
	}
	if l.Left > 0 {
		fmt.Fprint(out, pattern.Say("Each way comes to %.2f g. What it holds is the lesser share of stiffness and of the way to the yield of whole bridges.\n", l.Left))
	} else {
		if !l.Worth() {
			fmt.Fprint(out, pattern.Say("Nothing worth having: no way saves %.0f %% of the weight or opens so much further for the same.\n", 100*target.WorthSaving))
		}
		fmt.Fprint(out, pattern.Say("Saved is by comparison with the best uniform pattern, %.2f g. Each way holds stiffness and yield within %.0f %%.\n", l.Uniform, 100*target.Held))
	}
	fmt.Fprintln(out, "An estimate for comparing designs, not a promise: a trial piece decides, and a trained goldsmith.")
	return nil
}

func lightenedJSON(out io.Writer, l *target.Lightened) error {
	type row struct {
		Way       string   `json:"way"`
		Says      string   `json:"says,omitempty"`
		Held      bool     `json:"held"`
		Why       string   `json:"why,omitempty"`
		Left      float64  `json:"left_g"`
		Saved     float64  `json:"saved_share"`
		Opens     float64  `json:"opens_share,omitempty"`
		Holds     float64  `json:"holds_share,omitempty"`
		Stiffness *float64 `json:"n_per_mm"`
		Yield     *float64 `json:"along_bridges_yield_mm"`
		Force     *float64 `json:"along_bridges_yield_n"`
		Rolled    float64  `json:"rolled_n_per_mm,omitempty"`
		Openings  int      `json:"openings"`
		Lost      int      `json:"openings_lost"`
		Cautions  []string `json:"cautions,omitempty"`
	}
	var all struct {
		Uniform float64 `json:"uniform_g"`
		Worth   bool    `json:"worth_having"`
		Coarse  bool    `json:"coarse_mesh"`
		Solves  int     `json:"solves"`
		Ways    []row   `json:"ways"`
	}
	all.Uniform, all.Worth, all.Coarse, all.Solves = l.Uniform, l.Worth(), l.Start.Figures.Coarse, l.Solves
	for i, w := range append([]target.Lighter{l.Start}, l.Ways...) {
		one := row{Way: w.Way, Says: w.Says, Held: i == 0 || w.Met, Why: w.Why, Left: w.Report.Left, Saved: w.Saved, Opens: w.Opens, Holds: w.Holds, Openings: w.Report.Openings, Lost: w.Lost}
		if w.Figures != nil {
			k := w.Stiffness()
			one.Stiffness, one.Rolled = &k, w.Rolled()
			if n := w.YieldForce(); n > 0 {
				mm := w.Load().BridgeYield
				one.Yield, one.Force = &mm, &n
			}
		}
		one.Cautions = cautionsOf(w.Report)
		all.Ways = append(all.Ways, one)
	}
	return report.WriteJSON(out, all)
}
