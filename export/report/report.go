// Package report writes the report on a design, for programs and for people.
package report

import (
	"cmp"
	"io"
	"math"

	"fretband/export"
	"fretband/pattern"
	"fretband/pattern/check"
	"fretband/unroll"
	"fretband/unroll/plane"
)

// reportJSON is the report as programs read it: grams, millimetres, shares of
// 1. Places are measured from the middle of the blank, x along, y up. Fields are
// only ever added.
type reportJSON struct {
	Name            string        `json:"name"`
	Kind            string        `json:"kind"`
	Alloy           string        `json:"alloy"`
	Density         float64       `json:"density_g_cm3"`
	PlainG          float64       `json:"plain_g"`
	RemovedG        float64       `json:"removed_g"`
	LeftG           float64       `json:"left_g"`
	OpenShare       float64       `json:"open_share"`
	BlankArea       float64       `json:"blank_area_mm2"`
	RemovedArea     float64       `json:"removed_area_mm2"`
	BlankLength     float64       `json:"blank_length_mm"`
	BlankWidth      float64       `json:"blank_width_mm"`
	Thickness       float64       `json:"thickness_mm"`
	Openings        int           `json:"openings"`
	Dropped         int           `json:"dropped"`
	LeftSolid       []solidJSON   `json:"left_solid"`    // those, by reason
	CutLength       float64       `json:"cut_length_mm"` // openings and outline
	OpeningsLength  float64       `json:"openings_length_mm"`
	OutlineLength   float64       `json:"outline_length_mm"`
	Engravings      int           `json:"marks"` // engraved, not cut: in no figure of cutting
	EngravedLength  float64       `json:"marks_length_mm"`
	BridgeRule      float64       `json:"bridge_rule_mm"`
	EdgeRule        float64       `json:"edge_rule_mm"`
	Thinnest        *float64      `json:"thinnest_mm"` // null without openings
	ThinnestAt      [][2]float64  `json:"thinnest_at"`
	ThinnestBetween []int         `json:"thinnest_between"` // opening numbers; 0 is the edge
	Shortfall       float64       `json:"thinnest_shortfall_mm"`
	Finished        *float64      `json:"thinnest_finished_mm"` // once filed and polished; null without openings
	Finish          float64       `json:"finish_mm"`            // what that takes off each edge: common practice
	ToEdge          *float64      `json:"thinnest_to_edge_mm"`
	WeakestAt       float64       `json:"weakest_section_x_mm"`
	WeakestNet      float64       `json:"weakest_section_net_mm"`
	WeakestFull     float64       `json:"weakest_section_full_mm"`
	PlainCost       float64       `json:"plain_cost"`
	Cost            float64       `json:"cost"`
	Currency        string        `json:"currency"`
	Pieces          int           `json:"pieces"`
	Blade           bladeJSON     `json:"blade"`
	Work            makingJSON    `json:"work"`
	Making          string        `json:"making"`                   // flat: cut flat, then bent; formed: walls square to the surface
	Drawn           string        `json:"drawn"`                    // what the drawing shows: sheet, or the inner, middle or outer face
	Volume          float64       `json:"volume_mm3"`               // of the metal left
	TrueArea        float64       `json:"true_area_mm2"`            // of the surface that the drawing shows, before piercing
	CentreAt        [3]float64    `json:"centre_of_gravity_mm"`     // bent, from the middle of the inside: to the flat's left, to the front, along the axis
	CentreOff       float64       `json:"centre_of_gravity_off_mm"` // from the axis
	CentreTurn      float64       `json:"centre_of_gravity_deg"`    // from the front, to the flat's right
	OuterSize       [3]float64    `json:"outer_size_mm"`            // across, back to front, along the axis
	LeastRadius     float64       `json:"least_inner_radius_mm"`
	RadiusRatio     float64       `json:"least_radius_by_thickness"`
	Joint           string        `json:"joint"`                       // of a closed band: soldered or seamless
	NeutralK        float64       `json:"neutral_k"`                   // of the thickness under the inner face: where the blank's length is taken
	Unrolled        []string      `json:"unrolled"`                    // how sizes were converted and the blank was found, in words
	BendRound       *float64      `json:"bend_round_mm"`               // the radius that springs open to the next; null where it is not known
	SpringsTo       float64       `json:"springs_open_to_mm"`          // the mean radius of the inside
	SpringSource    string        `json:"spring_source"`               // of the metal's figures
	Doming          *domingJSON   `json:"doming,omitempty"`            // of a domed band
	Faces           *facesJSON    `json:"faces,omitempty"`             // once the band has been looked at in its form
	Strength        *strengthJSON `json:"strength,omitempty"`          // once solved
	Unsolved        string        `json:"strength_unsolved,omitempty"` // why it could not be
	Weakness        *weaknessJSON `json:"weakness,omitempty"`          // once looked for
	Added           []addedJSON   `json:"added,omitempty"`             // what is soldered or set on
	AddedG          *float64      `json:"added_g,omitempty"`           // all of it: in no weight above
	AddedCost       *float64      `json:"added_cost,omitempty"`        // in no cost above
	Findings        []foundJSON   `json:"findings"`
	Cautions        []string      `json:"cautions"`
}

// solidJSON is what was left solid for one reason.
type solidJSON struct {
	Why       string       `json:"why"`
	Area      float64      `json:"area_mm2"` // of the openings that would be there
	At        [][2]float64 `json:"at"`       // the first hundred
	Positions int          `json:"places"`   // how many there are
}

// addedJSON is one of the parts that are soldered or set on, with all of its row.
type addedJSON struct {
	Part     int       `json:"part"` // from 1
	Kind     string    `json:"kind"` // stone, wire, beads, part
	Name     string    `json:"name"`
	Size     string    `json:"size"`
	Count    int       `json:"count"`
	Carat    float64   `json:"carat,omitempty"` // of one, estimated by its size
	CaratAll float64   `json:"carat_total,omitempty"`
	StoneG   float64   `json:"stone_g,omitempty"` // of one
	Metal    string    `json:"metal,omitempty"`
	MetalG   float64   `json:"metal_g"` // of one; of wire of all
	EachG    float64   `json:"each_g"`  // of wire all
	TotalG   float64   `json:"total_g"`
	Strip    float64   `json:"bezel_strip_mm,omitempty"` // of one
	Lengths  []float64 `json:"wire_mm,omitempty"`        // along each edge
	Bead     float64   `json:"bead_mm,omitempty"`
	Gap      *float64  `json:"gap_mm,omitempty"` // between neighbours of a row
	Cost     float64   `json:"cost,omitempty"`
}

func addedOf(p check.AddedPart) addedJSON {
	j := addedJSON{
		Part: p.Part + 1, Kind: p.Kind, Name: p.Name, Size: p.Size, Count: p.Count, Carat: p.Carat, CaratAll: float64(p.Count) * p.Carat,
		StoneG: p.Stone, Metal: p.Metal.Name, MetalG: p.MetalGrams, EachG: p.Each, TotalG: p.Total, Strip: p.Strip, Lengths: p.Lengths, Bead: p.Bead, Cost: p.Cost,
	}
	if p.InRow() {
		j.Gap = &p.Gap
	}
	return j
}

// domingJSON is how far lengths on a domed surface are from the drawing.
type domingJSON struct {
	Most   float64    `json:"most_share"`
	Factor float64    `json:"factor"`
	At     [2]float64 `json:"at"`
	Keeps  string     `json:"keeps"`
	BlankG *float64   `json:"flat_blank_g"` // of the pierced blank while it is flat; null of a band cut as formed
}

// facesJSON is what the drawing becomes on the two faces.
type facesJSON struct {
	InnerArea   float64    `json:"inner_area_mm2"`
	OuterArea   float64    `json:"outer_area_mm2"`
	InnerCut    float64    `json:"inner_openings_mm2"`
	OuterCut    float64    `json:"outer_openings_mm2"`
	InnerBridge *float64   `json:"inner_thinnest_mm"` // of the drawing's thinnest bridge; null without openings
	OuterBridge *float64   `json:"outer_thinnest_mm"`
	InnerLength [2]float64 `json:"inner_length_factors"` // least and most, along the band
	OuterLength [2]float64 `json:"outer_length_factors"`
}

type bladeJSON struct {
	Size   string  `json:"size"`
	Pilot  float64 `json:"pilot_mm"`
	Drill  string  `json:"drill"`
	Advice string  `json:"advice"`
}

type foundJSON struct {
	Check     string       `json:"check"`
	Severity  string       `json:"severity"` // note, caution, breach
	What      string       `json:"what"`
	Why       string       `json:"why"`
	Value     float64      `json:"value"`
	Limit     float64      `json:"limit"`
	Unit      string       `json:"unit"`
	At        [][2]float64 `json:"at"`     // the first hundred
	Positions int          `json:"places"` // how many there are
	Mend      string       `json:"mend"`
	Fixes     []string     `json:"fixes"`     // what the window offers to do at once
	FixCosts  []string     `json:"fix_costs"` // what each of them does to the band: "4 openings fewer, 1.20 g more"
	Accepted  string       `json:"accepted"`  // the maker's reason for accepting it
}

// mostPositions is how many positions of a finding are listed: tens of thousands say no more.
const mostPositions = 100

func foundOf(f check.Finding) foundJSON {
	j := foundJSON{
		Check: f.Kind.Title, Severity: f.Severity.String(), What: f.What, Why: f.Why, Value: f.Value, Limit: f.Limit, Unit: f.Unit,
		At: pairs(f.At[:min(len(f.At), mostPositions)]...), Positions: len(f.At), Mend: f.Mend, Fixes: []string{}, FixCosts: []string{}, Accepted: f.Accepted,
	}
	for _, x := range f.Fixes {
		j.Fixes, j.FixCosts = append(j.Fixes, x.Title), append(j.FixCosts, x.Cost)
	}
	return j
}

// makingJSON is the work of cutting, as check.Making.
type makingJSON struct {
	Process  string      `json:"process"` // empty if it is not settled
	Kerf     float64     `json:"kerf_mm"` // 0 if it is not known
	KerfFrom string      `json:"kerf_from"`
	Length   float64     `json:"cut_length_mm"`
	Starts   int         `json:"starts"`
	Pilots   []pilotJSON `json:"pilots"` // of a band that is sawn
	Blades   int         `json:"blades"` // 0 without the maker's rate
	CutMin   float64     `json:"cutting_min"`
	StartMin float64     `json:"starting_min"`
	Cost     float64     `json:"work_cost"`
}

type pilotJSON struct {
	MM    float64 `json:"mm"`
	Drill string  `json:"drill"`
	Blade string  `json:"blade"`
	Count int     `json:"count"`
}

func makingOf(s *pattern.Sheet, r *check.Report) makingJSON {
	m := r.Making
	j := makingJSON{s.Process, m.KerfMM, m.KerfFrom, m.Length, m.Starts, []pilotJSON{}, m.Blades, m.CutMin, m.StartMin, m.Cost}
	for _, p := range m.Pilots {
		j.Pilots = append(j.Pilots, pilotJSON{p.MM, p.Drill, p.Blade, p.Count})
	}
	return j
}

// JSON writes the report as one JSON object.
func JSON(w io.Writer, s *pattern.Sheet, r *check.Report) error {
	j := reportJSON{
		Name: s.Design.Name, Kind: s.Design.Band.Kind, Alloy: r.Alloy.Name, Density: r.Density,
		PlainG: r.Plain, RemovedG: r.Removed, LeftG: r.Left, OpenShare: r.OpenShare,
		BlankArea: r.BlankArea, RemovedArea: r.CutArea, BlankLength: r.BlankLen, BlankWidth: r.BlankWidth,
		Thickness: r.Thickness, Openings: r.Openings, Dropped: r.Dropped,
		CutLength: r.CutLength, OpeningsLength: r.OpenLength, OutlineLength: r.CutLength - r.OpenLength,
		Engravings: r.Engravings, EngravedLength: r.EngravedLength,
		BridgeRule: r.Rule, EdgeRule: r.EdgeRule,
		Thinnest: width(r.Thinnest), ThinnestAt: [][2]float64{}, ThinnestBetween: []int{},
		Shortfall: r.Thinnest.Shortfall(), ToEdge: width(r.Bridges.ToEdge),
		WeakestAt: r.Net.WeakX, WeakestNet: r.Net.WeakNet, WeakestFull: r.Net.WeakFull,
		PlainCost: r.PlainCost, Cost: r.Cost, Currency: r.Currency, Pieces: r.Pieces,
		Work:     makingOf(s, r),
		Blade:    bladeJSON{r.Blade.Size, r.Blade.PilotMM, r.Blade.Drill, r.Blade.Advice},
		Findings: []foundJSON{}, Cautions: export.Cautions(s, r, export.Options{}),
		Weakness: weaknessOf(r),
		Making:   unroll.MadeFlat, Drawn: "sheet", Volume: r.Faces.Volume, TrueArea: r.Faces.TrueArea,
		CentreAt:  [3]float64{r.Hang.Centre.X, r.Hang.Centre.Y, r.Hang.Centre.Z},
		CentreOff: r.Hang.Off, CentreTurn: r.Hang.Angle * 180 / math.Pi,
		OuterSize:   [3]float64{r.Hang.Width, r.Hang.Height, r.Hang.Depth},
		LeastRadius: r.Hang.LeastRadius, RadiusRatio: r.Hang.LeastRadius / r.Thickness,
		LeftSolid: []solidJSON{}, Joint: s.Design.Band.Joint, NeutralK: s.Design.Band.NeutralK, Unrolled: append([]string{}, s.Flat.Notes...),
		BendRound: known(r.Springback.Round), SpringsTo: r.Springback.Inside, SpringSource: r.Springback.Temper.Source,
	}
	for _, g := range r.LeftSolid {
		j.LeftSolid = append(j.LeftSolid, solidJSON{g.Why, g.Area, pairs(g.At[:min(len(g.At), mostPositions)]...), len(g.At)})
	}
	for _, p := range r.Added {
		j.Added = append(j.Added, addedOf(p))
	}
	if len(r.Added) > 0 {
		j.AddedG, j.AddedCost = &r.AddedGrams, &r.AddedCost
	}
	if d := r.Doming; d.Most > 0 {
		j.Doming = &domingJSON{d.Most, d.Factor, pair(d.At), d.Kept, known(d.BlankG)}
	}
	if a, _ := check.Finish(s.Process); !r.Thinnest.None() {
		j.Finish, j.Finished = a, &r.Finished
	}
	b := s.Design.Band
	if b.Making == unroll.Formed {
		j.Making, j.Drawn = b.Making, cmp.Or(b.Drawn, unroll.MiddleFace)
	}
	if c := r.Faces; c.OuterArea > 0 {
		j.Faces = &facesJSON{
			InnerArea: c.InnerArea, OuterArea: c.OuterArea, InnerCut: c.InnerCut, OuterCut: c.OuterCut,
			InnerLength: [2]float64{c.InnerLeast, c.InnerMost}, OuterLength: [2]float64{c.OuterLeast, c.OuterMost},
		}
		if j.Thinnest != nil {
			j.Faces.InnerBridge, j.Faces.OuterBridge = &c.InnerBridge, &c.OuterBridge
		}
	}
	if j.Thinnest != nil {
		j.ThinnestAt = pairs(r.Thinnest.A, r.Thinnest.B)
		j.ThinnestBetween = []int{r.Thinnest.From, r.Thinnest.To}
	}
	for _, f := range r.Findings {
		j.Findings = append(j.Findings, foundOf(f))
	}
	if r.Strength != nil {
		j.Strength = strengthOf(s, r, r.Strength)
	}
	if r.Unsolved != nil {
		j.Unsolved = r.Unsolved.Error()
	}
	return WriteJSON(w, j)
}

// width is the bridge's width, nil if there is none.
func width(b check.Bridge) *float64 {
	if b.None() {
		return nil
	}
	return &b.Width
}

func pairs(ps ...plane.Point) [][2]float64 {
	out := make([][2]float64, len(ps))
	for i, p := range ps {
		out[i] = pair(p)
	}
	return out
}
