package reduce

import "app.tonedesk/analysis"

// Job is work on rows that don't depend on each other. worker is under Picture.Workers, and
// never the same for two calls at once.
type Job interface {
	Rows(worker, from, to int)
}

// rowsPerJob is how many rows a worker takes at a time.
const rowsPerJob = 8

// Workers returns how many goroutines may work at once.
func (d *Picture) Workers() int { return d.workers.Workers() }

// Do does the job's rows 0 to count - 1, each once, and returns when all are done.
func (d *Picture) Do(job Job, count int) {
	d.job, d.rows = job, count
	d.workers.DoOther(d.piece, (count+rowsPerJob-1)/rowsPerJob)
	d.job = nil
}

func (d *Picture) doPiece(worker, piece int) {
	d.job.Rows(worker, piece*rowsPerJob, min(piece*rowsPerJob+rowsPerJob, d.rows))
}

// MemoryOf returns the picture's own T, a new one at first. Each view keeps what it needs
// from frame to frame in a type of its own.
func MemoryOf[T any](d *Picture) *T {
	for _, m := range d.memory {
		if t, ok := m.(*T); ok {
			return t
		}
	}
	t := new(T)
	d.memory = append(d.memory, t)
	return t
}

// spanJob paints pixels that don't depend on each other.
type spanJob[T any] struct {
	dst   []byte
	src   *Picture
	with  *T
	paint func(dst []byte, linear []uint16, with *T)
}

func (j *spanJob[T]) Rows(_, from, to int) {
	from, to = (j.src.only.from+from)*j.src.Width, (j.src.only.from+to)*j.src.Width
	j.paint(j.dst[analysis.PixelBytes*from:analysis.PixelBytes*to], j.src.Linear[3*from:3*to], j.with)
}

// span is some rows.
type span struct{ from, to int }

// Only has what is painted next, pixel by pixel, painted in the rows alone that the Reducer made
// anew: for whoever has the others painted already.
func (d *Picture) Only(do func()) {
	all := d.only
	defer func() { d.only = all }()
	d.only = d.fresh
	do()
}

// Spans paints every pixel by itself, some rows at a time, on all cores. with is what
// paint wants to know.
func Spans[T any](dst []byte, src *Picture, with *T, paint func(dst []byte, linear []uint16, with *T)) {
	job := MemoryOf[spanJob[T]](src)
	*job = spanJob[T]{dst, src, with, paint}
	src.Do(job, src.only.to-src.only.from)
	*job = spanJob[T]{} // the picture isn't ours to keep
}
