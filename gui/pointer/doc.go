// Package pointer reads what lies under the pointer, anywhere on the screen, while that is switched on:
// ten times a second, into the strip and the loupe of the window and, if that is wished, into a chip
// beside the pointer.
//
// Nothing is asked of the system while it is off, and while the pointer is over the mirror, which reads
// its own source. The chip takes no click, never lies on what is read, and is left out of the figures:
// it is said to lie somewhere before it goes there, and no longer only once a picture was shown that
// was read after it had left. The room knows callbacks, and not the controller.
package pointer
