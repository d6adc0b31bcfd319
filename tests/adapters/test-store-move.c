/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Three days of a player are cut at every moment at which anything was told; the
 * diary goes out as JSON, into an empty diary and into one of the player's other
 * computer, and the player goes on there: both end in the diary of the uncut days
 * but for elapsed time, which is each computer's own. */
#include "store-samples.h"

#include "app/loop.h"
#include "carpace/event-kinds.h"
#include "forms/diary-csv.h"
#include "forms/diary-json.h"
#include "rounds.h"
#include "text/face-text.h"
#include "text/text.h"
#include "text/today-text.h"
#include "trace.h"

#define BEGIN "2027-03-02T18:00:00+01:00"
#define S CARPACE_SECOND_MS
#define M CARPACE_MINUTE_MS
#define H CARPACE_HOUR_MS

/** What the player does, at ms since the beginning. */
typedef struct
{
  int64_t at_ms;
  CarpaceEvent event;
} Act;

#define SAY(what) { .kind = CARPACE_EVENT_##what }
#define RATE(n) { .kind = CARPACE_EVENT_RATE, .rate = { .discomfort = n } }
#define MORNING(w, s) { .kind = CARPACE_EVENT_MORNING, .morning = { .waking = w, .stiffness = CARPACE_STIFFNESS_##s, .now = -1 } }
#define CAUTION(a, s) { .kind = CARPACE_EVENT_CAUTION, .caution = { .answer = CARPACE_CAUTION_##a, .signs = s } }

static const Act acts[] = {
  { 0, MORNING (1, USUAL) },
  { 1 * M, SAY (START) },
  { 9 * M, SAY (STILL) },            /* a run, and a pause that is a gap */
  { 9 * M + 20 * S, SAY (INPUT) },
  { 12 * M, SAY (STILL) },           /* a rest is due, offered */
  { 12 * M + 10 * S, SAY (REST) },
  { 13 * M, SAY (INPUT) },
  { 19 * M, SAY (PAUSE) },
  { 20 * M, SAY (CONTINUE) },
  { 25 * M, SAY (STILL) },           /* past the limit */
  { 26 * M, RATE (3) },              /* up 2: tightens */
  { 26 * M + 30 * S, RATE (4) },     /* a correction */
  { 27 * M, SAY (START) },           /* asked: the wait */
  { 27 * M + 5 * S, SAY (START) },
  { 34 * M, SAY (STILL) },
  { 34 * M + 10 * S, SAY (PLAY_ON) },
  { 35 * M, SAY (INPUT) },
  { 37 * M, SAY (END) },
  { 38 * M, SAY (ON_AIR) },
  { 80 * M, SAY (OFF_AIR) },         /* the rating is still open */
  { 81 * M, RATE (1) },
  { 125 * M, SAY (START_MATCH) },
  { 140 * M, SAY (STILL) },
  { 141 * M, SAY (END) },            /* not rated */
  { 3 * H, CAUTION (ASK, 0) },
  { 3 * H + M, CAUTION (SIGNS, 1u << CARPACE_SIGN_WEAK) },
  { 13 * H, MORNING (0, USUAL) },    /* the next day: no practice */
  { 24 * H, SAY (START) },           /* refused */
  { 25 * H, CAUTION (SEEN, 0) },
  { 37 * H, MORNING (1, MORE) },     /* the third */
  { 38 * H, SAY (START) },
  { 38 * H + S, SAY (INPUT) },       /* as the desktop tells, too */
  { 38 * H + 30 * M, SAY (END) },
  { 38 * H + 31 * M, RATE (0) },
  { 61 * H, MORNING (0, LESS) },     /* the fourth: what all of it led to */
  { 61 * H + M, MORNING (0, MORE) },
};

/** A computer: a diary, a loop, a clock. */
typedef struct
{
  CarpaceDiaryStore *store;
  CarpaceLoop loop;
  CarpaceInstant now;
  CarpacePlan plan;
  bool moving;
} Computer;

static CarpaceInstant
now (void *self)
{
  return ((Computer *) self)->now;
}

static Computer *
computer_new (void)
{
  Computer *c = g_new0 (Computer, 1);

  c->store = carpace_store_open_scratch (NULL, NULL);
  assert_non_null (c->store);
  carpace_trace_plan (&c->plan, 3, 20);
  return c;
}

static void
computer_free (Computer *c)
{
  carpace_store_close (c->store, true);
  g_free (c);
}

static CarpaceLoopPorts
ports_of (Computer *c)
{
  return (CarpaceLoopPorts){ .clock = { .self = c, .now = now }, .store = carpace_store_port (c->store) };
}

static CarpaceInstant
wall (int64_t at_ms)
{
  CarpaceInstant at;

  assert_true (carpace_instant_read (BEGIN, &at));
  return carpace_instant_after (at, at_ms);
}

/* To @at_ms since the beginning: each deadline at its own moment. */
static void
run_to (Computer *c, int64_t at_ms)
{
  int64_t end = c->now.elapsed_ms + wall (at_ms).wall_ms - c->now.wall_ms, due;

  while ((due = carpace_loop_next (&c->loop)) <= end)
    {
      if (due > c->now.elapsed_ms)
        c->now = carpace_instant_after (c->now, due - c->now.elapsed_ms);
      carpace_loop_due (&c->loop);
    }
  c->now = carpace_instant_after (c->now, end - c->now.elapsed_ms);
}

static void
act (Computer *c, const Act *what)
{
  CarpaceEvent event = what->event;

  run_to (c, what->at_ms);
  if (event.kind == CARPACE_EVENT_INPUT || event.kind == CARPACE_EVENT_STILL)
    event.fact.since_ms = c->now.elapsed_ms;
  carpace_loop_tell (&c->loop, &event, NULL);
  if (event.kind == CARPACE_EVENT_STILL || event.kind == CARPACE_EVENT_PAUSE || event.kind == CARPACE_EVENT_REST
      || event.kind == CARPACE_EVENT_PLAY_ON)
    c->moving = false;
  else if (event.kind == CARPACE_EVENT_INPUT || carpace_loop_view (&c->loop)->state == CARPACE_STATE_PRACTISING)
    c->moving = true;
}

/* Acts up to @at_ms. @return the first that is later */
static size_t
play (Computer *c, size_t from, int64_t until_ms)
{
  while (from < G_N_ELEMENTS (acts) && acts[from].at_ms <= until_ms)
    act (c, &acts[from++]);
  if (from < G_N_ELEMENTS (acts))
    run_to (c, until_ms);
  return from;
}

static void
begin (Computer *c)
{
  CarpaceLoopPorts ports = ports_of (c);

  c->now = wall (0);
  c->now.elapsed_ms = 5 * M;
  carpace_store_start_run (c->store, "one", 0, c->now);
  carpace_loop_init (&c->loop, &ports, NULL);
  carpace_loop_open (&c->loop, &c->plan);
}

/* ---- what a diary says, elapsed time left out ---- */

typedef struct
{
  GString *text;
  GArray *moments; /* of records, ms since the beginning */
} Said;

static bool
say_record (void *user, const CarpaceRecord *record)
{
  Said *said = user;
  const CarpaceEntry *e = &record->entry;
  int64_t at_ms = e->at.wall_ms - wall (0).wall_ms;
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (e->kind, &n);

  g_string_append_printf (said->text, "%d %" G_GINT64_FORMAT " %s", record->day, at_ms,
                          carpace_name (CARPACE_WORDS_ENTRY, (int32_t) e->kind));
  for (int32_t i = 0; i < n; i++)
    g_string_append_printf (said->text, " %s=%" G_GINT64_FORMAT, field[i].name, carpace_field_get (&field[i], e));
  g_string_append_c (said->text, '\n');
  g_array_append_val (said->moments, at_ms);
  return true;
}

static Said
said_by (Computer *c)
{
  Said said = { g_string_new (NULL), g_array_new (FALSE, FALSE, sizeof (int64_t)) };
  CarpaceDiary diary = carpace_store_diary (c->store);

  assert_true (diary.records (diary.self, INT32_MIN, INT32_MAX, say_record, &said));
  return said;
}

static void
said_free (Said *said)
{
  g_string_free (said->text, TRUE);
  g_array_unref (said->moments);
}

static void
compare (const Said *uncut, const Said *moved, int64_t cut_ms, const char *how)
{
  size_t line = 0;
  const char *a = uncut->text->str, *b = moved->text->str;

  if (strcmp (a, b) == 0)
    return;
  for (size_t i = 0; a[i] == b[i] && a[i] != '\0'; i++)
    if (a[i] == '\n')
      line = i + 1;
  fail_msg ("cut at %" G_GINT64_FORMAT " s, %s:\nuncut: %.*s\nmoved: %.*s", cut_ms / S, how,
            (int) strcspn (a + line, "\n"), a + line, (int) strcspn (b + line, "\n"), b + line);
}

/* ---- the move ---- */

static bool
to_string (void *self, const char *bytes, size_t n)
{
  g_string_append_len (self, bytes, (gssize) n);
  return true;
}

static GString *
export_as (const CarpaceDiaryFormat *form, Computer *c)
{
  const CarpaceDiaryExtract all = { .since = INT32_MIN, .until = INT32_MAX };
  CarpaceDiary diary = carpace_store_diary (c->store);
  GString *text = g_string_new (NULL);
  const CarpaceBytesOut to = { text, to_string };

  assert_true (form->write (&diary, &all, &to));
  return text;
}

static GString *
export_of (Computer *c)
{
  return export_as (&carpace_format_json, c);
}

static void
import (Computer *c, const GString *text)
{
  CarpaceDiaryKeeper keeper = carpace_store_keeper (c->store);
  CarpaceIdentity whose;
  CarpaceIntake intake;

  assert_true (carpace_format_json.whose (text->str, text->len, &whose));
  keeper.become (keeper.self, &whose);
  if (!carpace_format_json.read (text->str, text->len, &keeper, &intake))
    fail_msg ("line %d: %s", intake.line, intake.fault);
}

/* The program starts on the other computer; its clock goes on from the diary's,
 * as the tray's does. */
static void
go_on (Computer *to, const Computer *from)
{
  CarpaceLoopPorts ports = ports_of (to);
  CarpaceResume resume;
  const CarpaceEvent input = { .kind = CARPACE_EVENT_INPUT };

  carpace_store_resume (to->store, &resume);
  assert_true (resume.known);
  to->now = from->now;
  to->now.elapsed_ms = resume.alive.elapsed_ms + (from->now.wall_ms - resume.alive.wall_ms);
  carpace_store_start_run (to->store, "two", 0, to->now);
  carpace_loop_init (&to->loop, &ports, &resume.history);
  carpace_loop_resume (&to->loop, &to->plan, &resume);
  if (from->moving) /* the desktop tells at once of a hand that moves */
    {
      CarpaceEvent told = input;
      told.fact.since_ms = to->now.elapsed_ms;
      carpace_loop_tell (&to->loop, &told, NULL);
    }
  carpace_store_resume_clear (&resume);
}

/* The other computer has seen nothing, or the diary as it was an hour before,
 * with a clock that is days off. */
static void
move_at (const Said *uncut, int64_t cut_ms, bool known_there)
{
  Computer *from = computer_new (), *to = computer_new ();
  size_t next;
  GString *text;
  Said moved;

  begin (from);
  next = play (from, 0, known_there && cut_ms > H ? cut_ms - H : 0);
  if (known_there)
    {
      const CarpaceInstant other = { .elapsed_ms = 40 * CARPACE_DAY_MS, .wall_ms = from->now.wall_ms, .offset_s = 3600 };
      CarpaceDiaryKeeper keeper = carpace_store_keeper (to->store);

      carpace_store_start_run (to->store, "two", 0, other);
      assert_true (keeper.note_day (keeper.self, 20000, "at home on the other computer"));
      text = export_of (from);
      import (to, text);
      g_string_free (text, TRUE);
    }
  next = play (from, next, cut_ms);
  text = export_of (from);
  import (to, text);
  go_on (to, from);
  play (to, next, INT64_MAX / 4);
  moved = said_by (to);
  compare (uncut, &moved, cut_ms, known_there ? "into the other computer's diary" : "into an empty diary");
  said_free (&moved);
  g_string_free (text, TRUE);
  computer_free (from);
  computer_free (to);
}

static void
moves_at_every_moment (void **state)
{
  Computer *c = computer_new ();
  Said uncut;
  int64_t last_ms = -1;
  int moments = 0, of_moments = carpace_test_rounds (100), nth = 0;

  begin (c);
  play (c, 0, INT64_MAX / 4);
  uncut = said_by (c);
  for (guint i = 0; i < uncut.moments->len; i++)
    {
      int64_t at_ms = g_array_index (uncut.moments, int64_t, i);

      if (at_ms == last_ms)
        continue;
      last_ms = at_ms;
      nth++;
      if (nth * of_moments / 100 == (nth - 1) * of_moments / 100)
        continue;
      moments++;
      move_at (&uncut, at_ms, false);
      move_at (&uncut, at_ms, true);
    }
  print_message ("%u records, moved at %d moments\n", uncut.moments->len, moments);
  assert_true (moments >= 40 * of_moments / 100);
  said_free (&uncut);
  computer_free (c);
}

/* CSV has no events: the day cannot be gone on with, nor begun anew, and everything that
 * is said of it says what start would. */
static void
a_day_as_csv_is_over (void **state)
{
  static const struct { int64_t at_ms; bool csv, over; } rows[] = {
    { 2 * M, true, true }, { 90 * M, true, true }, { 90 * M, false, false },
    { 30 * H, true, true }, /* the day after, whose caution was seen */
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Computer *from = computer_new (), *to = computer_new ();
      CarpaceDiaryKeeper keeper = carpace_store_keeper (to->store);
      const CarpaceEvent start = { .kind = CARPACE_EVENT_START };
      const CarpaceView *view;
      CarpaceRefusal why = CARPACE_REFUSAL_NOT_NOW;
      CarpaceIntake intake;
      GString *text;

      begin (from);
      play (from, 0, rows[i].at_ms);
      text = export_as (rows[i].csv ? &carpace_format_csv : &carpace_format_json, from);
      if (rows[i].csv)
        assert_true (carpace_format_csv.read (text->str, text->len, &keeper, &intake));
      else
        import (to, text);
      from->moving = false;
      go_on (to, from);
      view = carpace_loop_view (&to->loop);
      assert_int_equal (view->day_behind, rows[i].over);
      {
        g_autofree char *said = carpace_text_status (view, to->now);
        CarpaceTodayWords today;

        carpace_text_today (view, to->now, &today);
        print_message ("at %d min: %s\n%s\n%s\n", (int) (rows[i].at_ms / M), said, today.headline, today.what);
        assert_int_equal (carpace_text_no_start (view) != NULL, rows[i].over);
        assert_int_equal (strstr (said, "it was taken in from a file") != NULL, rows[i].over && !view->caution_open);
        assert_int_equal (strstr (today.headline, "it was taken in from a file") != NULL, rows[i].over && !view->caution_open);
        assert_int_equal (strcmp (today.what, "Practise from the next practice day.") == 0, rows[i].over && !view->caution_open);
        assert_int_equal (carpace_loop_tell (&to->loop, &start, &why), !rows[i].over);
        if (rows[i].over && !view->caution_open)
          {
            g_autofree char *refused = carpace_text_refusal (why, CARPACE_EVENT_START, view->state);
            assert_non_null (strstr (refused, "practise from the next practice day"));
          }
        carpace_today_words_clear (&today);
      }
      run_to (to, rows[i].at_ms + 24 * H);
      assert_false (carpace_loop_view (&to->loop)->day_behind); /* the next practice day is its own */
      g_string_free (text, TRUE);
      computer_free (from);
      computer_free (to);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (moves_at_every_moment), cmocka_unit_test (a_day_as_csv_is_over) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
