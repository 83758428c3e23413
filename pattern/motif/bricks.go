package motif

var bricks = Motif{
	Key:       "bricks",
	Title:     "Bricks",
	What:      "Brickwork: in every row long bricks and short ones by turns, the short ones standing on the middle of the long. Without short ones it is the common running bond.",
	Usual:     Proportions{2.6, 1, 0},
	Interlock: true,
	Numbers:   []Number{{"header", "short brick", "of long", 0.4, 0, 1}},
	Cells: func(f Frame) Tiling {
		var t Tiling
		h := f.H / float64(f.Rows)
		long := f.Pitch() / (1 + f.Number("header"))
		short := f.Pitch() - long
		stretcher, header := t.add(box(long, h)), -1
		if short > touch {
			header = t.add(box(short, h))
		}
		for r := -f.Over; r < f.Rows+f.Over; r++ {
			y, shift := f.H/2-(float64(r)+0.5)*h, 0.5*float64(r&1)
			t.row(f, stretcher, r, y, shift)
			if header >= 0 {
				t.row(f, header, r, y, shift+0.5)
			}
		}
		return t
	},
}
