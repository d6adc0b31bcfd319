/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * faces.h: tray, cards and windows, behind one object.
 *
 * Faces are handed a CarpaceView and draw it: whoever changes something calls
 * the port's `changed`, one idle callback draws, and what is equal is not drawn
 * again. Answers go to the session through a CarpaceTell. Notifications are sent
 * by whoever was handed over for it: the faces only make their words.
 *
 * main() sets GDK_GL=disable in the environment before gtk_init(): the first
 * GTK client on a display would otherwise load GL, 56 MB and 45 ms of it, for
 * a tray icon.
 */
#ifndef CARPACE_UI_FACES_H
#define CARPACE_UI_FACES_H

#include "carpace/diary.h"
#include "carpace/ports.h"
#include "text/notice.h"

typedef struct CarpaceGtkFaces CarpaceGtkFaces;

/** What the faces are given. Functions that may be NULL are marked. */
typedef struct
{
  CarpaceTell tell;
  CarpaceClock clock;
  CarpacePlanFiles plans;                     /**< `list` may be NULL: no plans are offered */
  CarpaceDiary diary;                         /**< functions may be NULL: only the latest decision is told */
  const char *icon_folder;                    /**< icons that are not installed, may be NULL */
  void *self;                                 /**< handed to the functions below */
  const CarpaceView *(*look) (void *self);    /**< the view as of now */
  void (*notify) (void *self, const CarpaceNotice *notice);   /**< may be NULL: cards show themselves instead */
  void (*end_notice) (void *self, CarpaceCue cue);            /**< may be NULL */
  void (*refused) (void *self, const CarpaceEvent *event, CarpaceRefusal refusal); /**< may be NULL */
  void (*use_plan) (void *self, const char *word);            /**< may be NULL */
  char *(*plan_giver) (void *self);                           /**< who gave the plan in use, a sentence, or NULL; g_free() it. May be NULL */
  void (*keys) (void *self, bool wanted);                     /**< may be NULL: something can be answered by keys, or no longer */
  void (*open_diary) (void *self);                            /**< may be NULL */
  bool (*first) (void *self);                                 /**< where no plan is in use: asks for one, and says true; may be NULL */
  void (*pick_window) (void *self);                           /**< the practice window; may be NULL */
  void (*open_settings) (void *self);                         /**< may be NULL */
  void (*note_away) (void *self);                             /**< the note was put away; may be NULL */
  void (*quit) (void *self);                                  /**< may be NULL */
} CarpaceFacesGiven;

/** Faces on the default display; nothing is shown before the first `changed`. */
CarpaceGtkFaces *carpace_faces_new (const CarpaceFacesGiven *given);
void carpace_faces_free (CarpaceGtkFaces *faces);

/** A note to the player, its head and its words, for the window of today; NULL: there is none. */
void carpace_faces_set_note (CarpaceGtkFaces *faces, const char *by, const char *text);

/** Tells quietly of a note: never on air, in a block or in place of what stands there.
 * @return false where now is not the time; true, and no notice, where the window of today shows it already */
bool carpace_faces_tell_note (CarpaceGtkFaces *faces, const CarpaceNotice *notice);

/** The first window is gone: the window of today comes where there is no tray, else @notice, which may be NULL. */
void carpace_faces_first_gone (CarpaceGtkFaces *faces, const CarpaceNotice *notice);

/** The diary, where it came later than the faces. */
void carpace_faces_set_diary (CarpaceGtkFaces *faces, CarpaceDiary diary);

/** The two of a CarpaceFaces port, for whoever has more to do at a change. */
void carpace_faces_cue (CarpaceGtkFaces *faces, const CarpaceEntry *entry, const CarpaceView *view);
void carpace_faces_changed (CarpaceGtkFaces *faces, const CarpaceView *view);

/** The player opened the notice of @cue (its default action): its card comes,
 * with the focus. */
void carpace_faces_open (CarpaceGtkFaces *faces, CarpaceCue cue);

/** The player called the program once more: the window of today comes. */
void carpace_faces_present (CarpaceGtkFaces *faces);

/** Whether a notification server answers: without one, notices are cards that
 * show themselves. True at first, where `notify` is given. */
void carpace_faces_notices_work (CarpaceGtkFaces *faces, bool work);

/** Whether the server takes answers on its notices: where it does not, what is offered with answers
 * comes as its card. True at first. */
void carpace_faces_notices_answer (CarpaceGtkFaces *faces, bool answer);

/** Whether a host on the session bus shows the tray's item: until one is seen to, and no older tray
 * does, the window of today is there. None at first. */
void carpace_faces_tray_held (CarpaceGtkFaces *faces, bool held);

/** The session bus went away: the small window and cards stand in for what was on it. */
void carpace_faces_bus_gone (CarpaceGtkFaces *faces);

/** The chord was pressed, or its time is over: digits answer the card that is up, or the rating that is open. */
void carpace_faces_armed (CarpaceGtkFaces *faces, bool armed);

/** A digit after the chord, 0 to 10. @return whether the card asks for one more */
bool carpace_faces_digit (CarpaceGtkFaces *faces, int32_t digit);

/** Escape after the chord. */
void carpace_faces_put_away (CarpaceGtkFaces *faces);

/** Plans were added, taken away or put in use. */
void carpace_faces_plans_changed (CarpaceGtkFaces *faces);

#endif
