package export

import (
	"fmt"

	"fretband/pattern"
)

// keptText says what a reserve is and where: its shape, size, turn and row.
func keptText(r pattern.Reserve) string {
	var text string
	switch r.Shape {
	case pattern.CircleShape:
		text = fmt.Sprintf("circle %s mm across", mm(r.WidthMM))
	case pattern.PathShape:
		text = "drawn shape"
		if r.WidthMM > 0 {
			text += fmt.Sprintf(" %s x %s mm", mm(r.WidthMM), mm(r.HeightMM))
		}
	default:
		text = fmt.Sprintf("%s %s x %s mm", r.Shape, mm(r.WidthMM), mm(r.HeightMM))
	}
	if r.TurnDeg != 0 && r.Shape != pattern.CircleShape {
		text += fmt.Sprintf(" turned %s degrees", mm(r.TurnDeg))
	}
	if r.Count > 1 {
		text = fmt.Sprintf("%d in a row (each %s),", r.Count, text)
		if r.SpacingMM > 0 {
			text += fmt.Sprintf(" %s mm from middle to middle,", mm(r.SpacingMM))
		} else {
			text += " spread evenly,"
		}
		text += " about"
	} else {
		text += " at"
	}
	text += fmt.Sprintf(" x %s, y %s", mm(r.XMM), mm(r.YMM))
	if n := plain(r.Note); n != "" {
		text = n + ", " + text
	}
	return text
}
