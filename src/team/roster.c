/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/roster.h"

#include <string.h>

#include "carpace/day-sum.h"
#include "team/content.h"
#include "team/grant.h"

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

/* ---- what the hand says ---- */

typedef struct
{
  CarpaceDay today, answered, caution_since, cut_day, level_day;
  int32_t cuts, levels_down, highest;
  bool caution, rising;
} Hand;

static bool
within (const Hand *hand, CarpaceDay day, int32_t dates)
{
  return day > hand->today - dates && day <= hand->today;
}

static bool
is_cut (const CarpaceDecision *decision)
{
  return decision->scope == CARPACE_SCOPE_DAY
         && (decision->rule == CARPACE_RULE_CUT || decision->rule == CARPACE_RULE_CUT_ONCE || decision->rule == CARPACE_RULE_REST_DAY);
}

static void
add_decision (Hand *hand, CarpaceDay day, const CarpaceDecision *decision)
{
  if (is_cut (decision) && within (hand, day, CARPACE_LOOK_CUT_DATES) && day != hand->cut_day)
    {
      hand->cuts++;
      hand->cut_day = day;
    }
  if (decision->level_down && within (hand, day, CARPACE_LOOK_LEVEL_DATES) && day != hand->level_day)
    {
      hand->levels_down++;
      hand->level_day = day;
    }
  if (decision->finding == CARPACE_FINDING_TWO_WEEKS_RISING && within (hand, day, 7))
    hand->rising = true;
}

static void
add_caution (Hand *hand, CarpaceDay day, CarpaceCautionWhat what)
{
  if (what == CARPACE_CAUTION_OPENED && !hand->caution)
    hand->caution_since = day;
  if (what == CARPACE_CAUTION_OPENED || what == CARPACE_CAUTION_CLOSED)
    hand->caution = what == CARPACE_CAUTION_OPENED;
}

static bool
add_record (void *user, const CarpaceRecord *record)
{
  Hand *hand = user;
  const CarpaceEntry *entry = &record->entry;

  if (entry->kind == CARPACE_ENTRY_RATING && entry->rating.discomfort >= 0)
    {
      hand->answered = MAX (hand->answered, record->day);
      if (within (hand, record->day, 7))
        hand->highest = MAX (hand->highest, entry->rating.discomfort);
    }
  if (entry->kind == CARPACE_ENTRY_MORNING
      && (entry->morning.waking >= 0 || entry->morning.now >= 0 || entry->morning.stiffness != CARPACE_STIFFNESS_UNSAID))
    hand->answered = MAX (hand->answered, record->day);
  if (entry->kind == CARPACE_ENTRY_DECISION)
    add_decision (hand, record->day, &entry->decision);
  if (entry->kind == CARPACE_ENTRY_CAUTION)
    add_caution (hand, record->day, entry->caution.what);
  return true;
}

static bool
look_at_hand (const CarpaceRosterStore *store, const CarpaceRosterAsk *ask, CarpaceRosterRow *row)
{
  const uint32_t kinds = CARPACE_KIND (CARPACE_ENTRY_RATING) | CARPACE_KIND (CARPACE_ENTRY_MORNING)
                         | CARPACE_KIND (CARPACE_ENTRY_DECISION) | CARPACE_KIND (CARPACE_ENTRY_CAUTION);
  Hand hand = { .today = ask->today, .answered = CARPACE_NO_DAY, .caution_since = CARPACE_NO_DAY, .cut_day = CARPACE_NO_DAY,
                .level_day = CARPACE_NO_DAY, .highest = -1 };
  CarpaceDiary diary = carpace_roster_diary (store, &row->who.player);
  bool read = diary.records_of (diary.self, ask->today - CARPACE_TEAM_DAYS, ask->today + 1, kinds, add_record, &hand);

  diary.free (diary.self);
  row->answered = hand.answered;
  row->caution_since = hand.caution ? hand.caution_since : CARPACE_NO_DAY;
  row->highest = hand.highest;
  row->looks |= (hand.caution ? 1u << CARPACE_LOOK_CAUTION : 0) | (hand.rising ? 1u << CARPACE_LOOK_TWO_RISING : 0)
                | (hand.cuts >= 2 ? 1u << CARPACE_LOOK_CUT_TWICE : 0)
                | (hand.levels_down >= 2 ? 1u << CARPACE_LOOK_LEVEL_DOWN : 0)
                | (within (&hand, hand.answered, CARPACE_LOOK_SILENT_DATES) ? 0 : 1u << CARPACE_LOOK_SILENT);
  return read;
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

/* The plan that was given to @player last: to them, else to anybody. */
static const CarpaceRosterGiven *
given_to (const CarpaceRosterAsk *ask, const CarpaceKey *player)
{
  const CarpaceRosterGiven *to_anybody = NULL, *to_them = NULL;

  for (size_t i = 0; i < ask->n_given; i++)
    {
      const CarpaceRosterGiven *given = &ask->given[i];
      const CarpaceRosterGiven **last = carpace_key_equal (&given->player, player) ? &to_them
                                        : carpace_key_is_one (&given->player) ? NULL : &to_anybody;

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
} Making;

static bool
add_player (void *user, const CarpaceRosterPlayer *player)
{
  Making *making = user;
  CarpaceRosterRow row = { .who = *player, .answered = CARPACE_NO_DAY, .caution_since = CARPACE_NO_DAY, .highest = -1 };
  int64_t newest;

  row.holds = player->grant.number > 0 ? carpace_grant_holds (&player->grant, player->guarded, making->ask->today)
                                       : CARPACE_TEAM_NOT_GRANTED;
  row.load = row.holds == CARPACE_TEAM_FINE && carpace_grant_covers (player->grant.what, CARPACE_BUNDLE_LOAD);
  row.hand = row.holds == CARPACE_TEAM_FINE && carpace_grant_covers (player->grant.what, CARPACE_BUNDLE_HAND);
  newest = row.load ? player->made_s[CARPACE_BUNDLE_LOAD] : player->made_s[CARPACE_BUNDLE_HAND];
  if ((row.load || row.hand) && making->ask->now_s - newest >= CARPACE_LOOK_MISSING_S)
    row.looks |= 1u << CARPACE_LOOK_MISSING;
  making->read = (!row.load || look_at_load (making->store, making->ask, &row))
                 && (!row.hand || look_at_hand (making->store, making->ask, &row));
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
  Making making = { store, ask, g_array_new (FALSE, FALSE, sizeof (CarpaceRosterRow)), true };

  if (!store->players (store->self, add_player, &making) || !making.read)
    {
      g_array_unref (making.rows);
      return NULL;
    }
  g_array_sort (making.rows, by_need);
  return making.rows;
}
