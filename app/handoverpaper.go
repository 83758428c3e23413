package app

import (
	"strings"

	"fretband/export"
	"fretband/pattern"
)

// What the bench is asked, and what nobody but a stranger is.

func paperChoice() HandOverChoice {
	var papers []Option
	for _, p := range export.Papers() {
		papers = append(papers, Option{Key: p, Title: paperTitle(p)})
	}
	return HandOverChoice{
		Key: "paper", Title: "Paper", Tip: "Of the saw template, printed at 100 %. Upright or across is chosen for the fewest sheets.",
		Options: papers,
		Get:     func(h HandOver) string { return h.Paper },
		Set:     func(h *HandOver, key string) { h.Paper = key },
	}
}

func paperTitle(key string) string {
	if len(key) == 2 {
		return strings.ToUpper(key) // A4, A3
	}
	return strings.ToUpper(key[:1]) + key[1:]
}

func paperCopiesNumber() HandOverNumber {
	return HandOverNumber{
		Key: "paper-copies", Title: "Copies", Min: 1, Max: export.MaxCopies, Step: 1, Whole: true,
		Tip: "How many templates are printed: one is used up with each part that is sawn. As many as fit stand on a page.",
		Get: func(h HandOver) float64 { return float64(h.PaperCopies) },
		Set: func(h *HandOver, v float64) { h.PaperCopies = int(v) },
	}
}

func processChoice() HandOverChoice {
	return HandOverChoice{
		Key: "process", Title: "Made with", Tip: "What the notes and cautions in the files say. If the design names a process, that one is taken.",
		Options: pattern.ByPath("rules.process")[0].Options,
		Get:     func(h HandOver) string { return h.Process },
		Set:     func(h *HandOver, key string) { h.Process = key },
	}
}
