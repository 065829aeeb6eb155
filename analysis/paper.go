package analysis

import (
	"encoding/binary"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/pool"
)

// White is the ground under the partly transparent pixels of a picture, unless another is
// asked for.
var White = colour.RGB{R: 255, G: 255, B: 255}

// Paper lays pictures over an opaque ground without writing to them: they belong to
// somebody else. It keeps the memory for that from one picture to the next. The zero value
// is ready; not for concurrent use.
type Paper struct{ laid []byte } // nil: the last picture needed no ground

// Opaque returns a picture with its partly transparent pixels laid over ground, as
// Pixels.LayOver does. That is px itself where it has none, and else a copy that stays
// until the next call.
func (p *Paper) Opaque(px Pixels, ground colour.RGB) Pixels {
	if !partlyTransparent(px) {
		p.laid = nil
		return px
	}
	planes := 1
	if px.Rest != nil {
		planes = 2
	}
	p.laid = pool.Resized(p.laid, planes*PixelBytes*px.Width*px.Height)
	over := p.Again(px)
	for y := range px.Height {
		copy(over.Row(y), px.Row(y))
		if px.Rest != nil {
			copy(over.restRow(y), px.restRow(y))
		}
	}
	over.LayOver(ground)
	return over
}

// Again returns the same as the last call of Opaque, which was for the same picture: it
// may lie elsewhere by now.
func (p *Paper) Again(px Pixels) Pixels {
	if p.laid != nil {
		size := PixelBytes * px.Width * px.Height
		px.Pix, px.Stride = p.laid[:size], PixelBytes*px.Width
		if px.Rest != nil {
			px.Rest = p.laid[size:][:size]
		}
	}
	return px
}

// Opaque is Paper's, for one picture over white.
func Opaque(px Pixels) Pixels { return new(Paper).Opaque(px, White) }

// partlyTransparent reports whether any pixel is neither opaque nor fully transparent.
func partlyTransparent(px Pixels) bool {
	if px.Layout != RGBA || px.Width == 0 || px.Check() != nil {
		return false
	}
	for y := range px.Height {
		row := px.Row(y)
		// Two pixels at a time: most pictures are opaque, and are looked at before each is shown.
		for len(row) >= 2*PixelBytes && binary.LittleEndian.Uint64(row)&opaquePair == opaquePair {
			row = row[2*PixelBytes:]
		}
		for ; len(row) >= PixelBytes; row = row[PixelBytes:] {
			if alpha := row[3]; alpha != 255 && alpha != 0 {
				return true
			}
		}
	}
	return false
}

// LayOver lays the partly transparent pixels over an opaque ground, in place, as a browser
// or a painting program shows them: simple alpha compositing on the encoded values (W3C
// Compositing and Blending Level 1), rounded to nearest, of 8 or 16 bits. They are opaque then. Fully
// transparent pixels stay as they are, and so does BGRX, which is opaque anyway.
func (p Pixels) LayOver(ground colour.RGB) {
	if p.Layout != RGBA || p.Check() != nil || p.Width == 0 {
		return
	}
	for y := range p.Height {
		row := p.Row(y)
		for x := 0; x < len(row); x += PixelBytes {
			if x+2*PixelBytes <= len(row) && binary.LittleEndian.Uint64(row[x:])&opaquePair == opaquePair {
				x += PixelBytes // two at a time: most pictures are opaque
				continue
			}
			q := row[x:][:PixelBytes]
			switch alpha := q[3]; {
			case alpha == 0 || alpha == 255:
			case p.Rest != nil:
				overDeep(q, p.restRow(y)[x:][:PixelBytes], ground)
			default:
				q[0] = over(q[0], ground.R, alpha)
				q[1] = over(q[1], ground.G, alpha)
				q[2] = over(q[2], ground.B, alpha)
				q[3] = 255
			}
		}
	}
}

// over returns code, alpha/255 of it opaque, over ground.
func over(code, ground, alpha uint8) uint8 {
	return uint8((int(code)*int(alpha) + int(ground)*(255-int(alpha)) + 127) / 255)
}
