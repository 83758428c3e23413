package export

// Breaker breaks words into lines, whatever they are measured in.
type Breaker[W any] struct {
	Width  func(W) float64
	Space  float64 // from one word to the next
	Room   float64 // of a line
	Indent float64 // of all lines but the first
	// Cut cuts a word that is wider than a line where it fills the room that is left, after
	// one letter at least, and says whether a tail is left. If it is nil, such a word
	// stands out.
	Cut func(w W, room float64) (head, tail W, more bool)
}

// Placed is a word in its place on a line: X is from the line's left.
type Placed[W any] struct {
	Word W
	X    float64
}

// Lines breaks words into lines, the first of which begins at first.
func (b Breaker[W]) Lines(first float64, words []W) [][]Placed[W] {
	const exact = 1e-9 // what sums of widths may stray by
	var lines [][]Placed[W]
	var line []Placed[W]
	x := first
	for _, w := range words {
		for more := true; more; {
			v := b.Width(w)
			if x+v <= b.Room+exact || len(line) == 0 && b.Cut == nil {
				line = append(line, Placed[W]{w, x})
				x += v + b.Space
				break
			}
			if len(line) == 0 {
				var head W
				head, w, more = b.Cut(w, b.Room-x)
				line = append(line, Placed[W]{head, x})
			}
			lines, line, x = append(lines, line), nil, b.Indent
		}
	}
	if len(line) > 0 {
		lines = append(lines, line)
	}
	return lines
}
