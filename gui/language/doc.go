// Package language puts the program's sentences into the reader's language: English, German,
// Japanese or Spanish. The English sentence is the key; the others stand in words/, a file a
// language, in the toolkit's own format, and come through the toolkit's package lang.
//
// English is spoken until Use is called, so that a test says what it reads. The language is the
// process's own, as the toolkit's is: Use once, at the start, before sentences are made.
//
// What follows a ¦ in a key tells apart what English says alike, and is never shown.
//
// Beside the window it is the one room of words that knows the toolkit, of which lang links the
// core's types and neither drawing nor a window. TERMS.md has the trade's words in each language.
package language
