// Command thirdparty prints THIRD_PARTY.md: the licence texts of all modules and fonts
// that the built program carries on Linux, Windows and macOS. Run it by make notices.
//
// Which modules these are it asks of go list, with the build tags of the Makefile; the
// texts it reads from the modules' own folders. A module or a font without a text is an
// error: nothing is left out.
package main
