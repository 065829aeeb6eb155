package capture

import (
	"context"
	"errors"
	"fmt"
)

// errPanic: a backend broke down over something we did not foresee. What it left
// behind is not to be trusted, so the source is opened anew.
var errPanic = errors.New("screen reader broke down")

// question is what a reader is asked to do.
type question uint8

const (
	openQuestion question = iota // open the source, closing what was open before
	grabQuestion                 // read a picture
)

// answer is what came of a question.
type answer struct {
	to      question
	changes <-chan struct{} // of what was opened; nil: it can't tell
	changed bool
	frame   Frame // if changed
	err     error
}

// reader owns one stream and the one goroutine that touches it, since every call
// may hang. At most one question is open at a time. Whoever loses patience lets it
// go: the goroutine then closes the stream as soon as the hanging call returns.
type reader struct {
	open      func(context.Context) (Stream, error)
	ctx       context.Context
	cancel    context.CancelFunc
	questions chan question
	answers   chan answer
	done      chan struct{} // closed when the stream is
	stream    Stream
	frame     Frame
}

// newReader starts a reader for the source that open opens.
func newReader(ctx context.Context, open func(context.Context) (Stream, error)) *reader {
	r := &reader{
		open:      open,
		questions: make(chan question, 1),
		answers:   make(chan answer, 1), // never blocks: one question at a time
		done:      make(chan struct{}),
	}
	r.ctx, r.cancel = context.WithCancel(ctx)
	go r.run()
	return r
}

// ask asks q. The answer to the question before must have been taken.
func (r *reader) ask(q question) { r.questions <- q }

// letGo ends the reader. It does not wait.
func (r *reader) letGo() {
	r.cancel()
	close(r.questions)
}

func (r *reader) run() {
	defer close(r.done)
	defer r.closeStream()
	for q := range r.questions {
		r.answers <- r.answer(q)
	}
}

// answer does what q asks, and turns a panic into an error.
func (r *reader) answer(q question) (a answer) {
	defer func() {
		if p := recover(); p != nil {
			a = answer{to: q, err: fmt.Errorf("%w: %v", errPanic, p)}
		}
	}()
	a.to = q
	if q == openQuestion {
		r.closeStream()
		r.frame = Frame{} // there may be no room for another beside it
		r.stream, a.err = r.open(r.ctx)
		if n, ok := r.stream.(Notifier); ok && a.err == nil {
			a.changes = n.Changes()
		}
		return a
	}
	if a.changed, a.err = r.stream.Grab(r.ctx, &r.frame); a.changed {
		a.frame = r.frame
	}
	return a
}

// closeStream closes what is open. Its errors help nobody: the stream is gone either way.
func (r *reader) closeStream() {
	defer func() { _ = recover() }()
	if s := r.stream; s != nil {
		r.stream = nil
		_ = s.Close()
	}
}
