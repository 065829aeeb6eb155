package attack

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// Damaged pictures are read or refused, each with a report or a sentence, by every command
// that reads pictures.
func TestDamagedPictures(t *testing.T) {
	beside(t)
	y := newTally("damaged pictures, read")
	files, r, dir := sound(t), chance(1), t.TempDir()
	var paths []string
	for _, ending := range endings(files) {
		for i := range times(20, 900) {
			path := filepath.Join(dir, fmt.Sprintf("%d.%s", i, ending))
			if err := os.WriteFile(path, damage(r, files[ending]), 0o600); err != nil {
				t.Fatal(err)
			}
			paths = append(paths, path)
		}
	}
	chance(16).Shuffle(len(paths), func(i, k int) { paths[i], paths[k] = paths[k], paths[i] }) // so that all formats are read if time is short
	largest, refused := 0, 0
	for _, batch := range batches(paths, 100) {
		if y.late() {
			break
		}
		o := command(t, dir, "", append([]string{"read", "--json"}, batch...)...)
		largest = max(largest, o.peak)
		refused += strings.Count(o.Err, "\n")
		if n := strings.Count(o.Out, "\n") + strings.Count(o.Err, "\n"); n != len(batch) {
			o.faults = append(o.faults, fmt.Sprintf("of %d files %d are reported", len(batch), n))
		}
		for i := range batch {
			if i == 0 {
				y.try(t, o.faults...)
			} else {
				y.try(t)
			}
		}
	}
	y.measure("%d refused, at most %d MB", refused, largest)
	otherCommands(t, dir, paths)
}

// otherCommands has every other command that reads pictures read some of them.
func otherCommands(t *testing.T, dir string, paths []string) {
	y, r := newTally("damaged pictures, other commands"), chance(2)
	whole := filepath.Join(dir, "whole.png")
	if err := os.WriteFile(whole, sound(t)["png"], 0o600); err != nil {
		t.Fatal(err)
	}
	sheet := 0
	for range y.rounds(30, 1200) {
		path := paths[r.IntN(len(paths))]
		sheet++
		out := filepath.Join(dir, fmt.Sprintf("out%d", sheet))
		commands := [][]string{
			{"palette", "--json", path},
			{"palette", "--png", out + ".png", "--css", out + ".css", path},
			{"compare", "--json", whole, path},
			{"compare", path, whole},
			{"read", "--target", path, whole},
			{"sheet", "-o", out + ".pdf", path},
			{"sheet", "--picture", "-o", out + ".s.png", path},
			{"sheet", "-o", out + ".ora", path},
			{"sheet", "-o", out + ".json", path},
			{"relight", "--warmer", "40", "--css", out + ".r.css", path},
			{"shade", "--as", path, "#c08060"},
			{"stills", "--series", whole, path},
			{"stills", "--series", "--json", "--target", path, whole, path},
			{"read", "--spots", "1,1;40,20", "--without-ground", path},
		}
		y.try(t, command(t, dir, "", commands[r.IntN(len(commands))]...).faults...)
	}
	nothingLeft(t, y, dir)
}

// nothingLeft fails where temporary files lie in a folder.
func nothingLeft(t *testing.T, y *tally, dir string) {
	t.Helper()
	var left []string
	_ = filepath.WalkDir(dir, func(path string, _ os.DirEntry, _ error) error {
		if name := filepath.Base(path); path != dir && strings.HasPrefix(name, ".") {
			left = append(left, path)
		}
		return nil
	})
	if len(left) > 0 {
		y.try(t, fmt.Sprintf("left behind: %v", left))
	}
}

// Nonsense on standard input is read or refused line by line, in time.
func TestDamagedLists(t *testing.T) {
	beside(t)
	y, r, home := newTally("damaged lists on standard input"), chance(3), t.TempDir()
	list := []byte("#e2ab85\nrgb(178 106 92)\n#fff #000\nrgb(1 2 3) #123456\n\n")
	for range y.rounds(10, 400) {
		command1 := [][]string{{"spot", "-"}, {"spot", "--json", "-"}, {"compare", "-"}, {"shade", "-"}, {"match", "--json", "-"}}[r.IntN(5)]
		y.try(t, command(t, home, string(damage(r, list)), command1...).faults...)
	}
}

// A still with damaged parts is listed, or said to be damaged; it is never written over, and
// the others are there as before.
func TestDamagedStills(t *testing.T) {
	beside(t)
	y, r := newTally("damaged stills"), chance(4)
	home := t.TempDir()
	folder := filepath.Join(home, "data", "tonedesk", "stills")
	whole := stillFiles(t)
	for range y.rounds(8, 300) {
		if err := os.RemoveAll(folder); err != nil {
			t.Fatal(err)
		}
		writeStill(t, filepath.Join(folder, wholeID), whole)
		part := []string{"picture.png", "still.json", "notes.json"}[r.IntN(3)]
		broken := map[string][]byte{}
		for name, content := range whole {
			broken[name] = content
		}
		broken[part] = damage(r, whole[part])
		writeStill(t, filepath.Join(folder, brokenID), broken)
		list := command(t, home, "", "stills", "--json")
		if !strings.Contains(list.Out, wholeID) {
			list.faults = append(list.faults, "the whole still isn't listed beside one with a damaged "+part)
		}
		sheet := command(t, home, "", "sheet", "--force", "-o", filepath.Join(home, "sheet.png"), brokenID)
		again := command(t, home, "", "sheet", "--force", "-o", filepath.Join(home, "sheet.png"), wholeID)
		if again.Code != 0 {
			again.faults = append(again.faults, "the whole still can't be laid out: "+again.Err)
		}
		y.try(t, append(append(list.faults, sheet.faults...), again.faults...)...)
	}
}

const (
	wholeID  = "20260401-120000-abcdefghij"
	brokenID = "20260401-120001-abcdefghij"
)

// stillFiles are the files of a still with notes, as the program itself writes them.
func stillFiles(t *testing.T) map[string][]byte {
	t.Helper()
	img, dir := painting(), t.TempDir()
	store := stills.New(stills.Folders{Data: dir, Cache: t.TempDir()})
	id, err := store.Keep(analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: 64, Height: 48, Layout: analysis.RGBA}, stills.Meta{Name: "study"}, []notes.Note{
		notes.New(notes.Label{At: ink.Point{X: 10, Y: 10}, Size: 8}, "warmer here"),
		notes.New(notes.Stroke{Points: []ink.Point{{X: 1, Y: 1}, {X: 20, Y: 20}, {X: 30, Y: 5}}, Width: 2}, ""),
		notes.New(notes.Spot{At: ink.Point{X: 30, Y: 20}}, "the lightest"),
	})
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{}
	for _, name := range []string{"picture.png", "still.json", "notes.json"} {
		if files[name], err = os.ReadFile(filepath.Join(store.Folder(id), name)); err != nil {
			t.Fatal(err)
		}
	}
	return files
}

func writeStill(t *testing.T, folder string, files map[string][]byte) {
	t.Helper()
	if err := os.MkdirAll(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	for name, content := range files {
		if err := os.WriteFile(filepath.Join(folder, name), content, 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
