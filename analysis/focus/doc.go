// Package focus measures where a picture's contrast is strongest: of lightness and of chroma, at
// three scales, with how sharp the edges are there, and whether the lightest light and the darkest
// dark stand alone. Places that the painter marks are held against the strongest of all.
//
// It says contrast, and nothing of attention: the eye also goes to faces, to words, and to what
// it looks for, none of which is measured.
//
// It works on a picture of Longest cells: what is finer than a cell is gone there by the mean of its
// light, as grain is, and scales are shares of the picture however large it is. A picture of
// fewer pixels is taken as it is, and what is said of it is coarser.
//
// # Contrast
//
// A band of scales is the picture blurred by one Gaussian minus the picture blurred by one of twice
// its width. Divided by the latter, the local mean, it is the local band-limited contrast of
// PELI90; it is taken of luminance, so a step counts by how large it is beside the light around
// it. The bands of a* and b* are not divided: their chroma is drawn together by a logarithm before, as
// DIN99 has it, which does the same. They are brought to the measure of the first by what lies as far
// apart in L*a*b* (contrast.go).
//
// How strong a place is, is the root of the mean of all squared contrast in it, weighed by a
// Gaussian around its middle. What lies outside of the picture or is left out has none.
//
// # Sources
//
//   - PELI90: Peli, E., Contrast in complex images, J. Opt. Soc. Am. A 7 (1990) 2032-2040: contrast
//     in a band is the band-pass picture over the low-pass picture of all that is below it. From memory.
//   - DIN99: DIN 6176:2001-03, C99 of the chroma before it, ln(1 + 0.045 G)/0.045. From memory.
//   - CIE15: CIE 15:2004, CIE 1976 L*a*b*; see package colour.
//   - The options say where each of them comes from.
package focus
