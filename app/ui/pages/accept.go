package pages

import (
	"strings"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern/check"

	"fyne.io/fyne/v2/container"
)

// Mend applies a fix of a finding. A fix for an older design is ignored: the finding comes
// again in a moment.
func (o *Findings) Mend(f check.Finding, x check.Fix) {
	if o.Ed.Scene == nil || !app.Equal(o.Ed.Scene.Sheet.Design, o.Ed.Now()) {
		return
	}
	o.Ed.Adopt("mended", x.Title, x.Design)
	o.Ed.Log.Event("mended", "check", f.Kind.Key, "by", x.Title)
}

// askToAccept asks for the reason to accept a finding.
func (o *Findings) askToAccept(f check.Finding) {
	k := o.Kit
	reason := o.Kit.Dialogs.Entry("")
	bad := k.Passage("", kit.Warn, 440)
	body := kit.Down(8,
		k.Passage(f.What, kit.Plain, 440),
		k.Passage("It is kept in the list, with the reason, and goes with the report and the files: the maker of the band reads it.", kit.Soft, 440),
		container.New(kit.Columns{Widths: []float32{60, 374}, Gap: 8, Height: rowHeight}, k.Label("Reason", kit.Plain), reason), bad)
	var d *kit.Dialog
	d = o.Kit.Dialogs.Ask("Accept the finding", body, nil, kit.Answer{Text: "Cancel"}, kit.Answer{Text: "Accept", Main: true, Stay: true, Do: func() {
		next := o.Ed.Now()
		if err := app.Accept(&next, f, reason.Text); err != nil {
			bad.Set(raised(err.Error())+".", kit.Warn, 440)
			d.Panel.Refresh()
			return
		}
		d.Close()
		o.Ed.Adopt("accepted", f.Kind.Title, next)
		o.Ed.Log.Event("accepted", "check", f.Kind.Key)
	}})
	d.Named("reason", reason)
	o.Kit.Dialogs.Focus(reason)
}

func raised(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// takeUp reopens an accepted finding.
func (o *Findings) takeUp(f check.Finding) {
	next := o.Ed.Now()
	app.TakeUp(&next, f)
	o.Ed.Adopt("accepted", "taken up "+f.Kind.Title, next)
}
