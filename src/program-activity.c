/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-activity.c: every source of input there is. The tray and `carpace
 * desktop` go through the same list: a source is a row of it and its adapter. */
#include "program-activity.h"

#include <glib/gi18n.h>

#include "adapters/activity-manual.h"
#include "adapters/activity-mutter.h"
#include "adapters/activity-together.h"
#include "adapters/activity-wayland.h"
#include "adapters/activity-x11-beside.h"
#include "adapters/activity-x11.h"
#include "adapters/clicks-x11.h"

typedef struct
{
  CarpaceInputSource source;
  CarpaceActivityOpen open;
} Source;

/* The better ones first; the last is offered everywhere. */
static const Source sources[] = {
  { { "x11", CARPACE_SIGHT_EVERY_GAP, N_("The X server reports when the hand is still.") }, carpace_activity_x11_open },
  { { "ext-input", CARPACE_SIGHT_EVERY_GAP, N_("The compositor reports when the hand is still.") }, carpace_activity_ext_input_open },
  { { "mutter", CARPACE_SIGHT_EVERY_GAP, N_("The desktop's idle monitor reports when the hand is still.") },
    carpace_activity_mutter_open },
  { { "ext", CARPACE_SIGHT_UNLESS_AWAKE, N_("The compositor reports when the desktop is idle.") }, carpace_activity_ext_open },
  { { "kde", CARPACE_SIGHT_UNLESS_AWAKE, N_("The compositor reports when the desktop is idle.") }, carpace_activity_kde_open },
  { { "manual", CARPACE_SIGHT_NONE, N_("Nothing here reports when the hand is still.") }, carpace_activity_manual_open },
};

/* Beside one that is blind at times: games mostly are programs of X, also on Wayland. */
static const Source beside = {
  { "x11-beside", CARPACE_SIGHT_OF_X, N_("For programs that run through X, the server of these reports when the hand is still.") },
  carpace_activity_x11_beside_open
};

static CarpaceInputSource
translated (const Source *source)
{
  return (CarpaceInputSource){ source->source.word, source->source.sight, _(source->source.sentence) };
}

static bool
open_source (const Source *source, CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity, CarpaceInputSource *ret_beside)
{
  const CarpaceActivityPart parts[] = { { source->open, true }, { beside.open, false } };
  bool opened[G_N_ELEMENTS (parts)] = { false };

  *ret_beside = (CarpaceInputSource){ .word = NULL };
  if (source->source.sight != CARPACE_SIGHT_UNLESS_AWAKE)
    return source->open (clock, tell, ret_activity);
  if (!carpace_activity_together_open (parts, G_N_ELEMENTS (parts), clock, tell, ret_activity, opened))
    return false;
  if (opened[1])
    *ret_beside = translated (&beside);
  return true;
}

CarpaceInputSource
carpace_program_follow_input (CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity, CarpaceInputSource *ret_beside)
{
  size_t i = 0;

  while (!open_source (&sources[i], clock, tell, ret_activity, ret_beside) && i + 1 < G_N_ELEMENTS (sources))
    i++;
  return translated (&sources[i]);
}

/* ---- clicks ---- */

/* The better ones first: each hears of every press, or is not offered. */
static const CarpaceClicksOpen sources_of_clicks[] = { carpace_clicks_x11_open };

bool
carpace_program_open_clicks (CarpaceClicksListener listener, CarpaceClicks *ret_clicks)
{
  for (size_t i = 0; i < G_N_ELEMENTS (sources_of_clicks); i++)
    if (sources_of_clicks[i](listener, ret_clicks))
      return true;
  return false;
}
