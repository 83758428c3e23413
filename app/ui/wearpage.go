package ui

import (
	"fmt"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/pattern/check"

	"fyne.io/fyne/v2"
)

// addWear adds to a page how a cuff is put on, and what its metal bears.
func addWear(c *controls, p *page) {
	k := c.kit
	c.add(p, &headRow{
		o:     kit.Inset(0, 12, 0, 0, k.Label("Wearing", kit.Strong).Teach("An open cuff is sprung on. Whether it springs back is an estimate for comparing designs, not a promise: bend a trial piece.")),
		shown: func(d pattern.Design) bool { return app.TemperText(d) != "" },
	})
	c.add(p, newChoiceRow(k, c.ed, app.ChoiceOf("wear.temper")))
	note := &noteRow{p: k.Passage("", kit.Caption, controlsWidth-40), get: app.TemperText}
	c.add(p, note)
	for _, n := range app.Numbers(pattern.WearGroup) {
		c.addNumber(p, n)
	}
}

// headRow is a heading that some designs have no use for.
type headRow struct {
	o     fyne.CanvasObject
	shown func(pattern.Design) bool
}

func (r *headRow) object() fyne.CanvasObject { return r.o }

func (r *headRow) show(d pattern.Design) {
	if r.shown(d) {
		r.o.Show()
	} else {
		r.o.Hide()
	}
}

// springRows adds the figures of springing on. They stand from the first look that
// found them on, so that nothing jumps while the next is waited for.
func springRows(add func(name, tip string, of func(*check.Report) (string, string), shown func(*check.Report) bool)) {
	stands := false
	shown := func(r *check.Report) bool {
		if r.Deep != nil {
			stands = r.Deep.Spring != nil && r.Deep.Spring.PerN > 0
		}
		return stands
	}
	of := func(say func(*check.Spring) (string, string)) func(*check.Report) (string, string) {
		return func(r *check.Report) (string, string) {
			if r.Deep == nil || r.Deep.Spring == nil {
				return none, ""
			}
			return say(r.Deep.Spring)
		}
	}
	add("Sprung on", "What comes of opening the cuff as far as the page Metal says, by the stress on the metal left. An estimate for comparing designs, not a promise.",
		of(func(s *check.Spring) (string, string) {
			if s.Words == "" {
				return "no proof stress", ""
			}
			return s.Words, ""
		}), shown)
	add("Stress", "The greatest on the metal left, against the proof stress of its temper.",
		of(func(s *check.Spring) (string, string) {
			if s.ProofMPa <= 0 {
				return decimals(s.StressMPa, 0), "MPa"
			}
			return fmt.Sprintf("%s, proof %s", decimals(s.StressMPa, 0), decimals(s.ProofMPa, 0)), "MPa"
		}), shown)
	add("Opening", "By how much the ends are pulled apart, and the pull at each end that takes if the metal stays springy.",
		of(func(s *check.Spring) (string, string) {
			return fmt.Sprintf("%s mm by %s", decimals(s.OpenMM, 1), decimals(s.ForceN, 1)), "N"
		}), shown)
}
