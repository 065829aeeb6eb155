package main

import (
	"bytes"
	"encoding/binary"
	"image/png"
	"os"
	"path/filepath"
	"testing"
)

// Each picture stands where the icon says, and is as large: read by the numbers of ICONDIR and
// ICONDIRENTRY (Microsoft, "Icons", 1995), not by our own structures.
func TestIconOfWindows(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.ico")
	if err := writeTo(path); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(data, []byte{0, 0, 1, 0, 7, 0}) {
		t.Fatalf("it begins with % x", data[:6])
	}
	end := 6 + 7*16
	for i, side := range []int{16, 24, 32, 48, 64, 128, 256} {
		entry := data[6+16*i : 22+16*i]
		size, at := int(binary.LittleEndian.Uint32(entry[8:])), int(binary.LittleEndian.Uint32(entry[12:]))
		m, err := png.DecodeConfig(bytes.NewReader(data[at : at+size]))
		if err != nil || m.Width != side || m.Height != side || entry[0] != byte(side) || entry[1] != byte(side) || at != end {
			t.Errorf("%d: %+v, %v; its entry is % x", side, m, err, entry)
		}
		end += size
	}
	if end != len(data) {
		t.Errorf("it has %d bytes, its pictures end at %d", len(data), end)
	}
}
