package analysis

import "app.tonedesk/analysis/colour"

// LayOver lays the partly transparent pixels over an opaque ground, in place, as a browser
// or a painting program shows them: simple alpha compositing on the encoded values (W3C
// Compositing and Blending Level 1), rounded to nearest. They are opaque then. Fully
// transparent pixels stay as they are, and so does BGRX, which is opaque anyway.
func (p Pixels) LayOver(ground colour.RGB) {
	if p.Layout != RGBA || p.Check() != nil || p.Width == 0 {
		return
	}
	for y := range p.Height {
		row := p.Row(y)
		for x := 0; x < len(row); x += PixelBytes {
			q := row[x:][:PixelBytes]
			if alpha := q[3]; alpha != 0 && alpha != 255 {
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
