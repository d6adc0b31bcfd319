/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-yaml-read.c: nodes become the builder's values. */
#include "forms/plan-yaml-tree.h"

#include <string.h>

#include "carpace/names.h"
#include "carpace/quantity.h"

#define MOST_KEYS 24
#define MOST_WORDS 40
#define LARGE_NUMBER 1e9

typedef struct
{
  CarpaceYamlTree *tree;
  CarpacePlanBuilder *builder;
} Reading;

static CarpaceYamlNode *
node_at (const Reading *reading, int32_t node)
{
  return carpace_yaml_node (reading->tree, node);
}

static CarpacePlace
place_of (int32_t node)
{
  return node + 1;
}

static void
fault_at (Reading *reading, int32_t node, CarpaceReadFault fault)
{
  const CarpaceYamlNode *at = node_at (reading, node);

  if (fault.word == NULL && at->kind == CARPACE_YAML_VALUE)
    fault.word = at->text;
  carpace_yaml_read_fault (reading->tree, at->line, at->column, fault);
}

/* Makes use of a `!fixed`. */
static bool
take_fixed (Reading *reading, int32_t node)
{
  bool fixed = node_at (reading, node)->fixed;

  node_at (reading, node)->fixed = false;
  return fixed;
}

static int32_t
index_in (const char *const *keys, const char *word)
{
  for (int32_t i = 0; keys[i]; i++)
    if (strcmp (keys[i], word) == 0)
      return i;
  return -1;
}

static void
take_pair (Reading *reading, const char *const *keys, int32_t key, int32_t value, int32_t ret_values[],
           int32_t lines[])
{
  const CarpaceYamlNode *key_node = node_at (reading, key);
  int32_t index;

  if (key_node->kind == CARPACE_YAML_UNREAD)
    return;
  if (key_node->kind != CARPACE_YAML_VALUE)
    {
      fault_at (reading, key, (CarpaceReadFault){ .kind = CARPACE_READ_KEY_NOT_A_WORD });
      return;
    }
  index = index_in (keys, key_node->text);
  if (index < 0)
    fault_at (reading, key, (CarpaceReadFault){ .kind = CARPACE_READ_UNKNOWN_KEY, .set = keys });
  else if (ret_values[index] != CARPACE_YAML_NO_NODE)
    fault_at (reading, key, (CarpaceReadFault){ .kind = CARPACE_READ_KEY_TWICE, .line = lines[index] });
  else
    {
      ret_values[index] = value;
      lines[index] = key_node->line;
    }
}

/* In brackets `dose: 1,5 h` is a key with "1" and a key "5 h" with nothing: put together again,
 * it is told as what it was meant as. @return whether @key was the end of @value */
static bool
take_decimals (Reading *reading, int32_t value, int32_t key)
{
  CarpaceYamlNode *number = node_at (reading, value);
  const CarpaceYamlNode *decimals = node_at (reading, key);
  const CarpaceYamlNode *behind = node_at (reading, decimals->next);
  g_autofree char *both = NULL;

  if (number->kind != CARPACE_YAML_VALUE || number->style != CARPACE_YAML_PLAIN || decimals->kind != CARPACE_YAML_VALUE
      || decimals->from != number->to + 1 || behind->from != behind->to || number->text[0] == '\0'
      || strspn (number->text, "0123456789") != strlen (number->text) || !g_ascii_isdigit (decimals->text[0]))
    return false;
  both = g_strdup_printf ("%s,%s", number->text, decimals->text);
  number->text = g_string_chunk_insert (reading->tree->texts, both);
  return true;
}

/* The values of a mapping in the order of @keys (ended by NULL).
 * @return false where it is none; told */
static bool
mapping (Reading *reading, int32_t node, const char *path, const char *const *keys, int32_t ret_values[MOST_KEYS])
{
  int32_t lines[MOST_KEYS] = { 0 };

  for (int32_t i = 0; i < MOST_KEYS; i++)
    ret_values[i] = CARPACE_YAML_NO_NODE;
  if (node_at (reading, node)->kind == CARPACE_YAML_UNREAD)
    return false;
  if (node_at (reading, node)->kind != CARPACE_YAML_MAPPING)
    {
      fault_at (reading, node, (CarpaceReadFault){ .kind = CARPACE_READ_NOT_A_MAPPING, .key = path, .set = keys });
      return false;
    }
  for (int32_t key = node_at (reading, node)->first; key != CARPACE_YAML_NO_NODE;)
    {
      int32_t value = node_at (reading, key)->next;
      if (value == CARPACE_YAML_NO_NODE)
        break;
      take_pair (reading, keys, key, value, ret_values, lines);
      key = node_at (reading, value)->next;
      if (key != CARPACE_YAML_NO_NODE && node_at (reading, key)->next != CARPACE_YAML_NO_NODE
          && take_decimals (reading, value, key))
        key = node_at (reading, node_at (reading, key)->next)->next;
    }
  return true;
}

/* @return NULL where @node is no single value; told */
static const char *
value_of (Reading *reading, int32_t node, const char *path)
{
  const CarpaceYamlNode *at = node_at (reading, node);

  if (at->kind == CARPACE_YAML_VALUE)
    return at->text;
  if (at->kind != CARPACE_YAML_UNREAD)
    fault_at (reading, node, (CarpaceReadFault){ .kind = CARPACE_READ_NOT_A_VALUE, .key = path });
  return NULL;
}

static bool
list_begins (Reading *reading, int32_t node, const char *path, int32_t *ret_first)
{
  const CarpaceYamlNode *at = node_at (reading, node);

  *ret_first = at->first;
  if (at->kind == CARPACE_YAML_LIST)
    return true;
  if (at->kind != CARPACE_YAML_UNREAD)
    fault_at (reading, node, (CarpaceReadFault){ .kind = CARPACE_READ_NOT_A_LIST, .key = path });
  return false;
}

/* @return the word's value, -1 where it is none of them; told */
static int32_t
word_value (Reading *reading, int32_t node, const char *path, CarpaceWords words)
{
  const char *set[MOST_WORDS + 1] = { NULL };
  const char *text = value_of (reading, node, path);
  int32_t value = text ? carpace_name_value (words, text) : 0;

  if (text == NULL)
    return -1;
  for (int32_t i = 0; i < carpace_names_count (words) && i < MOST_WORDS; i++)
    set[i] = carpace_name (words, i);
  if (value < 0 && (value = carpace_name_former (words, text)) >= 0)
    carpace_plan_builder_former_word (reading->builder, words, value, place_of (node));
  if (value < 0)
    fault_at (reading, node, (CarpaceReadFault){ .kind = CARPACE_READ_UNKNOWN_WORD, .key = path, .set = set });
  return value;
}

typedef enum { READ, NONE, UNREAD } Outcome;

static Outcome
quantity (Reading *reading, int32_t node, const char *path, const CarpaceKeyFacts *facts, double *ret_number)
{
  bool bare = facts->unit == CARPACE_UNIT_WHOLE || facts->unit == CARPACE_UNIT_CM;
  const char *text = value_of (reading, node, path);
  CarpaceReadFault fault = { .kind = CARPACE_READ_BAD_QUANTITY, .key = path, .unit = facts->unit, .none = facts->none };

  if (text == NULL)
    return UNREAD;
  if (facts->none && facts->unit != CARPACE_UNIT_WRIST && strcmp (text, facts->none) == 0)
    return NONE;
  fault.quantity = carpace_quantity_read (text, facts->unit, ret_number);
  if (fault.quantity == CARPACE_QUANTITY_OK && (!bare || node_at (reading, node)->style == CARPACE_YAML_PLAIN))
    return READ;
  if (fault.quantity == CARPACE_QUANTITY_OK)
    fault.kind = CARPACE_READ_QUOTED_NUMBER;
  fault_at (reading, node, fault);
  return UNREAD;
}

static Outcome
number (Reading *reading, int32_t node, const char *path, const CarpaceKeyFacts *facts, double *ret_number)
{
  int32_t value;

  if (facts->unit != CARPACE_UNIT_WORD)
    return quantity (reading, node, path, facts, ret_number);
  value = word_value (reading, node, path, facts->words);
  *ret_number = value;
  return value < 0 ? UNREAD : READ;
}

static void
read_shown (Reading *reading, int32_t node, const char *path)
{
  int32_t item;

  if (!list_begins (reading, node, path, &item))
    return;
  if (item == CARPACE_YAML_NO_NODE)
    fault_at (reading, node, (CarpaceReadFault){ .kind = CARPACE_READ_NOT_A_LIST, .key = path });
  for (; item != CARPACE_YAML_NO_NODE; item = node_at (reading, item)->next)
    {
      int32_t exercise = word_value (reading, item, path, CARPACE_WORDS_EXERCISE);
      if (exercise >= 0)
        carpace_plan_builder_show (reading->builder, (CarpaceExercise) exercise, place_of (item));
    }
}

static void
read_without (Reading *reading, int32_t node, const char *path)
{
  int32_t item;

  if (!list_begins (reading, node, path, &item))
    return;
  carpace_plan_builder_without_list (reading->builder, place_of (node));
  for (; item != CARPACE_YAML_NO_NODE; item = node_at (reading, item)->next)
    {
      int32_t weekday = word_value (reading, item, path, CARPACE_WORDS_WEEKDAY);
      if (weekday >= 0)
        carpace_plan_builder_without (reading->builder, (CarpaceWeekday) weekday, place_of (item));
    }
}

static void
read_plan_key (Reading *reading, CarpacePlanKey key, int32_t node)
{
  const CarpaceKeyFacts *facts = carpace_plan_key_facts (key);
  const char *path = carpace_name (CARPACE_WORDS_PLAN_KEY, (int32_t) key);
  Outcome outcome = UNREAD;
  double value = 0;

  if (take_fixed (reading, node))
    carpace_plan_builder_fix (reading->builder, key);
  if (facts->unit == CARPACE_UNIT_EXERCISES)
    {
      read_shown (reading, node, path);
      return;
    }
  if (facts->unit == CARPACE_UNIT_WEEKDAYS)
    {
      read_without (reading, node, path);
      return;
    }
  if (facts->unit == CARPACE_UNIT_TEXT)
    {
      const char *text = value_of (reading, node, path);
      if (text)
        carpace_plan_builder_text (reading->builder, key, text, place_of (node));
      outcome = text ? NONE : UNREAD;
    }
  else
    outcome = number (reading, node, path, facts, &value);
  if (outcome == READ)
    carpace_plan_builder_number (reading->builder, key, value, place_of (node));
  else if (outcome == UNREAD)
    carpace_plan_builder_unread (reading->builder, key);
}

/* Keys @first to @last share the part of their path before its dot. */
static void
read_section (Reading *reading, CarpacePlanKey first, CarpacePlanKey last, const char *path, int32_t node)
{
  const char *keys[MOST_KEYS + 1] = { NULL };
  int32_t values[MOST_KEYS];

  for (int32_t key = (int32_t) first; key <= (int32_t) last; key++)
    keys[key - (int32_t) first] = strchr (carpace_name (CARPACE_WORDS_PLAN_KEY, key), '.') + 1;
  if (!mapping (reading, node, path, keys, values))
    return;
  for (int32_t key = (int32_t) first; key <= (int32_t) last; key++)
    if (values[key - (int32_t) first] != CARPACE_YAML_NO_NODE)
      read_plan_key (reading, (CarpacePlanKey) key, values[key - (int32_t) first]);
}

static void
read_drill_key (Reading *reading, int32_t drill, CarpaceDrillKey key, int32_t node)
{
  const CarpaceKeyFacts *facts = carpace_drill_key_facts (key);
  const char *path = carpace_name (CARPACE_WORDS_DRILL_KEY, (int32_t) key);
  double value;
  Outcome outcome;

  if (key == CARPACE_DRILL_NAME)
    {
      const char *text = value_of (reading, node, path);
      if (text)
        carpace_plan_builder_drill_name (reading->builder, drill, text, place_of (node));
      return;
    }
  outcome = number (reading, node, path, facts, &value);
  if (outcome == READ)
    carpace_plan_builder_drill_number (reading->builder, drill, key, value, place_of (node));
  else if (outcome == UNREAD)
    carpace_plan_builder_drill_unread (reading->builder, drill, key);
}

static void
read_drill (Reading *reading, int32_t node)
{
  const char *keys[CARPACE_N_DRILL_KEYS + 2] = { "id" };
  int32_t values[MOST_KEYS], drill;
  const char *id = NULL;

  for (int32_t key = 0; key < CARPACE_N_DRILL_KEYS; key++)
    keys[key + 1] = carpace_name (CARPACE_WORDS_DRILL_KEY, key);
  if (!mapping (reading, node, "drills", keys, values))
    {
      carpace_plan_builder_drills_unread (reading->builder);
      return;
    }
  if (values[0] == CARPACE_YAML_NO_NODE)
    fault_at (reading, node, (CarpaceReadFault){ .kind = CARPACE_READ_KEY_MISSING, .key = "id" });
  else
    id = value_of (reading, values[0], "id");
  drill = carpace_plan_builder_drill (reading->builder, id, place_of (id ? values[0] : node));
  if (drill < 0)
    return;
  carpace_plan_builder_drill_at (reading->builder, drill, place_of (node));
  for (int32_t key = 0; key < CARPACE_N_DRILL_KEYS; key++)
    if (values[key + 1] != CARPACE_YAML_NO_NODE)
      read_drill_key (reading, drill, (CarpaceDrillKey) key, values[key + 1]);
}

static void
read_drills (Reading *reading, int32_t node)
{
  int32_t item;

  carpace_plan_builder_drills_at (reading->builder, place_of (node));
  if (!list_begins (reading, node, "drills", &item))
    carpace_plan_builder_drills_unread (reading->builder);
  else
    for (; item != CARPACE_YAML_NO_NODE; item = node_at (reading, item)->next)
      read_drill (reading, item);
}

/* A part's share; @return whether it could be read. Numbers of any size are
 * handed on for the builder to judge, none as its -1. */
static bool
read_share (Reading *reading, int32_t node, int32_t *ret_share)
{
  static const CarpaceKeyFacts facts = { .unit = CARPACE_UNIT_SHARE };
  double value;

  if (quantity (reading, node, "share", &facts, &value) != READ)
    return false;
  *ret_share = (int32_t) CLAMP (value, 0, LARGE_NUMBER);
  return true;
}

static void
read_part (Reading *reading, int32_t block, int32_t node)
{
  static const char *const keys[] = { "id", "share", NULL };
  int32_t values[MOST_KEYS] = { node, CARPACE_YAML_NO_NODE }, share = -1;
  const char *id = NULL;
  bool sound = true;

  if (node_at (reading, node)->kind != CARPACE_YAML_VALUE)
    sound = mapping (reading, node, "drills", keys, values);
  if (sound && values[0] == CARPACE_YAML_NO_NODE)
    fault_at (reading, node, (CarpaceReadFault){ .kind = CARPACE_READ_KEY_MISSING, .key = "id" });
  else if (sound)
    id = value_of (reading, values[0], "id");
  if (values[1] != CARPACE_YAML_NO_NODE)
    sound = read_share (reading, values[1], &share) && sound;
  if (id)
    carpace_plan_builder_part_at (reading->builder, block, id, share, place_of (values[0]),
                                  place_of (values[1] == CARPACE_YAML_NO_NODE ? values[0] : values[1]));
  if (!sound || id == NULL)
    carpace_plan_builder_block_unread (reading->builder, block);
}

static void
read_parts (Reading *reading, int32_t block, int32_t node)
{
  int32_t item;

  carpace_plan_builder_block_at (reading->builder, block, place_of (node));
  if (!list_begins (reading, node, "drills", &item))
    carpace_plan_builder_block_unread (reading->builder, block);
  else
    for (; item != CARPACE_YAML_NO_NODE; item = node_at (reading, item)->next)
      read_part (reading, block, item);
}

static void
read_block (Reading *reading, int32_t node)
{
  static const char *const keys[] = { "limit", "drills", NULL };
  int32_t values[MOST_KEYS], block;
  bool fixed = false;
  double limit_ms = -1;

  if (!mapping (reading, node, "blocks", keys, values))
    {
      carpace_plan_builder_block (reading->builder, -1, false, place_of (node));
      return;
    }
  for (int32_t i = 0; keys[i]; i++)
    if (values[i] == CARPACE_YAML_NO_NODE)
      fault_at (reading, node, (CarpaceReadFault){ .kind = CARPACE_READ_KEY_MISSING, .key = keys[i] });
  if (values[0] != CARPACE_YAML_NO_NODE)
    {
      fixed = take_fixed (reading, values[0]);
      if (quantity (reading, values[0], "limit", carpace_block_limit_facts (), &limit_ms) == READ)
        limit_ms = MAX (limit_ms, 0);
    }
  block = carpace_plan_builder_block (reading->builder, (int64_t) limit_ms, fixed,
                                      place_of (values[0] == CARPACE_YAML_NO_NODE ? node : values[0]));
  if (block >= 0 && values[1] != CARPACE_YAML_NO_NODE)
    read_parts (reading, block, values[1]);
  else if (block >= 0)
    carpace_plan_builder_block_unread (reading->builder, block);
}

static void
read_blocks (Reading *reading, int32_t node)
{
  int32_t item;

  carpace_plan_builder_blocks_at (reading->builder, place_of (node));
  if (!list_begins (reading, node, "blocks", &item))
    carpace_plan_builder_blocks_unread (reading->builder);
  else
    for (; item != CARPACE_YAML_NO_NODE; item = node_at (reading, item)->next)
      read_block (reading, item);
}

static void
read_split (Reading *reading, int32_t node)
{
  const char *text = value_of (reading, node, "split");
  double into = text ? carpace_name_split (text) : -1;

  if (text && into < 0
      && (carpace_quantity_read (text, CARPACE_UNIT_WHOLE, &into) != CARPACE_QUANTITY_OK || into < 2
          || into > CARPACE_PLAN_BLOCKS || node_at (reading, node)->style != CARPACE_YAML_PLAIN))
    {
      fault_at (reading, node, (CarpaceReadFault){ .kind = CARPACE_READ_BAD_SPLIT });
      into = -1;
    }
  carpace_plan_builder_split (reading->builder, (int32_t) into, place_of (node));
}

static void
read_form (Reading *reading, int32_t root, int32_t node)
{
  static const CarpaceKeyFacts facts = { .unit = CARPACE_UNIT_WHOLE };
  double form;

  if (node == CARPACE_YAML_NO_NODE)
    fault_at (reading, root, (CarpaceReadFault){ .kind = CARPACE_READ_KEY_MISSING, .key = "carpace-plan" });
  else if (quantity (reading, node, "carpace-plan", &facts, &form) == READ && (form < 1 || form > 1))
    fault_at (reading, node, (CarpaceReadFault){ .kind = CARPACE_READ_OTHER_VERSION });
}

/* Drills come before blocks, wherever they stand in the file. */
static void
read_root (Reading *reading, int32_t root)
{
  enum { FORM, NAME, VERSION, NOTE, GAP_AFTER, RUN_MIN, DRILLS, BLOCKS, SPLIT, FIRST_SECTION };
  static const char *const keys[] = { "carpace-plan", "name", "version", "note", "gap-after", "run-min", "drills", "blocks",
                                      "split", "hand", "player", "day", "week", "micro-rest", "block-limits", "tighten", "next-day", "matches",
                                      "on-air", NULL };
  static const CarpacePlanKey single[] = { [NAME] = CARPACE_KEY_NAME, [VERSION] = CARPACE_KEY_VERSION,
                                           [NOTE] = CARPACE_KEY_NOTE,
                                           [GAP_AFTER] = CARPACE_KEY_GAP_AFTER, [RUN_MIN] = CARPACE_KEY_RUN_MIN };
  static const struct { CarpacePlanKey first, last; } sections[] = {
    { CARPACE_KEY_HAND_SIDE, CARPACE_KEY_HAND_USUAL_DISCOMFORT },
    { CARPACE_KEY_PLAYER_AGE, CARPACE_KEY_PLAYER_AGE },
    { CARPACE_KEY_DAY_DOSE, CARPACE_KEY_DAY_BETWEEN_BLOCKS },
    { CARPACE_KEY_WEEK_WITHOUT, CARPACE_KEY_WEEK_WITHOUT },
    { CARPACE_KEY_MICRO_REST_AFTER, CARPACE_KEY_MICRO_REST_SHOW },
    { CARPACE_KEY_BLOCK_LIMITS_FINISH_RUN, CARPACE_KEY_BLOCK_LIMITS_LONGEST },
    { CARPACE_KEY_TIGHTEN_UP_1_SHORTEN_TO, CARPACE_KEY_TIGHTEN_STOP_ABOVE },
    { CARPACE_KEY_NEXT_DAY_CUT_TO, CARPACE_KEY_NEXT_DAY_AT_MOST },
    { CARPACE_KEY_MATCHES_COUNTS, CARPACE_KEY_MATCHES_COUNTS },
    { CARPACE_KEY_ON_AIR_EVERY, CARPACE_KEY_ON_AIR_LENGTH },
  };
  int32_t values[MOST_KEYS];

  if (!mapping (reading, root, "", keys, values))
    return;
  read_form (reading, root, values[FORM]);
  for (int32_t i = NAME; i <= RUN_MIN; i++)
    if (values[i] != CARPACE_YAML_NO_NODE)
      read_plan_key (reading, single[i], values[i]);
  for (int32_t i = 0; i < (int32_t) G_N_ELEMENTS (sections); i++)
    if (values[FIRST_SECTION + i] != CARPACE_YAML_NO_NODE)
      read_section (reading, sections[i].first, sections[i].last, keys[FIRST_SECTION + i], values[FIRST_SECTION + i]);
  if (values[DRILLS] != CARPACE_YAML_NO_NODE)
    read_drills (reading, values[DRILLS]);
  if (values[BLOCKS] != CARPACE_YAML_NO_NODE)
    read_blocks (reading, values[BLOCKS]);
  if (values[SPLIT] != CARPACE_YAML_NO_NODE)
    read_split (reading, values[SPLIT]);
}

void
carpace_yaml_build (CarpaceYamlTree *tree, CarpacePlanBuilder *builder)
{
  Reading reading = { tree, builder };

  read_root (&reading, 0);
  for (int32_t node = 0; node < (int32_t) tree->nodes->len; node++)
    if (carpace_yaml_node (tree, node)->fixed)
      fault_at (&reading, node, (CarpaceReadFault){ .kind = CARPACE_READ_NOT_FIXABLE });
}
