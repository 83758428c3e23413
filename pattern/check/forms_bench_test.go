package check

import (
	"fmt"
	"testing"

	"fretband/pattern"
	"fretband/unroll"
)

// BenchmarkForms is BenchmarkCompute, laying and checking apart, for the other
// forms of band: cells that follow the width, cells on the arc of a flared band
// (no two of which need be the same loop moved), domed and formed bands, which are
// measured by their volume.
func BenchmarkForms(b *testing.B) {
	round := func(d *pattern.Design) {
		d.Band.Inside = unroll.Inside{By: unroll.ByCircumference, CircumferenceMM: 180, Ratio: 1}
	}
	follow := func(d *pattern.Design) { d.Fields[0].Follow = pattern.FollowWidth }
	flared := func(d *pattern.Design) { round(d); d.Band.FlareDeg = 10 }
	for _, n := range []int{200, 2000} {
		for _, c := range []struct {
			name   string
			change func(*pattern.Design)
		}{
			{"straight-sides", func(d *pattern.Design) { d.Band.Inside.By = unroll.BySides }},
			{"follow-width", follow},
			{"flared", flared},
			{"flared-follow-width", func(d *pattern.Design) { flared(d); follow(d) }},
			{"domed", func(d *pattern.Design) {
				d.Band.Dome, d.Band.DomeRadiusMM, d.Band.DomeFlat = unroll.Outward, 60, unroll.EqualArea
			}},
			{"formed", func(d *pattern.Design) { d.Band.Making, d.Band.Drawn = unroll.Formed, unroll.InnerFace }},
		} {
			d := bigDesign(n)
			c.change(&d)
			s, err := pattern.Lay(d)
			if err != nil {
				b.Fatal(err)
			}
			b.Run(fmt.Sprintf("lay/%s/%d", c.name, n), func(b *testing.B) {
				for range b.N {
					if _, err := pattern.Lay(d); err != nil {
						b.Fatal(err)
					}
				}
			})
			b.Run(fmt.Sprintf("check/%s/%d", c.name, n), func(b *testing.B) {
				for range b.N {
					Run(s)
				}
			})
		}
	}
}
