/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * report.h: one page about a stretch of diary, for a clinician or a coach.
 *
 * The same content on paper, in a picture and as plain text. For a coach nothing
 * of the hand is on it but what the player ticked.
 */
#ifndef CARPACE_DRAW_REPORT_H
#define CARPACE_DRAW_REPORT_H

#include <cairo.h>

#include "carpace/ports.h"
#include "diary-model.h"
#include "text/report-text.h"

/** What a report is asked to be. */
typedef struct
{
  CarpaceDay since, until;
  bool for_coach;
  bool ratings, sites, cautions; /**< ticked by the player, for a coach */
  const char *code;              /**< the player's code, NULL: a line to write it on */
  const CarpacePlan *plan;       /**< the plan in use, NULL where none is */
  const CarpaceHeld *held;       /**< what is held at the end of @until; NULL: nothing */
} CarpaceReportAsk;

/** A sheet, points. */
typedef struct { double width, height; } CarpaceSheet;
extern const CarpaceSheet carpace_sheet_a4, carpace_sheet_letter;

typedef struct CarpaceReport CarpaceReport;

/** Reads the stretch of @diary that @ask names, and the week before it.
 * @return NULL where the diary cannot be read */
CarpaceReport *carpace_report_new (const CarpaceDiary *diary, const CarpaceReportAsk *ask);

void carpace_report_free (CarpaceReport *report);

/** What was counted. */
const CarpaceReportNumbers *carpace_report_numbers (const CarpaceReport *report);

/** The report as plain text, lines broken at 78 characters; g_free() it. */
char *carpace_report_text (CarpaceReport *report);

/** Paints the page on @cr, whose unit is a point. */
void carpace_report_paint (CarpaceReport *report, cairo_t *cr, CarpaceSheet sheet);

#endif
