/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is worked out of a hand is kept: a row by it is the row that is worked out anew, whatever has happened meanwhile, and
 * only whose hand has changed is gone through again. CARPACE_SEED=N begins with other teams. */
#include "said.h"

#include <glib/gstdio.h>
#include <sqlite3.h>
#include <stdlib.h>

#include "../core/random-fields.h"
#include "adapters/roster-sqlite.h"
#include "carpace/entry-fields.h"
#include "team/content.h"
#include "team/roster.h"

#define TODAY 20879 /* Tuesday, 2027-03-02 */
#define PLAYERS 5
#define TEAMS 12
#define ROUNDS 80

typedef struct
{
  CarpaceRosterStore store, counted; /* counted: the same, but that its readings of a hand are */
  CarpaceKey player[PLAYERS];
  CarpaceDay today;
  int64_t number;                    /* of grants, bundles and entries */
  int read[PLAYERS];                 /* since the last rows */
} Team;

static int64_t
now_of (CarpaceDay today)
{
  return (int64_t) today * 86400 + 36000;
}

static bool
rows_counted (void *self, const CarpaceKey *player, CarpaceDay since, CarpaceDay until, uint32_t kinds, CarpaceHandRowVisitor visit, void *user)
{
  Team *team = self;

  team->read[player->byte[0] - 1]++;
  return team->store.rows (team->store.self, player, since, until, kinds, visit, user);
}

/* Whatever else is asked of it is asked of the store. */
#define PASSED_ON(type, name, parameters, ...) \
  static type name##_passed parameters { Team *team = self; return team->store.name (__VA_ARGS__); }
PASSED_ON (bool, begin, (void *self), team->store.self)
PASSED_ON (bool, end, (void *self, bool keep), team->store.self, keep)
PASSED_ON (bool, players, (void *self, CarpaceRosterPlayerVisitor visit, void *user), team->store.self, visit, user)
PASSED_ON (bool, head, (void *self, const CarpaceKey *player, CarpaceLoadHead *head), team->store.self, player, head)
PASSED_ON (bool, weeks, (void *self, const CarpaceKey *player, int32_t since, CarpaceLoadWeekVisitor visit, void *user), team->store.self, player,
           since, visit, user)
PASSED_ON (bool, worked_out, (void *self, const CarpaceKey *player, uint8_t *bytes), team->store.self, player, bytes)
PASSED_ON (bool, keep_worked_out, (void *self, const CarpaceKey *player, const uint8_t *bytes), team->store.self, player, bytes)

static void
fail_open (void *user, const char *message)
{
  fail_msg ("%s", message);
}

static void
grant (Team *team, int at, CarpaceGrantWhat what)
{
  CarpaceGrant given = { .player = team->player[at], .what = what, .since = TODAY - 1000, .number = ++team->number };
  char name[] = { 'K', (char) ('0' + at), '\0' };
  int64_t last;

  assert_true (team->store.keep_grant (team->store.self, name, &given, false, (const uint8_t *) "", 0, &last));
}

static Team *
team_at (const char *path)
{
  Team *team = g_new0 (Team, 1);

  assert_true (carpace_roster_sqlite_open (path, fail_open, NULL, &team->store));
  team->counted = (CarpaceRosterStore) { .self = team, .begin = begin_passed, .end = end_passed, .players = players_passed,
                                         .head = head_passed, .weeks = weeks_passed, .worked_out = worked_out_passed, .keep_worked_out = keep_worked_out_passed,
                                         .rows = rows_counted };
  team->today = TODAY;
  for (int i = 0; i < PLAYERS; i++)
    {
      team->player[i].byte[0] = (uint8_t) (i + 1);
      grant (team, i, CARPACE_GRANT_HAND);
    }
  return team;
}

static void
free_team (Team *team)
{
  team->store.free (team->store.self);
  g_free (team);
}

static void
add (Team *team, int at, CarpaceDay day, const CarpaceEntry *entry)
{
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (entry->kind, &n);
  g_autoptr (GByteArray) values = g_byte_array_new ();
  CarpaceHandRow row = { .id = ++team->number, .day = day, .wall_ms = (int64_t) day * CARPACE_DAY_MS + team->number, .kind = (int32_t) entry->kind };

  carpace_values_write (field, n, entry, values);
  row.values = (CarpaceTeamBytes) { values->data, values->len };
  assert_true (team->store.keep_hand (team->store.self, &team->player[at], now_of (team->today), &row));
}

/* As gathering ends a bundle. */
static void
end_bundle (Team *team, int at)
{
  const CarpaceChain chain = { .kind = CARPACE_BUNDLE_HAND, .number = ++team->number, .made_s = now_of (team->today) };

  assert_true (team->store.keep_chain (team->store.self, &team->player[at], &team->player[at], &chain, 0));
}

static void
add_rating (Team *team, int at, CarpaceDay day, int32_t discomfort)
{
  CarpaceEntry entry;

  carpace_entry_init (&entry, CARPACE_ENTRY_RATING, (CarpaceInstant) { 0 });
  entry.rating.discomfort = discomfort;
  add (team, at, day, &entry);
  end_bundle (team, at);
}

static GArray *
rows_of (Team *team, bool anew)
{
  CarpaceRosterAsk ask = { .now_s = now_of (team->today), .today = team->today };
  CarpaceRosterStore store = team->counted;
  GArray *rows;

  if (anew)
    store.worked_out = NULL, store.keep_worked_out = NULL;
  memset (team->read, 0, sizeof team->read);
  rows = carpace_roster_rows (&store, &ask);
  assert_non_null (rows);
  assert_int_equal (rows->len, PLAYERS);
  return rows;
}

static CarpaceRosterRow
row_of (GArray *rows, const CarpaceKey *player)
{
  for (guint i = 0; i < rows->len; i++)
    if (carpace_key_equal (&g_array_index (rows, CarpaceRosterRow, i).who.player, player))
      return g_array_index (rows, CarpaceRosterRow, i);
  fail_msg ("no row of a player");
  return (CarpaceRosterRow) { .n_weeks = 0 };
}

/* ---- once more, from the entries and today alone ---- */

typedef struct
{
  CarpaceDay today, answered, since, cut, level;
  int cuts, levels;
  int32_t highest;
  bool caution, rising;
} Model;

static bool
model_record (void *user, const CarpaceRecord *record)
{
  Model *model = user;
  const CarpaceEntry *entry = &record->entry;
  int32_t ago = model->today - record->day;
  bool said = entry->kind == CARPACE_ENTRY_RATING ? entry->rating.discomfort >= 0
              : entry->kind == CARPACE_ENTRY_MORNING
                && (entry->morning.waking >= 0 || entry->morning.now >= 0 || entry->morning.stiffness != CARPACE_STIFFNESS_UNSAID);

  if (said)
    model->answered = record->day;
  if (entry->kind == CARPACE_ENTRY_RATING && ago >= 0 && ago < 7)
    model->highest = MAX (model->highest, entry->rating.discomfort);
  if (entry->kind == CARPACE_ENTRY_CAUTION && entry->caution.what == CARPACE_CAUTION_OPENED)
    {
      model->since = model->caution ? model->since : record->day;
      model->caution = true;
    }
  if (entry->kind == CARPACE_ENTRY_CAUTION && entry->caution.what == CARPACE_CAUTION_CLOSED)
    model->caution = false;
  if (entry->kind != CARPACE_ENTRY_DECISION || ago < 0)
    return true;
  if (ago < 7 && record->day != model->cut && entry->decision.scope == CARPACE_SCOPE_DAY
      && (entry->decision.rule == CARPACE_RULE_CUT || entry->decision.rule == CARPACE_RULE_CUT_ONCE || entry->decision.rule == CARPACE_RULE_REST_DAY))
    {
      model->cuts++;
      model->cut = record->day;
    }
  if (ago < 28 && record->day != model->level && entry->decision.level_down)
    {
      model->levels++;
      model->level = record->day;
    }
  model->rising = model->rising || (ago < 7 && entry->decision.finding == CARPACE_FINDING_TWO_WEEKS_RISING);
  return true;
}

static void
assert_modelled (Team *team, const CarpaceRosterRow *row)
{
  const uint32_t of_hand = 1u << CARPACE_LOOK_CAUTION | 1u << CARPACE_LOOK_TWO_RISING | 1u << CARPACE_LOOK_CUT_TWICE
                           | 1u << CARPACE_LOOK_LEVEL_DOWN | 1u << CARPACE_LOOK_SILENT;
  Model model = { .today = team->today, .answered = CARPACE_NO_DAY, .since = CARPACE_NO_DAY, .cut = CARPACE_NO_DAY, .level = CARPACE_NO_DAY, .highest = -1 };
  CarpaceDiary diary = carpace_roster_diary (&team->store, &row->who.player);
  uint32_t looks;

  assert_true (diary.records (diary.self, team->today - 84, team->today + 1, model_record, &model));
  diary.free (diary.self);
  looks = (model.caution ? 1u << CARPACE_LOOK_CAUTION : 0) | (model.rising ? 1u << CARPACE_LOOK_TWO_RISING : 0)
          | (model.cuts > 1 ? 1u << CARPACE_LOOK_CUT_TWICE : 0) | (model.levels > 1 ? 1u << CARPACE_LOOK_LEVEL_DOWN : 0)
          | (model.answered < team->today - 6 ? 1u << CARPACE_LOOK_SILENT : 0);
  assert_int_equal (row->looks & of_hand, looks);
  assert_int_equal (row->answered, model.answered);
  assert_int_equal (row->caution_since, model.caution ? model.since : CARPACE_NO_DAY);
  assert_int_equal (row->highest, model.highest);
}

/* ---- whatever happens ---- */

static int32_t
random_ago (Random *random)
{
  static const int32_t agos[] = { -2, -1, 0, 1, 3, 6, 7, 8, 27, 28, 29, 83, 84, 85 };

  return random_whole (random, 0, 1) ? agos[random_whole (random, 0, G_N_ELEMENTS (agos) - 1)] : random_whole (random, -90, 200);
}

static void
random_entry (Team *team, Random *random, int at, CarpaceDay day)
{
  static const CarpaceEntryKind kinds[] = { CARPACE_ENTRY_RATING, CARPACE_ENTRY_MORNING, CARPACE_ENTRY_DECISION, CARPACE_ENTRY_DECISION,
                                            CARPACE_ENTRY_CAUTION, CARPACE_ENTRY_CAUTION, CARPACE_ENTRY_BLOCK };
  static const CarpaceRule rules[] = { CARPACE_RULE_CUT, CARPACE_RULE_CUT_ONCE, CARPACE_RULE_REST_DAY, CARPACE_RULE_KEEP };
  CarpaceEntryKind kind = kinds[random_whole (random, 0, G_N_ELEMENTS (kinds) - 1)];
  int32_t n;
  const CarpaceField *field;
  CarpaceEntry entry;

  carpace_entry_init (&entry, kind, (CarpaceInstant) { 0 });
  field = carpace_entry_fields (kind, &n);
  random_fields (random, field, n, &entry);
  if (kind == CARPACE_ENTRY_DECISION)
    {
      entry.decision.scope = random_whole (random, 0, 3) ? CARPACE_SCOPE_DAY : entry.decision.scope;
      entry.decision.rule = rules[random_whole (random, 0, G_N_ELEMENTS (rules) - 1)];
      entry.decision.finding = random_whole (random, 0, 2) ? entry.decision.finding : CARPACE_FINDING_TWO_WEEKS_RISING;
    }
  if (kind == CARPACE_ENTRY_CAUTION && random_whole (random, 0, 1))
    entry.caution.what = random_whole (random, 0, 1) ? CARPACE_CAUTION_OPENED : CARPACE_CAUTION_CLOSED;
  add (team, at, day, &entry);
}

static void
happen (Team *team, Random *random)
{
  static const int32_t turns[] = { 1, 1, 1, 7, 60, -1, -3, 82, 83, 84, 400 };
  int at = random_whole (random, 0, PLAYERS - 1), what = random_whole (random, 0, 9);
  int32_t ago = random_ago (random);
  bool on_one_day = random_whole (random, 0, 1);

  if (what < 6)
    {
      for (int n = random_whole (random, 1, 6); n > 0; n--)
        random_entry (team, random, at, team->today - (on_one_day ? ago : random_ago (random)));
      end_bundle (team, at);
    }
  else if (what < 8)
    team->today += turns[random_whole (random, 0, G_N_ELEMENTS (turns) - 1)];
  else if (what < 9)
    assert_true (team->store.erase (team->store.self, &team->player[at], now_of (team->today - random_whole (random, 0, 20))));
  else
    grant (team, at, (CarpaceGrantWhat) random_whole (random, 0, CARPACE_N_GRANT_WHATS - 1));
}

static void
assert_same (const CarpaceRosterRow *kept, const CarpaceRosterRow *anew)
{
  assert_true (carpace_key_equal (&kept->who.player, &anew->who.player)); /* in the same order */
  assert_int_equal (kept->looks, anew->looks);
  assert_int_equal (kept->answered, anew->answered);
  assert_int_equal (kept->caution_since, anew->caution_since);
  assert_int_equal (kept->highest, anew->highest);
  assert_int_equal (kept->hand, anew->hand);
  assert_int_equal (kept->holds, anew->holds);
}

static void
a_kept_row_is_the_row_worked_out_anew (void **state)
{
  const char *given = getenv ("CARPACE_SEED");
  uint64_t first = given != NULL ? strtoull (given, NULL, 10) : 1, kept_reads = 0, anew_reads = 0;

  for (uint64_t seed = first; seed < first + TEAMS; seed++)
    {
      Team *team = team_at (":memory:");
      Random random = { seed };

      print_message ("seed %" G_GUINT64_FORMAT "\n", seed);
      for (int round = 0; round < ROUNDS; round++)
        {
          g_autoptr (GArray) kept = NULL, anew = NULL;

          happen (team, &random);
          kept = rows_of (team, false);
          for (int i = 0; i < PLAYERS; i++)
            kept_reads += (uint64_t) team->read[i];
          anew = rows_of (team, true);
          for (guint i = 0; i < kept->len; i++)
            {
              const CarpaceRosterRow *row = &g_array_index (kept, CarpaceRosterRow, i);

              assert_same (row, &g_array_index (anew, CarpaceRosterRow, i));
              anew_reads += row->hand;
              if (row->hand)
                assert_modelled (team, row);
            }
        }
      free_team (team);
    }
  assert_true (kept_reads > 0 && kept_reads < anew_reads / 2);
}

/* ---- who is gone through again ---- */

static void
assert_read (Team *team, const char *what, const char *read)
{
  g_autoptr (GArray) rows = rows_of (team, false);

  for (int i = 0; i < PLAYERS; i++)
    if (team->read[i] != read[i] - '0')
      fail_msg ("%s: player %d was gone through %d times", what, i, team->read[i]);
}

static void
only_whose_hand_has_changed_is_gone_through_again (void **state)
{
  Team *team = team_at (":memory:");
  CarpaceRosterRow row;

  assert_read (team, "nothing is kept yet", "11111");
  assert_read (team, "nothing has happened", "00000");
  add_rating (team, 2, TODAY - 6, 7);
  add_rating (team, 2, TODAY, 3);
  assert_read (team, "one bundle", "00100");
  team->today++; /* the 7 is seven dates ago by then */
  assert_read (team, "the next day", "00000");
  {
    g_autoptr (GArray) rows = rows_of (team, false);

    row = row_of (rows, &team->player[2]);
  }
  assert_int_equal (row.highest, 3);
  assert_true (team->store.erase (team->store.self, &team->player[4], now_of (team->today)));
  assert_read (team, "an erasure", "00001");
  grant (team, 1, CARPACE_GRANT_NONE);
  grant (team, 1, CARPACE_GRANT_HAND);
  assert_read (team, "withdrawn, and granted again", "01000");
  grant (team, 1, CARPACE_GRANT_ALL);
  assert_read (team, "the load, too", "00000");
  free_team (team);
}

/* From when it was worked out it serves while a row of today still lies within its dates. */
static void
it_serves_for_eighty_two_days (void **state)
{
  static const struct { int32_t days; const char *read; } rows[] = {
    { 82, "00000" }, { 83, "11111" }, { -1, "11111" }, { 0, "00000" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Team *team = team_at (":memory:");

      assert_read (team, "first", "11111");
      team->today += rows[i].days;
      assert_read (team, "later", rows[i].read);
      free_team (team);
    }
}

/* Of what was erased or withdrawn nothing stays behind. */
static void
it_goes_with_what_it_was_worked_out_of (void **state)
{
  Team *team = team_at (":memory:");
  uint8_t bytes[CARPACE_ROSTER_WORKED_OUT];

  assert_read (team, "first", "11111");
  for (int i = 0; i < PLAYERS; i++)
    assert_true (team->store.worked_out (team->store.self, &team->player[i], bytes));
  assert_true (team->store.erase (team->store.self, &team->player[0], now_of (TODAY)));
  grant (team, 1, CARPACE_GRANT_NONE);
  grant (team, 2, CARPACE_GRANT_LOAD);
  for (int i = 0; i < PLAYERS; i++)
    assert_int_equal (team->store.worked_out (team->store.self, &team->player[i], bytes), i > 2);
  free_team (team);
}

/* A file whose bytes were tampered with, or of another form. */
static void
what_does_not_read_is_worked_out_anew (void **state)
{
  static const struct { int at; uint8_t byte; } rows[] = { { 0, 2 }, { 5, 128 }, { 6, 12 }, { 4, 127 }, { 4, 128 } };
  Team *team = team_at (":memory:");

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      uint8_t bytes[CARPACE_ROSTER_WORKED_OUT];

      assert_read (team, "before", i == 0 ? "11111" : "00000");
      assert_true (team->store.worked_out (team->store.self, &team->player[3], bytes));
      bytes[rows[i].at] = rows[i].byte;
      assert_true (team->store.keep_worked_out (team->store.self, &team->player[3], bytes));
      assert_read (team, "after", "00010");
    }
  free_team (team);
}

/* One of the first form has nothing worked out, and is brought on. */
static void
an_older_file_is_brought_on (void **state)
{
  g_autofree char *folder = g_dir_make_tmp ("carpace-roster-XXXXXX", NULL), *path = g_build_filename (folder, "roster.sqlite", NULL);
  Team *team = team_at (path);
  sqlite3 *db;

  add_rating (team, 1, TODAY, 4);
  free_team (team);
  assert_int_equal (sqlite3_open (path, &db), SQLITE_OK);
  assert_int_equal (sqlite3_exec (db, "DROP TABLE worked_out; PRAGMA user_version = 1", NULL, NULL, NULL), SQLITE_OK);
  sqlite3_close (db);
  team = team_at (path);
  assert_read (team, "brought on", "11111");
  assert_read (team, "and kept", "00000");
  {
    g_autoptr (GArray) rows = rows_of (team, false);

    assert_int_equal (row_of (rows, &team->player[1]).highest, 4);
  }
  free_team (team);
  g_unlink (path);
  g_rmdir (folder);
}

/* Another program writes: it is worked out, and not kept. */
static void
a_store_that_is_busy_keeps_nothing (void **state)
{
  Team *team = team_at (":memory:");

  assert_true (team->store.begin (team->store.self));
  assert_read (team, "busy", "11111");
  assert_read (team, "still busy", "11111");
  team->store.end (team->store.self, true);
  assert_read (team, "free again", "11111");
  assert_read (team, "kept", "00000");
  free_team (team);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_kept_row_is_the_row_worked_out_anew),
    cmocka_unit_test (only_whose_hand_has_changed_is_gone_through_again),
    cmocka_unit_test (it_serves_for_eighty_two_days),
    cmocka_unit_test (it_goes_with_what_it_was_worked_out_of),
    cmocka_unit_test (what_does_not_read_is_worked_out_anew),
    cmocka_unit_test (an_older_file_is_brought_on),
    cmocka_unit_test (a_store_that_is_busy_keeps_nothing),
  };
  return carpace_team_ready () ? cmocka_run_group_tests (tests, NULL, NULL) : 1;
}
