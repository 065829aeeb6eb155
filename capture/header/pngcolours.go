package header

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"io"
)

// PNGColours returns what the chunks of a PNG file say of its colours, as far as they come before the
// pixels, where they have to. Of several of a kind the first counts. Source: W3C PNG Specification,
// Third Edition, 5.3 (chunks), 11.3.2 (colour space information). Check sums are the decoder's task.
func PNGColours(_ *Source, r io.Reader) (c Colours, err error) {
	const signature, longest = 8, MostProfile
	if _, err := io.CopyN(io.Discard, r, signature); err != nil {
		return c, nil // what is wrong with the file the decoder says
	}
	seen := map[string]bool{}
	for {
		var head [8]byte
		if _, err := io.ReadFull(r, head[:]); err != nil {
			return c, nil
		}
		length, kind := int64(binary.BigEndian.Uint32(head[:])), string(head[4:])
		if kind == "IDAT" || kind == "IEND" {
			return c, nil
		}
		var body []byte
		if wanted := kind == "cICP" || kind == "iCCP" || kind == "sRGB" || kind == "gAMA" || kind == "cHRM"; wanted && !seen[kind] {
			seen[kind] = true
			if length > longest {
				return c, fmt.Errorf("%s of %d bytes: %w", kind, length, ErrProfile)
			}
			if body, err = io.ReadAll(io.LimitReader(r, length)); err != nil || int64(len(body)) < length {
				return c, nil
			}
			if err := c.takeChunk(kind, body); err != nil {
				return c, err
			}
		}
		const checkSum = 4
		if _, err := io.CopyN(io.Discard, r, length-int64(len(body))+checkSum); err != nil {
			return c, nil
		}
	}
}

// takeChunk takes what a chunk says.
func (c *Colours) takeChunk(kind string, body []byte) (err error) {
	numbers := func(n int) []uint32 {
		list := make([]uint32, n)
		for i := range list {
			list[i] = binary.BigEndian.Uint32(body[4*i:])
		}
		return list
	}
	switch size := len(body); {
	case kind == "cICP" && size == 4:
		c.CodePoints = body
	case kind == "sRGB" && size == 1:
		c.SRGB = true
	case kind == "gAMA" && size == 4:
		c.Gamma = numbers(1)[0]
	case kind == "cHRM" && size == 32:
		c.Primaries = numbers(8)
	case kind == "iCCP":
		_, packed, ok := bytes.Cut(body, []byte{0})
		if !ok || len(packed) < 1 || packed[0] != 0 { // how it is packed: deflate alone
			return fmt.Errorf("chunk iCCP: %w", ErrProfile)
		}
		r, err := zlib.NewReader(bytes.NewReader(packed[1:]))
		if err != nil {
			return fmt.Errorf("chunk iCCP: %w: %w", ErrProfile, err)
		}
		c.Profile, err = profileIn(r)
		return err
	default:
		return fmt.Errorf("chunk %s of %d bytes: %w", kind, size, ErrProfile)
	}
	return nil
}
