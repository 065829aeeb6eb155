package capture

import (
	"fmt"
	"image"

	"github.com/jezek/xgb/shm"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

const (
	allPlanes   = 0xffffffff
	replyHeader = 32 // bytes before the picture in a GetImage reply (X11 protocol, appendix B)
	// boxRoom are the bytes in a segment that boxes smaller than the picture may take. Our
	// choice: 512 x 512 pixels, a brush stroke between two reads.
	boxRoom = 1 << 20
)

// x11Image holds one picture as the server gave it.
type x11Image struct {
	raw    []byte // rows in the server's format; nil: none yet
	format *x11Format
	rect   image.Rectangle // what it shows, pixels of the drawable
	seg    *segment        // raw's memory; nil over the wire
	id     shm.Seg         // the server's name for seg
}

// read reads all that aim wants into img. Over shared memory img's segment is used, and
// enlarged to hold aim.room bytes if it is smaller. It may hang.
func (img *x11Image) read(c *xconn.Conn, from x11Source, aim x11Aim, shared bool) error {
	size := aim.format.stride(aim.rect.Dx()) * aim.rect.Dy()
	if shared {
		if err := img.attach(c, max(aim.room, size)+boxRoom); err != nil {
			return err
		}
	}
	img.format = aim.format
	raw, err := img.get(c, from, aim.rect, 0, shared)
	if err != nil {
		img.raw = nil
		return err
	}
	img.raw, img.rect = raw, aim.rect
	return nil
}

// get asks for rect, which is at the segment's offset then, or in memory of its own.
func (img *x11Image) get(c *xconn.Conn, from x11Source, rect image.Rectangle, offset int, shared bool) ([]byte, error) {
	size := img.format.stride(rect.Dx()) * rect.Dy()
	x, y, w, h := int16(rect.Min.X), int16(rect.Min.Y), uint16(rect.Dx()), uint16(rect.Dy())
	drawable := from.open()
	defer from.done()
	if !shared {
		reply, err := xproto.GetImage(c.X, xproto.ImageFormatZPixmap, drawable, x, y, w, h, allPlanes).Cookie.Reply()
		if err != nil {
			return nil, err
		}
		if len(reply) < replyHeader+size || int(reply[1]) != img.format.depth {
			return nil, fmt.Errorf("%w: %d bytes of depth %d for a picture of %d", xconn.ErrBroken, len(reply), reply[1], size)
		}
		return reply[replyHeader : replyHeader+size], nil
	}
	reply, err := shm.GetImage(c.X, drawable, x, y, w, h, allPlanes, xproto.ImageFormatZPixmap, img.id, uint32(offset)).Cookie.Reply()
	if err != nil {
		return nil, err
	}
	if int(reply[1]) != img.format.depth {
		return nil, fmt.Errorf("%w: a picture of depth %d", xconn.ErrBroken, reply[1])
	}
	return img.seg.mem[offset : offset+size], nil
}

// patch reads a box of what img shows once more, counted from its top left, or a larger one
// where that takes no longer, and returns which. It may hang.
func (img *x11Image) patch(c *xconn.Conn, from x11Source, box image.Rectangle, shared bool) (image.Rectangle, error) {
	f, width := img.format, img.rect.Dx()
	offset := len(img.raw)
	if shared && (2*box.Dx() > width || offset+f.stride(box.Dx())*box.Dy() > len(img.seg.mem)) {
		box.Min.X, box.Max.X = 0, width // whole rows lie in the picture as in a box of their own
		offset = box.Min.Y * f.stride(width)
	}
	got, err := img.get(c, from, box.Add(img.rect.Min), offset, shared)
	if err != nil {
		img.raw = nil
		return box, err
	}
	if !shared || offset == len(img.raw) {
		part := x11Image{raw: got, format: f, rect: box.Add(img.rect.Min)}
		img.copyFrom(&part, box)
	}
	return box, nil
}

// copyFrom copies a box, counted from img's top left, from another picture of these pixels.
func (img *x11Image) copyFrom(other *x11Image, box image.Rectangle) {
	f, at := img.format, box.Add(img.rect.Min)
	to, from := f.stride(img.rect.Dx()), f.stride(other.rect.Dx())
	bytes := f.bytes * box.Dx()
	for y := range box.Dy() {
		src := (at.Min.Y-other.rect.Min.Y+y)*from + (at.Min.X-other.rect.Min.X)*f.bytes
		dst := (box.Min.Y+y)*to + box.Min.X*f.bytes
		copy(img.raw[dst:dst+bytes], other.raw[src:src+bytes])
	}
}

// attach gives img a segment of at least size bytes that the server has attached too.
func (img *x11Image) attach(c *xconn.Conn, size int) error {
	if img.seg != nil && len(img.seg.mem) >= size {
		return nil
	}
	img.detach(c)
	seg, err := takeSegment(size)
	if err != nil {
		return err
	}
	id, err := shm.NewSegId(c.X)
	if err == nil {
		err = shm.AttachChecked(c.X, id, uint32(seg.id), false).Check()
	}
	if err != nil {
		seg.giveBack()
		return fmt.Errorf("share memory with the display: %w", err)
	}
	img.seg, img.id = seg, id
	// In another IPC namespace the same number may be another segment: then only we hold ours.
	if n := seg.holders(); n != 2 {
		img.detach(c)
		return fmt.Errorf("share memory with the display: %d hold the segment", n)
	}
	return nil
}

// detach lets the server and us let go of img's segment. A picture in it is void.
func (img *x11Image) detach(c *xconn.Conn) {
	if img.seg == nil {
		return
	}
	shm.Detach(c.X, img.id)
	img.seg.giveBack()
	img.seg, img.raw = nil, nil
}
