package export

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"

	"fretband/pattern"
	"fretband/pattern/project"
)

// ContentNumber names the content of a design: the first eight digits of the
// SHA-256 (FIPS 180-4) of its file. All files that are made of one design carry the
// same number, and any change of what is made changes it. It is empty for a design that
// can't be saved. The design has been checked, as that of a sheet is.
func ContentNumber(d pattern.Design) string {
	d.Variants, d.Underlay = nil, pattern.Underlay{} // they are not what is handed over
	b, err := project.Bytes(d)
	if err != nil {
		return "" // it can't be saved, so there is no file to be named
	}
	sum := sha256.Sum256(b)
	return strings.ToUpper(hex.EncodeToString(sum[:4]))
}

func ContentWords(d pattern.Design) string {
	if n := ContentNumber(d); n != "" {
		return "content number " + n
	}
	return ""
}
