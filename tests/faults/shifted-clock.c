/* Loaded before the C library: the time of day of this process alone, shifted by the seconds that a file holds. */
#define _GNU_SOURCE
#include <fcntl.h>
#include <stdint.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <sys/syscall.h>
#include <sys/time.h>
#include <time.h>
#include <unistd.h>

static volatile int64_t *shift;

__attribute__((constructor)) static void begin(void) {
  const char *name = getenv("SHIFT_FILE");
  int file = name == NULL ? -1 : open(name, O_RDONLY);
  if (file < 0) return;
  void *seen = mmap(NULL, sizeof *shift, PROT_READ, MAP_SHARED, file, 0);
  if (seen != MAP_FAILED) shift = seen;
  close(file);
}

int clock_gettime(clockid_t clock, struct timespec *at) {
  int failed = (int)syscall(SYS_clock_gettime, clock, at);
  if (failed == 0 && shift != NULL && (clock == CLOCK_REALTIME || clock == CLOCK_REALTIME_COARSE)) at->tv_sec += *shift;
  return failed;
}

int gettimeofday(struct timeval *restrict at, void *restrict zone) {
  struct timespec now;
  (void)zone;
  int failed = clock_gettime(CLOCK_REALTIME, &now);
  at->tv_sec = now.tv_sec;
  at->tv_usec = now.tv_nsec / 1000;
  return failed;
}

time_t time(time_t *at) {
  struct timespec now;
  clock_gettime(CLOCK_REALTIME, &now);
  if (at != NULL) *at = now.tv_sec;
  return now.tv_sec;
}
