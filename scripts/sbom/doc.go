// Command sbom prints what a built program is made of as a CycloneDX 1.5 document in JSON: Go
// and all modules, with their versions and checksums, as the program itself names them. The
// same program, version and time give the same bytes.
//
//	sbom -version VERSION -time SECONDS PROGRAM
//
// Source: CycloneDX 1.5, JSON (cyclonedx.org); package URLs of type golang
// (github.com/package-url/purl-spec). Fonts and licence texts are in THIRD_PARTY.md.
package main
