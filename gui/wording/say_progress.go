package wording

import "fmt"

// SayProgress says how many of the pictures are read.
func SayProgress(done, of int) string { return fmt.Sprintf("%d of %d pictures read", done, of) }
