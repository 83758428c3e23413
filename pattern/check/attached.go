package check

import (
	"math"

	"fretband/pattern"
)

// AttachedPart is a piece of the band and the least metal found that holds it: the bridges
// that a crack would have to pass to part it off.
type AttachedPart struct {
	// Metal is the width of those bridges together, mm.
	Metal   float64
	Bridges []Bridge
	AtEdge  bool    // it reaches the edge of the blank; else it is held all round
	Area    float64 // mm^2 of metal in the piece
	Weight  float64 // g, of flat sheet
	// Round is the metal that holds it as a share of the way round a disc of its area.
	Round float64
}

// None reports whether no such piece was found.
func (h AttachedPart) None() bool { return len(h.Bridges) == 0 }

// AttachedParts are the pieces that hang on the least metal.
type AttachedParts struct {
	Inside AttachedPart // held all round
	AtEdge AttachedPart // at one of the two edges or at an end of the band
}

// Least is the one of both that hangs on the least share of the way round it.
func (a AttachedParts) Least() AttachedPart {
	if a.Inside.None() || !a.AtEdge.None() && a.AtEdge.Round < a.Inside.Round {
		return a.AtEdge
	}
	return a.Inside
}

// Fingernail is the least metal, mm^2, of a piece that is looked at: the size of a
// fingernail (ours). What is smaller is reported by the checks of tongues and bridges.
const Fingernail = 100

// FindAttachedParts finds the pieces of a fingernail's metal or more that hang on the least.
//
// A piece is cut off by a closed chain of openings with a bridge between each and
// the next, or by a chain that starts and ends at one edge of the band (from the
// bottom to the top see [FindWeakestPaths]). Bridges are the necks of the metal
// ([plane.Region.Necks]) and the least distances of openings. How much metal a chain
// cuts off is a sum over its bridges, since the area beside a closed way is (Green's
// theorem), so it is known for each chain that is tried. These are tried:
//
//   - through each opening two ways that are bent to either side, so that they enclose
//     much metal for their length ([fan]), with each bridge between their ends;
//   - from each bridge to an edge, ways bent to either side to each other bridge to it;
//   - from each edge, the shortest ways with each bridge between the ends of two.
//
// A fixed number of steps bounds the search within the band, another that at the edges.
// Among thousands of openings it does not allow for all; those tried lie evenly.
//
// The figures are exact: cutting those bridges cuts off that much metal, known
// to the chords of edges (0.001 mm). That no piece hangs on less is sure only of chains of these
// kinds; the least piece of a given size is in general hard to find (J. K. Park and C. A.
// Phillips, "Finding minimum-quotient cuts in planar graphs", ACM Symposium on Theory of
// Computing 25, 1993). Of 37 small sheets of 20 round holes the tests find the least in
// all. Not looked for are pieces over the joint of a closed flared band, which keeps a
// solid strip, and chains longer than twice the width of the band, among very many
// openings than a few bridges.
func FindAttachedParts(s *pattern.Sheet, r *Report) AttachedParts {
	var out AttachedParts
	if len(s.Openings) == 0 {
		return out
	}
	most, least, round := 2*s.Flat.Width, 4*math.Max(s.Rule, 0.5), shortestRound(s, r.Thinnest.Width)
	if len(s.Openings) > manyForAttached {
		most = math.Min(most, least)
	}
	if most < round/math.Sqrt2 { // half a circle about a piece at the edge
		return out
	}
	g := newAttachedGraph(s, most)
	if round <= most {
		out.Inside = g.part(g.inside(math.Max(least, round), most), r.Density)
	}
	out.AtEdge = g.part(g.atEdge(least, most), r.Density)
	return out
}

// manyForAttached is the number of openings from which on only the shortest chains are sought:
// those within a few bridges. Longer ones run through more openings there than the steps
// allow to look at.
const manyForAttached = 3333

// shortestRound bounds from below the length of the closed chains of openings that part
// a fingernail off: no line about an area is shorter than a circle, and a chain runs
// through as many openings as it has bridges, in each along half its edge at most.
func shortestRound(s *pattern.Sheet, thinnest float64) float64 {
	longest := 0.0
	for i := range s.Openings {
		longest = math.Max(longest, s.Openings[i].Loop.Len()/2)
	}
	return math.Sqrt(4*math.Pi*Fingernail) / (1 + longest/thinnest)
}

// attachedWork bounds the steps, bridges looked at, of each search: some hundredths of a second.
const attachedWork = 500_000

// part describes a chain as a piece.
func (g *attachedGraph) part(c chain, density float64) AttachedPart {
	if math.IsInf(c.cost, 1) {
		return AttachedPart{}
	}
	h := AttachedPart{Metal: c.cost}
	number := func(node int) int {
		if node >= g.n {
			return 0
		}
		return g.s.Openings[node].Number
	}
	for _, a := range c.arcs {
		h.AtEdge = h.AtEdge || a.from == g.n || a.to == g.n
		b := Bridge{a.width, a.a, a.b, g.s.Rule, number(a.from), number(a.to)}
		if b.From == 0 { // as of all bridges the opening first
			b.A, b.B, b.From, b.To = b.B, b.A, b.To, 0
		} else if b.To > 0 {
			b.B = g.near.round(a.rounds).Home(b.B) // where it lies on the blank
		}
		if b.To == 0 {
			b.B = g.s.Home(b.B)
		}
		h.Bridges = append(h.Bridges, b)
	}
	h.Area = c.metal
	h.Weight = h.Area * g.s.Flat.Thickness * density / 1000
	h.Round = c.cost / (2 * math.Sqrt(math.Pi*h.Area))
	return h
}

// attachedByLittle is the share of the way round under which a piece counts as held by
// little: a tenth (ours).
const attachedByLittle = 0.1

// checkAttached tells of pieces that hang on little metal.
func checkAttached(_ *pattern.Sheet, r *Report) []Finding {
	var fs []Finding
	for _, h := range []AttachedPart{r.Deep.Attached.Inside, r.Deep.Attached.AtEdge} {
		if h.None() || h.Round >= attachedByLittle-slack {
			continue
		}
		where := "A piece within the band"
		if h.AtEdge {
			where = "A piece at the edge"
		}
		f := Finding{
			Kind: KindAttachedPart, Severity: Caution,
			What: pattern.Say("%s, %.2f cm² of metal or %.2f g, is held by %s, %.2f mm in all, %.0f %% of the way round it.",
				where, h.Area/100, h.Weight, count(len(h.Bridges), "bridge", "bridges"), h.Metal, 100*h.Round),
			Why:   "A piece that hangs on little metal bends out of the face when it catches something, and breaks off there (our limit: bridges over a tenth of the way round it).",
			Value: h.Metal, Limit: attachedByLittle * h.Metal / h.Round, Unit: "mm",
		}
		f.Mend = pattern.Say("Widen those bridges to %.2f mm in all, or add another.", f.Limit)
		for _, b := range h.Bridges {
			f.At = append(f.At, b.A, b.B)
		}
		fs = append(fs, f)
	}
	return fs
}
