package export

// Keys of the receivers that more is said of elsewhere. They are not processes: who cuts by
// laser ([Laser]) need not be the shop.
const (
	Bench     = "bench"
	LaserShop = "laser"
	Casting   = "casting"
)

// Receiver is someone who gets the files of a part.
type Receiver struct {
	Key, Title, What string
	Formats          []string // keys of formats, job sheets last, since they list the others
	// Process is how he cuts, whatever the design says; empty if he does not, and the design's
	// own counts.
	Process string
	Outside bool // his papers leave the house: no money and no working time on them
	Stress  bool // a picture of the stress is of use to him, if it is asked for

	spared []string // topics of cautions that do not concern his work
}

// Receivers lists them in the order in which a person reads them.
func Receivers() []Receiver {
	return []Receiver{
		{Bench, "The bench", "A saw template at true size and a job sheet, on paper.",
			[]string{"template", "job-pdf", "job-html"}, Saw, false, true, nil},
		{LaserShop, "The laser shop", "Cut files, a note of what they hold, and a job sheet.",
			[]string{"dxf", "svg", "note", "job-pdf", "job-html"}, Laser, true, false, []string{"Soldering", "Stones", "Annealing and pickle", "Polishing", "Nickel", "Cadmium and lead", "Hallmark"}},
		{"client", "The client", "Pictures of the piece.",
			[]string{"picture-png", "picture"}, "", true, true, nil},
		{Casting, "The caster", "The bent band as a solid and a job sheet.",
			[]string{"stl", "3mf", "job-pdf", "job-html"}, Cast, true, false, []string{"Soldering", "Stones", "Annealing and pickle", "Hallmark"}},
	}
}

// Anyone returns the receiver of whom nothing is known, whose key is empty.
func Anyone() Receiver {
	return Receiver{Title: "Anyone", What: "A saw template and cut files, without a job sheet.", Formats: []string{"svg", "dxf", "template"}}
}

// ReceiverByKey returns the receiver of that key and whether there is one; that of the
// empty key is [Anyone].
func ReceiverByKey(key string) (Receiver, bool) {
	if key == "" {
		return Anyone(), true
	}
	for _, v := range Receivers() {
		if v.Key == key {
			return v, true
		}
	}
	return Receiver{}, false
}
