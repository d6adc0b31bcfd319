/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * activity-x11-counters.h: the idle counters of an X server, and alarms on them.
 *
 * A server counts ms since the last input for each device (DEVICEIDLETIME n)
 * and over all (IDLETIME). All of them begin anew together when a client resets
 * the screen saver, as games built on a common media library do every 30 s: the
 * devices' own counters tell that from a hand, which uses one device at a time.
 * Not told from a hand is a client that moves the pointer: the server books it
 * on the device used last.
 */
#ifndef CARPACE_ACTIVITY_X11_COUNTERS_H
#define CARPACE_ACTIVITY_X11_COUNTERS_H

#include <stdbool.h>
#include <stdint.h>
#include <xcb/sync.h>
#include <xcb/xcb.h>

#define CARPACE_X11_COUNTERS 64

typedef struct
{
  xcb_sync_counter_t counter;
  xcb_sync_alarm_t alarm; /**< 0 where none is set */
  int64_t idle_ms;        /**< as of the last survey */
} CarpaceX11Counter;

typedef struct
{
  xcb_connection_t *x;
  uint8_t first_event;
  CarpaceX11Counter all; /**< IDLETIME */
  int n;
  CarpaceX11Counter device[CARPACE_X11_COUNTERS]; /**< IDLETIME alone where the server counts for no device */
} CarpaceX11Counters;

/** Finds the extension and the counters of @x. @return false where it has none */
bool carpace_x11_counters_init (CarpaceX11Counters *counters, xcb_connection_t *x);

/** Looks for devices that came or went, and reads all counters. Alarms of
 * devices that are still there stay. @return false where the server is gone */
bool carpace_x11_counters_survey (CarpaceX11Counters *counters);

/** The device used last, as of the last survey. */
CarpaceX11Counter *carpace_x11_counters_latest (CarpaceX11Counters *counters);

/** Whether all devices seem used at the same moment, as of the last survey: no
 * hand does that, a reset of the screen saver does. */
bool carpace_x11_counters_reset_together (const CarpaceX11Counters *counters);

/** Drops every alarm. */
void carpace_x11_counters_drop_alarms (CarpaceX11Counters *counters);

/** Sets @counter's alarm, in the place of an earlier one: once at @at_ms or
 * above, once at @at_ms or below (both at once where it is so already), or each
 * time it falls to @at_ms from above (edge). */
void carpace_x11_counters_alarm_above (CarpaceX11Counters *counters, CarpaceX11Counter *counter, int64_t at_ms);
void carpace_x11_counters_alarm_below (CarpaceX11Counters *counters, CarpaceX11Counter *counter, int64_t at_ms);
void carpace_x11_counters_alarm_falls (CarpaceX11Counters *counters, CarpaceX11Counter *counter, int64_t at_ms);

/** @value as a number. */
int64_t carpace_x11_counter_value (xcb_sync_int64_t value);

#endif
