package ora

import (
	"archive/zip"
	"encoding/xml"
	"fmt"
	"hash/crc32"
	"image"
	"io"
	"time"
)

// Type is the media type, which stands first in the file, as it is.
const Type = "image/openraster"

// version is that of the standard whose rules the files keep.
const version = "0.0.5"

// ThumbnailSide is the longest side that a small picture may have, in pixels.
const ThumbnailSide = 256

// Layer is one layer. Its image's bounds say where it lies in the picture, which begins at
// (0, 0).
type Layer struct {
	Name   string
	Image  image.Image
	Hidden bool
}

// Picture is what is written. Merged is what the visible layers show together, and Small the
// same, no larger than ThumbnailSide.
type Picture struct {
	Layers []Layer // topmost first
	Merged image.Image
	Small  image.Image
}

// stack is the description of the layers.
type stack struct {
	XMLName xml.Name `xml:"image"`
	Version string   `xml:"version,attr"`
	Width   int      `xml:"w,attr"`
	Height  int      `xml:"h,attr"`
	Layers  []layer  `xml:"stack>layer"`
}

type layer struct {
	Name        string `xml:"name,attr"`
	Source      string `xml:"src,attr"`
	X           int    `xml:"x,attr"`
	Y           int    `xml:"y,attr"`
	Opacity     string `xml:"opacity,attr"`
	Visibility  string `xml:"visibility,attr"`
	CompositeOp string `xml:"composite-op,attr"`
}

// Write writes an OpenRaster file. encode writes one picture as a PNG file.
func Write(w io.Writer, p Picture, encode func(io.Writer, image.Image) error) error {
	z := zip.NewWriter(w)
	if err := writeType(z); err != nil {
		return err
	}
	size := p.Merged.Bounds().Size()
	description := stack{Version: version, Width: size.X, Height: size.Y}
	parts := []part{{"stack.xml", nil}, {"mergedimage.png", p.Merged}, {"Thumbnails/thumbnail.png", p.Small}}
	for i, l := range p.Layers {
		name := fmt.Sprintf("data/layer%d.png", i)
		visibility := "visible"
		if l.Hidden {
			visibility = "hidden"
		}
		description.Layers = append(description.Layers, layer{
			Name: l.Name, Source: name, X: l.Image.Bounds().Min.X, Y: l.Image.Bounds().Min.Y, Opacity: "1.0", Visibility: visibility, CompositeOp: "svg:src-over",
		})
		parts = append(parts, part{name, l.Image})
	}
	for _, p := range parts {
		if err := p.write(z, description, encode); err != nil {
			return fmt.Errorf("write %s into an OpenRaster file: %w", p.name, err)
		}
	}
	return z.Close()
}

// writeType writes the media type as the first part: not shrunk, with its size and check sum
// before it and nothing else, so that it stands at a fixed place.
func writeType(z *zip.Writer) error {
	h := &zip.FileHeader{
		Name: "mimetype", Method: zip.Store, CRC32: crc32.ChecksumIEEE([]byte(Type)),
		CompressedSize64: uint64(len(Type)), UncompressedSize64: uint64(len(Type)),
	}
	h.ModifiedDate = noDate //lint:ignore SA1019 CreateRaw writes this field as it is, and not Modified
	w, err := z.CreateRaw(h)
	if err != nil {
		return err
	}
	_, err = io.WriteString(w, Type)
	return err
}

// noTime stands where an archive must have a time: the first that it can tell.
var noTime = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

// noDate is the day of noTime as an archive has it: 7 bits of years since 1980, 4 of the month,
// 5 of the day (PKWARE, .ZIP File Format Specification 6.3.10, 4.4.6, MS-DOS date).
const noDate = 0<<9 | 1<<5 | 1

// part is a part of the archive: a picture, or the description.
type part struct {
	name string
	img  image.Image
}

func (p part) write(z *zip.Writer, s stack, encode func(io.Writer, image.Image) error) error {
	h := &zip.FileHeader{Name: p.name, Method: zip.Store, Modified: noTime} // PNG files are shrunk already
	if p.img == nil {
		h.Method = zip.Deflate
	}
	w, err := z.CreateHeader(h)
	if err != nil {
		return err
	}
	if p.img != nil {
		return encode(w, p.img)
	}
	if _, err := io.WriteString(w, xml.Header); err != nil {
		return err
	}
	e := xml.NewEncoder(w)
	e.Indent("", " ")
	return e.Encode(s)
}
