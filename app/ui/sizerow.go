package ui

import (
	"strings"

	"fretband/app"
	"fretband/pattern"
	"fretband/unroll"
)

// newSizeRow takes a trade size that is not in the list: a quarter size, or one
// written in another way. What could mean several things is asked about.
func newSizeRow(c *controls) *textRow {
	get := func(d pattern.Design) string { return d.Band.Inside.Size }
	r := newTextRow(c.kit, "or typed", "A size as you write it: 7 1/4, N 1/2, Z+2, 54.5, 2-4.", get, nil)
	r.shown = func(d pattern.Design) bool { return d.Band.Inside.By == unroll.BySize }
	r.entry.OnCommit = func(typed string) {
		d := c.ed.now()
		if err := app.PutSize(&d, typed); err != nil {
			why := "Size: " + err.Error()
			if !strings.HasSuffix(why, "?") {
				why += "."
			}
			c.say(why)
			c.kit.Tips.Tell(r.entry, why)
			return
		}
		c.say("")
		c.ed.pickOption(app.Choice{Path: "band.inside.size", Get: get,
			Set: func(d *pattern.Design, _ string) { _ = app.PutSize(d, typed) }}, typed)
		r.entry.Settle(d.Band.Inside.Size)
	}
	r.entry.OnGiveUp = func() { c.say(""); c.kit.Tips.Leave(r.entry) }
	return r
}
