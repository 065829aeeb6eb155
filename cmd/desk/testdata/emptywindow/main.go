// Command emptywindow opens an empty window of the toolkit: what an idle program costs that does
// nothing. "once" has it end once it has drawn itself: how long the toolkit needs to start. "shows X Y W
// H" has it show what that part of the screen shows, made small, and nothing else: how soon the toolkit
// can show a change. "draws" has it say whether a picture can be drawn between two of the toolkit's turns.
package main

import (
	"context"
	"fmt"
	"image"
	"log"
	"os"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/capture"
	"app.tonedesk/cmd/desk/drawing"
)

func main() {
	a := app.NewWithID("empty")
	w := a.NewWindow("empty")
	w.Resize(fyne.NewSize(380, 760))
	switch {
	case len(os.Args) == 6:
		w.SetPadded(false)
		w.SetContent(shows(a, region(os.Args[2:])))
	case len(os.Args) > 1 && os.Args[1] == "draws":
		w.SetContent(draws(a))
	case len(os.Args) > 1:
		a.Lifecycle().SetOnStarted(func() { go fyne.Do(a.Quit) }) // after the first frame
	}
	w.ShowAndRun()
}

// region returns a part of the screen by its corner and size.
func region(words []string) image.Rectangle {
	var n [4]int
	for i := range n {
		n[i], _ = strconv.Atoi(words[i])
	}
	return image.Rect(n[0], n[1], n[0]+n[2], n[1]+n[3])
}

// draws returns a picture that counts how often it is drawn: once, after the first frame, it is changed
// and drawn, and the program says how often that was before the toolkit's loop had its next turn.
func draws(a fyne.App) fyne.CanvasObject {
	drawn := 0
	picture := canvas.NewRaster(func(int, int) image.Image { drawn++; return image.NewRGBA(image.Rect(0, 0, 1, 1)) })
	a.Lifecycle().SetOnStarted(func() {
		go fyne.Do(func() {
			before, now := drawn, drawing.By(a.Driver())
			picture.Refresh()
			now()
			now() // nothing is left to be drawn
			fmt.Println("drawn", drawn-before)
			os.Exit(0)
		})
	})
	return picture
}

// shows returns a picture of a part of the screen, as large as the program's mirror, that is renewed as
// soon as the server tells of a change.
func shows(a fyne.App, part image.Rectangle) fyne.CanvasObject {
	img := image.NewRGBA(image.Rect(0, 0, 364, 364*part.Dy()/part.Dx()))
	picture := canvas.NewRaster(func(int, int) image.Image { return img })
	picture.ScaleMode = canvas.ImageScalePixels
	picture.Resize(fyne.NewSize(float32(img.Rect.Dx()), float32(img.Rect.Dy())))
	a.Lifecycle().SetOnStarted(func() {
		go func() {
			if err := follow(part, img, picture); err != nil {
				log.Fatal(err)
			}
		}()
	})
	return container.NewWithoutLayout(picture)
}

// follow renews the picture for ever.
func follow(part image.Rectangle, img *image.RGBA, picture *canvas.Raster) error {
	backend, err := capture.Pick(os.Getenv)
	if err != nil {
		return err
	}
	stream, err := backend.Open(context.Background(), part)
	if err != nil {
		return err
	}
	var f capture.Frame
	for {
		changed, err := stream.Grab(context.Background(), &f)
		if err != nil {
			return err
		}
		if changed {
			small := image.NewRGBA(img.Rect)
			shrink(small, &f)
			fyne.DoAndWait(func() {
				*img = *small
				picture.Refresh()
			})
		}
		<-stream.(capture.Notifier).Changes()
	}
}

// shrink takes a pixel for each of the small picture's.
func shrink(small *image.RGBA, f *capture.Frame) {
	size := small.Rect.Size()
	for y := range size.Y {
		for x := range size.X {
			from := f.Pix[y*f.Size.Y/size.Y*f.Stride+x*f.Size.X/size.X*4:]
			to := small.Pix[small.PixOffset(x, y):]
			to[0], to[1], to[2], to[3] = from[2], from[1], from[0], 255
		}
	}
}
