package pipewire

import (
	"fmt"
	"image"

	"app.tonedesk/capture/pipewire/pod"
)

// pixels is a format of pixels, four bytes each.
type pixels uint32

// The formats that are taken: their names are the order of the bytes. Source: SPA,
// spa/param/video/raw.h.
const (
	rgbx pixels = 7
	bgrx pixels = 8
	rgba pixels = 11
	bgra pixels = 12
)

// Limits of what is taken, our choice: sides of a picture in pixels, and buffers on the way. One of
// these stays with us until there is a newer one.
const (
	mostSide    = 16384
	fewBuffers  = 3
	someBuffers = 4
	mostBuffers = 8
)

// offered says which pictures are taken: of four bytes a pixel, without a modifier, so that the
// memory is ordinary and not the graphics card's.
func offered() pod.Pod {
	return pod.Object(pod.ObjectFormat, pod.ParamEnumFormat,
		pod.With(pod.KeyMediaType, pod.ID(pod.MediaVideo)),
		pod.With(pod.KeyMediaSubtype, pod.ID(pod.MediaRaw)),
		pod.With(pod.KeyVideoFormat, pod.Choice(pod.ChoiceEnum, pod.TypeID, 4, uint32(bgrx), uint32(bgrx), uint32(rgbx), uint32(bgra), uint32(rgba))),
		pod.With(pod.KeyVideoSize, pod.Choice(pod.ChoiceRange, pod.TypeRectangle, 8, 1920, 1080, 1, 1, mostSide, mostSide)),
		pod.With(pod.KeyVideoRate, pod.Choice(pod.ChoiceRange, pod.TypeFraction, 8, 30, 1, 0, 1, 1000, 1)),
	)
}

// wished says in which memory pictures are wanted, and what is to be told of each.
func wished() []pod.Pod {
	meta := func(kind, size uint32) pod.Pod {
		return pod.Object(pod.ObjectMeta, pod.ParamMeta, pod.With(pod.KeyMetaType, pod.ID(kind)), pod.With(pod.KeyMetaSize, pod.Int(size)))
	}
	return []pod.Pod{
		pod.Object(pod.ObjectBuffers, pod.ParamBuffers,
			pod.With(pod.KeyBuffers, pod.Choice(pod.ChoiceRange, pod.TypeInt, 4, someBuffers, fewBuffers, mostBuffers)),
			pod.With(pod.KeyBlocks, pod.Int(1)),
			pod.With(pod.KeyDataType, pod.Choice(pod.ChoiceFlags, pod.TypeInt, 4, 1<<pod.DataMemPtr|1<<pod.DataMemFd)),
		),
		meta(pod.MetaHeader, pod.MetaHeaderSize),
		meta(pod.MetaCrop, pod.MetaCropSize),
	}
}

// format is what was agreed on.
type format struct {
	pixels pixels
	size   image.Point
}

// parseFormat reads what was agreed on.
func parseFormat(p pod.Pod) (f format, err error) {
	kind, body, _, err := p.Cut()
	if err != nil || kind != pod.TypeObject || len(body) < 8 || pod.Order.Uint32(body) != pod.ObjectFormat {
		return f, pod.Err
	}
	for rest := body[8:]; len(rest) > 0; {
		if len(rest) < 8 {
			return f, pod.Err
		}
		key := pod.Order.Uint32(rest)
		kind, value, after, err := pod.Pod(rest[8:]).Cut()
		if err != nil {
			return f, err
		}
		rest = after
		kind, value = pod.Settled(kind, value)
		switch {
		case key == pod.KeyVideoFormat && kind == pod.TypeID && len(value) >= 4:
			f.pixels = pixels(pod.Order.Uint32(value))
		case key == pod.KeyVideoSize && kind == pod.TypeRectangle && len(value) >= 8:
			f.size = image.Pt(int(pod.Order.Uint32(value)), int(pod.Order.Uint32(value[4:])))
		}
	}
	switch f.pixels {
	case rgbx, bgrx, rgba, bgra:
	default:
		return f, fmt.Errorf("%w: pixels of kind %d", pod.Err, f.pixels)
	}
	if f.size.X < 1 || f.size.Y < 1 || f.size.X > mostSide || f.size.Y > mostSide {
		return f, fmt.Errorf("%w: %v pixels", pod.Err, f.size)
	}
	return f, nil
}
