/* SPDX-License-Identifier: GPL-3.0-or-later */
/** menu.h: the rows of items.h as a menu: the tray's, and the window's. */
#ifndef CARPACE_UI_MENU_H
#define CARPACE_UI_MENU_H

#include "carpace/view.h"
#include "ui/owner.h"

typedef struct CarpaceMenu CarpaceMenu;

CarpaceMenu *carpace_menu_new (const CarpaceOwner *owner);
void carpace_menu_free (CarpaceMenu *menu);

/** The menu itself; it stays the same. */
GtkMenu *carpace_menu_widget (CarpaceMenu *menu);

/** From the next draw on: whether a card was put away that still asks. @param chord the keys that
 * bring it back; NULL: none do */
void carpace_menu_set_card_again (CarpaceMenu *menu, bool waits, const char *chord);

/** @return whether a row changed */
bool carpace_menu_draw (CarpaceMenu *menu, const CarpaceView *view, CarpaceInstant now);

/** The plans there are have changed. Until then there are none in it. */
void carpace_menu_plans_changed (CarpaceMenu *menu);

#endif
