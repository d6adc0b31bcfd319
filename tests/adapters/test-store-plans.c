/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records of plans in a diary: those that were given, what was released, and with
 * which one each day was opened. */
#include "store-samples.h"

#include "carpace/ceiling.h"
#include "carpace/ports.h"

typedef struct
{
  char *folder, *path;
  CarpaceDiaryStore *store;
  CarpaceDiaryKeeper keeper;
  GString *lines;
} World;

static bool
add_line (void *user, const CarpacePlanRecord *record)
{
  static const char *const whats[] = { "given", "released", "day" };

  g_string_append_printf (user, "%s %s %d [%s] %s\n", whats[record->what], record->name, (int) record->version,
                          record->fixed, record->text);
  return true;
}

static void
open_store (World *world)
{
  world->store = carpace_store_open (world->path, CARPACE_STORE_WRITING, NULL, NULL);
  world->keeper = carpace_store_keeper (world->store);
}

static void
assert_plans (World *world, const char *expected)
{
  CarpaceDiary diary = carpace_store_diary (world->store);

  g_string_truncate (world->lines, 0);
  assert_true (diary.plans (diary.self, add_line, world->lines));
  assert_string_equal (world->lines->str, expected);
}

static int
begin (void **state)
{
  World *world = g_new0 (World, 1);

  world->folder = folder_new ();
  world->path = g_build_filename (world->folder, "diary.sqlite", NULL);
  world->lines = g_string_new (NULL);
  open_store (world);
  *state = world;
  return 0;
}

static int
end (void **state)
{
  World *world = *state;

  carpace_store_close (world->store, true);
  folder_free (world->folder);
  g_free (world->path);
  g_string_free (world->lines, TRUE);
  g_free (world);
  return 0;
}

static CarpacePlanRecord
given (int minute, const char *name, int version, const char *fixed)
{
  return (CarpacePlanRecord) { moment (minute * CARPACE_MINUTE_MS), CARPACE_PLAN_GIVEN, name, version, fixed, "text" };
}

static void
plans_are_kept_in_their_order (void **state)
{
  World *world = *state;
  const CarpacePlanRecord released = { moment (CARPACE_HOUR_MS), CARPACE_PLAN_RELEASED, "A", 1, "", "" };
  CarpacePlanRecord a = given (1, "A", 1, "next-day.at-most: 1 h\n"), b = given (0, "B", 2, "");

  assert_plans (world, "");
  assert_int_equal (world->keeper.keep_plan (world->keeper.self, &a), 1);
  assert_int_equal (world->keeper.keep_plan (world->keeper.self, &b), 1);
  assert_int_equal (world->keeper.keep_plan (world->keeper.self, &released), 1);
  assert_int_equal (world->keeper.keep_plan (world->keeper.self, &a), 0);
  carpace_store_close (world->store, true);
  open_store (world);
  assert_plans (world, "given A 1 [next-day.at-most: 1 h\n] text\ngiven B 2 [] text\nreleased A 1 [] \n");
  assert_true (world->keeper.erase (world->keeper.self));
  assert_plans (world, "");
}

static void
taken_in_with_all_else_or_not_at_all (void **state)
{
  World *world = *state;
  CarpacePlanRecord a = given (1, "A", 1, "");

  for (int keep = 0; keep < 2; keep++)
    {
      assert_true (world->keeper.take_in_begin (world->keeper.self));
      assert_int_equal (world->keeper.keep_plan (world->keeper.self, &a), 1);
      assert_int_equal (world->keeper.keep_plan (world->keeper.self, &a), 0);
      world->keeper.take_in_end (world->keeper.self, keep);
      assert_plans (world, keep ? "given A 1 [] text\n" : "");
    }
}

static void
what_no_plan_can_be_is_not_kept (void **state)
{
  World *world = *state;
  g_autofree char *long_name = g_strnfill (CARPACE_NAME_BYTES, 'x'), *long_fixed = g_strnfill (CARPACE_CEILING_BYTES, 'x');
  g_autofree char *long_text = g_strnfill (CARPACE_PLAN_FILE_BYTES + 1, 'x');
  CarpacePlanRecord rows[] = {
    given (0, long_name, 1, ""), given (0, "A", 0, ""), given (0, "A", 10000, ""), given (0, "A", 1, long_fixed),
    given (0, "A\xff", 1, ""), given (0, "A", 1, ""),
  };

  rows[5].text = long_text;
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    if (world->keeper.keep_plan (world->keeper.self, &rows[i]) != -1)
      fail_msg ("row %zu was kept", i);
  assert_plans (world, "");
}

static void
open_day (World *world, CarpaceDay day)
{
  CarpaceStore port = carpace_store_port (world->store);
  CarpaceHistory history;
  CarpaceEvent start = { .kind = CARPACE_EVENT_START };
  CarpaceInstant at = moment ((day - SAMPLE_DAY) * CARPACE_DAY_MS);

  carpace_history_init (&history);
  port.begin (port.self);
  port.event (port.self, &start, at);
  port.opening (port.self, day, at, &history);
  assert_true (port.commit (port.self));
}

/* With its opening, and only where the day before had another. */
static void
a_day_keeps_its_plan (void **state)
{
  World *world = *state;
  CarpacePlanRecord a = given (0, "A", 1, ""), b = given (0, "A", 2, "");

  b.text = "other";
  open_day (world, SAMPLE_DAY);
  assert_plans (world, "");
  carpace_store_set_day_plan (world->store, &a);
  open_day (world, SAMPLE_DAY + 1);
  open_day (world, SAMPLE_DAY + 2);
  carpace_store_set_day_plan (world->store, &b);
  assert_plans (world, "day A 1 [] text\n");
  open_day (world, SAMPLE_DAY + 3);
  carpace_store_set_day_plan (world->store, &a);
  open_day (world, SAMPLE_DAY + 4);
  assert_plans (world, "day A 1 [] text\nday A 2 [] other\nday A 1 [] text\n");
}

int
main (void)
{
#define TEST(name) cmocka_unit_test_setup_teardown (name, begin, end)
  const struct CMUnitTest tests[] = {
    TEST (plans_are_kept_in_their_order),
    TEST (taken_in_with_all_else_or_not_at_all),
    TEST (what_no_plan_can_be_is_not_kept),
    TEST (a_day_keeps_its_plan),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
