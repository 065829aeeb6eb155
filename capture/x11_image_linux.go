package capture

import (
	"fmt"
	"image"

	"app.tonedesk/capture/xconn"
	"github.com/jezek/xgb/shm"
	"github.com/jezek/xgb/xproto"
)

const (
	allPlanes   = 0xffffffff
	replyHeader = 32 // bytes before the picture in a GetImage reply (X11 protocol, appendix B)
)

// x11Image holds one picture as the server gave it.
type x11Image struct {
	raw  []byte          // rows in the server's format; nil: none yet
	rect image.Rectangle // what it shows, root pixels
	seg  *segment        // raw's memory; nil over the wire
	id   shm.Seg         // the server's name for seg
}

// read asks for rect and puts it into img. Over shared memory img's segment is
// used, and enlarged to hold room bytes if it is smaller. It may hang.
func (img *x11Image) read(c *xconn.Conn, f *x11Format, rect image.Rectangle, room int, shared bool) error {
	size := f.stride(rect.Dx()) * rect.Dy()
	root := xproto.Drawable(c.Screen.Root)
	x, y, w, h := int16(rect.Min.X), int16(rect.Min.Y), uint16(rect.Dx()), uint16(rect.Dy())
	if !shared {
		reply, err := xproto.GetImage(c.X, xproto.ImageFormatZPixmap, root, x, y, w, h, allPlanes).Cookie.Reply()
		if err != nil {
			return err
		}
		if len(reply) < replyHeader+size || int(reply[1]) != f.depth {
			return fmt.Errorf("%w: %d bytes of depth %d for a picture of %d", xconn.ErrBroken, len(reply), reply[1], size)
		}
		img.raw, img.rect = reply[replyHeader:replyHeader+size], rect
		return nil
	}
	if err := img.attach(c, max(room, size)); err != nil {
		return err
	}
	reply, err := shm.GetImage(c.X, root, x, y, w, h, allPlanes, xproto.ImageFormatZPixmap, img.id, 0).Cookie.Reply()
	if err != nil {
		return err
	}
	if int(reply[1]) != f.depth {
		return fmt.Errorf("%w: a picture of depth %d", xconn.ErrBroken, reply[1])
	}
	img.raw, img.rect = img.seg.mem[:size], rect
	return nil
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
