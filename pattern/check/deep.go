package check

import (
	"fretband/pattern"
	"fretband/unroll/cores"
)

// Deep is what is measured apart from [Run], because it takes too long during a
// drag.
type Deep struct {
	WeakestPaths WeakestPaths
	Tongues      []Tongue // metal held on one side only, longest beside its root first
	// Bridges are those under their rule or the usual one, worst first, at most 200;
	// NarrowBridges is how many there are.
	Bridges       []NarrowBridge
	NarrowBridges int
	Attached      AttachedParts

	scraps []bool // by opening: far too small to be cut, so that its corners are not told
}

// deepChecks are the checks that need [Deep], in the order in which they are reported.
var deepChecks = []func(*pattern.Sheet, *Report) []Finding{
	checkWeakestPaths,
	checkEntry,
	checkHeat,
	checkTongues,
	checkMetalPoints,
	checkSharpCorners,
	checkNarrowBridges,
	checkAttached,
}

// Deepen returns the report with what takes longer to measure, and its findings.
// The report passed in is not changed.
func Deepen(s *pattern.Sheet, r *Report) *Report {
	return DeepenWhile(s, r, func() bool { return true })
}

// DeepenWhile is Deepen as long as wanted returns true, which is asked before each
// measurement, on several goroutines; after that it returns nil.
func DeepenWhile(s *pattern.Sheet, r *Report, wanted func() bool) *Report {
	if r.Deep != nil {
		return r
	}
	d := *r
	d.Deep = &Deep{}
	// The longest first; each writes to its own part.
	measures := []func(){
		func() { d.Deep.Attached = FindAttachedParts(s, r) },
		func() { d.Deep.WeakestPaths = FindWeakestPaths(s) },
		func() { d.Deep.Tongues = Tongues(s) },
		func() { d.Deep.Bridges, d.Deep.NarrowBridges = NarrowBridges(s) },
		func() {
			if d.Faces.OuterArea == 0 { // of a band cut flat, whose figures do not need it
				d.Faces = facesOf(s, r)
				d.Faces.faceBridges(s, r.Thinnest)
			}
		},
	}
	cores.Each(len(measures), func(i int) {
		if wanted() {
			measures[i]()
		}
	})
	if !wanted() {
		return nil
	}
	d.Findings = append([]Finding{}, r.Findings...)
	for _, c := range deepChecks {
		for _, f := range c(s, &d) {
			f.Deep = true
			d.Findings = append(d.Findings, f)
		}
	}
	d.priceFixes(wanted)
	if !wanted() {
		return nil
	}
	accept(s.Design, d.Findings)
	inOrder(d.Findings)
	return &d
}

// All is Run and Deepen together, for callers that can wait.
func All(s *pattern.Sheet) *Report { return Deepen(s, Run(s)) }

// acceptedNear is how near to an accepted position a finding must be to count as the
// same, mm: about a bridge, since positions move a little with every number.
const acceptedNear = 2

// accept marks the findings that the maker accepts. Metal that falls to pieces can't
// be accepted.
func accept(d pattern.Design, fs []Finding) {
	for i := range fs {
		f := &fs[i]
		if f.Kind == KindPieces {
			continue
		}
		for _, a := range d.Accepted {
			if Accepts(a, *f) {
				f.Accepted = a.Reason
			}
		}
	}
}

// Shares of the full section under which a way through the metal counts as weak. Across, a
// quarter: bent metal curves as many times as sharply there as the power of about 2.5 of
// full over net (annealed metal, hardening exponent 0.4), and shows a facet. Along, a tenth.
// Both are ours.
const weakAcross, weakAlong = 0.25, 0.1

// checkWeakestPaths tells of ways through the metal that pass little of it.
func checkWeakestPaths(_ *pattern.Sheet, r *Report) []Finding {
	if r.Openings == 0 {
		return nil
	}
	var fs []Finding
	tell := func(kind Kind, what, why, mend string, least float64, c WeakestPath) {
		if len(c.Bridges) == 0 || c.Share() >= least {
			return
		}
		f := Finding{
			Kind: kind, Severity: Note,
			What:  pattern.Say("%s passes only %.2f mm of metal in %s, %.0f %% of the full %.1f mm.", what, c.Metal, count(len(c.Bridges), "bridge", "bridges"), 100*c.Share(), c.Full),
			Why:   why + pattern.Say(" Less than %.0f %% is reported (our limit).", 100*least),
			Value: c.Metal, Limit: least * c.Full, Unit: "mm",
			Mend: mend,
		}
		for _, b := range c.Bridges {
			f.At = append(f.At, b.A, b.B)
		}
		fs = append(fs, f)
	}
	tell(KindWeakestWayAcross, "The weakest way from edge to edge", "Here the band kinks first when it is bent to shape, and yields first when it is pulled open.",
		"Widen these bridges or the rims, or move the openings so that no straight row of them lies across.", weakAcross, r.Deep.WeakestPaths.Bent())
	tell(KindWeakestWayAlong, "The weakest way lengthwise", "It is all that holds the upper part of the band to the lower.",
		"Widen these bridges, or add ties between the rows.", weakAlong, r.Deep.WeakestPaths.Along)
	return fs
}
