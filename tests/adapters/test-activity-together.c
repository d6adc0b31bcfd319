/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several sources as one, each a double that says what the test says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>
#include <string.h>

#include "activity-together.h"

typedef struct
{
  bool offered, partial;
  CarpaceTell tell;
  int n_opened, n_freed, n_rechecks;
  int64_t gap_after_ms;
  bool moving;
  int64_t from_ms;
  CarpaceState state;
  void (*tell_whether) (void *user, bool sees);
  void *user;
} Double;

static struct
{
  int64_t now_ms;
  Double all, part; /* sees all of the desktop, a part */
  CarpaceActivity port;
  int n_told;
  CarpaceEvent last;
} bench;

static CarpaceInstant
now (void *self)
{
  return (CarpaceInstant) { .elapsed_ms = bench.now_ms };
}

static void
follow (void *self, int64_t gap_after_ms)
{
  ((Double *) self)->gap_after_ms = gap_after_ms;
}

static void
recheck (void *self, bool moving, int64_t from_ms)
{
  Double *one = self;
  one->n_rechecks++;
  one->moving = moving;
  one->from_ms = from_ms;
}

static void
state_is (void *self, CarpaceState state)
{
  ((Double *) self)->state = state;
}

static void
let_go (void *self)
{
  ((Double *) self)->n_freed++;
}

static void
sees (void *self, void (*tell) (void *user, bool sees), void *user)
{
  Double *one = self;
  one->tell_whether = tell;
  one->user = user;
  tell (user, false);
}

static bool
open_double (Double *one, CarpaceTell tell, CarpaceActivity *ret_activity)
{
  if (!one->offered)
    return false;
  one->n_opened++;
  one->tell = tell;
  *ret_activity = (CarpaceActivity) { .self = one, .follow = follow, .recheck = recheck, .state = state_is, .free = let_go,
                                      .sees = one->partial ? sees : NULL };
  return true;
}

static bool
open_all (CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity)
{
  return open_double (&bench.all, tell, ret_activity);
}

static bool
open_part (CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity)
{
  return open_double (&bench.part, tell, ret_activity);
}

static bool
take (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  bench.n_told++;
  bench.last = *event;
  return true;
}

static bool
open_together (bool blind, bool partial, bool first, bool second, bool opened[2])
{
  const CarpaceActivityPart parts[] = { { open_all, blind }, { open_part, false } };
  memset (&bench, 0, sizeof bench);
  bench.now_ms = 100000;
  bench.all.offered = first;
  bench.part = (Double) { .offered = second, .partial = partial };
  return carpace_activity_together_open (parts, 2, (CarpaceClock) { .now = now }, (CarpaceTell) { .tell = take }, &bench.port,
                                         opened);
}

static void
begin (bool blind, bool partial)
{
  bool opened[2];
  assert_true (open_together (blind, partial, true, true, opened));
  bench.port.follow (bench.port.self, 4000);
}

static void
say (Double *one, bool still, int64_t since_ms)
{
  CarpaceEvent event = { .kind = still ? CARPACE_EVENT_STILL : CARPACE_EVENT_INPUT, .fact = { .since_ms = since_ms } };
  one->tell.tell (one->tell.self, &event, NULL);
}

static void
look_at_part (bool sees_now)
{
  bench.part.tell_whether (bench.part.user, sees_now);
}

static void
assert_told (int n, CarpaceEventKind kind, int64_t since_ms)
{
  assert_int_equal (bench.n_told, n);
  assert_int_equal (bench.last.kind, kind);
  assert_int_equal (bench.last.fact.since_ms, since_ms);
}

static void
end (void)
{
  int freed = bench.all.n_freed + bench.part.n_freed, opened = bench.all.n_opened + bench.part.n_opened;
  assert_int_equal (freed, 0);
  CARPACE_PORT_FREE (bench.port);
  assert_int_equal (bench.all.n_freed + bench.part.n_freed, opened);
}

static void
which_are_opened (void **state)
{
  bool opened[2] = { true, true };
  assert_false (open_together (true, true, false, true, opened));
  assert_int_equal (bench.part.n_opened, 0); /* not without the first */
  assert_true (open_together (true, true, true, false, opened));
  assert_true (opened[0] && !opened[1]);
  bench.port.follow (bench.port.self, 4000);
  say (&bench.all, true, 96000);
  assert_told (1, CARPACE_EVENT_STILL, 96000);
  end ();
  assert_true (open_together (true, true, true, true, opened));
  assert_true (opened[0] && opened[1]);
  end ();
}

static void
still_when_all_say_so_input_from_any (void **state)
{
  begin (false, false);
  say (&bench.all, true, 96000);
  assert_int_equal (bench.n_told, 0);
  say (&bench.part, true, 97000);
  assert_told (1, CARPACE_EVENT_STILL, 97000); /* the last input of any */
  say (&bench.part, false, 101000);
  assert_told (2, CARPACE_EVENT_INPUT, 101000);
  say (&bench.all, false, 101500);
  say (&bench.part, true, 102000);
  assert_int_equal (bench.n_told, 2);
  say (&bench.all, true, 101500);
  assert_told (3, CARPACE_EVENT_STILL, 102000);
  end ();
}

static void
handed_on_to_each (void **state)
{
  begin (false, false);
  assert_true (bench.all.gap_after_ms == 4000 && bench.part.gap_after_ms == 4000);
  bench.port.recheck (bench.port.self, false, 99000);
  assert_true (!bench.all.moving && !bench.part.moving && bench.all.from_ms == 99000 && bench.part.from_ms == 99000);
  say (&bench.all, true, 99000); /* as presumed */
  assert_int_equal (bench.n_told, 0);
  say (&bench.part, false, 101500);
  assert_told (1, CARPACE_EVENT_INPUT, 101500);
  bench.port.recheck (bench.port.self, true, 102000);
  assert_true (bench.all.moving && bench.part.moving);
  say (&bench.all, true, 102000);
  say (&bench.part, true, 102000);
  assert_told (2, CARPACE_EVENT_STILL, 102000);
  bench.port.state (bench.port.self, CARPACE_STATE_GAP);
  assert_true (bench.all.state == CARPACE_STATE_GAP && bench.part.state == CARPACE_STATE_GAP);
  bench.port.follow (bench.port.self, 0);
  assert_true (bench.all.gap_after_ms == 0 && bench.part.gap_after_ms == 0);
  end ();
}

/* A game of X that holds the screen awake: the compositor is silent throughout. */
static void
who_is_blind_has_no_say_where_another_sees (void **state)
{
  begin (true, true);
  look_at_part (true);
  assert_true (bench.part.n_rechecks == 1 && bench.part.moving && bench.part.from_ms == 100000);
  say (&bench.part, true, 101000);
  assert_told (1, CARPACE_EVENT_STILL, 101000);
  say (&bench.part, false, 113000);
  assert_told (2, CARPACE_EVENT_INPUT, 113000);
  end ();
}

/* Who is not blind has: the hand may be on a program of the compositor's own. */
static void
who_sees_all_always_has_a_say (void **state)
{
  begin (false, true);
  look_at_part (true);
  say (&bench.part, true, 101000);
  assert_int_equal (bench.n_told, 0);
  say (&bench.all, true, 101200);
  assert_told (1, CARPACE_EVENT_STILL, 101200);
  end ();
}

/* Nothing of X in front: its counter runs on, and says nothing of the hand. */
static void
who_does_not_see_has_no_say (void **state)
{
  begin (true, true);
  say (&bench.part, true, 96000);
  assert_int_equal (bench.n_told, 0);
  say (&bench.all, true, 97000);
  assert_told (1, CARPACE_EVENT_STILL, 97000);
  say (&bench.part, false, 101000);
  assert_int_equal (bench.n_told, 1);
  end ();
}

/* From a launcher of X to a game of the compositor's that holds the screen awake: the
 * hand is taken as before until the other one says what it does. */
static void
who_sees_no_more_leaves_it_to_the_others (void **state)
{
  begin (true, true);
  look_at_part (true);
  bench.now_ms = 100500;
  look_at_part (false);
  assert_int_equal (bench.n_told, 0);
  assert_int_equal (bench.all.n_rechecks, 0); /* moving it is for both */
  look_at_part (true);
  say (&bench.part, true, 101000);
  bench.now_ms = 109000;
  look_at_part (false); /* or a card of the program's own comes in front */
  assert_told (1, CARPACE_EVENT_STILL, 101000);
  assert_true (bench.all.n_rechecks == 1 && !bench.all.moving && bench.all.from_ms == 109000);
  say (&bench.all, false, 112000);
  assert_told (2, CARPACE_EVENT_INPUT, 112000);
  say (&bench.all, true, 113000);
  assert_told (3, CARPACE_EVENT_STILL, 113000);
  bench.now_ms = 120000;
  look_at_part (true); /* a window comes by itself */
  assert_true (!bench.part.moving && bench.part.from_ms == 120000);
  assert_int_equal (bench.n_told, 3);
  end ();
}

/* Every order of six things that can happen, against what it should come to. */
static void
every_order (void **state)
{
  enum { LENGTH = 5, KINDS = 6 };
  int orders = 1;
  for (int i = 0; i < LENGTH; i++)
    orders *= KINDS;
  for (int order = 0; order < orders; order++)
    {
      bool all_still = false, part_still = false, part_sees = false, still = false;
      int told = 0;
      begin (true, true);
      for (int i = 0, rest = order; i < LENGTH; i++, rest /= KINDS)
        {
          bench.now_ms += 10000;
          switch (rest % KINDS)
            {
            case 0: say (&bench.all, all_still = true, bench.now_ms - 4000); break;
            case 1: say (&bench.all, all_still = false, bench.now_ms); break;
            case 2: say (&bench.part, part_still = true, bench.now_ms - 4000); break;
            case 3: say (&bench.part, part_still = false, bench.now_ms); break;
            case 4:
              part_still = part_sees ? part_still : still;
              look_at_part (part_sees = true);
              break;
            default:
              all_still = all_still || (part_sees && still);
              look_at_part (part_sees = false);
            }
          bool should = part_sees ? part_still : all_still;
          told += should != still;
          still = should;
          if (bench.n_told != told || (told > 0 && (bench.last.kind == CARPACE_EVENT_STILL) != still)
              || bench.last.fact.since_ms > bench.now_ms)
            fail_msg ("order %d, step %d", order, i);
        }
      end ();
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (which_are_opened),
    cmocka_unit_test (still_when_all_say_so_input_from_any),
    cmocka_unit_test (handed_on_to_each),
    cmocka_unit_test (who_is_blind_has_no_say_where_another_sees),
    cmocka_unit_test (who_sees_all_always_has_a_say),
    cmocka_unit_test (who_does_not_see_has_no_say),
    cmocka_unit_test (who_sees_no_more_leaves_it_to_the_others),
    cmocka_unit_test (every_order),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
