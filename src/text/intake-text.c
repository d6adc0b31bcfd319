/* SPDX-License-Identifier: GPL-3.0-or-later */
/* intake-text.c: a sentence for each thing that can be wrong with a line from elsewhere. */
#include "text/intake-text.h"

#include <glib/gi18n.h>

#include "carpace/diary.h"
#include "text/quoted.h"

char *
carpace_text_intake_fault (CarpaceIntakeFault fault, const char *key, const char *value)
{
  g_autofree char *what = carpace_text_quoted (value);
  g_autofree char *name = carpace_text_harmless (key != NULL ? key : "");

  switch (fault)
    {
    case CARPACE_INTAKE_FINE:
      break;
    case CARPACE_INTAKE_NOT_TEXT:
      return g_strdup (_("this is not UTF-8 text; save the file as UTF-8"));
    case CARPACE_INTAKE_NOT_THE_FORM:
      return g_strdup (_("this is not as a diary is exported; take a file from carpace export --format csv or json"));
    case CARPACE_INTAKE_TOO_LONG:
      return g_strdup (_("this line is too long to be of a diary"));
    case CARPACE_INTAKE_TOO_DEEP:
      return g_strdup (_("there are lists within lists here; a diary has none"));
    case CARPACE_INTAKE_MORE:
      return g_strdup (_("there is more than one record on this line; one a line would be right"));
    case CARPACE_INTAKE_NO_VERSION:
      return g_strdup_printf (_("%s is no version that a diary was ever exported in; take a file from carpace export"), what);
    case CARPACE_INTAKE_NOT_AN_IDENTITY:
      return g_strdup_printf (_("%s is %s, which is no diary's identity"), name, what);
    case CARPACE_INTAKE_TWO_DIARIES:
      return g_strdup (_("this line is of another diary than the lines before it; import one diary at a time"));
    case CARPACE_INTAKE_MISSING:
      return g_strdup_printf (_("%s is missing here"), name);
    case CARPACE_INTAKE_TWICE:
      return g_strdup_printf (_("%s is here twice; once would be right"), name);
    case CARPACE_INTAKE_UNKNOWN_KIND:
      return g_strdup_printf (_("%s is no kind of record; it may come from a newer Carpace"), what);
    case CARPACE_INTAKE_NOT_A_WORD:
      return g_strdup_printf (_("%s is no word for %s"), what, name);
    case CARPACE_INTAKE_NOT_A_NUMBER:
      return g_strdup_printf (_("%s is %s; a whole number would be right"), name, what);
    case CARPACE_INTAKE_OUT_OF_RANGE:
      return g_strdup_printf (_("%s is %s, which cannot be"), name, what);
    case CARPACE_INTAKE_NOT_A_TIME:
      return g_strdup_printf (_("%s is %s; a time as 2027-03-02T18:00:00+01:00 would be right"), name, what);
    case CARPACE_INTAKE_NOT_A_DATE:
      return g_strdup_printf (_("%s is %s; a date as 2027-03-02 would be right"), name, what);
    case CARPACE_INTAKE_NOTE_TOO_LONG:
      return g_strdup_printf (_("this note is longer than %d characters"), CARPACE_DIARY_NOTE_CHARACTERS);
    case CARPACE_INTAKE_NEWER:
      return g_strdup (_("this file was written by a newer Carpace; import it with that one"));
    case CARPACE_INTAKE_NOT_KEPT:
      return g_strdup (_("the diary could not be written"));
    }
  return NULL;
}
