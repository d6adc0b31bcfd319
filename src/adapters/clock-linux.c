/* SPDX-License-Identifier: GPL-3.0-or-later */
/* clock-linux.c: CLOCK_BOOTTIME, CLOCK_REALTIME, the zone, and a timerfd. */
#define _GNU_SOURCE
#include "clock-linux.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/timerfd.h>
#include <time.h>
#include <unistd.h>

#include <gio/gio.h>

#define NS_PER_MS 1000000

static int64_t
read_clock_ms (clockid_t id)
{
  struct timespec now = { 0 };
  clock_gettime (id, &now);
  return (int64_t) now.tv_sec * CARPACE_SECOND_MS + now.tv_nsec / NS_PER_MS;
}

int64_t
carpace_boottime_ms (void)
{
  return read_clock_ms (CLOCK_BOOTTIME);
}

int64_t
carpace_wall_ms (void)
{
  return read_clock_ms (CLOCK_REALTIME);
}

int32_t
carpace_local_offset_s (int64_t wall_ms)
{
  time_t at = (time_t) (wall_ms / CARPACE_SECOND_MS - (wall_ms % CARPACE_SECOND_MS < 0));
  struct tm local = { 0 };
  tzset (); /* localtime_r() by itself need not look again */
  return localtime_r (&at, &local) != NULL ? (int32_t) local.tm_gmtoff : 0;
}

bool
carpace_boot_id (char ret_id[CARPACE_BOOT_ID_BYTES])
{
  ret_id[0] = '\0';
  int fd = open ("/proc/sys/kernel/random/boot_id", O_RDONLY | O_CLOEXEC);
  if (fd < 0)
    return false;
  char text[CARPACE_BOOT_ID_BYTES] = { 0 };
  ssize_t n = read (fd, text, CARPACE_BOOT_ID_BYTES - 1);
  close (fd);
  if (n != CARPACE_BOOT_ID_BYTES - 1)
    return false;
  memcpy (ret_id, text, CARPACE_BOOT_ID_BYTES);
  return true;
}

/* @a less @b. Both may come from a file that somebody has doctored. */
static int64_t
less_ms (int64_t a, int64_t b)
{
  return carpace_sum_ms (a, b == INT64_MIN ? INT64_MAX : -b);
}

CarpaceClockBase
carpace_clock_base_after (const CarpaceClockBase *kept, CarpaceInstant last)
{
  CarpaceClockBase base = { 0 };
  carpace_boot_id (base.boot_id);
  if (kept == NULL)
    return base;
  int64_t boot_ms = carpace_boottime_ms ();
  bool same_boot = base.boot_id[0] != '\0' && strcmp (base.boot_id, kept->boot_id) == 0;
  base.base_ms = kept->base_ms;
  if (same_boot && carpace_sum_ms (boot_ms, kept->base_ms) >= last.elapsed_ms)
    return base;
  int64_t gone_ms = less_ms (carpace_wall_ms (), last.wall_ms);
  base.base_ms = less_ms (carpace_sum_ms (last.elapsed_ms, gone_ms > 0 ? gone_ms : 0), boot_ms);
  return base;
}

static CarpaceInstant
now (void *self)
{
  const CarpaceClockLinux *clock = self;
  int64_t wall_ms = carpace_wall_ms ();
  return (CarpaceInstant) {
    .elapsed_ms = carpace_sum_ms (carpace_boottime_ms (), clock->base.base_ms),
    .wall_ms = wall_ms,
    .offset_s = carpace_local_offset_s (wall_ms),
  };
}

/* What goes by between the two readings makes it less, never more. */
static int64_t
slept_ms (void *self)
{
  int64_t boot_ms = carpace_boottime_ms ();

  return boot_ms - read_clock_ms (CLOCK_MONOTONIC);
}

CarpaceClock
carpace_clock_linux_port (CarpaceClockLinux *clock)
{
  return (CarpaceClock) { .self = clock, .now = now, .slept_ms = slept_ms };
}

typedef struct
{
  const CarpaceClockLinux *clock;
  int fd;
  int64_t armed; /* elapsed ms, CARPACE_NEVER where not */
  GSource *source;
  void (*due) (void *user);
  void *user;
} Alarm;

typedef struct
{
  GSource source;
  Alarm *alarm;
  gpointer tag;
} AlarmSource;

static gboolean
alarm_ready (GSource *source)
{
  AlarmSource *self = (AlarmSource *) source;
  return (g_source_query_unix_fd (source, self->tag) & G_IO_IN) != 0;
}

static gboolean
alarm_dispatch (GSource *source, GSourceFunc callback, gpointer user_data)
{
  Alarm *alarm = ((AlarmSource *) source)->alarm;
  uint64_t times = 0;
  if (read (alarm->fd, &times, sizeof times) != (ssize_t) sizeof times)
    return G_SOURCE_CONTINUE; /* armed anew since: it was not due after all */
  alarm->armed = CARPACE_NEVER;
  alarm->due (alarm->user);
  return G_SOURCE_CONTINUE;
}

static GSourceFuncs alarm_source_funcs = { .check = alarm_ready, .dispatch = alarm_dispatch };

static void
let_go (void *self)
{
  Alarm *alarm = self;
  g_source_destroy (alarm->source);
  g_source_unref (alarm->source);
  close (alarm->fd);
  g_free (alarm);
}

/* A timerfd takes an all-zero time for "not armed", so what is due already is
 * armed for the first nanosecond of the boot. */
static struct itimerspec
timer_for (int64_t boot_ms)
{
  struct itimerspec timer = { 0 };
  if (boot_ms <= 0)
    timer.it_value.tv_nsec = 1;
  else
    {
      timer.it_value.tv_sec = (time_t) (boot_ms / CARPACE_SECOND_MS);
      timer.it_value.tv_nsec = (long) (boot_ms % CARPACE_SECOND_MS) * NS_PER_MS;
    }
  if (timer.it_value.tv_sec == 0 && timer.it_value.tv_nsec == 0)
    timer.it_value.tv_nsec = 1;
  return timer;
}

static void
arm (void *self, int64_t deadline)
{
  Alarm *alarm = self;
  if (deadline == alarm->armed)
    return;
  struct itimerspec timer = { 0 };
  if (deadline != CARPACE_NEVER)
    timer = timer_for (less_ms (deadline, alarm->clock->base.base_ms));
  if (timerfd_settime (alarm->fd, TFD_TIMER_ABSTIME, &timer, NULL) < 0)
    g_warning ("the alarm cannot be set: %s", g_strerror (errno));
  alarm->armed = deadline;
}

bool
carpace_alarm_linux_open (const CarpaceClockLinux *clock, GMainContext *context, void (*due) (void *user), void *user,
                          CarpaceAlarm *ret_alarm, GError **error)
{
  int fd = timerfd_create (CLOCK_BOOTTIME, TFD_NONBLOCK | TFD_CLOEXEC);
  if (fd < 0)
    {
      g_set_error_literal (error, G_IO_ERROR, g_io_error_from_errno (errno), g_strerror (errno));
      return false;
    }
  Alarm *alarm = g_new0 (Alarm, 1);
  *alarm = (Alarm) { .clock = clock, .fd = fd, .armed = CARPACE_NEVER, .due = due, .user = user };
  alarm->source = g_source_new (&alarm_source_funcs, sizeof (AlarmSource));
  g_source_set_static_name (alarm->source, "carpace alarm");
  AlarmSource *source = (AlarmSource *) alarm->source;
  source->alarm = alarm;
  source->tag = g_source_add_unix_fd (alarm->source, fd, G_IO_IN);
  g_source_attach (alarm->source, context);
  *ret_alarm = (CarpaceAlarm) { .self = alarm, .arm = arm, .free = let_go };
  return true;
}
