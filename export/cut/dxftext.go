package cut

import (
	"fmt"
	"strings"
)

// dxfString writes text in the seven-bit form that every reader takes: other
// letters as \U+XXXX, and the caret, which starts a control code, with a space.
func dxfString(s string) string {
	return inSevenBits(s, func(r rune) string {
		if r > 0xFFFF {
			return "?" // the form has room for four digits
		}
		return fmt.Sprintf(`\U+%04X`, r)
	})
}

// inSevenBits writes text without control codes, and letters beyond seven bits as beyond
// has them.
func inSevenBits(s string, beyond func(rune) string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '^':
			b.WriteString("^ ")
		case r < 0x20 || r == 0x7f:
			b.WriteByte(' ')
		case r < 0x7f:
			b.WriteRune(r)
		default:
			b.WriteString(beyond(r))
		}
	}
	return b.String()
}

// latin lists letters beyond seven bits and what is written for them.
var latin = strings.NewReplacer(latinPairs()...)

func latinPairs() []string {
	ps := []string{
		"³", "3", "²", "2", "¹", "1", "µ", "u", "μ", "u", "×", "x", "÷", "/", "±", "+/-", "·", ".",
		"°", " deg", "º", " deg", "½", "1/2", "¼", "1/4", "¾", "3/4", "⌀", "dia. ",
		"–", "-", "—", "-", "−", "-", "‘", "'", "’", "'", "“", "\"", "”", "\"", "«", "\"", "»", "\"", "…", "...",
		"€", "EUR", "£", "GBP", "¥", "JPY", "\u00a0", " ", "\u202f", " ",
		"ß", "ss", "Æ", "AE", "æ", "ae", "Œ", "OE", "œ", "oe", "Þ", "Th", "þ", "th",
	}
	for _, row := range []struct{ plain, letters string }{
		{"A", "ÀÁÂÃÄÅĀĂĄ"}, {"a", "àáâãäåāăą"}, {"C", "ÇĆĈĊČ"}, {"c", "çćĉċč"}, {"D", "ĎĐÐ"}, {"d", "ďđð"},
		{"E", "ÈÉÊËĒĔĖĘĚ"}, {"e", "èéêëēĕėęě"}, {"G", "ĜĞĠĢ"}, {"g", "ĝğġģ"}, {"H", "ĤĦ"}, {"h", "ĥħ"},
		{"I", "ÌÍÎÏĨĪĬĮİ"}, {"i", "ìíîïĩīĭįı"}, {"J", "Ĵ"}, {"j", "ĵ"}, {"K", "Ķ"}, {"k", "ķ"},
		{"L", "ĹĻĽĿŁ"}, {"l", "ĺļľŀł"}, {"N", "ÑŃŅŇ"}, {"n", "ñńņň"}, {"O", "ÒÓÔÕÖØŌŎŐ"}, {"o", "òóôõöøōŏő"},
		{"R", "ŔŖŘ"}, {"r", "ŕŗř"}, {"S", "ŚŜŞŠȘ"}, {"s", "śŝşšș"}, {"T", "ŢŤŦȚ"}, {"t", "ţťŧț"},
		{"U", "ÙÚÛÜŨŪŬŮŰŲ"}, {"u", "ùúûüũūŭůűų"}, {"W", "Ŵ"}, {"w", "ŵ"}, {"Y", "ÝŶŸ"}, {"y", "ýŷÿ"},
		{"Z", "ŹŻŽ"}, {"z", "źżž"},
	} {
		for _, r := range row.letters {
			ps = append(ps, string(r), row.plain)
		}
	}
	return ps
}

// sevenBit writes text for readers that know no letters beyond seven bits and no
// escapes for them: accents go, signs are spelt out, what is left becomes '?'. The
// caret, which starts a control code, is followed by a space.
func sevenBit(s string) string {
	return inSevenBits(latin.Replace(s), func(rune) string { return "?" })
}
