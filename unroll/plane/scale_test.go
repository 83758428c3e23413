package plane

import (
	"flag"
	"math"
	"testing"
)

var scaleFlag = flag.Int("scale", 200, "number of random cases of the tests at scale")

// The promises of overlays and offsets over all sorts of pairs, degenerate ones
// too. Run many with: go test -run AtScale -args -scale 100000
func TestOverlaysAndOffsetsKeepTheirPromisesAtScale(t *testing.T) {
	r := seeded(t)
	for range *scaleFlag {
		kind, a, b, _ := judgePair(r)
		checkPoints(t, kind, a, b, r)
		d := criticalOffset(r, a)
		o := a.Offset(d)
		checkOffset(t, kind, a, d, o, r.Float64)
		if d < 0 && o.Area() > a.Area()+1e-6 || d > 0 && o.Area() < a.Area()-1e-6 {
			t.Fatalf("%s by %g: area %g becomes %g: %#v", kind, d, a.Area(), o.Area(), a)
		}
		if g := Nearest(a[0], b[0]); math.Abs(g.A.Dist(g.B)-g.D) > 1e-9 || a[0].Nearest(g.A).D > Snap || b[0].Nearest(g.B).D > Snap {
			t.Fatalf("%s: gap %v of %#v and %#v", kind, g, a[0], b[0])
		}
	}
}
