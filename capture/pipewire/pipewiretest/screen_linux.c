//go:build cgo

#include <errno.h>
#include <stdbool.h>
#include <stdlib.h>

#include "../library_linux.h"
#include "screen_linux.h"

enum { meta_crop = 2, direction_output = 1, map_buffers = 4, driver = 8 };

static uint32_t (*stream_get_node_id)(void *);
static int (*stream_trigger_process)(void *);
static bool (*stream_is_driving)(void *);
static const struct function more[] = {
	{"pw_stream_get_node_id", &stream_get_node_id}, {"pw_stream_trigger_process", &stream_trigger_process},
	{"pw_stream_is_driving", &stream_is_driving},
};

const char *screen_load(void) { return load(more, sizeof more / sizeof *more); }

struct screen {
	void *loop, *context, *core, *stream;
	struct hook hook;
	const void **wished;
	uint32_t many;
	int32_t state;
	uint32_t settled; // how often a format was
	char words[256];
	struct shows now;
};

static void on_state(void *of, int old, int state, const char *error) {
	struct screen *s = of;
	(void)old;
	s->state = state;
	if (error != NULL) strncpy(s->words, error, sizeof s->words - 1);
}

static void on_param(void *of, uint32_t id, const struct pod *param) {
	struct screen *s = of;
	if (id != 4 || param == NULL) return;
	s->settled++;
	pw.stream_update_params(s->stream, s->wished, s->many);
}

static int paint(struct screen *s) {
	struct pw_buffer *b = pw.stream_dequeue_buffer(s->stream);
	if (b == NULL) return -EPIPE;
	struct data *d = &b->buffer->datas[0];
	d->chunk->offset = s->now.offset;
	d->chunk->stride = s->now.stride;
	d->chunk->flags = s->now.flags;
	d->chunk->size = s->now.stride * s->now.height;
	for (uint32_t y = 0; y < s->now.height; y++)
		for (uint32_t x = 0; x < s->now.width; x++) {
			size_t at = s->now.offset + y * s->now.stride + 4 * x;
			if (at + 4 <= d->maxsize) memcpy((char *)d->data + at, s->now.pixel, 4);
		}
	for (uint32_t i = 0; i < b->buffer->n_metas; i++) {
		struct meta *m = &b->buffer->metas[i];
		if (m->type != meta_crop || m->size < 16) continue;
		memcpy(m->data, s->now.crop, 8);
		memcpy((char *)m->data + 8, s->now.crop_size, 8);
	}
	return pw.stream_queue_buffer(s->stream, b);
}

static const struct stream_events events = { .version = 0, .state_changed = on_state, .param_changed = on_param };

struct screen *screen_open(int fd, const void *format, const void **wished, uint32_t many) {
	struct screen *s = calloc(1, sizeof *s);
	s->wished = wished;
	s->many = many;
	s->loop = pw.thread_loop_new("screen", NULL);
	s->context = pw.context_new(pw.thread_loop_get_loop(s->loop), NULL, 0);
	if ((s->core = pw.context_connect_fd(s->context, fd, NULL, 0)) == NULL) return NULL;
	s->stream = pw.stream_new(s->core, "test screen", pw.properties_new("media.class", "Video/Source", "node.name", "test-screen", (char *)NULL));
	pw.stream_add_listener(s->stream, &s->hook, &events, s);
	if (pw.stream_connect(s->stream, direction_output, 0xffffffff, map_buffers | driver, &format, 1) < 0) return NULL;
	pw.thread_loop_start(s->loop);
	return s;
}

uint32_t screen_node(struct screen *s, int32_t *state, uint32_t *settled, const char **words) {
	pw.thread_loop_lock(s->loop);
	uint32_t node = stream_get_node_id(s->stream);
	*state = s->state == 3 && !stream_is_driving(s->stream) ? 2 : s->state;
	*settled = s->settled;
	*words = s->words;
	pw.thread_loop_unlock(s->loop);
	return node;
}

int screen_show(struct screen *s, const struct shows *now) {
	pw.thread_loop_lock(s->loop);
	s->now = *now;
	int r = paint(s);
	if (r >= 0) r = stream_trigger_process(s->stream);
	pw.thread_loop_unlock(s->loop);
	return r;
}

int screen_renew(struct screen *s, const void **params, uint32_t many) {
	pw.thread_loop_lock(s->loop);
	int r = pw.stream_update_params(s->stream, params, many);
	pw.thread_loop_unlock(s->loop);
	return r;
}

void screen_close(struct screen *s) {
	pw.thread_loop_stop(s->loop);
	pw.stream_destroy(s->stream);
	pw.core_disconnect(s->core);
	pw.context_destroy(s->context);
	pw.thread_loop_destroy(s->loop);
	free(s);
}
