package app

import (
	"fretband/export"
)

// The numbers and choices that a shop needs to know before it cuts. Figures of what is
// usual are common practice and guides only: the shop decides.

func curvesChoice() HandOverChoice {
	return HandOverChoice{
		Key: "curves", Title: "Curves", Tip: "How the shop's program reads curves. True arcs run smoothly under the beam. Take the older DXF, or straight chords, only if the shop asks for it.",
		Options: []Option{{Key: export.Arcs, Title: "True arcs (DXF of release 2000, SVG)"}, {Key: export.ArcsR12, Title: "True arcs (DXF of release 12, SVG)"}, {Key: export.Chords, Title: "Straight chords (DXF of release 12, SVG)"}},
		Get:     func(h HandOver) string { return h.Curves },
		Set:     func(h *HandOver, key string) { h.Curves = key },
	}
}

func kerfNumber() HandOverNumber {
	return HandOverNumber{
		Key: "kerf", Title: "Kerf", Unit: "mm", Max: export.MaxKerfMM, Step: 0.01, Places: 3,
		Tip: "The width that the beam or blade takes away: ask the shop. The cut files then draw the middle of the cut, so that the part keeps its size. 0 if the shop allows for it: the lines are the finished edges.",
		Get: func(h HandOver) float64 { return h.KerfMM },
		Set: func(h *HandOver, v float64) { h.KerfMM = v },
	}
}

func leadNumber() HandOverNumber {
	return HandOverNumber{
		Key: "lead", Title: "Lead-in", Unit: "mm", Max: export.MaxLeadMM, Step: 0.1, Places: 2,
		Tip: "A short run-up through the waste: the beam pierces the sheet beside the part, not on its edge, where the start would leave a pip. Shorter where there is no room. 0 for none, as for the saw.",
		Get: func(h HandOver) float64 { return h.LeadMM },
		Set: func(h *HandOver, v float64) { h.LeadMM = v },
	}
}

func tabsNumber() HandOverNumber {
	return HandOverNumber{
		Key: "tabs", Title: "Tabs", Max: export.MaxTabs, Step: 1, Whole: true,
		Tip: "Little gaps left in the cut of the outline, so that the part does not tip up or fall while the sheet is worked. They are snapped and filed off afterwards. 0 cuts the part free.",
		Get: func(h HandOver) float64 { return float64(h.Tabs) },
		Set: func(h *HandOver, v float64) { h.Tabs = int(v) },
	}
}

func tabWidthNumber() HandOverNumber {
	return HandOverNumber{
		Key: "tab-width", Title: "Tab width", Unit: "mm", Min: export.MinTabMM, Max: export.MaxTabMM, Step: 0.05, Places: 2,
		Tip: "Of each tab: wide enough to hold, narrow enough to snap. About a third of the sheet's thickness or a little more.",
		Get: func(h HandOver) float64 { return h.TabMM },
		Set: func(h *HandOver, v float64) { h.TabMM = v },
	}
}

func chordNumber() HandOverNumber {
	return HandOverNumber{
		Key: "chord", Title: "Chords within", Unit: "mm", Min: export.MinChordMM, Max: export.MaxChordMM, Step: 0.001, Places: 4,
		Tip:   "How far a straight chord may lie from its arc at most. Less makes smoother edges and larger files.",
		Get:   func(h HandOver) float64 { return h.ChordMM },
		Set:   func(h *HandOver, v float64) { h.ChordMM = v },
		Shown: func(h HandOver) bool { return h.Curves == export.Chords },
	}
}

func sheetWidthNumber() HandOverNumber {
	return HandOverNumber{
		Key: "sheet-width", Title: "Sheet, long", Unit: "mm", Min: 1, Max: export.MaxStockMM, Step: 10, Places: 2, Empty: "as needed",
		Tip: "The sheet that is cut. Leave both sides empty for one as large as the parts need.",
		Get: func(h HandOver) float64 { return h.SheetW },
		Set: func(h *HandOver, v float64) { h.SheetW = v },
	}
}

func sheetHeightNumber() HandOverNumber {
	return HandOverNumber{
		Key: "sheet-height", Title: "Sheet, high", Unit: "mm", Min: 1, Max: export.MaxStockMM, Step: 10, Places: 2, Empty: "as needed",
		Tip: "The sheet that is cut. Leave both sides empty for one as large as the parts need.",
		Get: func(h HandOver) float64 { return h.SheetH },
		Set: func(h *HandOver, v float64) { h.SheetH = v },
	}
}

func gapNumber() HandOverNumber {
	return HandOverNumber{
		Key: "gap", Title: "Gap", Unit: "mm", Min: export.MinGapMM, Max: export.MaxGapMM, Step: 0.5, Places: 2,
		Tip: "Metal left between two parts, with their lead-ins and kerf.",
		Get: func(h HandOver) float64 { return h.GapMM },
		Set: func(h *HandOver, v float64) { h.GapMM = v },
	}
}

func marginNumber() HandOverNumber {
	return HandOverNumber{
		Key: "margin", Title: "Margin", Unit: "mm", Min: export.MinGapMM, Max: export.MaxGapMM, Step: 0.5, Places: 2,
		Tip: "Metal left between a part and the edge of the sheet, where clamps hold it.",
		Get: func(h HandOver) float64 { return h.MarginMM },
		Set: func(h *HandOver, v float64) { h.MarginMM = v },
	}
}

func copiesNumber() HandOverNumber {
	return HandOverNumber{
		Key: "copies", Title: "Copies", Min: 1, Max: export.MaxCopies, Step: 1, Whole: true,
		Tip: "How many parts are laid on the sheet, turned where more of them fit.",
		Get: func(h HandOver) float64 { return float64(h.Copies) },
		Set: func(h *HandOver, v float64) { h.Copies = int(v) },
	}
}
