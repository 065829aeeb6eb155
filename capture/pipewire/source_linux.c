//go:build cgo

// One source of pictures, as the library's thread sees it.
#include <errno.h>
#include <stdbool.h>
#include <stdlib.h>
#include <unistd.h>

#include "library_linux.h"
#include "source_linux.h"

enum { param_format = 4, meta_header = 1, meta_crop = 2, corrupted = 1, header_corrupted = 2, direction_input = 0 };
enum { autoconnect = 1, map_buffers = 4, dont_reconnect = 128 }; // the last: never another source in place of this one

const char *pw_load(void) { return load(NULL, 0); }

struct source {
	void *loop, *context, *core, *stream;
	struct hook hook;
	int wake;
	const void **wished;
	uint32_t many;
	struct pw_buffer *held; // the newest picture: not given back before there is a newer one
	uint64_t number;
	int32_t state;
	uint32_t format_size;
	unsigned char format[most_format];
	char words[most_words];
};

static void tell(struct source *s) {
	uint64_t one = 1;
	ssize_t ignored = write(s->wake, &one, sizeof one); // it fails only where it was told already
	(void)ignored;
}

static void on_state(void *of, int old, int state, const char *error) {
	struct source *s = of;
	(void)old;
	s->state = state;
	if (error != NULL) strncpy(s->words, error, most_words - 1);
	tell(s);
}

static void on_param(void *of, uint32_t id, const struct pod *param) {
	struct source *s = of;
	if (id != param_format) return;
	s->held = NULL; // its buffers go
	s->format_size = 0;
	if (param == NULL || param->size > most_format - sizeof *param) return;
	s->format_size = sizeof *param + param->size;
	memcpy(s->format, param, s->format_size);
	pw.stream_update_params(s->stream, s->wished, s->many);
}

static void on_remove(void *of, struct pw_buffer *b) {
	struct source *s = of;
	if (s->held == b) s->held = NULL;
}

static const struct meta *find(const struct spa_buffer *b, uint32_t type, uint32_t size) {
	for (uint32_t i = 0; i < b->n_metas; i++)
		if (b->metas[i].type == type && b->metas[i].size >= size) return &b->metas[i];
	return NULL;
}

// A buffer may come with news of the pointer alone, or with a picture that failed.
static bool has_picture(const struct spa_buffer *b) {
	if (b->n_datas < 1 || b->datas[0].data == NULL || b->datas[0].chunk == NULL) return false;
	const struct chunk *c = b->datas[0].chunk;
	const struct meta *header = find(b, meta_header, sizeof(uint32_t));
	return c->size > 0 && !(c->flags & corrupted) && !(header != NULL && *(const uint32_t *)header->data & header_corrupted);
}

static void on_process(void *of) {
	struct source *s = of;
	struct pw_buffer *b;
	bool news = false;
	while ((b = pw.stream_dequeue_buffer(s->stream)) != NULL) {
		if (!has_picture(b->buffer)) {
			pw.stream_queue_buffer(s->stream, b);
			continue;
		}
		if (s->held != NULL) pw.stream_queue_buffer(s->stream, s->held);
		s->held = b;
		s->number++;
		news = true;
	}
	if (news) tell(s);
}

static const struct stream_events events = {
	.version = 0, .state_changed = on_state, .param_changed = on_param, .remove_buffer = on_remove, .process = on_process,
};

void pw_close(struct source *s) {
	if (s->loop != NULL) pw.thread_loop_stop(s->loop);
	if (s->stream != NULL) pw.stream_destroy(s->stream);
	if (s->core != NULL) pw.core_disconnect(s->core);
	if (s->context != NULL) pw.context_destroy(s->context);
	if (s->loop != NULL) pw.thread_loop_destroy(s->loop);
	free(s);
}

struct source *pw_open(int fd, uint32_t node, int wake, const void *offered, const void **wished, uint32_t many) {
	struct source *s = calloc(1, sizeof *s);
	if (s == NULL) {
		close(fd);
		return NULL;
	}
	s->wake = wake;
	s->wished = wished;
	s->many = many;
	int failed = 0;
	if ((s->loop = pw.thread_loop_new("screen", NULL)) == NULL ||
		(s->context = pw.context_new(pw.thread_loop_get_loop(s->loop), NULL, 0)) == NULL) {
		failed = errno;
		close(fd);
	} else if ((s->core = pw.context_connect_fd(s->context, fd, NULL, 0)) == NULL) { // closes it
		failed = errno;
	} else if ((s->stream = pw.stream_new(s->core, "screen", pw.properties_new("media.type", "Video", "media.category", "Capture", "media.role", "Screen", (char *)NULL))) == NULL) {
		failed = errno;
	} else {
		pw.stream_add_listener(s->stream, &s->hook, &events, s);
		int r = pw.stream_connect(s->stream, direction_input, node, autoconnect | map_buffers | dont_reconnect, &offered, 1);
		if (r >= 0) r = pw.thread_loop_start(s->loop);
		failed = r < 0 ? -r : 0;
	}
	if (s->stream == NULL || failed != 0) {
		pw_close(s);
		errno = failed != 0 ? failed : EIO;
		return NULL;
	}
	return s;
}

void pw_lock(struct source *s) { pw.thread_loop_lock(s->loop); }
void pw_unlock(struct source *s) { pw.thread_loop_unlock(s->loop); }

void pw_look(struct source *s, struct look *out) {
	memset(out, 0, sizeof *out);
	out->state = s->state;
	out->number = s->number;
	out->format = s->format;
	out->format_size = s->format_size;
	out->words = s->words;
	if (s->held == NULL) return;
	const struct spa_buffer *b = s->held->buffer;
	out->data = b->datas[0].data;
	out->room = b->datas[0].maxsize;
	out->offset = out->room > 0 ? b->datas[0].chunk->offset % out->room : 0;
	out->stride = b->datas[0].chunk->stride;
	const struct meta *crop = find(b, meta_crop, sizeof out->crop + sizeof out->crop_size);
	if (crop != NULL) {
		memcpy(out->crop, crop->data, sizeof out->crop);
		memcpy(out->crop_size, (const char *)crop->data + sizeof out->crop, sizeof out->crop_size);
	}
}
