/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-read-faults.c: what is wrong with a plan's file, before its values are judged. */
#include "text/plan-flaws.h"

#include "text/quoted.h"

#include <glib/gi18n.h>
#include <string.h>

static const char *
right_form (CarpaceUnit unit)
{
  switch (unit)
    {
    case CARPACE_UNIT_DURATION:
    case CARPACE_UNIT_SECONDS: return _("a time is written as 90 s, 6 min, 1.5 min or 1 h 5 min");
    case CARPACE_UNIT_SHARE:
    case CARPACE_UNIT_PERCENT: return _("a share is written as 65 %");
    case CARPACE_UNIT_DEGREES: return _("an angle is written as 90 deg");
    case CARPACE_UNIT_PER_MIN: return _("it is written as 60 /min");
    case CARPACE_UNIT_WRIST: return _("it is written as straight, 25 deg extension or 10 deg flexion");
    case CARPACE_UNIT_TIME_OF_DAY: return _("a time of day is written as \"04:00\", from \"00:00\" to \"23:59\"");
    case CARPACE_UNIT_CM: return _("it is a number of cm, written without a unit, as 35");
    case CARPACE_UNIT_WHOLE: return _("it is a whole number, as 8");
    case CARPACE_UNIT_TEXT:
    case CARPACE_UNIT_WORD:
    case CARPACE_UNIT_EXERCISES:
    case CARPACE_UNIT_WEEKDAYS:
      break;
    }
  g_return_val_if_reached ("");
}

static const char *
unit_to_add (CarpaceUnit unit)
{
  switch (unit)
    {
    case CARPACE_UNIT_DURATION: return _("add s, min or h");
    case CARPACE_UNIT_SECONDS: return _("add s");
    case CARPACE_UNIT_SHARE:
    case CARPACE_UNIT_PERCENT: return _("add %");
    case CARPACE_UNIT_DEGREES: return _("add deg");
    case CARPACE_UNIT_PER_MIN: return _("add /min");
    case CARPACE_UNIT_WRIST: return _("add deg flexion or deg extension");
    case CARPACE_UNIT_TEXT:
    case CARPACE_UNIT_WORD:
    case CARPACE_UNIT_WHOLE:
    case CARPACE_UNIT_CM:
    case CARPACE_UNIT_TIME_OF_DAY:
    case CARPACE_UNIT_EXERCISES:
    case CARPACE_UNIT_WEEKDAYS:
      break;
    }
  g_return_val_if_reached ("");
}

static const char *
finest (CarpaceUnit unit)
{
  switch (unit)
    {
    case CARPACE_UNIT_DURATION:
    case CARPACE_UNIT_SECONDS: return _("thousandths of a second are the finest");
    case CARPACE_UNIT_SHARE: return _("two decimals are the most");
    case CARPACE_UNIT_WHOLE: return _("it is a whole number");
    case CARPACE_UNIT_PERCENT:
    case CARPACE_UNIT_DEGREES:
    case CARPACE_UNIT_PER_MIN:
    case CARPACE_UNIT_WRIST:
    case CARPACE_UNIT_CM: return _("15 digits are the most");
    case CARPACE_UNIT_TEXT:
    case CARPACE_UNIT_WORD:
    case CARPACE_UNIT_TIME_OF_DAY:
    case CARPACE_UNIT_EXERCISES:
    case CARPACE_UNIT_WEEKDAYS:
      break;
    }
  g_return_val_if_reached ("");
}

/* A value that would be right with a point in place of its comma. @return NULL where it is none */
static char *
decimal_comma (const CarpaceReadFault *fault)
{
  g_auto (GStrv) sides = g_strsplit (fault->word ? fault->word : "", ",", -1);
  g_autofree char *pointed = g_strjoinv (".", sides);
  g_autofree char *right = carpace_text_quoted (pointed), *word = carpace_text_quoted (fault->word);
  double number;

  if (g_strv_length (sides) != 2 || carpace_quantity_read (pointed, fault->unit, &number) != CARPACE_QUANTITY_OK)
    return NULL;
  return g_strdup_printf (_("%s has a decimal comma, %s; write a point, %s"), fault->key, word, right);
}

static char *
bad_quantity (const CarpaceReadFault *fault)
{
  g_autofree char *word = carpace_text_quoted (fault->word);
  char *comma = decimal_comma (fault);

  if (comma)
    return comma;

  switch (fault->quantity)
    {
    case CARPACE_QUANTITY_NOT_A_NUMBER:
    case CARPACE_QUANTITY_OTHER_UNIT:
    case CARPACE_QUANTITY_NOT_A_TIME:
      if (fault->none && fault->unit != CARPACE_UNIT_WRIST)
        return g_strdup_printf (_("%s cannot be %s; %s, or is %s"), fault->key, word, right_form (fault->unit),
                                fault->none);
      return g_strdup_printf (_("%s cannot be %s; %s"), fault->key, word, right_form (fault->unit));
    case CARPACE_QUANTITY_NO_UNIT:
      return g_strdup_printf (_("%s has a number without its unit, %s; %s"), fault->key, word,
                              unit_to_add (fault->unit));
    case CARPACE_QUANTITY_ORDER:
      return g_strdup_printf (_("%s cannot be %s; write h before min before s, and decimals in the last one only"),
                              fault->key, word);
    case CARPACE_QUANTITY_TOO_FINE:
      return g_strdup_printf (_("%s has too many decimals, %s; %s"), fault->key, word, finest (fault->unit));
    case CARPACE_QUANTITY_OK:
      break;
    }
  g_return_val_if_reached (NULL);
}

/* One bracket without the other. */
static char *
bracket (const CarpaceReadFault *fault, const char *word)
{
  static const char pairs[] = "{}[]";
  const char *at = fault->word != NULL && fault->word[0] != '\0' ? strchr (pairs, fault->word[0]) : NULL;
  bool opens = fault->kind == CARPACE_READ_NOT_CLOSED;
  const char partner[] = { at != NULL ? at[opens ? 1 : -1] : '\0', '\0' };
  g_autofree char *other = carpace_text_quoted (partner);

  if (opens)
    return g_strdup_printf (_("%s is opened here and not closed; add %s behind what belongs in it"), word, other);
  return g_strdup_printf (_("%s closes nothing here; take it out, or add %s before what belongs in it"), word, other);
}

static char *
of_the_file (const CarpaceReadFault *fault)
{
  g_autofree char *word = fault->kind == CARPACE_READ_NOT_YAML ? carpace_text_harmless (fault->word)
                                                               : carpace_text_quoted (fault->word);

  switch ((int) fault->kind)
    {
    case CARPACE_READ_TOO_LARGE: return g_strdup (_("the file is larger than 256 KiB; a plan is shorter than that"));
    case CARPACE_READ_NOT_UTF8: return g_strdup (_("this is not UTF-8 text; save the file as UTF-8"));
    case CARPACE_READ_CONTROL_BYTE: return g_strdup (_("there is a control character here; take it out"));
    case CARPACE_READ_NOT_CLOSED:
    case CARPACE_READ_NOT_OPENED: return bracket (fault, word);
    case CARPACE_READ_NO_COMMA: return g_strdup_printf (_("a comma is missing before %s; add it behind what stands there"), word);
    case CARPACE_READ_EMPTY: return g_strdup (_("there is no plan in the file; begin with carpace-plan: 1"));
    case CARPACE_READ_SECOND_DOCUMENT: return g_strdup (_("a second document begins here; a file holds one plan"));
    case CARPACE_READ_TOO_DEEP: return g_strdup (_("this is nested too deep; 16 levels are the most"));
    case CARPACE_READ_ANCHOR: return g_strdup (_("anchors (&) are not read; write the value itself"));
    case CARPACE_READ_ALIAS: return g_strdup (_("aliases (*) are not read; write the value itself"));
    case CARPACE_READ_TAG: return g_strdup_printf (_("the tag %s is not known; the only one is !fixed"), word);
    case CARPACE_READ_NOT_FIXABLE:
      return g_strdup (_("!fixed means nothing here; it stands before a block's limit or a value of the plan itself"));
    case CARPACE_READ_UNFIT_TEXT: return g_strdup (_("this escape makes no text; write the characters themselves"));
    case CARPACE_READ_KEY_NOT_A_WORD: return g_strdup (_("this cannot be a key; a key is one word"));
    case CARPACE_READ_NOT_YAML:
      return g_strdup_printf (_("this cannot be read as YAML (%s); look at indentation, brackets and quotation marks"),
                              word);
    default:
      break;
    }
  g_return_val_if_reached (NULL);
}

char *
carpace_text_read_fault (const CarpaceReadFault *fault)
{
  g_autofree char *word = carpace_text_quoted (fault->word);
  g_autofree char *set = fault->set ? carpace_text_suggestion (fault->word, fault->set) : NULL;

  switch (fault->kind)
    {
    case CARPACE_READ_UNKNOWN_KEY: return g_strdup_printf (_("the key %s is not known here; %s"), word, set);
    case CARPACE_READ_UNKNOWN_WORD: return g_strdup_printf (_("%s cannot be %s; %s"), fault->key, word, set);
    case CARPACE_READ_KEY_TWICE:
      return g_strdup_printf (_("the key %s stands here a second time, first in line %d; keep one of them"), word,
                              fault->line);
    case CARPACE_READ_KEY_MISSING: return g_strdup_printf (_("%s is missing; add it"), fault->key);
    case CARPACE_READ_NOT_A_MAPPING:
      return fault->key[0] == '\0' ? g_strdup (_("this is no plan; begin with carpace-plan: 1"))
                                   : g_strdup_printf (_("%s needs keys with values; %s"), fault->key, set);
    case CARPACE_READ_NOT_A_LIST: return g_strdup_printf (_("%s needs a list; write each item after a -"), fault->key);
    case CARPACE_READ_NOT_A_VALUE:
      return g_strdup_printf (_("%s needs one value, not a list or keys; write it behind the colon"), fault->key);
    case CARPACE_READ_QUOTED_NUMBER:
      return g_strdup_printf (_("%s has a number in quotation marks, %s; write it without them"), fault->key, word);
    case CARPACE_READ_BAD_QUANTITY: return bad_quantity (fault);
    case CARPACE_READ_BAD_SPLIT:
      return g_strdup_printf (_("split cannot be %s; it can be whole, halves, quarters or a number from 2 to 32"), word);
    case CARPACE_READ_OTHER_VERSION:
      return g_strdup_printf (_("carpace-plan is %s; this version reads 1"), word);
    case CARPACE_READ_TOO_LARGE:
    case CARPACE_READ_NOT_UTF8:
    case CARPACE_READ_CONTROL_BYTE:
    case CARPACE_READ_NOT_YAML:
    case CARPACE_READ_NOT_CLOSED:
    case CARPACE_READ_NOT_OPENED:
    case CARPACE_READ_NO_COMMA:
    case CARPACE_READ_EMPTY:
    case CARPACE_READ_SECOND_DOCUMENT:
    case CARPACE_READ_TOO_DEEP:
    case CARPACE_READ_ANCHOR:
    case CARPACE_READ_ALIAS:
    case CARPACE_READ_TAG:
    case CARPACE_READ_NOT_FIXABLE:
    case CARPACE_READ_UNFIT_TEXT:
    case CARPACE_READ_KEY_NOT_A_WORD:
      break;
    }
  return of_the_file (fault);
}

char *
carpace_text_more_faults (int32_t n)
{
  return g_strdup_printf (ngettext ("%d more fault is not told; fix these first",
                                    "%d more faults are not told; fix these first", (gulong) n), n);
}

char *
carpace_text_plan_file (CarpacePlanFileKind kind, const char *path, const char *why, const char *const *set)
{
  g_autofree char *quoted = path ? carpace_text_harmless (path) : NULL;
  g_autofree char *known = set ? carpace_text_suggestion (path, set) : NULL;

  switch (kind)
    {
    case CARPACE_PLAN_FILE_UNKNOWN: return g_strdup_printf (_("there is no plan or file %s; %s"), quoted, known);
    case CARPACE_PLAN_FILE_UNREADABLE:
      return g_strdup_printf (_("the file cannot be read (%s); look at its name and permissions"), why);
    case CARPACE_PLAN_FILE_NO_FILE: return g_strdup (_("this is no ordinary file; name a plan file"));
    case CARPACE_PLAN_FILE_UNWRITABLE:
      return g_strdup_printf (_("%s cannot be written (%s); look at the folder, its permissions and room"), quoted, why);
    case CARPACE_PLAN_FILE_EXISTS:
      return g_strdup_printf (_("%s is there already and stays as it is; choose another name"), quoted);
    case CARPACE_PLAN_FILE_DAMAGED:
      return g_strdup_printf (_("this plan cannot be read; the command plan check %s tells why"), quoted);
    case CARPACE_PLAN_FILE_NONE_IN_USE:
      return g_strdup (_("no block plan is in use; choose one with “carpace plan use NAME”; “carpace plan list” names them"));
    }
  g_return_val_if_reached (NULL);
}
