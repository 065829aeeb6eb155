package main

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
)

func main() {
	if err := write(); err != nil {
		fmt.Fprintln(os.Stderr, "demo:", err)
		os.Exit(1)
	}
}

// write paints both pictures and saves them.
func write() error {
	if err := save("demo.png", paintScene()); err != nil {
		return err
	}
	return save("icon.png", paintIcon())
}

// save writes m to path as a PNG, packed as tightly as the encoder can.
func save(path string, m image.Image) error {
	var out bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestCompression}
	if err := enc.Encode(&out, m); err != nil {
		return fmt.Errorf("encode %s: %w", path, err)
	}
	return os.WriteFile(path, out.Bytes(), 0o644)
}
