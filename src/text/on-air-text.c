/* SPDX-License-Identifier: GPL-3.0-or-later */
/* on-air-text.c: one rule for what a stream may read of a message. */
#include "text/on-air-text.h"

#include <glib.h>
#include <glib/gi18n.h>

static const struct
{
  bool made_for_it;
  const char *instead; /* NULL where it waits */
} says[CARPACE_N_MESSAGES] = {
  [CARPACE_MESSAGE_STATUS] = { .made_for_it = true },
  [CARPACE_MESSAGE_TAKEN] = { .made_for_it = true },
  [CARPACE_MESSAGE_REFUSED] = { .instead = N_("Not possible now; off air Carpace says why.") },
  [CARPACE_MESSAGE_WORDING] = { .instead = N_("Not understood; “carpace --help” names all commands.") },
  [CARPACE_MESSAGE_PLAN] = { .instead = N_("This plan is not in use; off air Carpace says why.") },
  [CARPACE_MESSAGE_DIARY] = { .instead = NULL },
};

const char *
carpace_text_on_air (CarpaceMessage kind, const char *off_air)
{
  if (says[kind].made_for_it)
    return off_air;
  return says[kind].instead != NULL ? _(says[kind].instead) : NULL;
}

char *
carpace_text_reply (CarpaceMessage kind, bool on_air, char *off_air)
{
  char *reply;

  if (!on_air || off_air == NULL)
    return off_air;
  reply = g_strdup (carpace_text_on_air (kind, off_air));
  g_free (off_air);
  return reply;
}
