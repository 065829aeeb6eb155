package stills

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture/memory"
)

// WritePNG writes a picture without loss, said to be sRGB. It is written fast rather than
// small: a still must not hold up the painter.
func WritePNG(w io.Writer, img image.Image) error { return WritePNGIn(w, img, nil) }

// WritePNGIn is WritePNG for a picture of a colour space, which it says.
func WritePNGIn(w io.Writer, img image.Image, space *colour.Space) error {
	out := &chunkWriter{w, headSize, spaceChunk(space)}
	if rows := rowsOf(img); rows != nil {
		return writeRows(out, rows)
	}
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	return e.Encode(out, img)
}

// headSize is how many bytes of a PNG file come before the chunks that may say its colours: its
// signature and the header chunk (W3C PNG Specification, Third Edition, 5.2 and 11.2.2).
const headSize = 8 + 12 + 13

// chunkWriter puts a chunk behind the header chunk of the PNG file written through it.
type chunkWriter struct {
	w     io.Writer
	head  int // bytes still to come before the chunk
	chunk []byte
}

func (s *chunkWriter) Write(b []byte) (n int, err error) {
	if s.head > 0 {
		n, err = s.w.Write(b[:min(s.head, len(b))])
		if s.head -= n; err != nil || s.head > 0 {
			return n, err
		}
		if _, err := s.w.Write(s.chunk); err != nil {
			return n, err
		}
	}
	k, err := s.w.Write(b[n:])
	return n + k, err
}

// imageOf returns pixels as Go's image package has them. It may share the memory of RGBA.
func imageOf(p analysis.Pixels) *image.NRGBA {
	if p.Layout == analysis.RGBA {
		return &image.NRGBA{Pix: p.Pix, Stride: p.Stride, Rect: p.Bounds()}
	}
	img := image.NewNRGBA(p.Bounds())
	for y := range p.Height {
		from, to := p.Pix[y*p.Stride:][:4*p.Width], img.Pix[y*img.Stride:][:4*p.Width]
		for i := 0; i < len(from); i += 4 {
			to[i], to[i+1], to[i+2], to[i+3] = from[i+2], from[i+1], from[i], 255
		}
	}
	return img
}

// pixelsOf returns an image of ours as pixels, in the same memory.
func pixelsOf(img *image.RGBA) analysis.Pixels {
	return analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: img.Rect.Dx(), Height: img.Rect.Dy()}
}

// pngTakes returns how many bytes decoding a PNG file takes: ours have the pixels as they stay,
// and what somebody else wrote may have twice as much for each beside, in passes or not. Rows
// are kept a few at a time, here and where they are written again.
func pngTakes(file io.ReaderAt, c image.Config) int64 {
	const interlace, most, rows = headSize - 5, 12, 24 // bytes
	each := int64(most)
	var passes [1]byte
	if _, err := file.ReadAt(passes[:], interlace); err == nil && passes[0] == 0 && (c.ColorModel == color.RGBAModel || c.ColorModel == color.NRGBAModel) {
		each = analysis.PixelBytes
	}
	return int64(c.Width) * (each*int64(c.Height) + rows)
}

// readPNG reads a picture of ours. The error wraps ErrDamaged, or *memory.Full before anything
// large is set up.
func readPNG(file io.ReaderAt, width, height int) (analysis.Pixels, error) {
	all := func() io.Reader { return io.NewSectionReader(file, 0, math.MaxInt64) }
	c, err := png.DecodeConfig(all())
	if err == nil && (c.Width != width || c.Height != height) {
		err = fmt.Errorf("%d x %d pixels, not %d x %d", c.Width, c.Height, width, height)
	}
	var img image.Image
	if err == nil {
		if full := memory.Room(pngTakes(file, c)); full != nil {
			return analysis.Pixels{}, full
		}
		img, err = png.Decode(all())
	}
	if err != nil {
		return analysis.Pixels{}, fmt.Errorf("picture.png: %w: %w", ErrDamaged, err)
	}
	space, err := spaceIn(file)
	if err != nil {
		return analysis.Pixels{}, fmt.Errorf("picture.png: %w: %w", ErrDamaged, err)
	}
	straight, ok := img.(*image.NRGBA)
	if !ok {
		if m, ok := img.(*image.RGBA); ok { // what the decoder gives for a picture without alpha
			p := pixelsOf(m)
			p.Space = space
			return p, nil
		}
		straight = image.NewNRGBA(img.Bounds()) // somebody else wrote it
		draw.Draw(straight, straight.Rect, img, img.Bounds().Min, draw.Src)
	}
	return analysis.Pixels{Pix: straight.Pix, Stride: straight.Stride, Width: width, Height: height, Space: space}, nil
}
