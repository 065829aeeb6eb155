package main

import (
	"context"
	"io"
	"log"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"app.tonedesk/assets"
	"app.tonedesk/capture"
	"app.tonedesk/capture/memory"
	"app.tonedesk/capture/picturefile"
	"app.tonedesk/capture/plainfile"
	"app.tonedesk/capture/portal"
	"app.tonedesk/cmd/desk/command"
	"app.tonedesk/cmd/desk/console"
	"app.tonedesk/cmd/desk/drawing"
	"app.tonedesk/cmd/desk/lean"
	"app.tonedesk/cmd/desk/quiet"
	"app.tonedesk/gui"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/wording"
)

// appID names the program to the desktop; FyneApp.toml has it too.
const appID = "app.tonedesk"

// openWindow opens the window on the remembered region, or on the picture file that args
// name, and returns when it is closed.
func openWindow(args []string, s command.Streams) (exit int) {
	memory.Hold(memory.OfWindow)
	collectOften()
	speak("")
	w, err := command.WindowArguments(args)
	if err != nil {
		return s.WrongUse(err)
	}
	unread := whyUnread(w.Picture)
	if unread != "" && !w.Menu && console.Heard() {
		return s.Fail(unread)
	}
	trace, err := openTrace(w)
	if err != nil {
		return s.Fail(wording.ExplainWriting(wording.On("write %s", w.Trace), err))
	}
	if err := displayAnswers(); err != nil {
		return s.Fail(sayNoDisplay(err, os.Getenv))
	}
	s.Err = console.Leave(s.Err)
	if unread != "" { // the window says it, over what was watched last
		return runWindow("", []string{unread}, trace, s)
	}
	return runWindow(w.Picture, nil, trace, s)
}

// whyUnread says why a picture file can't be opened; "" where it can, or where none is named.
func whyUnread(picture string) string {
	if picture == "" {
		return ""
	}
	if _, err := picturefile.Open(picture); err != nil {
		return wording.Explain(wording.On("open %s", picture), err)
	}
	return ""
}

// openTrace opens the trace file, over an older trace at most.
func openTrace(w command.WindowArgs) (io.Writer, error) {
	if w.Trace == "" {
		return nil, nil
	}
	f, err := files.To{Path: w.Trace, Over: isTrace(w.Trace), Not: []string{w.Picture}}.Open()
	if err != nil {
		return nil, err // not f: a nil *os.File is no nil io.Writer
	}
	return f, nil
}

// isTrace reports whether a file is a trace, or empty.
func isTrace(path string) bool {
	const begins = `{"event":`
	f, _, err := plainfile.Open(path, os.O_RDONLY)
	if err != nil {
		return false
	}
	defer f.Close()
	head, err := io.ReadAll(io.LimitReader(f, int64(len(begins))))
	return err == nil && (len(head) == 0 || string(head) == begins)
}

// runWindow runs the toolkit until the window is closed. problems are sentences that it shows first.
func runWindow(picture string, problems []string, trace io.Writer, s command.Streams) (exit int) {
	path, err := settings.Path()
	if err != nil { // the toolkit would write into the folder where the program was started
		return s.Fail(wording.Explain("open the window", err))
	}
	set, troubles := loadSettings(path)
	speak(set.Language)
	problems = append(problems, troubles...)
	if said := command.SpeakDrawable(); said != "" {
		problems = append(problems, said)
	}
	keeper := settings.NewKeeper(path, func(err error) { fyne.LogError("keeping the settings", err) })
	forget := keepCrashes()
	last := func() {
		files.Abandon() // what is still being written in the background
		forget()
	}
	end := &ending{last: last, exit: os.Exit}
	defer end.last()
	files.Sweep(filepath.Dir(path), time.Hour)
	defer recoverWindow(keeper, s, &exit)
	end.onSignal()
	onGone(func(what wording.Phrase) {
		if save := end.save.Load(); save != nil {
			(*save)()
		}
		end.last()
		s.Say(language.Say("Tonedesk ended: %s. Start it again; what you had set is kept.", what))
	})
	store, err := command.UserStills()
	if err != nil {
		problems = append(problems, err.Error())
	}
	a := app.NewWithID(appID)
	a.SetIcon(fyne.NewStaticResource("icon.png", assets.Icon))
	endsPlainly(a)
	start := &opening{say: s.Say, save: keeper.Flush, exit: os.Exit}
	opened := start.begin()
	var desk *gui.Desk
	refused := start.refuses(func() {
		desk = gui.NewDesk(a, gui.Options{
			Settings: set, Keeper: keeper, Picture: picture, Stills: store, Problems: problems, Messages: quiet.Path(), Trace: trace,
			Quit:   func() { end.watch(); quitLoop() },
			Draw:   drawing.By(a.Driver()),
			Screen: func() (capture.Backend, error) { return portal.Pick(os.Getenv, sharing(path)) },
		})
		end.save.Store(new(desk.Save))
		desk.Show()
	})
	if refused {
		return s.Fail(start.why())
	}
	handle := host.NativeHandle(desk.Window) // other systems than X's and Windows' give none
	if handle == 0 && (runtime.GOOS == "linux" || runtime.GOOS == "windows") {
		return s.Fail(sayNoOpenGL())
	}
	ownWindow.Store(handle)
	opened()
	a.Lifecycle().SetOnStarted(desk.Started)
	desk.Run()
	a.Run()
	desk.Close()
	return command.ExitDone
}

// sharing keeps the token of what the desktop shares beside the settings.
func sharing(path string) portal.Tokens {
	token := settings.TokenBeside(path)
	return portal.Tokens{Load: token.Load, Keep: func(next string) {
		if err := token.Keep(next); err != nil {
			fyne.LogError("keeping what lets us in again", err)
		}
	}}
}

// loadSettings reads the settings, and says what could not be read of them.
func loadSettings(path string) (settings.Settings, []string) {
	set, problems, err := settings.Load(path)
	if err != nil {
		fyne.LogError("reading the settings", err)
		if len(problems) == 0 {
			problems = []string{wording.Explain(wording.On("read the settings %s", path), err)}
		}
	}
	return set, problems
}

// garbage is how much of the Go heap may be garbage before it is collected, in percent of what
// is in use, some 45 MB: collecting takes about a hundredth of two cores with a monkey at the
// window. Our choice.
const garbage = 20

func collectOften() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(garbage)
	}
	go lean.GiveBack()
}

// recoverWindow turns a panic into a sentence, with what was kept safe.
func recoverWindow(keeper *settings.Keeper, s command.Streams, exit *int) {
	r := recover()
	if r == nil {
		return
	}
	_ = keeper.Flush()
	log.Printf("panic: %v\n%s", r, debug.Stack())
	*exit = s.Fail(saidMore("Tonedesk ended because of a mistake of its own: please report it%s. What you had set is kept.").String())
}

// displayWait is how long the display may take to let us in.
const displayWait = 5 * time.Second

// displayAnswers says why the toolkit could not open a window here, before it tries.
func displayAnswers() error {
	ctx, cancel := context.WithTimeout(context.Background(), displayWait)
	defer cancel()
	return probeDisplay(ctx)
}
