/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/roster.h"

#include <string.h>

#include "carpace/day-sum.h"
#include "team/bundle.h"
#include "team/content.h"
#include "team/grant.h"
#include "team/hand-days.h"

/* ---- a diary ---- */

typedef struct
{
  CarpaceRosterStore store;
  CarpaceKey player;
} Gathered;

typedef struct
{
  CarpaceRecordVisitor visit;
  void *user;
} Telling;

static bool
tell_record (void *user, const CarpaceHandRow *row)
{
  const Telling *telling = user;
  CarpaceRecord record = { .id = row->id, .day = row->day };

  return !carpace_hand_entry (row, &record.entry) || telling->visit (telling->user, &record);
}

static bool
records_of (void *self, CarpaceDay since, CarpaceDay until, uint32_t kinds, CarpaceRecordVisitor visit, void *user)
{
  const Gathered *gathered = self;
  Telling telling = { visit, user };

  return gathered->store.rows (gathered->store.self, &gathered->player, since, until, kinds, tell_record, &telling);
}

static bool
records (void *self, CarpaceDay since, CarpaceDay until, CarpaceRecordVisitor visit, void *user)
{
  return records_of (self, since, until, CARPACE_ALL_KINDS, visit, user);
}

typedef struct
{
  CarpaceSumming summing;
  bool any, more;
  CarpaceDaySumVisitor visit;
  void *user;
} Days;

static void
end_day (Days *days)
{
  CarpaceDaySum sum;

  if (!days->any || !days->more)
    return;
  sum = carpace_summing_end (&days->summing);
  sum.other_ms = -1;
  days->more = days->visit (days->user, &sum);
}

static bool
sum_record (void *user, const CarpaceRecord *record)
{
  Days *days = user;

  if (!days->any || days->summing.sum.day != record->day)
    {
      end_day (days);
      carpace_summing_init (&days->summing, record->day);
      days->any = true;
    }
  carpace_summing_add (&days->summing, &record->entry);
  return days->more;
}

static bool
days_of (void *self, CarpaceDay since, CarpaceDay until, CarpaceDaySumVisitor visit, void *user)
{
  Days days = { .more = true, .visit = visit, .user = user };

  if (!records (self, since, until, sum_record, &days))
    return false;
  end_day (&days);
  return true;
}

static void
free_gathered (void *self)
{
  g_free (self);
}

CarpaceDiary
carpace_roster_diary (const CarpaceRosterStore *store, const CarpaceKey *player)
{
  Gathered *gathered = g_new (Gathered, 1);

  *gathered = (Gathered) { *store, *player };
  return (CarpaceDiary) { .self = gathered, .records = records, .records_of = records_of, .days = days_of, .free = free_gathered };
}

/* ---- what the load says ---- */

static bool
add_week (void *user, const CarpaceLoadWeek *week)
{
  CarpaceRosterRow *row = user;

  if (row->n_weeks < CARPACE_ROSTER_WEEKS)
    row->week[row->n_weeks++] = *week;
  return row->n_weeks < CARPACE_ROSTER_WEEKS;
}

/* The plan that was given to @player last: to them, else to anybody. One that was given in the future, by a clock that was set
 * back since, would be the last for long. */
static const CarpaceRosterGiven *
given_to (const CarpaceRosterAsk *ask, const CarpaceKey *player)
{
  const CarpaceRosterGiven *to_anybody = NULL, *to_them = NULL;

  for (size_t i = 0; i < ask->n_given; i++)
    {
      const CarpaceRosterGiven *given = &ask->given[i];
      const CarpaceRosterGiven **last = carpace_key_equal (&given->player, player) ? &to_them
                                        : carpace_key_is_one (&given->player) ? NULL : &to_anybody;

      if (given->made_s > ask->now_s + CARPACE_TEAM_CLOCKS_APART_S)
        continue;
      if (last != NULL && (*last == NULL || given->made_s >= (*last)->made_s))
        *last = given;
    }
  return to_them != NULL ? to_them : to_anybody;
}

static bool
look_at_load (const CarpaceRosterStore *store, const CarpaceRosterAsk *ask, CarpaceRosterRow *row)
{
  const CarpaceRosterGiven *given = given_to (ask, &row->who.player);

  if (!store->head (store->self, &row->who.player, &row->head)
      || !store->weeks (store->self, &row->who.player, carpace_team_monday (ask->today) - CARPACE_TEAM_DAYS, add_week, row))
    return false;
  if (row->who.made_s[CARPACE_BUNDLE_LOAD] == 0)
    return true;
  if (given != NULL && !carpace_key_equal (&row->head.plan, &given->plan))
    row->looks |= 1u << CARPACE_LOOK_NOT_IN_FORCE;
  if (row->head.at_ceiling)
    row->looks |= 1u << CARPACE_LOOK_CEILING;
  return true;
}

/* ---- rows ---- */

typedef struct
{
  const CarpaceRosterStore *store;
  const CarpaceRosterAsk *ask;
  GArray *rows;
  bool read;
  enum { NOT_BEGUN, KEEPING, NOT_KEEPING } keeping;
} Making;

/* What is worked out is kept, all of it together; where it cannot be, it is worked out again another time. Nobody writes
 * between what is read and what is kept of it. */
static void
begin_keeping (Making *making)
{
  const CarpaceRosterStore *store = making->store;

  if (making->keeping == NOT_BEGUN)
    making->keeping = store->keep_worked_out != NULL && store->begin (store->self) ? KEEPING : NOT_KEEPING;
}

static bool
look_at_hand (Making *making, CarpaceRosterRow *row)
{
  const CarpaceKey *player = &row->who.player;
  CarpaceDay today = making->ask->today;
  CarpaceHandDays days;

  if (!carpace_hand_days_kept (making->store, player, today, &days))
    {
      begin_keeping (making);
      if (!carpace_hand_days_read (making->store, player, today, &days))
        return false;
      if (making->keeping == KEEPING && !carpace_hand_days_keep (making->store, player, &days))
        {
          making->store->end (making->store->self, false);
          making->keeping = NOT_KEEPING;
        }
    }
  carpace_hand_days_look (&days, today, row);
  return true;
}

static bool
add_player (void *user, const CarpaceRosterPlayer *player)
{
  Making *making = user;
  CarpaceRosterRow row = { .who = *player, .answered = CARPACE_NO_DAY, .caution_since = CARPACE_NO_DAY, .highest = -1 };
  int64_t newest;

  row.holds = player->grant.number > 0
                ? carpace_grant_holds (&player->grant, player->guarded, making->ask->now_s, making->ask->today) : CARPACE_TEAM_NOT_GRANTED;
  row.load = row.holds == CARPACE_TEAM_FINE && carpace_grant_covers (player->grant.what, CARPACE_BUNDLE_LOAD);
  row.hand = row.holds == CARPACE_TEAM_FINE && carpace_grant_covers (player->grant.what, CARPACE_BUNDLE_HAND);
  newest = row.load ? player->made_s[CARPACE_BUNDLE_LOAD] : player->made_s[CARPACE_BUNDLE_HAND];
  if ((row.load || row.hand) && making->ask->now_s - newest >= CARPACE_LOOK_MISSING_S)
    row.looks |= 1u << CARPACE_LOOK_MISSING;
  making->read = (!row.load || look_at_load (making->store, making->ask, &row))
                 && (!row.hand || look_at_hand (making, &row));
  g_array_append_val (making->rows, row);
  return making->read;
}

static int
first_look (const CarpaceRosterRow *row)
{
  int look = 0;

  while (look < CARPACE_N_LOOKS && (row->looks & 1u << look) == 0)
    look++;
  return look;
}

static int
by_need (gconstpointer a, gconstpointer b)
{
  const CarpaceRosterRow *one = a, *other = b;
  int need = first_look (one) - first_look (other);

  if (need == 0)
    need = strcmp (one->who.name, other->who.name);
  return need != 0 ? need : memcmp (one->who.player.byte, other->who.player.byte, CARPACE_KEY_BYTES);
}

GArray *
carpace_roster_rows (const CarpaceRosterStore *store, const CarpaceRosterAsk *ask)
{
  Making making = { store, ask, g_array_new (FALSE, FALSE, sizeof (CarpaceRosterRow)), true, NOT_BEGUN };
  bool read = store->players (store->self, add_player, &making) && making.read;

  if (making.keeping == KEEPING)
    store->end (store->self, read);
  if (!read)
    {
      g_array_unref (making.rows);
      return NULL;
    }
  g_array_sort (making.rows, by_need);
  return making.rows;
}
