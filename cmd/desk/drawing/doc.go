// Package drawing draws the window at once. The toolkit draws what was changed at its next turn, of
// which it has sixty a second, so that a new picture waits for up to 17 ms, where drawing itself takes
// about 10. It has no call for that; what is called is the method by which it draws at a turn, bound by
// name. Where a later toolkit has none of that name, the program can't be linked; where another driver
// runs, nothing is done, and the toolkit draws as it does anyway.
package drawing
