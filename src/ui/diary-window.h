/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * diary-window.h: the diary, to be looked at, noted in, and put right.
 *
 * Left the drawing, right the day that is chosen in words and widgets.
 */
#ifndef CARPACE_UI_DIARY_WINDOW_H
#define CARPACE_UI_DIARY_WINDOW_H

#include <gtk/gtk.h>

#include "carpace/diary.h"
#include "carpace/ports.h"
#include "ui/diary-drawing.h"

typedef struct CarpaceDiaryWindow CarpaceDiaryWindow;

/** A window that is not shown. @diary and @clock are copied; @keeper may be
 * NULL: then nothing can be noted or corrected. */
CarpaceDiaryWindow *carpace_diary_window_new (const CarpaceDiary *diary, const CarpaceDiaryKeeper *keeper,
                                              const CarpaceClock *clock);
void carpace_diary_window_free (CarpaceDiaryWindow *window);

/** Shows it, at @today, the latest practice day. Reads the diary. */
void carpace_diary_window_show (CarpaceDiaryWindow *window, CarpaceDay today);
void carpace_diary_window_hide (CarpaceDiaryWindow *window);
bool carpace_diary_window_is_shown (const CarpaceDiaryWindow *window);

/** Something was recorded: read anew, where it is shown. */
void carpace_diary_window_changed (CarpaceDiaryWindow *window);

/** For tests and benches. */
GtkWindow *carpace_diary_window_window (CarpaceDiaryWindow *window);
CarpaceDay carpace_diary_window_chosen (const CarpaceDiaryWindow *window);
CarpaceDiaryDrawing *carpace_diary_window_drawing (CarpaceDiaryWindow *window);
/** What the chosen day's pane says, g_free() it. */
char *carpace_diary_window_told (CarpaceDiaryWindow *window);

#endif
