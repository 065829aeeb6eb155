package main

import (
	"archive/zip"
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

const (
	wholePeak = 600_000_000 // bytes that the program may take, for any picture (our choice)
	slack     = 16_000_000  // bytes by which two runs may differ: the runtime's own, and rows on their way
)

// pictureKinds write an even picture of a size, each as a file of another kind. What no encoder
// here writes is put together by hand, of as few bits as the format allows.
var pictureKinds = map[string]func(w, h int) []byte{
	"rgb.png":          func(w, h int) []byte { return pngOf(rows(w, h, 255)) },
	"half clear.png":   func(w, h int) []byte { return pngOf(rows(w, h, 128)) },
	"grey.png":         func(w, h int) []byte { return pngOf(image.NewGray(image.Rect(0, 0, w, h))) },
	"16 bits.png":      func(w, h int) []byte { return rawPNG(w, h, 16, 6, 0, "") },
	"16, turned.png":   func(w, h int) []byte { return rawPNG(w, h, 16, 6, 0, chunk("eXIf", turnedExif)) },
	"turned.png":       func(w, h int) []byte { return rawPNG(w, h, 8, 6, 0, chunk("eXIf", turnedExif)) },
	"16, grey.png":     func(w, h int) []byte { return rawPNG(w, h, 16, 0, 0, "") },
	"16, one grey.png": func(w, h int) []byte { return rawPNG(w, h, 16, 0, 0, chunk("tRNS", "\x00\x00")) },
	"palette.png":      func(w, h int) []byte { return rawPNG(w, h, 8, 3, 0, chunk("PLTE", "\x10\x20\x30")) },
	"in passes.png":    func(w, h int) []byte { return rawPNG(w, h, 8, 2, 1, "") },
	"of photo.jpg": func(w, h int) []byte {
		var b bytes.Buffer
		noError(jpeg.Encode(&b, rows(w, h, 255), nil))
		return b.Bytes()
	},
	"full.jpg":        func(w, h int) []byte { return rawJPEG(w, h, 0xc0, 3) },
	"progressive.jpg": func(w, h int) []byte { return rawJPEG(w, h, 0xc2, 3) },
	"grey.jpg":        func(w, h int) []byte { return rawJPEG(w, h, 0xc0, 1) },
	"frames.gif": func(w, h int) []byte {
		frame := image.NewPaletted(image.Rect(0, 0, w, h), color.Palette{color.Gray{90}, color.White})
		var b bytes.Buffer
		noError(gif.EncodeAll(&b, &gif.GIF{Image: []*image.Paletted{frame, frame, frame}, Delay: []int{1, 1, 1}}))
		return b.Bytes()
	},
	"rgb.bmp": func(w, h int) []byte {
		var b bytes.Buffer
		noError(bmp.Encode(&b, rows(w, h, 255)))
		return b.Bytes()
	},
	"one strip.tif": func(w, h int) []byte {
		var b bytes.Buffer
		noError(tiff.Encode(&b, rows(w, h, 255), &tiff.Options{Compression: tiff.Deflate}))
		return b.Bytes()
	},
	"tiles.tif":     rawTIFF,
	"lossless.webp": rawWebP,
	"layers.ora": func(w, h int) []byte {
		var b bytes.Buffer
		z := zip.NewWriter(&b)
		for _, part := range [][2]string{{"mimetype", "image/openraster"}, {"mergedimage.png", string(pngOf(rows(w, h, 255)))}, {"Thumbnails/thumbnail.png", string(pngOf(rows(90, 90, 255)))}} {
			f, err := z.CreateHeader(&zip.FileHeader{Name: part[0], Method: zip.Store})
			noError(err)
			io.WriteString(f, part[1])
		}
		noError(z.Close())
		return b.Bytes()
	},
}

func noError(err error) {
	if err != nil {
		panic(err)
	}
}

func rows(w, h int, alpha byte) *image.NRGBA {
	return &image.NRGBA{Pix: bytes.Repeat([]byte{180, 120, 90, alpha}, w*h), Stride: 4 * w, Rect: image.Rect(0, 0, w, h)}
}

func pngOf(img image.Image) []byte {
	var b bytes.Buffer
	noError((&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, img))
	return b.Bytes()
}

// turnedExif are Exif data of one tag, orientation 6 (TIFF 6.0, 1992, p. 36).
const turnedExif = "MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x00"

// chunk is a chunk of a PNG file (W3C PNG Specification, Third Edition, 5.3).
func chunk(name, body string) string {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	b = append(b, name+body...)
	return string(binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:])))
}

// rawPNG is a PNG file of zeros, with more chunks behind its header.
func rawPNG(w, h, depth, kind, passes int, more string) []byte {
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, uint32(w)), uint32(h))
	head = append(head, byte(depth), byte(kind), 0, 0, byte(passes))
	each := map[int]int{0: 1, 2: 3, 3: 1, 6: 4}[kind] * depth / 8
	sizes := []image.Point{{w, h}}
	if passes > 0 { // where they begin and how far apart their pixels are: 8.2 of the specification
		sizes = nil
		for _, p := range [][4]int{{0, 0, 8, 8}, {4, 0, 8, 8}, {0, 4, 4, 8}, {2, 0, 4, 4}, {0, 2, 2, 4}, {1, 0, 2, 2}, {0, 1, 1, 2}} {
			sizes = append(sizes, image.Pt((w-p[0]+p[2]-1)/p[2], (h-p[1]+p[3]-1)/p[3]))
		}
	}
	var b bytes.Buffer
	z, err := zlib.NewWriterLevel(&b, zlib.BestSpeed)
	noError(err)
	for _, size := range sizes {
		row := make([]byte, 1+each*size.X)
		for range size.Y {
			z.Write(row)
		}
	}
	noError(z.Close())
	return []byte("\x89PNG\r\n\x1a\n" + chunk("IHDR", string(head)) + more + chunk("IDAT", b.String()) + chunk("IEND", ""))
}

// rawJPEG is a JPEG file whose coefficients are all 0: each takes one bit, of the one code that
// its tables have. Source: ITU-T T.81 (1992), B.2; four components need Adobe's segment.
func rawJPEG(w, h, frame, components int) []byte {
	segment := func(marker byte, body string) string {
		return string(append([]byte{0xff, marker}, binary.BigEndian.AppendUint16(nil, uint16(len(body)+2))...)) + body
	}
	size := string(binary.BigEndian.AppendUint16(binary.BigEndian.AppendUint16([]byte{8}, uint16(h)), uint16(w)))
	one := "\x01" + strings.Repeat("\x00", 16) // a table of one code, one bit long, for 0
	parts, scanned := "", ""
	for i := range components {
		parts += string([]byte{byte(i + 1), 0x11, 0})
		scanned += string([]byte{byte(i + 1), 0})
	}
	last, bits := byte(63), 2
	if frame == 0xc2 {
		last, bits = 0, 1 // the first scan: of each block its mean alone
	}
	zeros := strings.Repeat("\x00", ((w+7)/8*((h+7)/8)*bits*components+7)/8)
	return []byte("\xff\xd8" + segment(0xee, "Adobe\x00\x64\x00\x00\x00\x00"+string([]byte{byte(components) & 1})) +
		segment(0xdb, "\x00"+strings.Repeat("\x01", 64)) + segment(byte(frame), size+string([]byte{byte(components)})+parts) +
		segment(0xc4, "\x00"+one) + segment(0xc4, "\x10"+one) +
		segment(0xda, string([]byte{byte(components)})+scanned+string([]byte{0, last, 0})) + zeros + "\xff\xd9")
}

// rawTIFF is a TIFF file of shrunk tiles, all of which lie in the same place. Source: TIFF 6.0
// (1992), pp. 13-16 and 67.
func rawTIFF(w, h int) []byte {
	const side = 256
	var tile bytes.Buffer
	z := zlib.NewWriter(&tile)
	z.Write(make([]byte, 3*side*side))
	noError(z.Close())
	tiles := (w + side - 1) / side * ((h + side - 1) / side)
	le := binary.LittleEndian
	data := append(le.AppendUint32([]byte("II*\x00"), 0), tile.Bytes()...)
	list := func(value int) (at int) {
		at = len(data)
		for range tiles {
			data = le.AppendUint32(data, uint32(value))
		}
		return at
	}
	places, lengths, depths := list(8), list(tile.Len()), len(data)
	data = append(data, 8, 0, 8, 0, 8, 0)
	le.PutUint32(data[4:], uint32(len(data)))
	tags := [][4]int{{256, 4, 1, w}, {257, 4, 1, h}, {258, 3, 3, depths}, {259, 3, 1, 8}, {262, 3, 1, 2}, {277, 3, 1, 3},
		{322, 3, 1, side}, {323, 3, 1, side}, {324, 4, tiles, places}, {325, 4, tiles, lengths}}
	data = le.AppendUint16(data, uint16(len(tags)))
	for _, t := range tags {
		data = le.AppendUint16(le.AppendUint16(data, uint16(t[0])), uint16(t[1]))
		data = le.AppendUint32(le.AppendUint32(data, uint32(t[2])), uint32(t[3]))
	}
	return append(data, 0, 0, 0, 0)
}

// rawWebP is a lossless WebP file in which no pixel takes a bit: each of its five trees has one
// leaf. Source: RFC 9649 (2024), 3.4 to 3.7.
func rawWebP(w, h int) []byte {
	body := binary.LittleEndian.AppendUint32([]byte{0x2f}, uint32(w-1)|uint32(h-1)<<14)
	body = append(body, 0x88, 0x88, 0x08, 0) // no transform, cache or meta trees; then 1 0 0 0 five times, from the lowest bit up
	file := append([]byte("RIFF"), binary.LittleEndian.AppendUint32(nil, uint32(4+8+len(body)))...)
	file = append(file, "WEBPVP8L"...)
	return append(binary.LittleEndian.AppendUint32(file, uint32(len(body))), body...)
}

// peakOf runs a command held to a limit of its own, in bytes, or to the program's where that is
// 0. It returns the most memory that it took, in bytes.
func peakOf(t *testing.T, limit int64, args ...string) (peak int64, said string, code int) {
	t.Helper()
	var env []string
	if limit > 0 {
		env = []string{"GOMEMLIMIT=" + strconv.FormatInt(limit, 10)}
	}
	peak, e := desktest.Peak(t, env, args...)
	return peak, e.Err, e.Code
}

func fileOf(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// roomSaid finds what a picture takes, in MB, in the sentence that refuses it.
var roomSaid = regexp.MustCompile(`it takes (\d+) MB of memory, and there is room for \d+ MB`)

// A picture of any kind takes no more memory than the sentence says that refuses it, and where
// it is refused none. In a long run each is read at full size within what the program may take.
func TestPicturesTakeWhatIsSaid(t *testing.T) {
	const side, least = 2100, 22_000_000 // just enough to be asked about
	base, _, _ := peakOf(t, 0, "read", "--no-families", fileOf(t, "dot.png", pngOf(rows(1, 1, 255))))
	for _, name := range lawtest.Some(slices.Sorted(maps.Keys(pictureKinds)), 2) {
		write := pictureKinds[name]
		t.Run(name, func(t *testing.T) {
			path := fileOf(t, name, write(side, side))
			peak, said, _ := peakOf(t, least, "read", "--no-families", path)
			takes := roomSaid.FindStringSubmatch(said)
			if takes == nil || peak > base+slack {
				t.Fatalf("it is refused with %d MB more, and %q", (peak-base)/1e6, said)
			}
			mb, _ := strconv.ParseInt(takes[1], 10, 64)
			peak, said, code := peakOf(t, least+mb*1e6, "read", "--no-families", path)
			if code != 0 || peak > base+mb*1e6+slack {
				t.Errorf("it takes %d MB, not the %d MB that are said: %s", (peak-base)/1e6, mb, said)
			}
			if !lawtest.Long() {
				return
			}
			noError(os.WriteFile(path, write(10_000, 10_000), 0o600))
			peak, said, code = peakOf(t, 0, "read", path)
			if peak > wholePeak || code != 0 && !roomSaid.MatchString(said) {
				t.Errorf("at full size it takes %d MB: %s", peak/1e6, said)
			}
			t.Logf("%d MB, %s", peak/1e6, said)
		})
	}
}

// Each command takes little more than its pictures. In a long run this holds at full size.
func TestCommandsTakeLittleMore(t *testing.T) {
	const side, little = 2100, 60_000_000
	dot := fileOf(t, "dot.png", pngOf(rows(1, 1, 255)))
	base, _, _ := peakOf(t, 0, "read", dot)
	write := pictureKinds["half clear.png"]
	path, out := fileOf(t, "half clear.png", write(side, side)), t.TempDir()
	for i, command := range [][]string{
		{"read"}, {"palette"}, {"compare", path}, {"sheet", "-o", filepath.Join(out, "x.pdf")}, {"sheet", "-o", filepath.Join(out, "x.json")},
		{"sheet", "--picture", "-o", filepath.Join(out, "y.png")}, {"sheet", "-o", filepath.Join(out, "x.ora")},
	} {
		bytes := int64(4 * side * side)
		if command[0] == "compare" || i == 6 { // of two, with their difference; of one and the paper under it
			bytes *= 2
		}
		peak, said, code := peakOf(t, bytes+little, append(command, path)...)
		if code != 0 || peak > base+bytes+little {
			t.Errorf("%v takes %d MB, for %d MB of pixels: %s", command[:1], (peak-base)/1e6, bytes/1e6, said)
		}
	}
	if !lawtest.Long() {
		return
	}
	noError(os.WriteFile(path, pictureKinds["rgb.png"](10_000, 10_000), 0o600))
	for _, ending := range []string{".pdf", ".png", ".ora", ".json"} {
		peak, said, code := peakOf(t, 0, "sheet", "-o", filepath.Join(out, "z"+ending), path)
		t.Logf("%s: %d MB", ending, peak/1e6)
		if code != 0 || peak > wholePeak {
			t.Errorf("%s takes %d MB: %s", ending, peak/1e6, said)
		}
	}
}

// Pictures that are read at the same time share the memory: what has no room beside others waits, and
// none is refused.
func TestManyPicturesShareTheMemory(t *testing.T) {
	const side, count, limit = 1400, 8, 130_000_000 // 24 MB each while they are decoded, and what families take
	base, _, _ := peakOf(t, 0, "read", fileOf(t, "dot.png", pngOf(rows(1, 1, 255))))
	path := fileOf(t, "16 bits.png", pictureKinds["16 bits.png"](side, side))
	paths := slices.Repeat([]string{path}, count)
	peak, said, code := peakOf(t, limit, append([]string{"read"}, paths...)...)
	if code != 0 || peak > base+limit {
		t.Errorf("%d pictures take %d MB beside %d MB, held to %d MB: %s", count, (peak-base)/1e6, base/1e6, int(limit/1e6), said)
	}
	t.Logf("%d MB more", (peak-base)/1e6)
}

// Headers that lie about a size are refused in a sentence, before memory is taken.
func TestLyingHeadersTakeNothing(t *testing.T) {
	dot := pngOf(rows(1, 1, 255))
	base, _, _ := peakOf(t, 0, "read", fileOf(t, "dot.png", dot))
	wide := bytes.Clone(dot)
	binary.BigEndian.PutUint32(wide[16:], 60_000)
	binary.BigEndian.PutUint32(wide[20:], 60_000)
	binary.BigEndian.PutUint32(wide[29:], crc32.ChecksumIEEE(wide[12:29]))
	strip := rawTIFF(64, 64)
	strip = bytes.Replace(strip, []byte{66, 1, 3, 0, 1, 0, 0, 0, 0, 1, 0, 0}, []byte{66, 1, 4, 0, 1, 0, 0, 0, 0xf0, 0xff, 0xff, 0x7f}, 1) // tiles that wide
	for name, data := range map[string][]byte{
		"wide.png": wide, "tile.tif": strip, "none.webp": rawWebP(16383, 16383), "few.jpg": rawJPEG(65500, 8, 0xc2, 3)[:400],
		"row.png": rawPNG(100_001, 1, 8, 2, 0, ""), "column.png": rawPNG(1, 100_001, 8, 2, 0, ""),
	} {
		peak, said, code := peakOf(t, 0, "read", fileOf(t, name, data))
		if code != 1 || peak > base+slack || strings.Count(said, "\n") != 1 || !strings.HasPrefix(said, "Can't ") {
			t.Errorf("%s: code %d, %d MB more, %s", name, code, (peak-base)/1e6, said)
		}
	}
}

// The window takes a picture file once, however it is laid over paper, read and copied.
func TestWindowTakesAPictureOnce(t *testing.T) {
	const side, little = 5000, 60_000_000
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	peak := func(args ...string) int64 {
		w := desktest.OpenOn(t, server, "", nil, args...)
		if len(args) == 0 {
			w.ShowDemo()
		}
		w.WaitFor("the picture", func(l desktest.Shown) bool { return l.Event == "shown" })
		if len(args) > 0 {
			w.Key("ctrl+s") // keeps it
			w.WaitFor("it kept", func(l desktest.Shown) bool { return strings.Contains(l.Message, "Kept") })
		}
		status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", w.Cmd.Process.Pid))
		if err != nil {
			t.Fatal(err)
		}
		w.Quit()
		var kb int64
		_, after, _ := strings.Cut(string(status), "VmHWM:")
		fmt.Sscan(after, &kb)
		return kb * 1024
	}
	base := peak()
	got := peak(fileOf(t, "half clear.png", pictureKinds["half clear.png"](side, side)))
	if pixels := int64(4 * side * side); got > base+pixels+pixels/4+little { // and the lightness of each
		t.Errorf("it takes %d MB, for %d MB of pixels", (got-base)/1e6, pixels/1e6)
	}
}
