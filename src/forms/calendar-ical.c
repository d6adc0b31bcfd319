/* SPDX-License-Identifier: GPL-3.0-or-later */
/* calendar-ical.c: entries -> VEVENTs. */
#include "forms/calendar-ical.h"

#include <libical/ical.h>
#include <stdlib.h>
#include <string.h>

static icaltimetype
time_of (int64_t wall_ms)
{
  int64_t seconds = wall_ms / CARPACE_SECOND_MS;

  if (wall_ms % CARPACE_SECOND_MS < 0)
    seconds--;
  return icaltime_from_timet_with_zone ((time_t) seconds, 0, icaltimezone_get_utc_timezone ());
}

static icalcomponent *
event_of (const CarpaceCalendarEntry *entry, CarpaceInstant now)
{
  return icalcomponent_vanew (ICAL_VEVENT_COMPONENT, icalproperty_new_uid (entry->uid),
                              icalproperty_new_dtstamp (time_of (now.wall_ms)),
                              icalproperty_new_dtstart (time_of (entry->begins.wall_ms)),
                              icalproperty_new_dtend (time_of (carpace_sum_ms (entry->begins.wall_ms, entry->length_ms))),
                              icalproperty_new_summary (entry->summary), (void *) 0);
}

static char *
write_calendar (void *self, const CarpaceCalendarEntry *entries, size_t n_entries, CarpaceInstant now)
{
  icalcomponent *calendar
    = icalcomponent_vanew (ICAL_VCALENDAR_COMPONENT, icalproperty_new_version ("2.0"),
                           icalproperty_new_prodid ("-//Carpace//Carpace//EN"), (void *) 0);
  char *text, *copy = NULL;

  for (size_t i = 0; i < n_entries; i++)
    icalcomponent_add_component (calendar, event_of (&entries[i], now));
  text = icalcomponent_as_ical_string_r (calendar);
  if (text != NULL)
    {
      size_t size = strlen (text) + 1;

      copy = malloc (size);
      if (copy != NULL)
        memcpy (copy, text, size);
      icalmemory_free_buffer (text);
    }
  icalcomponent_free (calendar);
  return copy;
}

CarpaceCalendar
carpace_calendar_ical (void)
{
  return (CarpaceCalendar) { .write = write_calendar };
}
