// Package bent shows the band as it will be worn: it is turned, looked at from all sides
// and cut open there. What it shows is a solid of pattern/mesh, drawn by pattern/view3d.
package bent
