package app

import (
	"context"
	"errors"

	"fretband/pattern"
	"fretband/pattern/target"
)

// Lighten looks in the background for ways to have less metal that carries as much, as
// light as it goes or, with left above 0, of that weight, g. run
// works there and post comes back; told hears there how many solves of how many at most are
// done, and done what came of it. Once stop has been called neither is called any more.
func Lighten(d pattern.Design, left float64, run, post func(func()), told func(done, of int), done func(*target.Lightened, error)) (stop func()) {
	ctx, cancel := context.WithCancel(context.Background())
	back := func(f func()) {
		post(func() {
			if ctx.Err() == nil {
				f()
			}
		})
	}
	run(func() {
		l, err := target.Lighten(ctx, d, left, func(n, of int) { back(func() { told(n, of) }) })
		if !errors.Is(err, context.Canceled) {
			back(func() { done(l, err) })
		}
	})
	return cancel
}

// LighterTitle says whether any way is worth having.
func LighterTitle(l *target.Lightened) string {
	switch worth := l.Worth(); {
	case l.Left > 0 && worth:
		return pattern.Say("Ways to %.2f g, and what each holds", l.Left)
	case l.Left > 0:
		return pattern.Say("No way comes to %.2f g", l.Left)
	case worth:
		return "Ways to have less metal that carries as much"
	}
	return pattern.Say("Nothing worth having: no way saves %.0f %% of the weight", 100*target.WorthSaving)
}

// LighterScenes are the scenes of the design as it is and of each way, with how each
// carries load where it was solved.
func LighterScenes(l *target.Lightened) (all []*Scene) {
	for i, w := range append([]target.Lighter{l.Start}, l.Ways...) {
		r := *w.Report
		r.Strength = w.Figures
		all = append(all, NewScene(-1-i, w.Sheet, &r))
	}
	return all
}

// LighterSays says what a way changes and what it saves, or what stands in its way.
func LighterSays(w target.Lighter) string {
	if !w.Met {
		if w.Says == "" {
			return w.Why
		}
		return w.Why + " (" + w.Says + ")"
	}
	switch {
	case w.Opens > 0:
		return pattern.Say("opens %.1f %% further: ", 100*w.Opens) + w.Says
	case w.Holds < 1-target.Held:
		return pattern.Say("%.1f %% saved, holds %.0f %%: ", 100*w.Saved, 100*w.Holds) + w.Says
	}
	return pattern.Say("%.1f %% saved: ", 100*w.Saved) + w.Says
}
