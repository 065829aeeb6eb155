package main

import (
	"bytes"
	"image/color"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"app.tonedesk/cmd/desk/command"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// A command that breaks down says so in one sentence; its stack is kept elsewhere.
func TestCommandBreaksDown(t *testing.T) {
	var said bytes.Buffer
	kept := ""
	var none []int
	code := runCommand("sheet", func() int { return none[0] }, command.Streams{Err: &said}, func(message string) { kept += message })
	e := desktest.Ended{Err: said.String(), Code: code}
	if e.PlainErrors(t, 1); code != 1 || !strings.Contains(kept, "index out of range") || !strings.Contains(kept, "breakdown_linux_test.go") {
		t.Errorf("code %d, kept %q", code, kept)
	}
	if code := runCommand("sheet", func() int { return 2 }, command.Streams{}, nil); code != 2 {
		t.Errorf("a command that ends itself has the code %d", code)
	}
}

// A command that is asked to end while it writes leaves nothing beside what was there.
func TestEndedWhileWriting(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "study.ora")
	path := picture(t, "study.png", 1500, 1500, func(x, y int) color.NRGBA {
		n := uint32(y*1500+x) * 2654435761
		return color.NRGBA{uint8(n >> 24), uint8(n >> 16), uint8(n >> 8), 255}
	})
	for signal, args := range map[syscall.Signal][]string{syscall.SIGTERM: nil, syscall.SIGINT: {"--force"}, syscall.SIGHUP: {"--force"}} {
		if len(args) > 0 {
			if err := (files.To{Path: out, Over: true}).Write(files.Bytes([]byte("old"))); err != nil {
				t.Fatal(err)
			}
		}
		cmd := exec.Command(desktest.Program(t), append(args, []string{"-o", out, path}...)...)
		cmd.Args = append([]string{cmd.Args[0], "sheet"}, cmd.Args[1:]...)
		cmd.Env = []string{"HOME=" + t.TempDir()}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		for deadline := time.Now().Add(30 * time.Second); !writing(dir); time.Sleep(time.Millisecond) {
			if time.Now().After(deadline) {
				t.Fatal("nothing is written")
			}
		}
		_ = cmd.Process.Signal(signal)
		_ = cmd.Wait()
		all, err := filepath.Glob(filepath.Join(dir, ".*"))
		if code := cmd.ProcessState.ExitCode(); code != 128+int(signal) || err != nil || len(all) != 0 {
			t.Errorf("%v: code %d, left are %v, %v", signal, code, all, err)
		}
		text, err := os.ReadFile(out)
		if len(args) > 0 && (err != nil || string(text) != "old") || len(args) == 0 && err == nil {
			t.Errorf("%v: %d bytes are there, %v", signal, len(text), err)
		}
		_ = os.Remove(out)
	}
}

// writing reports whether a file has begun to be written in a folder.
func writing(dir string) bool {
	for _, name := range []string{"study.ora", ".tonedesk-*"} {
		all, _ := filepath.Glob(filepath.Join(dir, name))
		for _, path := range all {
			if info, err := os.Stat(path); err == nil && info.Size() > 3 { // more than what is written over
				return true
			}
		}
	}
	return false
}

// Faces in names of files and stills, and in notes, are handed on in every way, and very many
// words in little memory: of 200 notes with 4,000 letters each a sheet took over 1 GB.
func TestSheetOfAnyWords(t *testing.T) {
	data := t.TempDir()
	var list []notes.Note
	for i := range 200 {
		list = append(list, notes.New(notes.Label{At: ink.Pt(float64(i%12), float64(i%5)), Size: 1}, "\U0001F600"+strings.Repeat("softer edge, ", 300)))
	}
	p := picture(t, "\U0001F600.png", 12, 5, threeBars(120))
	for _, ending := range []string{"pdf", "png", "ora", "json"} {
		e := desktest.Run(t, "", "sheet", "-o", filepath.Join(data, "\U0001F600."+ending), p)
		if e.PlainErrors(t, 0); e.Code != 0 {
			t.Errorf("%s: code %d", ending, e.Code)
		}
	}
	env, ids := keepStills(t, 120)
	store := stills.New(stills.Folders{Data: filepath.Join(strings.TrimPrefix(env[0], "XDG_DATA_HOME="), "tonedesk", "stills")})
	still, err := store.Mark(ids[0])
	if err != nil {
		t.Fatal(err)
	}
	defer still.Close()
	if err := store.SaveNotes(still, list); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(desktest.Program(t), "sheet", "-o", filepath.Join(data, "still.pdf"), ids[0])
	cmd.Env = append(env, "HOME="+t.TempDir())
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	most := cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss >> 10
	if t.Logf("it took %d MiB", most); most > 200 {
		t.Errorf("it took %d MiB of memory, want 200", most)
	}
}
