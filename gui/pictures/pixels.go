package pictures

import (
	"errors"
	"fmt"
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
	"app.tonedesk/capture/picturefile"
)

// Pixels returns a captured frame as the analysis reads it. No byte is copied.
func Pixels(f *capture.Frame) analysis.Pixels {
	layout := analysis.RGBA
	if f.Layout == capture.BGRX {
		layout = analysis.BGRX
	}
	space, _ := f.Space.(*colour.Space)
	return analysis.Pixels{Pix: f.Pix, Rest: f.Rest, Stride: f.Stride, Width: f.Size.X, Height: f.Size.Y, Layout: layout, Space: space}
}

// OfFile returns a picture that was read from a file as the analysis reads it, in the colours that
// the file says, and what of it says them. No byte is copied. For errors see SpaceOf.
func OfFile(p *picturefile.Picture) (analysis.Pixels, Told, error) {
	space, by, err := SpaceOf(p.Colours)
	told := Told{By: by, Overridden: overridden(p.Colours, by)}
	if err != nil {
		return analysis.Pixels{}, told, err
	}
	return analysis.Pixels{Pix: p.Pix, Rest: p.Rest, Stride: p.Stride, Width: p.Size.X, Height: p.Size.Y, Layout: analysis.RGBA, Space: space}, told, nil
}

// Open reads a picture file. For errors see OfFile and picturefile.Open.
func Open(path string) (analysis.Pixels, Told, error) {
	picture, err := picturefile.Open(path)
	if err != nil {
		return analysis.Pixels{}, Told{}, err
	}
	p, told, err := OfFile(picture)
	if err != nil {
		return p, told, fmt.Errorf("open picture %q: %w", path, err)
	}
	return p, told, nil
}

// Follow returns the stream of a picture file, laid over white where it is partly transparent:
// in place, since there may not be memory for both.
func Follow(path string) (capture.Stream, error) {
	return picturefile.Follow(path, func(picture *picturefile.Picture) error {
		p, _, err := OfFile(picture)
		if err == nil {
			p.LayOver(analysis.White)
			picture.Space = p.Space
		}
		return err
	})
}

// Copy returns a copy in memory of its own, as RGBA of 8 bits. What is transparent stays so.
func Copy(p analysis.Pixels) analysis.Pixels {
	img := image.NewRGBA(p.Bounds())
	c := analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: p.Width, Height: p.Height, Layout: analysis.RGBA, Space: p.Space}
	if p.Layout == analysis.BGRX {
		CopyOpaque(img, p)
		return c
	}
	for y := range p.Height {
		copy(c.Row(y), p.Row(y))
	}
	return c
}

// CopyOpaque copies a picture of img's size, with its alpha made 255.
func CopyOpaque(img *image.RGBA, p analysis.Pixels) {
	red, blue := 0, 2
	if p.Layout == analysis.BGRX {
		red, blue = 2, 0
	}
	for y := range p.Height {
		from, to := p.Row(y), img.Pix[y*img.Stride:][:4*p.Width]
		for i := 0; i < len(from); i += 4 {
			to[i], to[i+1], to[i+2], to[i+3] = from[i+red], from[i+1], from[i+blue], 255
		}
	}
}

// ErrUncounted says that a picture has no pixel to count.
var ErrUncounted = errors.New("nothing to count")

// ReadOpaque reads a picture file, with ground under what is partly transparent.
func ReadOpaque(path string, ground colour.RGB) (analysis.Pixels, error) {
	p, _, err := Open(path)
	if err != nil {
		return analysis.Pixels{}, err
	}
	p.LayOver(ground) // it is ours alone
	return p, nil
}

// ReadTarget reads a picture file as a target, split as grouping says, with ground under what is
// partly transparent.
func ReadTarget(path string, grouping analysis.Options, ground colour.RGB) (*analysis.Target, error) {
	p, err := ReadOpaque(path, ground)
	if err != nil {
		return nil, err
	}
	return analysis.NewTarget(analysis.Read(p, grouping)), nil
}
