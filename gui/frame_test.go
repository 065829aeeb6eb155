package gui

import (
	"fmt"
	"image"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/views"
	"app.tonedesk/capture"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// fixedPlaces is where all lies in the window down to the sentence's upper edge, and the tabs.
func (d *Desk) fixedPlaces() string {
	p, words := &d.parts, ""
	place := func(o fyne.CanvasObject) fyne.Position { return d.App.Driver().AbsolutePositionForObject(o) }
	for _, o := range []fyne.CanvasObject{p.bar, p.bar.Source, p.bar.Freeze, p.bar.View, p.bar.More, d.Mirror, p.strip, p.strip.Under, p.strip.Out, p.strip.Fit, p.strip.In, p.tabs} {
		words += fmt.Sprintf("%T %v %v\n", o, place(o), o.Size())
	}
	return words + fmt.Sprint(place(p.frame).Add(p.sentence.Position())) // the driver knows no place of what the settings hide
}

// Whatever is said, shown, measured or opened, nothing down to the sentence's upper edge moves.
func TestNothingMoves(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 380, Height: 760}, {Width: 320, Height: 480}, {Width: 1100, Height: 760}} {
		s := settings.Defaults()
		s.Width, s.Height = size.Width, size.Height
		d := newTestDesk(t, s)
		d.Later = func(time.Duration, func()) func() { return func() {} } // no timer at work beside the test
		img := guitest.Halves(guitest.Light, guitest.Shadow)
		d.see(t, img)
		want := d.fixedPlaces()
		for name, do := range map[string]func(){
			"a long message": func() { d.Messages.Note(strings.Repeat("Something is said at length. ", 20)) },
			"an offer":       func() { d.Messages.Offer(host.MessageWorkspace, "An offer.", host.MessageAct{Name: "Take it"}) },
			"a question": func() {
				d.Messages.Ask(host.MessageWorkspace, "Leave it out?", host.MessageAct{Name: "Yes"}, host.MessageAct{Name: "No"})
			},
			"two spots": func() { press(d.Mirror, image.Pt(100, 150), 0); press(d.Mirror, image.Pt(300, 150), 0) },
			"eight spots": func() {
				for i := range 8 {
					press(d.Mirror, image.Pt(40*i+20, 150), fyne.KeyModifierShift)
				}
			},
			"frozen":       d.Freeze,
			"a lost one":   func() { d.setStatus(capture.Status{State: capture.Gone, Since: time.Now().Add(-2 * time.Minute)}) },
			"found again":  func() { d.setStatus(capture.Status{State: capture.Live, Since: time.Now()}) },
			"settings":     func() { d.openPanel(panelSettings) },
			"a long name":  func() { d.setup.Source.Path = strings.Repeat("name ", 60); d.setup.Source.Kind = setup.SourcePicture },
			"nothing seen": func() { d.showNoPicture() },
		} {
			do()
			d.showState()
			d.see(t, img)
			d.layOut()
			if got := d.fixedPlaces(); got != want {
				t.Errorf("%v, %s: all lies at\n%s\nwas\n%s", size, name, got, want)
			}
		}
		for i := range pages() {
			d.openPage(i)
			for _, v := range views.All() {
				d.settings.View = v.Key
				d.settled()
				d.see(t, img)
				if got := d.fixedPlaces(); got != want {
					t.Errorf("%v, page %d, view %s: all lies at\n%s\nwas\n%s", size, i, v.Key, got, want)
				}
			}
		}
	}
}

// The picture takes the shape of a new source, once: a picture that is another shape later, and a
// late frame of the source before, change nothing.
func TestShapeIsTheSources(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	high := func() float32 { return d.Mirror.Size().Height }
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow)) // 400 x 300
	if high() != 273 {
		t.Errorf("a picture of 4 to 3 is %g high, want 364 * 3/4", high())
	}
	wide := image.NewNRGBA(image.Rect(0, 0, 400, 200))
	if d.see(t, wide); high() != 273 {
		t.Errorf("cropped, it is %g high", high())
	}
	d.watch(setup.Source{Kind: setup.SourcePicture, Path: "another.png"})
	if d.see(t, wide); high() != 273 {
		t.Errorf("after a late frame it is %g high", high())
	}
	if d.see(t, image.NewNRGBA(image.Rect(0, 0, 500, 250))); high() != 182 {
		t.Errorf("another source of 2 to 1 is %g high, want 364 / 2", high())
	}
}

// What does not hold outranks the pair, and says so in the sentence.
func TestSentenceOfStates(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	says := func(when, want string) {
		t.Helper()
		if d.showSentence(); plainSay(d.parts.sentence.Text().Title) != want {
			t.Errorf("%s it says %q, want %q", when, d.parts.sentence.Text().Title, want)
		}
	}
	d.setStatus(capture.Status{State: capture.Gone})
	says("before any picture, with no source", "Choose what to watch")
	d.setStatus(capture.Status{State: capture.Live})
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	says("without spots", "Click a spot")
	press(d.Mirror, image.Pt(100, 150), 0)
	press(d.Mirror, image.Pt(300, 150), 0)
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	says("with two", "B is 2.2 tones darker")
	d.setup = d.setup.AllMoved(true)
	says("moved", "Place the spots again")
	d.setStatus(capture.Status{State: capture.Gone, Since: time.Now().Add(-125 * time.Second)})
	says("lost", "Nothing to watch")
	if below := plainSay(d.parts.sentence.Text().Below); below != "Last seen 2 min ago. Choose again in the bar" {
		t.Errorf("below it says %q", below)
	}
	if !d.parts.sentence.Text().Dim {
		t.Error("it is not dimmed")
	}
}

// The strip reads what lies under the pointer as a spot there would be read; the view's slider
// moves its knob; a tap has it read anywhere on the screen; and the zoom buttons are off where nothing
// can be done.
func TestStripJoined(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	strip := d.parts.strip
	if strip.Reading().Lightness != "" || !strip.Out.Off() || !strip.Fit.Off() || strip.In.Off() {
		t.Errorf("before anything it reads %+v; off are %v, %v, %v", strip.Reading(), strip.Out.Off(), strip.Fit.Off(), strip.In.Off())
	}
	d.looked(image.Pt(100, 150), true)
	d.see(t, img)
	press(d.Mirror, image.Pt(100, 150), 0)
	d.see(t, img)
	spot := d.last.spots[0]
	if got := strip.Reading(); got.Colour != spot.Colour || got.Lightness != wording.Tenth(spot.Lightness) || got.Value != wording.ValueSay(spot.Value, false) {
		t.Errorf("under the pointer is %+v, the spot there is %+v", got, spot.Spot)
	}
	strip.In.OnTapped()
	d.see(t, img)
	if strip.Out.Off() || strip.Fit.Off() {
		t.Error("enlarged, nothing can be made smaller")
	}
	strip.Fit.OnTapped()
	if d.see(t, img); !strip.Out.Off() || !d.Mirror.View().Empty() {
		t.Error("all of the picture can be made smaller")
	}
	for _, on := range []bool{true, false} {
		if strip.Under.OnTapped(); d.settings.UnderPointer != on || strip.Under.On() != on {
			t.Errorf("tapped, it reads everywhere: %v, and is on: %v, want %v", d.settings.UnderPointer, strip.Under.On(), on)
		}
	}
	d.settings.View = "bands"
	d.settled()
	if got := strip.Knob(); got.Words != "5\u00a0steps" || got.At != 5 {
		t.Errorf("the knob is at %+v", got)
	}
	d.settings = slid(d.settings, 7)
	d.settled()
	if got := strip.Knob(); got.Words != "7\u00a0steps" {
		t.Errorf("slid to 7 it is at %+v", got)
	}
}

// While a still is shown, the button beside the source goes back to what is watched.
func TestResumeLeavesTheStill(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	if text := d.parts.bar.Source.Text(); !d.parts.bar.Freeze.On() || !strings.HasPrefix(text.State[1], "still, today") {
		t.Errorf("a still is shown; the bar says %+v", text)
	}
	d.parts.bar.Freeze.OnTapped()
	if d.setup.Source.Kind == setup.SourceStill || d.frozen || d.parts.bar.Freeze.On() {
		t.Errorf("resumed, it watches %+v, frozen %v", d.setup.Source, d.frozen)
	}
}

// Larger text is there at once, and the window's rows with it.
func TestTextGrowsAtOnce(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	d.settings.TextPercent = 200
	d.settled()
	// 40 and 36 at the plain size: 380 x 760 is low with text of 200 %
	if got := d.parts.tabs.Size().Height; got != 72 {
		t.Errorf("the tabs are %g high", got)
	}
	if got := d.parts.sentence.Size().Height; got != 72 {
		t.Errorf("the sentence is %g high", got)
	}
	if got := d.parts.strip.Position(); got.Y != d.Mirror.Position().Y {
		t.Errorf("the strip begins at %v, the picture at %v", got, d.Mirror.Position())
	}
	d.settings.TextPercent = 100
	d.settled()
	if got := d.parts.tabs.Size().Height; got != 40 {
		t.Errorf("back at the plain size the tabs are %g high", got)
	}
}
