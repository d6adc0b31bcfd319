/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a player's diary to a reader's roster: who gets what, what is refused and why, and that a refusal harms nothing. */
#include "said.h"

#include <errno.h>

#include "../fakes/fake-diary.h"
#include "../fakes/fake-folder.h"
#include "adapters/roster-sqlite.h"
#include "carpace/entry-fields.h"
#include "team/gather.h"
#include "team/roster.h"

#define TODAY 20879 /* Tuesday, 2027-03-02 */
#define NOW INT64_C (1803970800)
#define PHRASE "five dull lamps hum"

_Static_assert (NOW / 86400 == TODAY, "one day");

typedef struct
{
  FakeFolder files;
  CarpaceFolder shelf;
  CarpacePerson person;
  CarpaceCard card;
  CarpaceRosterStore store;
} Member;

typedef struct
{
  Member player, coach, clinician, guardian;
  FakeFolder stick;
  CarpaceFolder shared;
  CarpaceFakeDiary *diary;
  CarpaceDiary port;
  int64_t now_s;
  CarpaceDay today;
  GString *told;         /* "FILE FAULT PLAYER\n" of each refusal */
  CarpaceGathered gathered;
} Team;

static void
fail_open (void *user, const char *message)
{
  fail_msg ("%s", message);
}

static void
begin_member (Member *member, const char *name, CarpaceRole role)
{
  fake_folder_begin (&member->files);
  member->shelf = fake_folder_port (&member->files);
  assert_int_equal (carpace_shelf_begin (&member->shelf, name, role, PHRASE, CARPACE_LOCK_LEAST, NOW - 86400 * 200), CARPACE_TEAM_FINE);
  assert_int_equal (carpace_shelf_unlock (&member->shelf, PHRASE, &member->person), CARPACE_TEAM_FINE);
  assert_int_equal (carpace_shelf_card (&member->shelf, &member->card, NULL), CARPACE_TEAM_FINE);
  assert_true (carpace_roster_sqlite_open (":memory:", fail_open, NULL, &member->store));
}

static void
end_member (Member *member)
{
  member->store.free (member->store.self);
  fake_folder_end (&member->files);
}

static void
know (Member *member, Member *other)
{
  assert_true (carpace_shelf_accept (&member->shelf, fake_folder_file (&other->files, "person.card")));
}

static int
set_up (void **state)
{
  Team *team = g_new0 (Team, 1);

  begin_member (&team->player, "K7", CARPACE_ROLE_PLAYER);
  begin_member (&team->coach, "Coach", CARPACE_ROLE_COACH);
  begin_member (&team->clinician, "Clinic", CARPACE_ROLE_CLINICIAN);
  begin_member (&team->guardian, "Guardian", CARPACE_ROLE_GUARDIAN);
  know (&team->coach, &team->player);
  know (&team->clinician, &team->player);
  fake_folder_begin (&team->stick);
  team->shared = fake_folder_port (&team->stick);
  team->diary = carpace_fake_diary_season (7, TODAY - 60, 60);
  team->port = carpace_fake_diary_port (team->diary);
  team->now_s = NOW;
  team->today = TODAY;
  team->told = g_string_new (NULL);
  *state = team;
  return 0;
}

static int
tear_down (void **state)
{
  Team *team = *state;

  end_member (&team->player);
  end_member (&team->coach);
  end_member (&team->clinician);
  end_member (&team->guardian);
  fake_folder_end (&team->stick);
  carpace_fake_diary_free (team->diary);
  g_string_free (team->told, TRUE);
  g_free (team);
  return 0;
}

static CarpaceGrant
grant_to (Team *team, const Member *reader, CarpaceGrantWhat what, int64_t number)
{
  CarpaceGrant grant = { .player = team->player.card.sign, .reader = reader->card.sign, .reader_seal = reader->card.seal,
                         .reader_role = reader->card.role, .what = what, .since = TODAY - 30, .number = number, .made_s = NOW,
                         .wording = CARPACE_GRANT_WORDING };

  g_strlcpy (grant.reader_name, reader->card.name, sizeof grant.reader_name);
  return grant;
}

static void
keep (Team *team, const CarpaceGrant *grant)
{
  g_autoptr (GByteArray) file = carpace_grant_write (&team->player.person, grant);

  assert_true (carpace_shelf_keep_grant (&team->player.shelf, grant, file));
}

static void
let (Team *team, const Member *reader, CarpaceGrantWhat what, int64_t number)
{
  CarpaceGrant grant = grant_to (team, reader, what, number);

  keep (team, &grant);
}

static CarpaceSharing
sharing (Team *team)
{
  return (CarpaceSharing) { .shelf = &team->player.shelf, .shared = &team->shared, .diary = &team->port,
                            .plan = { .name = "Two halves", .version = 2, .hash = carpace_team_hash ("plan", 4),
                                      .in_force_s = NOW - 86400 * 20 },
                            .now_s = team->now_s, .today = team->today };
}

static CarpaceTeamFault
share (Team *team, CarpaceShared *ret_shared)
{
  CarpaceSharing all = sharing (team);
  CarpaceShared shared;

  return carpace_share_now (&all, ret_shared != NULL ? ret_shared : &shared);
}

static void
note_refusal (void *user, const char *file, const char *player, CarpaceTeamFault fault)
{
  Team *team = user;

  g_string_append_printf (team->told, "%s %d %s\n", file, (int) fault, player);
}

static CarpaceTeamFault
gather (Team *team, Member *reader)
{
  const CarpaceGathering gathering = { .shelf = &reader->shelf, .shared = &team->shared, .reader = &reader->person,
                                       .store = &reader->store, .now_s = team->now_s, .today = team->today };

  g_string_truncate (team->told, 0);
  return carpace_gather (&gathering, note_refusal, team, &team->gathered);
}

static CarpaceRosterRow
row_of (Team *team, Member *reader, const CarpaceRosterGiven *given, size_t n_given)
{
  const CarpaceRosterAsk ask = { .now_s = team->now_s, .today = team->today, .given = given, .n_given = n_given };
  g_autoptr (GArray) rows = carpace_roster_rows (&reader->store, &ask);

  assert_non_null (rows);
  assert_int_equal (rows->len, 1);
  return g_array_index (rows, CarpaceRosterRow, 0);
}

static bool
count_record (void *user, const CarpaceRecord *record)
{
  ++*(int *) user;
  return true;
}

static int
records_held (Member *reader, const CarpaceKey *player)
{
  CarpaceDiary diary = carpace_roster_diary (&reader->store, player);
  int n = 0;

  assert_true (diary.records (diary.self, 0, TODAY + 400, count_record, &n));
  diary.free (diary.self);
  return n;
}

/* The one bundle of a kind that is there. */
static const char *
bundle_name (Team *team, const char *kind)
{
  g_autoptr (GPtrArray) names = fake_folder_names (&team->stick, ".bundle");

  for (guint i = 0; i < names->len; i++)
    if (strstr (names->pdata[i], kind) != NULL)
      return g_intern_string (names->pdata[i]);
  fail_msg ("no bundle of %s", kind);
  return NULL;
}

#define assert_told(team, file, fault)                                                        \
  do                                                                                          \
    {                                                                                         \
      g_autofree char *line = g_strdup_printf ("%s %d ", file, (int) (fault));                \
      if (strstr ((team)->told->str, line) == NULL)                                           \
        fail_msg ("told: %sand not %s", (team)->told->str, line);                             \
    }                                                                                         \
  while (0)

/* ---- who gets what ---- */

static void
the_coach_sees_load_and_the_clinician_the_hand (void **state)
{
  Team *team = *state;
  CarpaceShared shared;
  CarpaceRosterRow row;

  let (team, &team->coach, CARPACE_GRANT_LOAD, 1);
  let (team, &team->clinician, CARPACE_GRANT_ALL, 1);
  assert_int_equal (share (team, &shared), CARPACE_TEAM_FINE);
  assert_int_equal (shared.readers[CARPACE_BUNDLE_LOAD], 2);
  assert_int_equal (shared.readers[CARPACE_BUNDLE_HAND], 1);

  assert_int_equal (gather (team, &team->coach), CARPACE_TEAM_FINE);
  assert_string_equal (team->told->str, "");
  assert_int_equal (team->gathered.taken, 1);
  row = row_of (team, &team->coach, NULL, 0);
  assert_true (row.load);
  assert_false (row.hand);
  assert_string_equal (row.head.plan_name, "Two halves");
  assert_in_range (row.n_weeks, 7, 9);
  assert_int_equal (records_held (&team->coach, &team->player.card.sign), 0);

  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_int_equal (team->gathered.taken, 2);
  row = row_of (team, &team->clinician, NULL, 0);
  assert_true (row.load && row.hand);
  assert_true (records_held (&team->clinician, &team->player.card.sign) > 200);
}

/* The difference of two daily bundles would be a day: the week under way is in none. */
static void
a_load_bundle_has_only_weeks_that_are_over (void **state)
{
  Team *team = *state;
  CarpaceLoad load, next;
  g_autoptr (GByteArray) rows = g_byte_array_new (), later = g_byte_array_new ();
  CarpaceTeamPlan plan = { .version = 0 };

  for (CarpaceDay day = TODAY; day < TODAY + 6; day++) /* to the Sunday */
    {
      g_byte_array_set_size (later, 0);
      assert_true (carpace_load_write (&team->port, &plan, day, later));
      if (day == TODAY)
        g_byte_array_append (rows, later->data, later->len);
      assert_int_equal (later->len, rows->len);
      assert_memory_equal (later->data, rows->data, rows->len);
    }
  assert_int_equal (carpace_load_read (rows, &load), CARPACE_TEAM_FINE);
  assert_int_equal (load.week[load.n_weeks - 1].monday, TODAY - 8);
  g_byte_array_set_size (later, 0);
  assert_true (carpace_load_write (&team->port, &plan, TODAY + 6, later));
  assert_int_equal (carpace_load_read (later, &next), CARPACE_TEAM_FINE);
  assert_int_equal (next.week[next.n_weeks - 1].monday, TODAY - 1);
}

/* Summed here from the days that the diary itself tells. */
typedef struct { int64_t planned_ms, done_ms; int32_t days, rests; } Sums;

static bool
sum_day (void *user, const CarpaceDaySum *sum)
{
  Sums *sums = user;

  sums->planned_ms += sum->dose_ms;
  sums->done_ms += sum->done_ms;
  sums->days += sum->done_ms > 0;
  sums->rests += sum->taken;
  return true;
}

static void
weeks_are_the_sums_of_their_days (void **state)
{
  Team *team = *state;
  CarpaceLoad load;
  g_autoptr (GByteArray) rows = g_byte_array_new ();

  assert_true (carpace_load_write (&team->port, &(CarpaceTeamPlan) { .version = 0 }, TODAY, rows));
  assert_int_equal (carpace_load_read (rows, &load), CARPACE_TEAM_FINE);
  for (int i = 0; i < load.n_weeks; i++)
    {
      Sums sums = { 0 };

      assert_true (team->port.days (team->port.self, load.week[i].monday, load.week[i].monday + 6, sum_day, &sums));
      assert_true (sums.planned_ms == load.week[i].planned_ms && sums.done_ms == load.week[i].done_ms);
      assert_int_equal (sums.days, load.week[i].days);
      assert_int_equal (sums.rests, load.week[i].rests);
    }
}

static void
each_entry_is_taken_once (void **state)
{
  Team *team = *state;
  int held;

  let (team, &team->clinician, CARPACE_GRANT_HAND, 1);
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  held = records_held (&team->clinician, &team->player.card.sign);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_int_equal (team->gathered.taken, 0);
  assert_int_equal (team->gathered.known, 1);
  team->now_s += 86400;
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE); /* all of it once more */
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_int_equal (team->gathered.taken, 1);
  assert_int_equal (records_held (&team->clinician, &team->player.card.sign), held);
}

/* ---- grants ---- */

static void
what_is_not_granted_is_not_sealed (void **state)
{
  static const struct { const char *what; CarpaceGrantWhat grant; int32_t since, until; bool under_age; int load, hand; } rows[] = {
    { "load", CARPACE_GRANT_LOAD, -30, 0, false, 1, 0 },
    { "hand", CARPACE_GRANT_HAND, -30, 0, false, 0, 1 },
    { "all", CARPACE_GRANT_ALL, -30, 0, false, 1, 1 },
    { "withdrawn", CARPACE_GRANT_NONE, -30, 0, false, 0, 0 },
    { "from today on", CARPACE_GRANT_ALL, 0, 0, false, 1, 1 },
    { "from tomorrow on", CARPACE_GRANT_ALL, 1, 0, false, 0, 0 },
    { "until today", CARPACE_GRANT_ALL, -30, TODAY, false, 1, 1 },
    { "until yesterday", CARPACE_GRANT_ALL, -30, TODAY - 1, false, 0, 0 },
    { "no guardian yet", CARPACE_GRANT_ALL, -30, 0, true, 0, 0 },
  };
  Team *team = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceGrant grant = grant_to (team, &team->clinician, rows[i].grant, (int64_t) i + 1);
      CarpaceShared shared;

      grant.since = TODAY + rows[i].since;
      grant.until = rows[i].until;
      grant.under_age = rows[i].under_age;
      grant.guardian = rows[i].under_age ? team->guardian.card.sign : (CarpaceKey) { { 0 } };
      keep (team, &grant);
      assert_int_equal (share (team, &shared), CARPACE_TEAM_FINE);
      if (shared.readers[CARPACE_BUNDLE_LOAD] != rows[i].load || shared.readers[CARPACE_BUNDLE_HAND] != rows[i].hand)
        fail_msg ("%s: %d, %d", rows[i].what, shared.readers[CARPACE_BUNDLE_LOAD], shared.readers[CARPACE_BUNDLE_HAND]);
    }
}

/* Also what was gathered before is gone then. */
static void
a_withdrawal_bites_at_once (void **state)
{
  Team *team = *state;
  CarpaceSharing all;
  CarpaceShared shared;
  CarpaceRosterRow row;

  let (team, &team->clinician, CARPACE_GRANT_ALL, 1);
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  let (team, &team->clinician, CARPACE_GRANT_LOAD, 2);
  all = sharing (team);
  assert_int_equal (carpace_share_grants (&all, &shared), CARPACE_TEAM_FINE);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_int_equal (records_held (&team->clinician, &team->player.card.sign), 0);
  row = row_of (team, &team->clinician, NULL, 0);
  assert_true (row.load && !row.hand);
  let (team, &team->clinician, CARPACE_GRANT_NONE, 3);
  assert_int_equal (carpace_share_grants (&all, &shared), CARPACE_TEAM_FINE);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  row = row_of (team, &team->clinician, NULL, 0);
  assert_int_equal (row.holds, CARPACE_TEAM_WITHDRAWN);
  assert_int_equal (row.n_weeks, 0);
  assert_int_equal (row.looks, 0);
}

static void
an_older_grant_is_not_put_back (void **state)
{
  Team *team = *state;
  g_autoptr (GPtrArray) names = NULL;
  g_autoptr (GByteArray) old = NULL;
  const char *name;

  let (team, &team->clinician, CARPACE_GRANT_ALL, 1);
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  names = fake_folder_names (&team->stick, ".grant");
  name = names->pdata[0];
  old = g_byte_array_ref (fake_folder_file (&team->stick, name));
  let (team, &team->clinician, CARPACE_GRANT_NONE, 2);
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  fake_folder_put (&team->stick, name, old->data, old->len);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_told (team, name, CARPACE_TEAM_ROLLED_BACK);
  assert_int_equal (row_of (team, &team->clinician, NULL, 0).holds, CARPACE_TEAM_WITHDRAWN);
}

/* Signed in the folder by the guardian, whose key the clinician must know; the player takes it back. */
static void
under_age_a_guardian_signs_too (void **state)
{
  Team *team = *state;
  CarpaceGrant grant = grant_to (team, &team->clinician, CARPACE_GRANT_HAND, 1);
  g_autoptr (GPtrArray) names = NULL;
  g_autoptr (GByteArray) both = NULL;
  CarpaceShared shared;
  GByteArray *there;

  grant.under_age = true;
  grant.guardian = team->guardian.card.sign;
  keep (team, &grant);
  assert_int_equal (share (team, &shared), CARPACE_TEAM_FINE);
  assert_int_equal (shared.waiting, 1);
  assert_int_equal (shared.readers[CARPACE_BUNDLE_HAND], 0);
  names = fake_folder_names (&team->stick, ".grant");
  there = fake_folder_file (&team->stick, names->pdata[0]);
  assert_null (carpace_grant_countersign (there->data, there->len, &team->coach.person));
  both = carpace_grant_countersign (there->data, there->len, &team->guardian.person);
  fake_folder_put (&team->stick, names->pdata[0], both->data, both->len);
  assert_int_equal (share (team, &shared), CARPACE_TEAM_FINE);
  assert_int_equal (shared.waiting, 0);
  assert_int_equal (shared.readers[CARPACE_BUNDLE_HAND], 1);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_told (team, (char *) names->pdata[0], CARPACE_TEAM_UNGUARDED);
  assert_int_equal (team->gathered.taken, 0);
  know (&team->clinician, &team->guardian);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_string_equal (team->told->str, "");
  assert_int_equal (team->gathered.taken, 1);
}

/* The guardian signed another grant of the same number, second and kind: it does not come in place of the own one. */
static void
a_guardian_signs_what_the_player_granted (void **state)
{
  Team *team = *state;
  CarpaceGrant grant = grant_to (team, &team->clinician, CARPACE_GRANT_HAND, 1), other;
  g_autoptr (GPtrArray) names = NULL;
  g_autoptr (GByteArray) longer = NULL, both = NULL;
  CarpaceShared shared;

  grant.under_age = true;
  grant.guardian = team->guardian.card.sign;
  grant.until = TODAY + 1;
  keep (team, &grant);
  assert_int_equal (share (team, &shared), CARPACE_TEAM_FINE);
  names = fake_folder_names (&team->stick, ".grant");
  other = grant;
  other.until = TODAY + 3000;
  longer = carpace_grant_write (&team->player.person, &other);
  both = carpace_grant_countersign (longer->data, longer->len, &team->guardian.person);
  fake_folder_put (&team->stick, names->pdata[0], both->data, both->len);
  assert_int_equal (share (team, &shared), CARPACE_TEAM_FINE);
  assert_int_equal (shared.waiting, 1);
  assert_int_equal (shared.readers[CARPACE_BUNDLE_HAND], 0);
}

static void
an_erasure_leaves_when_and_that (void **state)
{
  Team *team = *state;
  CarpaceSharing all;
  CarpaceShared shared;
  g_autoptr (GPtrArray) names = NULL;
  g_autoptr (GByteArray) old = NULL;
  const char *name;

  let (team, &team->clinician, CARPACE_GRANT_ALL, 1);
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  name = bundle_name (team, "-hand-");
  old = g_byte_array_ref (fake_folder_file (&team->stick, name));
  team->now_s += 3600;
  all = sharing (team);
  assert_int_equal (carpace_share_erasure (&all, &team->player.person, &shared), CARPACE_TEAM_FINE);
  names = fake_folder_names (&team->stick, ".bundle");
  assert_int_equal (names->len, 0);
  fake_folder_put (&team->stick, "kept-by-somebody.bundle", old->data, old->len);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_told (team, "kept-by-somebody.bundle", CARPACE_TEAM_ERASED);
  assert_int_equal (records_held (&team->clinician, &team->player.card.sign), 0);
  assert_int_equal (row_of (team, &team->clinician, NULL, 0).n_weeks, 0);
  assert_int_equal (row_of (team, &team->clinician, NULL, 0).who.erased_s, team->now_s);
}

/* ---- bad input ---- */

static void
bad_bundles_are_refused_by_name_and_harm_nothing (void **state)
{
  Team *team = *state;
  Member stranger;
  GByteArray *good;
  g_autofree uint8_t *bytes = NULL, *enormous = g_malloc0 (CARPACE_TEAM_FILE_MOST + 1);
  guint n;

  let (team, &team->clinician, CARPACE_GRANT_HAND, 1);
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  good = fake_folder_file (&team->stick, bundle_name (team, "-hand-"));
  n = good->len;
  bytes = g_memdup2 (good->data, n);
  fake_folder_put (&team->stick, "0-cut.bundle", bytes, n / 2);
  bytes[n - 1] ^= 1;
  fake_folder_put (&team->stick, "0-forged.bundle", bytes, n);
  bytes[n - 1] ^= 1;
  memset (enormous, 'x', CARPACE_TEAM_FILE_MOST + 1);
  fake_folder_put (&team->stick, "0-enormous.bundle", enormous, CARPACE_TEAM_FILE_MOST + 1);
  fake_folder_put (&team->stick, "0-foreign.bundle", "PK\3\4 not ours", 13);
  fake_folder_put (&team->stick, "0-empty.bundle", "", 0);
  fake_folder_put (&team->stick, "0-a-card.bundle", fake_folder_file (&team->player.files, "person.card")->data,
                   fake_folder_file (&team->player.files, "person.card")->len);
  fake_folder_put (&team->stick, "holiday.jpg", "no business of ours", 19);
  begin_member (&stranger, "K7", CARPACE_ROLE_PLAYER); /* another one under the same code */
  {
    Team other = *team;
    g_autoptr (GPtrArray) before = fake_folder_names (&team->stick, ".bundle");

    other.player = stranger;
    other.player.shelf = fake_folder_port (&other.player.files);
    let (&other, &team->clinician, CARPACE_GRANT_HAND, 1);
    assert_int_equal (share (&other, NULL), CARPACE_TEAM_FINE);
    stranger = other.player;
    stranger.shelf = fake_folder_port (&stranger.files);
  }
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_told (team, "0-cut.bundle", CARPACE_TEAM_CUT);
  assert_told (team, "0-forged.bundle", CARPACE_TEAM_FORGED);
  assert_told (team, "0-enormous.bundle", CARPACE_TEAM_TOO_LARGE);
  assert_told (team, "0-foreign.bundle", CARPACE_TEAM_FOREIGN);
  assert_told (team, "0-empty.bundle", CARPACE_TEAM_FOREIGN);
  assert_told (team, "0-a-card.bundle", CARPACE_TEAM_OTHER_KIND);
  assert_int_equal (team->gathered.refused, 7); /* and the stranger, once for both files */
  assert_int_equal (team->gathered.taken, 1);
  assert_true (records_held (&team->clinician, &team->player.card.sign) > 200);
  assert_int_equal (records_held (&team->clinician, &stranger.card.sign), 0);
  end_member (&stranger);
}

/* Yesterday's in the place of today's, and today's under a name that comes first. */
static void
replayed_and_reordered_bundles_show (void **state)
{
  Team *team = *state;
  g_autoptr (GByteArray) first = NULL, second = NULL;
  const char *name;

  let (team, &team->clinician, CARPACE_GRANT_HAND, 1);
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  name = bundle_name (team, "-hand-000000001");
  first = g_byte_array_ref (fake_folder_file (&team->stick, name));
  team->now_s += 86400;
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  second = g_byte_array_ref (fake_folder_file (&team->stick, bundle_name (team, "-hand-000000002")));
  fake_folder_put (&team->stick, "0.bundle", second->data, second->len);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_told (team, name, CARPACE_TEAM_ROLLED_BACK); /* the second came first */
  assert_int_equal (team->gathered.taken, 1);
  fake_folder_put (&team->stick, "later.bundle", first->data, first->len);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_told (team, "later.bundle", CARPACE_TEAM_ROLLED_BACK);
  assert_int_equal (row_of (team, &team->clinician, NULL, 0).who.made_s[CARPACE_BUNDLE_HAND], team->now_s);
}

static void
a_gap_is_counted (void **state)
{
  Team *team = *state;

  let (team, &team->clinician, CARPACE_GRANT_HAND, 1);
  for (int day = 0; day < 4; day++)
    {
      team->now_s += 86400;
      assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
      if (day == 0)
        assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
    }
  g_hash_table_remove (team->stick.files, bundle_name (team, "-hand-000000003"));
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_string_equal (team->told->str, "");
  assert_int_equal (row_of (team, &team->clinician, NULL, 0).who.missing[CARPACE_BUNDLE_HAND], 1);
}

static void
a_clock_a_year_off_is_told (void **state)
{
  static const struct { const char *whose; int64_t player_s, reader_s; int32_t refused, taken; const char *told; } rows[] = {
    { "the player's, ahead", 365 * 86400, 0, 1, 0, "-hand-" },
    { "the reader's, behind", 0, -365 * 86400, 1, 0, ".grant" }, /* once, not for the bundle, too */
    { "neither", 0, 0, 0, 1, NULL },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      void *own;
      Team *team;

      set_up (&own);
      team = own;
      CarpaceGrant grant = grant_to (team, &team->clinician, CARPACE_GRANT_HAND, 1);

      grant.since = TODAY - 700;
      keep (team, &grant);
      team->now_s = NOW + rows[i].player_s;
      assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
      team->now_s = NOW + rows[i].reader_s;
      team->today = TODAY + (CarpaceDay) (rows[i].reader_s / 86400);
      assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
      assert_int_equal (team->gathered.refused, rows[i].refused);
      assert_int_equal (team->gathered.taken, rows[i].taken);
      if (rows[i].refused > 0)
        assert_told (team, rows[i].told[0] == '.' ? rows[i].told : bundle_name (team, rows[i].told), CARPACE_TEAM_AHEAD);
      tear_down (&own);
    }
}

/* Of a reader who was let read later, or again: what was made for others before is neither refused each day, nor an old copy
 * that somebody put back, nor missing. */
static void
what_was_made_for_others_is_passed_by (void **state)
{
  Team *team = *state;
  CarpaceGrant later, again;

  let (team, &team->coach, CARPACE_GRANT_LOAD, 1);
  for (int day = 0; day < 3; day++, team->now_s += 86400)
    assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  later = grant_to (team, &team->clinician, CARPACE_GRANT_LOAD, 1);
  later.made_s = team->now_s;
  keep (team, &later);
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  for (int time = 0; time < 2; time++)
    {
      assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
      assert_string_equal (team->told->str, "");
      assert_int_equal (team->gathered.taken, time == 0);
      assert_int_equal (row_of (team, &team->clinician, NULL, 0).who.missing[CARPACE_BUNDLE_LOAD], 0);
    }

  /* stopped for two days, of which one bundle never lay in the folder when it was looked into */
  again = grant_to (team, &team->clinician, CARPACE_GRANT_NONE, 2);
  keep (team, &again);
  for (int day = 0; day < 2; day++)
    {
      team->now_s += 86400;
      assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
    }
  g_hash_table_remove (team->stick.files, bundle_name (team, "-load-000000005"));
  team->now_s += 86400;
  again = grant_to (team, &team->clinician, CARPACE_GRANT_LOAD, 3);
  again.made_s = team->now_s;
  keep (team, &again);
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_string_equal (team->told->str, "");
  assert_int_equal (team->gathered.taken, 1);
  assert_int_equal (row_of (team, &team->clinician, NULL, 0).who.missing[CARPACE_BUNDLE_LOAD], 0);
}

/* One that should have been sealed to the reader is told of, once. */
static void
what_is_sealed_to_others_is_told_once (void **state)
{
  Team *team = *state;
  CarpaceGrant grant = grant_to (team, &team->clinician, CARPACE_GRANT_LOAD, 1);

  let (team, &team->coach, CARPACE_GRANT_LOAD, 1);
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  grant.made_s = team->now_s; /* in that very second: not before it */
  keep (team, &grant);
  team->now_s += 60;
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_told (team, bundle_name (team, "-load-000000001"), CARPACE_TEAM_NOT_FOR_YOU);
  assert_int_equal (team->gathered.refused, 1);
  assert_int_equal (team->gathered.taken, 1);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_string_equal (team->told->str, "");
}

/* A folder that is full, read-only or gone costs a try, and never a bundle's number. */
static void
what_cannot_be_left_goes_with_the_next (void **state)
{
  static const int errors[] = { ENOSPC, EROFS, EACCES };
  Team *team = *state;
  CarpaceShared shared;

  let (team, &team->clinician, CARPACE_GRANT_HAND, 1);
  for (size_t i = 0; i < G_N_ELEMENTS (errors); i++)
    {
      team->stick.error = errors[i];
      assert_int_equal (share (team, &shared), CARPACE_TEAM_FAILED);
      assert_int_equal (errno, errors[i]);
    }
  team->stick.error = 0;
  team->stick.gone = true;
  assert_int_equal (share (team, &shared), CARPACE_TEAM_FAILED);
  assert_int_equal (errno, ENOENT);
  team->stick.gone = false;
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_string_equal (team->told->str, "");
  assert_int_equal (team->gathered.taken, 1);
}

/* The folder fills up between the grant and the bundle: the bundle was made, and goes with the next one. */
static void
a_bundle_that_was_made_is_not_lost (void **state)
{
  Team *team = *state;
  CarpaceShared shared;
  g_autoptr (GPtrArray) names = NULL;

  let (team, &team->clinician, CARPACE_GRANT_HAND, 1);
  assert_int_equal (carpace_share_grants (&(CarpaceSharing) { .shelf = &team->player.shelf, .shared = &team->shared, .now_s = NOW,
                                                              .today = TODAY }, &shared), CARPACE_TEAM_FINE);
  team->stick.error = ENOSPC; /* card and grant are there already and are not written again */
  assert_int_equal (share (team, &shared), CARPACE_TEAM_FAILED);
  assert_true (g_str_has_suffix (shared.what, ".bundle"));
  team->stick.error = 0;
  team->now_s += 86400;
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  names = fake_folder_names (&team->stick, ".bundle");
  assert_int_equal (names->len, 2);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_int_equal (team->gathered.taken, 2);
  assert_int_equal (row_of (team, &team->clinician, NULL, 0).who.missing[CARPACE_BUNDLE_HAND], 0);
}

static void
old_bundles_are_taken_away (void **state)
{
  Team *team = *state;

  let (team, &team->clinician, CARPACE_GRANT_HAND, 1);
  fake_folder_put (&team->stick, "not-ours.bundle", "x", 1);
  for (int day = 1; day <= CARPACE_SHARE_KEPT + 1; day++)
    {
      g_autoptr (GPtrArray) names = NULL;

      team->now_s += 86400;
      assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
      names = fake_folder_names (&team->stick, ".bundle");
      assert_int_equal (names->len, 1 + MIN (day, CARPACE_SHARE_KEPT));
    }
  bundle_name (team, "-hand-000000002"); /* the first is gone, the last is there */
  bundle_name (team, "-hand-000000008");
}

/* ---- who needs a look ---- */

static void
add (Team *team, CarpaceDay day, CarpaceEntry entry)
{
  entry.at = (CarpaceInstant) { .elapsed_ms = (int64_t) day * CARPACE_DAY_MS, .wall_ms = (int64_t) day * CARPACE_DAY_MS + 8 * CARPACE_HOUR_MS };
  carpace_fake_diary_add (team->diary, day, &entry, NULL);
}

static void
add_answer (Team *team, CarpaceDay day)
{
  CarpaceEntry entry;

  carpace_entry_init (&entry, CARPACE_ENTRY_RATING, (CarpaceInstant) { 0 });
  entry.rating.discomfort = 1;
  add (team, day, entry);
}

static void
add_decided (Team *team, CarpaceDay day, CarpaceRule rule, CarpaceFinding finding, bool level_down)
{
  CarpaceEntry entry;

  carpace_entry_init (&entry, CARPACE_ENTRY_DECISION, (CarpaceInstant) { 0 });
  entry.decision.scope = CARPACE_SCOPE_DAY;
  entry.decision.rule = rule;
  entry.decision.finding = finding;
  entry.decision.level_down = level_down;
  add (team, day, entry);
}

static void
add_cautioned (Team *team, CarpaceDay day, CarpaceCautionWhat what)
{
  CarpaceEntry entry;

  carpace_entry_init (&entry, CARPACE_ENTRY_CAUTION, (CarpaceInstant) { 0 });
  entry.caution.what = what;
  add (team, day, entry);
}

static void two_cuts (Team *team, int apart) { add_decided (team, TODAY - apart, CARPACE_RULE_CUT, CARPACE_FINDING_STIFFER, false); add_decided (team, TODAY, CARPACE_RULE_CUT, CARPACE_FINDING_STIFFER, false); }
static void one_cut (Team *team, int apart) { add_decided (team, TODAY, CARPACE_RULE_CUT, CARPACE_FINDING_STIFFER, false); add_decided (team, TODAY, CARPACE_RULE_CUT, CARPACE_FINDING_STIFFER, false); }
static void two_levels (Team *team, int apart) { add_decided (team, TODAY - apart, CARPACE_RULE_KEEP, CARPACE_FINDING_NONE, true); add_decided (team, TODAY, CARPACE_RULE_KEEP, CARPACE_FINDING_NONE, true); }
static void rising (Team *team, int apart) { add_decided (team, TODAY - apart, CARPACE_RULE_KEEP_WEEK, CARPACE_FINDING_TWO_WEEKS_RISING, false); }
static void one_week (Team *team, int apart) { add_decided (team, TODAY - apart, CARPACE_RULE_KEEP_WEEK, CARPACE_FINDING_WEEK_RISING, false); }
static void cautioned (Team *team, int apart) { add_cautioned (team, TODAY - apart, CARPACE_CAUTION_OPENED); }
static void closed (Team *team, int apart) { add_cautioned (team, TODAY - apart, CARPACE_CAUTION_OPENED); add_cautioned (team, TODAY, CARPACE_CAUTION_CLOSED); }
static void nothing (Team *team, int apart) { }

static void
reasons_of_the_hand (void **state)
{
  static const struct { const char *what; void (*happens) (Team *, int); int apart, answered_ago; uint32_t looks; } rows[] = {
    { "nothing", nothing, 0, 0, 0 },
    { "answered six days ago", nothing, 0, 6, 0 },
    { "answered seven days ago", nothing, 0, 7, 1u << CARPACE_LOOK_SILENT },
    { "cut today and six days ago", two_cuts, 6, 0, 1u << CARPACE_LOOK_CUT_TWICE },
    { "cut today and seven days ago", two_cuts, 7, 0, 0 },
    { "cut twice on one day", one_cut, 0, 0, 0 },
    { "level down today and 27 days ago", two_levels, 27, 0, 1u << CARPACE_LOOK_LEVEL_DOWN },
    { "level down today and 28 days ago", two_levels, 28, 0, 0 },
    { "two weeks rising, six days ago", rising, 6, 0, 1u << CARPACE_LOOK_TWO_RISING },
    { "two weeks rising, seven days ago", rising, 7, 0, 0 },
    { "one week rising", one_week, 0, 0, 0 },
    { "caution open", cautioned, 40, 0, 1u << CARPACE_LOOK_CAUTION },
    { "caution closed", closed, 40, 0, 0 },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      void *own;
      Team *team;
      CarpaceRosterRow row;

      set_up (&own);
      team = own;
      carpace_fake_diary_free (team->diary);
      team->diary = carpace_fake_diary_new ();
      team->port = carpace_fake_diary_port (team->diary);
      if (rows[i].answered_ago > 0)
        add_answer (team, TODAY - rows[i].answered_ago);
      rows[i].happens (team, rows[i].apart);
      if (rows[i].answered_ago == 0)
        add_answer (team, TODAY);
      let (team, &team->clinician, CARPACE_GRANT_HAND, 1);
      assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
      assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
      row = row_of (team, &team->clinician, NULL, 0);
      if (row.looks != rows[i].looks)
        fail_msg ("%s: %x", rows[i].what, (unsigned) row.looks);
      tear_down (&own);
    }
}

static void
reasons_of_the_load (void **state)
{
  Team *team = *state;
  CarpaceRosterGiven given[] = {
    { .plan = carpace_team_hash ("plan", 4), .made_s = NOW - 1000 },
    { .player = team->player.card.sign, .plan = carpace_team_hash ("own", 3), .made_s = NOW - 2000 },
  };

  let (team, &team->coach, CARPACE_GRANT_LOAD, 1);
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  assert_int_equal (gather (team, &team->coach), CARPACE_TEAM_FINE);
  assert_int_equal (row_of (team, &team->coach, given, 0).looks, 0);
  assert_int_equal (row_of (team, &team->coach, given, 1).looks, 0); /* that one was given to anybody, and is in use */
  assert_int_equal (row_of (team, &team->coach, given, 2).looks, 1u << CARPACE_LOOK_NOT_IN_FORCE);
  given[1].made_s = NOW + 26 * 3600; /* as far as clocks are apart */
  assert_int_equal (row_of (team, &team->coach, given, 2).looks, 1u << CARPACE_LOOK_NOT_IN_FORCE);
  given[1].made_s++; /* given by a clock that was ahead: it would be the last for as long */
  assert_int_equal (row_of (team, &team->coach, given, 2).looks, 0);
  given[1].made_s = NOW - 2000;
  given[1].player = team->clinician.card.sign; /* that was somebody else's */
  assert_int_equal (row_of (team, &team->coach, given, 2).looks, 0);
  team->now_s = NOW + CARPACE_LOOK_MISSING_S - 1;
  assert_int_equal (row_of (team, &team->coach, given, 0).looks, 0);
  team->now_s = NOW + CARPACE_LOOK_MISSING_S;
  assert_int_equal (row_of (team, &team->coach, given, 0).looks, 1u << CARPACE_LOOK_MISSING);
}

/* A file of the store that cannot be written: what was taken before stays, nothing is half there. */
static void
a_store_that_fails_is_told (void **state)
{
  Team *team = *state;

  let (team, &team->clinician, CARPACE_GRANT_HAND, 1);
  assert_int_equal (share (team, NULL), CARPACE_TEAM_FINE);
  team->clinician.store.end (team->clinician.store.self, true); /* no transaction: no harm */
  assert_true (team->clinician.store.begin (team->clinician.store.self)); /* somebody else's */
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FAILED);
  team->clinician.store.end (team->clinician.store.self, false);
  assert_int_equal (gather (team, &team->clinician), CARPACE_TEAM_FINE);
  assert_int_equal (team->gathered.taken, 1);
}

int
main (void)
{
#define TEST(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    TEST (the_coach_sees_load_and_the_clinician_the_hand),
    TEST (a_load_bundle_has_only_weeks_that_are_over),
    TEST (weeks_are_the_sums_of_their_days),
    TEST (each_entry_is_taken_once),
    TEST (what_is_not_granted_is_not_sealed),
    TEST (a_withdrawal_bites_at_once),
    TEST (an_older_grant_is_not_put_back),
    TEST (under_age_a_guardian_signs_too),
    TEST (a_guardian_signs_what_the_player_granted),
    TEST (an_erasure_leaves_when_and_that),
    TEST (bad_bundles_are_refused_by_name_and_harm_nothing),
    TEST (replayed_and_reordered_bundles_show),
    TEST (a_gap_is_counted),
    TEST (a_clock_a_year_off_is_told),
    TEST (what_was_made_for_others_is_passed_by),
    TEST (what_is_sealed_to_others_is_told_once),
    TEST (what_cannot_be_left_goes_with_the_next),
    TEST (a_bundle_that_was_made_is_not_lost),
    TEST (old_bundles_are_taken_away),
    TEST (reasons_of_the_hand),
    TEST (reasons_of_the_load),
    TEST (a_store_that_fails_is_told),
  };
  return carpace_team_ready () ? cmocka_run_group_tests (tests, NULL, NULL) : 1;
}
