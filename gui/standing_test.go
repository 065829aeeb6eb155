package gui

import (
	"fmt"
	"image"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/capture"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
)

// above is where every widget lies that begins above the sentence, but for what is said over the
// picture.
func (d *Desk) above() map[fyne.Widget]string {
	at, driver := map[fyne.Widget]string{}, d.App.Driver()
	foot := driver.AbsolutePositionForObject(d.parts.sentence).Y
	var look func(o fyne.CanvasObject)
	look = func(o fyne.CanvasObject) {
		if !o.Visible() || o == fyne.CanvasObject(d.parts.message) || o == fyne.CanvasObject(d.Tips.Box) {
			return
		}
		switch o := o.(type) {
		case *fyne.Container:
			for _, inside := range o.Objects {
				look(inside)
			}
		case fyne.Widget:
			if pos := driver.AbsolutePositionForObject(o); pos.Y <= foot {
				at[o] = fmt.Sprint(pos, o.Size())
			}
			for _, inside := range test.WidgetRenderer(o).Objects() {
				look(inside)
			}
		}
	}
	look(d.Window.Content())
	return at
}

// everyMessage says every kind of message, in few and in many words, and takes it back.
func everyMessage(d *Desk) map[string]func() {
	say := map[string]func(){}
	act := func(name string) host.MessageAct { return host.MessageAct{Name: name, Do: func() {}} }
	for name, words := range map[string]string{"short": "Some words", "long": strings.Repeat("Can't do it: it is a folder; choose a file. ", 12)} {
		for kind := host.MessageLost; kind <= host.MessageNote; kind++ {
			say[fmt.Sprintf("kind %d, %s", kind, name)] = func() { d.Messages.Offer(kind, words, act("Try again")) }
		}
		say["an offer, "+name] = func() { d.Messages.Ask(host.MessageWorkspace, words, act("Leave it out"), act("Count it")) }
		say["a toast with a word, "+name] = func() { d.Messages.NoteWith(words, act("Undo")) }
		say["an error, "+name] = func() { d.Messages.Fail(words) }
	}
	return say
}

// everyState brings the window into every state that lasts.
func everyState(d *Desk) map[string]func() {
	region := setup.Source{Kind: setup.SourceRegion, Region: image.Rect(0, 0, 400, 300)}
	return map[string]func(){
		"moved":   func() { d.setup = d.setup.AllMoved(true) },
		"covered": func() { d.setup.Source, d.covered = region, image.Rect(300, 0, 900, 300) },
		"lost": func() {
			d.setup.Source, d.status = region, capture.Status{State: capture.Gone, Err: capture.ErrGone, Since: time.Now()}
		},
		"reading": func() {
			d.setup.Source.Path, d.standing.loading = "/a/very/long/name/of/a/picture/file/indeed.png", true
		},
		"part":    func() { d.setup, d.last.counted = d.setup.LeavingOut(image.Rect(0, 0, 200, 300)), 0.5 },
		"flashes": func() { d.last.flashes = true },
	}
}

// Whatever is said, and whatever state lasts, nothing moves that lies above the sentence, and the
// sentence does not.
func TestNothingMovesForMessages(t *testing.T) {
	for _, window := range []struct {
		width, height float32
		percent       int
	}{{380, 760, 100}, {320, 480, 100}, {1100, 760, 100}, {380, 760, 150}} {
		s := settings.Defaults()
		s.Width, s.Height, s.TextPercent = window.width, window.height, window.percent
		d := newTestDesk(t, s)
		img := guitest.Halves(guitest.Light, guitest.Shadow)
		d.see(t, img)
		press(d.Mirror, image.Pt(100, 150), 0)
		press(d.Mirror, image.Pt(300, 150), 0)
		for i, page := range pages() {
			if i > 0 && window.width != 380 {
				break
			}
			d.openPage(pageIndex(page.name))
			d.see(t, img)
			was, covered, status, last := d.setup, d.covered, d.status, d.last
			before := d.above()
			check := func(what string) {
				t.Helper()
				d.layOut()
				if moved := differences(before, d.above()); moved != "" {
					t.Fatalf("%v, %s, %s: something moved: %s", window, page.name, what, moved)
				}
				if d.parts.message.Text() == "" {
					t.Fatalf("%v, %s, %s: nothing is said", window, page.name, what)
				}
			}
			for what, say := range everyMessage(d) {
				say()
				check(what)
				for kind := host.MessageLost; kind <= host.MessageNote; kind++ {
					d.Messages.Clear(kind)
				}
			}
			for what, begin := range everyState(d) {
				begin()
				d.standing.show(d)
				check(what)
				d.setup, d.covered, d.status, d.last, d.standing.loading = was, covered, status, last, false
				d.standing.show(d)
			}
			d.frozen = true // the bar's own words for it are its own matter
			d.standing.show(d)
			check("frozen")
			d.frozen = false
			d.standing.show(d)
		}
	}
}

// differences names the widgets that lie elsewhere, have come or have gone; "" for none.
func differences(a, b map[fyne.Widget]string) (words string) {
	for w, at := range a {
		if b[w] != at {
			words += fmt.Sprintf("%T at %s, then at %s; ", w, at, b[w])
		}
	}
	for w, at := range b {
		if a[w] == "" {
			words += fmt.Sprintf("%T has come at %s; ", w, at)
		}
	}
	return words
}

// A tap on a chip does the next thing.
func TestChipsAct(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	press(d.Mirror, image.Pt(100, 150), 0)
	d.setup = d.setup.AllMoved(true)
	d.Freeze()
	if got := d.parts.message.Text(); !strings.HasPrefix(got, "Picture moved\nFrozen 0:0") {
		t.Fatalf("it says %q", got)
	}
	pressOffer(t, d, "Picture moved")
	if d.setup.AnyMoved() {
		t.Error("the spots are not said to be right")
	}
	pressOffer(t, d, strings.Split(d.parts.message.Text(), "\n")[0])
	if d.frozen || d.parts.message.Text() != "" {
		t.Errorf("frozen %v, it says %q", d.frozen, d.parts.message.Text())
	}
}

// A followed window that closes is said once over the picture, by its chip.
func TestClosedWindowIsSaidOnce(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	d.setup.Source = setup.Source{Kind: setup.SourceWindow, Title: "Canvas"}
	for err, want := range map[error]string{capture.ErrNoWindow: "Window closed", capture.ErrMinimised: "Window minimised\nCan't follow"} {
		d.setStatus(capture.Status{State: capture.Gone, Err: fmt.Errorf("reading it: %w", err), Since: time.Now()})
		if got := d.parts.message.Text(); got != want && !(strings.Contains(want, "\n") && strings.HasPrefix(got, want)) {
			t.Errorf("%v: it says %q, want %q", err, got, want)
		}
		d.setStatus(capture.Status{State: capture.Live})
	}
}

// What the mirror asks for lies below the chips, and the words of an outline go meanwhile.
func TestAskedForBelowChips(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	asked := func() (at, chips float32) {
		for _, o := range test.WidgetRenderer(d.Mirror).Objects() {
			if text, ok := o.(*canvas.Text); ok && text.Text == askWords[askForm].String() {
				at = text.Position().Y
			}
		}
		for _, o := range test.WidgetRenderer(d.parts.message).Objects() {
			if chip, ok := o.(*widgets.PictureButton); ok && chip.Visible() {
				chips = max(chips, chip.Position().Y+chip.Size().Height)
			}
		}
		return at, chips
	}
	d.ask(askForm)
	plain, _ := asked()
	d.Messages.Say(host.MessagePart, "71 % counted")
	d.layOut()
	if at, chips := asked(); plain == 0 || chips == 0 || at < chips || plain > at {
		t.Errorf("it is asked at %g, without chips at %g; chips end at %g", at, plain, chips)
	}
}

// However large the text, a toast covers neither answer of an offer, and both lie in the window.
func TestToastLeavesAnswersFree(t *testing.T) {
	for _, s := range windows() {
		t.Run(fmt.Sprintf("%g, %d %%", s.Width, s.TextPercent), func(t *testing.T) {
			d := inScene(t, s, sceneNamed(t, "an offer"))
			var toast box
			var answers []box
			for _, p := range d.drawnParts() {
				switch p.object.(type) {
				case *widgets.PictureButton:
					if p.within("offer") {
						answers = append(answers, p.box)
					}
				case fyne.Widget:
					if strings.HasSuffix(fmt.Sprintf("%T", p.object), ".toast") {
						toast = p.box
					}
				}
			}
			if len(answers) != 2 || toast.empty() {
				t.Fatalf("%d answers, a toast at %v", len(answers), toast)
			}
			for i, a := range answers {
				if !a.meet(toast).empty() || a.left < 0 || a.right > s.Width {
					t.Errorf("answer %d lies at %v, the toast at %v", i+1, a, toast)
				}
			}
		})
	}
}
