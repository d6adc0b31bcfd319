/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * notice.h: what a desktop notification says, ready to be shown.
 *
 * Made here from a cue, shown by an adapter, sent off by the faces: so neither
 * the adapter nor the faces know a sentence.
 */
#ifndef CARPACE_TEXT_NOTICE_H
#define CARPACE_TEXT_NOTICE_H

#include "carpace/view.h"

/** Most answers a notice offers: servers show no more. */
#define CARPACE_NOTICE_ACTIONS 3

/** One notice. Its texts are plain text (never markup), translated, and belong
 * to it: carpace_notice_clear() frees them. */
typedef struct
{
  CarpaceCue cue; /**< a notice takes the place of an earlier one of the same cue */
  char *title;
  char *body;     /**< "" where there is nothing to add */
  bool quiet;     /**< in the middle of a run: no sound, low urgency */
  int32_t n_actions;
  struct
  {
    CarpaceEventKind event; /**< what the answer tells; its name is the action's id */
    char *label;
  } action[CARPACE_NOTICE_ACTIONS];
} CarpaceNotice;

/** Makes the notice for @entry, a CARPACE_ENTRY_CUE shown or asked. On air it
 * is neutral, and there is none for ratings, mornings and cautions.
 * @return false, *ret_notice untouched, where nothing is to be notified */
bool carpace_text_notice (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now,
                          CarpaceNotice *ret_notice);

/** Makes the notice of an intermission that is announced or has begun. It takes
 * the place of a micro-rest's: one rest, not two.
 * @return false, *ret_notice untouched, where there is none */
bool carpace_text_intermission_notice (const CarpaceView *view, CarpaceNotice *ret_notice);

/** Frees the texts of @notice. */
void carpace_notice_clear (CarpaceNotice *notice);

#endif
