// Package sheet lays a still out on pages to be exported: on the first the picture with its
// notes, its greys, its bands, its spread with groups, its families, and what the notes say; behind
// it, part by part, what else was found. All
// words but headings come from whoever calls; the page is drawn as a picture, by package ink as the
// notes are, or written as a PDF file with the same lines, letters and pictures.
//
// Places on a page count millimetres from its top left.
package sheet
