/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ceiling.c: what a given plan fixes, added up, compared, and as text. */
#include "carpace/ceiling.h"

#include <string.h>

#include "carpace/plan-keys.h"
#include "carpace/quantity.h"

bool
carpace_ceiling_holds (const CarpaceCeiling *ceiling)
{
  bool any = ceiling->n_blocks > 0;

  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    any = any || ceiling->fixed[key];
  return any;
}

static void
fix (CarpaceCeiling *ceiling, const CarpacePlan *plan, CarpacePlanKey key)
{
  ceiling->fixed[key] = true;
  if (key == CARPACE_KEY_NAME)
    memcpy (ceiling->name, plan->name, sizeof ceiling->name);
  else if (key == CARPACE_KEY_NOTE)
    memcpy (ceiling->note, plan->note, sizeof ceiling->note);
  else if (key == CARPACE_KEY_MICRO_REST_SHOW)
    {
      ceiling->n_shown = plan->n_shown;
      memcpy (ceiling->shown, plan->shown, sizeof ceiling->shown);
    }
  else
    ceiling->number[key] = carpace_plan_number (plan, key);
}

int64_t
carpace_ceiling_limit_ms (const CarpaceCeiling *ceiling, int32_t block)
{
  if (ceiling->n_blocks == 0)
    return 0;
  return ceiling->limit_ms[block < ceiling->n_blocks ? block : ceiling->n_blocks - 1];
}

static void
add_limits (CarpaceCeiling *ceiling, const CarpacePlan *plan)
{
  int32_t n_fixed = 0;
  int64_t limit_ms[CARPACE_PLAN_BLOCKS] = { 0 };

  for (int32_t i = 0; i < plan->n_blocks; i++)
    {
      n_fixed += plan->blocks[i].limit_fixed;
      limit_ms[i] = plan->blocks[i].limit_fixed ? plan->blocks[i].limit_ms : carpace_ceiling_limit_ms (ceiling, i);
    }
  if (n_fixed == 0)
    return;
  memcpy (ceiling->limit_ms, limit_ms, sizeof limit_ms);
  ceiling->n_blocks = plan->n_blocks;
  if (n_fixed == plan->n_blocks)
    fix (ceiling, plan, CARPACE_KEY_DAY_DOSE);
}

void
carpace_ceiling_add (CarpaceCeiling *ceiling, const CarpacePlan *plan)
{
  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    if (plan->fixed[key])
      fix (ceiling, plan, (CarpacePlanKey) key);
  add_limits (ceiling, plan);
}

/* Lists are held by all that is in them: one key more is one exercise more that stays. */
static void
join_key (CarpaceCeiling *ceiling, const CarpaceCeiling *other, CarpacePlanKey key)
{
  double *mine = &ceiling->number[key], theirs = other->number[key];
  bool both = ceiling->fixed[key] && other->fixed[key];
  CarpaceLooser looser = carpace_plan_key_facts (key)->looser;

  if (!other->fixed[key])
    return;
  ceiling->fixed[key] = true;
  if (key == CARPACE_KEY_NAME)
    memcpy (ceiling->name, other->name, sizeof ceiling->name);
  else if (key == CARPACE_KEY_NOTE)
    memcpy (ceiling->note, other->note, sizeof ceiling->note);
  else if (key == CARPACE_KEY_MICRO_REST_SHOW)
    {
      ceiling->n_shown = other->n_shown;
      memcpy (ceiling->shown, other->shown, sizeof ceiling->shown);
    }
  else if (both && looser == CARPACE_LOOSER_FEWER)
    *mine = (int32_t) *mine | (int32_t) theirs;
  else if (!both || looser == CARPACE_LOOSER_ANY || (looser == CARPACE_LOOSER_HIGHER) == (theirs < *mine))
    *mine = theirs;
}

static int64_t
tighter_ms (int64_t a, int64_t b)
{
  return a == 0 || (b > 0 && b < a) ? b : a;
}

void
carpace_ceiling_join (CarpaceCeiling *ceiling, const CarpaceCeiling *other)
{
  CarpaceCeiling before = *ceiling;

  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    join_key (ceiling, other, (CarpacePlanKey) key);
  ceiling->n_blocks = (int32_t) tighter_ms (before.n_blocks, other->n_blocks);
  for (int32_t i = 0; i < ceiling->n_blocks; i++)
    ceiling->limit_ms[i] = tighter_ms (carpace_ceiling_limit_ms (&before, i), carpace_ceiling_limit_ms (other, i));
}

/* ---- comparing ---- */

static bool
shows_otherwise (const CarpaceCeiling *ceiling, const CarpacePlan *plan)
{
  bool same = ceiling->n_shown == plan->n_shown;

  for (int32_t i = 0; same && i < ceiling->n_shown; i++)
    same = ceiling->shown[i] == plan->shown[i];
  return !same;
}

static bool
key_looser (const CarpaceCeiling *ceiling, const CarpacePlan *plan, CarpacePlanKey key)
{
  double was = ceiling->number[key], is = carpace_plan_number (plan, key);

  if (key == CARPACE_KEY_NAME)
    return strcmp (ceiling->name, plan->name) != 0;
  if (key == CARPACE_KEY_NOTE)
    return strcmp (ceiling->note, plan->note) != 0;
  if (key == CARPACE_KEY_MICRO_REST_SHOW)
    return shows_otherwise (ceiling, plan);
  switch (carpace_plan_key_facts (key)->looser)
    {
    case CARPACE_LOOSER_HIGHER: return is > was;
    case CARPACE_LOOSER_LOWER: return is < was;
    case CARPACE_LOOSER_FEWER: return ((int32_t) was & ~(int32_t) is) != 0;
    case CARPACE_LOOSER_ANY: break;
    }
  return is < was || is > was;
}

/* The dose is told last: it follows from blocks as a rule, and they tell more. */
CarpaceBreach
carpace_ceiling_breach (const CarpaceCeiling *ceiling, const CarpacePlan *plan)
{
  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    if (key != CARPACE_KEY_DAY_DOSE && ceiling->fixed[key] && key_looser (ceiling, plan, (CarpacePlanKey) key))
      return (CarpaceBreach) { CARPACE_BREACH_KEY, (CarpacePlanKey) key, -1 };
  if (ceiling->fixed[CARPACE_KEY_NEXT_DAY_AT_MOST]
      && (double) plan->dose_ms > ceiling->number[CARPACE_KEY_NEXT_DAY_AT_MOST])
    return (CarpaceBreach) { CARPACE_BREACH_DOSE, CARPACE_KEY_DAY_DOSE, -1 };
  for (int32_t i = 0; i < plan->n_blocks; i++)
    {
      int64_t most_ms = carpace_ceiling_limit_ms (ceiling, i);
      if (most_ms > 0 && plan->blocks[i].limit_ms > most_ms)
        return (CarpaceBreach) { CARPACE_BREACH_LIMIT, CARPACE_N_KEYS, i };
    }
  if (ceiling->n_blocks > 0 && plan->n_blocks > ceiling->n_blocks)
    return (CarpaceBreach) { CARPACE_BREACH_BLOCKS, CARPACE_N_KEYS, ceiling->n_blocks };
  if (ceiling->fixed[CARPACE_KEY_DAY_DOSE] && key_looser (ceiling, plan, CARPACE_KEY_DAY_DOSE))
    return (CarpaceBreach) { CARPACE_BREACH_KEY, CARPACE_KEY_DAY_DOSE, -1 };
  return (CarpaceBreach) { CARPACE_BREACH_NONE, CARPACE_N_KEYS, -1 };
}

/* ---- as text ---- */

typedef struct
{
  char *text;
  size_t used;
} Out;

static void
put (Out *out, const char *piece)
{
  for (; *piece != '\0' && out->used + 1 < CARPACE_CEILING_BYTES; piece++)
    out->text[out->used++] = *piece;
  out->text[out->used] = '\0';
}

/* On one line. */
static void
put_text (Out *out, const char *text)
{
  for (; *text != '\0'; text++)
    if (*text == '\n' || *text == '\\')
      put (out, *text == '\n' ? "\\n" : "\\\\");
    else
      put (out, (const char[]) { *text, '\0' });
}

static void
put_number (Out *out, const CarpaceKeyFacts *facts, double number)
{
  char text[CARPACE_QUANTITY_BYTES];

  if (facts->none != NULL && number < facts->low)
    put (out, facts->none);
  else if (facts->unit == CARPACE_UNIT_WORD)
    put (out, carpace_name (facts->words, (int32_t) number));
  else
    {
      carpace_quantity_write (facts->unit, number, text);
      put (out, text);
    }
}

static void
put_item (Out *out, bool further, CarpaceWords words, int32_t value)
{
  put (out, further ? ", " : "");
  put (out, carpace_name (words, value));
}

static void
put_days (Out *out, int32_t days)
{
  int32_t put_already = 0;

  for (int32_t day = 0; day < CARPACE_N_WEEKDAYS; day++)
    if (days & 1 << day)
      put_item (out, put_already++ > 0, CARPACE_WORDS_WEEKDAY, day);
}

static void
put_key (Out *out, const CarpaceCeiling *ceiling, CarpacePlanKey key)
{
  put (out, carpace_name (CARPACE_WORDS_PLAN_KEY, (int32_t) key));
  put (out, ": ");
  if (key == CARPACE_KEY_NAME || key == CARPACE_KEY_NOTE)
    put_text (out, key == CARPACE_KEY_NAME ? ceiling->name : ceiling->note);
  else if (key == CARPACE_KEY_MICRO_REST_SHOW)
    for (int32_t i = 0; i < ceiling->n_shown; i++)
      put_item (out, i > 0, CARPACE_WORDS_EXERCISE, (int32_t) ceiling->shown[i]);
  else if (key == CARPACE_KEY_WEEK_WITHOUT)
    put_days (out, (int32_t) ceiling->number[key]);
  else
    put_number (out, carpace_plan_key_facts (key), ceiling->number[key]);
  put (out, "\n");
}

static void
put_whole (Out *out, int32_t number)
{
  char text[CARPACE_QUANTITY_BYTES];

  carpace_quantity_write (CARPACE_UNIT_WHOLE, number, text);
  put (out, text);
}

void
carpace_ceiling_write (const CarpaceCeiling *ceiling, char ret_text[CARPACE_CEILING_BYTES])
{
  Out out = { ret_text, 0 };

  put (&out, "");
  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    if (ceiling->fixed[key])
      put_key (&out, ceiling, (CarpacePlanKey) key);
  if (ceiling->n_blocks == 0)
    return;
  put (&out, "blocks: ");
  put_whole (&out, ceiling->n_blocks);
  put (&out, "\n");
  for (int32_t i = 0; i < ceiling->n_blocks; i++)
    if (ceiling->limit_ms[i] > 0)
      {
        put (&out, "blocks.");
        put_whole (&out, i + 1);
        put (&out, ".limit: ");
        put_number (&out, carpace_block_limit_facts (), (double) ceiling->limit_ms[i]);
        put (&out, "\n");
      }
}

bool
carpace_ceiling_same (const CarpaceCeiling *one, const CarpaceCeiling *other)
{
  char a[CARPACE_CEILING_BYTES], b[CARPACE_CEILING_BYTES];

  carpace_ceiling_write (one, a);
  carpace_ceiling_write (other, b);
  return strcmp (a, b) == 0;
}

bool
carpace_ceiling_line_holds (const char *all, const char *line)
{
  size_t n = strlen (line), n_path = strcspn (line, ":");

  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    {
      const char *path = carpace_name (CARPACE_WORDS_PLAN_KEY, key);
      if (carpace_plan_key_facts ((CarpacePlanKey) key)->looser == CARPACE_LOOSER_FEWER && strlen (path) == n_path
          && strncmp (path, line, n_path) == 0)
        return true;
    }
  for (; *all != '\0'; all += strcspn (all, "\n"), all += *all == '\n')
    if (strncmp (all, line, n) == 0 && (all[n] == '\n' || all[n] == '\0'))
      return true;
  return false;
}

static bool
take_text (const char *value, char *ret_text, size_t bytes)
{
  size_t used = 0;

  for (; *value != '\0' && used + 1 < bytes; value++)
    {
      if (*value == '\\' && value[1] != '\0')
        ret_text[used++] = *++value == 'n' ? '\n' : *value;
      else
        ret_text[used++] = *value;
    }
  ret_text[used] = '\0';
  return *value == '\0';
}

/* Takes the first word of a list; @return it, NULL where there is none */
static char *
next_item (char **list)
{
  char *item = *list, *end;

  if (item == NULL)
    return NULL;
  end = strstr (item, ", ");
  if (end != NULL)
    *end = '\0';
  *list = end != NULL ? end + 2 : NULL;
  return item;
}

static bool
take_shown (CarpaceCeiling *ceiling, char *list)
{
  ceiling->n_shown = 0;
  for (char *item; ceiling->n_shown < CARPACE_PLAN_SHOWN && (item = next_item (&list)) != NULL;)
    {
      int32_t exercise = carpace_name_value (CARPACE_WORDS_EXERCISE, item);
      if (exercise < 0)
        return false;
      ceiling->shown[ceiling->n_shown++] = (CarpaceExercise) exercise;
    }
  return list == NULL;
}

static bool
take_days (char *list, double *ret_days)
{
  int32_t days = 0;

  for (char *item; (item = next_item (&list)) != NULL;)
    {
      int32_t day = carpace_name_value (CARPACE_WORDS_WEEKDAY, item);
      if (day < 0 && (item[0] != '\0' || days != 0))
        return false;
      if (day >= 0)
        days |= 1 << day;
    }
  *ret_days = days;
  return true;
}

static bool
take_number (const CarpaceKeyFacts *facts, const char *value, double *ret_number)
{
  int32_t word;

  if (facts->none != NULL && strcmp (value, facts->none) == 0)
    {
      *ret_number = 0;
      return true;
    }
  if (facts->unit != CARPACE_UNIT_WORD)
    return carpace_quantity_read (value, facts->unit, ret_number) == CARPACE_QUANTITY_OK && *ret_number >= facts->low
           && *ret_number <= facts->high;
  word = carpace_name_value (facts->words, value);
  *ret_number = word;
  return word >= 0;
}

static const CarpaceKeyFacts counted = { .unit = CARPACE_UNIT_WHOLE, .low = 1, .high = CARPACE_PLAN_BLOCKS };

static bool
take_limit (CarpaceCeiling *ceiling, char *number_and_limit, const char *value)
{
  char *dot = strchr (number_and_limit, '.');
  double block, number;

  if (dot == NULL || strcmp (dot, ".limit") != 0)
    return false;
  *dot = '\0';
  if (!take_number (&counted, number_and_limit, &block) || block > ceiling->n_blocks
      || !take_number (carpace_block_limit_facts (), value, &number))
    return false;
  ceiling->limit_ms[(int32_t) block - 1] = (int64_t) number;
  return true;
}

static bool
take_line (CarpaceCeiling *ceiling, char *line)
{
  char *value = strstr (line, ": ");
  double number = 0;
  int32_t key;

  if (value == NULL)
    return false;
  *value = '\0';
  value += 2;
  if (strncmp (line, "blocks.", strlen ("blocks.")) == 0)
    return take_limit (ceiling, line + strlen ("blocks."), value);
  if (strcmp (line, "blocks") == 0 && take_number (&counted, value, &number))
    ceiling->n_blocks = (int32_t) number;
  if (strcmp (line, "blocks") == 0)
    return ceiling->n_blocks > 0;
  key = carpace_name_value (CARPACE_WORDS_PLAN_KEY, line);
  if (key == CARPACE_KEY_NAME)
    ceiling->fixed[key] = take_text (value, ceiling->name, sizeof ceiling->name);
  else if (key == CARPACE_KEY_NOTE)
    ceiling->fixed[key] = take_text (value, ceiling->note, sizeof ceiling->note);
  else if (key == CARPACE_KEY_MICRO_REST_SHOW)
    ceiling->fixed[key] = take_shown (ceiling, value);
  else if (key == CARPACE_KEY_WEEK_WITHOUT)
    ceiling->fixed[key] = take_days (value, &ceiling->number[key]);
  else if (key >= 0 && take_number (carpace_plan_key_facts ((CarpacePlanKey) key), value, &number))
    {
      ceiling->fixed[key] = true;
      ceiling->number[key] = number;
    }
  return key >= 0 && ceiling->fixed[key];
}

bool
carpace_ceiling_read (const char *text, CarpaceCeiling *ret_ceiling)
{
  bool sound = true;

  memset (ret_ceiling, 0, sizeof *ret_ceiling);
  while (*text != '\0')
    {
      char line[CARPACE_CEILING_BYTES];
      size_t n = strcspn (text, "\n"), taken = n < sizeof line ? n : sizeof line - 1;

      memcpy (line, text, taken);
      line[taken] = '\0';
      sound = take_line (ret_ceiling, line) && taken == n && sound;
      text += n + (text[n] == '\n');
    }
  return sound;
}
