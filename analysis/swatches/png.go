package swatches

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image/png"
	"io"
)

// WritePNG writes the sheet of the swatches as a PNG that says that its colours are sRGB.
func WritePNG(w io.Writer, rows []Row) error {
	var buffer bytes.Buffer
	if err := png.Encode(&buffer, Sheet(rows)); err != nil {
		return err
	}
	_, err := w.Write(withSRGB(buffer.Bytes()))
	return err
}

// headEnd is where the first chunk of a PNG, IHDR, ends: 8 bytes of signature, 4 of length,
// 4 of name, 13 of data, 4 of checksum (PNG).
const headEnd = 8 + 4 + 4 + 13 + 4

// withSRGB returns a PNG with an sRGB chunk behind its first. The chunk holds one byte, the
// rendering intent: 1, relative colorimetric, for colours that are to stay what they are.
// Source: PNG.
func withSRGB(picture []byte) []byte {
	const relative = 1
	named := append([]byte("sRGB"), relative)
	chunk := binary.BigEndian.AppendUint32(nil, 1)
	chunk = append(chunk, named...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(named))
	marked := make([]byte, 0, len(picture)+len(chunk))
	marked = append(marked, picture[:headEnd]...)
	marked = append(marked, chunk...)
	return append(marked, picture[headEnd:]...)
}
