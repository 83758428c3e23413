// Package blank shows the flat blank and is where a hand works on it: it pans, zooms,
// points, picks, drags and draws. What is edited is the app.Editor's; what lies over the
// drawing is the overlay.
package blank
