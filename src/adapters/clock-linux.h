/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * clock-linux.h: the clock and the alarm of a Linux machine.
 *
 * Elapsed time is CLOCK_BOOTTIME plus a base: it runs on through suspend and
 * no setting of the wall clock, zone or daylight saving moves it. The base lets
 * it go on across a reboot, where CLOCK_BOOTTIME begins at 0 again.
 */
#ifndef CARPACE_CLOCK_LINUX_H
#define CARPACE_CLOCK_LINUX_H

#include <glib.h>

#include "carpace/ports.h"

/** Bytes of a boot's id, its end included. */
#define CARPACE_BOOT_ID_BYTES 37

/** ms since this boot, suspend included. */
int64_t carpace_boottime_ms (void);

/** ms since 1970-01-01T00:00:00Z by the machine's clock. */
int64_t carpace_wall_ms (void);

/** Local time less UTC at @wall_ms, s. Follows TZ, and /etc/localtime when it
 * is changed under a running program. */
int32_t carpace_local_offset_s (int64_t wall_ms);

/** The id of this boot, another one at each boot.
 * @return false where the kernel does not tell; then *ret_id is empty */
bool carpace_boot_id (char ret_id[CARPACE_BOOT_ID_BYTES]);

/** What goes on across restarts of the program and of the machine. */
typedef struct
{
  int64_t base_ms;                     /**< added to ms since boot */
  char boot_id[CARPACE_BOOT_ID_BYTES]; /**< the boot that base_ms belongs to */
} CarpaceClockBase;

/** The base for going on from @kept. Within the same boot it is @kept's own.
 * After a reboot elapsed time goes on from @last, and what the wall clock says
 * has gone by since is added; a wall clock that was set back adds nothing.
 * @param kept NULL on a first start, then the base is 0
 * @param last the last moment known under @kept */
CarpaceClockBase carpace_clock_base_after (const CarpaceClockBase *kept, CarpaceInstant last);

/** A clock. A value; free of everything but the kernel's clocks. */
typedef struct
{
  CarpaceClockBase base;
} CarpaceClockLinux;

/** @clock as a port; @clock outlives it. */
CarpaceClock carpace_clock_linux_port (CarpaceClockLinux *clock);

/** Opens an alarm on a main context: a timerfd of CLOCK_BOOTTIME. Nothing wakes
 * while it is not armed. A machine that sleeps over the deadline is not woken:
 * the alarm comes at the wake.
 * @param clock whose elapsed time deadlines are in; outlives the alarm
 * @param due called in @context when the deadline has come; arms anew or not
 * @return false, and one line in *error, where the kernel has no timer to give */
bool carpace_alarm_linux_open (const CarpaceClockLinux *clock, GMainContext *context, void (*due) (void *user),
                               void *user, CarpaceAlarm *ret_alarm, GError **error);

#endif
