// Package picturefile reads picture files: what their headers say, what decoding them will take of
// memory, their pixels, upright; and follows one that is saved again. Everything read from a file is
// checked before anything of its size is set up.
package picturefile
