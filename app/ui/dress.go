package ui

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// dress is one set of colours: four close greys, the inks, one accent for what
// is selected, one for what the pointer is over, and three for findings, which
// always go with a word and a shape. The finding colours are the blue, orange
// and vermilion that Okabe and Ito chose to stay apart for colour-blind eyes,
// darkened or lightened until small text on them is legible.
type dress struct {
	name string

	ground, panel, raised, line color.NRGBA // window, panels, entries, hairlines
	ink, soft, faint            color.NRGBA // text, captions, what is off
	hover, selected             color.NRGBA
	onSelected                  color.NRGBA
	note, caution, breach       color.NRGBA
	paper, grid, rule           color.NRGBA // of the drawing
	shadow                      color.NRGBA
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}
}

func alpha(c color.NRGBA, a uint8) color.NRGBA { c.A = a; return c }

var lightDress = dress{
	name:   "light",
	ground: rgb(0xECEAE5), panel: rgb(0xF6F4F0), raised: rgb(0xFFFFFF), line: rgb(0xD3CFC7),
	ink: rgb(0x24211D), soft: rgb(0x6B655C), faint: rgb(0xA29C92),
	hover: rgb(0x0F7F78), selected: rgb(0x1D5FA6), onSelected: rgb(0xFFFFFF),
	note: rgb(0x1F6FA8), caution: rgb(0x9A6200), breach: rgb(0xB8420A),
	paper: rgb(0xFBFAF8), grid: rgb(0xEEECE7), rule: rgb(0x8C857A),
	shadow: color.NRGBA{40, 34, 24, 46},
}

var darkDress = dress{
	name:   "dark",
	ground: rgb(0x1B1A18), panel: rgb(0x242321), raised: rgb(0x302E2B), line: rgb(0x3F3C38),
	ink: rgb(0xECE8E1), soft: rgb(0xA8A197), faint: rgb(0x6E685F),
	hover: rgb(0x4FC7BC), selected: rgb(0x6FA8E8), onSelected: rgb(0x101820),
	note: rgb(0x73B5E3), caution: rgb(0xF0B24A), breach: rgb(0xFF8A50),
	paper: rgb(0x171614), grid: rgb(0x24221F), rule: rgb(0x7A746A),
	shadow: color.NRGBA{0, 0, 0, 110},
}

func dressNamed(name string) *dress {
	if name == darkDress.name {
		return &darkDress
	}
	return &lightDress
}

// metal is the look of an alloy on the drawing and on the bent band.
// polish is how it shines when bent and finished.
type metal struct{ face, edge, polish color.NRGBA }

// metalTones go by the start of the alloy's key, in the order in which they are
// tried; the last one fits anything. They are a hint, not a match of colour.
var metalTones = []struct {
	words []string
	metal
}{
	{[]string{"silver", "ag", "sterling", "pt", "plat", "pd", "pall", "steel", "stainless", "white"}, metal{rgb(0xBDB8AF), rgb(0x625E57), rgb(0xD9D5CC)}},
	{[]string{"titan", "ti", "niob", "tant"}, metal{rgb(0xABA8A3), rgb(0x5B5853), rgb(0xC9C6C1)}},
	{[]string{"copper", "cu", "bronze", "phosphor", "red", "rose"}, metal{rgb(0xD69A73), rgb(0x8A4D2B), rgb(0xEDB28C)}},
	{[]string{"brass"}, metal{rgb(0xD8BC6A), rgb(0x826517), rgb(0xE9D186)}},
	{[]string{"gold", ""}, metal{rgb(0xDDB978), rgb(0x87611F), rgb(0xEBC98C)}},
}

func toneOf(alloy string) metal {
	key := strings.ToLower(alloy)
	for _, t := range metalTones {
		for _, w := range t.words {
			if strings.HasPrefix(key, w) || strings.Contains(key, "-"+w) {
				return t.metal
			}
		}
	}
	return metal{}
}

// Dressing is the toolkit's theme in one of our dresses: text of 13, quiet
// greys, little padding.
type Dressing struct{ *dress }

var _ fyne.Theme = Dressing{}

// Color implements fyne.Theme. The variant is ignored: the dress is the
// person's choice.
func (t Dressing) Color(n fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	switch n {
	case theme.ColorNameBackground:
		return t.panel
	case theme.ColorNameForeground:
		return t.ink
	case theme.ColorNameButton:
		return t.raised
	case theme.ColorNameDisabledButton:
		return t.panel
	case theme.ColorNameDisabled, theme.ColorNamePlaceHolder:
		return t.faint
	case theme.ColorNameError:
		return t.breach
	case theme.ColorNameWarning:
		return t.caution
	case theme.ColorNameSuccess:
		return t.hover
	case theme.ColorNameForegroundOnError, theme.ColorNameForegroundOnPrimary,
		theme.ColorNameForegroundOnSuccess, theme.ColorNameForegroundOnWarning:
		return t.onSelected
	case theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return t.selected
	case theme.ColorNameFocus:
		return alpha(t.selected, 0x55)
	case theme.ColorNameSelection:
		return alpha(t.selected, 0x44)
	case theme.ColorNameHover:
		return alpha(t.ink, 0x12)
	case theme.ColorNamePressed:
		return alpha(t.ink, 0x24)
	case theme.ColorNameInputBackground:
		return t.raised
	case theme.ColorNameInputBorder, theme.ColorNameSeparator:
		return t.line
	case theme.ColorNameHeaderBackground:
		return t.ground
	case theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground:
		return t.panel
	case theme.ColorNameScrollBar:
		return alpha(t.ink, 0x50)
	case theme.ColorNameScrollBarBackground:
		return color.NRGBA{}
	case theme.ColorNameShadow:
		return t.shadow
	}
	return theme.DefaultTheme().Color(n, theme.VariantLight)
}

// Size implements fyne.Theme.
func (t Dressing) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNameText:
		return 13
	case theme.SizeNameCaptionText:
		return 11
	case theme.SizeNameHeadingText:
		return 18
	case theme.SizeNameSubHeadingText:
		return 15
	case theme.SizeNamePadding:
		return 3
	case theme.SizeNameInnerPadding:
		return 5
	case theme.SizeNameInlineIcon:
		return 16
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius, theme.SizeNameScrollBarRadius:
		return 3
	case theme.SizeNameScrollBar:
		return 10
	case theme.SizeNameScrollBarSmall:
		return 3
	case theme.SizeNameLineSpacing:
		return 3
	}
	return theme.DefaultTheme().Size(n)
}

// Font implements fyne.Theme.
func (t Dressing) Font(s fyne.TextStyle) fyne.Resource { return theme.DefaultTheme().Font(s) }

// Icon implements fyne.Theme.
func (t Dressing) Icon(n fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(n) }
