// What the library calls on its own thread, and what Go asks of it. See source_linux.c.
#include <stdint.h>

enum { most_format = 1024, most_words = 256 };

struct source;

// What is known of a source at one moment; the pointers hold as long as its lock is.
struct look {
	int32_t state;             // of the stream: -1 error, 0 none, 1 connecting, 2 paused, 3 streaming
	uint64_t number;           // of the newest picture, from 1; 0: none yet
	const unsigned char *data; // of the newest picture; NULL: it is no more
	uint32_t room;             // bytes of data
	uint32_t offset;
	int32_t stride;
	int32_t crop[2];           // top left, and size; of no size: all
	uint32_t crop_size[2];
	const unsigned char *format;
	uint32_t format_size;      // bytes; 0: none was agreed on
	const char *words;         // of an error
};

// Loads the library; NULL, or why not.
const char *pw_load(void);
// Connects a new source over fd, which it takes, to a node. NULL on failure, with errno. wake is an
// eventfd of the caller's, written to whenever there may be something new.
struct source *pw_open(int fd, uint32_t node, int wake, const void *offered, const void **wished, uint32_t many);
void pw_lock(struct source *s);
void pw_look(struct source *s, struct look *out);
void pw_unlock(struct source *s);
void pw_close(struct source *s);
