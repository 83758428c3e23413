package check

// echo is the check that measures in the metal what a check of the rules alone foretells,
// "" if there is none.
func echo(name string) string {
	switch name {
	case "bridge and process":
		return "process bridges"
	case "corner and process":
		return "sharp corner"
	}
	return ""
}

// withoutEchoes leaves out findings about a rule where the same is told of the metal
// itself, with the same way of mending it.
func withoutEchoes(fs []Finding) []Finding {
	told := map[string]bool{}
	for _, f := range fs {
		if f.Severity > Note && len(f.Fixes) > 0 {
			told[f.Check] = true
		}
	}
	var out []Finding
	for _, f := range fs {
		if e := echo(f.Check); e == "" || !told[e] {
			out = append(out, f)
		}
	}
	return out
}
