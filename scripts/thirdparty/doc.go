// Command thirdparty prints THIRD_PARTY.md: the licence texts of all modules and fonts
// that the built program carries on Linux, Windows and macOS. Run it by make notices.
//
// It asks go list which modules these are, with the build tags of the Makefile, and reads the
// texts from the modules' own folders. A module or a font without a text is an
// error: nothing is left out.
package main
