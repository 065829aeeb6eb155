// Package ink draws lines, filled shapes and letters over any picture, so that they stay
// legible whatever lies below: a light core with a dark rim, both neutral.
//
// It draws by tiles of a fixed grid, so that a part drawn anew is, to the last bit, what a
// drawing of the whole would have put there.
//
// Letters are those of the built-in typefaces, and of East Asia those that Borrow brings.
package ink
