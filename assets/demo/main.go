package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
)

func main() {
	if err := write(); err != nil {
		fmt.Fprintln(os.Stderr, "demo:", err)
		os.Exit(1)
	}
}

// write paints all pictures and saves them.
func write() error {
	if err := save("demo.png", paintScene()); err != nil {
		return err
	}
	if err := save("icon.png", paintIcon()); err != nil {
		return err
	}
	for _, st := range stages {
		if err := save(st.path(), paintStage(st)); err != nil {
			return err
		}
	}
	return nil
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

// paintIcon draws the program's icon: two bars of grey standing on one line, as high
// as their lightness, the way the window shows a pair of spots. 256 by 256 pixels,
// neutral greys only, transparent outside a rounded ground.
func paintIcon() *image.NRGBA {
	const size = 256
	ground, light, shadow, foot := grey(0x3b), grey(0xc7), grey(0x7d), grey(0xf0)
	c := newCanvas(size, size, image.Transparent)
	c.fill(rounded(8, 8, 248, 248, 44), ground)
	c.fill(box(56, 60, 124, 196), light)
	c.fill(box(132, 112, 200, 196), shadow)
	c.fill(box(40, 196, 216, 206), foot)
	out := image.NewNRGBA(c.img.Bounds())
	draw.Draw(out, out.Bounds(), c.img, image.Point{}, draw.Src)
	return out
}

// grey is the opaque neutral colour of one encoded level.
func grey(level uint8) color.NRGBA { return color.NRGBA{level, level, level, 255} }
