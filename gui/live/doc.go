// Package live turns frames into what is shown: it reads them, paints the view, the loupe and
// the small picture beside, reads the spots, and has local colours looked for. It has no
// widgets and no toolkit: what it made is handed over by a function.
//
// A [Worker] does one [task] a frame, step by step, on the goroutine that watches. A [Search]
// looks for local colours on another, in a picture that it took from the worker.
package live
