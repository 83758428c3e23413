package template

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"fretband/export/pdf"
	"fretband/pattern"
	"fretband/unroll/plane"
)

// Measures of the rows' labels, mm: ours.
const (
	labelHeight = 1.6
	labelStep   = 2.1 // from one to the next at least
	labelOff    = 1.9 // off the end of the blank
	leaderOff   = 5.0 // the same, where a line leads to them
)

// rowLabel says which numbers are in a half row whose openings are too small to hold
// them.
type rowLabel struct {
	row  float64 // the height of its row in the mean, across the band
	y    float64 // that of its last opening: on a tapered band rows may run aslant
	at   float64 // of the label: elsewhere where rows are too close for their labels
	text string
	left bool    // it is at the left end
	room float64 // radius of the largest circle in its openings
	end  float64 // of the last pilot hole along the band: where its line comes from
	off  float64 // how far it is off the end
}

// rowLabels returns labels for the runs in which a number found no room, at the end
// that they run to. Runs of several classes of size in one row share a label.
func rowLabels(ms []pilotMark, runs []pattern.Run) []rowLabel {
	var ls []rowLabel
	for _, r := range runs {
		full, y, reach := true, 0.0, 0.0
		for _, m := range ms[r.From-1 : r.To] {
			full = full && m.numbered
			y += m.pilot.Y / float64(r.To-r.From+1)
			reach = max(reach, m.room)
		}
		if full {
			continue
		}
		text := strconv.Itoa(r.From)
		if r.To > r.From {
			text += "-" + strconv.Itoa(r.To)
		}
		same := slices.IndexFunc(ls, func(l rowLabel) bool {
			return l.left == r.Left && math.Abs(l.row-y) < max(l.room, reach)
		})
		end := ms[r.To-1].pilot
		if same < 0 {
			ls = append(ls, rowLabel{row: y, y: end.Y, text: text, left: r.Left, room: reach, end: end.X})
			continue
		}
		if math.Abs(end.X) > math.Abs(ls[same].end) {
			ls[same].end, ls[same].y = end.X, end.Y
		}
		ls[same].text += ", " + text
		ls[same].room = max(ls[same].room, reach)
	}
	return slices.Concat(spread(ls, true), spread(ls, false))
}

// spread returns the labels of one end, lowest first, so far apart that they can be
// read: as near to their rows as can be, in the mean of each group that is moved apart.
func spread(all []rowLabel, left bool) []rowLabel {
	var ls []rowLabel
	for _, l := range all {
		if l.left == left {
			ls = append(ls, l)
		}
	}
	slices.SortStableFunc(ls, func(a, b rowLabel) int { return cmp.Compare(a.y, b.y) })
	// Groups of labels that are labelStep apart: each is where it strays least, and
	// takes in the one below it that it comes too near to.
	type group struct {
		n     int
		first float64 // the position of its lowest label
	}
	var gs []group
	for _, l := range ls {
		gs = append(gs, group{1, l.y})
		for k := len(gs) - 1; k > 0; k = len(gs) - 1 {
			a, b := gs[k-1], gs[k]
			if b.first-a.first >= labelStep*float64(a.n)-1e-9 {
				break
			}
			n := a.n + b.n
			first := (float64(a.n)*a.first + float64(b.n)*(b.first-labelStep*float64(a.n))) / float64(n)
			gs = append(gs[:k-1], group{n, first})
		}
	}
	i, off := 0, labelOff
	for _, g := range gs {
		for k := range g.n {
			ls[i].at = g.first + labelStep*float64(k)
			if math.Abs(ls[i].at-ls[i].y) > 0.2 {
				off = leaderOff
			}
			i++
		}
	}
	for i := range ls {
		ls[i].off = off
	}
	return ls
}

// straightened returns the marks with their pilot holes along and across the
// middle line.
func (t *template) straightened() []pilotMark {
	if !t.sheet.Flat.Flared() {
		return t.pilotMarks
	}
	ms := append([]pilotMark(nil), t.pilotMarks...)
	for i := range ms {
		ms[i].pilot = plane.Pt(t.sheet.Flat.Where(ms[i].pilot))
	}
	return ms
}

// labelPosition returns where a row's label begins, or ends at the left end: beside the
// blank.
func (t *template) labelPosition(l rowLabel) plane.Point {
	return t.besides(l, l.off, l.at).Sub(plane.Pt(0, labelHeight/2))
}

// besides returns the position beside a label's end of the blank, that far off it and that
// far across.
func (t *template) besides(l rowLabel, off, across float64) plane.Point {
	side := 1.0
	if l.left {
		side = -1
	}
	if f := t.sheet.Flat; f.Flared() {
		return f.Place(side*(f.Length/2+off), across)
	}
	x := t.drawn.Max.X
	if l.left {
		x = t.drawn.Min.X
	}
	return plane.Pt(x+side*off, across)
}

// leaves returns where a row leaves the blank, clear of the strokes on its outline.
func (t *template) leaves(l rowLabel) plane.Point {
	const step = 0.25
	side := step
	if l.left {
		side = -step
	}
	at := func(i int) plane.Point { return t.sheet.Flat.Place(l.end+side*float64(i), l.y) }
	i := 0
	for b := t.drawn.Grow(step); b.Contains(at(i)) && t.sheet.Flat.Outline.Contains(at(i)); i++ {
	}
	return at(i + int(math.Ceil((outlineLong+0.2)/step)))
}

// drawLabels writes the rows' labels, with lines to those that are off their rows.
func (t *template) drawLabels(v plane.Point, seen plane.Box) {
	f := digits(labelHeight)
	for _, l := range t.labels {
		p := t.labelPosition(l)
		if !seen.Contains(p) {
			continue
		}
		w := t.doc.TextWidth(l.text, f)
		box, align := plane.Box{Min: p, Max: p.Add(plane.Pt(w, labelHeight))}, pdf.Left
		if l.left {
			box, align = box.Move(plane.Pt(-w, 0)), pdf.Right
		}
		t.doc.Fill(plane.Rect(box.Grow(0.3)), v, 1) // no centre line through it
		t.doc.Text(p.Add(v), l.text, f, align)
		from, to := t.leaves(l), t.besides(l, l.off-0.4, l.at)
		if l.off > labelOff || from.Dist(to) > leaderOff {
			t.doc.Line(from.Add(v), to.Add(v), wastePen)
		}
	}
}
