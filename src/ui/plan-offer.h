/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-offer.h: a plan in words, and whether it is to be used: a window of its own. */
#ifndef CARPACE_UI_PLAN_OFFER_H
#define CARPACE_UI_PLAN_OFFER_H

#include <gtk/gtk.h>
#include <stdbool.h>

typedef struct CarpacePlanOfferWindow CarpacePlanOfferWindow;

/** @param use what the button says that takes it; NULL: there is only something to be read
 * @param answered told once: whether it is to be used; the window is gone then */
CarpacePlanOfferWindow *carpace_plan_offer_window_new (const char *heading, const char *words, const char *use,
                                                       void (*answered) (void *user, bool yes), void *user);
void carpace_plan_offer_window_free (CarpacePlanOfferWindow *offer);

/** The same until it is answered, in a process that does nothing else. @return false where there is no display */
bool carpace_plan_offer_ask (const char *heading, const char *words, const char *use, bool *ret_yes);

GtkWindow *carpace_plan_offer_window_window (CarpacePlanOfferWindow *offer);

#endif
