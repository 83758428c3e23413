package export

import "fretband/pattern"

// Colour is a colour of lines in cut files: a shop whose machine goes by colour says which
// it takes for what.
type Colour struct {
	Key string
	SVG string // as SVG has it
	DXF int    // its number, by the DXF reference; 7 is black or white, whichever shows
}

// Colours lists them.
func Colours() []Colour {
	return []Colour{
		{"black", "#000000", 7}, {"red", "#ff0000", 1}, {"yellow", "#ffff00", 2}, {"green", "#00ff00", 3},
		{"cyan", "#00ffff", 4}, {"blue", "#0000ff", 5}, {"magenta", "#ff00ff", 6}, {"grey", "#808080", 8},
	}
}

// Usual colours of lines: engraving differs from what is cut even where a reader does not look
// at groups and layers.
const (
	cutColour      = "black"
	engravedColour = "grey"
)

func colourOptions() (os []pattern.Option) {
	for _, c := range Colours() {
		os = append(os, pattern.Option{Key: c.Key, Title: c.Key})
	}
	return os
}

func colourOf(key, usual string) Colour {
	for _, c := range Colours() {
		if c.Key == key || key == "" && c.Key == usual {
			return c
		}
	}
	return Colour{} // Check has refused it
}

// OpeningsLine, OutlineLine and EngravedLine are the colours of the lines in cut files.
func (o Options) OpeningsLine() Colour { return colourOf(o.OpeningsColour, cutColour) }
func (o Options) OutlineLine() Colour  { return colourOf(o.OutlineColour, cutColour) }
func (o Options) EngravedLine() Colour { return colourOf(o.EngravingColour, engravedColour) }
