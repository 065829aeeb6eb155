package remember

import (
	"image"
	"math"

	"app.tonedesk/analysis/movement"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// Seen takes the bounds of a frame, and reports whether something lies elsewhere on the picture
// now: what was read in the frame is read anew then. The first frame of a source says whether its
// picture is still as large as it was. Where it is larger or smaller as a whole, all goes along. Where
// it has another shape, or a window another size, it can't be known where the painting lies: the
// spots stay where they are and are said to be lost. So are those outside of the picture.
func (m *Memory) Seen(bounds image.Rectangle) (moved bool) {
	if !m.opened || bounds.Empty() {
		return false
	}
	now, first := m.Steps.Now(), !m.seen
	m.seen = true
	if now.Source.Region.Empty() { // else the whole may be of any size
		m.size = bounds.Size()
	}
	back, ok := m.Settings.Pictures.Of(now.Source)
	if !first || !ok {
		return false
	}
	if was := back.Size(); now.Source.Region.Empty() && was != (image.Point{}) && was != m.size {
		moved = m.resized(now.Source, was)
	}
	if next, lost := m.Steps.Now().OutsideMoved(bounds); lost {
		m.Put(next)
		moved = true
	}
	m.Note()
	return moved
}

// resized takes all that lies on a picture along to its size of now, if it was enlarged or reduced as
// a whole; else it says that the spots are lost.
func (m *Memory) resized(from setup.Source, was image.Point) (moved bool) {
	scale, whole := scaleOf(was, m.size)
	if whole && from.Kind == setup.SourcePicture {
		m.Local.Forget() // it follows them where they were
		m.Along(func(s setup.Setup) setup.Setup {
			s = s.MovedBy(movement.ZoomBy(scale, 0, 0), image.Point{})
			s.Workspace = nil // it is found anew
			return s
		})
		m.Local.Renew()
		m.Messages.Note(wording.SayWentAlong.String())
		return true
	}
	if next := m.Steps.Now().AllMoved(true); next.AnyMoved() {
		m.Put(next)
		m.Messages.Note(wording.SayOtherSize.String())
		return true
	}
	return false
}

// scaleOf returns by how much a picture was enlarged, and whether it was as a whole: but for the
// part of a pixel by which a side is rounded. Of the sides' scales it is the smaller: nothing comes
// to lie outside.
func scaleOf(was, now image.Point) (scale float64, whole bool) {
	x, y := float64(now.X)/float64(was.X), float64(now.Y)/float64(was.Y)
	off := math.Min(math.Abs(x-y)*float64(was.X), math.Abs(x-y)*float64(was.Y))
	return math.Min(x, y), off <= 1
}
