package analysis

import (
	"encoding/binary"

	"app.tonedesk/analysis/internal/fixed"
)

// tally counts pixels by bin; the second half counts what has no colour (alpha 0). Pixels
// at even and odd places are counted apart, so that neighbours of the same bin don't wait
// for each other. One worker's; the tallies are added up at the end.
type tally struct{ even, odd [512]uint32 }

// opaquePair is set in a pair of BGRX pixels: the meaningless bytes become alpha 255.
const opaquePair = 0xff000000_ff000000

// binSpan writes the bin of each pixel of src (4 bytes each) to dst and counts it in n.
//
// Painted pictures are full of flat patches: a pair of pixels equal to the pair before
// needs no arithmetic, and is counted when the run ends.
func binSpan(t *fixed.Tables, n *tally, dst []uint8, src []byte, layout Layout) {
	first, third, opaque := &t.Share[0], &t.Share[2], uint64(0)
	if layout == BGRX {
		first, third, opaque = third, first, opaquePair
	}
	second := &t.Share[1]
	var last uint64 // no colour at all: the bins below
	var even, odd uint32 = 256, 256
	var run uint32
	pairs := len(dst) / 2
	src2, dst2 := src[:8*pairs], dst[:2*pairs]
	for len(src2) >= 8 && len(dst2) >= 2 {
		w := binary.LittleEndian.Uint64(src2) | opaque
		if w != last {
			n.even[even&511] += run
			n.odd[odd&511] += run
			run, last = 0, w
			light := first[uint8(w)] + second[uint8(w>>8)] + third[uint8(w>>16)]
			even = (t.Steps[light>>fixed.BucketShift] + light) >> fixed.AnswerShift
			light = first[uint8(w>>32)] + second[uint8(w>>40)] + third[uint8(w>>48)]
			odd = (t.Steps[light>>fixed.BucketShift] + light) >> fixed.AnswerShift
			even |= (uint32(w>>24)&255 - 1) >> 31 << 8 // alpha 0: the second half
			odd |= (uint32(w>>56) - 1) >> 31 << 8
		}
		run++
		dst2[0], dst2[1] = uint8(even), uint8(odd)
		src2, dst2 = src2[8:], dst2[2:]
	}
	n.even[even&511] += run
	n.odd[odd&511] += run
	if len(dst)%2 == 1 {
		q := src[8*pairs:][:PixelBytes]
		bin := t.Steps.Of(first[q[0]] + second[q[1]] + third[q[2]])
		dst[len(dst)-1] = bin
		if layout == BGRX || q[3] != 0 {
			n.even[bin]++
		} else {
			n.even[256+int(bin)]++
		}
	}
}
