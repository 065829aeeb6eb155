// Package proposals has the parts of the page of colours: where to begin from, what to paint
// next to it, two spots side by side, and the palette of the picture.
package proposals
