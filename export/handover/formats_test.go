package handover

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"fretband/export"
)

func TestEveryFileThatAReceiverGetsIsOfTheList(t *testing.T) {
	keys, suffixes := map[string]bool{}, map[string]bool{}
	for _, f := range formats {
		assert.False(t, keys[f.Key] || suffixes[f.Suffix], "%s, %s: stands twice", f.Key, f.Suffix)
		keys[f.Key], suffixes[f.Suffix] = true, true
	}
	for _, v := range append(export.Receivers(), export.Anyone()) {
		for _, key := range v.Formats {
			assert.True(t, keys[key], "%s: gets %q, which is no format", v.Title, key)
		}
	}
	for _, key := range export.Solids() {
		assert.True(t, keys[key], "%q: can be asked for, but is no format", key)
	}
	for _, v := range append(export.Receivers(), export.Anyone()) {
		usual := len(v.Formats)
		assert.Len(t, Gets(v, export.Options{Stress: export.NoStress}), usual)
		assert.Len(t, Gets(v, export.Options{}), usual)
		asked := Gets(v, export.Options{Stress: export.StressShown})
		if !v.Stress {
			assert.Len(t, asked, usual, "%s: of no use to him", v.Title)
			continue
		}
		assert.Len(t, asked, usual+2, v.Title)
		for i, f := range asked { // job sheets list all of them
			assert.False(t, f.lists() && i < len(asked)-1 && !asked[i+1].lists(), v.Title)
		}
	}
	whoever := export.Anyone()
	assert.Len(t, Gets(whoever, export.Options{}), len(whoever.Formats), "nobody gets a format that his line does not name")
	assert.Len(t, Gets(whoever, export.Options{Solids: export.Solids()}), len(whoever.Formats)+len(export.Solids()))
}
