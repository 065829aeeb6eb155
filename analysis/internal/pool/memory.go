package pool

// Resized returns a slice of n elements, s itself if it is long enough. Its content means
// nothing.
func Resized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}
