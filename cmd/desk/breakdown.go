package main

import (
	"os"
	"os/signal"
	"syscall"

	"app.tonedesk/cmd/desk/command"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/mistake"
	"app.tonedesk/gui/wording"
)

// runCommand runs a command. A mistake of ours becomes a sentence, and its stack is kept.
func runCommand(name string, do func() int, io command.Streams, keep func(string)) (exit int) {
	err := mistake.Guard(func() error {
		exit = do()
		return nil
	})
	if err == nil {
		return exit
	}
	keep(err.Error())
	return io.Fail(wording.Cannot(wording.On("finish %s", "desk "+name), saidMore("the program made a mistake%s"), "please report it"))
}

// endings are how a system asks a program to end.
var endings = []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP}

// abandonOnSignal ends the program when the system asks it to, with nothing left half written.
func abandonOnSignal() {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, endings...)
	go func() {
		s := <-signals
		files.Abandon()
		number, _ := s.(syscall.Signal)
		os.Exit(128 + int(number)) // as shells call a program's end by a signal
	}()
}
