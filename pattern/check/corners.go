package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"
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

// LeastAngle returns the metal angle, degrees, under which one is reported.
func LeastAngle(s *pattern.Sheet) float64 {
	if a := s.Design.Work.LeastAngleDeg; a > 0 {
		return a
	}
	return usualAngle
}

// cornerLimit is the radius under which an inner corner counts as sharp, mm: the
// usual least of the process, of the saw if none is chosen; and where that comes from.
func cornerLimit(s *pattern.Sheet) (limit float64, process, source string) {
	p := processOf(s.Process)
	return p.Corner(s.Flat.Thickness), strings.ToLower(p.Title), p.Source
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

// checkMetalPoints tells of points of the metal.
func checkMetalPoints(s *pattern.Sheet, _ *Report) []Finding {
	least := LeastAngle(s)
	source := "your own limit"
	if s.Design.Work.LeastAngleDeg == 0 {
		source = "common practice"
	}
	points := MetalPoints(s, least*math.Pi/180)
	if len(points) == 0 {
		return nil
	}
	worst := slices.MinFunc(points, func(a, b MetalPoint) int { return cmp.Compare(a.Angle, b.Angle) })
	deg := worst.Angle * 180 / math.Pi
	where := fmt.Sprintf("at opening %d", worst.Opening)
	if worst.Opening == 0 {
		where = "at the edge of the blank"
	}
	if len(points) > 1 {
		where = fmt.Sprintf("in %d places, sharpest %s", len(points), where)
	}
	f := Finding{
		Kind: KindMetalPoint, Severity: Caution,
		What:  pattern.Say("The metal runs to a point of %.1f degrees %s, %.1f degrees under the least of %.0f (%s).", deg, where, least-deg, least, source),
		Why:   "Thin points catch cloth and skin, bend up and wear to a blade.",
		Value: deg, Limit: least, Unit: "degrees",
		Mend: pattern.Say("Blunt it, or round it to %.1f mm or more (0.3 to 0.5: common practice).", tipRadius),
	}
	for _, p := range points {
		f.At = append(f.At, p.At)
	}
	return []Finding{f}
}

// sharpShare is the share of the usual least radius under which a corner is as good as sharp:
// ours.
const sharpShare = 0.5

// checkSharpCorners tells of inner corners that start cracks. The stress at a notch grows as
// 1 + 2 sqrt(depth/radius) (C. E. Inglis, Transactions of the Institution of Naval
// Architects 55, 1913): without bound as the radius falls.
func checkSharpCorners(s *pattern.Sheet, r *Report) []Finding {
	usual, process, source := cornerLimit(s)
	corners := slices.DeleteFunc(SharpCorners(s, sharpShare*usual), func(c SharpCorner) bool {
		return r.Deep.scraps != nil && r.Deep.scraps[c.Opening-1]
	})
	if len(corners) == 0 {
		return nil
	}
	worst := slices.MinFunc(corners, func(a, b SharpCorner) int { return cmp.Compare(a.Radius, b.Radius) })
	openings := map[int]bool{}
	var at []plane.Point
	for _, c := range corners {
		at = append(at, c.At)
		openings[c.Opening] = true
	}
	what := pattern.Say("An inner corner of opening %d has a radius of %.2f mm", worst.Opening, worst.Radius)
	if len(corners) > 1 {
		what = pattern.Say("%d inner corners in %s have a radius down to %.2f mm (opening %d)", len(corners), count(len(openings), "opening", "openings"), worst.Radius, worst.Opening)
	}
	f := Finding{
		Kind: KindSharpCorner, Severity: Caution,
		What:  pattern.Say("%s, under half of the usual %.2f mm (%s).", what, usual, process),
		Why:   "A sharp inner corner gathers the stress and starts cracks when the band is bent. Usual least: " + source + ".",
		Value: worst.Radius, Limit: usual, Unit: "mm", At: at,
		Mend: pattern.Say("Give the openings corners of %.2f mm or more.", usual),
	}
	if s.Design.Rules.CornerMM < usual {
		f.Fixes = cornerTo(s.Design, up(usual))
	}
	return []Finding{f}
}
