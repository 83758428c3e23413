package export

import "path/filepath"

// FormatOf returns the format of a file that [WriteAll] or [HandOver] wrote for a part
// of that name, and whether there is one.
func FormatOf(name, path string) (Format, bool) {
	fs := AllFormats()
	for _, v := range Receivers() {
		fs = append(fs, v.Makes()...)
	}
	for _, f := range fs {
		if filepath.Base(path) == name+f.Suffix {
			return f, true
		}
	}
	return Format{}, false
}
