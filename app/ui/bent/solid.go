package bent

import (
	"fmt"
	"time"

	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/mesh"
	"fretband/pattern/view3d"
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
	return Solid{scene: view3d.NewScene(m).Engrave(mesh.Engraved(s)), tone: kit.MetalOf(s.Design.Metal.Alloy), finger: s.Design.Band.OnFinger(), Triangles: len(m.Triangles), Took: time.Since(t)}
}
