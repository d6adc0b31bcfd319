/* SPDX-License-Identifier: GPL-3.0-or-later */
/* print-calendar.c: entries as an iCalendar file, for an independent reader. */
#include <stdio.h>
#include <stdlib.h>

#include "forms/calendar-ical.h"

int
main (void)
{
  const CarpaceCalendarEntry entries[] = {
    { .uid = "2027-03-02-block-1@carpace", .summary = "Block 1 of 2", .begins = { .wall_ms = INT64_C (1804006800000) },
      .length_ms = 30 * CARPACE_MINUTE_MS },
    { .uid = "2027-03-28-block-1@carpace", .summary = "An hour that is missing, local",
      .begins = { .wall_ms = INT64_C (1806195600999) }, .length_ms = CARPACE_HOUR_MS },
    { .uid = "odd@carpace",
      .summary = "Comma, semicolon; back\\slash, a\nline, and a word that makes this line far longer than seventy-five bytes: Müßiggang ⏸",
      .begins = { .wall_ms = INT64_C (4102444800000) }, .length_ms = 1 },
    { .uid = "old@carpace", .summary = "BEGIN:VEVENT", .begins = { .wall_ms = -1 }, .length_ms = CARPACE_MINUTE_MS },
  };
  CarpaceCalendar calendar = carpace_calendar_ical ();
  char *text = calendar.write (calendar.self, entries, sizeof entries / sizeof *entries,
                               (CarpaceInstant) { .wall_ms = INT64_C (1804000000000) });

  if (text == NULL)
    return 1;
  fputs (text, stdout);
  free (text);
  return 0;
}
