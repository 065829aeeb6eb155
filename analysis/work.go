package analysis

// reducedWork lets views work on a reduced picture on all cores, and without allocating from
// the second frame on: the goroutines are the Reducer's, the memory is kept for the next.
type reducedWork struct {
	crew   *crew
	memory []any // pointers, each of a type of its own

	job   rowJob
	count int                     // the job's rows
	piece func(worker, piece int) // doPiece, bound once
}

// rowJob is work on rows that don't depend on each other. worker is under workers(), and
// never the same for two calls at once.
type rowJob interface {
	rows(worker, from, to int)
}

// rowsPerJob is how many rows a worker takes at a time.
const rowsPerJob = 8

// newReducedWork returns work that crew does; a crew of nil leaves it to the caller alone.
func newReducedWork(crew *crew) *reducedWork {
	w := &reducedWork{crew: crew}
	w.piece = w.doPiece
	return w
}

// working returns the picture's work, also of a picture that no Reducer made.
func (d *Reduced) working() *reducedWork {
	if d.work == nil {
		d.work = newReducedWork(nil)
	}
	return d.work
}

// workers returns how many goroutines may work at once.
func (w *reducedWork) workers() int {
	if w.crew == nil {
		return 1
	}
	return w.crew.workers()
}

// do does the job's rows 0 to count - 1, each once, and returns when all are done.
func (w *reducedWork) do(job rowJob, count int) {
	if w.crew == nil {
		job.rows(0, 0, count)
		return
	}
	w.job, w.count = job, count
	w.crew.doOther(w.piece, (count+rowsPerJob-1)/rowsPerJob)
	w.job = nil
}

func (w *reducedWork) doPiece(worker, piece int) {
	w.job.rows(worker, piece*rowsPerJob, min(piece*rowsPerJob+rowsPerJob, w.count))
}

// memoryOf returns the picture's own T, a new one at first. Each view keeps what it needs
// from frame to frame in a type of its own.
func memoryOf[T any](d *Reduced) *T {
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
