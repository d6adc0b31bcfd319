/* SPDX-License-Identifier: GPL-3.0-or-later */
/* code-text.c: what is wrong with players' codes. */
#include "text/code-text.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "text/quoted.h"

static char *
sentence (const CarpaceCodeFault *fault)
{
  g_autofree char *word = carpace_text_quoted (fault->word);

  switch (fault->kind)
    {
    case CARPACE_CODE_EMPTY: return g_strdup (_("A player’s code is empty; it has 1 to 20 characters."));
    case CARPACE_CODE_TOO_LONG: return g_strdup_printf (_("The code %s is too long; it can have 20 characters."), word);
    case CARPACE_CODE_CHARACTERS:
      return g_strdup_printf (_("%s is no code for a player; it can have the letters a-z and A-Z, digits, - and _, with a letter or digit first."), word);
    case CARPACE_CODE_TWICE:
      if (fault->before > 0)
        return g_strdup_printf (_("The code %s stands here a second time, first in line %d; keep one of them."), word,
                                (int) fault->before);
      return g_strdup_printf (_("The code %s is named twice; leave one out."), word);
    case CARPACE_CODE_TOO_MANY: return g_strdup (_("There are too many codes; there can be 200."));
    case CARPACE_CODE_NOT_UTF8: return g_strdup (_("This is no text; a list of codes has one code a line."));
    case CARPACE_CODE_NONE: return g_strdup (_("There is no code in the list; write one a line."));
    case CARPACE_CODE_FINE:
      break;
    }
  g_return_val_if_reached (NULL);
}

char *
carpace_text_code_fault (const CarpaceCodeFault *fault)
{
  g_autofree char *said = sentence (fault);

  /* Translators: a line of a list, and what is wrong there */
  return fault->line > 0 ? g_strdup_printf (_("Line %d: %s"), (int) fault->line, said) : g_steal_pointer (&said);
}
