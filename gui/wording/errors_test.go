package wording

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"unicode"

	"app.tonedesk/capture"
	"app.tonedesk/capture/picturefile"
	"app.tonedesk/gui/stills"
)

func TestExplain(t *testing.T) {
	tests := []struct {
		name string
		what Phrase
		err  error
		want string
	}{
		{"missing file", `read "pose.png"`, fmt.Errorf("open picture: %w", fs.ErrNotExist),
			`Can't read "pose.png": there is no such file; check the name and the folder.`},
		{"cut short", `read "pose.png"`, fmt.Errorf("png: %w: EOF", picturefile.ErrTruncated),
			`Can't read "pose.png": the file ends before the picture does; save or copy it again.`},
		{"not a picture", `read "pose.txt"`, picturefile.ErrNotPicture,
			`Can't read "pose.txt": it is not a picture that can be read here; save it as PNG, JPEG, GIF, BMP, TIFF, WebP or OpenRaster.`},
		{"layers alone", `read "pose.ora"`, fmt.Errorf("ora: %w", picturefile.ErrNoMerged),
			`Can't read "pose.ora": it holds layers but no picture of the whole; save it again with the merged image, or as PNG.`},
		{"too many layers", `read "pose.ora"`, fmt.Errorf("ora: %w", picturefile.ErrManyParts),
			`Can't read "pose.ora": the archive has more than 2000 parts; merge layers and save it again, or save it as PNG.`},
		{"narrower reason first", "watch the screen", fmt.Errorf("pick: %w", capture.ErrWayland),
			"Can't watch the screen: a Wayland session shows a program only what you share with it; share the screen with R, or open a picture file."},
		{"wider reason", "watch the screen", capture.ErrUnsupported,
			"Can't watch the screen: the screen can't be read on this system; open a picture file instead."},
		{"unknown", "do it", errors.New("odd\nthing"),
			`Can't do it: the reason given is "odd\nthing"; try again.`},
		{"no error at all", "do it", nil, "Can't do it: the program has a fault; try again."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := Explain(tt.what, tt.err); got != tt.want {
				t.Errorf("Explain = %s\nwant      %s", got, tt.want)
			}
		})
	}
}

// Writing fails for its own reasons; reading's stay as they are.
func TestExplainWriting(t *testing.T) {
	tests := []struct {
		err  error
		want string
	}{
		{&fs.PathError{Op: "open", Path: "x", Err: syscall.EACCES}, "Can't write \"x\": you are not allowed to write there; change the permissions of the folder, or use another."},
		{fmt.Errorf("export: %w", fs.ErrNotExist), "Can't write \"x\": there is no such folder; make it first, or choose another."},
		{syscall.ENOSPC, "Can't write \"x\": the disk is full; make room."},
		{syscall.EROFS, "Can't write \"x\": nothing can be written on that disk; use another one, or make it writable."},
		{fs.ErrExist, "Can't write \"x\": there is a file of that name already; choose another name."},
		{stills.ErrEnding, Explain("write \"x\"", stills.ErrEnding)},
	}
	for _, tt := range tests {
		if got := ExplainWriting(`write "x"`, tt.err); got != tt.want {
			t.Errorf("%v: %s\nwant %s", tt.err, got, tt.want)
		}
	}
	for _, r := range writingReasons {
		if windowsHasOneErrorFor(r.is, fs.ErrNotExist) {
			continue
		}
		if got, want := ExplainWriting("try", fmt.Errorf("outer: %w", r.is)), Cannot("try", r.why, r.act); got != want {
			t.Errorf("%v: %q, want %q", r.is, got, want)
		}
	}
	if got := Explain(`read "x"`, fs.ErrPermission); !strings.Contains(got, "not allowed to open it") {
		t.Errorf("reading: %s", got)
	}
}

// Every known error must be reachable: none may hide behind a wider one above it.
func TestEveryReasonIsSaid(t *testing.T) {
	for _, r := range reasons {
		if windowsHasOneErrorFor(r.is, fs.ErrNotExist) {
			continue
		}
		got := Explain("try", fmt.Errorf("outer: %w", r.is))
		if want := Cannot("try", r.why, r.act); got != want {
			t.Errorf("%v: %q, want %q", r.is, got, want)
		}
		for _, part := range []string{string(r.why), string(r.act)} {
			if part == "" || strings.HasSuffix(part, ".") || unicode.IsUpper([]rune(part)[0]) {
				t.Errorf("%v: part %q does not fit into a sentence", r.is, part)
			}
		}
	}
	if got := Explain("try", context.Canceled); !strings.Contains(got, "context canceled") {
		t.Errorf("an unknown error is said as %q", got)
	}
}

// windowsHasOneErrorFor reports whether the system can't tell two errors apart: Windows finds no path
// where a file stands in its way.
func windowsHasOneErrorFor(a, b error) bool {
	return runtime.GOOS == "windows" && a != b && errors.Is(a, b)
}

func FuzzQuoteStaysOneTameLine(f *testing.F) {
	f.Add("pose.png")
	f.Add("a\nb\x1b[2J")
	f.Add("\xff\xfe")
	f.Add(strings.Repeat("é", 500))
	f.Fuzz(func(t *testing.T, text string) {
		got := Quote(text)
		for _, r := range got {
			if !unicode.IsPrint(r) {
				t.Fatalf("Quote(%q) = %q holds %U", text, got, r)
			}
		}
		if len(got) < 2 || got[0] != '"' || got[len(got)-1] != '"' {
			t.Errorf("Quote(%q) = %s has no quotation marks", text, got)
		}
	})
}
