package main

import (
	"context"
	"io"
	"log"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"app.tonedesk/assets"
	"app.tonedesk/capture"
	"app.tonedesk/cmd/desk/command"
	"app.tonedesk/cmd/desk/quiet"
	"app.tonedesk/gui"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/wording"
	"app.tonedesk/memory"
)

// appID names the program to the desktop; FyneApp.toml has it too.
const appID = "app.tonedesk"

// openWindow opens the window on the remembered region, or on the picture file that args
// name, and returns when it is closed.
func openWindow(args []string, s command.Streams) (exit int) {
	memory.Hold(memory.OfWindow)
	w, err := command.WindowArguments(args)
	if err != nil {
		return s.WrongUse(err)
	}
	if w.Picture != "" {
		if _, err := capture.OpenPicture(w.Picture); err != nil {
			return s.Fail(wording.Explain(w.Picture, err))
		}
	}
	trace, err := openTrace(w.Trace)
	if err != nil {
		return s.Fail(wording.Explain(w.Trace, err))
	}
	if err := displayAnswers(); err != nil {
		return s.Fail(wording.Explain("open the window", err))
	}
	return runWindow(w.Picture, trace, s)
}

// openTrace opens the trace file, readable for its owner only.
func openTrace(path string) (io.Writer, error) {
	if path == "" {
		return nil, nil
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, 0o600)
	if err != nil {
		return nil, err // not f: a nil *os.File is no nil io.Writer
	}
	return f, nil
}

// runWindow runs the toolkit until the window is closed.
func runWindow(picture string, trace io.Writer, s command.Streams) (exit int) {
	path, err := settings.Path()
	if err != nil {
		return s.Fail(wording.Explain("find the settings", err))
	}
	set, problems, err := settings.Load(path)
	if err != nil {
		problems = append(problems, wording.Explain("read the settings", err))
	}
	keeper := settings.NewKeeper(path, func(err error) { fyne.LogError("keeping the settings", err) })
	forget := keepCrashes()
	defer forget()
	defer recoverWindow(keeper, s, &exit)
	onDisplayLost(func() {
		_ = keeper.Flush() // the reason for the end is the display, whatever this says
		forget()
		s.Say("Tonedesk ended: its display is gone. Start it again when the display is back; what you had set is kept.")
	})
	store, err := command.UserStills()
	if err != nil {
		problems = append(problems, err.Error())
	}
	a := app.NewWithID(appID)
	a.SetIcon(fyne.NewStaticResource("icon.png", assets.Icon))
	desk := gui.NewDesk(a, gui.Options{
		Settings: set, Keeper: keeper, Picture: picture, Stills: store, Problems: problems, Messages: quiet.Path(), Trace: trace, Quit: a.Quit,
		Screen: func() (capture.Backend, error) { return capture.Pick(os.Getenv) },
	})
	a.Lifecycle().SetOnStarted(desk.Started)
	leaveOnSignal(desk)
	if whetherRefused(desk.Show) {
		return s.Fail(wording.Sentence("open the window", "the display has no OpenGL 2.1 to draw with", "install the graphics card's driver, or Mesa"+more()))
	}
	desk.Run()
	a.Run()
	desk.Close()
	return command.ExitDone
}

// recoverWindow turns a panic into a sentence, with what was kept safe.
func recoverWindow(keeper *settings.Keeper, s command.Streams, exit *int) {
	r := recover()
	if r == nil {
		return
	}
	_ = keeper.Flush()
	log.Printf("panic: %v\n%s", r, debug.Stack())
	*exit = s.Fail("Tonedesk ended because of a mistake of its own: please report it" + more() + ". What you had set is kept.")
}

// leaveOnSignal stops the watching when the system asks the program to end, before the
// toolkit, which takes the same signals, ends its loop.
func leaveOnSignal(desk *gui.Desk) {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
	go func() {
		<-signals
		desk.Leave()
	}()
}

// displayWait is how long the display may take to let us in.
const displayWait = 5 * time.Second

// displayAnswers says why the toolkit could not open a window here, before it tries.
func displayAnswers() error {
	ctx, cancel := context.WithTimeout(context.Background(), displayWait)
	defer cancel()
	return probeDisplay(ctx)
}
