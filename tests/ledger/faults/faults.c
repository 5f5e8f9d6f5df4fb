/*
 * A file layer that fails on command: preloaded into a process, it counts the calls made on files below $FAULT_DIR and
 * makes the n-th of one kind fail once, or kills the process right before it. Control and counts go through calls on
 * paths that cannot exist, or through FAULT_ARM=CALL/N/ERRNO from the start of the process; ERRNO 0 kills:
 *   readlink("/fault/arm/CALL/N/ERRNO")   from now on the N-th CALL fails; N = 0: none
 *   readlink("/fault/count/CALL")         how many there were since the last arming
 *   readlink("/fault/fired")              how many failed
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

enum { OPEN, READ, WRITE, SYNC, TRUNCATE, RENAME, UNLINK, KINDS };
static const char *names[KINDS] = {"open", "read", "write", "sync", "truncate", "rename", "unlink"};
static int counts[KINDS];
static int armed = -1, armed_at, armed_errno, fired;

/* the oldest form of it, so that a library built here loads where the C library is older */
#if defined(__x86_64__) && defined(__GLIBC__)
__asm__(".symver dlsym,dlsym@GLIBC_2.2.5");
#endif

static void *next_of(const char *name) { return dlsym(RTLD_NEXT, name); }

static int ours(const char *path) {
  const char *dir = getenv("FAULT_DIR");
  return dir && path && strncmp(path, dir, strlen(dir)) == 0;
}

static ssize_t real_readlink(const char *path, char *out, size_t n) {
  static ssize_t (*real)(const char *, char *, size_t);
  if (!real) real = next_of("readlink");
  return real(path, out, n);
}

static int our_fd(int fd) {
  char link[64], path[4096];
  snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
  ssize_t n = real_readlink(link, path, sizeof path - 1);
  if (n <= 0) return 0;
  path[n] = 0;
  return ours(path);
}

/* 1: this call is to fail, with errno set */
static int fails(int kind) {
  counts[kind]++;
  if (kind != armed || counts[kind] != armed_at) return 0;
  fired++;
  if (armed_errno == 0) kill(getpid(), SIGKILL);
  errno = armed_errno;
  return 1;
}

/* which kind stands at the beginning of this text, and what follows it; -1: none */
static int kind_of(const char *text, const char **rest) {
  for (int k = 0; k < KINDS; k++) {
    size_t n = strlen(names[k]);
    if (strncmp(text, names[k], n) != 0 || (text[n] != '/' && text[n] != 0)) continue;
    *rest = text + n;
    return k;
  }
  return -1;
}

/* "CALL/N/ERRNO" */
static void arm(const char *text) {
  const char *rest = "";
  memset(counts, 0, sizeof counts);
  fired = 0;
  armed = kind_of(text, &rest);
  armed_at = *rest ? atoi(rest + 1) : 0;
  const char *code = *rest ? strchr(rest + 1, '/') : 0;
  armed_errno = code ? atoi(code + 1) : 0;
  if (armed_at <= 0) armed = -1;
}

__attribute__((constructor)) static void armed_from_start(void) {
  const char *text = getenv("FAULT_ARM");
  if (text) arm(text);
}

ssize_t readlink(const char *path, char *out, size_t n) {
  if (strncmp(path, "/fault/", 7) != 0) return real_readlink(path, out, n);
  const char *rest = "";
  int value = fired;
  if (strncmp(path, "/fault/arm/", 11) == 0) {
    arm(path + 11);
    value = 0;
  } else if (strncmp(path, "/fault/count/", 13) == 0) {
    int kind = kind_of(path + 13, &rest);
    value = kind < 0 ? 0 : counts[kind];
  }
  return snprintf(out, n, "%d", value);
}

#define FD_CALL(ret, name, kind, params, args)        \
  ret name params {                                   \
    static ret(*real) params;                         \
    if (!real) real = next_of(#name);                 \
    if (our_fd(fd) && fails(kind)) return -1;         \
    return real args;                                 \
  }

FD_CALL(ssize_t, pwrite, WRITE, (int fd, const void *b, size_t n, off_t at), (fd, b, n, at))
FD_CALL(ssize_t, pwrite64, WRITE, (int fd, const void *b, size_t n, off64_t at), (fd, b, n, at))
FD_CALL(ssize_t, write, WRITE, (int fd, const void *b, size_t n), (fd, b, n))
FD_CALL(ssize_t, pread, READ, (int fd, void *b, size_t n, off_t at), (fd, b, n, at))
FD_CALL(ssize_t, pread64, READ, (int fd, void *b, size_t n, off64_t at), (fd, b, n, at))
FD_CALL(ssize_t, read, READ, (int fd, void *b, size_t n), (fd, b, n))
FD_CALL(int, fsync, SYNC, (int fd), (fd))
FD_CALL(int, fdatasync, SYNC, (int fd), (fd))
FD_CALL(int, ftruncate, TRUNCATE, (int fd, off_t n), (fd, n))
FD_CALL(int, ftruncate64, TRUNCATE, (int fd, off64_t n), (fd, n))

int rename(const char *from, const char *to) {
  static int (*real)(const char *, const char *);
  if (!real) real = next_of("rename");
  return ours(to) && fails(RENAME) ? -1 : real(from, to);
}

int unlink(const char *path) {
  static int (*real)(const char *);
  if (!real) real = next_of("unlink");
  return ours(path) && fails(UNLINK) ? -1 : real(path);
}

#define OPEN_CALL(name)                                              \
  int name(const char *path, int flags, ...) {                       \
    static int (*real)(const char *, int, ...);                      \
    if (!real) real = next_of(#name);                                \
    va_list more;                                                    \
    va_start(more, flags);                                           \
    int mode = va_arg(more, int);                                    \
    va_end(more);                                                    \
    return ours(path) && fails(OPEN) ? -1 : real(path, flags, mode); \
  }
OPEN_CALL(open)
OPEN_CALL(open64)
