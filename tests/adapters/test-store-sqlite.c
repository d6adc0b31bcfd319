/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is kept is read back: records, sums, notes, corrections, and what to go on from. */
#include "carpace/event-kinds.h"
#include "../core/random-fields.h"
#include "store-samples.h"

#include <sys/stat.h>

#define MINUTE CARPACE_MINUTE_MS

typedef struct
{
  char *folder, *path;
  Told told;
  CarpaceDiaryStore *store;
  CarpaceStore port;
} Fixture;

static int
set_up (void **state)
{
  Fixture *f = g_new0 (Fixture, 1);

  f->folder = folder_new ();
  f->path = g_build_filename (f->folder, "carpace", "diary.sqlite", NULL);
  f->store = carpace_store_open (f->path, CARPACE_STORE_WRITING, note_told, &f->told);
  assert_non_null (f->store);
  f->port = carpace_store_port (f->store);
  *state = f;
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *f = *state;

  carpace_store_close (f->store, true);
  folder_free (f->folder);
  g_free (f->path);
  g_free (f);
  return 0;
}

static void
open_again (Fixture *f)
{
  carpace_store_close (f->store, true);
  f->store = carpace_store_open (f->path, CARPACE_STORE_WRITING, note_told, &f->told);
  f->port = carpace_store_port (f->store);
}

static void
nobody_else_may_look (void **state)
{
  Fixture *f = *state;
  const char *const beside[] = { "", "-wal", "-shm", ".lock" };
  char *folder = g_path_get_dirname (f->path);
  struct stat is;

  keep_evening (&f->port, SAMPLE_DAY, 0, 1, 2);
  assert_int_equal (stat (folder, &is), 0);
  assert_int_equal (is.st_mode & 0777, 0700);
  for (size_t i = 0; i < G_N_ELEMENTS (beside); i++)
    {
      char *path = g_strconcat (f->path, beside[i], NULL);

      assert_int_equal (stat (path, &is), 0);
      assert_int_equal (is.st_mode & 0777, 0600);
      g_free (path);
    }
  g_free (folder);
}

/* An entry of each kind, every field at a value that it has nowhere else. */
static void
each_field_comes_back (void **state)
{
  Fixture *f = *state;
  CarpaceEntry kept[2 * CARPACE_N_ENTRIES];
  Seen seen;

  for (int i = 0; i < 2 * CARPACE_N_ENTRIES; i++)
    {
      int32_t n;
      const CarpaceField *field = carpace_entry_fields (i / 2, &n);

      kept[i] = entry_of (i / 2, moment (i));
      for (int32_t j = 0; i % 2 == 1 && j < n; j++)
        {
          int64_t value = field[j].type == CARPACE_FIELD_DAY ? SAMPLE_DAY : field[j].least + 3 + j;

          assert_true (carpace_field_set (&field[j], &kept[i], MIN (value, field[j].most)));
        }
      assert_true (keep (&f->port, CARPACE_EVENT_DEADLINE, &kept[i]));
    }
  open_again (f);
  seen = see (f->store);
  assert_int_equal (seen.records->len, G_N_ELEMENTS (kept));
  for (guint i = 0; i < seen.records->len; i++)
    if (!carpace_entry_equal (&g_array_index (seen.records, CarpaceRecord, i).entry, &kept[i]))
      fail_msg ("record %u, a %s, is not what was kept", i, carpace_name (CARPACE_WORDS_ENTRY, kept[i].kind));
  seen_free (&seen);
}

/* Events of each kind, with any values that there can be. */
static void
each_event_comes_back (void **state)
{
  enum { ROUNDS = 20 * CARPACE_N_EVENTS };
  static CarpaceEvent kept[ROUNDS];
  Fixture *f = *state;
  Random random = { 20 };
  CarpaceResume resume;

  for (int i = 0; i < ROUNDS; i++)
    {
      int32_t n;
      const CarpaceField *field = carpace_event_fields (i % CARPACE_N_EVENTS, &n);

      carpace_event_init (&kept[i], i % CARPACE_N_EVENTS);
      random_fields (&random, field, n, &kept[i]);
      f->port.begin (f->port.self);
      f->port.event (f->port.self, &kept[i], moment (i));
      assert_true (f->port.commit (f->port.self));
    }
  open_again (f);
  carpace_store_resume (f->store, &resume);
  assert_int_equal (resume.n_events, ROUNDS);
  for (int i = 0; i < ROUNDS; i++)
    if (!carpace_event_equal (&resume.event[i], &kept[i]))
      fail_msg ("event %d, %s, is not what was told", i, carpace_name (CARPACE_WORDS_EVENT, kept[i].kind));
  carpace_store_resume_clear (&resume);
}

static void
a_day_is_summed_up (void **state)
{
  Fixture *f = *state;
  CarpaceEntry match = block_of (moment (120 * MINUTE), CARPACE_BLOCK_ENDED, 0, 40 * MINUTE);
  CarpaceEntry overrun = entry_of (CARPACE_ENTRY_OVERRUN, moment (107 * MINUTE));
  CarpaceDaySum sum;
  Seen seen;

  keep_evening (&f->port, SAMPLE_DAY, 0, 0, 3);
  overrun.overrun.ms = 2 * MINUTE;
  match.block.match = true;
  keep (&f->port, CARPACE_EVENT_DEADLINE, &overrun);
  keep (&f->port, CARPACE_EVENT_END, &match);
  carpace_store_add_other (f->store, SAMPLE_DAY, 50 * MINUTE);
  carpace_store_add_other (f->store, SAMPLE_DAY, 10 * MINUTE);
  carpace_store_add_other (f->store, SAMPLE_DAY + 1, 5 * MINUTE);
  seen = see (f->store);
  assert_int_equal (seen.sums->len, 2);
  sum = g_array_index (seen.sums, CarpaceDaySum, 0);
  assert_int_equal (sum.day, SAMPLE_DAY);
  assert_int_equal (sum.dose_ms, 60 * MINUTE);
  assert_int_equal (sum.done_ms, 56 * MINUTE);
  assert_int_equal (sum.match_ms, 40 * MINUTE);
  assert_int_equal (sum.other_ms, 60 * MINUTE);
  assert_int_equal (sum.blocks, 2);
  assert_int_equal (sum.offered, 2);
  assert_int_equal (sum.taken, 1);
  assert_int_equal (sum.declined, 1);
  assert_int_equal (sum.n_ratings, 2);
  assert_int_equal (sum.zeros, 1);
  assert_int_equal (sum.rating_sum, 3);
  assert_int_equal (sum.highest, 3);
  assert_int_equal (sum.unanswered, 0);
  assert_true (sum.morning_known && sum.morning.waking == 1 && sum.morning.other_load && sum.morning.now == -1);
  assert_false (sum.no_practice || sum.caution);
  sum = g_array_index (seen.sums, CarpaceDaySum, 1);
  assert_int_equal (sum.other_ms, 5 * MINUTE);
  assert_int_equal (sum.dose_ms, 0);
  assert_int_equal (sum.highest, -1);
  seen_free (&seen);
}

/* A morning told in the evening that stops the rest of the day: what was practised was asked for. */
static void
a_stop_after_practice_leaves_what_was_asked (void **state)
{
  Fixture *f = *state;
  CarpaceEntry stop = entry_of (CARPACE_ENTRY_DECISION, moment (130 * MINUTE));
  Seen seen;

  keep_evening (&f->port, SAMPLE_DAY, 0, 0, 3);
  stop.decision.scope = CARPACE_SCOPE_DAY;
  stop.decision.rule = CARPACE_RULE_CUT;
  stop.decision.before_ms = 60 * MINUTE;
  stop.decision.no_practice = true;
  keep (&f->port, CARPACE_EVENT_MORNING, &stop);
  seen = see (f->store);
  assert_int_equal (g_array_index (seen.sums, CarpaceDaySum, 0).dose_ms, 60 * MINUTE);
  assert_true (g_array_index (seen.sums, CarpaceDaySum, 0).no_practice);
  seen_free (&seen);
}

/* Ratings of one evening, as they come in, and what they sum up to. */
static const struct
{
  const char *name;
  struct { int32_t block, discomfort, corrects; bool late; int64_t after_s; } rating[4]; /* after_s: since the row before */
  int n, n_ratings, unanswered, zeros, sum, highest;
} rating_rows[] = {
  { .name = "two blocks", .rating = { { 1, 2, -1 }, { 2, 4, -1 } }, .n = 2, .n_ratings = 2, .sum = 6, .highest = 4 },
  { .name = "silence is no zero", .rating = { { 1, -1, -1 } }, .n = 1, .unanswered = 1, .highest = -1 },
  { .name = "a late answer ends the silence", .rating = { { 1, -1, -1 }, { 1, 3, -1, true } }, .n = 2, .n_ratings = 1,
    .sum = 3, .highest = 3 },
  { .name = "a correction counts once", .rating = { { 1, 7, -1 }, { 1, 1, 7 } }, .n = 2, .n_ratings = 1, .sum = 1,
    .highest = 1 },
  { .name = "corrected twice", .rating = { { 1, 7, -1 }, { 1, 1, 7 }, { 1, 0, 1 } }, .n = 3, .n_ratings = 1, .zeros = 1,
    .highest = 0 },
  { .name = "the block before is corrected", .rating = { { 1, 5, -1 }, { 2, 1, -1 }, { 1, 2, 5 } }, .n = 3,
    .n_ratings = 2, .sum = 3, .highest = 2 },
  { .name = "the first of two matches is corrected", .rating = { { 0, 4, -1 }, { 0, 2, -1 }, { 0, 1, 4 } }, .n = 3,
    .n_ratings = 2, .sum = 3, .highest = 2 },
  { .name = "higher, later on", .rating = { { 1, 2, -1 }, { 1, 4, 2, false, 300 } }, .n = 2, .n_ratings = 1, .sum = 4,
    .highest = 4 },
  { .name = "lower within the minute", .rating = { { 1, 4, -1 }, { 1, 2, 4, false, 60 } }, .n = 2, .n_ratings = 1, .sum = 2,
    .highest = 2 },
  { .name = "lower, later on: beside the old", .rating = { { 1, 4, -1 }, { 1, 2, 4, false, 61 } }, .n = 2, .n_ratings = 1,
    .sum = 4, .highest = 4 },
  { .name = "and once more", .rating = { { 1, 4, -1 }, { 1, 2, 4, false, 61 }, { 1, 5, 4, false, 10 } }, .n = 3,
    .n_ratings = 1, .sum = 5, .highest = 5 },
  { .name = "by hand, much later", .rating = { { 1, 4, -1 }, { 1, 2, 4, false, 86400 } }, .n = 2, .n_ratings = 1, .sum = 2,
    .highest = 2 },
  { .name = "an answer, then silence", .rating = { { 1, 0, -1 }, { 2, -1, -1 } }, .n = 2, .n_ratings = 1, .zeros = 1,
    .unanswered = 1, .highest = 0 },
};

static void
ratings_are_summed_up (void **state)
{
  Fixture *f = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (rating_rows); i++)
    {
      CarpaceDay day = SAMPLE_DAY + (CarpaceDay) i;
      int64_t from = (int64_t) i * CARPACE_DAY_MS, at = from;
      CarpaceDaySum sum;
      Seen seen;

      keep_opening (&f->port, day, moment (from), 60 * MINUTE);
      for (int j = 0; j < rating_rows[i].n; j++)
        {
          CarpaceEntry rating
            = rating_of (moment (at += 1000 * rating_rows[i].rating[j].after_s), rating_rows[i].rating[j].block,
                         rating_rows[i].rating[j].discomfort);

          rating.rating.corrects = rating_rows[i].rating[j].corrects;
          rating.rating.late = rating_rows[i].rating[j].late;
          keep (&f->port, CARPACE_EVENT_RATE, &rating);
        }
      seen = see (f->store);
      sum = g_array_index (seen.sums, CarpaceDaySum, i);
      if (sum.n_ratings != rating_rows[i].n_ratings || sum.unanswered != rating_rows[i].unanswered
          || sum.zeros != rating_rows[i].zeros || sum.rating_sum != rating_rows[i].sum
          || sum.highest != rating_rows[i].highest)
        fail_msg ("%s: %d answered, %d not, %d zeros, sum %d, highest %d", rating_rows[i].name, sum.n_ratings,
                  sum.unanswered, sum.zeros, sum.rating_sum, sum.highest);
      seen_free (&seen);
    }
}

static bool
find_rating (void *user, const CarpaceRecord *record)
{
  *(int64_t *) user = record->id;
  return false;
}

static void
a_wrong_tap_is_corrected_and_kept (void **state)
{
  Fixture *f = *state;
  CarpaceDiaryKeeper keeper = carpace_store_keeper (f->store);
  CarpaceDiary diary = carpace_store_diary (f->store);
  const CarpaceEntry *old, *new;
  int64_t id = 0;
  Seen seen;

  keep_evening (&f->port, SAMPLE_DAY, 0, 8, 1);
  assert_true (diary.records_of (diary.self, SAMPLE_DAY, SAMPLE_DAY, CARPACE_KIND (CARPACE_ENTRY_RATING), find_rating,
                                 &id));
  assert_true (keeper.correct (keeper.self, id, 2, CARPACE_SITE_FINGERS, moment (CARPACE_DAY_MS)));
  assert_false (keeper.correct (keeper.self, id, 11, CARPACE_SITE_NONE, moment (CARPACE_DAY_MS)));
  assert_false (keeper.correct (keeper.self, id - 1, 2, CARPACE_SITE_NONE, moment (CARPACE_DAY_MS)));
  assert_false (keeper.correct (keeper.self, 100000, 2, CARPACE_SITE_NONE, moment (CARPACE_DAY_MS)));
  seen = see (f->store);
  assert_int_equal (g_array_index (seen.sums, CarpaceDaySum, 0).highest, 2);
  assert_int_equal (g_array_index (seen.sums, CarpaceDaySum, 0).n_ratings, 2);
  old = &g_array_index (seen.records, CarpaceRecord, id - 1).entry;
  new = &g_array_index (seen.records, CarpaceRecord, seen.records->len - 1).entry;
  assert_int_equal (old->rating.discomfort, 8);
  assert_int_equal (new->rating.discomfort, 2);
  assert_int_equal (new->rating.corrects, 8);
  assert_int_equal (new->rating.site, CARPACE_SITE_FINGERS);
  seen_free (&seen);
  /* again, from the record that was wrong at first: what stands by now is corrected */
  assert_true (keeper.correct (keeper.self, id, 3, CARPACE_SITE_NONE, moment (2 * CARPACE_DAY_MS)));
  seen = see (f->store);
  assert_int_equal (g_array_index (seen.sums, CarpaceDaySum, 0).rating_sum, 4);
  assert_int_equal (g_array_index (seen.sums, CarpaceDaySum, 0).n_ratings, 2);
  seen_free (&seen);
}

static void
silence_is_not_corrected (void **state)
{
  Fixture *f = *state;
  CarpaceDiaryKeeper keeper = carpace_store_keeper (f->store);
  CarpaceDiary diary = carpace_store_diary (f->store);
  int64_t id = 0;

  keep_evening (&f->port, SAMPLE_DAY, 0, -1, 1);
  assert_true (diary.records_of (diary.self, SAMPLE_DAY, SAMPLE_DAY, CARPACE_KIND (CARPACE_ENTRY_RATING), find_rating,
                                 &id));
  assert_false (keeper.correct (keeper.self, id, 2, CARPACE_SITE_NONE, moment (CARPACE_DAY_MS)));
}

static void
notes_stay_with_their_records (void **state)
{
  Fixture *f = *state;
  CarpaceDiaryKeeper keeper = carpace_store_keeper (f->store);
  g_autofree char *too_long = g_strnfill (CARPACE_DIARY_NOTE_CHARACTERS + 1, 'x');
  Seen seen;

  keep_evening (&f->port, SAMPLE_DAY, 0, 1, 1);
  assert_true (keeper.note_record (keeper.self, 3, "slept badly; \"quoted\"\nsecond line"));
  assert_true (keeper.note_day (keeper.self, SAMPLE_DAY, "a long day at the desk"));
  assert_false (keeper.note_record (keeper.self, 3, too_long));
  assert_false (keeper.note_record (keeper.self, 100000, "of nothing"));
  assert_false (keeper.note_day (keeper.self, SAMPLE_DAY, "\xff"));
  open_again (f);
  keeper = carpace_store_keeper (f->store);
  seen = see (f->store);
  assert_string_equal (g_array_index (seen.records, CarpaceRecord, 2).note, "slept badly; \"quoted\"\nsecond line");
  assert_null (g_array_index (seen.records, CarpaceRecord, 1).note);
  assert_string_equal (g_array_index (seen.sums, CarpaceDaySum, 0).note, "a long day at the desk");
  seen_free (&seen);
  assert_true (keeper.note_record (keeper.self, 3, ""));
  assert_true (keeper.note_day (keeper.self, SAMPLE_DAY, NULL));
  seen = see (f->store);
  assert_null (g_array_index (seen.records, CarpaceRecord, 2).note);
  assert_null (g_array_index (seen.sums, CarpaceDaySum, 0).note);
  seen_free (&seen);
}

static void
a_session_goes_on_from_its_day (void **state)
{
  Fixture *f = *state;
  CarpaceEntry still = entry_of (CARPACE_ENTRY_STATE, moment (CARPACE_DAY_MS + 6 * MINUTE));
  CarpaceEvent rate = { .kind = CARPACE_EVENT_RATE, .rate = { 4, CARPACE_SITE_ELBOW } };
  CarpaceEvent caution = { .kind = CARPACE_EVENT_CAUTION, .caution = { CARPACE_CAUTION_SIGNS, 5 } };
  CarpaceEvent input = { .kind = CARPACE_EVENT_INPUT, .fact = { .since_ms = 77 } };
  CarpaceResume resume;

  carpace_store_resume (f->store, &resume);
  assert_false (resume.known);
  carpace_store_resume_clear (&resume);
  carpace_store_start_run (f->store, "boot-a", 1000, moment (0));
  keep_evening (&f->port, SAMPLE_DAY, 0, 1, 1);
  keep_evening (&f->port, SAMPLE_DAY + 1, CARPACE_DAY_MS, 1, 1);
  keep_opening (&f->port, SAMPLE_DAY + 2, moment (2 * CARPACE_DAY_MS), 50 * MINUTE);
  f->port.begin (f->port.self);
  f->port.event (f->port.self, &rate, moment (2 * CARPACE_DAY_MS + 1));
  f->port.event (f->port.self, &caution, moment (2 * CARPACE_DAY_MS + 2));
  f->port.event (f->port.self, &input, moment (2 * CARPACE_DAY_MS + 3));
  f->port.entry (f->port.self, &still);
  assert_true (f->port.commit (f->port.self));
  carpace_store_alive (f->store, moment (2 * CARPACE_DAY_MS + 9 * MINUTE));

  carpace_store_close (f->store, false);
  f->store = carpace_store_open (f->path, CARPACE_STORE_WRITING, note_told, &f->told);
  carpace_store_resume (f->store, &resume);
  assert_true (resume.known);
  assert_false (resume.ended_well);
  assert_int_equal (resume.history.dose_ms, 50 * MINUTE);
  assert_int_equal (resume.n_events, 4);
  assert_int_equal (resume.event[0].kind, CARPACE_EVENT_MORNING);
  assert_int_equal (resume.event[0].morning.waking, 1);
  assert_int_equal (resume.event[0].morning.now, -1);
  assert_true (resume.event[0].morning.other_load);
  assert_int_equal (resume.event[1].rate.discomfort, 4);
  assert_int_equal (resume.event[1].rate.site, CARPACE_SITE_ELBOW);
  assert_int_equal (resume.event[2].caution.answer, CARPACE_CAUTION_SIGNS);
  assert_int_equal (resume.event[2].caution.signs, 5);
  assert_int_equal (resume.event[3].fact.since_ms, 77);
  assert_int_equal (resume.last.elapsed_ms, moment (2 * CARPACE_DAY_MS + 3).elapsed_ms);
  assert_int_equal (resume.alive.elapsed_ms, moment (2 * CARPACE_DAY_MS + 9 * MINUTE).elapsed_ms);
  carpace_store_resume_clear (&resume);
  {
    char boot_id[37];
    int64_t base_ms;

    assert_true (carpace_store_last_clock (f->store, &base_ms, boot_id, sizeof boot_id));
    assert_string_equal (boot_id, "boot-a");
    assert_int_equal (base_ms, 1000);
  }
  carpace_store_start_run (f->store, "boot-b", 2000, moment (3 * CARPACE_DAY_MS));
  carpace_store_close (f->store, true);
  f->store = carpace_store_open (f->path, CARPACE_STORE_WRITING, note_told, &f->told);
  carpace_store_resume (f->store, &resume);
  assert_true (resume.ended_well);
  carpace_store_resume_clear (&resume);
  assert_int_equal (f->told.n, 0);
}

/* What a step tells of yesterday's practice stays with yesterday. */
static void
a_step_over_the_turn_is_divided (void **state)
{
  Fixture *f = *state;
  CarpaceEntry silent = rating_of (moment (CARPACE_DAY_MS), 2, -1);
  CarpaceEntry morning = entry_of (CARPACE_ENTRY_MORNING, moment (CARPACE_DAY_MS));
  CarpaceEntry opened = entry_of (CARPACE_ENTRY_DAY, moment (CARPACE_DAY_MS));
  CarpaceEntry started = block_of (moment (CARPACE_DAY_MS), CARPACE_BLOCK_STARTED, 1, 0);
  CarpaceEntry early = entry_of (CARPACE_ENTRY_STATE, moment (-1));
  CarpaceEvent event = { .kind = CARPACE_EVENT_START };
  static CarpaceHistory history;
  const CarpaceDay days[] = { SAMPLE_DAY, SAMPLE_DAY + 1, SAMPLE_DAY + 1, SAMPLE_DAY + 1 };
  Seen seen;
  guint first;

  carpace_history_init (&history);
  keep (&f->port, CARPACE_EVENT_OPEN, &early);
  keep_opening (&f->port, SAMPLE_DAY, moment (0), 60 * MINUTE);
  opened.day.day = SAMPLE_DAY + 1;
  f->port.begin (f->port.self);
  f->port.event (f->port.self, &event, moment (CARPACE_DAY_MS));
  f->port.entry (f->port.self, &silent);
  f->port.entry (f->port.self, &morning);
  f->port.entry (f->port.self, &opened);
  f->port.entry (f->port.self, &started);
  f->port.opening (f->port.self, SAMPLE_DAY + 1, moment (CARPACE_DAY_MS), &history);
  assert_true (f->port.commit (f->port.self));
  seen = see (f->store);
  assert_int_equal (g_array_index (seen.records, CarpaceRecord, 0).day, SAMPLE_DAY);
  first = 0;
  while (g_array_index (seen.records, CarpaceRecord, first).entry.kind != CARPACE_ENTRY_RATING)
    first++;
  for (guint i = 0; i < 4; i++)
    assert_int_equal (g_array_index (seen.records, CarpaceRecord, first + i).day, days[i]);
  seen_free (&seen);
}

/* The four traps of the wall clock: the practice day, the sums and the order do
 * not follow it, and each record tells what the clock said. */
static void
the_wall_clock_only_labels (void **state)
{
  Fixture *f = *state;
  const struct { const char *name; int64_t wall_by; int32_t offset_s; const char *at; } rows[] = {
    { .name = "as it was", .offset_s = 3600, .at = "2027-03-01T18:01:00.000+01:00" },
    { .name = "another zone", .offset_s = -18000, .at = "2027-03-01T12:02:00.000-05:00" },
    { .name = "summer time begins", .offset_s = 7200, .at = "2027-03-01T19:03:00.000+02:00" },
    { .name = "and ends", .offset_s = 3600, .at = "2027-03-01T18:04:00.000+01:00" },
    { .name = "the clock is set back", .wall_by = -90 * MINUTE, .offset_s = 3600, .at = "2027-03-01T16:35:00.000+01:00" },
    { .name = "over midnight, before the turn", .wall_by = 8 * 60 * MINUTE, .offset_s = 3600,
      .at = "2027-03-02T02:06:00.000+01:00" },
    { .name = "over the turn, the session is going on", .wall_by = 11 * 60 * MINUTE, .offset_s = 3600,
      .at = "2027-03-02T05:07:00.000+01:00" },
  };
  CarpaceDaySum sum;
  Seen seen;

  keep_opening (&f->port, SAMPLE_DAY, moment (0), 60 * MINUTE);
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceEntry ended = block_of (moment ((int64_t) (i + 1) * MINUTE), CARPACE_BLOCK_ENDED, (int32_t) i + 1, MINUTE);

      ended.at.wall_ms += rows[i].wall_by;
      ended.at.offset_s = rows[i].offset_s;
      keep (&f->port, CARPACE_EVENT_END, &ended);
    }
  seen = see (f->store);
  assert_int_equal (seen.sums->len, 1);
  sum = g_array_index (seen.sums, CarpaceDaySum, 0);
  assert_int_equal (sum.blocks, G_N_ELEMENTS (rows));
  assert_int_equal (sum.done_ms, (int64_t) G_N_ELEMENTS (rows) * MINUTE);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const CarpaceRecord *record = &g_array_index (seen.records, CarpaceRecord, 3 + i);
      char text[CARPACE_INSTANT_BYTES];

      carpace_instant_write (record->entry.at, text);
      if (strcmp (text, rows[i].at) != 0 || record->day != SAMPLE_DAY
          || record->entry.block.number != (int32_t) i + 1)
        fail_msg ("%s: %s on day %d", rows[i].name, text, record->day);
    }
  seen_free (&seen);
}

static void
one_program_writes (void **state)
{
  Fixture *f = *state;
  Told told = { 0 };
  CarpaceDiaryStore *second = carpace_store_open (f->path, CARPACE_STORE_WRITING, note_told, &told);
  CarpaceDiaryStore *reader;

  assert_null (second);
  assert_int_equal (told.n, 1);
  assert_int_equal (told.last, CARPACE_STORE_IN_USE);
  assert_non_null (strstr (told.message, f->path));
  keep_evening (&f->port, SAMPLE_DAY, 0, 1, 1);
  reader = carpace_store_open (f->path, CARPACE_STORE_READING, note_told, &told);
  assert_non_null (reader);
  assert_same_diary (f->store, reader);
  carpace_store_close (reader, false);
}

static bool
two_at_most (void *user, const CarpaceRecord *record)
{
  return ++*(int *) user < 2;
}

static void
a_visitor_has_enough_or_asks_for_more (void **state)
{
  Fixture *f = *state;
  CarpaceDiary diary = carpace_store_diary (f->store);
  int n = 0;

  keep_evening (&f->port, SAMPLE_DAY, 0, 1, 1);
  assert_true (diary.records (diary.self, SAMPLE_DAY, SAMPLE_DAY, two_at_most, &n));
  assert_int_equal (n, 2);
  n = 0;
  assert_true (diary.records (diary.self, SAMPLE_DAY + 1, SAMPLE_DAY + 9, two_at_most, &n));
  assert_int_equal (n, 0);
}

int
main (void)
{
#define TEST(name) cmocka_unit_test_setup_teardown (name, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    TEST (nobody_else_may_look),
    TEST (each_field_comes_back),
    TEST (each_event_comes_back),
    TEST (a_day_is_summed_up),
    TEST (a_stop_after_practice_leaves_what_was_asked),
    TEST (ratings_are_summed_up),
    TEST (a_wrong_tap_is_corrected_and_kept),
    TEST (silence_is_not_corrected),
    TEST (notes_stay_with_their_records),
    TEST (a_session_goes_on_from_its_day),
    TEST (a_step_over_the_turn_is_divided),
    TEST (the_wall_clock_only_labels),
    TEST (one_program_writes),
    TEST (a_visitor_has_enough_or_asks_for_more),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
