package check

import (
	"bytes"
	"strings"
	"testing"

	"fretband/pattern"
	"fretband/pattern/project"
	"fretband/testdata"
	"fretband/unroll/plane"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fault says what must be found in a design drawn by hand with one fault: the check,
// its size and one of its places. All are worked out from the drawing by hand.
type fault struct {
	name  string
	check string
	value float64
	at    plane.Point
	why   string // how value and place follow from the drawing
}

var faultsDrawn = []fault{
	{"tongue", "tongue", 7.8771, plane.Pt(10, -3),
		"the disc of 2 mm (twice the sheet) rests on the slot's two upper corners of 0.3 mm, whose centres are 2.1 mm apart at 4.7: it touches them at 4.7 + 0.3/1.3 sqrt(1.3^2-1.05^2) = 4.8769; the tip is at -3"},
	{"metal-point", "metal point", 20, plane.Pt(-20, 0), "as drawn: 20 degrees, at 1 - 1"},
	{"sharp-corner", "sharp corner", 0, plane.Pt(4, 4), "a square of 8 mm about the middle, not rounded"},
}

// read returns a design of testdata/faults, laid.
func read(t *testing.T, name string) *pattern.Sheet {
	t.Helper()
	for _, e := range testdata.Faults() {
		if e.Name == name {
			d, err := project.Read(bytes.NewReader(e.JSON))
			require.NoError(t, err, name)
			s, err := pattern.Lay(d)
			require.NoError(t, err, name)
			require.NotEmpty(t, s.Openings, name)
			for _, o := range s.Openings {
				require.NoError(t, o.Loop.Check(), name)
			}
			return s
		}
	}
	t.Fatalf("no design %q", name)
	return nil
}

func TestEachDrawnFaultIsFoundWithItsPlaceAndSize(t *testing.T) {
	for _, c := range faultsDrawn {
		t.Run(c.name, func(t *testing.T) {
			found := All(read(t, c.name)).Findings
			ok := false
			for _, f := range found {
				if f.Check != c.check || f.Severity < Caution {
					continue
				}
				near := false
				for _, p := range f.At {
					near = near || p.Dist(c.at) <= 0.05
				}
				if near && assert.InDelta(t, c.value, f.Value, 0.01*c.value+1e-6, "%s: %s", c.why, f.What) {
					ok = true
					assert.NotEmpty(t, f.Why)
					assert.NotEmpty(t, f.Mend)
				}
			}
			assert.True(t, ok, "no %s of %g at %v (%s) in:\n%s", c.check, c.value, c.at, c.why, tell(found))
		})
	}
}

func TestWhatIsMendedIsNoLongerTold(t *testing.T) {
	for _, c := range faultsDrawn {
		for _, f := range All(read(t, c.name+"-mended")).Findings {
			assert.False(t, f.Check == c.check && f.Severity >= Caution, "%s: %s", c.name, f.What)
		}
	}
}

func tell(fs []Finding) string {
	var b strings.Builder
	for _, f := range fs {
		b.WriteString(f.Severity.String() + " " + f.Check + ": " + f.What + "\n")
	}
	return b.String()
}
