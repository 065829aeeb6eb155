package main

import (
	"bytes"
	"log"
	"os"
	"strings"
	"syscall"
	"testing"

	"fyne.io/fyne/v2/test"

	"app.tonedesk/cmd/desk/command"
)

// endingIn is an ending that sends how it would exit.
func endingIn() (e *ending, exits chan int) {
	exits = make(chan int, 2)
	return &ending{last: func() {}, exit: func(code int) { exits <- code }}, exits
}

// A signal saves first; before there is anything to save it ends the program at once.
func TestSignals(t *testing.T) {
	e, exits := endingIn()
	e.onSignal()
	hang := func() {
		if err := syscall.Kill(os.Getpid(), syscall.SIGHUP); err != nil {
			t.Fatal(err)
		}
	}
	hang()
	if code := <-exits; code != command.ExitDone {
		t.Errorf("with nothing to save it exits with %d", code)
	}
	e, exits = endingIn()
	saved := make(chan bool)
	e.once.Do(func() {}) // the toolkit ends here
	e.save.Store(new(func() { saved <- true }))
	e.onSignal()
	hang()
	<-saved
	if len(exits) > 0 {
		t.Error("it exits by force, and nothing hangs")
	}
}

// What hangs at the end is ended, and what every goroutine waits for is kept.
func TestEndByForce(t *testing.T) {
	var kept bytes.Buffer
	before := log.Writer()
	log.SetOutput(&kept)
	defer log.SetOutput(before)
	e, exits := endingIn()
	e.force()
	if code := <-exits; code != command.ExitDone || !strings.Contains(kept.String(), "TestEndByForce") {
		t.Errorf("it exits with %d and keeps %q", code, kept.String())
	}
}

// The toolkit has nothing to do any more once its loop has ended.
func TestEndsPlainly(t *testing.T) {
	a := test.NewTempApp(t)
	l := a.Lifecycle().(interface {
		OnStopped() func()
		SetOnStoppedHookExecuted(func())
	})
	l.SetOnStoppedHookExecuted(func() {}) // as the toolkit's own applications do
	if l.OnStopped() == nil {
		t.Fatal("nothing is done at the end as it is")
	}
	endsPlainly(a)
	if l.OnStopped() != nil {
		t.Error("it still does something at the end")
	}
}
