/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * tray-ayatana.h: the tray item, by libayatana-appindicator.
 *
 * The icon's shape says the state, the menu says the words; a label beside the
 * icon is shown where the desktop has room for one. Nothing is sent to the
 * desktop that has not changed.
 */
#ifndef CARPACE_UI_TRAY_AYATANA_H
#define CARPACE_UI_TRAY_AYATANA_H

#include "carpace/view.h"
#include "ui/owner.h"

typedef struct CarpaceTray CarpaceTray;

/** A tray item; where there is no host yet, one that comes will find it.
 * @icon_folder holds the icons where they are not installed; may be NULL.
 * @host_changed is called when a host has come or gone. */
CarpaceTray *carpace_tray_new (const CarpaceOwner *owner, const char *icon_folder,
                               void (*host_changed) (void *self));
void carpace_tray_free (CarpaceTray *tray);

/** Whether the item is seen to be shown: a host of the status notifier kind holds it,
 * or an older system tray took it in. That one could is not enough. */
bool carpace_tray_is_hosted (const CarpaceTray *tray);

/** Whether a host on the session bus holds the item: until this is told, none does. */
void carpace_tray_set_held (CarpaceTray *tray, bool held);

/** Offers the item to older system trays, too, until a host holds it: where a watcher has no
 * host, the library does not. */
void carpace_tray_stand_in (CarpaceTray *tray);

/** From the next draw on, as carpace_menu_set_card_again(). */
void carpace_tray_set_card_again (CarpaceTray *tray, bool waits, const char *chord);

void carpace_tray_draw (CarpaceTray *tray, const CarpaceView *view, CarpaceInstant now);

/** The plans there are have changed. */
void carpace_tray_plans_changed (CarpaceTray *tray);

/** The name of the icon for @view. The rail's shape tells the kind of moment, the
 * bead the finer state: filled while something is under way or over, open while
 * it waits for the player. */
char *carpace_tray_icon (const CarpaceView *view);

/** The menu, for tests. */
GtkMenu *carpace_tray_menu (CarpaceTray *tray);

/** How often a draw changed something, for tests. */
unsigned carpace_tray_draws (const CarpaceTray *tray);

#endif
