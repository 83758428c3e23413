package app

import (
	"fmt"
	"strings"

	"fretband/pattern"
)

// fieldTitleOf returns what the controls call a number or choice of a field; where
// there are several fields, with the field.
func fieldTitleOf(d pattern.Design, path string) (string, bool) {
	var i int
	if n, err := fmt.Sscanf(path, "fields[%d].", &i); n != 1 || err != nil || i < 0 || i >= len(d.Fields) {
		return "", false
	}
	title := ""
	for _, n := range FieldNumbers(d, i) {
		if n.Path == path && (title == "" || n.Shown(d)) {
			title = n.Title
		}
	}
	for _, c := range append(FieldChoices(i), MotifChoice(i), AreaChoice(i), SetFieldName(i), GradeChoice(AlongCurve, i), GradeChoice(AcrossCurve, i)) {
		if c.Path == path {
			title = c.Title
		}
	}
	switch {
	case title != "":
	case path == fieldPath(i, "path"):
		title = "Your own shape"
	case path == fieldPath(i, "numbers"):
		title = "The motif's own numbers"
	case strings.HasPrefix(path, fieldPath(i, "area")):
		title = "Area"
	case strings.HasPrefix(path, fieldPath(i, AlongCurve.Key())):
		title = "Size along"
	case strings.HasPrefix(path, fieldPath(i, AcrossCurve.Key())):
		title = "Size across"
	default:
		return "", false
	}
	if len(d.Fields) > 1 {
		title = fmt.Sprintf("Field %d (%s), %s", i+1, FieldTitle(d, i), lower(title))
	}
	return title, true
}
