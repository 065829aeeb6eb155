package gui

// pageEvent is what a page may want to know of, beside new figures.
type pageEvent uint8

const (
	stillsChanged     pageEvent = iota // stills were kept, deleted or named
	notesSaved                         // what is marked on a still is on the disk
	noteChanged                        // another still or note is selected, or its words are others
	noteWordsAsked                     // the painter is to write the words of the selected note
	measuredChanged                    // other parts are painted as light and shadow
	toolChanged                        // another tool for drawing, or none
	comparisonChanged                  // two pictures are compared in another way, or no longer
	familiesFound                      // local colours were looked for
	shelfAsked                         // the part of a page with the stills that were kept
	marksAsked                         // with the tools for drawing
	comparisonAsked                    // with what was compared
)
