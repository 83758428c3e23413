package bent

import (
	"fmt"
	"time"

	"fretband/app/ui/kit"
	"fretband/export/picture"
	"fretband/pattern"
	"fretband/pattern/mesh"
	"fretband/pattern/view3d"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// Solid is a laid band, bent, made in the background.
type Solid struct {
	Triangles int
	Took      time.Duration
	Err       error
	// Load is what the band is drawn under, nil for none.
	Load *picture.StressMap
	// Plain says that it is the band before it is pierced.
	Plain bool

	sheet  *pattern.Sheet
	rest   *view3d.Scene // without load
	scene  *view3d.Scene // as it is drawn
	tone   kit.Metal
	finger bool // it is worn on a finger, not on a wrist
}

// ToBend is a sheet whose solid is to be made, and the load that it is drawn under.
type ToBend struct {
	Sheet *pattern.Sheet
	Load  *picture.StressMap // nil for none
	Plain bool               // before it is pierced, and under no load
	Last  Solid              // the solid before: of the same sheet it is not bent anew
}

// Bend makes the solid of a sheet.
func Bend(to ToBend) Solid {
	t := time.Now()
	b := to.Last
	if b.sheet != to.Sheet || b.Plain != to.Plain {
		sheet := *to.Sheet
		if to.Plain {
			sheet.Openings, sheet.Added = nil, nil
		}
		m, err := mesh.Build(&sheet, mesh.Options{Tolerance: mesh.Screen, Lids: true})
		if err != nil {
			return Solid{Err: fmt.Errorf("the bent band can't be drawn: %w", err)}
		}
		d := to.Sheet.Design
		b = Solid{sheet: to.Sheet, Plain: to.Plain, Triangles: len(m.Triangles), tone: kit.MetalOf(d.Metal.Alloy), finger: d.Band.OnFinger()}
		b.rest = view3d.NewScene(m).Engrave(mesh.Engraved(to.Sheet, nil)).With(mesh.Added(&sheet, nil))
	}
	b.Load = nil
	if !to.Plain {
		b.Load = to.Load
	}
	if b.scene = b.rest; b.Load != nil {
		how := b.Load.Moving()
		b.scene = b.rest.Moved(how).Engrave(mesh.Engraved(b.sheet, how)).With(mesh.Added(b.sheet, how))
	}
	b.Took = time.Since(t)
	return b
}

// kind is what the band is: a cuff, a bangle, a ring; empty without one.
func (b *Solid) kind() string {
	if b.sheet == nil {
		return ""
	}
	return b.sheet.Design.Band.Kind
}

// onFace returns where a position of a blank is on the outer face as it is drawn.
func (b *Solid) onFace(f unroll.Flat, p plane.Point) unroll.Point3 {
	if b.Load == nil {
		return mesh.OnFace(f, p, nil)
	}
	return mesh.OnFace(f, p, b.Load.Moving())
}
