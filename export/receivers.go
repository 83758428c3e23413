package export

// Receiver is someone who gets the files of a part.
type Receiver struct {
	Key, Title, What string
	Formats          []string // keys of formats, job sheets last, since they list the others
	Process          string   // that he works by, if neither options nor design say
}

// Receivers lists them in the order in which a person reads them.
func Receivers() []Receiver {
	return []Receiver{
		{"bench", "The bench", "A saw template at true size and a job sheet, on paper.", []string{"template", "job-pdf", "job-html"}, Saw},
		{"laser", "The laser shop", "Cut files, a note of what they hold, and a job sheet.", []string{"dxf", "svg", "note", "job-pdf", "job-html"}, Laser},
		{"client", "The client", "Pictures of the piece.", []string{"picture-png", "picture"}, ""},
		{"casting", "The caster", "The bent band as a solid and a job sheet.", []string{"stl", "3mf", "job-pdf", "job-html"}, ""},
	}
}

// Whoever returns the receiver of whom nothing is known, whose key is empty.
func Whoever() Receiver {
	return Receiver{"", "Whoever asks", "A saw template and cut files, without a job sheet.", []string{"svg", "dxf", "template"}, ""}
}

// ReceiverByKey returns the receiver of that key and whether there is one; that of the
// empty key is [Whoever].
func ReceiverByKey(key string) (Receiver, bool) {
	if key == "" {
		return Whoever(), true
	}
	for _, v := range Receivers() {
		if v.Key == key {
			return v, true
		}
	}
	return Receiver{}, false
}
