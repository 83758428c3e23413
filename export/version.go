package export

import "runtime/debug"

// Version is the version of the program, as FyneApp.toml has it too.
const Version = "0.1.0"

// Built names the version and the commit that the program was built from, if it knows: a
// build in a checkout does.
func Built() string {
	commit, changed := "", ""
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			switch {
			case s.Key == "vcs.revision":
				commit = ", commit " + s.Value[:min(12, len(s.Value))]
			case s.Key == "vcs.modified" && s.Value == "true":
				changed = " with changes"
			}
		}
	}
	return Version + commit + changed
}
