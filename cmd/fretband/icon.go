//go:build cgo

package main

import (
	_ "embed"

	"fyne.io/fyne/v2"
)

// The icon is our own drawing; icon.png is icon.svg at 256 pixels.
//
//go:embed icon.png
var iconPNG []byte

var icon = fyne.NewStaticResource("icon.png", iconPNG)
