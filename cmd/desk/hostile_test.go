//go:build unix

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"image/color"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"app.tonedesk/analysis"
	"app.tonedesk/cmd/desk/command"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// hostile are names that would steer a terminal, break a line, turn the order of letters
// round, be no text at all or bury the sentence that they stand in.
var hostile = []string{
	"a\x1b]0;owned\a.png", "a\nCan't b: c; d.\n.png", "\u202egnp.a\u2066.png", "\xff\xfe\x80.png", "\u009b31ma\u0085.png",
	"\r\t\v\x7f.png", strings.Repeat("ü", 100) + ".png", "\"; rm\u2028.png", "\U000e0001\ufeff.png",
}

// ran is what a run in this process said.
type ran struct {
	out, err string
	code     int
}

// within runs the program in this process, with standard input.
func within(input string, args ...string) ran {
	var out, fault bytes.Buffer
	code := run(args, command.Streams{In: strings.NewReader(input), Out: &out, Err: &fault})
	return ran{out.String(), fault.String(), code}
}

// tame fails where a text could steer a terminal.
func tame(t *testing.T, what, text string) {
	t.Helper()
	for _, r := range text {
		if r != '\n' && !unicode.IsPrint(r) {
			t.Errorf("%s: it says %U in %q", what, r, text)
			return
		}
	}
	if !utf8.ValidString(text) {
		t.Errorf("%s: it says %q", what, text)
	}
}

// refused fails unless a run failed and each line of its standard error is one sentence in our
// words.
func (r ran) refused(t *testing.T, what string) {
	t.Helper()
	tame(t, what, r.out)
	tame(t, what, r.err)
	if r.code == 0 || !strings.HasSuffix(r.err, ".\n") {
		t.Errorf("%s: code %d, it says %q", what, r.code, r.err)
	}
	for line := range strings.Lines(r.err) {
		deed, _ := strings.CutPrefix(line, "Can't ")
		verb, _, _ := strings.Cut(deed, " ")
		if !slices.Contains(verbs, strings.TrimSuffix(verb, ":")) || !strings.HasSuffix(line, ".\n") || !strings.Contains(line, ": ") || !strings.Contains(line, "; ") || len(line) > 4000 {
			t.Errorf("%s: not what, why and what to do: %q", what, line)
		}
		if strings.Contains(line, "the reason given is") {
			t.Errorf("%s: not in our words: %q", what, line)
		}
	}
}

// home gives the test a user's folders of its own, and none of a display.
func home(t *testing.T) string {
	dir := t.TempDir()
	for _, name := range []string{"DISPLAY", "WAYLAND_DISPLAY", "XDG_CACHE_HOME", "XDG_STATE_HOME"} {
		t.Setenv(name, "")
	}
	for _, name := range []string{"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME"} {
		t.Setenv(name, dir)
	}
	return dir
}

// must is for what makes a test's files.
func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// unreadable are the ways in which a file of some name can't be read as a picture.
func unreadable(t *testing.T, good []byte) map[string]func(path string) error {
	write := func(data []byte) func(string) error {
		return func(path string) error { return os.WriteFile(path, data, 0o600) }
	}
	return map[string]func(string) error{
		"missing":   func(string) error { return nil },
		"folder":    func(path string) error { return os.Mkdir(path, 0o700) },
		"pipe":      func(path string) error { return syscall.Mkfifo(path, 0o600) },
		"endless":   func(path string) error { return os.Symlink("/dev/zero", path) },
		"a loop":    func(path string) error { return os.Symlink(filepath.Base(path), path) },
		"dangling":  func(path string) error { return os.Symlink("none", path) },
		"empty":     write(nil),
		"text":      write([]byte("a text")),
		"cut short": write(good[:len(good)/2]),
		"damaged":   write(append(bytes.Clone(good[:40]), make([]byte, 60)...)),
		"huge":      write(claim(1<<30, 1<<30)),
		"a hole": func(path string) error {
			return errors.Join(write(nil)(path), os.Truncate(path, 1<<40))
		},
	}
}

// Each command and each way in which a file can't be read, with every hostile name, says one
// plain sentence.
func TestHostileNamesUnread(t *testing.T) {
	home(t)
	good := picture(t, "good.png", 12, 5, threeBars(120))
	data, err := os.ReadFile(good)
	must(t, err)
	for _, name := range hostile {
		for kind, make := range unreadable(t, data) {
			path := filepath.Join(t.TempDir(), name)
			if err := make(path); err != nil {
				if kind == "a hole" && errors.Is(err, syscall.EFBIG) {
					continue // the file system has none so large
				}
				t.Fatal(err)
			}
			for _, args := range [][]string{
				{"read", path}, {"read", "--target", path, good}, {"palette", path}, {"compare", good, path}, {"compare", path, path}, {"relight", path}, {"shade", "--as", path, "#fff"},
				{"sheet", path}, {path}, {"read", path + "/in"}, {"sheet", path + "/in"},
			} {
				within("", args...).refused(t, kind+": "+strings.Join(args, " "))
			}
		}
	}
}

// The same for files that can't be written: what is there stays.
func TestHostileNamesUnwritten(t *testing.T) {
	home(t)
	for _, name := range hostile {
		dir := t.TempDir()
		at := func(folder string) string { return filepath.Join(dir, folder, name) }
		const in = "in"
		for _, folder := range []string{in, "there", "folder", "pipe", "device", "dangling", "loop", "hard", "soft"} {
			must(t, os.Mkdir(filepath.Join(dir, folder), 0o700))
		}
		data, err := os.ReadFile(picture(t, "good.png", 12, 5, threeBars(120)))
		must(t, err, os.WriteFile(at(in), data, 0o600), os.WriteFile(at("there"), []byte("there"), 0o600), os.Mkdir(at("folder"), 0o700),
			syscall.Mkfifo(at("pipe"), 0o600), os.Symlink("/dev/null", at("device")), os.Symlink("none", at("dangling")),
			os.Symlink(at("loop"), at("loop")), os.Link(at(in), at("hard")), os.Symlink(at(in), at("soft")))
		for _, folder := range []string{in, "folder", "pipe", "device", "dangling", "loop", "hard", "soft", "none", "there/" + name} {
			for _, args := range [][]string{
				{"sheet", "-o", at(folder), "--force", at(in)}, {"sheet", "--picture", "-o", at(folder), "--force", at(in)},
				{"palette", "--png", at(folder), "--force", at(in)}, {"palette", "--css", at(folder), "--force", at(in)},
				{"--trace", at(folder), at(in)},
			} {
				within("", args...).refused(t, strings.Join(args, " "))
			}
		}
		for _, args := range [][]string{
			{"sheet", "-o", at("there"), at(in)}, {"palette", "--png", at("there"), at(in)}, {"--trace", at("there"), at(in)}, {"--trace", at("there")},
			{"palette", "--png", at("new"), "--css", at("new"), "--force", at(in)},
			{"palette", "--png", filepath.Join(dir, "new"), "--css", filepath.Join(dir, "in", "..", "new"), "--force", at(in)},
			{"sheet", "-o", at("there") + ".gif", at(in)}, {"sheet", "--picture", "-o", at("there") + ".pdf", at(in)},
		} {
			within("", args...).refused(t, strings.Join(args, " "))
		}
		now, err := os.ReadFile(at(in))
		there, errThere := os.ReadFile(at("there"))
		if must(t, err, errThere); !bytes.Equal(now, data) || string(there) != "there" {
			t.Errorf("%q: written over: %q", name, there)
		}
	}
}

// The same for texts that are no names of files.
func TestHostileArguments(t *testing.T) {
	home(t)
	good := picture(t, "good.png", 12, 5, threeBars(120))
	transparent := picture(t, "clear.png", 12, 5, func(int, int) color.NRGBA { return color.NRGBA{} })
	for _, text := range append(slices.Clone(hostile), "") {
		for _, args := range [][]string{
			{"spot", text}, {"compare", text, "#fff"}, {"match", "#fff", text}, {"shade", text}, {"shade", "--judge", text, "#fff"},
			{"spot", "--" + text}, {"read", "--json=" + text, good}, {"read", "--spots", text, good}, {"read", "--size", text, good},
			{"read", "--groups", text, good}, {"read", "--ground", text, good}, {"compare", "--tolerance", text, "#fff", "#000"},
			{"shade", "--shadow", text, "#fff"}, {"shade", "--shadow-hue", text, "#fff"}, {"shade", "--hue-shift", text, "#fff"}, {"shade", "--gain", text, "#fff"},
			{"shade", "--chroma", text, "#fff"}, {"shade", "--equal", text, "#fff"}, {"palette", "--ground", text, good},
			{"sheet", "--page", text, good}, {"stills", text}, {text, text}, {"--x" + text, good}, {text + "/" + text},
		} {
			within("", args...).refused(t, strings.Join(args, " "))
		}
		for _, list := range []string{"spot", "shade", "compare", "match"} {
			within("x"+text+"\n", list, "-").refused(t, list+" - "+text)
		}
	}
	for _, args := range [][]string{
		{"read"}, {"read", "-"}, {"palette"}, {"palette", "-"}, {"palette", "--force", good}, {"palette", "--png", "a", good, good}, {"palette", "--png", "-", good},
		{"palette", "--png", filepath.Join(t.TempDir(), "x"), transparent}, {"sheet", transparent}, {"read", "--spots", "99,1", good}, {"read", "--spots", "1,1", transparent},
		{"sheet"}, {"sheet", good, good}, {"compare", good}, {"compare", good, good, good}, {"compare", "--tolerance", "2", good, good}, {"compare", "#fff", good}, {"spot"}, {"spot", "-", "#fff"}, {"compare"}, {"compare", "#fff"}, {"shade"}, {"match", "#fff"},
		{"shade", "--judge", "#fff", "#000"}, {"read", "--spots"}, {"--trace"}, {good},
	} {
		r := within("", args...)
		if args[0] == good || args[0] == "--trace" { // no display: said in words of its own
			tame(t, args[0], r.err)
			continue
		}
		r.refused(t, strings.Join(args, " "))
	}
	within(strings.Repeat("x", 5000)+"\n", "spot", "-").refused(t, "a long line")
}

// What is reported of files and stills with hostile names steers no terminal either, and JSON
// tells the name as it is.
func TestHostileReports(t *testing.T) {
	data := home(t)
	t.Chdir(t.TempDir()) // for the sheet that is written where the command runs
	store := stills.New(stills.Folders{Data: filepath.Join(data, "tonedesk", "stills")})
	for i, name := range hostile {
		path := picture(t, name, 12, 5, threeBars(120))
		for _, args := range [][]string{{"read", path}, {"palette", path}, {"compare", path, path}, {"sheet", "--picture", path}} {
			r := within("", args...)
			if tame(t, args[0], r.out); r.err != "" || r.code != 0 {
				t.Errorf("%s %q: %d, %s", args[0], name, r.code, r.err)
			}
		}
		for _, args := range [][]string{{"read", "--json", path}, {"palette", "--json", path}, {"compare", "--json", path, path}} {
			r := within("", args...)
			tame(t, args[0]+" as JSON", r.out)
			var said struct {
				File   string
				Before string `json:"picture_before"`
			}
			if err := json.Unmarshal([]byte(r.out), &said); err != nil || said.File+said.Before != strings.ToValidUTF8(path, "\ufffd") && utf8.ValidString(path) {
				t.Errorf("%s %q: %v, %q", args[0], name, err, said.File+said.Before)
			}
		}
		p := analysis.Pixels{Pix: bytes.Repeat([]byte{90, 90, 90, 255}, 4), Stride: 8, Width: 2, Height: 2}
		_, err := store.Keep(p, stills.Meta{Name: name, Time: time.Date(2026, 1, 2, 3, 4, i, 0, time.UTC), Source: stills.Source{Kind: name, Path: name}, Display: name}, nil)
		must(t, err)
	}
	for _, args := range [][]string{{"stills"}, {"stills", "--json"}} {
		r := within("", args...)
		if tame(t, strings.Join(args, " "), r.out); r.err != "" || strings.Count(r.out, "\n") != len(hostile) {
			t.Errorf("%v: %s%s", args, r.out, r.err)
		}
	}
}

// Without any folder of the user's own, what needs none works, and the rest says so.
func TestWithoutHome(t *testing.T) {
	home(t)
	for _, name := range []string{"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME"} {
		t.Setenv(name, "")
	}
	path := picture(t, "good.png", 12, 5, threeBars(120))
	for _, args := range [][]string{
		{"compare", path, path}, {"sheet", "-o", filepath.Join(t.TempDir(), "a.pdf"), path}, {"read", path}, {"palette", path}, {"spot", "#fff"},
	} {
		if r := within("", args...); r.code != 0 || r.err != "" {
			t.Errorf("%v: %d, %s", args, r.code, r.err)
		}
	}
	for _, args := range [][]string{{"stills"}, {"sheet", "a still"}, {"compare", path, "a still"}} {
		if r := within("", args...); !strings.Contains(r.err, "set HOME") || strings.Count(r.err, "\n") != 1 {
			t.Errorf("%v: %d, %s", args, r.code, r.err)
		} else {
			r.refused(t, args[0])
		}
	}
}

// Notes and a lock that are no files hold nobody up: the still is read, and what was wrong is
// said.
func TestOddFilesOfAStill(t *testing.T) {
	data := home(t)
	folder := filepath.Join(data, "tonedesk", "stills")
	p := analysis.Pixels{Pix: bytes.Repeat([]byte{90, 90, 90, 255}, 4), Stride: 8, Width: 2, Height: 2}
	store := stills.New(stills.Folders{Data: folder})
	id, err := store.Keep(p, stills.Meta{Time: time.Now()}, nil)
	must(t, err, syscall.Mkfifo(filepath.Join(folder, id, "notes.json"), 0o600))
	r := within("", "stills")
	r.refused(t, "notes that are a pipe")
	if !strings.Contains(r.out, id) || !strings.Contains(r.err, "notes are damaged") {
		t.Errorf("it says %s%s", r.out, r.err)
	}
	lock := filepath.Join(folder, "lock")
	_ = os.Remove(lock)
	must(t, syscall.Mkfifo(lock, 0o600))
	if _, err := store.Keep(p, stills.Meta{Time: time.Now()}, nil); err != nil {
		t.Errorf("keeping needs no lock: %v", err)
	}
	said := wording.ExplainWriting("rename the still", store.Rename(id, "a"))
	if !strings.Contains(said, "take away what is called lock") {
		t.Errorf("it says %s", said)
	}
}

// A still that is damaged was moved, or not, and the sentence tells which; what is in its
// place need not even be a file.
func TestDamagedStillIsFound(t *testing.T) {
	for name, damage := range map[string]func(path string) error{
		"text":    func(path string) error { return os.WriteFile(path, []byte("{"), 0o600) },
		"pipe":    func(path string) error { return errors.Join(os.Remove(path), syscall.Mkfifo(path, 0o600)) },
		"endless": func(path string) error { return errors.Join(os.Remove(path), os.Symlink("/dev/zero", path)) },
		"folder":  func(path string) error { return errors.Join(os.Remove(path), os.Mkdir(path, 0o700)) },
		"a hole":  func(path string) error { return os.Truncate(path, 1<<40) },
	} {
		for _, part := range []string{"still.json", "picture.png"} {
			data := home(t)
			folder := filepath.Join(data, "tonedesk", "stills")
			store := stills.New(stills.Folders{Data: folder})
			p := analysis.Pixels{Pix: bytes.Repeat([]byte{90, 90, 90, 255}, 4), Stride: 8, Width: 2, Height: 2}
			id, err := store.Keep(p, stills.Meta{Time: time.Now()}, nil)
			must(t, err)
			if err := damage(filepath.Join(folder, id, part)); errors.Is(err, syscall.EFBIG) {
				continue
			} else {
				must(t, err)
			}
			r := within("", "sheet", "-o", filepath.Join(data, "a.pdf"), id)
			r.refused(t, name)
			aside := filepath.Join(folder, "damaged", id)
			if _, err := os.Lstat(filepath.Join(aside, part)); err != nil || !strings.Contains(r.err, aside) {
				t.Errorf("%s as %s: %v, it says %s", name, part, err, r.err)
			}
		}
	}
}
