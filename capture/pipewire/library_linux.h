// The library's structures and functions that are used, declared by ourselves: it keeps them for all
// its versions 0.3 and 1. Sources: PW, SPA (see doc.go).
#include <dlfcn.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

struct pod { uint32_t size, type; };

struct chunk { uint32_t offset, size; int32_t stride, flags; };
struct data { uint32_t type, flags; int64_t fd; uint32_t mapoffset, maxsize; void *data; struct chunk *chunk; };
struct meta { uint32_t type, size; void *data; };
struct spa_buffer { uint32_t n_metas, n_datas; struct meta *metas; struct data *datas; };
struct pw_buffer { struct spa_buffer *buffer; void *user_data; uint64_t size; };
struct hook { void *next, *prev; const void *funcs; void *data; void (*removed)(struct hook *); void *priv; };

struct stream_events {
	uint32_t version;
	void (*destroy)(void *);
	void (*state_changed)(void *, int old, int state, const char *error);
	void (*control_info)(void *, uint32_t, const void *);
	void (*io_changed)(void *, uint32_t, void *, uint32_t);
	void (*param_changed)(void *, uint32_t id, const struct pod *);
	void (*add_buffer)(void *, struct pw_buffer *);
	void (*remove_buffer)(void *, struct pw_buffer *);
	void (*process)(void *);
	void (*drained)(void *);
};

// One that is looked up in the library.
struct function { const char *name; void *to; };

static struct {
	void (*init)(int *, char ***);
	void *(*thread_loop_new)(const char *, const void *);
	void (*thread_loop_destroy)(void *);
	int (*thread_loop_start)(void *);
	void (*thread_loop_stop)(void *);
	void (*thread_loop_lock)(void *);
	void (*thread_loop_unlock)(void *);
	void *(*thread_loop_get_loop)(void *);
	void *(*context_new)(void *, void *, size_t);
	void (*context_destroy)(void *);
	void *(*context_connect_fd)(void *, int, void *, size_t);
	int (*core_disconnect)(void *);
	void *(*properties_new)(const char *, ...);
	void *(*stream_new)(void *, const char *, void *);
	void (*stream_destroy)(void *);
	void (*stream_add_listener)(void *, struct hook *, const struct stream_events *, void *);
	int (*stream_connect)(void *, int, uint32_t, int, const void **, uint32_t);
	int (*stream_update_params)(void *, const void **, uint32_t);
	struct pw_buffer *(*stream_dequeue_buffer)(void *);
	int (*stream_queue_buffer)(void *, struct pw_buffer *);
} pw;

static const struct function functions[] = {
	{"pw_init", &pw.init},
	{"pw_thread_loop_new", &pw.thread_loop_new},
	{"pw_thread_loop_destroy", &pw.thread_loop_destroy},
	{"pw_thread_loop_start", &pw.thread_loop_start},
	{"pw_thread_loop_stop", &pw.thread_loop_stop},
	{"pw_thread_loop_lock", &pw.thread_loop_lock},
	{"pw_thread_loop_unlock", &pw.thread_loop_unlock},
	{"pw_thread_loop_get_loop", &pw.thread_loop_get_loop},
	{"pw_context_new", &pw.context_new},
	{"pw_context_destroy", &pw.context_destroy},
	{"pw_context_connect_fd", &pw.context_connect_fd},
	{"pw_core_disconnect", &pw.core_disconnect},
	{"pw_properties_new", &pw.properties_new},
	{"pw_stream_new", &pw.stream_new},
	{"pw_stream_destroy", &pw.stream_destroy},
	{"pw_stream_add_listener", &pw.stream_add_listener},
	{"pw_stream_connect", &pw.stream_connect},
	{"pw_stream_update_params", &pw.stream_update_params},
	{"pw_stream_dequeue_buffer", &pw.stream_dequeue_buffer},
	{"pw_stream_queue_buffer", &pw.stream_queue_buffer},
};

// Loads the library; NULL, or why not.
static const char *load(const struct function *more, size_t many) {
	void *library = dlopen("libpipewire-0.3.so.0", RTLD_NOW | RTLD_LOCAL);
	if (library == NULL) return dlerror();
	for (size_t i = 0; i < sizeof functions / sizeof *functions + many; i++) {
		const struct function *f = i < many ? &more[i] : &functions[i - many];
		void *found = dlsym(library, f->name);
		if (found == NULL) return f->name;
		memcpy(f->to, &found, sizeof found);
	}
	pw.init(NULL, NULL);
	return NULL;
}
