package analysis

// The greys, and in the upper left corner the whole picture made small, as greys too: what
// survives as a thumbnail.
func init() {
	register(11, View{Key: "small", Name: "Small size", Knob: &smallKnob, Wide: true, Paint: paintSmall})
}

// smallKnob is the small picture's longer side.
var smallKnob = Knob{Name: "Longer side", Unit: "px", From: 64, To: 256, Step: 16, Start: 128}

// Around the small picture lies a mat of middle grey (L* 50), so that it is seen by itself,
// and around that a dark line. Pixels.
const (
	matWidth  = 6
	matGrey   = 119 // L* 50.0
	lineWidth = 1
)

func paintSmall(dst []byte, src *Reduced, look Look) {
	paintGrey(dst, src, look)
	s := memoryOf[small](src)
	s.take(src, int(smallKnob.At(look.Knob)))
	const border = matWidth + lineWidth
	scale := greyScale()
	for y := range min(s.height+2*border, src.Height) {
		row := dst[pixelBytes*y*src.Width:][:pixelBytes*src.Width]
		for x := range min(s.width+2*border, src.Width) {
			grey := uint8(matGrey)
			switch inX, inY := x-border, y-border; {
			case inX >= 0 && inX < s.width && inY >= 0 && inY < s.height:
				grey = scale.greys[scale.reached.of(s.light[inY*s.width+inX])]
			case inX < -matWidth || inX >= s.width+matWidth || inY < -matWidth || inY >= s.height+matWidth:
				grey = darkDot
			}
			q := row[pixelBytes*x:][:pixelBytes]
			q[0], q[1], q[2] = grey, grey, grey
		}
	}
}
