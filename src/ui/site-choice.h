/* SPDX-License-Identifier: GPL-3.0-or-later */
/** site-choice.h: where it is felt: the nine sites in words, each with its number, and
 * above them, where there is room, the same on a drawn hand, each word under the view
 * that its site is seen in. */
#ifndef CARPACE_UI_SITE_CHOICE_H
#define CARPACE_UI_SITE_CHOICE_H

#include "ui/site-map.h"

/** @param last stands behind the sites: the way back, say */
GtkWidget *carpace_site_choice_new (CarpaceSiteChosen chosen, void *user, GtkWidget *last);

/** Marks @given, CARPACE_SITE_NONE: none; mirrored for a @left hand. */
void carpace_site_choice_set (GtkWidget *choice, CarpaceSite given, bool left);

/** In words only, in as few rows as can be; or with the drawing. */
void carpace_site_choice_set_small (GtkWidget *choice, bool small);

/** Its words smaller, in narrower columns. */
void carpace_site_choice_set_tight (GtkWidget *choice, bool tight);

/** The button with @site's word, and the drawing, for tests. */
GtkWidget *carpace_site_choice_word (GtkWidget *choice, CarpaceSite site);
GtkWidget *carpace_site_choice_map (GtkWidget *choice);

#endif
