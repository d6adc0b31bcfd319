/* SPDX-License-Identifier: GPL-3.0-or-later */
/* example.c: what the player of an example evening does next, by where the session is. */
#include "app/example.h"

#include <string.h>

#define RUN_MS CARPACE_MINUTE_MS
#define PAUSE_MS (4 * CARPACE_SECOND_MS) /* of a gap that is told, to the next run */
#define LOOK_MS CARPACE_SECOND_MS        /* until what is asked is looked for again */

static bool
tell (CarpaceExample *example, const CarpaceEvent *event)
{
  return carpace_loop_tell (&example->loop, event, NULL);
}

static bool
say (CarpaceExample *example, CarpaceEventKind kind)
{
  return tell (example, &(CarpaceEvent){ .kind = kind });
}

static int64_t
now_ms (const CarpaceExample *example)
{
  return example->clock.now.elapsed_ms;
}

static void
act_in (CarpaceExample *example, int64_t in_ms)
{
  example->acts_ms = carpace_sum_ms (now_ms (example), in_ms > 0 ? in_ms : 1);
}

static void
move (CarpaceExample *example)
{
  tell (example, &(CarpaceEvent){ .kind = CARPACE_EVENT_INPUT, .fact = { .since_ms = now_ms (example) } });
  example->still_ms = CARPACE_NEVER;
  act_in (example, RUN_MS);
}

/* The hand comes to rest; that is told once it has been still for the plan's `gap-after`. */
static void
come_to_rest (CarpaceExample *example)
{
  const CarpacePlan *plan = carpace_session_plan (&example->loop.session);

  if (example->still_ms == CARPACE_NEVER)
    {
      example->still_ms = now_ms (example);
      act_in (example, plan->gap_after_ms);
      return;
    }
  tell (example, &(CarpaceEvent){ .kind = CARPACE_EVENT_STILL, .fact = { .since_ms = example->still_ms } });
  act_in (example, PAUSE_MS);
}

static void
start (CarpaceExample *example)
{
  const CarpaceView *view = carpace_example_view (example);

  if (view->next_known && view->next_in_ms > 0)
    {
      act_in (example, view->next_in_ms);
      return;
    }
  say (example, CARPACE_EVENT_START);
  example->still_ms = CARPACE_NEVER;
  act_in (example, RUN_MS);
}

static void
act (CarpaceExample *example)
{
  switch (carpace_session_state (&example->loop.session))
    {
    case CARPACE_STATE_WAITING: start (example); break;
    case CARPACE_STATE_PRACTISING:
    case CARPACE_STATE_LIMIT_REACHED: come_to_rest (example); break;
    case CARPACE_STATE_GAP: move (example); break;
    case CARPACE_STATE_RESTING: act_in (example, carpace_example_view (example)->rest.remaining_ms); break;
    case CARPACE_STATE_PAUSED: say (example, CARPACE_EVENT_CONTINUE); act_in (example, RUN_MS); break;
    case CARPACE_STATE_REST_DUE:
    case CARPACE_STATE_RATING_DUE: act_in (example, LOOK_MS); break;
    case CARPACE_STATE_OFF:
    case CARPACE_STATE_DAY_DONE:
    case CARPACE_N_STATES: example->over = true; break;
    }
}

void
carpace_example_begin (CarpaceExample *example, const CarpacePlan *plan, CarpaceInstant begins, const CarpaceFaces *faces)
{
  CarpaceLoopPorts ports = { .faces = *faces };

  memset (example, 0, sizeof *example);
  example->clock.now = begins;
  example->clock.now.elapsed_ms = 0;
  example->still_ms = CARPACE_NEVER;
  ports.clock = carpace_virtual_clock_port (&example->clock);
  carpace_loop_init (&example->loop, &ports, NULL);
  carpace_loop_open (&example->loop, plan);
  tell (example, &(CarpaceEvent){ .kind = CARPACE_EVENT_INPUT }); /* the morning check comes with the day's first input */
  act_in (example, LOOK_MS);
}

void
carpace_example_go_on (CarpaceExample *example, int64_t by_ms)
{
  int64_t to = carpace_sum_ms (now_ms (example), by_ms);

  while (!example->over && !carpace_example_asks (example) && now_ms (example) < to)
    {
      int64_t next = carpace_loop_next (&example->loop) < example->acts_ms ? carpace_loop_next (&example->loop) : example->acts_ms;

      carpace_virtual_clock_run (&example->clock, &example->loop, next < to ? (next > now_ms (example) ? next : now_ms (example)) : to);
      if (!carpace_example_asks (example) && example->acts_ms <= now_ms (example))
        act (example);
    }
}

bool
carpace_example_asks (CarpaceExample *example)
{
  const CarpaceView *view = carpace_example_view (example);

  return !example->over
         && (view->cue_on[CARPACE_CUE_MORNING] || view->state == CARPACE_STATE_REST_DUE || view->state == CARPACE_STATE_RATING_DUE);
}

static CarpaceMorning
usual_morning (const CarpaceExample *example)
{
  const CarpacePlan *plan = carpace_session_plan (&example->loop.session);

  return (CarpaceMorning){ .waking = plan->usual_discomfort, .stiffness = CARPACE_STIFFNESS_USUAL, .now = plan->usual_discomfort };
}

/* As usual, then one up, so that what follows is seen; never above where practice stops. */
static int32_t
comfort (CarpaceExample *example)
{
  const CarpacePlan *plan = carpace_session_plan (&example->loop.session);
  int32_t number = plan->usual_discomfort + example->ratings++ % 2;

  return number < plan->stop_above ? number : plan->stop_above;
}

void
carpace_example_answer (CarpaceExample *example)
{
  const CarpaceView *view = carpace_example_view (example);
  CarpaceEvent event = { .kind = CARPACE_EVENT_REST };

  if (view->cue_on[CARPACE_CUE_MORNING])
    event = (CarpaceEvent){ .kind = CARPACE_EVENT_MORNING, .morning = usual_morning (example) };
  else if (view->state == CARPACE_STATE_RATING_DUE)
    event = (CarpaceEvent){ .kind = CARPACE_EVENT_RATE, .rate = { .discomfort = comfort (example) } };
  else if (view->state != CARPACE_STATE_REST_DUE)
    return;
  carpace_example_tell (example, &event);
}

bool
carpace_example_tell (CarpaceExample *example, const CarpaceEvent *event)
{
  bool taken = tell (example, event);

  act_in (example, LOOK_MS);
  return taken;
}

const CarpaceView *
carpace_example_view (CarpaceExample *example)
{
  return carpace_loop_view (&example->loop);
}

CarpaceInstant
carpace_example_now (const CarpaceExample *example)
{
  return example->clock.now;
}

bool
carpace_example_is_over (const CarpaceExample *example)
{
  return example->over;
}
