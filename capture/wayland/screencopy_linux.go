package wayland

import (
	"image"

	"app.tonedesk/capture/wayland/wire"
)

// Requests and events of copying. Source: WLR.
const (
	wlrCaptureOutput                                        = 0
	wlrCopy, wlrLeave, wlrCopyWithDamage                    = 0, 1, 2
	wlrBuffer, wlrFlags, wlrReady, wlrFailed, wlrBufferDone = 0, 1, 2, 3, 6
	wlrInverted                                             = 1
)

// screencopy copies a screen by wlr-screencopy: each picture has an object of its own, which says first
// what memory it needs.
type screencopy struct {
	stream *Stream
	frame  uint32 // object; 0: none
	needs  layout
	flags  uint32
	begun  bool // a picture was copied: from then on only changes are waited for
}

// next implements way.
func (c *screencopy) next() {
	c.needs, c.flags = layout{}, 0
	c.frame = c.stream.object(c.hear)
	const withPointer = 0
	c.stream.send(wire.New(c.stream.copier, wlrCaptureOutput).Uint(c.frame, withPointer, c.stream.output.object))
}

func (c *screencopy) hear(op uint16, a *wire.Arguments) {
	switch op {
	case wlrBuffer:
		c.needs = layout{format: a.Uint(), size: image.Pt(int(a.Uint()), int(a.Uint())), stride: int(a.Uint())}
	case wlrBufferDone:
		c.copy()
	case wlrFlags:
		c.flags = a.Uint()
	case wlrReady:
		c.leave()
		c.begun = true
		c.stream.came(turned{layout: c.needs, turn: c.stream.output.turn, invert: c.flags&wlrInverted != 0})
	case wlrFailed:
		c.leave()
		c.stream.fail()
	}
}

// copy has the compositor copy.
func (c *screencopy) copy() {
	err := c.needs.check()
	if err == nil {
		_, err = c.stream.memory.fit(c.stream.session, c.needs)
	}
	if err != nil {
		c.leave()
		c.stream.refuse(err)
		return
	}
	how := uint16(wlrCopy)
	if c.begun {
		how = wlrCopyWithDamage
	}
	c.stream.send(wire.New(c.frame, how).Uint(c.stream.memory.buffer))
}

// leave ends the picture's object.
func (c *screencopy) leave() {
	c.stream.leave(c.frame, wlrLeave)
	c.frame = 0
}
