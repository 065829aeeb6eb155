// Package pictures brings captured frames and picture files to the analysis.
package pictures
