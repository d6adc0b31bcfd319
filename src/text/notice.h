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
  bool passes;    /**< a reply, which nothing withdraws: it goes when the server takes it away */
  int32_t n_actions;
  struct
  {
    CarpaceEventKind event; /**< what the answer tells; its name is the action's id */
    char *label;
  } action[CARPACE_NOTICE_ACTIONS];
} CarpaceNotice;

/** The line of a rehearsal for @entry, a CARPACE_ENTRY_CUE; "" where it is
 * withdrawn. g_free() it. */
char *carpace_text_cue_line (const CarpaceEntry *entry);

/** Makes the notice for @entry, a CARPACE_ENTRY_CUE shown or asked. On air it
 * is neutral: of a rating it says that a part is over, as before any answer, and there
 * is none for mornings, cautions and a day's end.
 * @return false, *ret_notice untouched, where nothing is to be notified */
bool carpace_text_notice (const CarpaceEntry *entry, const CarpaceView *view, CarpaceInstant now,
                          CarpaceNotice *ret_notice);

/** Makes the notice of an intermission that is announced and has not begun. It takes
 * the place of a micro-rest's: one pause, not two.
 * @return false, *ret_notice untouched, where there is none */
bool carpace_text_intermission_notice (const CarpaceView *view, CarpaceNotice *ret_notice);

/** Makes the notice that something was taken on air: what the stream is at, and no more. The same when a stream
 * begins and when a number is given, whichever: the player knows what was just done, a viewer reads a state. It takes
 * the place of a rating's. */
void carpace_text_on_air_notice (const CarpaceView *view, CarpaceInstant now, CarpaceNotice *ret_notice);

/** Makes the notice of a rest that runs, for where no card can: what to do, how it is done, and the way back. It takes
 * the place of the rest's offer. */
void carpace_text_rest_notice (const CarpaceView *view, CarpaceNotice *ret_notice);

/** Makes the notice of a start that began nothing, with what was replied to it. It takes the place of a next
 * block's. On air @reply, made for then, is all that it says. */
void carpace_text_not_started_notice (const char *reply, bool on_air, CarpaceNotice *ret_notice);

/** Frees the texts of @notice. */
void carpace_notice_clear (CarpaceNotice *notice);

#endif
