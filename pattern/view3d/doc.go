// Package view3d draws the bent band: the triangles of [mesh.Mesh] seen by a
// camera, in plain Go, into an [image.RGBA]. It knows neither the toolkit nor
// the design.
//
// A picture takes four steps. The corners are turned to the camera. The
// triangles that face it are filled into a buffer of twice the picture's size,
// which keeps for each position the nearest triangle and how near it is. Then each
// pixel takes the colour of the triangles at its four positions, worked out once
// where they are the same; so edges are clean and the inside costs little. Marks
// (the opening under the pointer, the ruler) come last. Two or more goroutines
// each do a band of rows; the picture does not depend on how many.
//
// # For a window
//
//	s := view3d.NewScene(m)                       // m, _ := mesh.Build(sheet, mesh.Options{Tolerance: mesh.Screen, Lids: true})
//	img = v.Draw(img, w, h, s, camera, look)      // v is a view3d.View kept with the widget; camera starts as s.Fit(Views()[0].Camera, w, h)
//	hit, ok := v.Pick(x, y)                       // after a Draw: the face, wall or opening there, and its position on the flat
//
// A drag calls [Camera.Orbit] or [Scene.Shift], the wheel [Scene.Near]; keys
// take a camera out of [Views]. [View.Ruler] says what to write on the scale bar.
//
// Pixels run right and down from the top left corner. In the picture's own
// space x runs right, y up and z to the eye, mm.
package view3d
