package picturefile

import (
	"errors"
	"fmt"
	"image"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"app.tonedesk/capture"
	"app.tonedesk/capture/header"
	"app.tonedesk/capture/plainfile"
)

// Limits for picture files. Our choices: a page of 10,000 by 10,000 pixels is what a
// painter's machine still turns over, and such a page has 800 MB at 16 bits a channel; a
// strip for the screen is some 1,000 by 100,000. Whether there is memory for a picture that
// keeps to them is for package memory to say.
const (
	MaxPixels    = 100_000_000
	MaxSide      = 100_000 // pixels
	MaxFileBytes = 1 << 30
)

// Picture is a decoded picture: RGBA rows with straight alpha, upright. Its numbers are those of
// the file, which may stand for other colours than sRGB's: see Colours.
type Picture struct {
	Pix    []byte
	Rest   []byte // of files with 16 bits a channel, see capture.Frame; else nil
	Stride int
	Size   image.Point
	// Colours is what the file says of its colours.
	Colours header.Colours
	Space   any         // of its frames, see capture.Frame
	path    string      // of the file, absolute; empty: from memory
	info    fs.FileInfo // of the file, as it was when it was read
}

// Open reads the picture file at path: png, jpeg, gif (its first picture),
// bmp, tiff, webp or ora (its layers merged), turned upright as its Exif data say.
// Errors wrap fs.ErrNotExist, fs.ErrPermission, ErrDirectory, ErrNotFile,
// ErrEmptyFile, ErrNotPicture, ErrTruncated, ErrDamaged, ErrKind, ErrInks, ErrProfile, ErrHuge or
// *memory.Full.
// A size beyond the limits, or for which there is no room, is refused before anything of that
// size is set up.
func Open(path string) (*Picture, error) {
	p, err := openPicture(path)
	if err != nil {
		return nil, fmt.Errorf("open picture %q: %w", path, bareError(err))
	}
	return p, nil
}

func openPicture(path string) (*Picture, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	f, info, err := plainfile.Open(path, os.O_RDONLY)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if err := mayBePicture(f, info); err != nil {
		return nil, err
	}
	p, err := decode(&header.Source{From: f, Size: info.Size()}, MaxPixels)
	if err != nil {
		return nil, err
	}
	p.path, p.info = path, info
	return p, nil
}

// Needs returns how large the picture file at path is, in pixels, and how many bytes of memory
// Open takes for it at most, by its header; none of a file that it would refuse.
func Needs(path string) (pixels, bytes int64) {
	defer func() {
		if recover() != nil { // a decoder's: Open says so
			pixels, bytes = 0, 0
		}
	}()
	f, info, err := plainfile.Open(path, os.O_RDONLY)
	if err != nil {
		return 0, 0
	}
	defer f.Close()
	l, err := lookAt(&header.Source{From: f, Size: info.Size()})
	if err != nil || l.config.Width <= 0 || l.config.Height <= 0 || l.config.Width > MaxSide || l.config.Height > MaxSide {
		return 0, 0
	}
	return int64(pixelsOf(l.config)), int64(l.takes)
}

// Decode decodes the contents of a picture file, as Open does.
func Decode(data []byte) (*Picture, error) {
	p, err := decode(header.SourceOf(data), MaxPixels)
	if err != nil {
		return nil, fmt.Errorf("decode picture: %w", err)
	}
	return p, nil
}

// Stream returns a stream that gives the picture. If it came out of a file, the
// stream follows the file: when that is saved again, the new picture is a change.
func (p *Picture) Stream() capture.Stream {
	return &pictureStream{picture: p}
}

// Follow opens a picture file, as Open does, and returns its stream. Each
// picture is prepared before it is handed out: it may be written to then, and not after. An error
// is as if it could not be opened.
func Follow(path string, prepare func(*Picture) error) (capture.Stream, error) {
	p, err := Open(path)
	if err != nil {
		return nil, err
	}
	if err := prepare(p); err != nil {
		return nil, fmt.Errorf("open picture %q: %w", path, err)
	}
	return &pictureStream{picture: p, prepare: prepare}, nil
}

// NewStream returns a stream that gives one picture, RGBA rows with straight
// alpha, for ever. Nobody may write to it any more.
func NewStream(pix []byte, stride int, size image.Point) capture.Stream {
	return (&Picture{Pix: pix, Stride: stride, Size: size}).Stream()
}

// mayBePicture looks at a file's size and its first bytes before all of it is read.
func mayBePicture(f *os.File, info fs.FileInfo) error {
	if info.Size() > MaxFileBytes {
		return fmt.Errorf("%d bytes: %w", info.Size(), ErrHuge)
	}
	head := make([]byte, min(info.Size(), 64)) // longer than how any format begins
	n, err := f.ReadAt(head, 0)
	if err != nil && !errors.Is(err, io.EOF) {
		return err
	}
	_, err = formatOf(head[:n])
	return err
}

// bareError takes the path out of a file error, since the message names it already.
func bareError(err error) error {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return pe.Err
	}
	return err
}
