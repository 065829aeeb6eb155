// A screen that sends pictures. See screen_linux.c.
#include <stdint.h>

struct screen;

// A picture of a screen: all of it is of one colour.
struct shows {
	uint32_t format, width, height, stride;
	unsigned char pixel[4];
	int32_t crop[2];
	uint32_t crop_size[2]; // none: not told of
	int32_t flags;         // of the picture: 1 is a picture that failed
	uint32_t offset;
};

const char *screen_load(void);
struct screen *screen_open(int fd, const void *format, const void **wished, uint32_t many);
uint32_t screen_node(struct screen *s, int32_t *state, uint32_t *settled, const char **words);
int screen_show(struct screen *s, const struct shows *now);
int screen_renew(struct screen *s, const void **params, uint32_t many);
void screen_close(struct screen *s);
