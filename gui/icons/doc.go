// Package icons holds the window's pictograms: drawn for it, each one filled path on a grid of
// 24 units with strokes of 2. Who shows one gives it a grey of the theme.
package icons
