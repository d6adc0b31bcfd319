/* SPDX-License-Identifier: GPL-3.0-or-later */
/** why-window.h: today's decisions, a sentence each. */
#ifndef CARPACE_UI_WHY_WINDOW_H
#define CARPACE_UI_WHY_WINDOW_H

#include "carpace/diary.h"
#include "carpace/view.h"
#include "ui/card.h"

typedef struct CarpaceWhyWindow CarpaceWhyWindow;

/** @diary may have no functions: then only the latest decision is told. */
CarpaceWhyWindow *carpace_why_window_new (const CarpaceDiary *diary);
void carpace_why_window_free (CarpaceWhyWindow *why);
void carpace_why_window_show (CarpaceWhyWindow *why, const CarpaceView *view);
void carpace_why_window_hide (CarpaceWhyWindow *why);
CarpaceCard *carpace_why_window_card (CarpaceWhyWindow *why);

#endif
