package wording

import (
	"cmp"
	"context"
	"errors"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"unicode"
	"unicode/utf8"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/profile"
	"app.tonedesk/capture"
	"app.tonedesk/capture/memory"
	"app.tonedesk/capture/picturefile"
	"app.tonedesk/capture/plainfile"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/mistake"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/notes"
)

// A reason is what a known error means to a painter: why something failed, and what to
// do about it.
type reason struct {
	is       error
	why, act Phrase
}

// reasons lists the known errors. The first that fits is said, so a narrower error stands
// above a wider one.
var reasons = []reason{
	{mistake.Err, "the program made a mistake", "try again, and please report it"},
	// Files.
	{fs.ErrNotExist, "there is no such file", "check the name and the folder"},
	{syscall.ENOTDIR, "a part of its path is a file, not a folder", "check the name and the folder"},
	{syscall.ELOOP, "it is a link that leads back to itself", "name the file that is meant"},
	{syscall.ENAMETOOLONG, "its name is longer than a name can be", "check it, or give the file a shorter one"},
	{fs.ErrPermission, "you are not allowed to open it", "change its permissions or copy it to a folder of your own"},
	{picturefile.ErrDirectory, "it is a folder, not a file", "name a picture file inside it"},
	{picturefile.ErrNotFile, "it is a device, a pipe or a socket, not an ordinary file", "name a file"},
	{picturefile.ErrEmptyFile, "the file is empty", "save the picture again"},
	{picturefile.ErrNotPicture, "it is not a picture that can be read here", "save it as PNG, JPEG, GIF, BMP, TIFF, WebP or OpenRaster"},
	{picturefile.ErrTruncated, "the file ends before the picture does", "save or copy it again"},
	{picturefile.ErrNoMerged, "it holds layers but no picture of the whole", "save it again with the merged image, or as PNG"},
	{picturefile.ErrManyParts, "the archive has more than 2000 parts", "merge layers and save it again, or save it as PNG"},
	{picturefile.ErrInks, "it is a picture of inks (CMYK), whose light depends on paper and press", "export a copy in RGB"},
	{pictures.ErrHDR, "it is of high dynamic range (PQ or HLG), which is lighter than any display's white", "export a copy of ordinary range"},
	{pictures.ErrColours, "it tells its colours in a way that isn't read here", "export a copy in sRGB"},
	{profile.ErrTables, "its colour profile works by lookup tables, which are not read here", "convert it to sRGB, or to another space of red, green and blue"},
	{profile.ErrOther, "its colour profile is not one of red, green and blue", "convert it to sRGB"},
	{profile.ErrLarge, "its colour profile is larger than 4 megabytes", "convert it to sRGB"},
	{profile.ErrDamaged, "its colour profile is damaged", "assign it another, or save it without one"},
	{picturefile.ErrProfile, "its colour profile is damaged", "assign it another, or save it without one"},
	{picturefile.ErrKind, "it is a rare kind of its format", "save it again as an ordinary PNG"},
	{picturefile.ErrDamaged, "the file is damaged", "save or copy it again"},
	{picturefile.ErrHuge, "it is larger than 100 megapixels, 100,000 pixels on a side or 1 gigabyte", "save a smaller copy"},
	{syscall.ENOSPC, "the disk is full", "make room and try again"},
	{fs.ErrExist, "there is a file of that name already", "choose another name"},
	{files.ErrInput, "it is the picture that is read", "choose another name"},
	{files.ErrDangling, "it is a link to a file that isn't there", "choose another name"},
	{syscall.EROFS, "the disk can only be read", "choose a disk that can be written"},
	// Stills.
	{stills.ErrNewer, "it is from a newer Tonedesk", "open it with that; it stays as it is"},
	{notes.ErrNewer, "its notes are from a newer Tonedesk", "open it with that; they stay as they are"},
	{stills.ErrDamaged, "the still is damaged", "look into the folder of stills, where it lies as it was"},
	{notes.ErrDamaged, "its notes are damaged", "look into its folder, where they lie as they were"},
	{notes.ErrFull, "it has as many notes as there can be", "delete some, or keep the picture as another still"},
	{stills.ErrGone, "there is no such still any more", "look in the trash"},
	{stills.ErrBusy, "another window is changing the stills", "try again in a moment"},
	{stills.ErrLock, "what keeps two windows apart can't be used", "take away what is called lock in the folder of stills"},
	{files.ErrNoHome, "nothing says where your own folders are", "set HOME to your home folder"},
	{stills.ErrHeld, "another window writes notes on it", "close it there first"},
	{stills.ErrChanged, "it was changed in the meantime", "look at it again"},
	{stills.ErrEnding, "the ending of its name tells no way to write it", "end the name in .png, .pdf, .ora or .json"},
	{stills.ErrPicture, "there is no picture of a size that can be kept", "wait for the picture, or choose a smaller region"},
	// Screens.
	{capture.ErrWayland, "a Wayland session shows a program only what you share with it", "share the screen with R, or open a picture file"},
	{capture.ErrUnsupported, "the screen can't be read on this system", "open a picture file instead"},
	{capture.ErrFormat, "the screen uses a pixel format that would give wrong colours", "set the display to 24-bit colour"},
	{capture.ErrNamed, "there is no display of the name in TONEDESK_DISPLAY", "correct it, or leave it out"},
	{capture.ErrNoDisplay, "there is no display", "start it inside a desktop session, or use the commands read, spot and compare"},
	{capture.ErrRefused, "the display refused the connection", "start the program as the user who is logged in there"},
	{capture.ErrNotAnswering, "the display does not answer", "wait for it; watching goes on by itself when it answers"},
	{capture.ErrLocked, "the screen is locked, or the system asks something", "unlock it, or answer; watching goes on by itself"},
	{context.DeadlineExceeded, "it took too long", "try again"},
	{capture.ErrDisconnected, "the connection to the display was lost", "wait until the display is back; watching goes on by itself"},
	{capture.ErrGone, "what was watched is no longer on any screen", "bring it back or choose another region"},
	{capture.ErrOutside, "the region lies outside all screens", "choose a region again"},
	{capture.ErrEmpty, "the region has no pixels", "drag a larger region"},
	{capture.ErrClosed, "it was closed in the meantime", "open it again"},
	// The clipboard.
	{native.ErrOtherDisplay, "another display than this window's is watched", "save it as a file instead"},
	{native.ErrUnsupported, "there is no way to do it on this system", "save it as a file instead"},
	{native.ErrClipboardBusy, "another program has the clipboard", "try again in a moment"},
	// Measuring.
	{colour.ErrColour, "it is not a colour", "write it as #rgb, #rrggbb or rgb(r g b)"},
	{analysis.ErrSize, "the square's side is not one on offer", "choose 1, 3, 5 or 11 pixels"},
	{analysis.ErrOutside, "the place is outside the picture, or transparent there", "choose a place on the painting"},
	{pictures.ErrUncounted, "every pixel of it is transparent", "choose another picture"},
	{analysis.ErrPixels, "the picture's sizes contradict each other", "save the picture again"},
}

// writingReasons are what errors mean where something is written; other errors mean there
// what they mean everywhere.
var writingReasons = []reason{
	{fs.ErrNotExist, "there is no such folder", "make it first, or choose another"},
	{fs.ErrPermission, "you are not allowed to write there", "change the permissions of the folder, or use another"},
	{syscall.EROFS, "nothing can be written on that disk", "use another one, or make it writable"},
	{syscall.EDQUOT, "your share of the disk is used up", "make room"},
	{syscall.ENOSPC, "the disk is full", "make room"},
	{plainfile.ErrFolder, "there is a folder of that name", "choose another name"},
	{syscall.EISDIR, "there is a folder of that name", "choose another name"},
	{syscall.ENOTDIR, "there is a file where its folder should be", "choose another folder"},
	{syscall.EIO, "the disk does not work as it should", "use another one"},
}

// ExplainWriting is Explain for something that could not be written.
func ExplainWriting(what Phrase, err error) string {
	return explain(what, err, slices.Concat(writingReasons, reasons, systemReasons))
}

// SayUnsaved says why the notes of a still are not saved.
func SayUnsaved(err error) string {
	return language.Say("%s Until then they are only in this window; it is tried again by itself.", ExplainWriting("save the notes of the still", err))
}

// SayLost says what of stills would be lost if the program ended now, and why it can't be
// saved; of no stills: that something is still being written.
func SayLost(of []stills.Meta, err error) string {
	what := Phrase("finish what is being written")
	var names []string
	for _, m := range of {
		names = append(names, Quote(cmp.Or(m.Name, TimeSay(m.Time))))
	}
	if len(names) > 0 {
		what = Part("save the notes of %s", And(names))
	}
	return language.Say("%s Quitting now loses it.", ExplainWriting(what, err))
}

// Explain puts err into one plain sentence: what was tried on what, why it failed, and
// what to do. what goes on after "Can't", such as On("read %s", path). The full chain of
// causes belongs in the log.
func Explain(what Phrase, err error) string {
	return explain(what, err, slices.Concat(reasons, systemReasons))
}

func explain(what Phrase, err error, known []reason) string {
	var p stills.Problem
	if errors.As(err, &p) && errors.Is(p.Err, stills.ErrDamaged) {
		return sayDamaged(what, p)
	}
	if full := (*memory.Full)(nil); errors.As(err, &full) {
		why := Part("it takes %d MB of memory, and there is room for %d MB", full.Takes/1e6+1, full.Free/1e6)
		return Cannot(what, why, "save it smaller, or with 8 bits a channel")
	}
	if at := slices.IndexFunc(known, func(r reason) bool { return errors.Is(err, r.is) }); at >= 0 {
		return Cannot(what, known[at].why, known[at].act)
	}
	if err == nil {
		return Cannot(what, "the program has a fault", "try again")
	}
	return Cannot(what, On("the reason given is %s", err.Error()), "try again")
}

// Phrase is a part of a sentence. The program's own words become one by themselves; names
// and texts from outside do by On alone, so that none gets into a sentence as it is.
type Phrase = language.Words

// On is a phrase with a name or a text from outside, which stands between quotation marks where
// format has its %s.
func On(format Phrase, name string) Phrase { return Part(format, Quote(name)) }

// Part is a phrase with numbers, or with words of the program's own.
func Part(format Phrase, args ...any) Phrase { return Phrase(language.Say(format, args...)) }

// Stopped ends a sentence.
func Stopped(sentence string) string { return language.Say("%s.¦sentence", sentence) }

// And joins words to a list: "a and b".
func And(words []string) string { return strings.Join(words, language.Say(" and ")) }

// Cannot joins the three parts that every error here has, as one line. what begins with a
// verb.
func Cannot(what, why, act Phrase) string { return language.Say("Can't %s: %s; %s.", what, why, act) }

// Capitalised begins a sentence.
func Capitalised(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

// quoteMost is how many characters of a foreign text a sentence may carry.
const quoteMost = 120

// Quote puts a name or text from outside between quotation marks, so that it stays on
// one line and can't steer a terminal, cut where it would bury the sentence.
func Quote(text string) string {
	tame, spelled := tamed(text)
	if spelled {
		return `"` + tame + `"`
	}
	return language.Say(`"%s"¦quotation`, tame)
}

// Bare is Quote where a name stands alone and needs no quotation marks.
func Bare(text string) string {
	tame, _ := tamed(text)
	return tame
}

// tamed cuts a text, and spells out what can't be printed; spelled says that there was such.
func tamed(text string) (tame string, spelled bool) {
	if utf8.RuneCountInString(text) > quoteMost {
		runes := []rune(text)
		text = string(runes[:quoteMost/2]) + "…" + string(runes[len(runes)-quoteMost/2:])
	}
	unprintable := func(r rune) bool { return !unicode.IsPrint(r) || r == utf8.RuneError }
	if strings.IndexFunc(text, unprintable) >= 0 {
		return strings.TrimSuffix(strings.TrimPrefix(strconv.Quote(text), `"`), `"`), true
	}
	return text, false
}
