package reduce

import "app.tonedesk/analysis/internal/pool"

// work lets views work on a reduced picture on all cores, and without allocating from the
// second frame on: the goroutines are the Reducer's, the memory is kept for the next.
type work struct {
	workers *pool.Workers
	memory  []any // pointers, each of a type of its own

	job   Job
	count int                     // the job's rows
	piece func(worker, piece int) // doPiece, bound once
}

// Job is work on rows that don't depend on each other. worker is under Picture.Workers, and
// never the same for two calls at once.
type Job interface {
	Rows(worker, from, to int)
}

// rowsPerJob is how many rows a worker takes at a time.
const rowsPerJob = 8

// newWork returns work that workers do; nil leaves it to the caller alone.
func newWork(workers *pool.Workers) *work {
	w := &work{workers: workers}
	w.piece = w.doPiece
	return w
}

// working returns the picture's work, also of a picture that no Reducer made.
func (d *Picture) working() *work {
	if d.work == nil {
		d.work = newWork(nil)
	}
	return d.work
}

// Workers returns how many goroutines may work at once.
func (d *Picture) Workers() int {
	if w := d.working(); w.workers != nil {
		return w.workers.Workers()
	}
	return 1
}

// Do does the job's rows 0 to count - 1, each once, and returns when all are done.
func (d *Picture) Do(job Job, count int) {
	w := d.working()
	if w.workers == nil {
		job.Rows(0, 0, count)
		return
	}
	w.job, w.count = job, count
	w.workers.DoOther(w.piece, (count+rowsPerJob-1)/rowsPerJob)
	w.job = nil
}

func (w *work) doPiece(worker, piece int) {
	w.job.Rows(worker, piece*rowsPerJob, min(piece*rowsPerJob+rowsPerJob, w.count))
}

// MemoryOf returns the picture's own T, a new one at first. Each view keeps what it needs
// from frame to frame in a type of its own.
func MemoryOf[T any](d *Picture) *T {
	w := d.working()
	for _, m := range w.memory {
		if t, ok := m.(*T); ok {
			return t
		}
	}
	t := new(T)
	w.memory = append(w.memory, t)
	return t
}
