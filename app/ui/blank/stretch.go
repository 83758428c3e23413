package blank

import (
	"fmt"
	"image/color"
	"math"

	"fretband/app"
	"fretband/app/ui/kit"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// stretchMap is by how much lengths along a domed band differ from the flat
// drawing, in cells over the blank. It belongs to one scene.
type stretchMap struct {
	version int
	step    float64 // of the legend, as a share
	levels  [2]int  // the lowest and the highest level met
	cells   []stretchCell
}

type stretchCell struct {
	box   plane.Box
	level int // the stretch is from level*step to (level+1)*step
}

// stretchColumns and stretchRows are the map's cells along and across the blank.
const stretchColumns, stretchRows = 160, 36

// newStretchMap measures the blank; nil where it says nothing: on bands that can
// be unrolled truly.
func newStretchMap(s *app.Scene) *stretchMap {
	f := s.Sheet.Flat
	if !f.Domed() {
		return nil
	}
	outline := f.Outline.Flatten(0.02)
	m := &stretchMap{version: s.Version}
	type value struct {
		box plane.Box
		k   float64
	}
	var all []value
	most := 0.0
	box := f.Outline.Bounds()
	for i := range stretchColumns {
		x0 := box.Min.X + box.W()*float64(i)/stretchColumns
		x1 := box.Min.X + box.W()*float64(i+1)/stretchColumns
		lo, hi, ok := heightAt(outline, (x0+x1)/2)
		if !ok {
			continue
		}
		for j := range stretchRows {
			y0, y1 := lo+(hi-lo)*float64(j)/stretchRows, lo+(hi-lo)*float64(j+1)/stretchRows
			along, _ := f.Stretch(plane.Pt((x0+x1)/2, (y0+y1)/2), f.Neutral)
			all = append(all, value{plane.Box{Min: plane.Pt(x0, y0), Max: plane.Pt(x1, y1)}, along - 1})
			most = math.Max(most, math.Abs(along-1))
		}
	}
	if most < 2e-4 {
		return nil // less than any drawing shows
	}
	m.step = niceStep(most / 4)
	m.levels = [2]int{math.MaxInt, math.MinInt}
	for _, v := range all {
		// A hair is given away so that what is true is not called otherwise.
		l := int(math.Floor(v.k/m.step + 1e-6))
		m.levels[0], m.levels[1] = min(m.levels[0], l), max(m.levels[1], l)
		if n := len(m.cells); n > 0 && m.cells[n-1].level == l && m.cells[n-1].box.Min.X == v.box.Min.X {
			m.cells[n-1].box.Max = v.box.Max
			continue
		}
		m.cells = append(m.cells, stretchCell{v.box, l})
	}
	return m
}

// heightAt returns the lowest and the highest place of a polygon at x.
func heightAt(pts []plane.Point, x float64) (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.X <= x) == (b.X <= x) {
			continue
		}
		y := a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		lo, hi = math.Min(lo, y), math.Max(hi, y)
	}
	return lo, hi, hi > lo
}

// niceStep returns 1, 2 or 5 times a power of ten, at least v.
func niceStep(v float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, f := range [3]float64{1, 2, 5} {
		if f*p >= v*(1-1e-9) {
			return f * p
		}
	}
	return 10 * p
}

// tint returns the colour of a level: one for shorter, one for longer, the
// stronger the more; what differs by less than a step keeps the metal's own.
func (m *stretchMap) tint(level int, d *kit.Dress) color.NRGBA {
	c, n := d.Caution, level+1
	if level < 0 {
		c, n = d.Note, -level
	}
	return kit.Alpha(c, uint8(min(200, 44*(n-1))))
}

// word says what a level stands for.
func (m *stretchMap) word(level int) string {
	decimals := max(0, int(math.Ceil(-math.Log10(100*m.step)-1e-9)))
	from, to := 100*m.step*float64(level), 100*m.step*float64(level+1)
	if level < 0 {
		from, to = to, from
	}
	return fmt.Sprintf("%s to %s", signed(from, decimals), signed(to, decimals))
}

func signed(v float64, decimals int) string {
	if math.Abs(v) < 1e-9 {
		return "0"
	}
	return pattern.Say("%+.*f", decimals, v)
}

// drawStretch lays the map over the metal.
func (p *sheetPainter) drawStretch(v viewport, s *app.Scene, d *kit.Dress) {
	if p.stretch == nil || p.stretch.version != s.Version {
		p.stretch = newStretchMap(s)
		if p.stretch == nil {
			p.stretch = &stretchMap{version: s.Version}
		}
	}
	m := p.stretch
	for l := m.levels[0]; l <= m.levels[1] && len(m.cells) > 0; l++ {
		// What lies in a cell and in no opening.
		p.fill.Outer = true
		for _, c := range m.cells {
			if c.level == l {
				p.fill.Rect(v.x(c.box.Min.X), v.y(c.box.Min.Y), v.x(c.box.Max.X), v.y(c.box.Max.Y))
			}
		}
		p.eachOpening(v, s, func(_ int, pts []plane.Point, at plane.Point) { p.loopPath(v, pts, at, true) })
		p.drawInside(v, m.tint(l, d))
		p.fill.Outer = false
	}
}

// drawStretchLegend says, in a corner of the drawing, what the tints stand for.
func (p *sheetPainter) drawStretchLegend(v viewport, d *kit.Dress) {
	m := p.stretch
	if m == nil || len(m.cells) == 0 {
		return
	}
	f := v.frame
	face := p.faces.Size(11 * f.scale)
	const title = "Domed, lengths along the band differ from the drawing by"
	swatch, gap, pad := 10*f.scale, 14*f.scale, 8*f.scale
	word := func(l int) string {
		if l == m.levels[1] {
			return m.word(l) + " %"
		}
		return m.word(l)
	}
	wide := face.Width(title) + 2*pad
	for l := m.levels[0]; l <= m.levels[1]; l++ {
		wide += gap + swatch + 5*f.scale + face.Width(word(l))
	}
	x, y := f.right-10*f.scale-wide, f.top+22*f.scale
	p.fill.Round(x, y-14*f.scale, x+wide, y+7*f.scale, 3*f.scale)
	p.draw(kit.Alpha(d.Panel, 225))
	x += pad
	face.Draw(p.target, title, x, y, kit.AlignLeft, d.Soft)
	x += face.Width(title)
	for l := m.levels[0]; l <= m.levels[1]; l++ {
		x += gap
		p.fill.Rect(x-f.scale, y-9*f.scale, x+swatch+f.scale, y+3*f.scale)
		p.draw(d.Rule)
		p.fill.Rect(x, y-8*f.scale, x+swatch, y+2*f.scale)
		p.draw(d.Paper)
		p.fill.Rect(x, y-8*f.scale, x+swatch, y+2*f.scale)
		p.draw(m.tint(l, d))
		x += swatch + 5*f.scale
		face.Draw(p.target, word(l), x, y, kit.AlignLeft, d.Ink)
		x += face.Width(word(l))
	}
}
