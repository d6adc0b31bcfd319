/* SPDX-License-Identifier: GPL-3.0-or-later */
/* loop.c: due deadlines, then the event, then what came of it. */
#include "app/loop.h"

#include <string.h>

#include "carpace/event-kinds.h"

/* A deadline that comes again and again at one instant would hold everything
 * up: more steps than this without time going by is a fault of the core. */
#define STEPS_AT_ONCE 10000

/* Two clocks are not read at one instant: less than this is no suspend yet. */
#define SHORTEST_SUSPEND_MS CARPACE_SECOND_MS

int64_t
carpace_loop_next (const CarpaceLoop *loop)
{
  int64_t deadline = carpace_session_next_deadline (&loop->session);
  int64_t change = carpace_session_is_suspended (&loop->session) ? CARPACE_NEVER : carpace_on_air_next_change_ms (&loop->air, loop->last);

  return change < deadline ? change : deadline;
}

static void
arm (CarpaceLoop *loop)
{
  int64_t deadline = carpace_loop_next (loop);

  if (deadline == loop->armed)
    return;
  loop->armed = deadline;
  if (loop->ports.alarm.arm != NULL)
    loop->ports.alarm.arm (loop->ports.alarm.self, deadline);
}

static void
follow (CarpaceLoop *loop)
{
  const CarpacePlan *plan = carpace_session_plan (&loop->session);
  int64_t gap_after_ms = plan != NULL ? plan->gap_after_ms : 0;

  if (gap_after_ms == loop->following_ms)
    return;
  loop->following_ms = gap_after_ms;
  if (loop->ports.activity.follow != NULL)
    loop->ports.activity.follow (loop->ports.activity.self, gap_after_ms);
}

static void
tell_activity (CarpaceLoop *loop)
{
  const CarpaceActivity *activity = &loop->ports.activity;
  CarpaceState state = carpace_session_state (&loop->session);

  /* In a gap with a hand that moves elsewhere nobody needs to say that it moves. */
  if (state == CARPACE_STATE_GAP && carpace_session_hand_moves (&loop->session))
    state = CARPACE_STATE_PRACTISING;
  if (activity->state != NULL)
    activity->state (activity->self, state);
}

/* Going on air and off, and pauses that stand for an intermission. */
static void
follow_air (CarpaceLoop *loop, const CarpaceEvent *event, CarpaceState before, CarpaceInstant at)
{
  CarpaceState now = carpace_session_state (&loop->session);

  if (event->kind == CARPACE_EVENT_ON_AIR)
    carpace_on_air_begin (&loop->air, carpace_session_plan (&loop->session), at);
  else if (event->kind == CARPACE_EVENT_OFF_AIR)
    carpace_on_air_end (&loop->air);
  else if (event->kind == CARPACE_EVENT_INTERMISSION)
    loop->announced_ms = event->intermission.begins_ms; /* by a replay, too */
  if (before == CARPACE_STATE_PRACTISING && now != before)
    loop->paused_from_ms = at.elapsed_ms;
  else if (now == CARPACE_STATE_PRACTISING && before != now)
    carpace_on_air_rested (&loop->air, loop->paused_from_ms, at.elapsed_ms);
}

/* What the session does not take changes nothing, and is not kept: a finger on a
 * key would fill the diary. A step that also did something is, and one that told a
 * session that was suspended that it is not. */
static bool
changes_nothing (const CarpaceEntries *entries, bool was_suspended)
{
  return entries->n == 1 && entries->entry[0].kind == CARPACE_ENTRY_FAULT && !was_suspended;
}

static void
keep (CarpaceLoop *loop, const CarpaceEvent *event, CarpaceInstant at, const CarpaceEntries *entries)
{
  const CarpaceStore *store = &loop->ports.store;

  if (event->kind != CARPACE_EVENT_DEADLINE && store->event != NULL)
    store->event (store->self, event, at);
  for (int32_t i = 0; i < entries->n; i++)
    if (store->entry != NULL)
      store->entry (store->self, &entries->entry[i]);
}

static void
tell_faces (CarpaceLoop *loop, const CarpaceEntries *entries)
{
  const CarpaceFaces *faces = &loop->ports.faces;

  for (int32_t i = 0; i < entries->n; i++)
    {
      if (loop->ports.entry != NULL)
        loop->ports.entry (loop->ports.listener, &entries->entry[i]);
      if (entries->entry[i].kind == CARPACE_ENTRY_CUE && faces->cue != NULL)
        faces->cue (faces->self, &entries->entry[i], &loop->view);
    }
}

/* What replay starts from comes before the event that opened the day, so that
 * replay opens it again. */
static void
keep_opening (CarpaceLoop *loop, const CarpaceEntries *entries, CarpaceInstant at)
{
  const CarpaceStore *store = &loop->ports.store;

  if (store->opening != NULL && carpace_entries_opened_day (entries))
    store->opening (store->self, carpace_session_day (&loop->session), at,
                    carpace_session_history_at_opening (&loop->session));
}

/* A session is told of an intermission by its notice; that a pause stood for it, or how
 * long it is, it does not know. */
static void
look_at_air (CarpaceLoop *loop, CarpaceInstant now)
{
  CarpaceIntermission next = carpace_on_air_at (&loop->air, now);
  CarpaceView *view = &loop->view;
  bool ahead = next.phase == CARPACE_INTERMISSION_AHEAD || next.phase == CARPACE_INTERMISSION_NOTICE;

  view->next_intermission_in_ms = ahead ? next.to_go_ms : 0;
  view->intermission = next.phase == CARPACE_INTERMISSION_NOTICE || next.phase == CARPACE_INTERMISSION_NOW;
  view->intermission_in_ms = next.phase == CARPACE_INTERMISSION_NOTICE ? next.to_go_ms : 0;
  view->intermission_to_go_ms = view->intermission ? next.ends_ms - now.elapsed_ms : 0;
  view->intermission_length_ms = next.phase != CARPACE_INTERMISSION_NONE ? next.ends_ms - next.begins_ms : 0;
}

/* What the faces draw: the session's view, and what the session does not know
 * of the stream. */
static void
look (CarpaceLoop *loop, CarpaceInstant now)
{
  carpace_view (&loop->session, now, &loop->view);
  loop->view.unkept = loop->unkept;
  loop->view.sittings = loop->sittings;
  if (loop->ports.activity.state != NULL)
    loop->view.input_ms = -1;
  look_at_air (loop, now);
}

static void
step (CarpaceLoop *loop, const CarpaceEvent *event, CarpaceInstant at, CarpaceEntries *ret_entries)
{
  const CarpaceStore *store = &loop->ports.store;
  CarpaceState before = carpace_session_state (&loop->session);
  bool was_suspended = carpace_session_is_suspended (&loop->session);

  carpace_session_step (&loop->session, event, at, ret_entries);
  loop->last = at;
  for (int32_t i = 0; i < ret_entries->n; i++)
    carpace_sittings_note (&loop->sittings, &ret_entries->entry[i]);
  follow_air (loop, event, before, at);
  if (ret_entries->n == 0 && event->kind == CARPACE_EVENT_DEADLINE)
    return;
  if (!changes_nothing (ret_entries, was_suspended))
    {
      if (store->begin != NULL)
        store->begin (store->self);
      keep_opening (loop, ret_entries, at);
      keep (loop, event, at, ret_entries);
      if (store->commit != NULL)
        loop->unkept = !store->commit (store->self);
    }
  if (loop->ports.faces.cue != NULL)
    look (loop, at);
  tell_faces (loop, ret_entries);
}

/* Deadlines up to @now, each at its own instant. */
static void
run_due (CarpaceLoop *loop, CarpaceInstant now)
{
  const CarpaceEvent deadline = { .kind = CARPACE_EVENT_DEADLINE };
  CarpaceEntries entries;

  for (int steps = 0; steps < STEPS_AT_ONCE; steps++)
    {
      int64_t due = carpace_session_next_deadline (&loop->session);
      if (due > now.elapsed_ms)
        return;
      step (loop, &deadline, carpace_instant_after (now, due - now.elapsed_ms), &entries);
    }
}

/* Tells the session of an intermission once its notice begins. */
static void
announce (CarpaceLoop *loop, CarpaceInstant now)
{
  CarpaceIntermission next = carpace_on_air_at (&loop->air, now);
  const CarpaceEvent event = { .kind = CARPACE_EVENT_INTERMISSION, .intermission = { next.begins_ms } };
  CarpaceEntries entries;

  if ((next.phase != CARPACE_INTERMISSION_NOTICE && next.phase != CARPACE_INTERMISSION_NOW)
      || next.begins_ms == loop->announced_ms)
    return;
  step (loop, &event, now, &entries);
}

static void
tell_clicks (CarpaceLoop *loop, CarpaceInstant now)
{
  const CarpaceEvent event = { .kind = CARPACE_EVENT_CLICKS, .clicks = { loop->clicks_from_ms, loop->clicks } };
  CarpaceEntries entries;

  step (loop, &event, now, &entries);
  loop->clicks = 0;
}

/* Heard in a block only; its end is a minute's, too. */
static void
follow_clicks (CarpaceLoop *loop, CarpaceInstant now)
{
  const CarpaceClicks *clicks = &loop->ports.clicks;
  bool runs = carpace_session_block_runs (&loop->session), follows = runs && clicks->follow != NULL;

  if (loop->counts_clicks && !runs)
    tell_clicks (loop, now);
  loop->counts_clicks = loop->counts_clicks && runs;
  if (follows == loop->following_clicks)
    return;
  loop->following_clicks = follows;
  if (clicks->follow != NULL)
    clicks->follow (clicks->self, follows);
}

static void
settle (CarpaceLoop *loop, CarpaceInstant now)
{
  run_due (loop, now);
  loop->last = now;
  follow_clicks (loop, now);
  announce (loop, now);
  arm (loop);
  follow (loop);
  tell_activity (loop);
  if (loop->ports.faces.changed == NULL)
    return;
  look (loop, now);
  loop->ports.faces.changed (loop->ports.faces.self, &loop->view);
}

static int64_t
slept_ms (const CarpaceLoop *loop)
{
  const CarpaceClock *clock = &loop->ports.clock;

  return clock->slept_ms != NULL ? clock->slept_ms (clock->self) : 0;
}

void
carpace_loop_init (CarpaceLoop *loop, const CarpaceLoopPorts *ports, const CarpaceHistory *history)
{
  memset (loop, 0, sizeof *loop);
  loop->ports = *ports;
  loop->armed = CARPACE_NEVER;
  loop->announced_ms = CARPACE_NEVER;
  carpace_on_air_init (&loop->air);
  carpace_session_init (&loop->session, history);
  loop->slept_ms = slept_ms (loop);
}

void
carpace_loop_open (CarpaceLoop *loop, const CarpacePlan *plan)
{
  const CarpaceEvent open = { .kind = CARPACE_EVENT_OPEN, .open = { plan } };

  carpace_loop_tell (loop, &open, NULL);
}

static CarpaceInstant
now_of (CarpaceLoop *loop)
{
  CarpaceInstant now = loop->ports.clock.now (loop->ports.clock.self);

  if (now.elapsed_ms < loop->last.elapsed_ms)
    now.elapsed_ms = loop->last.elapsed_ms;
  return now;
}

/* Input was presumed on or off because of what the player said: the desktop is
 * asked whether that is so. */
static void
recheck (CarpaceLoop *loop, const CarpaceEvent *event, CarpaceInstant now)
{
  const CarpaceActivity *activity = &loop->ports.activity;
  bool says_something = event->kind != CARPACE_EVENT_INPUT && event->kind != CARPACE_EVENT_STILL
                        && event->kind != CARPACE_EVENT_CLICKS;

  if (event->kind == CARPACE_EVENT_SUSPEND)
    loop->suspended_ms = now.elapsed_ms;
  if (event->kind == CARPACE_EVENT_WAKE && activity->recheck != NULL)
    {
      activity->recheck (activity->self, false, loop->suspended_ms); /* being suspended was stillness */
      return;
    }
  if (activity->recheck != NULL && says_something && carpace_session_block_runs (&loop->session))
    activity->recheck (activity->self, carpace_session_hand_moves (&loop->session), now.elapsed_ms);
}

/* Where nobody tells of suspends, the clock does that runs on against the one that
 * does not, whenever the program is awake. The machine slept for so long at
 * some time since the last look; it is taken to have woken now, so that all the time
 * it was awake counts. @return whether it did, and nobody had said so */
static bool
notice_suspend (CarpaceLoop *loop, CarpaceInstant now)
{
  const CarpaceEvent suspend = { .kind = CARPACE_EVENT_SUSPEND }, wake = { .kind = CARPACE_EVENT_WAKE };
  int64_t slept = slept_ms (loop), by_ms = slept - loop->slept_ms;
  CarpaceInstant from = carpace_instant_after (now, -by_ms);
  CarpaceEntries entries;

  if (by_ms < SHORTEST_SUSPEND_MS)
    return false;
  loop->slept_ms = slept;
  if (carpace_session_is_suspended (&loop->session))
    return false;
  if (from.elapsed_ms < loop->last.elapsed_ms)
    from = carpace_instant_after (now, loop->last.elapsed_ms - now.elapsed_ms);
  run_due (loop, from);
  step (loop, &suspend, from, &entries);
  recheck (loop, &suspend, from);
  step (loop, &wake, now, &entries);
  recheck (loop, &wake, now);
  return true;
}

void
carpace_loop_awake (CarpaceLoop *loop)
{
  CarpaceInstant now = now_of (loop);

  if (notice_suspend (loop, now))
    settle (loop, now);
}

static bool
refused (const CarpaceEntries *entries, CarpaceRefusal *ret_refusal)
{
  for (int32_t i = 0; i < entries->n; i++)
    if (entries->entry[i].kind == CARPACE_ENTRY_FAULT)
      {
        if (ret_refusal != NULL)
          *ret_refusal = entries->entry[i].fault.refusal;
        return true;
      }
  return false;
}

bool
carpace_loop_tell (CarpaceLoop *loop, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  CarpaceInstant now = now_of (loop);
  CarpaceEvent told = *event;
  CarpaceEntries entries;
  bool no;

  if (carpace_event_kinds[told.kind].says == CARPACE_SAYS_FACT)
    told.fact.uncounted |= loop->no_other_input;
  notice_suspend (loop, now);
  run_due (loop, now);
  step (loop, &told, now, &entries);
  no = refused (&entries, ret_refusal);
  settle (loop, now);
  recheck (loop, &told, now);
  return !no;
}

void
carpace_loop_due (CarpaceLoop *loop)
{
  CarpaceInstant now = now_of (loop);

  loop->armed = CARPACE_NEVER - 1; /* the alarm has gone off: arm it anew */
  notice_suspend (loop, now);
  settle (loop, now);
}

void
carpace_loop_counts_clicks (CarpaceLoop *loop, bool counts)
{
  loop->counts_clicks = counts && carpace_session_block_runs (&loop->session);
  loop->clicks_from_ms = carpace_session_active_ms (&loop->session, now_of (loop).elapsed_ms);
  loop->clicks = 0;
}

void
carpace_loop_pressed (CarpaceLoop *loop)
{
  CarpaceInstant now = now_of (loop);
  int64_t whole_ms;

  if (!loop->counts_clicks || !carpace_session_counts_clicks (&loop->session))
    return;
  whole_ms = carpace_clicks_whole_ms (loop->clicks_from_ms, carpace_session_active_ms (&loop->session, now.elapsed_ms));
  if (whole_ms > 0)
    {
      run_due (loop, now);
      tell_clicks (loop, now);
      loop->clicks_from_ms += whole_ms;
      settle (loop, now);
    }
  loop->clicks += loop->counts_clicks;
}

void
carpace_loop_set_clicks (CarpaceLoop *loop, CarpaceClicks clicks)
{
  loop->ports.clicks = clicks;
  loop->following_clicks = loop->counts_clicks = false;
  follow_clicks (loop, now_of (loop));
}

static void
clicks_counted (void *user, bool counts)
{
  carpace_loop_counts_clicks (user, counts);
}

static void
pressed (void *user)
{
  carpace_loop_pressed (user);
}

CarpaceClicksListener
carpace_loop_as_clicks_listener (CarpaceLoop *loop)
{
  return (CarpaceClicksListener){ loop, pressed, clicks_counted };
}

/* The day's events go through the same steps again, with nobody told. */
static void
replay (CarpaceLoop *loop, const CarpaceResume *resume)
{
  CarpaceLoopPorts ports = loop->ports;
  CarpaceEntries entries;

  memset (&loop->ports, 0, sizeof loop->ports);
  for (size_t i = 0; i < resume->n_events; i++)
    {
      CarpaceEvent event = resume->event[i];
      if (event.kind == CARPACE_EVENT_OPEN)
        continue; /* the plan of the day is given by the caller */
      run_due (loop, resume->at[i]);
      step (loop, &event, resume->at[i], &entries);
    }
  /* what fell due behind the last event was told, too, as far as it was kept */
  if (resume->n_events > 0 && resume->kept_ms >= resume->last.elapsed_ms)
    run_due (loop, carpace_instant_after (resume->last, resume->kept_ms - resume->last.elapsed_ms));
  loop->ports = ports;
}

void
carpace_loop_resume (CarpaceLoop *loop, const CarpacePlan *plan, const CarpaceResume *resume)
{
  const CarpaceEvent open = { .kind = CARPACE_EVENT_OPEN, .open = { plan } };
  const CarpaceEvent suspend = { .kind = CARPACE_EVENT_SUSPEND };
  const CarpaceEvent wake = { .kind = CARPACE_EVENT_WAKE };
  CarpaceInstant first = resume->n_events > 0 ? resume->at[0] : now_of (loop);
  CarpaceEntries entries;

  carpace_session_init (&loop->session, &resume->history);
  carpace_session_step (&loop->session, &open, first, &entries);
  loop->last = first;
  if (resume->history.on_air)
    carpace_on_air_begin (&loop->air, plan, resume->stream_known ? resume->stream : first);
  replay (loop, resume);
  if (resume->n_events > 0)
    {
      /* not being there is stillness, as being suspended is */
      CarpaceInstant gone = resume->alive.elapsed_ms > loop->last.elapsed_ms ? resume->alive : loop->last;
      if (gone.elapsed_ms > now_of (loop).elapsed_ms)
        gone.elapsed_ms = now_of (loop).elapsed_ms;
      run_due (loop, gone);
      step (loop, &suspend, gone, &entries);
      carpace_loop_tell (loop, &wake, NULL);
    }
  else
    settle (loop, first);
}

bool
carpace_loop_go_on (CarpaceLoop *loop, const CarpacePlan *of_day, const CarpacePlan *in_use,
                    const CarpaceResume *resume)
{
  const CarpacePlan *first = resume->known && of_day != NULL ? of_day : in_use;

  if (first == NULL)
    return false;
  if (resume->known)
    carpace_loop_resume (loop, first, resume);
  else
    carpace_loop_open (loop, first);
  if (in_use != NULL && first != in_use)
    carpace_loop_open (loop, in_use);
  return true;
}

const CarpaceView *
carpace_loop_view (CarpaceLoop *loop)
{
  look (loop, now_of (loop));
  return &loop->view;
}

static bool
tell (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  return carpace_loop_tell (self, event, ret_refusal);
}

CarpaceTell
carpace_loop_as_tell (CarpaceLoop *loop)
{
  return (CarpaceTell){ loop, tell };
}
