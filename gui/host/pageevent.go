package host

// PageEvent is what a page may want to know of, beside new figures.
type PageEvent uint8

const (
	StillsChanged     PageEvent = iota // stills were kept, deleted or named
	NotesSaved                         // what is marked on a still is on the disk
	FolderChanged                      // the folder of stills is another, perhaps by another window
	NoteChanged                        // another still or note is selected, or its words are others
	NoteWordsAsked                     // the painter is to write the words of the selected note
	MeasuredChanged                    // other parts are painted as light and shadow
	ToolChanged                        // another tool for drawing, or none
	ComparisonChanged                  // two pictures are compared in another way, or no longer
	FamiliesFound                      // local colours were looked for
	LightRead                          // what they say of the light was read
	FocusMeasured                      // where the contrast is, or the eye should go, is another
	KeptAsked                          // the part of a page with the stills that were kept
	NotesAsked                         // with the tools for drawing
	ComparisonAsked                    // where two pictures are compared
)
