package bent

import (
	"fmt"
	"math"
	"time"

	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/mesh"
	"fretband/pattern/view3d"
	"fretband/unroll"
)

// Solid is a laid band, bent, made in the background.
type Solid struct {
	scene     *view3d.Scene
	tone      kit.Metal
	finger    bool // it is worn on a finger, not on a wrist
	Triangles int
	Took      time.Duration
	Err       error
}

// Bend makes the solid of a sheet.
func Bend(s *pattern.Sheet) Solid {
	t := time.Now()
	m, err := mesh.Build(s, mesh.Options{Tolerance: mesh.Screen, Lids: true})
	if err != nil {
		return Solid{Err: fmt.Errorf("the bent band can't be drawn: %w", err)}
	}
	return Solid{scene: view3d.NewScene(m).Engrave(engravedLines(s)), tone: kit.MetalOf(s.Design.Metal.Alloy), finger: s.Design.Band.OnFinger(), Triangles: len(m.Triangles), Took: time.Since(t)}
}

// engravedStep is the longest piece of an engraved line on the bent band, mm: over it a
// finger ring bends by a hundredth of a millimetre.
const engravedStep = 0.5

// engravedLines are the engravings of a sheet on the outer face of the bent band.
func engravedLines(s *pattern.Sheet) [][]unroll.Point3 {
	var lines [][]unroll.Point3
	for _, m := range s.Engravings {
		for _, st := range m.Strokes {
			var l []unroll.Point3
			for i, e := range st.Edges() {
				n := int(math.Ceil(e.Len() / engravedStep))
				if !e.IsLine() {
					n = max(n, int(math.Ceil(math.Abs(e.Sweep())/0.4)))
				}
				for k := range n + 1 {
					if i > 0 && k == 0 {
						continue
					}
					l = append(l, s.Flat.Bend(e.At(float64(k)/float64(n)), s.Flat.Thickness))
				}
			}
			lines = append(lines, l)
		}
	}
	return lines
}
