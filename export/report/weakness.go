package report

import (
	"fretband/pattern/check"
)

// weaknessJSON is what the slower look has found: the weakest ways, every narrow
// bridge, tongues, and the pieces that hang on least.
type weaknessJSON struct {
	Across   *wayJSON       `json:"across,omitempty"` // from edge to edge
	Along    *wayJSON       `json:"along,omitempty"`  // lengthwise
	Bridges  []narrowJSON   `json:"narrow_bridges"`   // worst first, the first 200
	Narrow   int            `json:"narrow_bridges_in_all"`
	Tongues  []tongueJSON   `json:"tongues"`
	Attached []attachedJSON `json:"held_pieces"`
}

type wayJSON struct {
	Metal float64         `json:"metal_mm"`
	Full  float64         `json:"full_mm"` // were nothing cut out
	Share float64         `json:"share"`
	Exact bool            `json:"exact"`
	At    [][2][2]float64 `json:"at"` // both ends of each bridge
}

type narrowJSON struct {
	Kind   string        `json:"kind"`
	Width  float64       `json:"width_mm"`
	Limit  float64       `json:"limit_mm"`
	Length float64       `json:"length_mm"`
	At     [2][2]float64 `json:"at"`
}

type tongueJSON struct {
	Opening int        `json:"opening"` // 0: of the blank's own edge
	Length  float64    `json:"length_mm"`
	Root    float64    `json:"root_mm"`
	Tip     *float64   `json:"tip_radius_mm"` // null: it has none that is round or sharp
	At      [2]float64 `json:"at"`
	Catches bool       `json:"catches"`
}

type attachedJSON struct {
	AtEdge bool            `json:"at_edge"`
	Area   float64         `json:"area_mm2"`
	Weight float64         `json:"weight_g"`
	Metal  float64         `json:"metal_mm"`
	Round  float64         `json:"share"` // of the way round a disc of its area
	At     [][2][2]float64 `json:"at"`
}

func endsOf(bs []check.Bridge) [][2][2]float64 {
	at := [][2][2]float64{}
	for _, b := range bs {
		at = append(at, [2][2]float64{pair(b.A), pair(b.B)})
	}
	return at
}

// weaknessOf is nil of a report that has not been deepened.
func weaknessOf(r *check.Report) *weaknessJSON {
	if r.Deep == nil {
		return nil
	}
	d := r.Deep
	w := &weaknessJSON{Bridges: []narrowJSON{}, Tongues: []tongueJSON{}, Attached: []attachedJSON{}, Narrow: d.NarrowBridges}
	way := func(c check.WeakestPath) *wayJSON {
		if c.None() {
			return nil
		}
		return &wayJSON{c.Metal, c.Full, c.Share(), d.WeakestPaths.Exact, endsOf(c.Bridges)}
	}
	w.Across, w.Along = way(d.WeakestPaths.Across), way(d.WeakestPaths.Along)
	for _, b := range d.Bridges {
		w.Bridges = append(w.Bridges, narrowJSON{b.Kind.String(), b.Width, b.Limit(), b.Length, [2][2]float64{pair(b.A), pair(b.B)}})
	}
	for _, t := range d.Tongues {
		one := tongueJSON{Opening: t.Opening, Length: t.Length, Root: t.Root, At: pair(t.Tip), Catches: t.Catches()}
		if !t.Blunt {
			one.Tip = &t.TipRadius
		}
		w.Tongues = append(w.Tongues, one)
	}
	for _, h := range []check.AttachedPart{d.Attached.Inside, d.Attached.AtEdge} {
		if !h.None() {
			w.Attached = append(w.Attached, attachedJSON{h.AtEdge, h.Area, h.Weight, h.Metal, h.Round, endsOf(h.Bridges)})
		}
	}
	return w
}
