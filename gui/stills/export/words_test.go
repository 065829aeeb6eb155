package export

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/stills/sheet"
)

// handOn checks that a still is exported in every way, whatever is written on it, and that the
// files are well formed. The sheet as a picture is as fine as that of a page on the screen.
func handOn(s SheetSubject) error {
	files := map[string][]byte{}
	for ending, way := range map[string]Export{".pdf": {Page: sheet.A4}, ".png": {Picture: true}, ".ora": {}, ".json": {}} {
		var b bytes.Buffer
		if err := way.write(&b, ending, s); err != nil {
			return fmt.Errorf("%s: %w", ending, err)
		}
		files[ending] = b.Bytes()
	}
	content, err := SheetContent(s)
	if err != nil {
		return err
	}
	sheet.New(sheet.Wide, content).Image(2)
	return errors.Join(wellFormedPDF(files[".pdf"]), wellFormedPNG(files[".png"]), wellFormedORA(files[".ora"]), wellFormedJSON(files[".json"]))
}

var (
	pdfStart = regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`)
	pdfEntry = regexp.MustCompile(`(\d{10}) 00000 n `)
)

// wellFormedPDF checks that every object lies where the table of objects says (ISO 32000-1:2008,
// 7.5.4), which ends where the file says.
func wellFormedPDF(file []byte) error {
	start := pdfStart.FindSubmatch(file)
	if start == nil {
		return errors.New("no end")
	}
	at, _ := strconv.Atoi(string(start[1]))
	if at >= len(file) || !bytes.HasPrefix(file[at:], []byte("xref\n")) {
		return errors.New("no table of objects")
	}
	for i, entry := range pdfEntry.FindAllSubmatch(file[at:], -1) {
		object, _ := strconv.Atoi(string(entry[1]))
		if !bytes.HasPrefix(file[object:], fmt.Appendf(nil, "%d 0 obj", i+1)) {
			return fmt.Errorf("object %d does not lie at %d", i+1, object)
		}
	}
	return nil
}

func wellFormedPNG(file []byte) error {
	_, err := png.Decode(bytes.NewReader(file))
	return err
}

func wellFormedJSON(file []byte) error {
	var all map[string]any
	return json.Unmarshal(file, &all)
}

func wellFormedORA(file []byte) error {
	z, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		return err
	}
	stack, err := z.Open("stack.xml")
	if err != nil {
		return err
	}
	d := xml.NewDecoder(stack)
	for {
		if _, err := d.Token(); err == io.EOF {
			return nil
		} else if err != nil {
			return err
		}
	}
}

// said returns a small still with words in all places.
func said(name, file, words string) SheetSubject {
	s := SheetSubject{
		Title: SheetTitle(name, time.Time{}), Name: name, Display: words, Picture: halfLight(96, 64),
		Source: stills.Source{Kind: stills.FromPicture, Path: file},
	}
	spot := notes.Spot{At: ink.Pt(3, 4), Reading: analysis.SpotOf(colour.RGB{R: 200, G: 200, B: 200})}
	for _, shape := range []notes.Shape{spot, notes.Label{At: ink.Pt(2, 9), Size: 6}, notes.Ring{From: ink.Pt(1, 1), To: ink.Pt(9, 9), Width: 2}} {
		s.Notes = append(s.Notes, notes.New(shape, words))
	}
	return s
}

// hard are words that ended programs: above U+FFFF, joined, from right to left, showing nothing,
// without a pair, no UTF-8.
const hard = "\U0001F600 \U0001F468\u200d\U0001F469 e\u0301 \u05d0\u05d1 \u202e\ufeff\x00\x1b]0;\r\n\t()\\\xff\xed\xa0\x80\U0010FFFF"

func TestAnyWordsAreExported(t *testing.T) {
	lawtest.SkipRaced(t)
	if err := handOn(said(hard, hard, hard)); err != nil {
		t.Fatal(err)
	}
	text := rapid.OneOf(rapid.String(), rapid.Just(hard), rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) }))
	for i := range lawtest.Times(10, 2000) { // a page takes its time
		name, file, words := text.Example(i), text.Example(i+1), text.Example(i+2)
		if err := handOn(said(name, file, words)); err != nil {
			t.Fatalf("%q, %q, %q: %v", name, file, words, err)
		}
	}
}

// FuzzWords tries the same on a page with small pictures and a still of its own: quicker.
func FuzzWords(f *testing.F) {
	f.Add(hard, hard, hard)
	small := image.NewRGBA(image.Rect(0, 0, 8, 8))
	f.Fuzz(func(t *testing.T, name, about, words string) {
		page := sheet.New(sheet.A4, sheet.Content{
			Title: name, About: about, Foot: words, Figures: words, Picture: small, Greys: small, Bands: small,
			Families: []sheet.FamilyRow{{Title: words, Text: words}}, Notes: []sheet.NoteRow{{Number: 1, Text: words}},
		})
		var pdf, ora, text bytes.Buffer
		s := said(name, about, words)
		err := errors.Join(
			page.PDF(&pdf, name, time.Time{}), stills.WriteORA(&ora, halfLight(24, 16), nil, s.Notes), stills.WriteJSON(&text, s.meta(), s.Notes),
			wellFormedPDF(pdf.Bytes()), wellFormedORA(ora.Bytes()), wellFormedJSON(text.Bytes()),
		)
		if page.Image(1); err != nil {
			t.Error(err)
		}
	})
}

// The smallest still and a line of pixels are exported in every way.
func TestOddSizesAreExported(t *testing.T) {
	for _, size := range [][2]int{{1, 1}, {1, 30_000}, {30_000, 1}} {
		s := said("odd", "odd.png", "softer edge")
		s.Picture = halfLight(size[0], size[1])
		if err := handOn(s); err != nil {
			t.Errorf("%d x %d: %v", size[0], size[1], err)
		}
	}
}

// wordy is a still with so many notes of a kind, each with as many letters as one may have: more
// than its notes may have together, as stills from before may.
func wordy(n int, shape func(at ink.Point) notes.Shape) SheetSubject {
	s := said("many words", "", "")
	s.Picture, s.Notes = halfLight(1280, 800), nil
	text := strings.Repeat("softer edge here, please ", 160)[:notes.MostText]
	r := rand.New(rand.NewPCG(1, 2))
	for range n {
		at := ink.Pt(r.Float64()*float64(s.Picture.Width), r.Float64()*float64(s.Picture.Height))
		s.Notes = append(s.Notes, notes.New(shape(at), text))
	}
	return s
}

// wordyKinds are the kinds of notes whose words stand on the sheet, and on the picture too.
var wordyKinds = map[string]func(at ink.Point) notes.Shape{
	"rings":  func(at ink.Point) notes.Shape { return notes.Ring{From: at, To: at.Plus(ink.Pt(80, 50)), Width: 3} },
	"labels": func(at ink.Point) notes.Shape { return notes.Label{At: at, Size: 14} },
}

// BenchmarkSheet makes sheets of as many notes as a still may have, each with as many letters as
// one may have. Budget: 2 s.
func BenchmarkSheet(b *testing.B) {
	for name, shape := range wordyKinds {
		s := wordy(notes.Most, shape)
		for _, ending := range []string{".pdf", ".png"} {
			b.Run(name+ending, func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if err := (Export{Page: sheet.A4}).write(io.Discard, ending, s); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// inSight is a still with as many letters as its notes may have together, all of them on the picture:
// labels with letters of a size, in lines as long as the picture is wide.
func inSight(size float64) SheetSubject {
	s := said("all in sight", "", "")
	s.Picture, s.Notes = halfLight(1600, 1000), nil
	across := int(1600 / (0.62 * size)) // letters of mixed words are 0.6 of their size wide, nearly
	most := min(notes.MostText, across*int(1000/(ink.LineHeight*size)))
	words := []rune(strings.Repeat("softer edge, Mild glow & shade of RED blue ", 100)[:most])
	for i := across - 1; i < most; i += across {
		words[i] = '\n'
	}
	for left := notes.MostLetters; left > 0 && len(s.Notes) < notes.Most; left -= most {
		k := len(s.Notes)
		s.Notes = append(s.Notes, notes.New(notes.Label{At: ink.Pt(float64(k%7), size+float64(k%11)), Size: size}, string(words)))
	}
	return s
}

// The fullest sheet there can be, and the fullest picture in layers, take less than two seconds: here
// the quickest of some tries may take four times that, for others use the machine.
func TestFullestSheetIsQuick(t *testing.T) {
	lawtest.SkipRaced(t)
	const reached, noise, tries = 2 * time.Second, 4, 4
	for _, size := range lawtest.Some([]float64{10, 30, 64, 128, 400}, 2) {
		s := inSight(size)
		for _, ending := range []string{".pdf", ".png", ".ora"} {
			least := time.Hour
			for range tries {
				begun := time.Now()
				if err := (Export{Page: sheet.A4}).write(io.Discard, ending, s); err != nil {
					t.Fatal(err)
				}
				if least = min(least, time.Since(begun)); least <= noise*reached {
					break
				}
			}
			if least > noise*reached {
				t.Errorf("letters of %g pixels: %s took %v", size, ending, least)
			}
		}
	}
}

// BenchmarkFullestSheet is of every letter that notes may have. Budget: 2 s.
func BenchmarkFullestSheet(b *testing.B) {
	for _, size := range []float64{10, 30, 64, 128, 400} {
		s := inSight(size)
		for _, ending := range []string{".pdf", ".png", ".ora"} {
			b.Run(fmt.Sprint(size, ending), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if err := (Export{Page: sheet.A4}).write(io.Discard, ending, s); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// A sheet of a tenth of the most takes a moment, even on a busy machine: with each word measured
// anew and each letter outlined it took a minute.
func TestWordySheetIsQuick(t *testing.T) {
	for name, shape := range wordyKinds {
		s, begun := wordy(notes.Most/10, shape), time.Now()
		if err := (Export{Page: sheet.A4}).write(io.Discard, ".pdf", s); err != nil {
			t.Fatal(err)
		}
		if took := time.Since(begun); took > 5*time.Second {
			t.Errorf("%s: it took %v", name, took)
		}
	}
}
