package wayland

import (
	"fmt"
	"image"

	"app.tonedesk/capture"
	"app.tonedesk/capture/wayland/wire"
)

// Requests and events of copying. Source: EXT.
const (
	sourceCreate                                            = 0
	extCreateSession                                        = 0
	sessionCreateFrame                                      = 0
	sessionSize, sessionFormat, sessionDone, sessionStopped = 0, 1, 4, 5
	frameLeave, frameAttach, frameDamage, frameCapture      = 0, 1, 2, 3
	frameTransform, frameReady, frameFailed                 = 0, 3, 4
	withoutPointer                                          = 0
	failedByBuffer, failedByEnd                             = 1, 2
)

// imageCopy copies a screen by ext-image-copy-capture: one object says what memory pictures need, and says
// it anew where that changes.
type imageCopy struct {
	stream  *Stream
	session uint32      // object
	frame   uint32      // object; 0: none
	now     layout      // what is needed
	size    image.Point // as told, until all is
	formats []uint32
	known   bool // what is needed was told
	wanted  bool // a picture is, since before that
	turn    uint32
}

// newImageCopy begins to copy. The first picture is asked for as soon as it is known what it needs.
func newImageCopy(r *Stream) *imageCopy {
	c := &imageCopy{stream: r, wanted: true}
	source := r.object(nil)
	c.session = r.object(c.hearSession)
	r.send(wire.New(r.source, sourceCreate).Uint(source, r.output.object),
		wire.New(r.copier, extCreateSession).Uint(c.session, source, withoutPointer))
	return c
}

func (c *imageCopy) hearSession(op uint16, a *wire.Arguments) {
	switch op {
	case sessionSize:
		c.size = image.Pt(int(a.Uint()), int(a.Uint()))
	case sessionFormat:
		c.formats = append(c.formats, a.Uint())
	case sessionDone:
		c.settle()
		c.known = true
		if c.wanted {
			c.wanted = false
			c.next()
		}
	case sessionStopped:
		c.stream.end(fmt.Errorf("screen %q: %w", c.stream.output.Name, capture.ErrStopped))
	}
}

// settle chooses among the formats: the first that can be read, else the first.
func (c *imageCopy) settle() {
	if c.size == (image.Point{}) && len(c.formats) == 0 {
		return // nothing is told anew
	}
	c.now = layout{size: c.size, stride: 4 * c.size.X}
	for i, f := range c.formats {
		if i == 0 || readable(f) && !readable(c.now.format) {
			c.now.format = f
		}
	}
	if len(c.formats) == 0 {
		c.now.size = image.Point{} // none in memory that we could read
	}
	c.size, c.formats = image.Point{}, nil
}

// next implements way.
func (c *imageCopy) next() {
	if !c.known {
		c.wanted = true
		return
	}
	r := c.stream
	err := c.now.check()
	fresh := false
	if err == nil {
		fresh, err = r.memory.fit(r.session, c.now)
	}
	if err != nil {
		r.refuse(err)
		return
	}
	c.turn = 0
	c.frame = r.object(c.hearFrame)
	r.send(wire.New(c.session, sessionCreateFrame).Uint(c.frame), wire.New(c.frame, frameAttach).Uint(r.memory.buffer))
	if fresh { // later on the picture before is still there, and only what has changed is copied
		r.send(wire.New(c.frame, frameDamage).Int(0, 0, int32(c.now.size.X), int32(c.now.size.Y)))
	}
	r.send(wire.New(c.frame, frameCapture))
}

func (c *imageCopy) hearFrame(op uint16, a *wire.Arguments) {
	switch op {
	case frameTransform:
		c.turn = a.Uint()
	case frameReady:
		c.leave()
		c.stream.came(turned{layout: c.stream.memory.layout, turn: c.turn})
	case frameFailed:
		c.leave()
		switch a.Uint() {
		case failedByEnd:
			c.stream.end(fmt.Errorf("screen %q: %w", c.stream.output.Name, capture.ErrStopped))
		case failedByBuffer: // what is needed is told anew, if it isn't yet
			c.known = c.stream.memory.layout != c.now
			c.stream.fail()
		default:
			c.stream.fail()
		}
	}
}

// leave ends the picture's object.
func (c *imageCopy) leave() {
	c.stream.leave(c.frame, frameLeave)
	c.frame = 0
}
