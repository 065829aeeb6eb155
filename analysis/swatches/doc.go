// Package swatches writes proposed and found colours down for a painter to pick up: as a
// picture of flat swatches, as custom properties of CSS, as a list of hex codes, as text.
// No format belongs to one program.
//
// # Sources
//
//   - CSSVARS: W3C CSS Custom Properties for Cascading Variables Module Level 1.
//   - CSS4: W3C CSS Color Module Level 4: hexadecimal notation, oklch().
//   - PNG: W3C Portable Network Graphics (PNG) Specification: chunks, the sRGB chunk.
package swatches
