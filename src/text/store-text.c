/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-text.c: troubles of the diary's file, in words. */
#include "text/store-text.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "text/file-text.h"

static const char *const sentences[CARPACE_N_STORE_TROUBLES] = {
  [CARPACE_STORE_IN_USE] =
    N_("Carpace is running already and keeps the diary %s. Quit it first (carpace quit), then try again."),
  [CARPACE_STORE_HELD] =
    N_("Another program holds the diary %s. Practice goes on and is kept as soon as that program lets go of it; until "
       "then it is only in memory."),
  [CARPACE_STORE_GONE] =
    N_("The diary %s is gone from its place. Practice goes on, and all that was in it is written there again as soon as "
       "it can be; until then it is only in memory."),
  [CARPACE_STORE_NOT_A_DIARY] =
    N_("%s is not a diary of Carpace. It is left as it is; practice goes on, but is kept only until Carpace is quit. "
       "Move that file elsewhere and start Carpace again."),
  [CARPACE_STORE_DAMAGED] =
    N_("The diary %s is damaged and cannot be read. It is left as it is; practice goes on, but is kept only until "
       "Carpace is quit. Move that file elsewhere, put a backup in its place, and start Carpace again."),
  [CARPACE_STORE_DAMAGED_INSIDE] =
    N_("A part of the diary %s is damaged. It is left as it is. Export it now (carpace export --format json), move "
       "the file elsewhere, and put a backup in its place or import what was exported."),
  [CARPACE_STORE_NEWER] =
    N_("The diary %s was written by a newer Carpace. It is only read; practice goes on, but is kept only until "
       "Carpace is quit. Install that newer Carpace again to go on with it."),
  [CARPACE_STORE_READ_ONLY] =
    N_("The diary %s cannot be written. Practice goes on, but is kept only until Carpace is quit. Make the file and "
       "its folder writable and start Carpace again."),
  [CARPACE_STORE_FULL] =
    N_("The disk is full: the diary %s cannot be written for now. Practice goes on and is kept as soon as there is "
       "room. Free some space before Carpace is quit."),
  [CARPACE_STORE_FAILED] =
    N_("The diary %s cannot be kept for now (%s). Practice goes on and is kept as soon as it can be. Look after that "
       "file and its folder before Carpace is quit."),
  [CARPACE_STORE_KEPT_AGAIN] = N_("The diary %s can be written again; nothing is missing from it."),
};

/* Where a command only reads; what is not here is said as above. */
static const char *const reading_sentences[CARPACE_N_STORE_TROUBLES] = {
  [CARPACE_STORE_NOT_A_DIARY] = N_("%s is not a diary of Carpace; it is left as it is."),
  [CARPACE_STORE_DAMAGED] =
    N_("The diary %s is damaged and cannot be read. It is left as it is; put a backup in its place."),
  [CARPACE_STORE_READ_ONLY] = N_("The diary %s may not be read by this user."),
  [CARPACE_STORE_FAILED] = N_("The diary %s cannot be read (%s)."),
};

char *
carpace_text_store_trouble (CarpaceStoreTrouble trouble, bool reading, const char *path, const char *detail)
{
  const char *own = reading ? reading_sentences[trouble] : NULL;
  g_auto (GStrv) parts = g_strsplit (_(own != NULL ? own : sentences[trouble]), "%s", 3);
  g_autoptr (GString) text = g_string_new (parts[0]);
  g_autofree char *name = carpace_text_path (path);

  for (int i = 1; parts[0] != NULL && parts[i] != NULL; i++)
    g_string_append_printf (text, "%s%s", i == 1 ? name : detail != NULL ? detail : _("no reason was given"), parts[i]);
  return g_strdup (text->str);
}
