/* SPDX-License-Identifier: GPL-3.0-or-later */
/* layers-wayland.c: by the names of what a compositor offers, on a connection of its own. */
#include "layers-wayland.h"

#include <string.h>

#include "wayland.h"

#define ANSWER_MS 2000
#define LAYERS "zwlr_layer_shell_v1"
#define OF_KWIN "org_kde_plasma_shell" /* only its layers give what is clicked the focus (5.27) */

typedef struct
{
  bool layers, kwin;
} Offered;

static void
came (void *data, struct wl_registry *registry, uint32_t name, const char *interface, uint32_t version)
{
  Offered *offered = data;

  offered->layers |= strcmp (interface, LAYERS) == 0;
  offered->kwin |= strcmp (interface, OF_KWIN) == 0;
}

static void
went (void *data, struct wl_registry *registry, uint32_t name)
{
}

static const struct wl_registry_listener listener = { .global = came, .global_remove = went };

CarpaceCardsOffer
carpace_layers_wayland_look (void)
{
  struct wl_display *display = wl_display_connect (NULL);
  Offered offered = { false, false };
  struct wl_registry *registry;
  bool answered;

  if (display == NULL)
    return CARPACE_CARDS_NONE;
  registry = wl_display_get_registry (display);
  wl_registry_add_listener (registry, &listener, &offered);
  answered = carpace_wayland_settle (display, ANSWER_MS);
  wl_registry_destroy (registry);
  wl_display_disconnect (display);
  return !answered         ? CARPACE_CARDS_NONE
         : !offered.layers ? CARPACE_CARDS_BY_NOTICES
         : offered.kwin    ? CARPACE_CARDS_ABOVE_TAKE_FOCUS
                           : CARPACE_CARDS_ABOVE;
}
