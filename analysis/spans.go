package analysis

// spanJob paints pixels that don't depend on each other.
type spanJob[T any] struct {
	dst   []byte
	src   *Reduced
	with  *T
	paint func(dst []byte, linear []uint16, with *T)
}

func (j *spanJob[T]) rows(_, from, to int) {
	from, to = from*j.src.Width, to*j.src.Width
	j.paint(j.dst[pixelBytes*from:pixelBytes*to], j.src.Linear[3*from:3*to], j.with)
}

// paintSpans paints every pixel by itself, some rows at a time, on all cores. with is what
// paint wants to know.
func paintSpans[T any](dst []byte, src *Reduced, with *T, paint func(dst []byte, linear []uint16, with *T)) {
	job := memoryOf[spanJob[T]](src)
	*job = spanJob[T]{dst, src, with, paint}
	src.work.do(job, src.Height)
	*job = spanJob[T]{} // the picture isn't ours to keep
}
