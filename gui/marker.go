package gui

import (
	"image"
	"math"
	"unicode"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/marking"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// marker joins the still that is open for marking with the mirror, where the pointer is its
// pen, with the messages and the page of stills.
type marker struct {
	*host.Host
	*marking.Board
	saver     *marking.Saver
	settings  *settings.Settings // read only
	showPair  func()             // the sentence, which says what the tool does
	needStill func() bool        // has a still opened to draw on; false if one is watched already

	onNotes bool // the page's part for notes is shown
	waiting int  // tool that was taken while the picture is being kept

	down   bool // on the picture: the page keeps its layout
	layOut bool // and is to be laid anew afterwards
}

func newMarker(h *host.Host, s *settings.Settings) *marker {
	m := &marker{Host: h, settings: s}
	m.saver = marking.NewSaver(h.Store, marking.SaverEvents{
		Soon: h.Soon, Fail: m.notSaved, Saved: func() { m.Notify(host.NotesSaved) },
	})
	notify := func(e host.PageEvent) func() { return func() { m.Notify(e) } }
	m.Board = marking.NewBoard(m.saver, marking.Acts{
		Look: m.look, SpotSize: func() int { return m.settings.SpotSize },
		Drawn:    func(layer *image.RGBA) { m.Mirror.SetOverlay(widgets.OverlayNotes, layer) },
		Selected: notify(host.NoteChanged), Measured: notify(host.MeasuredChanged), Words: notify(host.NoteWordsAsked),
		Changed: func() { m.Changed() },
		Barred:  func(why error) { m.Messages.Fail(wording.SayBarred(why)) },
		Pan:     func(by image.Point) { m.Mirror.PanBy(by) },
	})
	return m
}

// look is how the still lies in the mirror.
func (m *marker) look() marking.Look {
	size, fit := m.Mirror.Pixels(), m.Mirror.NextFit().Bounds
	return marking.Look{Flipped: m.settings.Flipped, View: notes.View{
		Origin: ink.Pt(float64(fit.Min.X), float64(fit.Min.Y)),
		Scale:  math.Max(float64(size.X)/math.Max(float64(fit.Dx()), 1), 1e-3),
		Pixel:  float64(m.Mirror.Scale()),
		Inside: image.Rectangle{Max: size},
	}}
}

// onPage reports whether the notes are shown: they are marked there only.
func (m *marker) onPage() bool { return m.onNotes && m.settings.Page == settings.PageStills }

// open takes a still that was opened, with the tool that it was kept for, if it was.
func (m *marker) open(s *stills.Still) {
	m.Open(s)
	if m.waiting != 0 {
		m.SetTool(m.waiting)
		m.waiting = 0
	}
	if s.Trouble != nil {
		m.Messages.Fail(wording.Explain("show the notes of this still", s.Trouble))
	}
}

// writes begins the words of a note that was drawn just now with a letter, which is no key then.
func (m *marker) writes(r rune) bool {
	if !m.onPage() || !m.Fresh() || !unicode.IsLetter(r) {
		return false
	}
	m.Notify(host.NoteWordsAsked)
	if to := m.Window.Canvas().Focused(); to != nil && to != fyne.Focusable(m.Mirror) {
		to.TypedRune(r)
	}
	return true
}

// leave closes the still, if one is open: another source is watched.
func (m *marker) leave() {
	m.Close()
	m.lift()
	m.showPen()
}

// leavePage is for the moment when the page of stills is left.
func (m *marker) leavePage() {
	m.Leave()
	m.lift()
	m.Mirror.SetPen(nil)
	m.showPair()
}

// lost says what would be lost if the program ended now.
func (m *marker) lost(why error) string {
	var of []stills.Meta
	for _, u := range m.saver.Unsaved() {
		of = append(of, u.Still.Meta)
	}
	return wording.SayLost(of, why)
}

// keepElsewhere writes the stills whose marks can't be saved, with these, into another folder,
// each as a folder that can be moved to the others later. Any goroutine may call it.
func (m *marker) keepElsewhere(folder string) error {
	to := stills.New(stills.Folders{Data: folder})
	for _, u := range m.saver.Unsaved() {
		if _, err := to.Keep(u.Still.Picture, u.Still.Meta, u.Notes); err != nil {
			return err
		}
	}
	return nil
}

// notSaved says for as long as it is so that what is marked on a still is not saved, and why;
// nil says that it is.
func (m *marker) notSaved(err error) {
	if err == nil {
		m.Messages.Clear(host.MessageUnsaved)
		return
	}
	fyne.LogError("saving notes", err)
	m.Messages.Offer(host.MessageUnsaved, wording.SayUnsaved(err), host.MessageAct{Name: language.Say("Try again"), Do: m.saver.Again})
}

// Down and Up are the mirror's pointer as a pen: the picture must not move away from under it.
func (m *marker) Down(x, y float64, even bool) {
	m.down = true
	m.Board.Down(x, y, even)
}

func (m *marker) Up() {
	m.Board.Up()
	m.lift()
}

// waits reports whether the page keeps its layout for now; it is laid anew when the pen is
// lifted.
func (m *marker) waits() bool {
	m.layOut = m.layOut || m.down
	return m.down
}

// lift lays the page anew, if that had to wait for the pen.
func (m *marker) lift() {
	late := m.layOut
	m.down, m.layOut = false, false
	if late {
		m.LayOutPage()
	}
}

// showPen gives the pointer over the mirror to the pen while a still is open on its page.
func (m *marker) showPen() {
	m.Notify(host.ToolChanged)
	if !m.onPage() || m.Still() == nil {
		m.Mirror.SetPen(nil)
		m.showPair()
		return
	}
	m.Mirror.SetPen(m)
	m.showPair()
	m.Changed()
}

// toolName is the name of the tool in use.
func (m *marker) toolName() string { return marking.Tools()[m.Tool()].Name }

// setTool takes another tool. If no still is open, the picture is kept as one first: there
// is nothing else to draw on.
func (m *marker) setTool(i int) {
	if m.needStill() {
		m.waiting = i
		return
	}
	m.SetTool(i)
	m.showPen()
	m.FocusMirror()
}

// leaveTool goes back to selecting, and reports whether another tool was in use.
func (m *marker) leaveTool() bool {
	if m.Still() == nil || m.Tool() == 0 {
		return false
	}
	m.setTool(0)
	return true
}

// undo and redo walk through what was done to the notes; they report whether the notes are
// what undo is for now.
func (m *marker) undo() bool {
	return m.walk(m.Undo, language.Say("Nothing to undo on this still"))
}

func (m *marker) redo() bool {
	return m.walk(m.Redo, language.Say("Nothing to redo on this still"))
}

func (m *marker) walk(step func() bool, nothing string) bool {
	if !m.onPage() || m.Still() == nil {
		return false
	}
	if !step() {
		m.Messages.Note(nothing)
	}
	return true
}
