package main

import (
	"log"
	"os"
	"os/signal"
	"runtime"
	"sync"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/cmd/desk/command"
)

// endMost is how long the toolkit may take to end once all is saved; our choice: it takes
// milliseconds, and who logs out waits for it.
const endMost = 3 * time.Second

// ending is the way out of the window, whoever asks for it: what can be saved is saved first,
// and then the program ends, whatever the toolkit does.
type ending struct {
	save atomic.Pointer[func()] // saves what can be, in bounded time; nil before there is a window
	last func()                 // puts away what is only there while the program runs
	exit func(code int)         // os.Exit, but in tests
	once sync.Once
}

// onSignal ends the program when the system asks for it. The toolkit takes two of these
// signals too, but only from a moment on that comes after the window is seen: one that came
// before was lost, and the window stayed for ever.
func (e *ending) onSignal() {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, endings...)
	go func() {
		<-signals
		save := e.save.Load()
		if save == nil {
			e.last()
			e.exit(command.ExitDone)
			return
		}
		(*save)()
		e.watch()
		quitLoop()
	}()
}

// watch ends the program if it has not ended by itself after a while; what each goroutine
// waits for is kept then.
func (e *ending) watch() {
	e.once.Do(func() { time.AfterFunc(endMost, e.force) })
}

func (e *ending) force() {
	log.Printf("the window does not end by itself:\n%s", stacks())
	e.last()
	e.exit(command.ExitDone)
}

// stacks returns what all goroutines are doing.
func stacks() []byte {
	all := make([]byte, 200<<10) // as much as the file of messages takes at once
	return all[:runtime.Stack(all, true)]
}

// quitLoop ends the toolkit's loop, also one that has not begun yet. The application's own Quit
// closes the windows first, and breaks down at a pointer event that waits for one of them.
func quitLoop() {
	defer func() { _ = recover() }() // the loop has ended already, and its queue is closed
	fyne.Do(fyne.CurrentApp().Driver().Quit)
}

// endsPlainly takes from the toolkit what it does last: it keeps its preferences, of which we
// have none. It hands that to a goroutine that hands it back to the loop, which may have ended
// by then; the toolkit would wait for it for ever (fyne.io/fyne/v2 2.7.1, runGL and
// runOnMainWithWait).
func endsPlainly(a fyne.App) {
	if l, ok := a.Lifecycle().(interface{ SetOnStoppedHookExecuted(func()) }); ok {
		l.SetOnStoppedHookExecuted(nil)
	}
}
