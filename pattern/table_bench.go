package pattern

// headEntries are what the piece is called.
func headEntries() []Entry {
	return []Entry{
		{
			Path: "name", Bytes: 80, Needed: true, Doc: "{}: what the piece is called",
		},
		{
			Path: "note", Bytes: 2000, Lines: true, Doc: "{}, for the reader; it may have several lines",
		},
	}
}

func metalEntries() []Entry {
	own := func(d *Design, _ At) bool { return d.Metal.Alloy == OwnAlloy }
	return []Entry{
		{Path: "metal"},
		{
			Path: "metal.alloy", Group: MetalGroup, Title: "Alloy",
			Tip: "Sets the weight. Alloys of one name differ by a few parts in a hundred: your supplier's figure is the better one.",
			Doc: `a key of the table of alloys, as "sterling-925", or "own"`,
			Offer: func(*Design, At) []Option {
				var os []Option
				for _, a := range Alloys() {
					os = append(os, Option{a.Key, a.Name})
				}
				return os
			},
			Rule: metalKnown,
		},
		{
			Path: "metal.density_g_cm3", Group: MetalGroup, Title: "Density", Unit: "g/cm³", Range: Range{0.5, 25}, Step: 0.01, Decimals: 3,
			Tip:  "Of your own alloy: weight of a piece divided by the water that it pushes aside.",
			Doc:  `alloy "own": {}, g/cm^3`,
			For:  own,
			Else: `goes with alloy "own" only; leave it out`,
		},
		{
			Path: "metal.price_per_g", Group: MetalGroup, Title: "Price", Unit: "per g", Range: PriceRange, Step: 0.1, Decimals: 3, Empty: "no price",
			Tip: "What you pay for a gram, for the cost of the metal left. Left empty, it shows no cost.",
			Doc: "{}; 0 shows no cost",
		},
		{
			Path: "metal.currency", Title: "Currency", Bytes: 12,
			Tip: "As you want it written beside the cost.",
			Doc: `{}, as "EUR"`,
		},
	}
}

// ruleEntries are what holds for every opening.
func ruleEntries() []Entry {
	processes := []Option{{"", "Not settled"}}
	for _, p := range Processes() {
		processes = append(processes, Option{p.Key, p.Title})
	}
	return []Entry{
		{Path: "rules", Doc: "what holds for every opening:"},
		{
			Path: "rules.process", Group: RulesGroup, Title: "Process", Options: processes,
			Tip: "How openings are cut. It changes none of your rules: its usual limits for this sheet are told beside them, and findings say where yours go under.",
			Doc: "how openings are cut: {}",
		},
		{
			Path: "rules.bridge_mm", Group: RulesGroup, Title: "Bridge", Unit: "mm", Range: BridgeRange, Step: 0.05, Decimals: 2, Slider: Range{0.3, 4}, RingSlider: Range{0.3, 2.5},
			Tip: "The metal between openings. It is a rule: no bridge comes out thinner. At least the sheet's thickness, never under about 0.5 mm in silver or gold (common practice).",
			Doc: "{}: no metal between openings is thinner",
		},
		{
			Path: "rules.rim_mm", Group: RulesGroup, Title: "Rim", Unit: "mm", Range: Range{0, 60}, Step: 0.1, Decimals: 2, Slider: Range{0, 10}, RingSlider: Range{0, 4},
			Tip: "The solid strip along the edges and a cuff's ends; often 1.5 to 2 mm (common practice).",
			Doc: "{}: solid along the edges; at least bridge_mm is kept",
		},
		{
			Path: "rules.rim_along", Title: "Rim along", Most: MaxGrades, Parts: "points",
			Tip: "How the rim grows and shrinks along the band, in proportion to its width.",
			Doc: "list of at most {} points: the rim along the band, with a smooth curve through them; nowhere under bridge_mm. A cuff's ends have the rim's width there. Round a closed band the curve runs on over the seam; both -1 and 1 are one place there and take their mean. Rows that follow the width follow the rim",
		},
		{
			Path: "rules.rim_along[].at", Group: RimGroup, Title: "Rim along, point #, place", Range: GradeAtRange, Step: 0.05, Decimals: 3,
			Tip:  "The place on the band: -1 is the left end, 0 the middle, 1 the right end.",
			Doc:  "-1 (left end) to 1 (right end), each more than the one before",
			Rule: gradeOrder("rules.rim_along[].at"),
		},
		{
			Path: "rules.rim_along[].size", Group: RimGroup, Title: "Rim along, point #, size", Range: GradeRange, Step: 0.05, Decimals: 3, Hundred: one,
			Tip: "How wide the rim is there, in proportion to the rim: 1 is its width, 0.5 half of it. The bridge rule is kept.",
			Doc: "{}, in proportion to rim_mm",
		},
		{
			Path: "rules.corner_mm", Group: RulesGroup, Title: "Corner", Unit: "mm", Range: Range{0, 10}, Step: 0.05, Decimals: 2, Slider: Range{0, 3}, RingSlider: Range{0, 1.5},
			Tip: "The least radius in the corners of an opening: half the blade's or beam's width at the least.",
			Doc: "{}: least radius of an opening's inner corners",
		},
		{
			Path: "rules.smallest_mm", Group: RulesGroup, Title: "Smallest", Unit: "mm", Range: Range{0, 20}, Step: 0.1, Decimals: 2,
			Tip: "An opening must let a circle of this diameter through, or it is left solid and counted: room for the pilot hole and the blade.",
			Doc: "{}: diameter of the circle that every opening admits",
		},
	}
}

// workEntries are what the maker says of his own bench.
func workEntries() []Entry {
	rate := Range{0, 100000}
	return []Entry{
		{Path: "work", Doc: "what the maker says of his own bench; what is left out is not counted:"},
		{
			Path: "work.kerf_mm", Group: WorkGroup, Title: "Kerf", Unit: "mm", Range: Range{0, 3}, Step: 0.01, Decimals: 3, Empty: "none",
			Tip: "The width that your blade or beam takes. Left empty, it is the blade's nominal thickness, or 0.1 mm for a laser (a usual width, without a source: ask the shop).",
			Doc: "{}, of the blade or beam",
		},
		{
			Path: "work.cut_mm_min", Group: WorkGroup, Title: "Cut in a minute", Unit: "mm", Range: rate, Step: 1, Decimals: 1, Empty: "no rate",
			Tip: "How much you or the shop cut in a minute, in this metal. There is no usual rate: time one piece. Left empty, it gives no time.",
			Doc: "{}: length cut in a minute",
		},
		{
			Path: "work.opening_min", Group: WorkGroup, Title: "To start an opening", Unit: "min", Range: Range{0, 1000}, Step: 0.1, Decimals: 2, Empty: "no rate",
			Tip: "Minutes to mark, drill and thread one opening, or for the beam to pierce it.",
			Doc: "{}: minutes to drill, thread and start an opening",
		},
		{
			Path: "work.blade_mm", Group: WorkGroup, Title: "A blade lasts for", Unit: "mm", Range: rate, Step: 50, Empty: "none",
			Tip:   "The length of cut that wears out or breaks a blade at your bench, for how many the band takes.",
			Doc:   "{}: length of cut that a blade lasts",
			Shown: is(func(d *Design, _ At) string { return d.Rules.Process }, "", "saw"),
		},
		{
			Path: "work.hour_price", Group: WorkGroup, Title: "Price of an hour", Unit: "per h", Range: PriceRange, Step: 1, Decimals: 2, Empty: "no price",
			Tip: "Of the bench or the machine, in the metal's currency.",
			Doc: "{}, in the metal's currency",
		},
		{
			Path: "work.least_angle_deg", Group: WorkGroup, Title: "Least angle of metal", Unit: "\u00b0", Range: Range{0, 90}, Step: 1, Decimals: 1, Empty: "usual",
			Tip: "Points of metal sharper than this are told. Left empty, it is the usual 30 degrees (common practice).",
			Doc: "{}: metal angles under it are told; the usual 30 if left out",
		},
	}
}

// wearEntries are how an open cuff is put on and what its metal bears.
func wearEntries() []Entry {
	return []Entry{
		{Path: "wear", Doc: "how an open cuff is put on, for the estimate of its stress:"},
		{
			Path: "wear.temper", Group: WearGroup, Title: "Temper", Bytes: 40,
			Tip: "How hard the metal is when it is worn. Soldering anneals it; rolling, hammering and bending harden it.",
			Doc: "annealed, half-hard or hard, as far as the alloy has them; the softest if left out",
			Offer: func(d *Design, _ At) []Option {
				var os []Option
				for _, t := range Tempers(d.Metal.Alloy) {
					os = append(os, Option{t.Key, t.Title})
				}
				return os
			},
			Shown: isCuff,
		},
		{
			Path: "wear.open_mm", Group: WearGroup, Title: "Opened by", Unit: "mm", Range: Range{0, 100}, Step: 0.5, Decimals: 1, Empty: "wrist",
			Tip:   "By how much the ends are pulled apart to put the cuff on. Left empty, it is what lets the narrow side of the wrist through the gap.",
			Doc:   "{}: by how much the gap is opened",
			Shown: isCuff,
		},
		{
			Path: "wear.proof_mpa", Group: WearGroup, Title: "Proof stress", Unit: "MPa", Range: Range{0, 2000}, Step: 5, Empty: "none",
			Tip:   "The 0.2 % proof stress from your supplier's sheet. Left empty, it is the table's, where there is one.",
			Doc:   "{}: your own proof stress instead of the table's",
			Shown: isCuff,
		},
		{
			Path: "wear.modulus_gpa", Group: WearGroup, Title: "Modulus", Unit: "GPa", Range: Range{0, 400}, Step: 1, Decimals: 1, Empty: "none",
			Tip:   "Young's modulus of your metal: how stiff it is, whatever its temper. Left empty, it is the table's, where there is one.",
			Doc:   "{}: your own Young's modulus",
			Shown: isCuff,
		},
	}
}

// underlayEntries are the picture to trace from.
func underlayEntries() []Entry {
	laid := func(d *Design, _ At) bool { return d.Underlay.File != "" }
	const without = `goes with a "file" only; leave it out`
	return []Entry{
		{Path: "underlay", Doc: "a picture, PNG or JPEG, that the window shows dimmed on the blank, to trace from; it is in no file that is made of the design:"},
		{
			Path: "underlay.file", Title: "Picture to trace", Bytes: 1000,
			Doc: "text, at most {} bytes: where it is, from the design file's folder on",
		},
		{
			Path: "underlay.width_mm", Group: UnderlayGroup, Title: "Picture's width", Unit: "mm", Range: Range{1, 2000}, Step: 1, Decimals: 2,
			Tip: "How wide the picture is at true size; its height follows.",
			For: laid, Else: without,
		},
		{
			Path: "underlay.x_mm", Group: UnderlayGroup, Title: "Picture along", Unit: "mm", Range: PositionRange, Step: 0.5, Decimals: 2,
			Tip: "Of its middle, from the middle of the blank to the right.",
			Doc: "{}, of its middle",
			For: laid, Else: without,
		},
		{
			Path: "underlay.y_mm", Group: UnderlayGroup, Title: "Picture across", Unit: "mm", Range: PositionRange, Step: 0.5, Decimals: 2,
			Tip: "Of its middle, from the middle of the blank upwards.",
			Doc: "the same across",
			For: laid, Else: without,
		},
		{
			Path: "underlay.turn_deg", Group: UnderlayGroup, Title: "Picture turned", Unit: "\u00b0", Range: RotationRange, Step: 1, Decimals: 2,
			Tip: "Anticlockwise, about its middle.",
			Doc: "{}, anticlockwise",
			For: laid, Else: without,
		},
	}
}

// endEntries are findings that the maker accepts, and other designs of the piece.
func endEntries() []Entry {
	return []Entry{
		{
			Path: "accepted", Most: MaxAccepted, Doc: "list, at most {}, of findings that the maker lets stand:",
		},
		{
			Path: "accepted[].finding", Bytes: 80, Needed: true, Doc: `the key of the finding's kind, as "process-bridges"`,
		},
		{
			Path: "accepted[].reason", Bytes: 400, Needed: true,
		},
		{Path: "accepted[].at", Doc: "the finding's place, if it has one:"},
		{
			Path: "accepted[].at.x_mm", Unit: "mm", Range: PositionRange,
		},
		{
			Path: "accepted[].at.y_mm", Unit: "mm", Range: PositionRange,
		},
		{
			Path: "variants", Most: MaxVariants,
			Doc: "list, at most {}, of other designs of the same piece, each with the fields of a design but variants of its own",
		},
	}
}
