package colour

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// RGB is an 8-bit sRGB colour.
type RGB struct{ R, G, B uint8 }

// Hex returns the colour as "#rrggbb".
func (c RGB) Hex() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// MarshalText writes the colour as "#rrggbb".
func (c RGB) MarshalText() ([]byte, error) { return []byte(c.Hex()), nil }

// UnmarshalText reads what Parse reads, and changes nothing where that fails.
func (c *RGB) UnmarshalText(text []byte) error {
	read, err := Parse(string(text))
	if err == nil {
		*c = read
	}
	return err
}

// Neutral reports whether the colour is a grey: R = G = B.
func (c RGB) Neutral() bool { return c.R == c.G && c.G == c.B }

// ErrColour is wrapped by the errors of Parse.
var ErrColour = errors.New("not a colour")

// Parse reads a colour as #rgb, #rrggbb or rgb(r g b), with whole r, g and b from 0
// to 255 and spaces or single commas between them. Letters may be of either case, and
// spaces may stand around. The error wraps ErrColour.
func Parse(s string) (RGB, error) {
	text := strings.ToLower(strings.TrimSpace(s))
	var c RGB
	var ok bool
	switch {
	case strings.HasPrefix(text, "#"):
		c, ok = parseHex(text[1:])
	case strings.HasPrefix(text, "rgb(") && strings.HasSuffix(text, ")"):
		c, ok = parseTriple(text[len("rgb(") : len(text)-1])
	}
	if !ok {
		return RGB{}, fmt.Errorf("colour %q: %w", shortened(s), ErrColour)
	}
	return c, nil
}

// shortened keeps an error readable whatever was given.
func shortened(s string) string {
	const most = 40
	runes := []rune(s)
	if len(runes) <= most {
		return s
	}
	return string(runes[:most]) + "…"
}

func parseHex(digits string) (RGB, bool) {
	if len(digits) == 3 {
		d := digits
		digits = string([]byte{d[0], d[0], d[1], d[1], d[2], d[2]})
	}
	if len(digits) != 6 {
		return RGB{}, false
	}
	n, err := strconv.ParseUint(digits, 16, 32) // which takes no signs
	return RGB{uint8(n >> 16), uint8(n >> 8), uint8(n)}, err == nil
}

func parseTriple(text string) (RGB, bool) {
	parts := strings.Split(text, ",")
	if len(parts) == 1 {
		parts = strings.Fields(text)
	}
	if len(parts) != 3 {
		return RGB{}, false
	}
	var v [3]uint8
	for i, part := range parts {
		n, err := strconv.ParseUint(strings.TrimSpace(part), 10, 8)
		if err != nil {
			return RGB{}, false
		}
		v[i] = uint8(n)
	}
	return RGB{v[0], v[1], v[2]}, true
}

// OnEdge reports whether a code lies on the gamut's edge: a channel can't go on.
func (c RGB) OnEdge() bool { return min(c.R, c.G, c.B) == 0 || max(c.R, c.G, c.B) == 255 }
