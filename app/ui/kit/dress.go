package kit

import (
	"image/color"
	"strings"

	"fretband/pattern/check"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Dress is one set of colours: four close greys, the inks, one accent for what
// is selected, one for what the pointer is over, and three for findings, which
// always go with a word and a shape. The finding colours are the blue, orange
// and vermilion that Okabe and Ito chose to stay apart for colour-blind eyes,
// darkened or lightened until small text on them is legible.
type Dress struct {
	Name string

	ground, Panel, raised, Line color.NRGBA // window, panels, entries, hairlines
	Ink, Soft, Faint            color.NRGBA // text, captions, what is off
	Hover, Selected             color.NRGBA
	onSelected                  color.NRGBA
	Note, Caution, Breach       color.NRGBA
	Paper, Grid, Rule           color.NRGBA // of the drawing
	Shadow                      color.NRGBA

	fyne.Theme // the toolkit's own, for all else
	colours    map[fyne.ThemeColorName]color.Color
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}
}

func Alpha(c color.NRGBA, a uint8) color.NRGBA { c.A = a; return c }

var lightDress = asTheme(Dress{
	Name:   "light",
	ground: rgb(0xECEAE5), Panel: rgb(0xF6F4F0), raised: rgb(0xFFFFFF), Line: rgb(0xD3CFC7),
	Ink: rgb(0x24211D), Soft: rgb(0x655F56), Faint: rgb(0xA29C92),
	Hover: rgb(0x0F7F78), Selected: rgb(0x1D5FA6), onSelected: rgb(0xFFFFFF),
	Note: rgb(0x1F6FA8), Caution: rgb(0x9A6200), Breach: rgb(0xB8420A),
	Paper: rgb(0xFBFAF8), Grid: rgb(0xEEECE7), Rule: rgb(0x8C857A),
	Shadow: color.NRGBA{40, 34, 24, 46},
})

var darkDress = asTheme(Dress{
	Name:   "dark",
	ground: rgb(0x1B1A18), Panel: rgb(0x242321), raised: rgb(0x302E2B), Line: rgb(0x3F3C38),
	Ink: rgb(0xECE8E1), Soft: rgb(0xA8A197), Faint: rgb(0x6E685F),
	Hover: rgb(0x4FC7BC), Selected: rgb(0x6FA8E8), onSelected: rgb(0x101820),
	Note: rgb(0x73B5E3), Caution: rgb(0xF0B24A), Breach: rgb(0xFF8A50),
	Paper: rgb(0x171614), Grid: rgb(0x24221F), Rule: rgb(0x7A746A),
	Shadow: color.NRGBA{0, 0, 0, 110},
})

func DressNamed(name string) *Dress {
	if name == darkDress.Name {
		return darkDress
	}
	return lightDress
}

// Dark reports whether it is the dark one.
func (d *Dress) Dark() bool { return d == darkDress }

// Severity is the colour of a finding.
func (d *Dress) Severity(s check.Severity) color.NRGBA {
	switch s {
	case check.Breach:
		return d.Breach
	case check.Caution:
		return d.Caution
	}
	return d.Note
}

// Metal is the look of an alloy on the drawing and on the bent band.
// polish is how it shines when bent and finished.
type Metal struct{ Face, Edge, Polish color.NRGBA }

// metalTones go by the start of the alloy's key, in the order in which they are
// tried; the last one fits anything. They are a hint, not a match of colour.
var metalTones = []struct {
	words []string
	Metal
}{
	{[]string{"silver", "ag", "sterling", "pt", "plat", "pd", "pall", "steel", "stainless", "white"}, Metal{rgb(0xBDB8AF), rgb(0x625E57), rgb(0xD9D5CC)}},
	{[]string{"titan", "ti", "niob", "tant"}, Metal{rgb(0xABA8A3), rgb(0x5B5853), rgb(0xC9C6C1)}},
	{[]string{"copper", "cu", "bronze", "phosphor", "red", "rose"}, Metal{rgb(0xD69A73), rgb(0x8A4D2B), rgb(0xEDB28C)}},
	{[]string{"brass"}, Metal{rgb(0xD8BC6A), rgb(0x826517), rgb(0xE9D186)}},
	{[]string{"gold", ""}, Metal{rgb(0xDDB978), rgb(0x87611F), rgb(0xEBC98C)}},
}

func MetalOf(alloy string) Metal {
	key := strings.ToLower(alloy)
	for _, t := range metalTones {
		for _, w := range t.words {
			if strings.HasPrefix(key, w) || strings.Contains(key, "-"+w) {
				return t.Metal
			}
		}
	}
	return Metal{}
}

// Color implements fyne.Theme. The variant is ignored: the dress is the
// person's choice.
func (d *Dress) Color(n fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	if c, ok := d.colours[n]; ok {
		return c
	}
	return d.Theme.Color(n, theme.VariantLight)
}

// asTheme has the dress be the toolkit's theme as well.
func asTheme(d Dress) *Dress {
	d.Theme = theme.DefaultTheme()
	d.colours = map[fyne.ThemeColorName]color.Color{
		theme.ColorNameBackground:          d.Panel,
		theme.ColorNameForeground:          d.Ink,
		theme.ColorNameButton:              d.raised,
		theme.ColorNameDisabledButton:      d.Panel,
		theme.ColorNameDisabled:            d.Faint,
		theme.ColorNamePlaceHolder:         d.Soft,
		theme.ColorNameError:               d.Breach,
		theme.ColorNameWarning:             d.Caution,
		theme.ColorNameSuccess:             d.Hover,
		theme.ColorNameForegroundOnError:   d.onSelected,
		theme.ColorNameForegroundOnPrimary: d.onSelected,
		theme.ColorNameForegroundOnSuccess: d.onSelected,
		theme.ColorNameForegroundOnWarning: d.onSelected,
		theme.ColorNamePrimary:             d.Selected,
		theme.ColorNameHyperlink:           d.Selected,
		theme.ColorNameFocus:               Alpha(d.Selected, 0x55),
		theme.ColorNameSelection:           Alpha(d.Selected, 0x44),
		theme.ColorNameHover:               Alpha(d.Ink, 0x12),
		theme.ColorNamePressed:             Alpha(d.Ink, 0x24),
		theme.ColorNameInputBackground:     d.raised,
		theme.ColorNameInputBorder:         d.Line,
		theme.ColorNameSeparator:           d.Line,
		theme.ColorNameHeaderBackground:    d.ground,
		theme.ColorNameMenuBackground:      d.Panel,
		theme.ColorNameOverlayBackground:   d.Panel,
		theme.ColorNameScrollBar:           Alpha(d.Ink, 0x50),
		theme.ColorNameScrollBarBackground: color.NRGBA{},
		theme.ColorNameShadow:              d.Shadow,
	}
	return &d
}

// Size implements fyne.Theme.
func (d *Dress) Size(n fyne.ThemeSizeName) float32 {
	if s, ok := themeSizes[n]; ok {
		return s
	}
	return d.Theme.Size(n)
}

// themeSizes are those that differ from the toolkit's: text of 13, little padding.
var themeSizes = map[fyne.ThemeSizeName]float32{
	theme.SizeNameText:            13,
	theme.SizeNameCaptionText:     11,
	theme.SizeNameHeadingText:     18,
	theme.SizeNameSubHeadingText:  15,
	theme.SizeNamePadding:         3,
	theme.SizeNameInnerPadding:    5,
	theme.SizeNameInlineIcon:      16,
	theme.SizeNameInputRadius:     3,
	theme.SizeNameSelectionRadius: 3,
	theme.SizeNameScrollBarRadius: 3,
	theme.SizeNameScrollBar:       10,
	theme.SizeNameScrollBarSmall:  3,
	theme.SizeNameLineSpacing:     3,
}
