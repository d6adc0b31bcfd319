/* SPDX-License-Identifier: GPL-3.0-or-later */
/** calendar-ical.h: calendars as iCalendar files (RFC 5545), by libical. */
#ifndef CARPACE_CALENDAR_ICAL_H
#define CARPACE_CALENDAR_ICAL_H

#include "carpace/calendar.h"

/** The port. Times are written in UTC, so that no zone has to be described. */
CarpaceCalendar carpace_calendar_ical (void);

#endif
