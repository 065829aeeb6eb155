// Package live turns frames into what is shown: it reads them, paints the view, the loupe and
// the small picture beside, reads the spots, and has local colours looked for. It has no
// widgets: what it made is handed over by a function.
package live
