package export

import (
	"encoding/binary"
	"hash/crc32"
	"slices"
)

// pngHead is how long a PNG file is up to the end of its header: signature and IHDR
// (PNG, third edition, sections 5.2 and 11.2.1).
const pngHead = 8 + 25

// withPNGText returns a PNG file with a text in ASCII behind its header (section
// 11.3.3.2).
func withPNGText(file []byte, keyword, text string) []byte {
	body := []byte("tEXt" + keyword + "\x00" + text)
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(body)-len("tEXt")))
	chunk = append(chunk, body...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(body))
	return slices.Insert(file, pngHead, chunk...)
}
