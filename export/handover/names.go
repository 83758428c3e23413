package handover

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxName leaves room for a suffix in the 255 bytes that common file systems
// allow for a name.
const maxName = 120

// unsafeChars are the characters that some file system in use does not allow.
const unsafeChars = `/\:*?"<>|`

// reserved are names of devices on one system in use, with or without a suffix.
var reserved = []string{"con", "prn", "aux", "nul",
	"com1", "com2", "com3", "com4", "com5", "com6", "com7", "com8", "com9",
	"lpt1", "lpt2", "lpt3", "lpt4", "lpt5", "lpt6", "lpt7", "lpt8", "lpt9"}

// CheckName says why name can't be the name of a file, without a folder and
// without a suffix, that can be copied to any computer in use; nil if it can.
func CheckName(name string) error {
	switch {
	case name == "":
		return fmt.Errorf("file name: is empty: give 1 to %d letters", maxName)
	case len(name) > maxName:
		return fmt.Errorf("file name: %d bytes long: must be 1 to %d", len(name), maxName)
	case !utf8.ValidString(name):
		return fmt.Errorf("file name %q: is not UTF-8 text", name)
	case strings.ContainsAny(name, unsafeChars):
		return fmt.Errorf("file name %q: must not contain any of %s", name, unsafeChars)
	case strings.IndexFunc(name, unicode.IsControl) >= 0:
		return fmt.Errorf("file name %q: must not contain control characters", name)
	case strings.HasPrefix(name, ".") || strings.HasPrefix(name, "-") || strings.HasPrefix(name, " "):
		return fmt.Errorf("file name %q: must not begin with a dot, a dash or a space", name)
	case strings.HasSuffix(name, ".") || strings.HasSuffix(name, " "):
		return fmt.Errorf("file name %q: must not end with a dot or a space", name)
	}
	stem, _, _ := strings.Cut(strings.ToLower(name), ".")
	for _, r := range reserved {
		if stem == r {
			return fmt.Errorf("file name %q: is kept for a device on some computers; choose another", name)
		}
	}
	return nil
}

// FileName returns a file name for a design's name: letters and digits stay,
// all else becomes single dashes. The result passes [CheckName].
func FileName(design string) string {
	var b strings.Builder
	for _, r := range design {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			if b.Len()+utf8.RuneLen(r) > maxName {
				break
			}
			b.WriteRune(unicode.ToLower(r))
		case b.Len() > 0 && b.Len() < maxName && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	name := strings.Trim(b.String(), "-")
	if CheckName(name) != nil {
		return strings.Trim("band-"+name, "-")
	}
	return name
}
