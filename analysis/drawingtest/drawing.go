package drawingtest

import (
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// Drawing is a drawing with what is true of it.
type Drawing struct {
	Name     string
	Pixels   analysis.Pixels
	Families []Truth
}

// Truth is a local colour that is painted as a light and a shadow side.
type Truth struct {
	Name          string
	Light, Shadow Side
	Within        image.Rectangle // if not empty, where both sides of a report lie
	Near          float64         // CIEDE2000 up to which a colour is a side's
	Sure          bool
}

// Side is one side's colour, those that count as well, and a place that shows the colour.
type Side struct {
	Colours []colour.Lab // the first is the main one
	At      image.Point
}

// written is a drawing as testdata has it.
type written struct {
	File     string
	Ground   string
	Size     [2]int
	Families []struct {
		Name       string
		Light      string
		Shadow     string
		LightAt    [2]int   `json:"light_at"`
		ShadowAt   [2]int   `json:"shadow_at"`
		AlsoLight  []string `json:"also_light"`
		AlsoShadow []string `json:"also_shadow"`
		Within     *[4]int
		Near       float64
		Sure       bool
	}
}

// Folder is where Debian's package puts the drawings.
const Folder = "/usr/share/openclipart/svg"

// ErrNone says that there is nothing to judge with.
var ErrNone = errors.New("the drawings can't be rendered: install Debian's openclipart-svg and librsvg2-bin")

// Load renders the drawings of a folder of truths, in the order of their names; at scale 1 as
// the truths were written down for, 1100 by 900 pixels at most.
func Load(truths string, scale float64) ([]Drawing, error) {
	names, err := filepath.Glob(filepath.Join(truths, "*.json"))
	if err != nil || len(names) == 0 {
		return nil, fmt.Errorf("no drawings in %s: %w", truths, err)
	}
	if _, err := os.Stat(Folder); err != nil {
		return nil, ErrNone
	}
	if _, err := exec.LookPath("rsvg-convert"); err != nil {
		return nil, ErrNone
	}
	var all []Drawing
	for _, name := range names {
		d, err := load(name, scale)
		if err != nil {
			return nil, fmt.Errorf("drawing %s: %w", name, err)
		}
		all = append(all, d)
	}
	return all, nil
}

func load(name string, scale float64) (d Drawing, err error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return d, err
	}
	var w written
	if err = json.Unmarshal(data, &w); err != nil {
		return d, err
	}
	d.Name = strings.TrimSuffix(filepath.Base(name), ".json")
	if d.Pixels, err = render(filepath.Join(Folder, w.File), w.Ground, scale); err != nil {
		return d, err
	}
	if scale == 1 && (d.Pixels.Width != w.Size[0] || d.Pixels.Height != w.Size[1]) {
		return d, fmt.Errorf("rendered as %d x %d, the truth is for %v", d.Pixels.Width, d.Pixels.Height, w.Size)
	}
	at := func(x, y int) image.Point {
		return image.Pt(int(scale*(float64(x)+0.5)), int(scale*(float64(y)+0.5)))
	}
	for _, f := range w.Families {
		t := Truth{Name: f.Name, Near: f.Near, Sure: f.Sure}
		if t.Near == 0 {
			t.Near = usuallyNear
		}
		if f.Within != nil {
			t.Within = image.Rectangle{at(f.Within[0], f.Within[1]), at(f.Within[2], f.Within[3])}
		}
		if t.Light, err = side(at(f.LightAt[0], f.LightAt[1]), append([]string{f.Light}, f.AlsoLight...)); err != nil {
			return d, err
		}
		if t.Shadow, err = side(at(f.ShadowAt[0], f.ShadowAt[1]), append([]string{f.Shadow}, f.AlsoShadow...)); err != nil {
			return d, err
		}
		d.Families = append(d.Families, t)
	}
	return d, nil
}

func side(at image.Point, codes []string) (s Side, err error) {
	s.At = at
	for _, code := range codes {
		c, err := colour.Parse(code)
		if err != nil {
			return s, err
		}
		s.Colours = append(s.Colours, analysis.SpotOf(c).Lab)
	}
	return s, nil
}

// Render draws an SVG of the package on a ground, as the drawings with truths are at scale 1.
func Render(svg, ground string) (analysis.Pixels, error) { return render(svg, ground, 1) }

// render draws an SVG on a ground.
func render(svg, ground string, scale float64) (p analysis.Pixels, err error) {
	cmd := exec.Command("rsvg-convert", "-w", fmt.Sprint(int(1100*scale)), "-h", fmt.Sprint(int(900*scale)), "-a", "-b", ground, svg)
	out, err := cmd.StdoutPipe()
	if err != nil {
		return p, err
	}
	if err = cmd.Start(); err != nil {
		return p, err
	}
	img, err := png.Decode(out)
	if waited := cmd.Wait(); err == nil {
		err = waited
	}
	if err != nil {
		return p, err
	}
	rgba := image.NewRGBA(img.Bounds())
	draw.Draw(rgba, rgba.Rect, img, image.Point{}, draw.Src)
	return analysis.Pixels{Pix: rgba.Pix, Stride: rgba.Stride, Width: rgba.Rect.Dx(), Height: rgba.Rect.Dy(), Layout: analysis.RGBA}, nil
}
