package lean

/*
#include <malloc.h>

#ifdef M_ARENA_MAX
// Each thread that draws would take an arena of its own, and none gives much back. Two keep
// two cores from waiting for each other. Pictures of the driver that draws lie outside of them,
// so that they go when they are let go of: by itself the library moves that limit up to 32 MB,
// with each that goes.
__attribute__((constructor)) static void settle(void) {
	mallopt(M_ARENA_MAX, 2);
	mallopt(M_MMAP_THRESHOLD, 128 * 1024);
	mallopt(M_TRIM_THRESHOLD, 128 * 1024);
}

static void trim(void) { malloc_trim(0); }
#else
static void trim(void) {}
#endif
*/
import "C"

// trim has the C library give back what lies free between what is used.
func trim() { C.trim() }
