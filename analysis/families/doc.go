// Package families finds local colours that are painted as a light side and a shadow side,
// with the accent at their edge and the line around them, and says how they do by the trade's
// rules of thumb. The window says local colour for what is called a family here.
//
// Finder.Find names the steps of the search in order; each has a file of its own. Their sources
// stand in the package comment of analysis.
package families
