/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * desktop-text.h: what a desktop offers, and what to do about what is missing.
 */
#ifndef CARPACE_TEXT_DESKTOP_TEXT_H
#define CARPACE_TEXT_DESKTOP_TEXT_H

#include "carpace/desktop.h"

/** What is asked about a desktop. */
typedef enum
{
  CARPACE_DESKTOP_SESSION,
  CARPACE_DESKTOP_TRAY,
  CARPACE_DESKTOP_NOTIFICATIONS,
  CARPACE_DESKTOP_INPUT,
  CARPACE_DESKTOP_SUSPEND,
  CARPACE_DESKTOP_CARDS,
  CARPACE_DESKTOP_CHORD,
  CARPACE_DESKTOP_WINDOWS,
  CARPACE_DESKTOP_CLICKS,
  CARPACE_DESKTOP_SOUND,
  CARPACE_N_DESKTOP_PARTS
} CarpaceDesktopPart;

/** The part's own name, translated. */
const char *carpace_text_desktop_part (CarpaceDesktopPart part);

/** What was found of it, a sentence. g_free() it. */
char *carpace_text_desktop_found (const CarpaceDesktop *desktop, CarpaceDesktopPart part);

/** What to do about it, one or two sentences; NULL where nothing is missing. */
const char *carpace_text_desktop_advice (const CarpaceDesktop *desktop, CarpaceDesktopPart part);

#endif
