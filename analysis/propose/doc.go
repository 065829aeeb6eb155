// Package propose makes colours to paint next from one that is there: lights and shadows by
// tones, accents of equal lightness, lines, one spot at another's lightness; and it judges a
// shadow that the painter chose.
//
// All are made in Oklch, brought into the display's gamut by their chroma, rounded to 8 bits,
// and searched among the neighbours for the code that keeps what was promised.
package propose
