// Package lawtest says how far the tests of laws go. They run in one of two ways:
//
//   - On a few cases, the same every time: go test. A test fails today or never.
//   - On many, with rapid other ones every time: make laws, which sets TONEDESK_LONG to 1. A
//     law that fails says how to try its case again.
//
// Every package whose tests try laws with rapid imports it, if only for that.
package lawtest
