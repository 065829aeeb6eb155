package capture

import "fmt"

// FormatError says which pixel format of an X display our own backend refuses. It
// is an ErrFormat.
type FormatError struct {
	Depth        int    // significant bits of a pixel
	BitsPerPixel int    // bits of a pixel in memory
	Red          uint32 // masks of the root's visual; 0 where it has a palette
	Green        uint32
	Blue         uint32
	MSBFirst     bool // byte order of the server's images
}

// Error names the format.
func (e *FormatError) Error() string {
	return fmt.Sprintf("depth %d, %d bits a pixel, masks %x %x %x: %v",
		e.Depth, e.BitsPerPixel, e.Red, e.Green, e.Blue, ErrFormat)
}

// Unwrap makes it an ErrFormat.
func (e *FormatError) Unwrap() error { return ErrFormat }

// plainBytes says whether a pixel is the bytes blue, green, red and one without
// meaning, the only format that the portable backend reads rightly: it takes bytes
// 2, 1 and 0 of every four, whatever the display's format, without an error.
func (e *FormatError) plainBytes() bool {
	return e.BitsPerPixel == 32 && !e.MSBFirst &&
		e.Red == 0xff0000 && e.Green == 0xff00 && e.Blue == 0xff
}
