// Package typeface gives a typeface two signs that figures need and it may lack: the minus
// (U+2212) and the arrow (U+2192). Without them the toolkit borrows both from whatever typeface
// the system has, which spaces them otherwise and sets them on another line; on a system without
// any it draws a box.
//
// Bytes go in and come out; no toolkit. And it finds letters in the system's typefaces, which is the
// one state here.
//
// # Sources
//
//   - OTF: OpenType Font File, ISO/IEC 14496-22, the tables cmap (formats 4 and 12), glyf, head,
//     hhea, hmtx, loca, maxp.
package typeface
