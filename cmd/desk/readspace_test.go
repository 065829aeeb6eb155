package main

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"hash/crc32"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/stills"
)

// The fullest red of Display P3 is read as that, and said to be. Source: display_spaces_to_lab.csv
// (P3, CSS4, CIE15).
func TestReadInTheFilesColours(t *testing.T) {
	const lightness, chroma, hue = 54.966557, 133.546794, 45.2055
	red := image.NewNRGBA(image.Rect(0, 0, 12, 8))
	for i := 0; i < len(red.Pix); i += 4 {
		copy(red.Pix[i:], []byte{255, 0, 0, 255})
	}
	var file bytes.Buffer
	if err := stills.WritePNGIn(&file, red, colour.DisplayP3); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "red.png")
	if err := os.WriteFile(path, file.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	e := desktest.Run(t, "", "read", "--json", "--spots", "3,3", path)
	e.PlainErrors(t, 0)
	var said struct {
		Space     struct{ Name, From string }
		Lightness struct{ Mean float64 }
		Spots     []struct {
			Colour                 string
			Lightness, Chroma, Hue float64
		}
	}
	if err := json.Unmarshal([]byte(e.Out), &said); err != nil {
		t.Fatal(err)
	}
	if said.Space.Name != "Display P3" || said.Space.From != "icc" {
		t.Errorf("read in %+v", said.Space)
	}
	if off := math.Abs(said.Lightness.Mean - lightness); off > 0.5/colour.BinsPerLightness {
		t.Errorf("mean lightness %.3f, want %.3f to half a bin", said.Lightness.Mean, lightness)
	}
	spot := said.Spots[0]
	if math.Abs(spot.Lightness-lightness) > 0.01 || math.Abs(spot.Chroma-chroma) > 0.01 || math.Abs(spot.Hue-hue) > 0.01 || spot.Colour != "#ff0000" {
		t.Errorf("the spot is %+v", spot)
	}
	if e := desktest.Run(t, "", "read", path); !strings.Contains(e.Out, "read in Display P3, as its file says") {
		t.Errorf("the report doesn't name the colours:\n%s", e.Out)
	}
}

// Of a file that tells its colours twice, what isn't asked is named. Source of the order: W3C PNG
// Specification, Third Edition, 4.3.
func TestWhatIsOverriddenIsSaid(t *testing.T) {
	var file bytes.Buffer
	if err := stills.WritePNGIn(&file, opaqueGrey(), colour.AdobeRGB); err != nil {
		t.Fatal(err)
	}
	const head = 8 + 25             // signature and header chunk
	chunk := "cICP\x0c\x0d\x00\x01" // Display P3, whatever the profile says
	told := binary.BigEndian.AppendUint32(bytes.Clone(file.Bytes()[:head]), uint32(len(chunk)-4))
	told = binary.BigEndian.AppendUint32(append(told, chunk...), crc32.ChecksumIEEE([]byte(chunk)))
	path := filepath.Join(t.TempDir(), "twice.png")
	if err := os.WriteFile(path, append(told, file.Bytes()[head:]...), 0o600); err != nil {
		t.Fatal(err)
	}
	e := desktest.Run(t, "", "read", path)
	e.PlainErrors(t, 0)
	if !strings.Contains(e.Out, "read in Display P3") || !strings.Contains(e.Out, "not asked  its profile: something else") {
		t.Errorf("it says\n%s", e.Out)
	}
	if e := desktest.Run(t, "", "read", "--json", path); !strings.Contains(e.Out, `"from":"cicp","overridden":["icc"]`) {
		t.Errorf("in JSON it says\n%.300s", e.Out)
	}
}

// High dynamic range is refused in a sentence, and a profile that is none.
func TestRefusedColoursAreSaid(t *testing.T) {
	var plain bytes.Buffer
	if err := png.Encode(&plain, image.NewNRGBA(image.Rect(0, 0, 4, 4))); err != nil {
		t.Fatal(err)
	}
	const head = 8 + 25 // signature and header chunk
	for chunk, want := range map[string]string{
		"cICP\x09\x10\x00\x01": "high dynamic range",
		"cICP\x01\x0d\x01\x01": "tells its colours in a way that isn't read here",
		"iCCPx\x00\x00nothing": "its colour profile is damaged",
	} {
		file := bytes.Clone(plain.Bytes()[:head])
		file = binary.BigEndian.AppendUint32(file, uint32(len(chunk)-4))
		file = append(file, chunk...)
		file = binary.BigEndian.AppendUint32(file, crc32.ChecksumIEEE([]byte(chunk)))
		path := filepath.Join(t.TempDir(), "told.png")
		if err := os.WriteFile(path, append(file, plain.Bytes()[head:]...), 0o600); err != nil {
			t.Fatal(err)
		}
		e := desktest.Run(t, "", "read", path)
		e.PlainErrors(t, 1)
		if !strings.Contains(e.Err, want) {
			t.Errorf("%.4s: %q lacks %q", chunk, e.Err, want)
		}
	}
}

// A JPEG file of four inks is refused in a sentence (ITU-T T.81, B.2.2: four components).
func TestRefusedInksAreSaid(t *testing.T) {
	file := "\xff\xd8\xff\xc0\x00\x14\x08\x00\x08\x00\x08\x04\x01\x11\x00\x02\x11\x00\x03\x11\x00\x04\x11\x00\xff\xda\x00\x0e" + strings.Repeat("\x00", 200)
	path := filepath.Join(t.TempDir(), "inks.jpg")
	if err := os.WriteFile(path, []byte(file), 0o600); err != nil {
		t.Fatal(err)
	}
	e := desktest.Run(t, "", "read", path)
	e.PlainErrors(t, 1)
	if !strings.Contains(e.Err, "it is a picture of inks (CMYK), whose light depends on paper and press; export a copy in RGB") {
		t.Errorf("it says %q", e.Err)
	}
}

// opaqueGrey is a small picture that is all there.
func opaqueGrey() *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 4, 4))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	return img
}
