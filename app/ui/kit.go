package ui

// kit is what every widget of a window shares: its dress, its fonts and its tips.
type kit struct {
	dress *dress
	faces *faces
	tips  *tips
	// escape gives up what is in the foreground.
	escape func()

	dressed []func(*dress)
}

// onDress has f called when the dress changes.
func (k *kit) onDress(f func(*dress)) { k.dressed = append(k.dressed, f) }

// wear changes the dress.
func (k *kit) wear(d *dress) {
	k.dress = d
	for _, f := range k.dressed {
		f(d)
	}
}

func (k *kit) worn() *dress { return k.dress }
