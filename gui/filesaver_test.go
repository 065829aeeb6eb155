package gui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
)

// askedFile opens the form for a file in a folder. The paths that it hands on are written to
// the returned list, and nowhere else.
func askedFile(t *testing.T, d *Desk, folder string) (f *saveForm, written *[]string) {
	t.Helper()
	d.saves.folder, written = folder, new([]string)
	write := func(path string) { *written = append(*written, path) }
	f = d.saves.ask("save the colours", "colours", []fileFormat{{"Picture (PNG)", ".png", "", write}, {"Style sheet (CSS)", ".css", "-style", write}})
	if d.Window.Canvas().Focused() != fyne.Focusable(f.Entry) {
		t.Fatal("the name is not at hand")
	}
	return f, written
}

// enter types a name over the one that is offered, and Enter.
func (f *saveForm) enter(name string) {
	test.Type(f, name)
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// The format that is chosen sets the ending, whatever is typed.
func TestSaveFormNames(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	folder := t.TempDir()
	for typed, want := range map[string][2]string{
		"tones": {"tones.png", "tones.css"}, "tones.css": {"tones.css.png", "tones.css"}, "Tones.CSS": {"Tones.CSS.png", "Tones.CSS"},
		" tones.png ": {"tones.png", "tones.png.css"}, "tones.odd": {"tones.odd.png", "tones.odd.css"},
	} {
		for i := range want {
			f, written := askedFile(t, d, folder)
			f.format.Pick(i)
			f.enter(typed)
			if len(*written) != 1 || (*written)[0] != filepath.Join(folder, want[i]) {
				t.Errorf("%q as %d is written to %q, want %q", typed, i, *written, want[i])
			}
		}
	}
	if files, err := os.ReadDir(folder); err != nil || len(files) > 0 {
		t.Errorf("choosing a name makes %v, %v", files, err)
	}
}

// The name that is offered goes with the format, until the painter has typed another.
func TestSaveFormOffersNames(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	f, _ := askedFile(t, d, t.TempDir())
	f.format.Pick(1)
	if f.Text != "colours-style" {
		t.Errorf("as a style sheet it offers %q", f.Text)
	}
	f.format.Pick(0)
	f.SetText("mine")
	f.format.Pick(1)
	if f.Text != "mine" {
		t.Errorf("typed by hand, it offers %q", f.Text)
	}
}

// Without a name nothing is written, and neither after Esc or Cancel.
func TestSaveFormGivesUp(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	f, written := askedFile(t, d, t.TempDir())
	f.enter(" ")
	if d.Window.Canvas().Focused() != fyne.Focusable(f.Entry) {
		t.Error("the form is gone, and nothing is named")
	}
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	_, again := askedFile(t, d, t.TempDir())
	test.Tap(buttonNamed(t, d, "Cancel"))
	if top := d.Window.Canvas().Overlays().Top(); top != nil || len(*written)+len(*again) > 0 {
		t.Errorf("given up, it shows %v and writes %q, %q", top, *written, *again)
	}
}

// A file that is there is written over only if the painter says so, and by nobody else.
func TestSaveFormAsksBeforeWritingOver(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	folder := t.TempDir()
	path := filepath.Join(folder, "old.png")
	if err := os.WriteFile(path, []byte("kept"), 0o600); err != nil {
		t.Fatal(err)
	}
	f, written := askedFile(t, d, folder)
	f.enter("old")
	test.Tap(buttonNamed(t, d, "Back"))
	if len(*written) > 0 || d.Window.Canvas().Focused() != fyne.Focusable(f.Entry) || f.Text != "old" {
		t.Errorf("not agreed to, it writes %q and asks for %q", *written, f.Text)
	}
	test.Tap(buttonNamed(t, d, "Save"))
	test.Tap(buttonNamed(t, d, "Write over"))
	if len(*written) != 1 || (*written)[0] != path {
		t.Errorf("agreed to, it writes %q", *written)
	}
	if b, err := os.ReadFile(path); string(b) != "kept" {
		t.Errorf("the file that was there holds %q, %v", b, err)
	}
}

// The picture that is read, and the target, by whatever name, are never written over; nor
// is a folder.
func TestSaveFormRefuses(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	dir := t.TempDir()
	path := func(name string) string { return filepath.Join(dir, name) }
	for _, name := range []string{"picture.png", "target.png"} {
		if err := os.WriteFile(path(name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Symlink(path("picture.png"), path("link.png")); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(path("folder.png"), 0o700); err != nil {
		t.Fatal(err)
	}
	d.setup.Source = setup.Source{Kind: setup.SourcePicture, Path: path("picture.png")}
	d.setup.Target = &setup.Target{Path: path("target.png")}
	for name, want := range map[string]string{
		"picture": "it is the picture that is read", "link": "it is the picture that is read", "target": "it is the picture that is read",
		"folder": "there is a folder of that name",
	} {
		f, written := askedFile(t, d, dir)
		f.enter(name)
		if got := d.Messages.Said[host.MessageError]; !strings.Contains(got, want) || len(*written) > 0 {
			t.Errorf("%s: it says %q and writes %q", name, got, *written)
		}
		d.Messages.Clear(host.MessageError)
	}
}

// The folder is the user's own at first, then the one that was chosen last.
func TestSaveFormFolder(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	studies := filepath.Join(home, "studies")
	if err := os.Mkdir(studies, 0o700); err != nil {
		t.Fatal(err)
	}
	d := newTestDesk(t, settings.Defaults())
	f, written := askedFile(t, d, "")
	if f.folder.Text != home {
		t.Errorf("it begins in %q, want %q", f.folder.Text, home)
	}
	test.Tap(buttonNamed(t, d, "Folder…"))
	chooseListed(t, d, 0) // the only one
	test.Tap(buttonNamed(t, d, "Take this folder"))
	if f.folder.Text != studies {
		t.Errorf("it goes on in %q, want %q", f.folder.Text, studies)
	}
	f.enter("tones")
	if next, _ := askedFile(t, d, d.saves.folder); next.folder.Text != studies || (*written)[0] != filepath.Join(studies, "tones.png") {
		t.Errorf("it writes %q, and the next begins in %q", *written, next.folder.Text)
	}
}

// In a small window all of the form is seen, however deep the folder lies.
func TestSaveFormFits(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	c := d.Window.Canvas()
	d.Window.Resize(fyne.NewSize(320, 600))
	askedFile(t, d, strings.Repeat("/studies of hands", 12))
	parts := 0
	for _, o := range test.LaidOutObjects(c.Overlays().Top()) {
		switch o.(type) {
		case *widgets.Entry, *widget.Button, *widget.Label, *widgets.Picklist, *widgets.Button:
		default:
			continue
		}
		if o.Size().IsZero() {
			continue // the heading, to which the toolkit gives no size
		}
		parts++
		at, least := d.App.Driver().AbsolutePositionForObject(o), o.MinSize()
		end := at.Add(o.Size())
		if o.Size().Height < least.Height || o.Size().Width < least.Width || at.X < 0 || at.Y < 0 || end.X > c.Size().Width || end.Y > c.Size().Height {
			t.Errorf("%T of %v at %v asks for %v, in a window of %v", o, o.Size(), at, least, c.Size())
		}
	}
	if parts != 6 { // the name, its format, the folder, three buttons
		t.Errorf("%d parts are seen", parts)
	}
}

// chooseListed taps an entry of the dialog that lists files.
func chooseListed(t *testing.T, d *Desk, i int) {
	t.Helper()
	for _, o := range test.LaidOutObjects(d.Window.Canvas().Overlays().Top()) {
		if list, ok := o.(*widgets.NoteList); ok {
			list.Select(i)
			return
		}
	}
	t.Fatal("no files are listed")
}

// A picture is found through folders, up and down, and taken by one tap; the next dialog begins
// where it was. Folders that can't be listed are said to be so.
func TestChoosesPictures(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	deep := filepath.Join(home, "studies", "week")
	if err := os.MkdirAll(deep, 0o700); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{filepath.Join(deep, "first.png"), filepath.Join(deep, "second.png"), filepath.Join(deep, "words.txt")} {
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	d := newTestDesk(t, settings.Defaults())
	var taken []string
	ask := func() { d.AskPictureFile("open the picture", func(path string) { taken = append(taken, path) }) }
	ask()
	if d.Asks() != "Open the picture" {
		t.Fatalf("it asks %q", d.Asks())
	}
	chooseListed(t, d, 0)
	chooseListed(t, d, 0)
	test.Tap(buttonNamed(t, d, "Up"))
	chooseListed(t, d, 0)
	chooseListed(t, d, 1)
	ask()
	chooseListed(t, d, 0)
	if want := []string{filepath.Join(deep, "second.png"), filepath.Join(deep, "first.png")}; !slices.Equal(taken, want) || d.Asks() != "" {
		t.Errorf("taken are %q, want %q; it asks %q", taken, want, d.Asks())
	}
	if err := os.RemoveAll(deep); err != nil {
		t.Fatal(err)
	}
	ask()
	chooseListed(t, d, 0) // the words that it can't be listed
	test.Tap(buttonNamed(t, d, "Up"))
	chooseListed(t, d, 0) // nothing here
	test.Tap(buttonNamed(t, d, "Cancel"))
	if len(taken) != 2 || d.Asks() != "" {
		t.Errorf("taken are %q; it asks %q", taken, d.Asks())
	}
}

// Text that grows while a dialog lists files does no harm: the toolkit's broke down under that.
func TestTextGrowsUnderAFileDialog(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	if err := os.WriteFile(filepath.Join(home, "a picture with a name that takes some lines.png"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	d := newTestDesk(t, settings.Defaults())
	askPicture(d)
	was := d.settings
	d.settings.TextPercent = 200
	d.chosen(was)
	chooseListed(t, d, 0)
	if d.Asks() != "" {
		t.Error("the picture wasn't taken")
	}
}
