package stills

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/profile"
)

// profileName stands in the chunk beside a profile; the profile has a name of its own.
const profileName = "ICC profile"

// spaceChunk returns the chunk that says what samples stand for: sRGB, to be rendered perceptually,
// or a profile. Source: W3C PNG Specification, Third Edition, 11.3.2.3 (iCCP), 11.3.2.5 (sRGB).
func spaceChunk(space *colour.Space) []byte {
	if space == nil {
		return chunkOf("sRGB\x00")
	}
	var b bytes.Buffer
	b.WriteString("iCCP" + profileName + "\x00\x00")
	w := zlib.NewWriter(&b)
	w.Write(profile.Write(space)) // into memory: it can't fail
	w.Close()
	return chunkOf(b.String())
}

// chunkOf returns a chunk of a type and a body (the same, 5.3).
func chunkOf(typed string) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(typed)-4))
	b = append(b, typed...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

// spaceIn returns the space of a picture of ours, from the chunk behind its header; nil for sRGB,
// and for a picture that somebody else wrote in its place, whose chunks are in another order.
func spaceIn(file io.ReaderAt) (*colour.Space, error) {
	var head [8]byte
	if _, err := file.ReadAt(head[:], headSize); err != nil || string(head[4:]) != "iCCP" {
		return nil, nil
	}
	body := io.NewSectionReader(file, headSize+int64(len(head)), int64(binary.BigEndian.Uint32(head[:])))
	named := make([]byte, len(profileName)+2)
	if _, err := io.ReadFull(body, named); err != nil || string(named) != profileName+"\x00\x00" {
		return nil, nil
	}
	r, err := zlib.NewReader(body)
	if err != nil {
		return nil, fmt.Errorf("its profile: %w", err)
	}
	data, err := io.ReadAll(io.LimitReader(r, profile.MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("its profile: %w", err)
	}
	space, err := profile.Read(data)
	if err != nil {
		return nil, err
	}
	return space.Known(), nil
}
