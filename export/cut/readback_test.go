package cut

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fretband/export"
	"fretband/export/sample"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/pattern/own"
	"fretband/unroll/plane"
)

// twoCopies is a plan for the sample, laid by hand: two copies, one over the other, each
// with a lead-in to its first opening (a circle) and to its outline, and an engraved line.
func twoCopies(t *testing.T) (cuttingPlan, *pattern.Sheet, *check.Report) {
	t.Helper()
	s, r := sample.Cuff()
	one, err := newCuttingPlan(s, r, export.Options{})
	require.NoError(t, err)
	circle, outline := &one.lines[0], &one.lines[len(one.lines)-1]
	require.True(t, outline.outline())
	circle.runs = []run{{plane.Chain{{A: circle.loop.Centroid(), B: circle.loop[0].Point}}, circle.loop.Edges()}}
	at := outline.loop[0].Point
	outline.runs = []run{{plane.Chain{{A: at.Add(plane.Pt(0, -2)), B: at.Add(plane.Pt(0, -1))}, {A: at.Add(plane.Pt(0, -1)), B: at}}, outline.loop.Edges()}}
	one.engraved = []engraved{{number: 1, strokes: []own.Stroke{{Line: plane.Polygon(plane.Pt(-5, 9), plane.Pt(5, 9))}}}}

	plan := cuttingPlan{copies: []placed{{}, {at: plane.Pt(0, 40)}}}
	for i, c := range plan.copies {
		m := c.engraved(one.engraved[0])
		m.copy = i + 1
		plan.engraved = append(plan.engraved, m)
		for _, t := range one.lines {
			plan.lines = append(plan.lines, c.line(t, i+1))
		}
	}
	plan.sheet = plan.bounds().Grow(5)
	return plan, s, r
}

// own copies of what a spoiler changes.
func (p cuttingPlan) clone() cuttingPlan {
	p.lines = slices.Clone(p.lines)
	for i := range p.lines {
		p.lines[i].loop = slices.Clone(p.lines[i].loop)
		p.lines[i].runs = slices.Clone(p.lines[i].runs)
		for k, r := range p.lines[i].runs {
			p.lines[i].runs[k] = run{slices.Clone(r.lead), slices.Clone(r.edge)}
		}
	}
	return p
}

// fileFormats are the formats that are read back, with options that ask for each.
var fileFormats = []struct {
	key string
	o   export.Options
}{{"dxf", export.Options{Copies: 2}}, {"dxf", export.Options{Copies: 2, Curves: export.ArcsR12}}, {"svg", export.Options{Copies: 2}}}

func drawnFrom(t *testing.T, key string, p cuttingPlan, s *pattern.Sheet, r *check.Report, o export.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, draws[key](&b, p, s, r, o))
	return b.Bytes()
}

// draws write a plan down.
var draws = map[string]func(io.Writer, cuttingPlan, *pattern.Sheet, *check.Report, export.Options) error{"dxf": drawDXF, "svg": drawSVG}

// looked returns what is wrong with a file, read back, by the plan.
func looked(key string, data []byte, p cuttingPlan, s *pattern.Sheet, r *check.Report, o export.Options) error {
	f := &Files{s, r, o, p}
	if key == "svg" {
		return f.CheckSVG(data)
	}
	return f.CheckDXF(data)
}

// swap exchanges the lines of two cuts.
func swap(p *cuttingPlan, i, k int) { p.lines[i], p.lines[k] = p.lines[k], p.lines[i] }

// spoilers each change a plan in one way; the sample's cuts are openings 1 to 6 and the
// outline of copy 1 (0 to 6), then those of copy 2 (7 to 13).
var spoilers = []struct {
	name  string
	spoil func(p *cuttingPlan)
	file  string // what is said of a file of the spoilt plan, held against the good one
	plan  string // what is said if the plan itself is so; "" if it is a sound plan
}{
	{"nothing", func(p *cuttingPlan) {}, "", ""},
	{"a loop left open", func(p *cuttingPlan) { p.lines[2].runs = []run{{edge: p.lines[2].loop.Edges()}} },
		"opening 3: is not closed", "opening 3: is not closed"},
	{"a loop left open at its last edge", func(p *cuttingPlan) { p.lines[3].runs = []run{{edge: p.lines[3].loop.Edges()[:5]}} },
		"opening 4: is not closed", "opening 4: is not closed"},
	{"one left out", func(p *cuttingPlan) { p.lines = slices.Delete(p.lines, 10, 11) },
		"opening 4 of copy 2: is missing", "the report counts"},
	{"the last left out", func(p *cuttingPlan) { p.lines = p.lines[:13] },
		"outline of copy 2: is missing", "the report counts"},
	{"one twice, next to each other", func(p *cuttingPlan) { p.lines = slices.Insert(p.lines, 3, p.lines[2]) },
		"opening 3: stands twice", "opening 3: stands twice"},
	{"one twice, far off", func(p *cuttingPlan) { p.lines = slices.Insert(p.lines, 9, p.lines[1]) },
		"opening 2: stands twice", "opening 2: is cut after the outline of its copy"},
	{"one twice, at the end", func(p *cuttingPlan) { p.lines = append(p.lines, p.lines[13]) },
		"outline of copy 2: stands twice", "outline of copy 2"},
	{"turned round", func(p *cuttingPlan) { p.lines[4].loop = p.lines[4].loop.Reverse() },
		"opening 5: runs counter-clockwise, must run clockwise", "opening 5: runs counter-clockwise, must run clockwise"},
	{"an outline turned round", func(p *cuttingPlan) { p.lines[6].loop, p.lines[6].runs = p.lines[6].loop.Reverse(), nil },
		"outline: is closed, but must be open", "outline: runs clockwise, must run counter-clockwise"},
	{"a vertex moved by a hundredth", func(p *cuttingPlan) { p.lines[9].loop[1].X += 0.01 },
		"opening 3 of copy 2: vertex 2 lies 0.010000 mm from where the plan has it", "in the report"},
	{"a vertex moved by five millionths", func(p *cuttingPlan) { p.lines[9].loop[1].X += 5e-6 },
		"opening 3 of copy 2: vertex 2 lies 0.000005 mm", "encloses 66.0000275 mm², in the report 66 mm²"},
	{"an arc bulged a little more", func(p *cuttingPlan) { p.lines[5].loop[1].Bulge *= 1 + 1e-5 },
		"opening 6: edge 2, an arc, lies", "in the report"},
	{"an arc made a line", func(p *cuttingPlan) { p.lines[5].loop[1].Bulge = 0 },
		"opening 6: edge 2 is a straight line, the plan's a clockwise arc", "in the report"},
	{"an arc to the other side", func(p *cuttingPlan) { p.lines[3].loop[1].Bulge *= -1 },
		"opening 4: edge 2 is a counter-clockwise arc, the plan's a clockwise arc", "in the report"},
	{"the order of two", func(p *cuttingPlan) { swap(p, 3, 4) },
		"opening 4: stands after opening 5: the order of cutting is not the plan's", ""},
	{"one cut last", func(p *cuttingPlan) { p.lines = append(slices.Delete(slices.Clone(p.lines), 3, 4), p.lines[3]) },
		"opening 4: stands after opening 5: the order", "opening 4: is cut after the outline of its copy"},
	{"one cut first", func(p *cuttingPlan) {
		p.lines = slices.Insert(slices.Delete(slices.Clone(p.lines), 4, 5), 0, p.lines[4])
	},
		"opening 1: stands after opening 5: the order", ""},
	{"an outline before its openings", func(p *cuttingPlan) { swap(p, 5, 6) },
		"opening 6: stands after outline", "opening 6: is cut after the outline of its copy"},
	{"a loop that crosses another", func(p *cuttingPlan) { p.lines[9].loop = p.lines[9].loop.Move(plane.Pt(14, 0)) },
		"opening 3 of copy 2: vertex 1 lies 14.000000 mm", "opening 4 of copy 2: crosses or touches opening 3 of copy 2"},
	{"a loop that crosses the outline", func(p *cuttingPlan) { p.lines[2].loop = p.lines[2].loop.Move(plane.Pt(0, 8)) },
		"opening 3: vertex 1 lies 8.000000 mm", "outline: crosses or touches opening 3"},
	{"a loop in another", func(p *cuttingPlan) { p.lines[8].loop = p.lines[8].loop.Move(plane.Pt(-14, 0)) },
		"opening 2 of copy 2: vertex 1 lies 14.000000 mm", "opening 2 of copy 2: lies in opening 1 of copy 2"},
	{"a loop that crosses itself", func(p *cuttingPlan) {
		p.lines[2].loop = plane.Polygon(plane.Pt(-20, -5), plane.Pt(-14, 6), plane.Pt(-15, -6), plane.Pt(-8, -5))
	}, "opening 3: ", "opening 3: crosses or touches itself"},
	{"an edge too short", func(p *cuttingPlan) {
		l := &p.lines[2].loop
		*l = slices.Insert(*l, 1, plane.Vertex{Point: l.Edge(0).At(5e-5)})
	}, "opening 3: ", "opening 3: edge 1 at x -14, y 6 is 0.00063 mm long: must be 0.01 mm or more"},
	{"the loop begun elsewhere", func(p *cuttingPlan) {
		l := p.lines[2].loop
		p.lines[2].loop = append(slices.Clone(l[1:]), l[0])
	}, "opening 3: vertex 1 lies", ""},
	{"a lead-in into the metal", func(p *cuttingPlan) {
		at := p.lines[7].loop[0].Point
		p.lines[7].runs[0].lead = []plane.Edge{{A: at.Add(plane.Pt(-2, 0)), B: at}}
	}, "opening 1 of copy 2: vertex 1 lies", "opening 1 of copy 2: its lead-in comes from the metal"},
	{"an outline's lead-in in the part", func(p *cuttingPlan) {
		at := p.lines[6].loop[0].Point
		p.lines[6].runs[0].lead = []plane.Edge{{A: at.Add(plane.Pt(0, 1)), B: at}}
	}, "outline: vertex 1 lies", "outline: its lead-in comes from the metal"},
	{"a lead-in through the metal", func(p *cuttingPlan) {
		c := p.lines[0].loop.Centroid()
		end := p.lines[0].loop[0].Point
		out := c.Add(plane.Pt(0, 7))
		p.lines[0].runs[0].lead = []plane.Edge{{A: c, B: out}, {A: out, B: end}}
	}, "opening 1: ", "opening 1: its lead-in crosses the edge that it leads into"},
	{"a line with a lead-in that does not come back", func(p *cuttingPlan) {
		es := p.lines[0].runs[0].edge
		es[len(es)-1].B.Y += 0.002
	}, "opening 1: ", "opening 1: is not closed"},
	{"a line with a lead-in that ends early", func(p *cuttingPlan) {
		r := &p.lines[0].runs[0]
		r.edge = r.edge[:len(r.edge)-1]
	}, "opening 1: ends after ", "opening 1: is not closed"},
	{"an edge after a lead-in off by a hundredth", func(p *cuttingPlan) {
		es := p.lines[7].runs[0].edge
		es[0].B.X += 0.01
		es[1].A = es[0].B
	}, "opening 1 of copy 2: ", "in the report"},
	{"a mark off the sheet", func(p *cuttingPlan) {
		p.engraved = slices.Clone(p.engraved)
		p.engraved[0].strokes = []own.Stroke{{Line: plane.Polygon(plane.Pt(-105, 9), plane.Pt(-95, 9))}}
	}, "mark 1: vertex 1 lies 100.000000 mm", ""},
	{"a lead-in left out", func(p *cuttingPlan) { p.lines[0].runs = nil },
		"opening 1: is closed, but must be open", ""},
	{"an outline's lead-in into the next copy", func(p *cuttingPlan) {
		at := p.lines[6].loop[2].Point // right below
		p.lines[13].runs[0].lead = []plane.Edge{{A: at.Add(plane.Pt(-4, 1)), B: p.lines[13].loop[0].Point}}
	}, "outline of copy 2: vertex 1 lies", "outline"},
}

func TestASpoiltFileIsRefusedByName(t *testing.T) {
	good, s, r := twoCopies(t)
	for _, f := range fileFormats {
		for _, c := range spoilers {
			name := fmt.Sprintf("%s %s: %s", f.key, f.o.Curves, c.name)
			p := good.clone()
			c.spoil(&p)
			err := looked(f.key, drawnFrom(t, f.key, p, s, r, f.o), good, s, r, f.o)
			if c.file == "" {
				require.NoError(t, err, name)
				continue
			}
			var e *export.ReadBackError
			require.ErrorAs(t, err, &e, name)
			assert.ErrorContains(t, err, ": read back before writing: ", name)
			if f.key == "svg" {
				switch { // what the SVG is refused for sooner
				case strings.Contains(c.name, "twice"), strings.Contains(c.plan, "after the outline"):
					c.file = "stands twice" // a name, of a path or group
				}
			}
			assert.ErrorContains(t, err, c.file, name)
		}
	}
}

func TestAPlanThatCannotBeCutIsRefusedByName(t *testing.T) {
	good, s, r := twoCopies(t)
	for _, f := range fileFormats {
		for _, c := range spoilers {
			switch {
			case f.key == "svg" && strings.Contains(c.name, "twice"), f.key == "svg" && strings.Contains(c.plan, "after the outline"):
				c.plan = "stands twice" // one name, of a path or group
			}
			name := fmt.Sprintf("%s %s: %s", f.key, f.o.Curves, c.name)
			p := good.clone()
			c.spoil(&p)
			err := looked(f.key, drawnFrom(t, f.key, p, s, r, f.o), p, s, r, f.o)
			if c.plan == "" {
				assert.NoError(t, err, name)
				continue
			}
			assert.ErrorContains(t, err, c.plan, name)
		}
	}
}

// An outline held by tabs is several open lines, and has to be them all.
func TestAnOutlineWithoutItsTabsIsRefused(t *testing.T) {
	s, r := sample.Cuff()
	for _, f := range fileFormats {
		o := export.Options{Curves: f.o.Curves, Tabs: 3, LeadMM: 1, KerfMM: 0.1, StockW: 200, StockH: 100}
		good, err := newCuttingPlan(s, r, o)
		require.NoError(t, err)
		last := len(good.lines) - 1
		require.Len(t, good.lines[last].runs, 4)
		require.NoError(t, looked(f.key, drawnFrom(t, f.key, good, s, r, o), good, s, r, o))
		for _, c := range []struct {
			name       string
			spoil      func(c *cuttingLine)
			file, plan string
		}{
			{"a run left out", func(c *cuttingLine) { c.runs = slices.Delete(c.runs, 1, 2) }, "outline: is missing", "outline: has 2 tabs, 3 were asked for"},
			{"the last run left out", func(c *cuttingLine) { c.runs = c.runs[:3] }, "outline: is missing", "outline: its runs do not come back"},
			{"cut free", func(c *cuttingLine) { c.runs = nil }, "outline: is closed, but must be open", "outline: has no tabs, 3 were asked for"},
			{"a tab sawn to half", func(c *cuttingLine) {
				e := &c.runs[0].edge[len(c.runs[0].edge)-1]
				e.B = e.B.Add(e.Tangent(1).Mul(o.Tab() / 2))
			}, "outline: vertex ", "outline: tab 1 is 0.2 mm wide, must be 0.4 mm"},
		} {
			p := good.clone()
			c.spoil(&p.lines[last])
			assert.ErrorContains(t, looked(f.key, drawnFrom(t, f.key, p, s, r, o), good, s, r, o), c.file, "%s: %s", f.key, c.name)
			assert.ErrorContains(t, looked(f.key, drawnFrom(t, f.key, p, s, r, o), p, s, r, o), c.plan, "%s: %s", f.key, c.name)
		}
	}
}

func TestCopiesTooNearEachOtherOrTheEdgeAreRefused(t *testing.T) {
	s, r := sample.Cuff()
	o := export.Options{Copies: 3, StockW: 140, StockH: 120, LeadMM: 1}
	good, err := newCuttingPlan(s, r, o)
	require.NoError(t, err)
	for key, draw := range draws {
		for move, says := range map[plane.Point]string{
			plane.Pt(0, 0):    "",
			plane.Pt(0, 0.1):  "is 2.900 mm from",
			plane.Pt(0, -0.1): "is 2.900 mm from",
			plane.Pt(-1, 0):   "is nearer than 5 mm to the edge of the sheet of 140 x 120 mm",
		} {
			p := good.clone()
			for i, c := range p.lines {
				if c.copy == 2 {
					c = placed{at: move}.line(c, 2)
					p.lines[i] = c
				}
			}
			var b bytes.Buffer
			require.NoError(t, draw(&b, p, s, r, o))
			err := looked(key, b.Bytes(), p, s, r, o)
			if says == "" {
				require.NoError(t, err)
				continue
			}
			assert.ErrorContains(t, err, says, "%s %v", key, move)
		}
	}
}

func TestChordsWithAnArcAreRefused(t *testing.T) {
	s, r := sample.Engraved(t)
	for _, key := range []string{"dxf", "svg"} {
		o := export.Options{Curves: export.Chords}
		p, err := newCuttingPlan(s, r, o)
		require.NoError(t, err)
		require.NoError(t, looked(key, drawnFrom(t, key, p, s, r, o), p, s, r, o))
		arcs, err := newCuttingPlan(s, r, export.Options{Curves: export.ArcsR12})
		require.NoError(t, err)
		assert.ErrorContains(t, looked(key, drawnFrom(t, key, arcs, s, r, o), arcs, s, r, o), "is an arc, but chords were asked for")
	}
}

// What is wrong with a square of 10 mm, told by the number of the edge or vertex, from 1.
func TestWhatIsWrongWithALineIsToldByItsEdge(t *testing.T) {
	square := func(change func(es []plane.Edge) []plane.Edge) line {
		es := plane.Rect(plane.Box{Max: plane.Pt(10, 10)}).Reverse().Edges()
		if change != nil {
			es = change(es)
		}
		return line{as: forOpening, copy: 1, number: 1, closed: true, edges: es}
	}
	arc := func(k int, bulge float64) func(es []plane.Edge) []plane.Edge {
		return func(es []plane.Edge) []plane.Edge { es[k].Bulge = bulge; return es }
	}
	drop := func(k int) func(es []plane.Edge) []plane.Edge {
		return func(es []plane.Edge) []plane.Edge { return slices.Delete(es, k, k+1) }
	}
	move := func(k int, by float64) func(es []plane.Edge) []plane.Edge {
		return func(es []plane.Edge) []plane.Edge {
			es[k].B = es[k].B.Add(es[k].Tangent(1).Mul(by))
			es[(k+1)%len(es)].A = es[k].B
			return es
		}
	}
	chords := export.Options{Curves: export.Chords}
	assert.NoError(t, square(nil).fit(chords, false))
	assert.ErrorContains(t, square(arc(2, 0.1)).fit(chords, false), "edge 3 is an arc")
	assert.ErrorContains(t, square(drop(2)).fit(chords, false), "edge 3 does not begin where the one before ends")
	assert.ErrorContains(t, square(move(1, shortestEdge/2-10)).fit(chords, false), "edge 2 at x ")
	for _, c := range []struct {
		file, plan line
		says       string
	}{
		{square(drop(3)), square(nil), "ends after 3 of its 4 edges"},
		{square(nil), square(drop(3)), "has 1 edges more than the plan's"},
		{square(move(1, 1)), square(nil), "vertex 3 lies 1.000000 mm from where the plan has it"},
		{square(arc(2, 0.1)), square(nil), "edge 3 is a counter-clockwise arc, the plan's a straight line"},
		{square(arc(2, -0.1)), square(arc(2, 0.1)), "edge 3 is a clockwise arc, the plan's a counter-clockwise arc"},
		{square(arc(1, 0.2)), square(arc(1, 0.1)), "edge 2, an arc, lies 0.500000 mm from where the plan has it"}, // sagittas of bulge x 5 mm
	} {
		_, err := c.file.along(c.plan)
		assert.ErrorContains(t, err, c.says)
	}
	length, err := square(arc(1, 1)).along(square(arc(1, 1)))
	assert.NoError(t, err)
	assert.InDelta(t, 30+5*math.Pi, length, 1e-9)
}

// An open line, gone along there and back, encloses nothing and is twice as long.
func TestAnOpenLineThereAndBackEnclosesNothing(t *testing.T) {
	for _, bulge := range []float64{0, 0.3, -0.8} {
		es := plane.Chain{{A: plane.Pt(0, 0), B: plane.Pt(4, 1), Bulge: bulge}, {A: plane.Pt(4, 1), B: plane.Pt(5, 6), Bulge: -bulge / 2}}
		l := line{edges: es}.shape()
		assert.InDelta(t, 0, l.Area(), 1e-12)
		assert.InDelta(t, 2*es.Len(), l.Len(), 1e-9)
		assert.Less(t, l.Nearest(es[1].At(0.4)).D, 1e-12)
	}
}

func TestAFileOfTheWrongUnitOrReleaseIsRefused(t *testing.T) {
	p, s, r := twoCopies(t)
	for _, c := range []struct {
		key, from, to, says string
		o                   export.Options
	}{
		{"dxf", "$INSUNITS\n 70\n4\n", "$INSUNITS\n 70\n1\n", "the header's units", export.Options{}},
		{"dxf", "$MEASUREMENT\n 70\n1\n", "$MEASUREMENT\n 70\n0\n", "the header's units", export.Options{}},
		{"dxf", "AC1015", "AC1009", "release", export.Options{}},
		{"dxf", "Units: millimetres", "Units: inches", "units", export.Options{Curves: export.ArcsR12}},
		{"dxf", "OPENINGS\n 66\n1\n", "OPENINGS\n 66\n0\n", "vertices follow", export.Options{Curves: export.ArcsR12}},
		{"dxf", "OPENINGS\n", "openings\n", "a line on layer", export.Options{}},
		{"dxf", "  0\nEOF\n", "", "where a section should begin", export.Options{}},
		{"dxf", "  0\nSEQEND\n", "", "POLYLINE", export.Options{Curves: export.ArcsR12}},
		{"dxf", " 20\n", " 30\n", "y", export.Options{Curves: export.ArcsR12}},
		{"dxf", "LINE\n  5\n", "LINE\n 62\n1\n  5\n", "group 62 does not belong", export.Options{}},
		{"svg", "mm\" height", "in\" height", "a user unit must be 1 mm", export.Options{}},
		{"svg", "viewBox=\"0 0 ", "viewBox=\"0 0 1", "a user unit must be 1 mm", export.Options{}},
		{"svg", "Units: millimetres", "Units: points", "units", export.Options{}},
		{"svg", "<g id=\"copy-1-openings\"", "<g transform=\"scale(2)\" id=\"copy-1-openings\"", "must not have transform", export.Options{}},
		{"svg", "copy-2-opening-3\"", "copy-2-opening-4\"", "stands twice", export.Options{}},
		{"svg", "copy-2-opening-3\"", "copy-2-opening-7\"", "opening 3 of copy 2: the file names it opening 7 of copy 2", export.Options{}},
		{"svg", svgPath(string(drawnFrom(t, "svg", p, s, r, export.Options{Copies: 2})), "copy-2-opening-3"), "", "opening 3 of copy 2: is missing", export.Options{}},
		{"svg", "</svg>", "", "not whole", export.Options{}},
		{"svg", "</g>", "</a>", "ends where it is not open", export.Options{}},
		{"svg", "Z\"", "ZM1 1Z\"", "one line from M to Z makes a path", export.Options{}},
		{"svg", " 0 0 1 ", " 0 1 1 ", "7 numbers", export.Options{}},
		{"svg", "<path", "<rect/><path", "does not belong in a cut file", export.Options{}},
	} {
		c.o.Copies = 2
		good := drawnFrom(t, c.key, p, s, r, c.o)
		require.NoError(t, looked(c.key, good, p, s, r, c.o))
		bad := strings.Replace(string(good), c.from, c.to, -1)
		require.NotEqual(t, string(good), bad, c.from)
		err := looked(c.key, []byte(bad), p, s, r, c.o)
		var e *export.ReadBackError
		require.ErrorAs(t, err, &e, "%q", c.from)
		assert.ErrorContains(t, err, c.says)
	}
}

// svgPath returns the element of a path.
func svgPath(svg, id string) string {
	from := strings.Index(svg, "<path id=\""+id+"\"")
	return svg[from : from+strings.Index(svg[from:], "/>")+2]
}

// Whatever is cut off a file or changed in it, it is refused or the same lines are read.
func TestNoCutOffFileIsLetThrough(t *testing.T) {
	p, s, r := twoCopies(t)
	for _, f := range fileFormats {
		good := drawnFrom(t, f.key, p, s, r, f.o)
		for n := 0; n < len(good)-1; n += 1 + len(good)/97 {
			assert.Error(t, looked(f.key, good[:n], p, s, r, f.o), "%s cut off after %d bytes", f.key, n)
		}
	}
}

// Whatever is in a file, reading it comes to an end with a verdict.
func TestNoChangedByteMakesTheReadBackPanic(t *testing.T) {
	p, s, r := twoCopies(t)
	const seed, letters = 7, "\x00\n 019-.AELMZ<>\"/"
	rnd := rand.New(rand.NewPCG(seed, 0))
	for _, f := range fileFormats {
		good := drawnFrom(t, f.key, p, s, r, f.o)
		refused := 0
		for range 400 {
			bad := bytes.Clone(good)
			for range 1 + rnd.IntN(3) {
				bad[rnd.IntN(len(bad))] = letters[rnd.IntN(len(letters))]
			}
			if looked(f.key, bad, p, s, r, f.o) != nil {
				refused++
			}
		}
		// The notes and the tables of the DXF, in which there may be much, take up half of it.
		assert.Greater(t, refused, 100, "%s, seed %d", f.key, seed)
	}
}

func TestTheReadBackReadsEveryRealFile(t *testing.T) {
	for name, s := range sample.Gallery(t) {
		r := check.Run(s)
		for _, o := range []export.Options{{}, {Curves: export.ArcsR12, LeadMM: 1, Copies: 2}, {KerfMM: 0.05, Curves: export.Chords, LeadMM: 0.5, Tabs: 3}} {
			require.NoError(t, madeAndReadBack(s, r, o), "%s %+v", name, o)
		}
	}
	s, r := sample.Engraved(t)
	require.NoError(t, madeAndReadBack(s, r, export.Options{}), "openings over the seam, engraving")
}
