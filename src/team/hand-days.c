/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/hand-days.h"

#include <string.h>

#include "team/content.h"
#include "team/roster.h"

_Static_assert (CARPACE_HAND_BACK == CARPACE_TEAM_DAYS, "a row looks back as far as a bundle does");

#define FORM 1 /* of what is kept; another is worked out anew */
#define HIGHEST_MOST 10

enum
{
  ANSWERED = 1,
  CUT = 2,
  LEVEL_DOWN = 4,
  RISING = 8,
  /* how the day leaves the caution; neither: as it was */
  OPEN = 16,
  CLOSED = 32,
  AGAIN = 64, /* with OPEN: it was closed that day before it was opened */
  ALL_SAID = 127
};

/* ---- worked out ---- */

static bool
is_cut (const CarpaceDecision *decision)
{
  return decision->scope == CARPACE_SCOPE_DAY
         && (decision->rule == CARPACE_RULE_CUT || decision->rule == CARPACE_RULE_CUT_ONCE || decision->rule == CARPACE_RULE_REST_DAY);
}

static uint8_t
said_by_decision (const CarpaceDecision *decision)
{
  return (uint8_t) ((is_cut (decision) ? CUT : 0) | (decision->level_down ? LEVEL_DOWN : 0)
                    | (decision->finding == CARPACE_FINDING_TWO_WEEKS_RISING ? RISING : 0));
}

static void
add_caution (CarpaceHandDay *day, CarpaceCautionWhat what)
{
  if (what == CARPACE_CAUTION_OPENED)
    day->said = (uint8_t) ((day->said & ~CLOSED) | OPEN | ((day->said & CLOSED) != 0 ? AGAIN : 0));
  if (what == CARPACE_CAUTION_CLOSED)
    day->said = (uint8_t) ((day->said & ~(OPEN | AGAIN)) | CLOSED);
}

static bool
add_record (void *user, const CarpaceRecord *record)
{
  CarpaceHandDays *days = user;
  int64_t at = (int64_t) record->day - days->since;
  CarpaceHandDay *day = &days->day[CLAMP (at, 0, CARPACE_HAND_DATES - 1)];
  const CarpaceEntry *entry = &record->entry;

  if (at < 0 || at >= CARPACE_HAND_DATES)
    return true; /* not asked for; a server is not believed */
  if (entry->kind == CARPACE_ENTRY_RATING && entry->rating.discomfort >= 0)
    {
      day->said |= ANSWERED;
      day->highest = (int8_t) MAX (day->highest, MIN (entry->rating.discomfort, HIGHEST_MOST));
    }
  if (entry->kind == CARPACE_ENTRY_MORNING
      && (entry->morning.waking >= 0 || entry->morning.now >= 0 || entry->morning.stiffness != CARPACE_STIFFNESS_UNSAID))
    day->said |= ANSWERED;
  if (entry->kind == CARPACE_ENTRY_DECISION)
    day->said |= said_by_decision (&entry->decision);
  if (entry->kind == CARPACE_ENTRY_CAUTION)
    add_caution (day, entry->caution.what);
  return true;
}

bool
carpace_hand_days_read (const CarpaceRosterStore *store, const CarpaceKey *player, CarpaceDay today, CarpaceHandDays *ret_days)
{
  const uint32_t kinds = CARPACE_KIND (CARPACE_ENTRY_RATING) | CARPACE_KIND (CARPACE_ENTRY_MORNING)
                         | CARPACE_KIND (CARPACE_ENTRY_DECISION) | CARPACE_KIND (CARPACE_ENTRY_CAUTION);
  CarpaceDiary diary = carpace_roster_diary (store, player);
  bool read;

  ret_days->since = today - CARPACE_HAND_BACK;
  for (int i = 0; i < CARPACE_HAND_DATES; i++)
    ret_days->day[i] = (CarpaceHandDay) { 0, -1 };
  read = diary.records_of (diary.self, ret_days->since, ret_days->since + CARPACE_HAND_DATES - 1, kinds, add_record, ret_days);
  diary.free (diary.self);
  return read;
}

/* ---- kept ---- */

static int32_t
number_at (const uint8_t *byte)
{
  return (int32_t) ((uint32_t) byte[0] | (uint32_t) byte[1] << 8 | (uint32_t) byte[2] << 16 | (uint32_t) byte[3] << 24);
}

_Static_assert (CARPACE_ROSTER_WORKED_OUT == 5 + 2 * CARPACE_HAND_DATES, "a form, a date, two bytes a day");

bool
carpace_hand_days_keep (const CarpaceRosterStore *store, const CarpaceKey *player, const CarpaceHandDays *days)
{
  uint8_t byte[CARPACE_ROSTER_WORKED_OUT] = { FORM };
  uint32_t since = (uint32_t) days->since;

  for (int i = 0; i < 4; i++)
    byte[1 + i] = (uint8_t) (since >> 8 * i);
  for (int i = 0; i < CARPACE_HAND_DATES; i++)
    {
      byte[5 + 2 * i] = days->day[i].said;
      byte[6 + 2 * i] = (uint8_t) (days->day[i].highest + 1);
    }
  return store->keep_worked_out == NULL || store->keep_worked_out (store->self, player, byte);
}

bool
carpace_hand_days_kept (const CarpaceRosterStore *store, const CarpaceKey *player, CarpaceDay today, CarpaceHandDays *ret_days)
{
  uint8_t byte[CARPACE_ROSTER_WORKED_OUT];
  int64_t since;

  if (store->worked_out == NULL || !store->worked_out (store->self, player, byte) || byte[0] != FORM)
    return false;
  since = ret_days->since = number_at (byte + 1);
  if ((int64_t) today - CARPACE_HAND_BACK < since || (int64_t) today + CARPACE_HAND_AHEAD >= since + CARPACE_HAND_DATES)
    return false;
  for (int i = 0; i < CARPACE_HAND_DATES; i++)
    {
      if (byte[5 + 2 * i] > ALL_SAID || byte[6 + 2 * i] > HIGHEST_MOST + 1)
        return false;
      ret_days->day[i] = (CarpaceHandDay) { byte[5 + 2 * i], (int8_t) (byte[6 + 2 * i] - 1) };
    }
  return true;
}

/* ---- looked at ---- */

typedef struct
{
  CarpaceDay answered, caution_since;
  int32_t cuts, levels_down, highest;
  bool caution, rising;
} Hand;

/* @param ago dates before today, below 0: after it */
static void
add_day (Hand *hand, const CarpaceHandDay *day, CarpaceDay date, int32_t ago)
{
  if ((day->said & ANSWERED) != 0)
    hand->answered = date;
  if ((day->said & OPEN) != 0 && (!hand->caution || (day->said & AGAIN) != 0))
    hand->caution_since = date;
  if ((day->said & (OPEN | CLOSED)) != 0)
    hand->caution = (day->said & OPEN) != 0;
  if (ago < 0)
    return;
  hand->cuts += (day->said & CUT) != 0 && ago < CARPACE_LOOK_CUT_DATES;
  hand->levels_down += (day->said & LEVEL_DOWN) != 0 && ago < CARPACE_LOOK_LEVEL_DATES;
  hand->rising = hand->rising || ((day->said & RISING) != 0 && ago < 7);
  if (ago < 7)
    hand->highest = MAX (hand->highest, day->highest);
}

void
carpace_hand_days_look (const CarpaceHandDays *days, CarpaceDay today, CarpaceRosterRow *row)
{
  Hand hand = { .answered = CARPACE_NO_DAY, .caution_since = CARPACE_NO_DAY, .highest = -1 };
  bool silent;

  for (int32_t ago = CARPACE_HAND_BACK; ago >= -CARPACE_HAND_AHEAD; ago--)
    add_day (&hand, &days->day[today - ago - days->since], today - ago, ago);
  silent = hand.answered == CARPACE_NO_DAY || hand.answered <= today - CARPACE_LOOK_SILENT_DATES;
  row->answered = hand.answered;
  row->caution_since = hand.caution ? hand.caution_since : CARPACE_NO_DAY;
  row->highest = hand.highest;
  row->looks |= (hand.caution ? 1u << CARPACE_LOOK_CAUTION : 0) | (hand.rising ? 1u << CARPACE_LOOK_TWO_RISING : 0)
                | (hand.cuts >= 2 ? 1u << CARPACE_LOOK_CUT_TWICE : 0)
                | (hand.levels_down >= 2 ? 1u << CARPACE_LOOK_LEVEL_DOWN : 0) | (silent ? 1u << CARPACE_LOOK_SILENT : 0);
}
