/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * season-strip.h: rehearsed weeks as a strip to go through by keys and clicks; it says
 * in words what it shows of the chosen day.
 */
#ifndef CARPACE_UI_SEASON_STRIP_H
#define CARPACE_UI_SEASON_STRIP_H

#include <gtk/gtk.h>

#include "draw/season-paint.h"

typedef struct CarpaceSeasonStrip CarpaceSeasonStrip;

/** What a strip asks of who has it. */
typedef struct
{
  void *self;
  void (*chosen) (void *self, int32_t day); /**< another day */
  void (*open) (void *self);                /**< the chosen one is to be shown as a rail */
} CarpaceSeasonStripOwner;

CarpaceSeasonStrip *carpace_season_strip_new (const CarpaceSeasonStripOwner *owner);
void carpace_season_strip_free (CarpaceSeasonStrip *strip);

/** Its widget, scrolled where it is wider than what it is in. */
GtkWidget *carpace_season_strip_widget (CarpaceSeasonStrip *strip);
GtkWidget *carpace_season_strip_area (CarpaceSeasonStrip *strip);

/** Shows @n days, copied. @param longest_ms at its upper edge @param name what is shown, for assistive technology */
void carpace_season_strip_set (CarpaceSeasonStrip *strip, const CarpaceSeasonMark *day, int32_t n, int64_t longest_ms,
                               const char *name);

/** Chooses a day, without telling the owner. @param words what it says of it */
void carpace_season_strip_choose (CarpaceSeasonStrip *strip, int32_t day, const char *words);

#endif
