/* SPDX-License-Identifier: GPL-3.0-or-later */
/* activity-together.c: what several sources of input come to. */
#include "activity-together.h"

#include <glib.h>

typedef struct Together Together;

typedef struct
{
  Together *together;
  CarpaceActivity port;
  bool blind;
  bool still; /* as it told last, or as was presumed */
  int64_t since_ms;
  bool sees; /* where it sees a part only */
} Part;

struct Together
{
  CarpaceClock clock;
  CarpaceTell tell;
  bool still; /* what was told last, or is presumed */
  size_t n;
  Part part[CARPACE_ACTIVITY_TOGETHER];
};

static int64_t
elapsed_ms (const Together *together)
{
  return together->clock.now (together->clock.self).elapsed_ms;
}

static bool
is_seen_for_sure (const Together *together)
{
  for (size_t i = 0; i < together->n; i++)
    if (together->part[i].port.sees != NULL && together->part[i].sees)
      return true;
  return false;
}

static bool
has_a_say (const Part *part)
{
  return part->port.sees != NULL ? part->sees : !part->blind || !is_seen_for_sure (part->together);
}

/* Tells what they come to, where that is not what is held.
 * @moved_ms: since when the hand moves, if it does */
static void
settle (Together *together, int64_t moved_ms)
{
  bool still = true;
  int64_t since_ms = INT64_MIN;
  for (size_t i = 0; i < together->n; i++)
    if (has_a_say (&together->part[i]))
      {
        still = still && together->part[i].still;
        since_ms = MAX (since_ms, together->part[i].since_ms);
      }
  if (still == together->still || since_ms == INT64_MIN)
    return;
  together->still = still;
  CarpaceEvent event = { .kind = still ? CARPACE_EVENT_STILL : CARPACE_EVENT_INPUT,
                         .fact = { .since_ms = still ? since_ms : moved_ms } };
  together->tell.tell (together->tell.self, &event, NULL);
}

static bool
hear (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  Part *part = self;
  part->still = event->kind == CARPACE_EVENT_STILL;
  part->since_ms = event->fact.since_ms;
  settle (part->together, has_a_say (part) ? part->since_ms : elapsed_ms (part->together));
  return true;
}

static void
presume (Part *part, bool moving, int64_t from_ms)
{
  part->still = !moving;
  part->since_ms = from_ms;
  if (part->port.recheck != NULL)
    part->port.recheck (part->port.self, moving, from_ms);
}

/* Who has a say now and takes the hand as moving may only never have been told
 * otherwise: it takes it as still, and tells if it is not. */
static void
hold_still (Together *together, int64_t now_ms)
{
  for (size_t i = 0; i < together->n; i++)
    if (has_a_say (&together->part[i]) && !together->part[i].still)
      presume (&together->part[i], false, now_ms);
}

static void
hear_whether_it_sees (void *user, bool sees)
{
  Part *part = user;
  int64_t now_ms = elapsed_ms (part->together);
  if (sees == part->sees)
    return;
  part->sees = sees;
  if (sees)
    presume (part, !part->together->still, now_ms);
  else if (part->together->still)
    hold_still (part->together, now_ms);
  settle (part->together, now_ms);
}

/* ---- the port ---- */

static void
follow (void *self, int64_t gap_after_ms)
{
  Together *together = self;
  int64_t now_ms = elapsed_ms (together);
  together->still = false;
  for (size_t i = 0; i < together->n; i++)
    {
      Part *part = &together->part[i];
      part->still = false;
      part->since_ms = now_ms;
      part->port.follow (part->port.self, gap_after_ms);
    }
}

static void
recheck (void *self, bool moving, int64_t from_ms)
{
  Together *together = self;
  together->still = !moving;
  for (size_t i = 0; i < together->n; i++)
    presume (&together->part[i], moving, from_ms);
}

static void
state (void *self, CarpaceState now)
{
  Together *together = self;
  for (size_t i = 0; i < together->n; i++)
    if (together->part[i].port.state != NULL)
      together->part[i].port.state (together->part[i].port.self, now);
}

static void
let_go (void *self)
{
  Together *together = self;
  for (size_t i = 0; i < together->n; i++)
    CARPACE_PORT_FREE (together->part[i].port);
  g_free (together);
}

bool
carpace_activity_together_open (const CarpaceActivityPart *part, size_t n, CarpaceClock clock, CarpaceTell to,
                                CarpaceActivity *ret_activity, bool *ret_opened)
{
  Together *together = g_new0 (Together, 1);
  together->clock = clock;
  together->tell = to;
  for (size_t i = 0; i < n && together->n < CARPACE_ACTIVITY_TOGETHER && (i == 0 || together->n > 0); i++)
    {
      Part *next = &together->part[together->n];
      next->together = together;
      next->blind = part[i].blind;
      ret_opened[i] = part[i].open (clock, (CarpaceTell) { next, hear }, &next->port);
      together->n += ret_opened[i] ? 1 : 0;
    }
  if (together->n == 0)
    {
      g_free (together);
      return false;
    }
  for (size_t i = 0; i < together->n; i++)
    if (together->part[i].port.sees != NULL)
      together->part[i].port.sees (together->part[i].port.self, hear_whether_it_sees, &together->part[i]);
  *ret_activity = (CarpaceActivity) { .self = together, .follow = follow, .recheck = recheck, .state = state,
                                      .free = let_go };
  return true;
}
