/* SPDX-License-Identifier: GPL-3.0-or-later */
/** roster-forms.h: a roster for programs. */
#ifndef CARPACE_FORMS_ROSTER_FORMS_H
#define CARPACE_FORMS_ROSTER_FORMS_H

#include <glib.h>

#include "carpace/roster.h"

typedef enum { CARPACE_ROSTER_TEXT, CARPACE_ROSTER_JSON, CARPACE_ROSTER_CSV } CarpaceRosterForm;

/** The word of a reason in both. */
const char *carpace_look_word (CarpaceLook look);

/** The names of the columns of CSV (RFC 4180). */
void carpace_roster_csv_head (GString *out);

/** Adds @row: an object of JSON on a line of its own, with its weeks; or a line of CSV with the last week. */
void carpace_roster_form (const CarpaceRosterRow *row, CarpaceRosterForm form, GString *out);

#endif
