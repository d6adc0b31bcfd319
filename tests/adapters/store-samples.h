/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-samples.h: a folder of its own for a test, and evenings to keep in a diary. */
#ifndef CARPACE_TESTS_STORE_SAMPLES_H
#define CARPACE_TESTS_STORE_SAMPLES_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <glib.h>
#include <glib/gstdio.h>

#include "carpace/entry-fields.h"
#include "store-sqlite.h"

/** What the store told. */
typedef struct
{
  int n;
  CarpaceStoreTrouble last;
  char message[1024];
} Told;

static inline void
note_told (void *user, CarpaceStoreTrouble trouble, const char *message)
{
  Told *told = user;

  told->n++;
  told->last = trouble;
  g_strlcpy (told->message, message, sizeof told->message);
}

static inline char *
folder_new (void)
{
  char *folder = g_dir_make_tmp ("carpace-test-XXXXXX", NULL);

  assert_non_null (folder);
  return folder;
}

static inline void
folder_free (char *folder)
{
  GDir *files = g_dir_open (folder, 0, NULL);
  const char *name;

  while (files != NULL && (name = g_dir_read_name (files)) != NULL)
    {
      char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR) && !g_file_test (path, G_FILE_TEST_IS_SYMLINK))
        folder_free (path);
      else
        {
          g_unlink (path);
          g_free (path);
        }
    }
  if (files != NULL)
    g_dir_close (files);
  g_rmdir (folder);
  g_free (folder);
}

/** @hours after 2027-03-01T18:00+01:00, a Monday's evening; that day is 20878. */
#define SAMPLE_DAY 20878
#define SAMPLE_WALL_MS INT64_C (1803920400000)

static inline CarpaceInstant
moment (int64_t ms)
{
  return (CarpaceInstant) { .elapsed_ms = 5000000 + ms, .wall_ms = SAMPLE_WALL_MS + ms, .offset_s = 3600 };
}

static inline CarpaceEntry
entry_of (CarpaceEntryKind kind, CarpaceInstant at)
{
  CarpaceEntry entry;

  carpace_entry_init (&entry, kind, at);
  return entry;
}

static inline CarpaceEntry
rating_of (CarpaceInstant at, int32_t block, int32_t discomfort)
{
  CarpaceEntry entry = entry_of (CARPACE_ENTRY_RATING, at);

  entry.rating.block = block;
  entry.rating.discomfort = discomfort;
  return entry;
}

static inline CarpaceEntry
block_of (CarpaceInstant at, CarpaceBlockWhat what, int32_t number, int64_t active_ms)
{
  CarpaceEntry entry = entry_of (CARPACE_ENTRY_BLOCK, at);

  entry.block.what = what;
  entry.block.number = number;
  entry.block.limit_ms = 30 * CARPACE_MINUTE_MS;
  entry.block.after_ms = 10 * CARPACE_MINUTE_MS;
  entry.block.rest_ms = 30 * CARPACE_SECOND_MS;
  entry.block.active_ms = active_ms;
  entry.block.runs = 12;
  return entry;
}

static inline CarpaceEntry
cue_of (CarpaceInstant at, CarpaceCue cue, CarpaceCueWhat what)
{
  CarpaceEntry entry = entry_of (CARPACE_ENTRY_CUE, at);

  entry.cue.cue = cue;
  entry.cue.what = what;
  return entry;
}

static inline CarpaceEntry
rest_of (CarpaceInstant at, CarpaceRestWhat what)
{
  CarpaceEntry entry = entry_of (CARPACE_ENTRY_REST, at);

  entry.rest.what = what;
  entry.rest.length_ms = 30 * CARPACE_SECOND_MS;
  entry.rest.asked = true;
  return entry;
}

/** One step: an event and one entry. */
static inline bool
keep (const CarpaceStore *port, CarpaceEventKind kind, const CarpaceEntry *entry)
{
  CarpaceEvent event = { .kind = kind };

  port->begin (port->self);
  port->event (port->self, &event, entry->at);
  port->entry (port->self, entry);
  return port->commit (port->self);
}

/** The step that opens @day with @dose_ms. */
static inline bool
keep_opening (const CarpaceStore *port, CarpaceDay day, CarpaceInstant at, int64_t dose_ms)
{
  CarpaceEvent event = { .kind = CARPACE_EVENT_MORNING,
                         .morning = { .waking = 1, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1, .other_load = true } };
  CarpaceEntry morning = entry_of (CARPACE_ENTRY_MORNING, at), decision = entry_of (CARPACE_ENTRY_DECISION, at),
               opened = entry_of (CARPACE_ENTRY_DAY, at);
  static CarpaceHistory history;

  carpace_history_init (&history);
  history.first_dose_ms = history.dose_ms = history.level_ms = dose_ms;
  morning.morning = event.morning;
  decision.decision.rule = CARPACE_RULE_KEEP;
  decision.decision.scope = CARPACE_SCOPE_DAY;
  decision.decision.before_ms = decision.decision.after_ms = decision.decision.kept_ms = dose_ms;
  decision.decision.level_ms = decision.decision.level_before_ms = decision.decision.first_dose_ms = dose_ms;
  decision.decision.mornings_say = -1;
  opened.day.what = CARPACE_DAY_OPENED;
  opened.day.day = day;
  opened.day.dose_ms = dose_ms;
  port->begin (port->self);
  port->event (port->self, &event, at);
  port->opening (port->self, day, at, &history);
  port->entry (port->self, &morning);
  port->entry (port->self, &decision);
  port->entry (port->self, &opened);
  return port->commit (port->self);
}

/** An evening of two blocks that opens @day at @from: discomfort @first, @second. */
static inline void
keep_evening (const CarpaceStore *port, CarpaceDay day, int64_t from, int32_t first, int32_t second)
{
  const int64_t minute = CARPACE_MINUTE_MS;
  const CarpaceEntry evening[] = {
    block_of (moment (from + minute), CARPACE_BLOCK_STARTED, 1, 0),
    cue_of (moment (from + 11 * minute), CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN),
    rest_of (moment (from + 12 * minute), CARPACE_REST_TAKEN),
    cue_of (moment (from + 22 * minute), CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN),
    cue_of (moment (from + 23 * minute), CARPACE_CUE_MICRO_REST, CARPACE_CUE_WITHDRAWN),
    cue_of (moment (from + 24 * minute), CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN),
    rest_of (moment (from + 25 * minute), CARPACE_REST_DECLINED),
    block_of (moment (from + 33 * minute), CARPACE_BLOCK_ENDED, 1, 30 * minute),
    rating_of (moment (from + 34 * minute), 1, first),
    block_of (moment (from + 80 * minute), CARPACE_BLOCK_STARTED, 2, 0),
    block_of (moment (from + 105 * minute), CARPACE_BLOCK_ENDED, 2, 24 * minute),
    rating_of (moment (from + 106 * minute), 2, second),
  };

  assert_true (keep_opening (port, day, moment (from), 60 * minute));
  for (size_t i = 0; i < G_N_ELEMENTS (evening); i++)
    assert_true (keep (port, CARPACE_EVENT_DEADLINE, &evening[i]));
}

/** Records and sums as they come. */
typedef struct
{
  GArray *records; /* CarpaceRecord, notes copied and leaked to the end of the test */
  GArray *sums;
  GPtrArray *notes;
} Seen;

static inline bool
see_record (void *user, const CarpaceRecord *record)
{
  Seen *seen = user;
  CarpaceRecord copy = *record;

  if (copy.note != NULL)
    {
      copy.note = g_strdup (copy.note);
      g_ptr_array_add (seen->notes, (char *) copy.note);
    }
  g_array_append_val (seen->records, copy);
  return true;
}

static inline bool
see_sum (void *user, const CarpaceDaySum *sum)
{
  Seen *seen = user;
  CarpaceDaySum copy = *sum;

  if (copy.note != NULL)
    {
      copy.note = g_strdup (copy.note);
      g_ptr_array_add (seen->notes, (char *) copy.note);
    }
  g_array_append_val (seen->sums, copy);
  return true;
}

static inline Seen
see (CarpaceDiaryStore *store)
{
  CarpaceDiary diary = carpace_store_diary (store);
  Seen seen = { g_array_new (FALSE, FALSE, sizeof (CarpaceRecord)), g_array_new (FALSE, FALSE, sizeof (CarpaceDaySum)),
                g_ptr_array_new_with_free_func (g_free) };

  assert_true (diary.records (diary.self, INT32_MIN, INT32_MAX, see_record, &seen));
  assert_true (diary.days (diary.self, INT32_MIN, INT32_MAX, see_sum, &seen));
  return seen;
}

static inline void
seen_free (Seen *seen)
{
  g_array_unref (seen->records);
  g_array_unref (seen->sums);
  g_ptr_array_unref (seen->notes);
}

/** Whether two diaries tell the same; ids are their own. */
static inline void
assert_same_diary (CarpaceDiaryStore *a, CarpaceDiaryStore *b)
{
  Seen left = see (a), right = see (b);

  assert_int_equal (left.records->len, right.records->len);
  assert_int_equal (left.sums->len, right.sums->len);
  for (guint i = 0; i < left.records->len; i++)
    {
      const CarpaceRecord *l = &g_array_index (left.records, CarpaceRecord, i);
      const CarpaceRecord *r = &g_array_index (right.records, CarpaceRecord, i);

      assert_int_equal (l->day, r->day);
      assert_true (carpace_entry_equal (&l->entry, &r->entry));
      assert_int_equal (g_strcmp0 (l->note, r->note), 0);
    }
  for (guint i = 0; i < left.sums->len; i++)
    {
      CarpaceDaySum l = g_array_index (left.sums, CarpaceDaySum, i), r = g_array_index (right.sums, CarpaceDaySum, i);

      assert_int_equal (g_strcmp0 (l.note, r.note), 0);
      assert_int_equal (l.day, r.day);
      assert_int_equal (l.dose_ms, r.dose_ms);
      assert_int_equal (l.done_ms, r.done_ms);
      assert_int_equal (l.other_ms, r.other_ms);
      assert_int_equal (l.n_ratings, r.n_ratings);
      assert_int_equal (l.rating_sum, r.rating_sum);
      assert_int_equal (l.highest, r.highest);
      assert_int_equal (l.morning.waking, r.morning.waking);
    }
  seen_free (&left);
  seen_free (&right);
}

#endif
