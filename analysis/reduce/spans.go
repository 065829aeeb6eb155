package reduce

import "app.tonedesk/analysis"

// spanJob paints pixels that don't depend on each other.
type spanJob[T any] struct {
	dst   []byte
	src   *Picture
	with  *T
	paint func(dst []byte, linear []uint16, with *T)
}

func (j *spanJob[T]) Rows(_, from, to int) {
	from, to = from*j.src.Width, to*j.src.Width
	j.paint(j.dst[analysis.PixelBytes*from:analysis.PixelBytes*to], j.src.Linear[3*from:3*to], j.with)
}

// Spans paints every pixel by itself, some rows at a time, on all cores. with is what
// paint wants to know.
func Spans[T any](dst []byte, src *Picture, with *T, paint func(dst []byte, linear []uint16, with *T)) {
	job := MemoryOf[spanJob[T]](src)
	*job = spanJob[T]{dst, src, with, paint}
	src.Do(job, src.Height)
	*job = spanJob[T]{} // the picture isn't ours to keep
}
