package check

// echoes names, for findings about a rule alone, the kind that says the same of the metal
// itself.
var echoes = map[Kind]Kind{
	KindBridgeAndProcess: KindProcessBridges,
	KindCornerAndProcess: KindSharpCorner,
}

// withoutEchoes leaves out findings about a rule where the same is said of the metal
// itself, with the same way of mending it.
func withoutEchoes(fs []Finding) []Finding {
	told := map[Kind]bool{}
	for _, f := range fs {
		if f.Severity > Note && len(f.Fixes) > 0 {
			told[f.Kind] = true
		}
	}
	var out []Finding
	for _, f := range fs {
		if e, ok := echoes[f.Kind]; !ok || !told[e] {
			out = append(out, f)
		}
	}
	return out
}
