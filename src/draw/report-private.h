/* SPDX-License-Identifier: GPL-3.0-or-later */
/* report-private.h: what a report has to say, for its page. */
#ifndef CARPACE_DRAW_REPORT_PRIVATE_H
#define CARPACE_DRAW_REPORT_PRIVATE_H

#include "report.h"

/* Where a section stands on the page. */
typedef enum
{
  CARPACE_PLACE_ABOVE,
  CARPACE_PLACE_LEFT,
  CARPACE_PLACE_RIGHT,
  CARPACE_PLACE_BELOW
} CarpaceReportPlace;

typedef struct
{
  CarpaceReportPlace place;
  const char *heading;
  GPtrArray *paragraphs; /* char * */
  bool list;             /* may be cut from its beginning */
} CarpaceReportSection;

struct CarpaceReport
{
  CarpaceReportAsk ask;
  CarpaceDiaryModel *model; /* the stretch and 14 days before it */
  CarpaceDiaryModel *drawn; /* the stretch alone */
  CarpaceReportNumbers numbers;
  CarpaceReportPlan plan;
  CarpaceAtLeast seen;
  GArray *sections; /* CarpaceReportSection */
};

/* What a day's own dose would tell of the hand, too: a page that does not speak of
 * it has weeks only. */
bool carpace_report_shows_hand (const CarpaceReport *report);

#endif
