/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * diary-detail.h: one day in words and widgets, beside the diary's drawing.
 */
#ifndef CARPACE_UI_DIARY_DETAIL_H
#define CARPACE_UI_DIARY_DETAIL_H

#include <gtk/gtk.h>

#include "carpace/diary.h"
#include "draw/diary-model.h"

typedef struct CarpaceDiaryDetail CarpaceDiaryDetail;

/** What the pane asks of its window. */
typedef struct
{
  void *self;
  /** A tap was wrong. @return false where it could not be kept */
  bool (*correct) (void *self, int64_t rating_id, int32_t discomfort, CarpaceSite site);
  bool (*note) (void *self, CarpaceDay day, const char *note);
} CarpaceDiaryDetailOwner;

/** @can_write false: nothing can be noted or corrected. */
CarpaceDiaryDetail *carpace_diary_detail_new (const CarpaceDiaryDetailOwner *owner, bool can_write);
void carpace_diary_detail_free (CarpaceDiaryDetail *detail);

/** Its widget, to be put into a window. */
GtkWidget *carpace_diary_detail_widget (CarpaceDiaryDetail *detail);

/** Shows @day of @model (which outlives this until the next call); @model NULL:
 * only @instead. */
void carpace_diary_detail_show (CarpaceDiaryDetail *detail, CarpaceDiaryModel *model, CarpaceDay day, const char *instead);

/** What it says, g_free() it: for tests. */
char *carpace_diary_detail_told (CarpaceDiaryDetail *detail);

#endif
