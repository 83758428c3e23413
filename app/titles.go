package app

import (
	"cmp"
	"fmt"
	"strings"

	"fretband/pattern"
)

// TitleOf returns what the controls call the value of that path, the path itself where
// they have no name for it. Where there are several fields, it names the field too.
func TitleOf(d pattern.Design, path string) string {
	title := titleOf(d, path)
	if i := fieldOf(path); title != "" && i >= 0 && i < len(d.Fields) && len(d.Fields) > 1 {
		return fmt.Sprintf("Field %d (%s), %s", i+1, FieldTitle(d, i), lower(title))
	}
	return cmp.Or(title, path)
}

// titleOf returns the title of the value, or of what it lies in. What was done by hand has
// titles only for the selection.
func titleOf(d pattern.Design, path string) string {
	for _, n := range MotifNumbers(d, fieldOf(path)) {
		if n.Path == path {
			return n.Title
		}
	}
	for path != "" {
		title := ""
		entries, at := pattern.Lookup(path)
		for _, e := range entries {
			if e.Group != pattern.HandGroup && (title == "" || isNumber(e) && e.Visible(&d, at)) {
				title = e.TitleAt(at)
			}
		}
		if title != "" {
			return title
		}
		path = path[:max(0, strings.LastIndexAny(path, ".["))]
	}
	return ""
}

// fieldOf returns the index of the field that a path lies in, -1 for none.
func fieldOf(path string) int {
	var i int
	if n, err := fmt.Sscanf(path, "fields[%d].", &i); n != 1 || err != nil {
		return -1
	}
	return i
}
