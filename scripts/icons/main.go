package main

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"

	"golang.org/x/image/draw"

	"app.tonedesk/assets"
)

// sizes are the sides in pixels; the largest is the icon's own.
var sizes = []int{16, 24, 32, 48, 64, 128, 256}

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "Use it as icons FOLDER, or icons FILE.ico.")
		os.Exit(2)
	}
	if err := writeTo(os.Args[1]); err != nil {
		fmt.Fprintf(os.Stderr, "Can't write the icons: %v.\n", err)
		os.Exit(1)
	}
}

// writeTo writes all sizes into one file for Windows, or into a folder.
func writeTo(to string) error {
	if filepath.Ext(to) == ".ico" {
		return writeWindows(to)
	}
	return write(to)
}

// write writes all sizes into a folder, which need not be there.
func write(to string) error {
	icon, err := png.Decode(bytes.NewReader(assets.Icon))
	if err != nil {
		return fmt.Errorf("decode the icon: %w", err)
	}
	for _, size := range sizes {
		dir := filepath.Join(to, "hicolor", fmt.Sprintf("%dx%d", size, size), "apps")
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return err
		}
		if err := save(filepath.Join(dir, "app.tonedesk.png"), scaled(icon, size)); err != nil {
			return err
		}
	}
	return nil
}

// scaled returns the icon with sides of so many pixels.
func scaled(icon image.Image, size int) *image.NRGBA {
	out := image.NewNRGBA(image.Rect(0, 0, size, size))
	draw.CatmullRom.Scale(out, out.Bounds(), icon, icon.Bounds(), draw.Src, nil)
	return out
}

// save writes a picture.
func save(path string, m image.Image) error {
	data, err := packed(m)
	if err != nil {
		return fmt.Errorf("encode %s: %w", path, err)
	}
	return os.WriteFile(path, data, 0o644)
}

// packed returns a picture as PNG, packed as tightly as the encoder can.
func packed(m image.Image) ([]byte, error) {
	var out bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestCompression}
	err := enc.Encode(&out, m)
	return out.Bytes(), err
}
