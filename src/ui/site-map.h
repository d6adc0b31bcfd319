/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * site-map.h: sites on a drawn hand and forearm: the palm's side, the back, and beside
 * them neck, shoulder and the other hand, from behind.
 *
 * Each region of the drawing is a button of its own, with the site's number on it;
 * the arrow keys go from one to the next in their direction. Drawn for a right hand,
 * mirrored for a left one.
 */
#ifndef CARPACE_UI_SITE_MAP_H
#define CARPACE_UI_SITE_MAP_H

#include <gtk/gtk.h>
#include <stdbool.h>

#include "carpace/session.h"

/** From the start to the end. */
typedef enum
{
  CARPACE_SITE_VIEW_PALM,
  CARPACE_SITE_VIEW_BACK,
  CARPACE_SITE_VIEW_BODY,
  CARPACE_N_SITE_VIEWS
} CarpaceSiteView;

/** A view's size, px. */
#define CARPACE_SITE_VIEW_WIDTH 180
#define CARPACE_SITE_VIEW_HEIGHT 288

/** Where on a view of the right hand a site is pressed, px. */
typedef struct
{
  CarpaceSite site;
  CarpaceSiteView view;
  int x, y, width, height;
} CarpaceSiteRegion;

/** Every site's own region first, in the order of the sites; behind them what is seen of a
 * site in another view, too. */
extern const CarpaceSiteRegion carpace_site_regions[];
extern const int carpace_n_site_regions;

/** The file of @view's drawing, a name without its ending. */
const char *carpace_site_view_file (CarpaceSiteView view);

/** The view that @site is seen in. */
CarpaceSiteView carpace_site_view (CarpaceSite site);

/** The region that an arrow key leads to from region @from, as they stand on the screen.
 * @param left a left hand @param from_right the views begin at the right
 * @return -1 where there is none that way */
int carpace_site_region_next (int from, GtkDirectionType way, bool left, bool from_right);

/** What happens when a site is pressed. */
typedef void (*CarpaceSiteChosen) (void *user, CarpaceSite site);

/** All three views. */
GtkWidget *carpace_site_map_new (CarpaceSiteChosen chosen, void *user);

/** Marks @given, CARPACE_SITE_NONE: none; mirrored for a left hand. */
void carpace_site_map_set (GtkWidget *map, CarpaceSite given, bool left);

/** The button of a region, for tests. */
GtkWidget *carpace_site_map_button (GtkWidget *map, int region);

#endif
