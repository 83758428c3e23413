package pages

import (
	"fmt"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll/plane"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
)

// Figures shows what the report measures: three that are read across a table,
// then the rest, right-aligned with their units. It computes nothing.
type Figures struct {
	kit  *kit.Kit
	Root fyne.CanvasObject
	Big  [3]*bigFigure
	Rows []*FigureRow
	// OnChoose goes to places of a figure that is clicked; OnRing marks them again in a new
	// report, without going there.
	OnChoose, OnRing func([]plane.Point)

	shown  *check.Report
	chosen *placed
}

type bigFigure struct {
	Value, unit, under *kit.Label
	of                 func(*check.Report) (value, unit, under string)
}

type FigureRow struct {
	Name, Value, unit *kit.Label
	Box               *fyne.Container
	Press             *placed // nil if it has no places
	of                func(*check.Report) (value, unit string)
	shown             func(*check.Report) bool
}

const noFigure = "\u2013" // a dash, where there is no figure

func NewFigures(k *kit.Kit) *Figures {
	f := &Figures{kit: k}
	f.Big = [3]*bigFigure{
		{of: func(r *check.Report) (string, string, string) {
			return decimals(r.Left, 2), "g", "weight left"
		}},
		{of: func(r *check.Report) (string, string, string) {
			if r.Thinnest.None() {
				return noFigure, "", "thinnest bridge"
			}
			return decimals(r.Thinnest.Width, 2), "mm", "thinnest bridge"
		}},
		{of: func(r *check.Report) (string, string, string) {
			return decimals(100*r.OpenShare, 1), "%", "open"
		}},
	}
	tips := [3]string{
		"What the pierced band weighs, flat or bent. An estimate from the drawing: filing and polishing take more.",
		"The smallest width of metal anywhere, marked on the blank with its two points.",
		"The area of all openings as a share of the blank's.",
	}
	var tiles []fyne.CanvasObject
	for i, b := range f.Big {
		b.Value = k.Label(noFigure, kit.Big).Teach(tips[i])
		b.unit = k.Label("", kit.Soft)
		b.under = k.Label("", kit.Caption).Teach(tips[i])
		tiles = append(tiles, kit.Inset(0, 0, 6, 0, kit.Down(0, container.New(valueAndUnit{}, b.Value, b.unit), b.under)))
	}
	rows := kit.Down(1)
	add := func(name, tip string, of func(*check.Report) (string, string), shown func(*check.Report) bool) {
		r := &FigureRow{of: of, shown: shown}
		r.Name = k.Label(name, kit.Plain).Teach(tip)
		r.Value = k.Label(noFigure, kit.Strong).Right()
		r.unit = k.Label("", kit.Soft)
		wide := r.Name.MinSize().Width // a short name leaves room for a long value
		r.Box = container.New(kit.Columns{Widths: []float32{wide, 0, 40}, Gap: 6, Height: 21}, r.Name, r.Value, r.unit)
		f.Rows = append(f.Rows, r)
		rows.Add(r.Box)
	}
	places := func(of func(*check.Report) []plane.Point) {
		r := f.Rows[len(f.Rows)-1]
		r.Press = newPlaced(f, container.New(r.Box.Layout, r.Box.Objects...), of)
		r.Box.Layout, r.Box.Objects = layout.NewStackLayout(), []fyne.CanvasObject{r.Press}
		r.Name.Tip += " Click to see where."
	}
	add("Plain band", "The band before piercing.", func(r *check.Report) (string, string) { return decimals(r.Plain, 2), "g" }, nil)
	add("Taken out", "The metal of all openings: scrap that can be returned where it is cut out whole.", func(r *check.Report) (string, string) { return decimals(r.Removed, 2), "g" }, nil)
	add("Metal left costs", "Weight left times your price per gram.", func(r *check.Report) (string, string) { return decimals(r.Cost, 2), r.Currency },
		func(r *check.Report) bool { return r.Cost > 0 })
	add("Bridge rule", "What no bridge may be thinner than, and what stays along the edges if that is more.", func(r *check.Report) (string, string) {
		if r.EdgeRule > r.Rule+1e-9 {
			return fmt.Sprintf("%s, edge %s", decimals(r.Rule, 2), decimals(r.EdgeRule, 2)), "mm"
		}
		return decimals(r.Rule, 2), "mm"
	}, nil)
	add("Openings", "Each needs a pilot hole and a start of the saw.", func(r *check.Report) (string, string) { return fmt.Sprint(r.Openings), "" }, nil)
	add("Left solid", "Places where the motif had room but no opening could be cut: too small, too narrow for the corners, or too near to others. It is a finding only where a quarter of the pattern is lost.", func(r *check.Report) (string, string) { return fmt.Sprint(r.Dropped), "" }, nil)
	places(func(r *check.Report) []plane.Point {
		var at []plane.Point
		for _, g := range r.LeftSolid {
			at = append(at, g.At...)
		}
		return at
	})
	add("Once finished", "About what filing and polishing leave of the thinnest bridge, by common practice for how it is cut. Draw bridges wider by what your finish takes.", func(r *check.Report) (string, string) {
		return decimals(r.Finished, 2), "mm"
	}, func(r *check.Report) bool { return !r.Thinnest.None() })
	add("Weakest section", "Where the least share of the width is metal, straight across: see the net section under the blank.", func(r *check.Report) (string, string) {
		return fmt.Sprintf("%s %%, %s of %s", decimals(100*share(r.Net.WeakNet, r.Net.WeakFull), 0), decimals(r.Net.WeakNet, 1), decimals(r.Net.WeakFull, 1)), "mm"
	}, func(r *check.Report) bool { return len(r.Net.X) > 0 })
	path := func(name, tip string, of func(check.WeakestPaths) check.WeakestPath) {
		add(name, tip, func(r *check.Report) (string, string) {
			c := of(r.Deep.WeakestPaths)
			return fmt.Sprintf("%s %%, %s", decimals(100*c.Share(), 0), decimals(c.Metal, 1)), "mm"
		}, func(r *check.Report) bool { return r.Deep != nil && !of(r.Deep.WeakestPaths).None() })
		places(func(r *check.Report) []plane.Point {
			if r.Deep == nil {
				return nil
			}
			return bridgeEnds(of(r.Deep.WeakestPaths).Bridges)
		})
	}
	path("Weakest across", "The way from edge to edge through the least metal, and its share of the full section: where the band would kink first. Under a quarter it is a finding.",
		func(w check.WeakestPaths) check.WeakestPath { return w.Across })
	path("Weakest along", "The way lengthwise through the least metal: all that holds the upper part of the band to the lower. Under a tenth it is a finding.",
		func(w check.WeakestPaths) check.WeakestPath { return w.Along })
	add("Held by least", "The piece of a fingernail's size or more that hangs on the least metal: the bridges that hold it together, and their share of the way round it. Under a tenth it is a finding.", func(r *check.Report) (string, string) {
		h := r.Deep.Attached.Least()
		return fmt.Sprintf("%s %%, %s", decimals(100*h.Round, 0), decimals(h.Metal, 1)), "mm"
	}, func(r *check.Report) bool { return r.Deep != nil && !r.Deep.Attached.Least().None() })
	places(func(r *check.Report) []plane.Point {
		if r.Deep == nil {
			return nil
		}
		return bridgeEnds(r.Deep.Attached.Least().Bridges)
	})
	strengthRows(add)
	add("Length of cut", "All openings and the outline.", func(r *check.Report) (string, string) { return decimals(r.CutLength, 0), "mm" }, nil)
	add("Engraved", "The lines of all marks, which are not cut: no other figure counts them.", func(r *check.Report) (string, string) { return decimals(r.EngravedLength, 0), "mm" },
		func(r *check.Report) bool { return r.Engravings > 0 })
	add("Added", "What is soldered or set on: stones by formulas of their size, bezels, wire and beads by their volume, parts as you typed. In no figure of the band above.", func(r *check.Report) (string, string) {
		return decimals(r.AddedGrams, 2), "g"
	}, func(r *check.Report) bool { return len(r.Added) > 0 })
	add("With that", "The pierced band and what is added, before it is finished.", func(r *check.Report) (string, string) {
		return decimals(r.Left+r.AddedGrams, 2), "g"
	}, func(r *check.Report) bool { return len(r.Added) > 0 })
	add("Added costs", "What you typed as prices of one, times their number; wire, beads and bezels without a price by the metal's.", func(r *check.Report) (string, string) {
		return decimals(r.AddedCost, 2), r.Currency
	}, func(r *check.Report) bool { return r.AddedCost > 0 })
	add("Blank", "Length and greatest width of the flat sheet.", func(r *check.Report) (string, string) {
		return fmt.Sprintf("%s x %s", decimals(r.BlankLen, 2), decimals(r.BlankWidth, 2)), "mm"
	}, nil)
	add("Thickness", "Of the sheet.", func(r *check.Report) (string, string) { return app.FormatNumber(r.Thickness, 3), "mm" }, nil)
	add("Inner radius", "The tightest bend, inside, and how many times the sheet's thickness that is. Under three times, cold bending asks for care, and a finding says so.", func(r *check.Report) (string, string) {
		return fmt.Sprintf("%s, %s x sheet", decimals(r.Hang.LeastRadius, 1), decimals(r.Hang.LeastRadius/r.Thickness, 0)), "mm"
	}, func(r *check.Report) bool { return r.Thickness > 0 })
	add("Bent size", "The box round the bent band: across, from back to front, and along its axis.", func(r *check.Report) (string, string) {
		return fmt.Sprintf("%s x %s x %s", decimals(r.Hang.Width, 1), decimals(r.Hang.Height, 1), decimals(r.Hang.Depth, 1)), "mm"
	}, nil)
	add("Bend it round", "The radius round which to bend so that it springs open to the mean radius of the inside, for a plain annealed strip: hardened metal springs back more, and a pierced band bends first where least metal stands. Try a strip of the same sheet.", func(r *check.Report) (string, string) {
		return fmt.Sprintf("%s for %s", decimals(r.Springback.Round, 1), decimals(r.Springback.Inside, 1)), "mm"
	}, func(r *check.Report) bool { return r.Springback.Round > 0 })
	add("Off balance", "How far the centre of gravity lies from the middle of the inside, and where. Worn loosely, a band turns until its heavy side hangs down. To bring it nearer to the middle, pierce more on the heavy side or make the gap smaller.", func(r *check.Report) (string, string) {
		return decimals(r.Hang.Off, 1), "mm"
	}, nil)
	add("Heavy side", "The side that hangs down on a band worn loosely.", func(r *check.Report) (string, string) { return r.Hang.Words(), "" }, nil)
	add("Domed by", "How far lengths on the domed surface are from the drawing at most: a dome has no true flat. Choose what the drawing keeps true: lengths across, angles or areas.", func(r *check.Report) (string, string) {
		return decimals(100*r.Doming.Most, 1), "%"
	}, func(r *check.Report) bool { return r.Doming.Most > 0 })
	add("Thinnest, faces", "The thinnest bridge of the drawing, on the inner and on the outer face of a band that is cut or cast as formed, or domed.", func(r *check.Report) (string, string) {
		return fmt.Sprintf("%s in, %s out", decimals(r.Faces.InnerBridge, 2), decimals(r.Faces.OuterBridge, 2)), "mm"
	}, func(r *check.Report) bool { return r.Faces.OuterBridge > 0 })
	add("Saw blade", "Advice by the sheet's thickness, about three teeth in the metal. Sizes are nominal and makers differ: measure yours.", func(r *check.Report) (string, string) { return r.Blade.Size, "" },
		func(r *check.Report) bool { return r.Making.Sawn })
	add("Pilot drill", "The least number drill that lets that blade in by its diagonal.", func(r *check.Report) (string, string) { return decimals(r.Blade.PilotMM, 2), "mm" },
		func(r *check.Report) bool { return r.Blade.PilotMM > 0 && r.Making.Sawn })
	add("Blades", "That the cutting wears out, by how long one lasts at your bench.", func(r *check.Report) (string, string) { return fmt.Sprint(r.Making.Blades), "" },
		func(r *check.Report) bool { return r.Making.Blades > 0 })
	add("Cutting takes", "By your own rates, as far as you gave them on the page Metal: cutting, and starting each opening.", func(r *check.Report) (string, string) {
		return export.Duration(r.Making.Minutes()), ""
	}, func(r *check.Report) bool { return r.Making.Minutes() > 0 })
	add("Cutting costs", "That time at your price of an hour.", func(r *check.Report) (string, string) { return decimals(r.Making.Cost, 2), r.Currency },
		func(r *check.Report) bool { return r.Making.Cost > 0 })
	f.Root = container.NewVScroll(kit.Inset(14, 8, 14, 8, kit.Down(7,
		container.New(kit.Columns{Widths: []float32{0, 0, 0}}, tiles...), k.Hairline(), rows)))
	return f
}

// Clear shows that there are no figures.
func (f *Figures) Clear() {
	f.shown, f.chosen = nil, nil
	for _, b := range f.Big {
		b.Value.Set(noFigure, kit.Big)
		b.unit.SetText("")
	}
	for _, w := range f.Rows {
		w.Value.SetText(noFigure)
		w.unit.SetText("")
	}
}

// Show writes a report's figures.
func (f *Figures) Show(r *check.Report) {
	f.shown = r
	if f.chosen != nil && f.OnRing != nil {
		f.OnRing(f.chosen.of(r))
	}
	for _, b := range f.Big {
		value, unit, under := b.of(r)
		b.Value.SetText(value)
		b.unit.SetText(unit)
		b.under.SetText(under)
	}
	for _, w := range f.Rows {
		if w.shown != nil && !w.shown(r) {
			w.Box.Hide()
			continue
		}
		w.Box.Show()
		value, unit := w.of(r)
		w.Value.SetText(value)
		w.unit.SetText(unit)
	}
	for _, o := range f.Root.(*container.Scroll).Content.(*fyne.Container).Objects {
		o.Refresh()
	}
}

func decimals(v float64, n int) string {
	return pattern.Say("%.*f", n, v)
}

// valueAndUnit sets a unit on the base line of a big figure.
type valueAndUnit struct{}

func (valueAndUnit) MinSize(objs []fyne.CanvasObject) fyne.Size {
	a, b := objs[0].MinSize(), objs[1].MinSize()
	return fyne.NewSize(a.Width+3+b.Width, a.Height)
}

func (valueAndUnit) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	a, b := objs[0].MinSize(), objs[1].MinSize()
	a.Width = min(a.Width, size.Width)
	objs[0].Resize(a)
	objs[0].Move(fyne.Position{})
	objs[1].Resize(fyne.NewSize(max(0, size.Width-a.Width-3), b.Height))
	objs[1].Move(fyne.NewPos(a.Width+3, size.Height*0.80-b.Height*0.76))
}
