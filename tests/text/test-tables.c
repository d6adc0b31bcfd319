/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every closed set that a person reads has a name for each of its values. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <glib.h>
#include <string.h>

#include "carpace/cues.h"
#include "text/entries.h"
#include "text/face-text.h"
#include "text/notice.h"
#include "text/settings-text.h"
#include "text/text.h"

#define NAMES(function, type) \
  static const char *function##_of (int value) { return carpace_text_##function ((type) value); }

NAMES (state, CarpaceState)
NAMES (cue, CarpaceCue)
NAMES (site, CarpaceSite)
NAMES (sign, CarpaceSign)
NAMES (sign_question, CarpaceSign)
NAMES (stiffness, CarpaceStiffness)
NAMES (movement, CarpaceMovement)
NAMES (group, CarpaceGroup)
NAMES (region, CarpaceRegion)
NAMES (rule, CarpaceRule)
NAMES (exercise, CarpaceExercise)
NAMES (exercise_kind, CarpaceExerciseKind)

static const char *
corner_of (int value)
{
  return carpace_text_setting_word (CARPACE_SETTING_CARDS_CORNER, value, false);
}

static const char *
monitor_of (int value)
{
  return carpace_text_setting_word (CARPACE_SETTING_CARDS_MONITOR, value, false);
}

/* From @first on: a site that is none is never named. */
static const struct { CarpaceWords words; int first; const char *(*name) (int value); } sets[] = {
  { CARPACE_WORDS_STATE, 0, state_of },
  { CARPACE_WORDS_CUE, 0, cue_of },
  { CARPACE_WORDS_SITE, CARPACE_SITE_NONE + 1, site_of },
  { CARPACE_WORDS_SIGN, 0, sign_of },
  { CARPACE_WORDS_SIGN, 0, sign_question_of },
  { CARPACE_WORDS_STIFFNESS, 0, stiffness_of },
  { CARPACE_WORDS_MOVEMENT, 0, movement_of },
  { CARPACE_WORDS_GROUP, 0, group_of },
  { CARPACE_WORDS_REGION, 0, region_of },
  { CARPACE_WORDS_RULE, 0, rule_of },
  { CARPACE_WORDS_EXERCISE, 0, exercise_of },
  { CARPACE_WORDS_EXERCISE_KIND, 0, exercise_kind_of },
  { CARPACE_WORDS_CORNER, 0, corner_of },
  { CARPACE_WORDS_MONITOR, 0, monitor_of },
};

static void
each_value_has_a_name (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (sets); i++)
    {
      g_autoptr (GHashTable) known = g_hash_table_new (g_str_hash, g_str_equal);

      for (int value = sets[i].first; value < carpace_names_count (sets[i].words); value++)
        {
          const char *name = sets[i].name (value);

          if (name == NULL || name[0] == '\0')
            fail_msg ("“%s” has no name", carpace_name (sets[i].words, value));
          if (!g_hash_table_add (known, (char *) name))
            fail_msg ("“%s” stands for two", name);
        }
    }
}

/* Where lines are read from the right, their end is on the left. */
static void
corners_follow_the_reading_direction (void **state)
{
  for (int corner = 0; corner < CARPACE_N_CORNERS; corner++)
    {
      const char *other = carpace_text_setting_word (CARPACE_SETTING_CARDS_CORNER, corner, true);

      assert_int_equal (strstr (corner_of (corner), "Lower") != NULL, strstr (other, "Lower") != NULL);
      assert_int_equal (strstr (corner_of (corner), "right") != NULL, strstr (other, "left") != NULL);
    }
}

/* A refusal is a sentence for each event in each state. */
static void
each_refusal_is_a_sentence (void **state)
{
  for (int refusal = 0; refusal < CARPACE_N_REFUSALS; refusal++)
    for (int event = 0; event < CARPACE_N_EVENTS; event++)
      for (int at = 0; at < CARPACE_N_STATES; at++)
        {
          g_autofree char *text = carpace_text_refusal ((CarpaceRefusal) refusal, (CarpaceEventKind) event, (CarpaceState) at);

          if (!g_str_has_suffix (text, "."))
            fail_msg ("%s: %s", carpace_name (CARPACE_WORDS_REFUSAL, refusal), text);
        }
}

/* Whatever the core can tell of cues has a line and a notice, and a stream
 * reads only what it may. */
static void
each_cue_that_is_told_is_said (void **state)
{
  static CarpacePlan plan;
  CarpaceView view = { .plan = &plan, .block = 1, .blocks = 2 };

  for (int told = 0; told < CARPACE_N_TOLD; told++)
    {
      const CarpaceToldRow *row = &carpace_told_rows[told];
      CarpaceEntry entry = { .kind = CARPACE_ENTRY_CUE, .cue = { .cue = row->cue, .what = row->what } };
      g_autofree char *line = carpace_entry_text (&entry);
      CarpaceNotice notice;

      if (line[0] == '\0')
        fail_msg ("“%s” has no line", carpace_name (CARPACE_WORDS_CUE, row->cue));
      view.on_air = false;
      assert_true (carpace_text_notice (&entry, &view, (CarpaceInstant) { 0 }, &notice));
      if (notice.title == NULL || notice.title[0] == '\0' || notice.body == NULL)
        fail_msg ("“%s” has no notice", carpace_name (CARPACE_WORDS_CUE, row->cue));
      assert_int_equal (notice.quiet, row->quiet);
      carpace_notice_clear (&notice);
      view.on_air = true;
      assert_int_equal (carpace_text_notice (&entry, &view, (CarpaceInstant) { 0 }, &notice),
                        row->on_air != CARPACE_ON_AIR_SILENT);
      if (row->on_air != CARPACE_ON_AIR_SILENT)
        carpace_notice_clear (&notice);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_value_has_a_name),
    cmocka_unit_test (corners_follow_the_reading_direction),
    cmocka_unit_test (each_refusal_is_a_sentence),
    cmocka_unit_test (each_cue_that_is_told_is_said),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
