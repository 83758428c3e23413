package check

import (
	"math"
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/unroll/cores"
)

// priceFixes tries each fix of each finding and says what it costs. One that loses openings
// which were fine is no mend and is taken out.
func (r *Report) priceFixes(wanted func() bool) {
	type fix struct{ finding, at int }
	var all []fix
	for i := range r.Findings {
		f := &r.Findings[i]
		f.Fixes = slices.Clone(f.Fixes) // those of Run stay as they are
		for k := range f.Fixes {
			all = append(all, fix{i, k})
		}
	}
	bad := make([]bool, len(all))
	cores.Each(len(all), func(i int) {
		if !wanted() {
			return
		}
		f := &r.Findings[all[i].finding]
		bad[i] = !r.price(*f, &f.Fixes[all[i].at])
	})
	for i := len(all) - 1; i >= 0; i-- {
		if f := &r.Findings[all[i].finding]; bad[i] {
			f.Fixes = slices.Delete(f.Fixes, all[i].at, all[i].at+1)
		}
	}
}

// fewLost is the share of the openings that a fix may lose besides those that it is about: a
// tenth (ours).
const fewLost = 0.1

// price lays the mended design and writes down what the fix costs. It reports whether the
// design can be laid and keeps the openings that were fine.
func (r *Report) price(f Finding, x *Fix) bool {
	d := x.Design
	d.Accepted = nil // it does not change the metal
	s, err := pattern.Lay(d)
	if err != nil || finite(s) != nil {
		return false
	}
	now := weigh(s) // no more is told of it
	x.Cost = costWords(now.Openings-r.Openings, now.Left-r.Left)
	about := 0
	switch f.Kind {
	case KindNoWayIn, KindFinerBlade, KindOpeningAndProcess:
		about = len(f.At)
	}
	return float64(r.Openings-now.Openings-about) <= fewLost*float64(r.Openings)
}

// costWords tell by how many openings and grams a band changes.
func costWords(openings int, grams float64) string {
	var words []string
	tell := func(what, way string) { words = append(words, what+" "+way) }
	switch {
	case openings < 0:
		tell(count(-openings, "opening", "openings"), "fewer")
	case openings > 0:
		tell(count(openings, "opening", "openings"), "more")
	}
	if g := math.Abs(grams); g >= 0.005 { // less does not show
		way := "more"
		if grams < 0 {
			way = "less"
		}
		tell(pattern.Say("%.2f g", g), way)
	}
	if len(words) == 0 {
		return "no opening and no weight lost"
	}
	return strings.Join(words, ", ")
}
