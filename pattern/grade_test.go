package pattern

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"

	"fretband/unroll/plane"
)

// Slopes by hand after Fritsch and Butland: 3(a+b) / ((2b+a)/d + (b+2a)/e) for chords of
// the lengths a, b and the slopes d, e; 0 at highs, lows and ends.
func TestMonotoneCurvesHaveTheSlopesOfTheirPaper(t *testing.T) {
	for _, c := range []struct {
		points []Grade
		slopes []float64
	}{
		{[]Grade{{0, 0}, {1, 1}, {3, 2}}, []float64{0, 9 / (5/1. + 4/0.5), 0}},
		{[]Grade{{-1, 3}, {-0.5, 1}, {0.5, 0.5}, {1, 0.4}}, []float64{0, 4.5 / (2.5/-4 + 2/-0.5), 4.5 / (2/-0.5 + 2.5/-0.2), 0}},
		{[]Grade{{0, 1}, {1, 2}, {2, 1}, {3, 1}, {4, 5}}, []float64{0, 0, 0, 0, 0}},
	} {
		f := GradeCurve(c.points)
		for i, p := range c.points {
			assert.InDelta(t, p.Size, f(p.At), 1e-12)
			const h = 1e-6
			for _, side := range []float64{-h, h} { // smooth: of one slope from both sides
				if i == 0 && side < 0 || i == len(c.points)-1 && side > 0 {
					assert.Equal(t, p.Size, f(p.At+100*side))
					continue
				}
				assert.InDelta(t, c.slopes[i], (f(p.At+side)-p.Size)/side, 2e-4, "%v, point %d", c.points, i)
			}
		}
	}
}

// Between two points the curve runs between their sizes and never back.
func TestMonotoneCurvesOvershootNowhere(t *testing.T) {
	rng := rand.New(rand.NewSource(4))
	for range 100 {
		var points []Grade
		at := -1.0
		for range 2 + rng.Intn(5) {
			points = append(points, Grade{at, 0.3 + 3*rng.Float64()})
			at += 0.01 + 0.6*rng.Float64()
		}
		f := GradeCurve(points)
		for i, p := range points[1:] {
			q := points[i]
			last := q.Size
			for k := range 101 {
				v := f(q.At + float64(k)/100*(p.At-q.At))
				assert.GreaterOrEqual(t, (v-last)*(p.Size-q.Size), -1e-12, "%v", points)
				last = v
			}
			assert.InDelta(t, p.Size, last, 1e-12)
		}
	}
}

// What the grading takes somewhere it takes back from there; it rises, its slope is that
// of differences, sizes are to each other as asked, and a closed line goes on a turn on.
func TestGradingTakesPlacesThereAndBack(t *testing.T) {
	for _, c := range []struct {
		points           []Grade
		closed, mirrored bool
	}{
		{[]Grade{{-1, 1}, {1, 2}}, false, false},
		{[]Grade{{-0.6, 1}, {0.2, 3}, {0.9, 0.7}}, false, false},
		{[]Grade{{-1, 2}, {0, 1}, {1, 2}}, false, false},
		{[]Grade{{0.1, 2}, {0.7, 1}}, false, true},
		{[]Grade{{-0.6, 1}, {0.2, 3}, {0.9, 0.7}}, true, false},
		{[]Grade{{-1, 1}, {0.3, 2}, {1, 1.4}}, true, false},
	} {
		g := newGrading(c.points, c.closed, c.mirrored)
		last := math.Inf(-1)
		for i := -150; i <= 150; i++ {
			u := float64(i) / 100
			x, slope := g.at(u)
			name := fmt.Sprintf("%+v at %g", c, u)
			assert.Greater(t, x, last, name)
			last = x
			const h = 1e-7
			hi, _ := g.at(u + h)
			lo, _ := g.at(u - h)
			if math.Abs(math.Abs(u)-1) > 1e-3 {
				assert.InDelta(t, (hi-lo)/(2*h), slope, 2e-3, name)
			}
			if !c.closed || math.Abs(u) <= 1 {
				assert.InDelta(t, u, g.from(x), 1e-9, name)
			}
			if c.mirrored {
				back, _ := g.at(-u)
				assert.InDelta(t, -x, back, 1e-12, name)
			}
			if c.closed {
				on, _ := g.at(u + 2)
				assert.InDelta(t, x+2, on, 1e-9, name)
			}
		}
		for _, end := range []float64{-1, 1} {
			x, _ := g.at(end)
			assert.InDelta(t, end, x, 1e-9)
		}
		if !c.closed {
			one := c.points[len(c.points)-1]
			two := c.points[0]
			_, a := g.at(g.from(one.At))
			_, b := g.at(g.from(two.At))
			assert.InEpsilon(t, one.Size/two.Size, a/b, 1e-3, "%+v", c)
		}
	}
	e := extent{w: 80, h: 20, along: newGrading([]Grade{{-1, 1}, {1, 2}}, false, false), across: newGrading([]Grade{{-0.5, 2}, {1, 1}}, false, false)}
	rng := rand.New(rand.NewSource(5))
	for range 50 {
		p := plane.Pt(rng.Float64()*80-40, rng.Float64()*20-10)
		q, _, _ := e.grade(p)
		assert.InDelta(t, 0, p.Dist(e.ungraded(q)), 1e-7, "%v", p)
	}
}

// The least and the greatest bridge of a graded field are those of the cells that are
// smallest and largest: the size that a cell has at each of many places, one by one.
func TestGradedBridgesAreFromThatOfTheSmallestCellToThatOfTheLargest(t *testing.T) {
	const rule = 0.6
	along, across := newGrading([]Grade{{-1, 1}, {0.2, 4}, {1, 2}}, false, false), newGrading([]Grade{{-0.5, 3}, {1, 1}}, false, false)
	for _, e := range []extent{{}, {along: along}, {across: across}, {along: along, across: across}} {
		e.w, e.h, e.bridge = 80, 20, 1
		for _, share := range []float64{0, 0.4, 1} {
			f := Field{GradeBridge: share}
			least, most := math.Inf(1), math.Inf(-1)
			for i := range 401 {
				for j := range 101 {
					size := e.sizeAt(plane.Pt(e.w*(float64(i)/400-0.5), e.h*(float64(j)/100-0.5)))
					b := math.Max(rule, 1+share*(size-1))
					least, most = math.Min(least, b), math.Max(most, b)
				}
			}
			lo, hi := e.bridgeRange(f, rule)
			assert.InDelta(t, least, lo, 0.01, "%+v", f)
			assert.InDelta(t, most, hi, 0.01, "%+v", f)
		}
	}
}
