package pages

import (
	"math"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Compare shows designs side by side: variants, and ways to a weight.
type Compare struct{ *Desk }

// candidate is one of several designs that are looked at side by side.
type candidate struct {
	title   string
	says    string // what is different, or what stands in the way
	bad     bool
	scene   *app.Scene
	buttons []fyne.CanvasObject
}

// The columns' widths: the first holds the figures' names.
const (
	namesWidth     = 104
	candidateWidth = 190
	pictureHeight  = 64
	saysHeight     = 96
)

// sideRows are the figures by which designs are compared.
var sideRows = []struct {
	name, unit string
	of         func(*check.Report) float64
	decimals   int
	shown      func(*check.Report) bool // the row
	has        func(*check.Report) bool // a figure; nil if every design has it
}{
	{"Weight left", "g", func(r *check.Report) float64 { return r.Left }, 2, nil, nil},
	{"Taken out", "%", func(r *check.Report) float64 { return 100 * share(r.Removed, r.Plain) }, 1, nil, nil},
	{"Metal costs", "", func(r *check.Report) float64 { return r.Cost }, 2, func(r *check.Report) bool { return r.Cost > 0 }, nil},
	{"Thinnest bridge", "mm", func(r *check.Report) float64 { return r.Thinnest.Width }, 2, nil, func(r *check.Report) bool { return !r.Thinnest.None() }},
	{"Bridge rule", "mm", func(r *check.Report) float64 { return r.Rule }, 2, nil, nil},
	{"Weakest section", "% metal", func(r *check.Report) float64 { return 100 * share(r.Net.WeakNet, r.Net.WeakFull) }, 0, nil, nil},
	{"Stiffness", "N/mm", func(r *check.Report) float64 { return 1 / r.Strength.Cases[0].PerN }, 2, solved, solved},
	{"Bridges yield", "mm", func(r *check.Report) float64 { return r.Strength.Cases[0].BridgeYield }, 2, yields, yields},
	{"with a force of", "N", func(r *check.Report) float64 { c := r.Strength.Cases[0]; return c.BridgeYield / c.PerN }, 1, yields, yields},
	{"Openings", "", func(r *check.Report) float64 { return float64(r.Openings) }, 0, nil, nil},
	{"Left solid", "", func(r *check.Report) float64 { return float64(r.Dropped) }, 0, nil, nil},
	{"Length of cut", "mm", func(r *check.Report) float64 { return r.CutLength }, 0, nil, nil},
	{"Cautions", "", func(r *check.Report) float64 { return float64(cautions(r)) }, 0, nil, nil},
}

// solved reports whether it is known how a design carries load, yields whether its proof
// stress is known as well.
func solved(r *check.Report) bool { return r.Strength != nil }
func yields(r *check.Report) bool { return solved(r) && r.Strength.Cases[0].BridgeYield > 0 }

func share(a, of float64) float64 {
	if of == 0 {
		return 1
	}
	return a / of
}

func cautions(r *check.Report) int {
	n := 0
	for _, f := range r.Findings {
		if f.Open() {
			n++
		}
	}
	return n
}

// sideBySide shows designs in columns with their pictures and figures. What
// differs from the first column is written beside each figure.
func (cm Compare) sideBySide(all []candidate) fyne.CanvasObject {
	k := cm.Kit
	widths := []float32{namesWidth}
	for range all {
		widths = append(widths, candidateWidth)
	}
	row := func(height float32, objs ...fyne.CanvasObject) fyne.CanvasObject {
		return container.New(kit.Columns{Widths: widths, Gap: 12, Height: height}, objs...)
	}
	rows := kit.Down(3)
	line := func(height float32, name string, of func(i int, c candidate) fyne.CanvasObject) {
		objs := []fyne.CanvasObject{k.Label(name, kit.Soft)}
		for i, c := range all {
			objs = append(objs, of(i, c))
		}
		rows.Add(row(height, objs...))
	}
	line(22, "", func(_ int, c candidate) fyne.CanvasObject { return k.Label(c.title, kit.Strong) })
	line(pictureHeight, "", func(_ int, c candidate) fyne.CanvasObject {
		return cm.Thumb(c.scene, candidateWidth, pictureHeight)
	})
	line(saysHeight, "", func(_ int, c candidate) fyne.CanvasObject {
		v := kit.Caption
		if c.bad {
			v = kit.Warn
		}
		return kit.Sized(candidateWidth, saysHeight, container.NewVScroll(k.Passage(c.says, v, candidateWidth-8)))
	})
	for _, f := range sideRows {
		any := false
		for _, c := range all {
			any = any || c.scene != nil && (f.shown == nil || f.shown(c.scene.Report))
		}
		if !any {
			continue
		}
		line(21, f.name, func(i int, c candidate) fyne.CanvasObject {
			if c.scene == nil {
				return k.Label(noFigure, kit.Plain)
			}
			has := func(r *check.Report) bool { return f.has == nil || f.has(r) }
			text, more := noFigure, ""
			if has(c.scene.Report) {
				v := f.of(c.scene.Report)
				text = decimals(v, f.decimals)
				if i > 0 && all[0].scene != nil && has(all[0].scene.Report) {
					if d := v - f.of(all[0].scene.Report); math.Abs(d) >= 0.5*math.Pow(10, -float64(f.decimals)) {
						more = pattern.Say("%+.*f", f.decimals, d)
					}
				}
			}
			return container.New(kit.Columns{Widths: []float32{62, 50, 0}, Gap: 6, Height: 20},
				k.Label(text, kit.Strong).Right(), k.Label(f.unit, kit.Soft), k.Label(more, kit.Caption))
		})
	}
	line(30, "", func(_ int, c candidate) fyne.CanvasObject {
		return kit.Along(6, c.buttons...)
	})
	return rows
}

// sideways lets a wide object be moved sideways in a dialog, as wide as the window
// allows.
func (cm Compare) sideways(o fyne.CanvasObject) fyne.CanvasObject {
	m := o.MinSize()
	room := cm.Width() - 90
	if m.Width <= room {
		return o
	}
	return kit.Sized(room, m.Height+12, container.NewHScroll(o))
}
