// Package colour has the formulas: one a file, from the code of a colour to its light, its
// lightness, value, layer grey, chroma and hue, and back, and the difference of two colours. All of
// them are of sRGB; Space brings the numbers of other colour spaces to its light.
// It knows colours, not pictures.
//
// The sources that the functions name stand in the package comment of analysis.
package colour
