/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-flaws.c: the builder's flaws in sentences. */
#include "text/plan-flaws.h"

#include "text/quoted.h"

#include "carpace/names.h"

#include <glib/gi18n.h>

/* The dotted path of what a flaw is about: "micro-rest.after", "drills[2].run". */
static char *
path_of (const CarpaceFlaw *flaw)
{
  if (flaw->key != CARPACE_N_KEYS)
    return g_strdup (carpace_name (CARPACE_WORDS_PLAN_KEY, (int32_t) flaw->key));
  if (flaw->block >= 0)
    return g_strdup (flaw->share ? "share" : "limit");
  if (flaw->drill_key == CARPACE_N_DRILL_KEYS)
    return g_strdup ("id");
  return g_strdup (carpace_name (CARPACE_WORDS_DRILL_KEY, (int32_t) flaw->drill_key));
}

static const CarpaceKeyFacts *
facts_of (const CarpaceFlaw *flaw)
{
  static const CarpaceKeyFacts share = { .unit = CARPACE_UNIT_SHARE };

  if (flaw->key != CARPACE_N_KEYS)
    return carpace_plan_key_facts (flaw->key);
  if (flaw->block >= 0)
    return flaw->share ? &share : carpace_block_limit_facts ();
  return carpace_drill_key_facts (flaw->drill_key);
}

static char *
out_of_range (const CarpaceFlaw *flaw)
{
  const CarpaceKeyFacts *facts = facts_of (flaw);
  char low[CARPACE_QUANTITY_BYTES], high[CARPACE_QUANTITY_BYTES];
  g_autofree char *path = path_of (flaw);

  if (facts->unit == CARPACE_UNIT_WRIST)
    return g_strdup_printf (_("%s is out of range; it can be straight, or up to 90 deg of flexion or extension"), path);
  carpace_quantity_write (facts->unit, flaw->low, low);
  carpace_quantity_write (facts->unit, flaw->high, high);
  if (facts->over_low)
    return g_strdup_printf (_("%s is out of range; it can be over %s, up to %s"), path, low, high);
  if (facts->none)
    return g_strdup_printf (_("%s is out of range; it can be %s to %s, or %s"), path, low, high, facts->none);
  return g_strdup_printf (_("%s is out of range; it can be %s to %s"), path, low, high);
}

static char *
unknown_drill (const CarpacePlan *plan, const char *word)
{
  const char *ids[CARPACE_PLAN_DRILLS + 1] = { NULL };
  g_autofree char *quoted = carpace_text_quoted (word);
  g_autofree char *known = NULL;

  for (int32_t i = 0; i < plan->n_drills; i++)
    ids[i] = plan->drills[i].id;
  known = carpace_text_suggestion (word, ids);
  return g_strdup_printf (_("there is no drill %s; %s"), quoted, known);
}

static char *
sum_over_day (const CarpaceFlaw *flaw)
{
  char sum[CARPACE_QUANTITY_BYTES], most[CARPACE_QUANTITY_BYTES];

  carpace_quantity_write (CARPACE_UNIT_DURATION, flaw->low, sum);
  carpace_quantity_write (CARPACE_UNIT_DURATION, flaw->high, most);
  return g_strdup_printf (_("the day adds up to %s; it can be %s at most, or give it a day.dose"), sum, most);
}

static char *
after_over_limit (const CarpaceFlaw *flaw)
{
  char longest[CARPACE_QUANTITY_BYTES];

  carpace_quantity_write (CARPACE_UNIT_DURATION, flaw->high, longest);
  return g_strdup_printf (_("micro-rest.after is longer than any block; it can be %s at most"), longest);
}

static char *
duty (const CarpaceFlaw *flaw)
{
  char seconds[CARPACE_QUANTITY_BYTES];

  carpace_quantity_write (CARPACE_UNIT_SECONDS, flaw->low, seconds);
  return g_strdup_printf (_("efforts and effort-lasts make %s of effort in a minute; together they can be 60 s at most"),
                          seconds);
}

static char *
shares (const CarpaceFlaw *flaw)
{
  char sum[CARPACE_QUANTITY_BYTES], most[CARPACE_QUANTITY_BYTES];

  carpace_quantity_write (CARPACE_UNIT_SHARE, flaw->low, sum);
  carpace_quantity_write (CARPACE_UNIT_SHARE, flaw->high, most);
  if (flaw->high < CARPACE_WHOLE)
    return g_strdup_printf (_("the given shares add up to %s, which leaves too little for the others; they can be %s at most"),
                            sum, most);
  return g_strdup_printf (_("the block's shares add up to %s; they have to make 100 %%"), sum);
}

/* A time, mostly the dose, and what it does not agree with. */
static char *
dose_against (const CarpaceFlaw *flaw)
{
  char dose[CARPACE_QUANTITY_BYTES], bound[CARPACE_QUANTITY_BYTES];

  carpace_quantity_write (CARPACE_UNIT_DURATION, flaw->low, dose);
  carpace_quantity_write (CARPACE_UNIT_DURATION, flaw->high, bound);
  if (flaw->kind == CARPACE_FLAW_DOSE_UNDER_SHORTEST)
    return g_strdup_printf (_("the day's dose is %s, less than block-limits.shortest, %s: no block could be practised; "
                              "raise the dose, or make shortest less"), dose, bound);
  if (flaw->kind == CARPACE_FLAW_DOSE_OVER_AT_MOST)
    return g_strdup_printf (_("the day's dose is %s, over next-day.at-most, %s; make the dose less, or at-most more"),
                            dose, bound);
  if (flaw->kind == CARPACE_FLAW_SPLIT_TIME_IS_OUT)
    return g_strdup_printf (_("the drills' times add up to %s, and of the dose, %s, nothing is left for drills without "
                              "a time; make the dose more, or the times less"), dose, bound);
  if (flaw->kind == CARPACE_FLAW_TIMES_OVER_DOSE)
    return g_strdup_printf (_("the drills' times add up to %s, more than the dose; blocks are scaled down to %s; "
                              "make the dose more, or the times less"), dose, bound);
  if (flaw->kind == CARPACE_FLAW_LONGEST_UNDER_LIMIT)
    return g_strdup_printf (_("a block's limit is %s, over block-limits.longest, %s, which cuts it on days with another "
                              "dose; make longest more, or the limit less"), dose, bound);
  return g_strdup_printf (_("the blocks add up to %s, more than the dose; they are scaled down to %s; make the dose more, "
                            "or the limits less"), dose, bound);
}

static char *
movement_differs (const CarpaceFlaw *flaw)
{
  return g_strdup_printf (_("movement is %s, but view-turn and cm-per-turn make it %s; view-turn counts"),
                          carpace_name (CARPACE_WORDS_MOVEMENT, (int32_t) flaw->low),
                          carpace_name (CARPACE_WORDS_MOVEMENT, (int32_t) flaw->high));
}

static char *
former_word (const CarpaceFlaw *flaw, const char *word)
{
  g_autofree char *former = carpace_text_quoted (word);
  g_autofree char *now = carpace_text_quoted (carpace_name ((CarpaceWords) flaw->low, (int32_t) flaw->high));

  return g_strdup_printf (_("%s is called %s now; the former word is still read"), former, now);
}

static char *
too_long (const CarpaceFlaw *flaw)
{
  g_autofree char *path = path_of (flaw);

  return g_strdup_printf (_("%s is too long; it can have %d characters"), path, (int) flaw->high);
}

static char *
split_too_long (const CarpaceFlaw *flaw)
{
  char length[CARPACE_QUANTITY_BYTES], most[CARPACE_QUANTITY_BYTES];

  carpace_quantity_write (CARPACE_UNIT_DURATION, flaw->low, length);
  carpace_quantity_write (CARPACE_UNIT_DURATION, flaw->high, most);
  return g_strdup_printf (_("a block would be %s long, and it can be %s at most; split into more, or make the day shorter"), length, most);
}

/* Those that are about a key, a name or an id. */
static char *
with_path (const char *format, const CarpaceFlaw *flaw)
{
  g_autofree char *path = path_of (flaw);
  g_auto (GStrv) pieces = g_strsplit (format, "%s", 2);

  return g_strjoin (NULL, pieces[0], path, pieces[1], NULL);
}

static char *
with_word (const char *format, const char *word)
{
  g_autofree char *quoted = carpace_text_quoted (word);
  g_auto (GStrv) pieces = g_strsplit (format, "%s", 2);

  return g_strjoin (NULL, pieces[0], quoted, pieces[1], NULL);
}

char *
carpace_text_plan_flaw (const CarpaceFlaw *flaw, const CarpacePlan *plan, const char *word)
{
  switch (flaw->kind)
    {
    case CARPACE_FLAW_MISSING: return with_path (_("%s is missing; every plan needs it"), flaw);
    case CARPACE_FLAW_OUT_OF_RANGE: return out_of_range (flaw);
    case CARPACE_FLAW_NAME_EMPTY: return with_path (_("%s is empty; it needs at least one character"), flaw);
    case CARPACE_FLAW_NAME_TOO_LONG: return too_long (flaw);
    case CARPACE_FLAW_NAME_CHARACTERS:
      return with_path (_("%s has characters that cannot be shown; keep to letters, digits, marks and spaces"), flaw);
    case CARPACE_FLAW_ID_CHARACTERS:
      return with_word (_("%s is no id for a drill; it can have the letters a-z and A-Z, digits and -"), word);
    case CARPACE_FLAW_ID_TWICE: return with_word (_("another drill has the id %s too; each needs its own"), word);
    case CARPACE_FLAW_UNKNOWN_DRILL: return unknown_drill (plan, word);
    case CARPACE_FLAW_TOO_MANY_DRILLS:
      return g_strdup_printf (_("there are too many drills; there can be %d"), CARPACE_PLAN_DRILLS);
    case CARPACE_FLAW_TOO_MANY_BLOCKS:
      return g_strdup_printf (_("there are too many blocks; there can be %d"), CARPACE_PLAN_BLOCKS);
    case CARPACE_FLAW_TOO_MANY_SHOWN:
      return g_strdup_printf (_("micro-rest.show has too many names; there can be %d"), CARPACE_PLAN_SHOWN);
    case CARPACE_FLAW_TOO_MANY_WITHOUT:
      return g_strdup_printf (_("week.without has too many days; there can be %d"), CARPACE_PLAN_WITHOUT);
    case CARPACE_FLAW_NO_MOVEMENT:
      return g_strdup (_("the drill has no movement; add movement, or view-turn together with hand.cm-per-turn"));
    case CARPACE_FLAW_VIEW_TURN_ALONE:
      return g_strdup (_("view-turn is a movement only together with hand.cm-per-turn; add that, as cm-per-turn: 35, or a movement"));
    case CARPACE_FLAW_VIEW_TURN_IDLE:
      return g_strdup (_("view-turn does nothing without hand.cm-per-turn, and movement counts; add that, as cm-per-turn: 35, or take view-turn out"));
    case CARPACE_FLAW_DUTY: return duty (flaw);
    case CARPACE_FLAW_SHARES: return shares (flaw);
    case CARPACE_FLAW_BLOCKS_AND_SPLIT: return g_strdup (_("there are both blocks and split; keep one of them"));
    case CARPACE_FLAW_NO_BLOCKS:
      return g_strdup (_("there are no blocks; add blocks, or split: whole, halves, quarters or a number"));
    case CARPACE_FLAW_NO_DRILLS: return g_strdup (_("there are no drills here; add at least one"));
    case CARPACE_FLAW_SPLIT_NO_TIME:
      return g_strdup (_("there is no time to split; add a day.dose that covers every drill, or a time to each drill"));
    case CARPACE_FLAW_SPLIT_TOO_FEW_RUNS:
      return g_strdup (_("there are fewer whole runs than blocks; split into fewer, make runs shorter, or add time"));
    case CARPACE_FLAW_SPLIT_TOO_LONG: return split_too_long (flaw);
    case CARPACE_FLAW_AFTER_OVER_LIMIT: return after_over_limit (flaw);
    case CARPACE_FLAW_SUM_OVER_DAY: return sum_over_day (flaw);
    case CARPACE_FLAW_DOSE_UNDER_SHORTEST:
    case CARPACE_FLAW_DOSE_OVER_AT_MOST:
    case CARPACE_FLAW_SPLIT_TIME_IS_OUT:
    case CARPACE_FLAW_TIMES_OVER_DOSE:
    case CARPACE_FLAW_LONGEST_UNDER_LIMIT:
    case CARPACE_FLAW_BLOCKS_OVER_DOSE: return dose_against (flaw);
    case CARPACE_FLAW_DRILL_UNUSED:
      return with_word (_("no block uses the drill %s; add it to a block, or take it out"), word);
    case CARPACE_FLAW_RESERVE_TOO_HIGH:
      return with_word (_("one run of %s passes this from rested, by the model's estimate; a rest would be due in each run"),
                        plan->drills[flaw->drill].id);
    case CARPACE_FLAW_USUAL_DISCOMFORT:
      return g_strdup (_("a usual discomfort of 3 or more should be seen by a physiotherapist or doctor; please ask about this plan there"));
    case CARPACE_FLAW_MOVEMENT_DIFFERS: return movement_differs (flaw);
    case CARPACE_FLAW_FORMER_WORD: return former_word (flaw, word);
    case CARPACE_N_FLAWS:
      break;
    }
  g_return_val_if_reached (NULL);
}

static char *
key_breach (const CarpaceCeiling *ceiling, CarpacePlanKey key)
{
  const char *path = carpace_name (CARPACE_WORDS_PLAN_KEY, (int32_t) key);
  g_autofree char *value = carpace_text_held_value (ceiling, key);

  switch (carpace_plan_key_facts (key)->looser)
    {
    case CARPACE_LOOSER_HIGHER:
      return g_strdup_printf (_("%s is higher than the plan you were given fixes; it can be %s or less"), path, value);
    case CARPACE_LOOSER_LOWER:
      return g_strdup_printf (_("%s is lower than the plan you were given fixes; it can be %s or more"), path, value);
    case CARPACE_LOOSER_FEWER:
      return g_strdup_printf (_("week.without lacks a day that the plan you were given fixes; it needs %s"), value);
    case CARPACE_LOOSER_ANY:
      break;
    }
  return g_strdup_printf (_("%s is not as the plan you were given fixes it; it has to be %s"), path, value);
}

char *
carpace_text_breach (const CarpaceCeiling *ceiling, const CarpaceBreach *breach)
{
  char value[CARPACE_QUANTITY_BYTES];

  switch (breach->kind)
    {
    case CARPACE_BREACH_KEY:
      return key_breach (ceiling, breach->key);
    case CARPACE_BREACH_DOSE:
      carpace_quantity_write (CARPACE_UNIT_DURATION, ceiling->number[CARPACE_KEY_NEXT_DAY_AT_MOST], value);
      return g_strdup_printf (_("the first day's dose is higher than the next-day.at-most that is fixed; it can be %s or less"), value);
    case CARPACE_BREACH_LIMIT:
      carpace_quantity_write (CARPACE_UNIT_DURATION, (double) carpace_ceiling_limit_ms (ceiling, breach->block), value);
      return g_strdup_printf (_("limit is longer than the plan you were given fixes; it can be %s or shorter"), value);
    case CARPACE_BREACH_BLOCKS:
      return g_strdup_printf (ngettext ("there are more blocks than the plan you were given fixes; there can be %d",
                                        "there are more blocks than the plan you were given fixes; there can be %d",
                                        (gulong) ceiling->n_blocks), (int) ceiling->n_blocks);
    case CARPACE_BREACH_NONE:
      break;
    }
  g_return_val_if_reached (NULL);
}

char *
carpace_text_newer_version (int32_t version, int32_t given)
{
  return g_strdup_printf (_("version %d is newer than version %d that you were given; take it with “carpace plan use FILE”"),
                          (int) version, (int) given);
}
