package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image/png"
	"os"

	"app.tonedesk/assets"
)

// iconEntry is a picture in an icon of Windows: ICONDIRENTRY, as Microsoft's "Icons" of
// 1995 has it, with PNG as Windows reads it since Vista.
type iconEntry struct {
	Width, Height    uint8 // 0 for 256
	Colours, Nothing uint8
	Planes, Bits     uint16
	Bytes, At        uint32
}

// writeWindows writes all sizes into one icon of Windows.
func writeWindows(path string) error {
	icon, err := png.Decode(bytes.NewReader(assets.Icon))
	if err != nil {
		return fmt.Errorf("decode the icon: %w", err)
	}
	head := []any{uint16(0), uint16(1), uint16(len(sizes))} // ICONDIR: 1 is an icon
	at := 6 + 16*len(sizes)
	var pictures []byte
	for _, size := range sizes {
		data, err := packed(scaled(icon, size))
		if err != nil {
			return fmt.Errorf("encode %d: %w", size, err)
		}
		side := uint8(size % 256)
		head = append(head, iconEntry{Width: side, Height: side, Planes: 1, Bits: 32, Bytes: uint32(len(data)), At: uint32(at + len(pictures))})
		pictures = append(pictures, data...)
	}
	var out bytes.Buffer
	for _, part := range append(head, pictures) {
		if err := binary.Write(&out, binary.LittleEndian, part); err != nil {
			return err
		}
	}
	return os.WriteFile(path, out.Bytes(), 0o644)
}
