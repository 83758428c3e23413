package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"fretband/pattern"
	"fretband/pattern/added"
	"fretband/unroll/plane"
)

// AddedPart holds the figures of one of the design's added parts, with all of its row.
type AddedPart struct {
	Part  int // its index in the design
	Kind  string
	Name  string // what it is: "almandine, round", "half-round wire", or the maker's own word
	Size  string // "4.00 x 4.00 x 2.40 mm"
	Count int    // of stones, beads and parts; lengths of wire

	Carat float64 // of one stone, estimated by its size; 0 of others
	Stone float64 // g, the same in grams
	// Metal is the metal of its setting, of wire and beads; MetalGrams that of one (of wire of
	// all), with what is typed for prongs and parts.
	Metal      Alloy
	MetalGrams float64
	// Each and Total are what one and all weigh, g; of wire both are the whole.
	Each, Total float64
	// Strip is the length of the bezel's strip, mm, Wall and Rise its thickness and height;
	// BaseArea that of the plate under it, mm^2, Base its thickness.
	Strip, Wall, Rise, Base, BaseArea float64
	// Lengths are those of wire, along each edge, mm.
	Lengths []float64
	// Bead is the diameter of beads, mm, Gap the least distance of two neighbours of a row
	// ([AddedPart.InRow]).
	Bead, Gap float64
	// Cost is what the maker typed for one, times their number; else that of the metal at the
	// band's price, if it is the band's.
	Cost float64

	middle float64 // of its weight, above the band, mm
}

// InRow reports whether several follow each other.
func (p AddedPart) InRow() bool { return p.Kind != pattern.WirePart && p.Count > 1 }

func (p AddedPart) length() float64 {
	sum := 0.0
	for _, l := range p.Lengths {
		sum += l
	}
	return sum
}

// addedParts measures what is added. Stones weigh by published formulas, bezels and wire by
// their volumes, parts as typed.
func addedParts(s *pattern.Sheet, r *Report) []AddedPart {
	var all []AddedPart
	for _, set := range s.Added {
		a := s.Design.Added[set.Added]
		p := AddedPart{Part: set.Added, Kind: a.Kind, Count: len(set.Seats), Metal: r.Alloy}
		if m, ok := pattern.AlloyByKey(a.Alloy); ok {
			p.Metal = m
		}
		size := func(format string, ls ...any) { p.Size = pattern.Say(format+" mm", ls...) }
		switch a.Kind {
		case pattern.StonePart:
			c, g := a.Stone()
			w := a.HeightMM
			if c.Even {
				w = a.WidthMM
			}
			p.Name = g.Word() + ", " + strings.ToLower(c.Name)
			size("%.2f x %.2f x %.2f", a.WidthMM, w, a.DepthMM)
			p.Carat = c.Carats(g, a.WidthMM, w, a.DepthMM)
			p.Stone = p.Carat * added.GramsPerCarat
			p.middle = a.DepthMM / 2
			switch a.Setting {
			case pattern.Bezel:
				p.Strip, p.Wall, p.Rise, p.Base = c.Strip(a.WidthMM, w, a.WallMM), a.WallMM, a.RiseMM, a.BaseMM
				p.BaseArea = c.Base(a.WidthMM, w, a.WallMM)
				p.MetalGrams = added.Grams(p.Strip*a.WallMM*a.RiseMM+p.BaseArea*a.BaseMM, p.Metal.Density)
			case pattern.Prongs:
				p.MetalGrams = a.WeightG
			}
		case pattern.WirePart:
			c, _ := added.SectionOf(a.Section)
			p.Name = strings.ToLower(c.Name) + " wire"
			size("%.2f x %.2f", a.WidthMM, c.Height(a.WidthMM, a.HeightMM))
			for _, w := range set.Wires {
				p.Lengths = append(p.Lengths, w.Length)
			}
			p.Count = len(p.Lengths)
			p.middle = c.Centroid(a.WidthMM, a.HeightMM)
			p.MetalGrams = added.Grams(p.length()*c.Area(a.WidthMM, a.HeightMM), p.Metal.Density)
		case pattern.BeadsPart:
			p.Name, p.Bead = "beads", set.SizeMM
			size("%.2f", set.SizeMM)
			p.middle = set.SizeMM / 2
			p.MetalGrams = added.Grams(added.Sphere(set.SizeMM), p.Metal.Density)
		default:
			p.Name = "part"
			if a.Seat == pattern.CircleShape {
				size("%.2f", a.WidthMM)
			} else {
				size("%.2f x %.2f", a.WidthMM, a.HeightMM)
			}
			p.MetalGrams = a.WeightG
		}
		if p.InRow() {
			p.Gap = set.GapMM
		}
		p.Name = cmp.Or(a.Note, p.Name)
		p.Each = p.Stone + p.MetalGrams
		of := float64(p.Count)
		if a.Kind == pattern.WirePart {
			of = 1
		}
		p.Total = of * p.Each
		switch {
		case a.Price > 0:
			p.Cost = of * a.Price
		case p.Metal.Key == r.Alloy.Key && a.Kind != pattern.OtherPart:
			p.Cost = of * p.MetalGrams * s.Design.Metal.PricePerG
		}
		all = append(all, p)
	}
	return all
}

// Text says in a line what it is, how many and how large.
func (p AddedPart) Text() string {
	text := p.Name + " " + p.Size
	switch {
	case p.Kind == pattern.WirePart || p.Count == 1:
		return text
	case p.Kind == pattern.BeadsPart:
		return fmt.Sprintf("%d %s", p.Count, text)
	}
	return fmt.Sprintf("%d x %s", p.Count, text)
}

// Making says what the bench needs to know of it: strips, lengths, gaps.
func (p AddedPart) Making() string {
	var all []string
	add := func(format string, args ...any) { all = append(all, pattern.Say(format, args...)) }
	if p.Strip > 0 {
		add("bezel strip %.2f mm of %.2f x %.2f mm", p.Strip, p.Wall, p.Rise)
		if p.Base > 0 {
			add("base %.2f mm thick, %.1f mm²", p.Base, p.BaseArea)
		}
	}
	switch l := p.Lengths; {
	case len(l) == 1:
		add("%.2f mm long", l[0])
	case len(l) == 2 && math.Abs(l[0]-l[1]) < 0.005:
		add("%.2f mm along each edge", l[0])
	case len(l) == 2:
		add("%.2f mm along the top edge, %.2f mm along the bottom", l[0], l[1])
	}
	if p.Kind == pattern.BeadsPart && p.InRow() {
		if p.Gap < 0.005 {
			add("each touches the next")
		} else {
			add("%.2f mm between two", p.Gap)
		}
	}
	return strings.Join(all, ", ")
}

func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// leastBezel is the least height of a bezel in proportion to the stone's: a third (published at
// Ganoksin as a rule of thumb; where the side of the stone curves in decides).
const leastBezel = 1.0 / 3

// checkAdded finds parts that stand over the edge of the blank or over each other, and bezels too
// low to hold their stone.
func checkAdded(s *pattern.Sheet, r *Report) []Finding {
	var fs []Finding
	name := func(i int) string { return fmt.Sprintf("Part %d (%s)", i+1, r.Added[i].Name) }
	for i, set := range s.Added {
		a := s.Design.Added[i]
		for _, seat := range set.Seats {
			l := seat.Outside
			if s.Flat.Outline.Contains(seat.At) && s.Flat.Outline.Nearest(seat.At).D >= extentFrom(l, seat.At)-plane.FitTolerance {
				continue // plainly on it
			}
			on := onBlank(s, l)
			if on > l.Area()*(1-1e-4) {
				continue
			}
			fs = append(fs, Finding{
				Kind: KindAddedOffTheBlank, Severity: Caution,
				What:  pattern.Say("%s reaches over the edge of the blank: %.0f %% of it is on metal.", name(i), 100*on/l.Area()),
				Why:   "It would be held on one side only, and its edge catches.",
				Value: on, Limit: l.Area(), Unit: "mm²", At: []plane.Point{seat.At},
				Mend:  "Move it towards the middle or make it smaller.",
				Fixes: join(addedInside(s, i, seat), removeAdded(s.Design, i)),
			})
			break
		}
		if least := leastBezel * a.DepthMM; a.Setting == pattern.Bezel && a.RiseMM < least-slack {
			to := up(least)
			fs = append(fs, Finding{
				Kind: KindLowBezel, Severity: Caution,
				What:  pattern.Say("The bezel of %s is %.2f mm high, less than a third of the stone's %.2f mm.", lower(name(i)), a.RiseMM, a.DepthMM),
				Why:   "A wall that ends below where the stone curves in does not hold it. A third is a rule of thumb: measure your stone.",
				Value: a.RiseMM, Limit: least, Unit: "mm", At: []plane.Point{set.Seats[0].At},
				Mend: "Make the bezel higher, or accept it if the stone is flat.",
				Fixes: mend(s.Design, fmt.Sprintf("Set the bezel's height to %s mm", short(to)), func(d *pattern.Design) {
					d.Added = slices.Clone(d.Added)
					d.Added[i].RiseMM = to
				}),
			})
		}
	}
	for i := range s.Added {
		for j := range i {
			if at, ok := overlap(s, s.Added[j], s.Added[i]); ok {
				fs = append(fs, Finding{
					Kind: KindAddedOverlap, Severity: Caution,
					What: fmt.Sprintf("%s lies over %s.", name(i), lower(name(j))),
					Why:  "Two parts have no room in one place.",
					Unit: "mm", At: []plane.Point{at},
					Mend:  "Move one of them, or make it smaller.",
					Fixes: removeAdded(s.Design, i),
				})
			}
		}
	}
	return fs
}

// extentFrom returns how far an outline goes from a position, at most.
func extentFrom(l plane.Loop, p plane.Point) float64 {
	b := l.Bounds()
	d := 0.0
	if len(l) == 2 && math.Abs(l[0].Bulge) == 1 && math.Abs(l[1].Bulge) == 1 { // a circle
		return b.W() / 2
	}
	for _, q := range plane.Rect(b) {
		d = math.Max(d, q.Dist(p))
	}
	return d
}

// touching is the area that two parts may share and still stand side by side, mm^2: ours.
const touching = 0.01

// overlap returns where two parts lie over each other.
func overlap(s *pattern.Sheet, a, b pattern.Set) (plane.Point, bool) {
	all := func(set pattern.Set) (ls []plane.Loop) {
		for _, w := range set.Wires {
			ls = append(ls, s.Again(w.Loop)...)
		}
		for _, seat := range set.Seats {
			ls = append(ls, s.Again(seat.Outside)...)
		}
		return ls
	}
	first, second := all(a), all(b)
	boxes := plane.Boxes(second)
	for _, l := range first {
		box := l.Bounds()
		for k, m := range second {
			if !boxes[k].Meets(box) {
				continue
			}
			w := math.Min(box.Max.X, boxes[k].Max.X) - math.Max(box.Min.X, boxes[k].Min.X)
			if h := math.Min(box.Max.Y, boxes[k].Max.Y) - math.Max(box.Min.Y, boxes[k].Min.Y); w*h < touching {
				continue // side by side
			}
			both, err := plane.And(plane.Region{l}, plane.Region{m})
			if err == nil && both.Area() > touching {
				return both.Bounds().Centre(), true
			}
		}
	}
	return plane.Point{}, false
}

// addedInside moves a single part onto the blank.
func addedInside(s *pattern.Sheet, i int, seat pattern.Seat) []Fix {
	if a := s.Design.Added[i]; a.Count > 1 || a.Row != pattern.RowLine {
		return nil
	}
	l := seat.Outside
	v, ok := inwards(s, seat.At, func(v plane.Point) bool { return onBlank(s, l.Move(v)) > l.Area()*(1-5e-5) })
	if !ok {
		return nil
	}
	return mend(s.Design, "Move it onto the blank", func(d *pattern.Design) {
		d.Added = slices.Clone(d.Added)
		d.Added[i].XMM += v.X
		d.Added[i].YMM += v.Y
	})
}

func removeAdded(d pattern.Design, i int) []Fix {
	return mend(d, fmt.Sprintf("Remove part %d", i+1), func(d *pattern.Design) {
		d.Added = slices.Delete(slices.Clone(d.Added), i, i+1)
	})
}
