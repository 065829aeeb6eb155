package lean

/*
#include <malloc.h>

// Each thread that draws would take an arena of its own, and none gives much back. Two keep
// two cores from waiting for each other.
#ifdef M_ARENA_MAX
__attribute__((constructor)) static void fewArenas(void) { mallopt(M_ARENA_MAX, 2); }
#endif
*/
import "C"
