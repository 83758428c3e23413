package pattern

import (
	"fmt"
	"slices"

	"fretband/pattern/added"
	"fretband/unroll"
)

// addedEntries are the values of parts that are soldered or set on. Which of them a part has
// depends on its kind.
func addedEntries() []Entry {
	of := func(a func(*Added) bool) func(*Design, At) bool {
		return func(d *Design, at At) bool { return a(&d.Added[at[0]]) }
	}
	kind := func(kinds ...string) func(*Design, At) bool {
		return of(func(a *Added) bool { return slices.Contains(kinds, a.Kind) })
	}
	even := func(a *Added) bool { c, _ := added.CutOf(a.Cut); return c.Even }
	high := func(a *Added) bool { s, _ := added.SectionOf(a.Section); return s.High }
	bezel := of(func(a *Added) bool { return a.Setting == Bezel })
	ring := of(func(a *Added) bool { return a.Row == RowCircle || a.Row == RowOval })
	const group = AddedGroup
	width := Entry{
		Path: "added[].width_mm", Group: group, Unit: "mm", Range: SizeRange, Step: 0.1, Decimals: 2,
		Doc: "{}: length of a stone or part (of a round one its diameter), width of a wire on the metal, diameter of beads; beads without it are as large as closes the row, or fills it",
	}
	cased := func(e Entry, c, title, tip string, shown func(*Design, At) bool) Entry {
		e.Case, e.Title, e.Tip, e.Shown = c, title, tip, shown
		return e
	}
	round := func(a *Added) bool {
		return a.Kind == StonePart && even(a) || a.Kind == OtherPart && a.Seat == CircleShape
	}
	diameter := cased(width, "", "Size", "Of a round stone or part its diameter, of a square one its side.", of(round))
	diameter.Optional = true // of beads; others are asked for it by the rule of the kind
	length := cased(width, "long", "Length", "Of the stone or part, before it is turned. A stone is at least as long as wide.", of(func(a *Added) bool {
		return (a.Kind == StonePart || a.Kind == OtherPart) && !round(a)
	}))
	wire := cased(width, "wire", "Width", "Of the wire, where it lies on the metal.", kind(WirePart))
	beads := cased(width, "beads", "Diameter", "Of a bead. Left empty, beads are as large as closes the row exactly or, between two ends, fills it.", kind(BeadsPart))
	beads.Typed, beads.Empty = &Range{0, SizeRange.Max}, "closing"
	height := Entry{
		Path: "added[].height_mm", Group: group, Title: "Width", Unit: "mm", Range: SizeRange, Step: 0.1, Decimals: 2,
		Tip: "Of the stone or part, across its length.",
		Doc: "{}: width of a stone or part that is not round or square, height of an oval wire",
		For: of(func(a *Added) bool {
			switch a.Kind {
			case StonePart:
				return !even(a)
			case OtherPart:
				return a.Seat != CircleShape
			}
			return a.Kind == WirePart && high(a)
		}),
		Else: "goes with stones and parts that are longer than wide and with oval wire; leave it out",
	}
	height.Shown = func(d *Design, at At) bool { return height.For(d, at) && d.Added[at[0]].Kind != WirePart }
	wireHeight := cased(height, "wire", "Height", "Of the wire, above the metal.", of(func(a *Added) bool { return a.Kind == WirePart && high(a) }))
	var cuts, gems, sections, alloys []Option
	for _, c := range added.Cuts() {
		cuts = append(cuts, Option{c.Key, c.Name})
	}
	for _, g := range added.Gems() {
		gems = append(gems, Option{g.Key, g.Name})
	}
	for _, s := range added.Sections() {
		sections = append(sections, Option{s.Key, s.Name})
	}
	alloys = append(alloys, Option{"", "Metal of the band"})
	for _, a := range Alloys() {
		if a.Key != OwnAlloy {
			alloys = append(alloys, Option{a.Key, a.Name})
		}
	}
	return []Entry{
		{
			Path: "added", Most: MaxAdded,
			Doc:  "list, at most {}, of what is soldered or set on; openings keep away from it. Those of rows counted singly at most 3000:",
			Rule: boundAdded,
		},
		{
			Path: "added[].kind", Wrong: "is not a kind of part",
			Doc:     `"stone", "wire" (a border along an edge), "beads" (a row of them) or "part" (any other)`,
			Options: []Option{{StonePart, "Stone"}, {WirePart, "Wire"}, {BeadsPart, "Beads"}, {OtherPart, "Part"}},
		},
		{
			Path: "added[].cut", Group: group, Title: "Cut", Wrong: "is not a cut",
			Tip:     "Of the stone: gives its outline and, with its size, its weight.",
			Options: cuts, For: kind(StonePart), Else: "goes with a stone only; leave it out",
		},
		{
			Path: "added[].gem", Group: group, Title: "Stone", Wrong: "is not in the table of stones",
			Tip:     "Gives the specific gravity.",
			Options: gems, For: kind(StonePart), Else: "goes with a stone only; leave it out",
		},
		{
			Path: "added[].sg", Group: group, Title: "Gravity", Range: Range{0.5, 25}, Step: 0.01, Decimals: 2,
			Tip: "Specific gravity of the stone: its weight divided by that of as much water.",
			Doc: `gem "own": {}, its specific gravity`,
			For: of(func(a *Added) bool { return a.Kind == StonePart && a.Gem == added.OwnGem }), Else: `goes with gem "own" only; leave it out`,
		},
		{
			Path: "added[].section", Group: group, Title: "Section", Wrong: "is not a section of wire",
			Tip:     "Of the wire. A half-round one lies on its flat side.",
			Options: sections, For: kind(WirePart), Else: "goes with a wire only; leave it out",
		},
		{
			Path: "added[].seat", Group: group, Title: "Seat", Wrong: "is not a shape",
			Tip:     "The shape of the metal that the part covers.",
			Options: []Option{{CircleShape, "Circle"}, {OvalShape, "Oval"}, {RectangleShape, "Rectangle"}},
			For:     kind(OtherPart), Else: "goes with a part only; leave it out",
		},
		{
			Path: "added[].row", Group: group, Title: "Follows",
			Tip: "What several follow, at equal true distances on the outside of the band: a line along the band, a circle, an oval, or an edge.",
			Doc: `what several follow: a line along the band if left out, "circle", "oval", "top", "bottom" or "both" (edges); wire follows an edge`,
			Options: []Option{
				{RowLine, "A line along the band"}, {RowCircle, "A circle"}, {RowOval, "An oval"},
				{RowTop, "The top edge"}, {RowBottom, "The bottom edge"}, {RowBoth, "Both edges"},
			},
			Without: func(d *Design, at At, key string) bool { return d.Added[at[0]].Kind == WirePart && !onEdge(key) },
		},
		{
			Path: "added[].x_mm", Group: group, Title: "Along", Unit: "mm", Range: PositionRange, Step: 0.5, Decimals: 2,
			Tip: "From the middle of the blank, to the right. Of a row: its middle.",
			Doc: "{}, of its middle, of a row's middle, along the blank from the front; not of wire",
			For: kind(StonePart, BeadsPart, OtherPart), Else: "wire runs along the whole edge; leave it out",
		},
		{
			Path: "added[].y_mm", Group: group, Title: "Across", Unit: "mm", Range: PositionRange, Step: 0.5, Decimals: 2,
			Tip: "From the middle of the blank, upwards.",
			Doc: "{}, across the blank",
			For: of(func(a *Added) bool { return !onEdge(a.Row) }), Else: "a row along an edge has inset_mm; leave it out",
		},
		{
			Path: "added[].inset_mm", Group: group, Title: "In from edge", Unit: "mm", Range: Range{0, 60}, Step: 0.1, Decimals: 2,
			Tip: "From the edge of the band to the nearer side of the wire, the beads or the stones.",
			Doc: "along an edge: {}, from the edge to the nearer side",
			For: of(func(a *Added) bool { return onEdge(a.Row) }), Else: "goes with a row along an edge; leave it out",
		},
		diameter, length, wire, beads, height, wireHeight,
		{
			Path: "added[].depth_mm", Group: group, Title: "Depth", Unit: "mm", Range: Range{0.1, 60}, Step: 0.1, Decimals: 2,
			Tip: "Of the stone, from its top to its point or back: about 60 % of its width when it is faceted (common practice).",
			Doc: "stone: {}, from top to bottom",
			For: kind(StonePart), Else: "goes with a stone only; leave it out",
		},
		{
			Path: "added[].turn_deg", Group: group, Title: "Turn", Unit: "\u00b0", Range: RotationRange, Step: 5, Decimals: 2,
			Tip: "Anticlockwise, about its middle; in a row on from the way of the row.",
			For: kind(StonePart, OtherPart), Else: "goes with stones and parts; leave it out",
			Shown: of(func(a *Added) bool { return (a.Kind == StonePart || a.Kind == OtherPart) && !round(a) }),
		},
		{
			Path: "added[].row_width_mm", Group: group, Title: "Row's length", Unit: "mm", Range: SizeRange, Step: 0.5, Decimals: 2,
			Tip: "Of the circle or oval through the middles: its diameter, or its length along the band.",
			Doc: "circle, oval: {}, through the middles of what follows it",
			For: ring, Else: "goes with a circle or an oval; leave it out",
		},
		{
			Path: "added[].row_height_mm", Group: group, Title: "Row's height", Unit: "mm", Range: SizeRange, Step: 0.5, Decimals: 2,
			Tip: "Of the oval through the middles, across the band.",
			Doc: "oval: {}",
			For: of(func(a *Added) bool { return a.Row == RowOval }), Else: "goes with an oval; leave it out",
		},
		{
			Path: "added[].count", Group: group, Title: "How many", Range: Range{0, 1000}, Step: 1, Decimals: 0,
			Tip: "Of a row, along each edge. Beads of a given diameter without a number: as many as fit.",
			Doc: "{}, along each edge; 0 of beads: as many as fit, of others a single one",
			For: kind(StonePart, BeadsPart, OtherPart), Else: "wire runs along the whole edge; leave it out",
		},
		{
			Path: "added[].spacing_mm", Group: group, Title: "Spacing", Unit: "mm", Range: SpacingRange, Step: 0.5, Decimals: 2, Empty: "even",
			Tip: "From middle to middle, measured on the outside of the band. Left empty, they are spread evenly.",
			Doc: "stones, parts: {}, from middle to middle on the outer face; 0: evenly",
			For: kind(StonePart, OtherPart), Else: "beads have gap_mm; leave it out",
			Shown: of(func(a *Added) bool { return (a.Kind == StonePart || a.Kind == OtherPart) && a.Count > 1 }),
		},
		{
			Path: "added[].gap_mm", Group: group, Title: "Gap", Unit: "mm", Range: Range{0, 60}, Step: 0.05, Decimals: 2,
			Tip: "Between two beads. With both a number and a diameter, beads that close a row share what is left.",
			Doc: "beads: {}, between two",
			For: kind(BeadsPart), Else: "goes with beads only; leave it out",
		},
		{
			Path: "added[].setting", Group: group, Title: "Setting",
			Tip:     "How the stone is held: a bezel is worked out from the stone; of prongs, or any other, the weight is typed.",
			Doc:     `stone: "bezel", or "prongs" with weight_g; none if left out`,
			Options: []Option{{"", "None"}, {Bezel, "Bezel"}, {Prongs, "Prongs"}},
			For:     kind(StonePart), Else: "goes with a stone only; leave it out",
		},
		{
			Path: "added[].wall_mm", Group: group, Title: "Wall", Unit: "mm", Range: Range{0.1, 5}, Step: 0.05, Decimals: 2,
			Tip: "Thickness of the bezel: 0.32 mm (28 gauge) is usual, 0.40 for rings and large stones.",
			Doc: "bezel: {}, its thickness",
			For: bezel, Else: "goes with a bezel; leave it out",
		},
		{
			Path: "added[].rise_mm", Group: group, Title: "Bezel's height", Unit: "mm", Range: Range{0.2, 30}, Step: 0.1, Decimals: 2,
			Tip: "At least a third of the stone's (common practice); where its side curves in decides.",
			Doc: "bezel: {}, its height",
			For: bezel, Else: "goes with a bezel; leave it out",
		},
		{
			Path: "added[].base_mm", Group: group, Title: "Base", Unit: "mm", Range: Range{0, 10}, Step: 0.1, Decimals: 2, Empty: "none",
			Tip: "Thickness of the plate under the bezel. Left empty, the bezel stands on the band.",
			Doc: "bezel: {}, thickness of the plate under it; 0 is none",
			For: bezel, Else: "goes with a bezel; leave it out",
		},
		{
			Path: "added[].weight_g", Group: group, Title: "Weight of one", Unit: "g", Range: Range{0, 1000}, Step: 0.05, Decimals: 3,
			Tip: "Of one part, or of the prongs of one stone. Weigh it, or ask your supplier.",
			Doc: "prongs, part: {}, of one",
			For: of(func(a *Added) bool { return a.Kind == OtherPart || a.Setting == Prongs }), Else: "goes with parts and prongs; leave it out",
		},
		{
			Path: "added[].alloy", Group: group, Title: "Metal",
			Tip:     "Of the bezel, the wire, the beads or the part.",
			Doc:     "a key of the table of alloys: of bezel, wire and beads; the metal of the band if left out",
			Options: alloys,
			Shown:   of(func(a *Added) bool { return a.Kind == WirePart || a.Kind == BeadsPart || a.Setting == Bezel }),
		},
		{
			Path: "added[].price", Group: group, Title: "Price of one", Range: PriceRange, Step: 1, Decimals: 2, Empty: "no price",
			Tip: "Of one stone or part with its setting, or of one bead. Wire and bezels without it are reckoned by their metal's weight.",
			Doc: "{}, of one, in the metal's currency; of wire of the whole",
		},
		{
			Path: "added[].margin_mm", Group: group, Title: "Margin", Unit: "mm", Range: Range{0, 20}, Step: 0.1, Decimals: 2,
			Tip: "The distance that openings keep from it: 0.5 mm round a bezel (common practice).",
			Doc: "{}: how far openings stay away",
		},
		{
			Path: "added[].note", Title: "Name", Bytes: 200,
			Tip:  "What it is, for the job sheet: \"garnet\", \"clasp\".",
			Rule: addedOfItsKind,
		},
	}
}

// boundAdded bounds the parts, those of rows counted singly.
func boundAdded(d *Design, _ At) error {
	n := 0
	for i, a := range d.Added {
		k := max(1, a.Count)
		if a.Row == RowBoth {
			k *= 2
		}
		if n += k; n > MaxAddedParts {
			return &unroll.FieldError{Path: fmt.Sprintf("added[%d].count", i), Msg: fmt.Sprintf("at most %d added parts, those of rows counted singly; there are %d or more", MaxAddedParts, n)}
		}
	}
	return nil
}

// addedOfItsKind asks a part for what its kind needs, once its values have been checked by
// themselves.
func addedOfItsKind(d *Design, at At) error {
	a := &d.Added[at[0]]
	wrong := func(field, msg string) error {
		return &unroll.FieldError{Path: fmt.Sprintf("added[%d].%s", at[0], field), Msg: msg}
	}
	switch {
	case a.Kind == WirePart && !onEdge(a.Row):
		return wrong("row", fmt.Sprintf("is missing: wire follows an edge; use %q, %q or %q", RowTop, RowBottom, RowBoth))
	case a.Kind == BeadsPart && a.WidthMM == 0 && a.Count == 0:
		return wrong("count", "is missing: give how many beads, or width_mm, their diameter, or both")
	case a.Kind != BeadsPart && a.WidthMM == 0:
		return wrong("width_mm", fmt.Sprintf("must be a number from %g to %g; it is missing", SizeRange.Min, SizeRange.Max))
	case (a.Row == RowCircle || a.Row == RowOval) && a.Kind != BeadsPart && a.Count < 2:
		return wrong("count", "a circle or an oval of them needs at least 2")
	case a.Kind == BeadsPart && a.WidthMM == 0 && a.Count < 3:
		return wrong("count", "beads that close a row, or fill it, are at least 3; or give width_mm, their diameter")
	}
	if c, _ := added.CutOf(a.Cut); a.Kind == StonePart && !c.Even && a.HeightMM > a.WidthMM {
		return wrong("height_mm", Say("a stone is at least as long as wide: %.2f mm is more than its length of %.2f mm; swap them and turn it by 90 degrees", a.HeightMM, a.WidthMM))
	}
	return nil
}
