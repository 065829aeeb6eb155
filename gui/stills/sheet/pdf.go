package sheet

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"io"
	"regexp"
	"strconv"
	"time"
	"unicode/utf16"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/profile"
	"app.tonedesk/gui/stills/ink"
)

// pointsPerMM are typographic points in a millimetre: 72 to an inch of 25.4 mm.
const pointsPerMM = 72 / 25.4

// document is what is written, a page after another.
type document struct {
	pdf    *fpdf.Fpdf
	widths map[int]bool // of its pictures, in pixels
}

// PDF writes the page as a PDF file of one page, with a title and the time that it was made:
// pictures without loss, letters as text in the Go fonts or, where these lack them, drawn; colours as
// sRGB.
func (p *Page) PDF(w io.Writer, title string, at time.Time) error { return Pages{p}.PDF(w, title, at) }

// writePDF writes pages of one size, of which there is one at least.
func writePDF(w io.Writer, pages []*Page, title string, at time.Time) error {
	size := fpdf.SizeType{Wd: pages[0].Width, Ht: pages[0].Height}
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: size})
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(0, 0, 0)
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(at)
	pdf.SetModificationDate(at)
	pdf.SetTitle(utf16Text(title), false)
	pdf.SetCreator("Tonedesk", true)
	pdf.SetProducer("Tonedesk", true)
	pdf.AddOutputIntent(fpdf.OutputIntentType{ // else colours are those of whatever shows the file (ISO 32000-1:2008, 14.11.5)
		SubtypeIdent: fpdf.OutputIntent_GTS_PDFA1, OutputConditionIdentifier: colour.SRGB.Name, ICCProfile: profile.Write(nil),
	})
	pdf.AddUTF8FontFromBytes(faceNames[ink.Regular], "", goregular.TTF)
	pdf.AddUTF8FontFromBytes(faceNames[ink.Bold], "", gobold.TTF)
	d := &document{pdf: pdf, widths: map[int]bool{}}
	for _, p := range pages {
		pdf.AddPageFormat("P", size) // as it is: not turned
		for _, i := range p.items {
			i.write(d)
		}
	}
	if err := pdf.Output(trailed{w}); err != nil {
		return fmt.Errorf("write the page: %w", err)
	}
	return nil
}

// trailed writes a whole file with the right number of what it says of itself: the module (0.12.0)
// takes the object before the last, which is the colour profile, where there is one.
type trailed struct{ w io.Writer }

// info is that number, in the trailer.
var info = regexp.MustCompile(`/Info (\d+) 0 R`)

func (t trailed) Write(b []byte) (int, error) {
	trailer := bytes.LastIndex(b, []byte("\ntrailer\n"))
	at := info.FindSubmatchIndex(b[max(trailer, 0):])
	if trailer < 0 || at == nil {
		return t.w.Write(b)
	}
	number, _ := strconv.Atoi(string(b[trailer+at[2] : trailer+at[3]]))
	for _, part := range [][]byte{b[:trailer+at[2]], strconv.AppendInt(nil, int64(number-1), 10), b[trailer+at[3]:]} {
		if n, err := t.w.Write(part); err != nil {
			return n, err
		}
	}
	return len(b), nil
}

// utf16Text returns text as a PDF file holds it beside its pages: as UTF-16 with the higher byte
// first, behind its mark (ISO 32000-1:2008, 7.9.2.2). The module's own way fails above U+FFFF.
func utf16Text(text string) string {
	b := []byte{0xfe, 0xff}
	for _, unit := range utf16.Encode([]rune(text)) { // bytes that are no UTF-8 become U+FFFD
		b = binary.BigEndian.AppendUint16(b, unit)
	}
	return string(b)
}

var faceNames = map[ink.Face]string{ink.Regular: "goregular", ink.Bold: "gobold"}

func (f fill) write(d *document) {
	d.pdf.SetFillColor(int(f.colour.R), int(f.colour.G), int(f.colour.B))
	d.pdf.Rect(f.box.X, f.box.Y, f.box.W, f.box.H, "F")
}

// write writes a picture. The module puts pictures into the file in the order of their widths, and
// those of one width in any: one whose width is taken gets columns more, which are cut off, so that
// the same page gives the same bytes.
func (p picture) write(d *document) {
	img, size := p.img, p.img.Rect.Size()
	wide := size.X
	for d.widths[wide] {
		wide++
	}
	d.widths[wide] = true
	if wide > size.X {
		img = image.NewRGBA(image.Rect(0, 0, wide, size.Y))
		draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
		draw.Draw(img, image.Rectangle{Max: size}, p.img, p.img.Rect.Min, draw.Src)
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		d.pdf.SetError(err)
		return
	}
	name := fmt.Sprint("picture", wide)
	options := fpdf.ImageOptions{ImageType: "png"}
	d.pdf.RegisterImageOptionsReader(name, options, &b)
	d.pdf.ClipRect(p.box.X, p.box.Y, p.box.W, p.box.H, false)
	d.pdf.ImageOptions(name, p.box.X, p.box.Y, p.box.W*float64(wide)/float64(size.X), p.box.H, false, options, 0, "")
	d.pdf.ClipEnd()
}

func (r rule) write(d *document) {
	d.pdf.SetDrawColor(int(r.grey), int(r.grey), int(r.grey))
	d.pdf.SetLineWidth(r.width)
	d.pdf.SetLineCapStyle("round")
	d.pdf.Line(r.from.X, r.from.Y, r.to.X, r.to.Y)
}

// write writes built-in letters as text. Those that are borrowed it draws: their typeface is the
// system's, and may not lie in every file.
func (w words) write(d *document) {
	d.pdf.SetFont(faceNames[w.face], "", w.size*pointsPerMM)
	d.pdf.SetTextColor(int(w.grey), int(w.grey), int(w.grey))
	d.pdf.SetFillColor(int(w.grey), int(w.grey), int(w.grey))
	run, from, x := "", w.at.X, w.at.X
	text := func() {
		if run != "" {
			d.pdf.Text(from, w.at.Y, run)
		}
		run = ""
	}
	for _, r := range w.text {
		if shapes := ink.Borrowed(w.face, r); shapes != nil {
			text()
			d.draw(shapes, ink.Pt(x, w.at.Y), w.size)
		} else {
			if run == "" {
				from = x
			}
			run += string(r)
		}
		x += ink.Advance(w.face, r) * w.size
	}
	text()
}

// draw draws a letter at a size, its foot beginning at at.
func (d *document) draw(shapes [][]ink.Point, at ink.Point, size float64) {
	for _, shape := range shapes {
		for i, p := range shape {
			if p = at.Plus(p.Times(size)); i == 0 {
				d.pdf.MoveTo(p.X, p.Y)
			} else {
				d.pdf.LineTo(p.X, p.Y)
			}
		}
		d.pdf.ClosePath()
	}
	d.pdf.DrawPath("f")
}
