/* SPDX-License-Identifier: GPL-3.0-or-later */
/** owner.h: what a face may ask of the object that holds all faces. */
#ifndef CARPACE_UI_OWNER_H
#define CARPACE_UI_OWNER_H

#include <gtk/gtk.h>

#include "carpace/session.h"
#include "ui/items.h"

typedef struct
{
  void *self;
  /** Tells the session; a refusal is shown to the player.
   * @return true where it was taken */
  bool (*tell) (void *self, const CarpaceEvent *event);
  /** A row was chosen. */
  void (*choose) (void *self, CarpaceItemId id);
  /** Fills @menu with the plans there are; choosing one puts it in use. */
  void (*fill_plans) (void *self, GtkMenuShell *menu);
  /** Something a face shows by itself has changed: draw again. */
  void (*redraw) (void *self);
  /** The note to the player was read; may be NULL. */
  void (*put_note_away) (void *self);
} CarpaceOwner;

#endif
