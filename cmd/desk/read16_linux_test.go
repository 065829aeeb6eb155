package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"

	"golang.org/x/image/tiff"

	"app.tonedesk/cmd/desk/desktest"
)

// lightnessOf16 is L* of a grey of 16 bits, written out: IEC 61966-2-1:1999 and CIE 15:2004.
func lightnessOf16(v int) float64 {
	e, y := float64(v)/65535, 0.0
	if e <= 0.04045 {
		y = e / 12.92
	} else {
		y = math.Pow((e+0.055)/1.055, 2.4)
	}
	if y <= 216.0/24389 {
		return 24389.0 / 27 * y
	}
	return 116*math.Cbrt(y) - 16
}

// A ramp of eight greys, all of them one grey in 8 bits, is told apart in files of 16, and so are
// pictures of two of them. Source: lightnessOf16.
func TestSixteenBitsAreKept(t *testing.T) {
	const first, step, wide = 0x8000, 16, 6
	for name, write := range map[string]func(image.Image) []byte{
		"png": func(m image.Image) []byte {
			var b bytes.Buffer
			noError(png.Encode(&b, m))
			return b.Bytes()
		},
		"tif": func(m image.Image) []byte {
			var b bytes.Buffer
			noError(tiff.Encode(&b, m, &tiff.Options{Compression: tiff.Deflate}))
			return b.Bytes()
		},
	} {
		ramp, paths := image.NewRGBA64(image.Rect(0, 0, 8*wide, wide)), []string(nil)
		spots, mean := "", 0.0
		for i := range 8 {
			grey := image.NewGray16(image.Rect(0, 0, wide, wide))
			for at := range wide * wide {
				v := color.Gray16{Y: uint16(first + step*i)}
				grey.SetGray16(at%wide, at/wide, v)
				ramp.Set(i*wide+at%wide, at/wide, v)
			}
			paths = append(paths, fileOf(t, fmt.Sprintf("%d.%s", i, name), write(grey)))
			spots += fmt.Sprintf(";%d,3", i*wide+3)
			mean += lightnessOf16(first+step*i) / 8
		}
		var said struct {
			Lightness struct{ Mean, P1, P50, P99 float64 }
			Spots     []struct{ Lightness, Chroma float64 }
		}
		readJSON(t, &said, "read", "--json", "--spots", spots[1:], fileOf(t, "ramp."+name, write(ramp)))
		for i, s := range said.Spots {
			if want := lightnessOf16(first + step*i); math.Abs(s.Lightness-want) > 0.0005 || s.Chroma > 1e-9 {
				t.Errorf("%s: spot %d has L* %.5f and chroma %g, want %.5f", name, i, s.Lightness, s.Chroma, want)
			}
		}
		for _, l := range [][2]float64{{said.Lightness.Mean, mean}, {said.Lightness.P1, lightnessOf16(first)}, {said.Lightness.P99, lightnessOf16(first + 7*step)}} {
			if math.Abs(l[0]-l[1]) > 0.0005 {
				t.Errorf("%s: the ramp reads %.5f, want %.5f", name, l[0], l[1])
			}
		}
		for i := 1; i < len(paths); i++ {
			var change struct {
				Difference float64 `json:"lightness_difference"`
			}
			readJSON(t, &change, "compare", "--json", paths[i-1], paths[i])
			if want := lightnessOf16(first+step*i) - lightnessOf16(first+step*(i-1)); math.Abs(change.Difference-want) > 0.0008 {
				t.Errorf("%s: from %d to %d it is %.5f L*, want %.5f", name, i-1, i, change.Difference, want)
			}
		}
	}
}

// readJSON runs a command that prints one report.
func readJSON(t *testing.T, into any, args ...string) {
	t.Helper()
	e := desktest.Run(t, "", args...)
	e.PlainErrors(t, 0)
	if err := json.Unmarshal([]byte(e.Out), into); err != nil {
		t.Fatalf("%v: %s", err, e.Out)
	}
}
