/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-clicks.c: nothing is opened while they are not wanted. */
#include "program-clicks.h"

#include <glib/gi18n.h>

#include "program-activity.h"
#include "program-private.h"

void
carpace_program_follow_clicks (CarpaceProgram *p)
{
  CarpaceClicks now = p->loop.ports.clicks, then = { 0 };

  if (p->settings.clicks == (now.self != NULL))
    return;
  if (p->settings.clicks && !carpace_program_open_clicks (carpace_loop_as_clicks_listener (&p->loop), &then))
    {
      carpace_program_say (_("This desktop does not report clicks: how many there are stays unknown."));
      return;
    }
  carpace_loop_set_clicks (&p->loop, then);
  CARPACE_PORT_FREE (now);
}
