package picturefile

import (
	"errors"
	"fmt"

	"app.tonedesk/capture/header"
	"app.tonedesk/capture/plainfile"
)

// What can go wrong with a picture file, beside fs.ErrNotExist and
// fs.ErrPermission.
var (
	// ErrNotPicture: the bytes are of no picture format that we read.
	ErrNotPicture = errors.New("not a picture")
	// ErrTruncated: the file ends before the picture does.
	ErrTruncated = errors.New("picture cut short")
	// ErrDamaged: a picture format that we read, with contents that make no sense.
	ErrDamaged = errors.New("picture damaged")
	// ErrKind: a picture, of a kind that we do not read (such as a TIFF in parts that
	// our decoder lacks, or an animation without a still).
	ErrKind = errors.New("kind of picture not supported")
	// ErrNoMerged: an OpenRaster file without its merged image; it wraps ErrKind.
	ErrNoMerged = fmt.Errorf("no merged image: %w", ErrKind)
	// ErrManyParts: an OpenRaster file of more parts than we look through; it wraps ErrHuge.
	ErrManyParts = fmt.Errorf("more than %d parts: %w", mostParts, ErrHuge)
	// ErrHuge: the picture claims more than MaxPixels pixels or MaxSide on a side, or the
	// file more than MaxFileBytes bytes.
	ErrHuge = errors.New("picture too large")
	// ErrInks: a picture of inks (CMYK), not of light.
	ErrInks = errors.New("picture of inks")
	// ErrProfile: what the file says of its colours makes no sense.
	ErrProfile = header.ErrProfile
	// ErrEmptyFile: the file has no bytes.
	ErrEmptyFile = errors.New("file is empty")
	// ErrDirectory: the path is a directory, not a file.
	ErrDirectory = plainfile.ErrFolder
	// ErrNotFile: the path is a device, a pipe or a socket.
	ErrNotFile = plainfile.ErrNotPlain
)
