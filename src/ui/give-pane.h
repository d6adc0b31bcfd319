/* SPDX-License-Identifier: GPL-3.0-or-later */
/** give-pane.h: a plan given to players by their codes, a copy for each, and what each copy changes, before it is given and after. */
#ifndef CARPACE_UI_GIVE_PANE_H
#define CARPACE_UI_GIVE_PANE_H

#include <gtk/gtk.h>
#include <stdbool.h>

typedef struct CarpaceGivePane CarpaceGivePane;

/** What the pane asks of who has files. A `char *` is the pane's to g_free(). */
typedef struct
{
  void *self;
  /** Why the plan cannot be given as it is now, NULL where it can. */
  const char *(*why_not) (void *self);
  /** Where the plan is, NULL where it has no file yet. */
  char *(*folder) (void *self);
  /** The codes in the file @path, a blank between them. @return NULL, and *ret_fault in one sentence */
  char *(*read_codes) (void *self, const char *path, char **ret_fault);
  /** Gives it to the players whose codes are in @codes, a blank between them. @param folder NULL: where the plan is
   * @return what came of it, in words */
  char *(*give) (void *self, const char *codes, const char *folder);
  /** What that would come to, in words; nothing is written. */
  char *(*ahead) (void *self, const char *codes, const char *folder);
} CarpaceGivePaneGiven;

CarpaceGivePane *carpace_give_pane_new (const CarpaceGivePaneGiven *given);
void carpace_give_pane_free (CarpaceGivePane *pane);

/** Its widget, made when it is asked for first. */
GtkWidget *carpace_give_pane_widget (CarpaceGivePane *pane);

/** The plan is another. */
void carpace_give_pane_changed (CarpaceGivePane *pane);

#endif
