package check

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"fretband/pattern"
	"fretband/pattern/motif"
	"fretband/pattern/project"
	"fretband/testdata"
	"fretband/unroll"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sane is a design as a maker would choose it: sheet, bridges, rims and corners that are
// usual for how it is cut.
type sane struct {
	kind, motif, process, alloy string
	inside                      float64 // mm: the greater axis, or round
	wide, sheet                 float64
	rows                        int
	bridge, rim                 float64
}

const (
	silver, brass, copper = "sterling-925", "brass-cuzn30", "copper"
	gold, platinum        = "gold-750-yellow", "platinum-950-ruthenium"
)

// saneDesigns are kinds of bands by motifs in sizes that are usual: 24 to 45 mm wide cuffs and
// bangles of 1 to 1.5 mm, rings of 7 to 12 mm and 1 to 1.8 mm (common practice).
var saneDesigns = []sane{
	{"cuff", "triangles", "saw", silver, 60, 30, 1.2, 3, 1.2, 2},
	{"cuff", "diamonds", "saw", brass, 62, 35, 1.2, 3, 1.4, 2},
	{"cuff", "squares", "", copper, 60, 25, 1, 2, 1.5, 2},
	{"cuff", "hexagons", "laser", silver, 58, 30, 1.2, 3, 1.3, 2},
	{"cuff", "chevrons", "laser", brass, 62, 40, 1.2, 4, 1.5, 2.5},
	{"cuff", "lattice", "laser", silver, 60, 32, 1.2, 3, 1.4, 2},
	{"cuff", "circles", "saw", copper, 60, 28, 1.2, 3, 1.5, 2},
	{"cuff", "leaves", "saw", silver, 58, 30, 1, 3, 1.2, 2},
	{"cuff", "petals", "laser", silver, 60, 36, 1.2, 3, 1.3, 2},
	{"cuff", "teardrops", "", brass, 60, 30, 1.2, 2, 1.5, 2},
	{"cuff", "waves", "laser", silver, 62, 30, 1.2, 3, 1.6, 2},
	{"cuff", "quatrefoils", "laser", silver, 60, 34, 1.2, 3, 1.4, 2},
	{"bangle", "lancets", "saw", silver, 62, 24, 1.3, 1, 1.5, 2},
	{"bangle", "circles", "laser", silver, 64, 20, 1.3, 2, 1.4, 2},
	{"bangle", "ellipses", "saw", brass, 62, 22, 1.4, 3, 1.5, 2},
	{"bangle", "scallops", "laser", silver, 63, 18, 1.5, 2, 1.5, 2},
	{"bangle", "bricks", "laser", brass, 64, 24, 1.2, 4, 1.4, 2},
	{"bangle", "hexagons", "etch", copper, 62, 26, 0.8, 3, 1.2, 1.5},
	{"bangle", "ogees", "saw", silver, 60, 24, 1.2, 2, 1.4, 2},
	{"bangle", "trefoils", "laser", silver, 62, 20, 1.3, 1, 1.5, 2},
	{"bangle", "squares", "cast", silver, 64, 16, 1.8, 2, 1.8, 2},
	{"bangle", "diamonds", "cast", "bronze-c51000", 62, 20, 1.8, 2, 1.8, 2.2},
	{"ring", "circles", "saw", gold, 17.5, 8, 1.3, 1, 1.4, 1.6},
	{"ring", "lancets", "laser", gold, 18, 9, 1.3, 1, 1.3, 1.4},
	{"ring", "diamonds", "laser", silver, 19, 10, 1.2, 1, 1.2, 1.4},
	{"ring", "squares", "saw", silver, 18, 10, 1.2, 1, 1.4, 1.6},
	{"ring", "hexagons", "laser", platinum, 17, 9, 1, 2, 1, 1.2},
	{"ring", "leaves", "cast", gold, 17.5, 8, 1.5, 1, 1.2, 1.4},
	{"ring", "triangles", "cast", silver, 19, 12, 1.5, 2, 1.2, 1.5},
	{"ring", "chevrons", "laser", "titanium-2", 20, 12, 1.5, 1, 1.5, 1.6},
}

func (n sane) design() pattern.Design {
	b := unroll.Band{
		Kind: n.kind, Thickness: unroll.Thickness{MM: n.sheet}, NeutralK: 0.5, WidthMM: n.wide, EndWidthMM: n.wide,
		Inside: unroll.Inside{By: unroll.ByAxes, WidthMM: n.inside, HeightMM: n.inside},
	}
	corner := math.Max(0.3, 0.25*n.sheet) // as sawn or cast
	switch {
	case n.kind == unroll.Cuff:
		b.Inside.HeightMM, b.GapMM, b.EndCornerMM, b.EndWidthMM = 0.8*n.inside, 28, 5, 0.75*n.wide
	case n.process == "cast":
		b.Joint, b.Making, b.Drawn = unroll.Seamless, unroll.Formed, unroll.InnerFace
	default:
		b.Joint, b.JointMM = unroll.Soldered, 3
	}
	if n.process == "etch" {
		corner = n.sheet
	}
	m, _ := motif.ByKey(n.motif)
	row := (n.wide - 2*n.rim) / float64(n.rows)
	return pattern.Design{
		Name: fmt.Sprintf("%s of %s, %s", n.kind, n.motif, n.process), Band: b, Metal: pattern.Metal{Alloy: n.alloy},
		Rules: pattern.DesignRules{BridgeMM: n.bridge, RimMM: n.rim, CornerMM: corner, SmallestMM: math.Max(1.2, n.sheet), Process: n.process},
		Fields: []pattern.Field{{
			Motif: n.motif, Rows: n.rows, Stagger: m.Usual.Stagger,
			Repeats: max(3, int(math.Round(math.Pi*(b.Inside.WidthMM+b.Inside.HeightMM)/2/(m.Usual.Aspect*row)))),
		}},
	}
}

// saneOnes are all designs of the gallery and all forms, and those above.
func saneOnes(t *testing.T) []pattern.Design {
	t.Helper()
	var ds []pattern.Design
	for _, list := range [][]testdata.Entry{testdata.Gallery(), testdata.Forms()} {
		for _, e := range list {
			d, err := project.Read(bytes.NewReader(e.JSON))
			require.NoError(t, err, e.Name)
			d.Name = e.Name
			ds = append(ds, d)
		}
	}
	for _, n := range saneDesigns {
		ds = append(ds, n.design())
	}
	return ds
}

func TestNoWordsSayThatNothingNeedBeDone(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		source, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.NotContains(t, strings.ToLower(string(source)), "nothing need be done", file)
	}
}

// A finding is something to decide, so a sane design has few and nothing amber.
func TestASaneDesignHasFewFindingsAndNoCaution(t *testing.T) {
	ds := saneOnes(t)
	counts := make([]int, len(ds))
	var lines sync.Map
	t.Run("each", func(t *testing.T) {
		for i, d := range ds {
			t.Run(d.Name, func(t *testing.T) {
				s, r, err := Lay(d)
				require.NoError(t, err)
				require.NotZero(t, r.Openings)
				r = Strengthen(context.Background(), s, Deepen(s, r), Unasked())
				counts[i] = len(r.Findings)
				lines.Store(i, fmt.Sprintf("%-32s %d\n%s", d.Name, len(r.Findings), tell(r.Findings)))
				for _, f := range r.Findings {
					assert.Equal(t, Note, f.Severity, "%s: %s", f.Kind.Key, f.What)
					assert.NotContains(t, strings.ToLower(f.What+f.Why+f.Mend), "nothing need be done")
				}
			})
		}
	})
	for i := range ds {
		if l, ok := lines.Load(i); ok {
			t.Log(l)
		}
	}
	slices.Sort(counts)
	t.Logf("median %d, most %d", counts[len(counts)/2], counts[len(counts)-1])
	assert.LessOrEqual(t, counts[len(counts)/2], 2)
}
