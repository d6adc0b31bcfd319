/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-front.c: a row a source. */
#include "program-front.h"

#include <glib.h>

#include "adapters/front-wayland.h"
#include "adapters/front-x11.h"

/* The better ones first. */
static const struct
{
  CarpaceFrontOpen open;
  CarpaceWindowsOffer windows;
} sources[] = {
  { carpace_front_x11_open, CARPACE_WINDOWS_BY_CLICK },
  { carpace_front_wayland_open, CARPACE_WINDOWS_BY_FRONT },
  { carpace_front_x11_beside_open, CARPACE_WINDOWS_OF_X },
};

CarpaceWindowsOffer
carpace_program_open_front (CarpaceWindowListener listener, CarpaceFront *ret_front)
{
  for (size_t i = 0; i < G_N_ELEMENTS (sources); i++)
    if (sources[i].open (listener, ret_front))
      return sources[i].windows;
  return CARPACE_WINDOWS_NONE;
}
