package gui

import (
	"os"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/capture"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
)

var ctrlQ = &desktop.CustomShortcut{KeyName: fyne.KeyQ, Modifier: fyne.KeyModifierControl}

// deskWithUnsaved is a desk on whose open still a ring is drawn that can't be saved until free
// is called; quits counts how often the program is ended.
func deskWithUnsaved(t *testing.T) (d *Desk, free func(), quits *int) {
	t.Helper()
	d, quits = newTestDesk(t, settings.Defaults()), new(int)
	d.options.Quit = func() { *quits++ }
	openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	d.marker.saver.Soon = func(func()) {} // it would run beside the test
	d.marker.saver.After = func(time.Duration, func()) {}
	free = blockSaving(t, d.Store)
	d.drawRing(t)
	return d, free, quits
}

const notSavedTitle = "Not all is saved"

// Quitting with what can't be saved asks, whichever way it is asked for; Esc goes on working,
// and nothing is lost.
func TestQuitAsksBeforeItLoses(t *testing.T) {
	d, free, quits := deskWithUnsaved(t)
	for name, ask := range map[string]func(){"the keys": func() { d.TypedShortcut(ctrlQ) }, "the window's frame": d.quit} {
		ask()
		ask() // asked twice, it asks once
		if d.Asks() != notSavedTitle || *quits > 0 {
			t.Fatalf("%s: it asks %q, and ends %d times", name, d.Asks(), *quits)
		}
		d.TypedKey(fyne.KeyEscape)
		if d.Asks() != "" || d.Window.Canvas().Focused() != fyne.Focusable(d.Mirror) || *quits > 0 || d.closed {
			t.Errorf("%s, Esc: it asks %q, ends %d times", name, d.Asks(), *quits)
		}
	}
	free()
	d.quit()
	if n := len(onDisk(t, d)); n != 1 || *quits != 1 {
		t.Errorf("once it can be saved: %d notes on the disk, ended %d times", n, *quits)
	}
}

// A name that is being typed when the program is quit, by keys or by the window's frame, is kept.
func TestQuitTakesTheNameBeingTyped(t *testing.T) {
	for name, ask := range map[string]func(d *Desk, e *widgets.Entry){
		"the keys":           func(_ *Desk, e *widgets.Entry) { e.TypedShortcut(ctrlQ) },
		"the window's frame": func(d *Desk, _ *widgets.Entry) { d.quit() },
	} {
		d, quits := newTestDesk(t, settings.Defaults()), 0
		d.options.Quit = func() { quits++ }
		p := openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
		d.Window.Canvas().Focus(p.notes.Name)
		test.Type(p.notes.Name, "Study of a half")
		ask(d, p.notes.Name)
		list, problems, err := d.Store.List()
		if quits != 1 || len(list) != 1 || list[0].Name != "Study of a half" || len(problems) > 0 || err != nil {
			t.Errorf("%s: ended %d times, kept are %+v, %v, %v", name, quits, list, problems, err)
		}
	}
}

// The answers do what they say.
func TestQuitAnswers(t *testing.T) {
	for name, want := range map[string]struct{ quits, saved int }{"Try again": {1, 1}, "Quit all the same": {1, 0}, "Go on working": {0, 0}} {
		d, free, quits := deskWithUnsaved(t)
		d.quit()
		if name == "Try again" {
			test.Tap(buttonNamed(t, d, name)) // in vain
			free()
		}
		test.Tap(buttonNamed(t, d, name))
		if name != "Try again" {
			free()
		}
		if n := len(onDisk(t, d)); *quits != want.quits || n != want.saved || d.Asks() != "" {
			t.Errorf("%s: ended %d times with %d notes saved, asking %q", name, *quits, n, d.Asks())
		}
	}
}

// What can't be saved where it belongs is kept in another folder, as a still with its notes.
func TestQuitSavesElsewhere(t *testing.T) {
	elsewhere := stills.Folders{Data: t.TempDir()}
	t.Setenv("HOME", elsewhere.Data) // where the dialog begins
	d, _, quits := deskWithUnsaved(t)
	d.quit()
	test.Tap(buttonNamed(t, d, "Save elsewhere…"))
	d.TypedKey(fyne.KeyEscape) // no folder after all: it asks again
	if d.Asks() != notSavedTitle || *quits > 0 {
		t.Fatalf("without a folder it asks %q, ended %d times", d.Asks(), *quits)
	}
	test.Tap(buttonNamed(t, d, "Save elsewhere…"))
	test.Tap(buttonNamed(t, d, "Take this folder"))
	if *quits != 1 {
		t.Errorf("saved elsewhere, it ended %d times, asking %q", *quits, d.Asks())
	}
	list, problems, err := stills.New(elsewhere).List()
	if len(list) != 1 || len(problems) > 0 || err != nil || list[0].Notes.Count != 1 || list[0].Width != d.marker.Still().Picture.Width {
		t.Errorf("elsewhere lie %+v, %v, %v", list, problems, err)
	}
	taken := elsewhere.Data + "/file"
	if err := os.WriteFile(taken, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if d.leaver.Elsewhere(taken) == nil {
		t.Error("a file does for a folder")
	}
}

// Quitting waits for what is being written.
func TestQuitWaitsForWriting(t *testing.T) {
	d, ended := newTestDesk(t, settings.Defaults()), make(chan struct{})
	d.options.Quit = func() { close(ended) }
	written := d.Writing.Begin()
	d.Spawn = func(f func()) { go f() }
	d.quit()
	select {
	case <-ended:
		t.Fatal("it does not wait")
	default:
	}
	written()
	<-ended
}

// A picture that can't be kept is said, also while the notes of another can't be saved.
func TestBothFailuresAreSaid(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	d.marker.notSaved(os.ErrPermission)
	if err := os.WriteFile(d.Store.Folder(""), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	d.stills.keep(false)
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	for _, want := range []string{"Can't keep the picture", "Can't save the notes"} {
		if got := d.parts.message.Text(); !strings.Contains(got, want) {
			t.Errorf("%q is not in %q", want, got)
		}
		d.Messages.Close() // the first is read
	}
}

// A dialog is opened once, takes the window's keys, and is closed by Esc, the topmost first.
func TestDialogsAndKeys(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	over := d.Window.Canvas().Overlays()
	open := &desktop.CustomShortcut{KeyName: fyne.KeyO, Modifier: fyne.KeyModifierControl}
	d.TypedShortcut(open)
	d.TypedShortcut(open)
	view := d.settings.View
	d.TypedRune('v')
	d.TypedKey(fyne.KeyF1)
	if len(over.List()) != 1 || d.settings.View != view || d.parts.panel != panelNone {
		t.Errorf("%d dialogs, the view %q, the panel %d", len(over.List()), d.settings.View, d.parts.panel)
	}
	d.TypedKey(fyne.KeyEscape)
	if over.Top() != nil || d.Window.Canvas().Focused() != fyne.Focusable(d.Mirror) {
		t.Errorf("after Esc: %v, %v has the keys", over.Top(), d.Window.Canvas().Focused())
	}
	f, _ := askedFile(t, d, t.TempDir())
	f.askFolder()
	for _, want := range []string{"Choose a folder", "Save the colours", ""} {
		if d.Asks() != want {
			t.Errorf("it asks %q, want %q", d.Asks(), want)
		}
		d.TypedKey(fyne.KeyEscape)
	}
	d.TypedRune('v')
	if d.settings.View == view {
		t.Error("the keys are gone")
	}
}

// A file that takes its time is being read; only a screen can fail to answer. A still that
// takes its time is not given up.
func TestSlowFileIsBeingRead(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	slow := capture.Status{State: capture.NotAnswering, Err: capture.ErrNotAnswering}
	d.setup.Source = setup.Source{Kind: setup.SourcePicture, Path: "/studies/large.png"}
	d.setStatus(slow)
	if got := d.Messages.Said[host.MessageLost]; got != `Reading "large.png"` || d.state() != capture.Waiting {
		t.Errorf("it says %q, and is %v", got, d.state())
	}
	d.setStatus(capture.Status{State: capture.Live})
	if got := d.Messages.Said[host.MessageLost]; got != "" {
		t.Errorf("read, it says %q", got)
	}
	d.setup.Source = asSource("20260101-120000-aaaaaaaaaa")
	d.setStatus(slow)
	if d.setup.Source.Kind != setup.SourceStill || d.Messages.Said[host.MessageNote] != "" {
		t.Errorf("the still is given up: it says %q", d.Messages.Said[host.MessageNote])
	}
	d.setup.Source = setup.Source{Kind: setup.SourceRegion}
	d.setStatus(slow)
	if got := d.Messages.Said[host.MessageTrouble]; !strings.Contains(got, "does not answer") {
		t.Errorf("of a screen it says %q", got)
	}
}

// The words of a note are written where they are seen, wherever the painter is.
func TestWordsAreAskedWhereTheyAreSeen(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	p := d.page().(*stillsPage)
	d.openPanel(panelKeys)
	d.marker.setTool(5) // a label
	press(d.Mirror, d.Mirror.Fit().Bounds.Min.Add(d.Mirror.Fit().Bounds.Size().Div(2)), 0)
	if _, ok := d.marker.Selected(); !ok {
		t.Fatal("nothing was drawn")
	}
	if d.Window.Canvas().Focused() != fyne.Focusable(p.notes.Text) || p.shown != partNotes || d.parts.panel != panelNone {
		t.Errorf("%T has the keys, part %d, panel %d", d.Window.Canvas().Focused(), p.shown, d.parts.panel)
	}
}
