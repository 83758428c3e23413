package check

import (
	"fmt"
	"math"
	"strings"

	"fretband/pattern"
	"fretband/unroll/plane"
)

// MetalPoint is a position where the metal runs to a point.
type MetalPoint struct {
	Opening int // its number; 0 for the blank's own edge
	At      plane.Point
	Angle   float64 // radians, of the metal
	Radius  float64 // mm, of its tip; 0 if it is sharp
}

// SharpCorner is an inner corner of an opening.
type SharpCorner struct {
	Opening int
	At      plane.Point
	Angle   float64 // radians, through which the edge turns there
	Radius  float64 // mm
}

// usualAngle is the least angle of metal, degrees: common practice
// (angles of metal below about 30 degrees are flagged).
const usualAngle = 30

// leastAngle is the metal angle, degrees, under which one is reported.
func leastAngle(s *pattern.Sheet) float64 {
	if a := s.Design.Work.LeastAngleDeg; a > 0 {
		return a
	}
	return usualAngle
}

// cornerLimit is the radius under which an inner corner counts as sharp, mm: the
// usual least of the process, of the saw if none is chosen; and where that comes from.
func cornerLimit(s *pattern.Sheet) (limit float64, process, source string) {
	p, ok := pattern.ProcessByKey(s.Process)
	if !ok {
		p, _ = pattern.ProcessByKey("saw")
	}
	return UsualOf(p, s.Flat.Thickness).Corner, strings.ToLower(p.Title), p.Source
}

// MetalPoints returns the outward corners of the metal whose angle is under limit,
// radians, and whose tip is rounded by less than 0.3 mm (common practice).
func MetalPoints(s *pattern.Sheet, limit float64) []MetalPoint {
	var out []MetalPoint
	tell := func(bs []bend, number int, move plane.Point) {
		for _, b := range bs {
			if angle := math.Max(0, math.Pi-b.angle); angle < limit-1e-9 {
				out = append(out, MetalPoint{number, b.at.Add(move), angle, b.radius})
			}
		}
	}
	for _, group := range sameShape(s) {
		first := &s.Openings[group[0]]
		bs := bends(first.Loop.Reverse(), tipRadius-slack, tipRadius)
		for _, i := range group {
			tell(bs, s.Openings[i].Number, s.Openings[i].At.Sub(first.At))
		}
	}
	tell(bends(s.Flat.Outline, tipRadius-slack, tipRadius), 0, plane.Point{})
	return out
}

// sharpInner is the least turn of an inner corner that is looked at, radians: at 30
// degrees a notch hardly raises the stress (ours).
const sharpInner = 30 * math.Pi / 180

// SharpCorners returns the inner corners of openings whose radius is under limit, mm.
func SharpCorners(s *pattern.Sheet, limit float64) []SharpCorner {
	var out []SharpCorner
	for _, group := range sameShape(s) {
		first := &s.Openings[group[0]]
		bs := bends(first.Loop, limit-slack, plane.FitTolerance)
		for _, i := range group {
			o := &s.Openings[i]
			for _, b := range bs {
				if b.angle > sharpInner {
					out = append(out, SharpCorner{o.Number, b.at.Add(o.At.Sub(first.At)), b.angle, b.radius})
				}
			}
		}
	}
	return out
}

// bend is a position where a loop turns to the left in a small radius.
type bend struct {
	at     plane.Point
	angle  float64 // radians
	radius float64 // mm, of its sharpest piece; 0 for a corner
}

// bends returns the positions where the loop turns to the left with a mean radius
// under limit, each as long as that holds: a corner, an arc, or a few that follow
// each other with no straight piece longer than blunt between. A loop that turns so
// all round has none: it is a small hole.
func bends(l plane.Loop, limit, blunt float64) []bend {
	// Corners and edges by turns, in the loop's order.
	type element struct{ angle, length float64 }
	n := 2 * len(l)
	es := make([]element, n)
	for i := range l {
		e := l.Edge(i)
		es[2*i] = element{angleAt(l, i), 0}
		es[2*i+1] = element{e.Sweep(), e.Len()}
	}
	sharp := func(e element) bool { return e.angle > 1e-6 && e.length < limit*e.angle }
	start := -1
	for i := range es {
		if !sharp(es[i]) && (es[i].length > 0 || es[i].angle < 0) {
			start = i
			break
		}
	}
	if start < 0 {
		return nil
	}
	var out []bend
	for k := 0; k < n; {
		i := start + k
		if !sharp(es[i%n]) {
			k++
			continue
		}
		// As far as the mean radius stays small and no edge turns back.
		sum, end := es[i%n], k
		least := sum.length / sum.angle
		run := sum
		for j := k + 1; j < n; j++ {
			e := es[(start+j)%n]
			if e.angle < -1e-6 || e.angle <= 1e-6 && e.length > blunt {
				break
			}
			run.angle += e.angle
			run.length += e.length
			if run.length >= limit*math.Pi {
				break
			}
			if sharp(e) && run.length < limit*run.angle {
				sum, end = run, j
				least = math.Min(least, e.length/e.angle)
			}
		}
		// Its position is half way along.
		half := sum.length / 2
		at := l[((i%n)/2+(i%2))%len(l)].Point
		if i%2 == 0 {
			at = l[(i%n)/2].Point
		}
		for j := k; j <= end; j++ {
			m := (start + j) % n
			if m%2 == 0 {
				continue
			}
			if e := l.Edge(m / 2); half <= e.Len() {
				at = e.At(half / e.Len())
				break
			}
			half -= es[m].length
		}
		out = append(out, bend{at, sum.angle, least})
		k = end + 1
	}
	return out
}

// checkMetalPoints reports points of the metal, once for each shape of opening.
func checkMetalPoints(s *pattern.Sheet, _ *Report) []Finding {
	least := leastAngle(s)
	source := "your own limit"
	if s.Design.Work.LeastAngleDeg == 0 {
		source = "common practice"
	}
	points := MetalPoints(s, least*math.Pi/180)
	var fs []Finding
	for _, g := range byShape(s, len(points), func(i int) int { return points[i].Opening }) {
		worst := points[g[0]]
		var at []plane.Point
		for _, i := range g {
			at = append(at, points[i].At)
			if points[i].Angle < worst.Angle-1e-9 {
				worst = points[i]
			}
		}
		deg := worst.Angle * 180 / math.Pi
		where := fmt.Sprintf("at opening %d", worst.Opening)
		if worst.Opening == 0 {
			where = "at the edge of the blank"
		}
		if len(g) > 1 {
			where = fmt.Sprintf("in %d places, sharpest %s", len(g), where)
		}
		fs = append(fs, Finding{
			Kind: KindMetalPoint, Severity: Caution,
			What:  pattern.Say("The metal runs to a point of %.1f degrees %s, %.1f degrees under the least of %.0f (%s).", deg, where, least-deg, least, source),
			Why:   "Thin points catch cloth and skin, bend up and wear to a blade.",
			Value: deg, Limit: least, Unit: "degrees", At: at,
			Mend: pattern.Say("Blunt it, or round it to %.1f mm or more (0.3 to 0.5: common practice).", tipRadius),
		})
	}
	return fs
}

// byShape groups findings by the shape of their opening, all cut to fit as one.
func byShape(s *pattern.Sheet, n int, opening func(int) int) [][]int {
	var groups [][]int
	at := map[int]int{}
	for i := range n {
		key := -2 // the blank
		if k := opening(i); k > 0 {
			key = s.Openings[k-1].Shape
		}
		if g, ok := at[key]; ok {
			groups[g] = append(groups[g], i)
			continue
		}
		at[key] = len(groups)
		groups = append(groups, []int{i})
	}
	return groups
}

// checkSharpCorners reports inner corners that start cracks, once for each shape. The
// stress at a notch grows as 1 + 2 sqrt(depth/radius) (C. E. Inglis, Transactions of
// the Institution of Naval Architects 55, 1913): without bound as the radius falls.
func checkSharpCorners(s *pattern.Sheet, _ *Report) []Finding {
	limit, process, source := cornerLimit(s)
	corners := SharpCorners(s, limit)
	var fs []Finding
	for _, g := range byShape(s, len(corners), func(i int) int { return corners[i].Opening }) {
		worst := corners[g[0]]
		openings := map[int]bool{}
		var at []plane.Point
		for _, i := range g {
			at = append(at, corners[i].At)
			openings[corners[i].Opening] = true
			if corners[i].Radius < worst.Radius-1e-9 {
				worst = corners[i]
			}
		}
		what := pattern.Say("An inner corner of opening %d has a radius of %.2f mm", worst.Opening, worst.Radius)
		if len(g) > 1 {
			what = pattern.Say("%d inner corners in %s have a radius down to %.2f mm (opening %d)", len(g), count(len(openings), "opening", "openings"), worst.Radius, worst.Opening)
		}
		f := Finding{
			Kind: KindSharpCorner, Severity: Note,
			What:  pattern.Say("%s, %.2f mm under the usual %.2f mm (%s).", what, limit-worst.Radius, limit, process),
			Why:   "A sharp inner corner gathers the stress and starts cracks when the band is bent. Usual limit: " + source + ".",
			Value: worst.Radius, Limit: limit, Unit: "mm", At: at,
			Mend: pattern.Say("Give the openings corners of %.2f mm or more.", limit),
		}
		if s.Design.Rules.CornerMM < limit {
			f.Fixes = cornerTo(s.Design, limit)
		}
		// Under half the limit it is as good as sharp: ours.
		if worst.Radius < limit/2 {
			f.Severity = Caution
		}
		fs = append(fs, f)
	}
	return fs
}
