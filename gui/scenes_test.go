package gui

import (
	"fmt"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/capture"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/keeping"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
)

// scene is something that the window can show: every page, part, menu and panel, and what is said.
type scene struct {
	name string
	show func(t *testing.T, d *Desk)
}

// spotsOn sets so many spots on the form, and shows the picture until all of it was read.
func spotsOn(t *testing.T, d *Desk, n int) {
	t.Helper()
	d.see(t, form())
	for i, at := range []image.Point{{150, 150}, {270, 150}, {30, 30}, {370, 280}}[:n] {
		mod := fyne.KeyModifier(0)
		if i > 1 {
			mod = fyne.KeyModifierShift
		}
		press(d.Mirror, at, mod)
	}
	d.see(t, form())
	d.see(t, form())
}

// onPage opens a page over the form and two spots.
func onPage(t *testing.T, d *Desk, name string) {
	t.Helper()
	d.openPage(pageIndex(name))
	spotsOn(t, d, 2)
	if d.page().wantsFamilies() {
		d.searchNow(t)
		d.see(t, form())
	}
}

// onStills opens a part of the page of stills, with a still that was kept and is watched.
func onStills(t *testing.T, d *Desk, part int) *stillsPage {
	t.Helper()
	p := openNewStill(t, d, form())
	if part == partCompare { // nothing is compared with itself
		d.stills.back()
		d.see(t, form())
	}
	p.parts.Choose(part)
	d.see(t, form())
	d.see(t, form())
	return p
}

// scenes lists them.
func scenes() []scene {
	list := []scene{
		{"first start", func(t *testing.T, d *Desk) { nothingChosen(t, d, nil) }},
		{"no spots", func(t *testing.T, d *Desk) { spotsOn(t, d, 0) }},
		{"a pair", func(t *testing.T, d *Desk) { spotsOn(t, d, 2) }},
		{"a table", func(t *testing.T, d *Desk) { spotsOn(t, d, 4) }},
		{"structure", func(t *testing.T, d *Desk) { onPage(t, d, settings.PageStructure) }},
		{"colours", func(t *testing.T, d *Desk) { onPage(t, d, settings.PageColours) }},
		{"colours adjusted", func(t *testing.T, d *Desk) {
			onPage(t, d, settings.PageColours)
			d.page().(*coloursPage).proposals.Adjust.Tapped(nil)
		}},
		{"kept", func(t *testing.T, d *Desk) {
			p := onStills(t, d, partKept)
			p.kept.Tapped(0)
		}},
		{"asked below chips", func(t *testing.T, d *Desk) {
			spotsOn(t, d, 2)
			d.setup = d.setup.AllMoved(true)
			d.frozen = true
			d.standing.show(d)
			d.ask(askForm)
		}},
		{"trash", func(t *testing.T, d *Desk) {
			p := onStills(t, d, partKept)
			d.stills.delete(p.kept.Shown[0].ID)
			p.kept.Which.Choose(keeping.ListTrash.String())
			d.see(t, form())
		}},
		{"exporting", func(t *testing.T, d *Desk) {
			p := onStills(t, d, partKept)
			d.stills.exporter.ask(p.kept.Shown[0].ID)
		}},
		{"list of lists", func(t *testing.T, d *Desk) { onStills(t, d, partKept).kept.Which.Tapped(nil) }},
		{"what is left out", func(t *testing.T, d *Desk) { spotsOn(t, d, 2); openCounted(d, d.parts.message.Below()) }},
		{"notes", func(t *testing.T, d *Desk) {
			onStills(t, d, partNotes)
			d.marker.setTool(4)
			drag(d.Mirror, image.Pt(60, 200), image.Pt(340, 280))
			d.see(t, form())
		}},
		{"compare", func(t *testing.T, d *Desk) { onStills(t, d, partCompare) }},
		{"source menu", func(t *testing.T, d *Desk) { spotsOn(t, d, 2); openSourceMenu(d, d.parts.bar.Source.Below()) }},
		{"view menu", func(t *testing.T, d *Desk) {
			spotsOn(t, d, 2)
			d.parts.views.Open(d.parts.bar.View.Below())
			d.see(t, form())
		}},
		{"menu", func(t *testing.T, d *Desk) { spotsOn(t, d, 2); openMenu(d, d.parts.bar.More.Below()) }},
		{"keys", func(t *testing.T, d *Desk) { spotsOn(t, d, 2); d.openPanel(panelKeys) }},
		{"saving", func(t *testing.T, d *Desk) { d.saves.askSwatches(nil, nil, "colours") }},
		{"opening", func(t *testing.T, d *Desk) {
			home := t.TempDir()
			t.Setenv("HOME", home)
			for name, folder := range map[string]bool{"studies": true, "A form.png": false} {
				write := func() error { return os.WriteFile(filepath.Join(home, name), nil, 0o600) }
				if folder {
					write = func() error { return os.Mkdir(filepath.Join(home, name), 0o700) }
				}
				if err := write(); err != nil {
					t.Fatal(err)
				}
			}
			askPicture(d)
		}},
		{"a folder", func(t *testing.T, d *Desk) { d.AskFolder(t.TempDir(), func(string) {}) }},
		{"a question", func(t *testing.T, d *Desk) {
			d.Question("Go?", canvas.NewText("", nil), nil, host.Choice{Name: "Stay"}, host.Choice{Name: "Go"})
		}},
		{"an offer", func(t *testing.T, d *Desk) {
			spotsOn(t, d, 2)
			d.setup = d.setup.AllMoved(true)
			d.frozen = true
			d.standing.show(d)
			act := func(name string) host.MessageAct { return host.MessageAct{Name: name, Do: func() {}} }
			d.Messages.Ask(host.MessageWorkspace, "A plain frame, 29 % of the region. Leave it out?", act("Leave it out"), act("Count it"))
			d.Messages.NoteWith("Kept as a still", act("Name it"))
			d.showSentence()
		}},
		{"an error", func(t *testing.T, d *Desk) {
			spotsOn(t, d, 2)
			d.setStatus(capture.Status{State: capture.Gone, Err: capture.ErrGone})
			d.Messages.Fail("Can't write the file: it is a folder; choose a file.")
		}},
	}
	for i, part := range []string{"window", "measuring", "rules", "stills", "display"} {
		list = append(list, scene{"settings, " + part, func(t *testing.T, d *Desk) {
			spotsOn(t, d, 2)
			d.openPanel(panelSettings)
			d.parts.sheet.Tabs().Choose(i)
		}})
	}
	for i, of := range []string{"light", "lost edges", "focus", "a series"} {
		list = append(list, scene{"settings, rules for " + of, func(t *testing.T, d *Desk) {
			spotsOn(t, d, 2)
			d.openPanel(panelSettings)
			chooseRules(d, 1+i)
		}})
	}
	return list
}

// chooseRules shows the settings' rules for what their list has after so many others.
func chooseRules(d *Desk, i int) {
	d.parts.sheet.Tabs().Choose(2)
	d.parts.sheet.Cells()[0].Part.(*widgets.Picklist).Pick(i)
}

// sceneNamed returns the scene of a name.
func sceneNamed(t *testing.T, name string) scene {
	t.Helper()
	for _, of := range scenes() {
		if of.name == name {
			return of
		}
	}
	t.Fatalf("no scene is named %q", name)
	return scene{}
}

// inScene shows a scene in a window of its own.
func inScene(t *testing.T, s settings.Settings, of scene) *Desk {
	t.Helper()
	d := newTestDeskOn(t, s, stills.New(stills.Folders{Data: t.TempDir(), Cache: t.TempDir()}))
	of.show(t, d)
	d.Mirror.MouseOut()
	d.layOut()
	return d
}

// part is something that is drawn: where it lies in the window, what of that is seen, and the widgets
// that it is in, the innermost last.
type part struct {
	object fyne.CanvasObject
	box    box
	clip   box
	in     []fyne.Widget
}

// box is a part of the window, in Fyne units.
type box struct{ left, top, right, bottom float32 }

func (b box) meet(c box) box {
	return box{max(b.left, c.left), max(b.top, c.top), min(b.right, c.right), min(b.bottom, c.bottom)}
}

func (b box) empty() bool { return b.right <= b.left || b.bottom <= b.top }

func boxAt(at fyne.Position, size fyne.Size) box {
	return box{at.X, at.Y, at.X + size.Width, at.Y + size.Height}
}

// named says what a part is and where, for a person.
func (p part) named() string {
	var names []string
	for _, w := range p.in {
		names = append(names, strings.TrimPrefix(fmt.Sprintf("%T", w), "*"))
	}
	return fmt.Sprintf("%s > %T at %g, %g, %g × %g", strings.Join(names, " > "), p.object, p.box.left, p.box.top, p.box.right-p.box.left, p.box.bottom-p.box.top)
}

// within reports whether a part lies in a widget whose type has one of these names.
func (p part) within(names ...string) bool {
	for _, w := range p.in {
		for _, name := range names {
			if strings.HasSuffix(fmt.Sprintf("%T", w), "."+name) {
				return true
			}
		}
	}
	return false
}

// drawnParts lists all that the window shows, from below: the window's parts, then what lies over it.
func (d *Desk) drawnParts() (parts []part) {
	c := d.Window.Canvas()
	all := boxAt(fyne.Position{}, c.Size())
	var look func(o fyne.CanvasObject, from fyne.Position, clip box, in []fyne.Widget)
	look = func(o fyne.CanvasObject, from fyne.Position, clip box, in []fyne.Widget) {
		at := from.Add(o.Position())
		b := boxAt(at, o.Size())
		if !o.Visible() {
			return
		}
		switch w := o.(type) {
		case *fyne.Container:
			for _, inside := range w.Objects {
				look(inside, at, clip, in)
			}
			return
		case fyne.Widget:
			if _, scrolls := o.(*container.Scroll); scrolls {
				clip = clip.meet(b)
			}
			parts = append(parts, part{o, b, clip, in})
			in = append(in[:len(in):len(in)], w)
			for _, inside := range test.WidgetRenderer(w).Objects() {
				look(inside, at, clip, in)
			}
		default:
			parts = append(parts, part{o, b, clip, in})
		}
	}
	look(d.Window.Content(), fyne.Position{}, all, nil)
	for _, o := range c.Overlays().List() {
		look(o, fyne.Position{}, all, nil)
	}
	return parts
}

// windows are the sizes in which everything is looked at.
func windows() []settings.Settings {
	var list []settings.Settings
	for _, size := range []fyne.Size{{Width: 380, Height: 760}, {Width: 320, Height: 480}} {
		for _, percent := range []int{100, 150, 200} {
			s := settings.Defaults()
			s.Width, s.Height, s.TextPercent = size.Width, size.Height, percent
			list = append(list, s)
		}
	}
	return list
}

// hueless reports whether a colour is a grey.
func hueless(c color.Color) bool {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	return n.R == n.G && n.G == n.B
}

// All that the window shows, on every ground: no hue but the picture's and the swatches', and text that
// stands out.
func TestLookOfAllScenes(t *testing.T) {
	lawtest.SkipRaced(t)
	for _, ground := range settings.Themes() {
		for _, of := range scenes() {
			t.Run(fmt.Sprintf("%s, %s", ground, of.name), func(t *testing.T) {
				s := windows()[0]
				s.Theme = ground
				d := inScene(t, s, of)
				checkHues(t, d)
				checkContrast(t, d)
			})
		}
	}
}
