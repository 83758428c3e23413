package own

import (
	"bytes"
	"encoding/xml"
	"strings"
)

// paint says how what an element draws is shown (W3C, SVG 1.1, 11.2 to 11.5): by its
// own attributes and style, else by those of the groups that it lies in.
type paint struct {
	fill, stroke bool
	hidden       bool
	// unsure is set where a style sheet, which is not read, may say otherwise.
	unsure bool
}

// firstPaint is what holds where a file says nothing: fill is black, stroke is none.
func firstPaint(file []byte) paint {
	return paint{fill: true, unsure: bytes.Contains(file, []byte("<style"))}
}

// within returns the paint of an element that lies in what p paints.
func (p paint) within(e xml.StartElement) paint {
	if v := property(e, "fill"); v != "" {
		p.fill = v != "none" && v != "transparent"
	}
	if v := property(e, "stroke"); v != "" {
		p.stroke = v != "none" && v != "transparent"
	}
	if v := property(e, "visibility"); v != "" {
		p.hidden = v != "visible"
	}
	return p
}

// shows reports whether anything drawn is to be seen.
func (p paint) shows() bool { return !p.hidden && (p.fill || p.stroke || p.unsure) }

// fills reports whether what is drawn is surely filled.
func (p paint) fills() bool { return p.fill && !p.unsure }

// property returns the value of a property that an element gives itself, in lower
// case: its style goes before its attribute. It is empty if the element gives none.
func property(e xml.StartElement, name string) string {
	value := attr(e, name)
	for _, part := range strings.Split(attr(e, "style"), ";") {
		if k, v, ok := strings.Cut(part, ":"); ok && strings.EqualFold(strings.TrimSpace(k), name) {
			value, _, _ = strings.Cut(v, "!")
		}
	}
	if value = strings.ToLower(strings.TrimSpace(value)); value == "inherit" {
		return ""
	}
	return value
}
