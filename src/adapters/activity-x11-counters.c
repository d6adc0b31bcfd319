/* SPDX-License-Identifier: GPL-3.0-or-later */
/* activity-x11-counters.c: the X Synchronization Extension, over XCB. */
#include "activity-x11-counters.h"

#include <stdlib.h>
#include <string.h>

#define ALL "IDLETIME"
#define DEVICE "DEVICEIDLETIME "
/* Devices 2 and 3 are the master pointer and keyboard, always. */
#define LAST_MASTER 3
/* Two devices used within this of each other were not used by a hand each. */
#define TOGETHER_MS 3

int64_t
carpace_x11_counter_value (xcb_sync_int64_t value)
{
  return (int64_t) ((uint64_t) (uint32_t) value.hi << 32 | value.lo);
}

static xcb_sync_int64_t
to_halves (int64_t value)
{
  return (xcb_sync_int64_t) { .hi = (int32_t) (value >> 32), .lo = (uint32_t) (value & UINT32_MAX) };
}

static bool
find_extension (CarpaceX11Counters *counters)
{
  const xcb_query_extension_reply_t *extension = xcb_get_extension_data (counters->x, &xcb_sync_id);
  if (extension == NULL || !extension->present)
    return false;
  counters->first_event = extension->first_event;
  xcb_sync_initialize_reply_t *reply
    = xcb_sync_initialize_reply (counters->x, xcb_sync_initialize (counters->x, 3, 1), NULL);
  free (reply);
  return reply != NULL;
}

/* ---- which there are ---- */

static void
take_counter (CarpaceX11Counters *counters, xcb_sync_counter_t counter, const char *name)
{
  if (strcmp (name, ALL) == 0)
    counters->all.counter = counter;
  else if (strncmp (name, DEVICE, strlen (DEVICE)) == 0 && atoi (name + strlen (DEVICE)) > LAST_MASTER
           && counters->n < CARPACE_X11_COUNTERS)
    counters->device[counters->n++] = (CarpaceX11Counter) { .counter = counter };
}

/* Read as the protocol lays them out: 14 bytes, the last 2 the name's length, the name,
 * then padded to 4. XCB's own iterator counts the padding that C adds to its struct, and
 * loses its way behind a name of 17 bytes: a device's whose number has two digits. */
static void
take_counters (CarpaceX11Counters *counters, const xcb_sync_list_system_counters_reply_t *reply)
{
  enum { LENGTH_AT = 12, NAME_AT = 14 };
  const uint8_t *at = (const uint8_t *) (reply + 1);
  size_t left = (size_t) reply->length * 4;
  for (uint32_t i = 0; i < reply->counters_len && left >= NAME_AT; i++)
    {
      xcb_sync_counter_t counter;
      uint16_t name_len;
      char name[32] = "";
      memcpy (&counter, at, sizeof counter);
      memcpy (&name_len, at + LENGTH_AT, sizeof name_len);
      size_t size = ((size_t) NAME_AT + name_len + 3) / 4 * 4;
      if (size > left)
        return;
      memcpy (name, at + NAME_AT, name_len < sizeof name ? name_len : sizeof name - 1);
      take_counter (counters, counter, name);
      at += size;
      left -= size;
    }
}

static void
keep_alarms (CarpaceX11Counters *counters, const CarpaceX11Counters *before)
{
  for (int was = 0; was < before->n; was++)
    for (int is = 0; is < counters->n; is++)
      if (counters->device[is].counter == before->device[was].counter)
        counters->device[is].alarm = before->device[was].alarm;
}

static bool
list (CarpaceX11Counters *counters)
{
  xcb_sync_list_system_counters_reply_t *reply
    = xcb_sync_list_system_counters_reply (counters->x, xcb_sync_list_system_counters (counters->x), NULL);
  if (reply == NULL)
    return false;
  CarpaceX11Counters before = *counters;
  counters->n = 0;
  take_counters (counters, reply);
  free (reply);
  if (counters->n == 0 && counters->all.counter != 0)
    counters->device[counters->n++].counter = counters->all.counter;
  keep_alarms (counters, &before);
  return counters->all.counter != 0;
}

bool
carpace_x11_counters_init (CarpaceX11Counters *counters, xcb_connection_t *x)
{
  memset (counters, 0, sizeof *counters);
  counters->x = x;
  return find_extension (counters) && list (counters);
}

/* ---- what they read ---- */

/* A device that has gone since it was listed has not been used. */
static void
take_reading (CarpaceX11Counters *counters, CarpaceX11Counter *counter, xcb_sync_query_counter_cookie_t cookie)
{
  xcb_sync_query_counter_reply_t *reply = xcb_sync_query_counter_reply (counters->x, cookie, NULL);
  counter->idle_ms = reply != NULL ? carpace_x11_counter_value (reply->counter_value) : INT64_MAX / 2;
  free (reply);
}

bool
carpace_x11_counters_survey (CarpaceX11Counters *counters)
{
  if (!list (counters))
    return false;
  xcb_sync_query_counter_cookie_t asked[CARPACE_X11_COUNTERS], asked_all;
  for (int i = 0; i < counters->n; i++)
    asked[i] = xcb_sync_query_counter (counters->x, counters->device[i].counter);
  asked_all = xcb_sync_query_counter (counters->x, counters->all.counter);
  for (int i = 0; i < counters->n; i++)
    take_reading (counters, &counters->device[i], asked[i]);
  take_reading (counters, &counters->all, asked_all);
  return xcb_connection_has_error (counters->x) == 0;
}

CarpaceX11Counter *
carpace_x11_counters_latest (CarpaceX11Counters *counters)
{
  CarpaceX11Counter *latest = &counters->device[0];
  for (int i = 1; i < counters->n; i++)
    if (counters->device[i].idle_ms < latest->idle_ms)
      latest = &counters->device[i];
  return latest;
}

bool
carpace_x11_counters_reset_together (const CarpaceX11Counters *counters)
{
  int64_t least = INT64_MAX, most = 0;
  for (int i = 0; i < counters->n; i++)
    {
      int64_t idle_ms = counters->device[i].idle_ms;
      least = idle_ms < least ? idle_ms : least;
      most = idle_ms > most ? idle_ms : most;
    }
  return counters->n >= 2 && most - least <= TOGETHER_MS;
}

/* ---- alarms ---- */

static void
drop_alarm (CarpaceX11Counters *counters, CarpaceX11Counter *counter)
{
  if (counter->alarm != 0)
    xcb_sync_destroy_alarm (counters->x, counter->alarm);
  counter->alarm = 0;
}

void
carpace_x11_counters_drop_alarms (CarpaceX11Counters *counters)
{
  for (int i = 0; i < counters->n; i++)
    drop_alarm (counters, &counters->device[i]);
  drop_alarm (counters, &counters->all);
}

static void
set_alarm (CarpaceX11Counters *counters, CarpaceX11Counter *counter, uint32_t test, int64_t at_ms)
{
  drop_alarm (counters, counter);
  counter->alarm = xcb_generate_id (counters->x);
  xcb_sync_create_alarm_value_list_t values = {
    .counter = counter->counter,
    .valueType = XCB_SYNC_VALUETYPE_ABSOLUTE,
    .value = to_halves (at_ms),
    .testType = test,
    .delta = to_halves (0), /* a comparison comes once, a transition each time */
    .events = 1,
  };
  xcb_sync_create_alarm_aux (counters->x, counter->alarm,
                             XCB_SYNC_CA_COUNTER | XCB_SYNC_CA_VALUE_TYPE | XCB_SYNC_CA_VALUE | XCB_SYNC_CA_TEST_TYPE
                               | XCB_SYNC_CA_DELTA | XCB_SYNC_CA_EVENTS,
                             &values);
}

void
carpace_x11_counters_alarm_above (CarpaceX11Counters *counters, CarpaceX11Counter *counter, int64_t at_ms)
{
  set_alarm (counters, counter, XCB_SYNC_TESTTYPE_POSITIVE_COMPARISON, at_ms);
}

void
carpace_x11_counters_alarm_below (CarpaceX11Counters *counters, CarpaceX11Counter *counter, int64_t at_ms)
{
  set_alarm (counters, counter, XCB_SYNC_TESTTYPE_NEGATIVE_COMPARISON, at_ms);
}

void
carpace_x11_counters_alarm_falls (CarpaceX11Counters *counters, CarpaceX11Counter *counter, int64_t at_ms)
{
  set_alarm (counters, counter, XCB_SYNC_TESTTYPE_NEGATIVE_TRANSITION, at_ms);
}
