/* SPDX-License-Identifier: GPL-3.0-or-later */
/* commands.c: command words are those of the table of events; a reader here for
 * what follows one. */
#include "app/commands.h"

#include <string.h>

#include "carpace/quantity.h"

#include "carpace/event-kinds.h"

typedef struct
{
  int n;
  const char *const *word;
  CarpaceWording *wording;
} Words;

typedef bool (*Reader) (Words *words, CarpaceEvent *event);

static bool
fault (Words *words, CarpaceWordingFault what, int at)
{
  words->wording->fault = what;
  words->wording->at = at;
  return false;
}

static bool
not_of_set (Words *words, CarpaceWords set, int at)
{
  words->wording->set = set;
  return fault (words, CARPACE_WORDING_NOT_OF_SET, at);
}

static bool
read_no_more (Words *words, CarpaceEvent *event)
{
  return words->n <= 1 || fault (words, CARPACE_WORDING_TOO_MANY, 1);
}

/* "0" to "10" and nothing else: " 3", "+3", "03" and "3.0" are no ratings. */
static bool
read_rating (const char *word, int32_t *ret_rating)
{
  if (strcmp (word, "10") == 0)
    *ret_rating = 10;
  else if (word[0] >= '0' && word[0] <= '9' && word[1] == '\0')
    *ret_rating = word[0] - '0';
  else
    return false;
  return true;
}

static bool
read_start (Words *words, CarpaceEvent *event)
{
  if (words->n == 1)
    return true;
  if (strcmp (words->word[1], "match") != 0 && strcmp (words->word[1], "--match") != 0)
    return fault (words, words->word[1][0] == '-' ? CARPACE_WORDING_NOT_OPTION : CARPACE_WORDING_TOO_MANY, 1);
  event->kind = CARPACE_EVENT_START_MATCH;
  return words->n == 2 || fault (words, CARPACE_WORDING_TOO_MANY, 2);
}

static bool
read_rate (Words *words, CarpaceEvent *event)
{
  if (words->n < 2)
    return fault (words, CARPACE_WORDING_MISSING, 1);
  if (!read_rating (words->word[1], &event->rate.discomfort))
    return fault (words, CARPACE_WORDING_NOT_A_RATING, 1);
  if (words->n == 2)
    return true;
  int32_t site = carpace_name_value (CARPACE_WORDS_SITE, words->word[2]);
  if (site < 0)
    return not_of_set (words, CARPACE_WORDS_SITE, 2);
  event->rate.site = (CarpaceSite) site;
  return words->n == 3 || fault (words, CARPACE_WORDING_TOO_MANY, 3);
}

static bool
looks_like_a_number (const char *word)
{
  if (*word == '-' || *word == '+')
    word++;
  return *word >= '0' && *word <= '9';
}

static bool
is_option (const char *word, const char *option)
{
  size_t n = strlen (option);

  return strncmp (word, option, n) == 0 && (word[n] == '\0' || word[n] == '=');
}

/* The value of "--option VALUE" or "--option=VALUE"; *i is moved to the last word
 * used. NULL, and a fault, where it is missing or was @said before. */
static const char *
option_value (Words *words, int *i, const char *option, bool said)
{
  const char *value = words->word[*i] + strlen (option);

  if (said)
    fault (words, CARPACE_WORDING_TWICE, *i);
  else if (*value == '=')
    return value + 1;
  else if (++*i < words->n)
    return words->word[*i];
  else
    fault (words, CARPACE_WORDING_MISSING, *i);
  return NULL;
}

static bool
read_now (Words *words, int *i, CarpaceMorning *morning)
{
  const char *number = option_value (words, i, "--now", morning->now >= 0);

  if (number == NULL)
    return false;
  return read_rating (number, &morning->now) || fault (words, CARPACE_WORDING_NOT_A_RATING, *i);
}

static bool
read_flag (Words *words, int at, bool *flag)
{
  if (*flag)
    return fault (words, CARPACE_WORDING_TWICE, at);
  *flag = true;
  return true;
}

static bool
read_site (Words *words, int *i, CarpaceMorning *morning)
{
  const char *word = option_value (words, i, "--site", morning->site != CARPACE_SITE_NONE);
  int32_t site = word != NULL ? carpace_name_value (CARPACE_WORDS_SITE, word) : -1;

  if (word == NULL)
    return false;
  if (site < 0)
    return not_of_set (words, CARPACE_WORDS_SITE, *i);
  morning->site = (CarpaceSite) site;
  return true;
}

static bool
read_morning_option (Words *words, int *i, CarpaceMorning *morning)
{
  const char *word = words->word[*i];

  if (is_option (word, "--now"))
    return read_now (words, i, morning);
  if (is_option (word, "--site"))
    return read_site (words, i, morning);
  if (strcmp (word, "--other-load") == 0)
    return read_flag (words, *i, &morning->other_load);
  if (strcmp (word, "--pain-relief") == 0)
    return read_flag (words, *i, &morning->pain_relief);
  return fault (words, CARPACE_WORDING_NOT_OPTION, *i);
}

static bool
read_stiffness (Words *words, int at, CarpaceMorning *morning)
{
  int32_t stiffness = carpace_name_value (CARPACE_WORDS_STIFFNESS, words->word[at]);

  if (stiffness <= CARPACE_STIFFNESS_UNSAID)
    return not_of_set (words, CARPACE_WORDS_STIFFNESS, at);
  if (morning->stiffness != CARPACE_STIFFNESS_UNSAID)
    return fault (words, CARPACE_WORDING_TWICE, at);
  morning->stiffness = (CarpaceStiffness) stiffness;
  return true;
}

static bool
read_morning_word (Words *words, int *i, CarpaceMorning *morning)
{
  const char *word = words->word[*i];

  if (strncmp (word, "--", 2) == 0)
    return read_morning_option (words, i, morning);
  if (!looks_like_a_number (word))
    return read_stiffness (words, *i, morning);
  if (morning->waking >= 0)
    return fault (words, CARPACE_WORDING_TWICE, *i);
  return read_rating (word, &morning->waking) || fault (words, CARPACE_WORDING_NOT_A_RATING, *i);
}

static bool
read_morning (Words *words, CarpaceEvent *event)
{
  for (int i = 1; i < words->n; i++)
    if (!read_morning_word (words, &i, &event->morning))
      return false;
  return true;
}

static bool
read_caution_answer (const char *word, CarpaceCautionAnswer *ret_answer)
{
  int32_t answer = strcmp (word, "none") == 0 ? CARPACE_CAUTION_SIGNS
                                              : carpace_name_value (CARPACE_WORDS_CAUTION_ANSWER, word);

  if (answer < CARPACE_CAUTION_SEEN && strcmp (word, "none") != 0)
    return false; /* "ask" is said by no further word, "signs" by theirs */
  *ret_answer = (CarpaceCautionAnswer) answer;
  return true;
}

static bool
read_seen_by (Words *words, int *i, CarpaceClosing *closing)
{
  const char *word = option_value (words, i, "--by", closing->by != CARPACE_SEEN_BY_UNSAID);
  int32_t by = word != NULL ? carpace_name_value (CARPACE_WORDS_SEEN_BY, word) : 0;

  if (word == NULL)
    return false;
  if (by <= CARPACE_SEEN_BY_UNSAID)
    return not_of_set (words, CARPACE_WORDS_SEEN_BY, *i);
  closing->by = (CarpaceSeenBy) by;
  return true;
}

static bool
read_seen_on (Words *words, int *i, CarpaceClosing *closing)
{
  const char *date = option_value (words, i, "--on", closing->on != 0);

  if (date == NULL)
    return false;
  return carpace_day_read (date, &closing->on) || fault (words, CARPACE_WORDING_NOT_A_DATE, *i);
}

static bool
read_allowed (Words *words, int *i, CarpaceClosing *closing)
{
  const char *dose = option_value (words, i, "--dose", closing->dose_ms > 0);
  double ms;

  if (dose == NULL)
    return false;
  if (carpace_quantity_read (dose, CARPACE_UNIT_DURATION, &ms) != CARPACE_QUANTITY_OK || ms < (double) CARPACE_MINUTE_MS
      || ms > (double) (8 * CARPACE_HOUR_MS))
    return fault (words, CARPACE_WORDING_NOT_A_DOSE, *i);
  closing->dose_ms = (int64_t) ms;
  return true;
}

/* "seen" and "gone"; who has seen it, when, and what they allow. */
static bool
read_closing (Words *words, CarpaceEvent *event)
{
  CarpaceClosing *closing = &event->caution.closing;
  bool good = true;

  for (int i = 2; good && i < words->n; i++)
    {
      const char *word = words->word[i];
      bool seen = event->caution.answer == CARPACE_CAUTION_SEEN;
      if (seen && is_option (word, "--by"))
        good = read_seen_by (words, &i, closing);
      else if (seen && is_option (word, "--on"))
        good = read_seen_on (words, &i, closing);
      else if (seen && is_option (word, "--dose"))
        good = read_allowed (words, &i, closing);
      else
        good = fault (words, word[0] == '-' ? CARPACE_WORDING_NOT_OPTION : CARPACE_WORDING_TOO_MANY, i);
    }
  return good;
}

static bool
read_caution (Words *words, CarpaceEvent *event)
{
  if (words->n == 1)
    return true; /* asked */
  if (read_caution_answer (words->word[1], &event->caution.answer))
    return read_closing (words, event);
  event->caution.answer = CARPACE_CAUTION_SIGNS;
  for (int i = 1; i < words->n; i++)
    {
      int32_t sign = carpace_name_value (CARPACE_WORDS_SIGN, words->word[i]);
      if (sign < 0)
        return not_of_set (words, CARPACE_WORDS_SIGN, i);
      event->caution.signs |= UINT32_C (1) << sign;
    }
  return true;
}

static bool
read_on_air (Words *words, CarpaceEvent *event)
{
  if (words->n < 2)
    return fault (words, CARPACE_WORDING_MISSING, 1);
  if (strcmp (words->word[1], "off") == 0)
    event->kind = CARPACE_EVENT_OFF_AIR;
  else if (strcmp (words->word[1], "on") != 0)
    return fault (words, CARPACE_WORDING_NOT_ON_OFF, 1);
  return words->n == 2 || fault (words, CARPACE_WORDING_TOO_MANY, 2);
}

/* How many since the last line of it, or since the block began. */
static bool
read_clicks (Words *words, CarpaceEvent *event)
{
  const CarpaceField *count = carpace_event_field (CARPACE_EVENT_CLICKS, "count");
  int64_t n = 0;
  const char *at;

  if (words->n < 2)
    return fault (words, CARPACE_WORDING_MISSING, 1);
  for (at = words->word[1]; *at >= '0' && *at <= '9' && n <= count->most; at++)
    n = n * 10 + (*at - '0');
  if (at == words->word[1] || *at != '\0' || n > count->most)
    return fault (words, CARPACE_WORDING_NOT_A_COUNT, 1);
  event->clicks.count = (int32_t) n;
  return words->n == 2 || fault (words, CARPACE_WORDING_TOO_MANY, 2);
}

/* What may follow the word of each kind; where nothing is named, nothing may.
 * A kind whose word belongs to the one before it is reached through that. */
static const Reader readers[CARPACE_N_EVENTS] = {
  [CARPACE_EVENT_START] = read_start,
  [CARPACE_EVENT_RATE] = read_rate,
  [CARPACE_EVENT_MORNING] = read_morning,
  [CARPACE_EVENT_CAUTION] = read_caution,
  [CARPACE_EVENT_ON_AIR] = read_on_air,
  [CARPACE_EVENT_CLICKS] = read_clicks,
};

/* The kind that a script's @word tells, of facts or of all others: a fact is
 * told by a desktop or a script, never by a player's command. */
static CarpaceEventKind
kind_of (const char *word, bool fact)
{
  for (int kind = 0; kind < CARPACE_N_EVENTS; kind++)
    {
      const CarpaceEventRow *row = &carpace_event_kinds[kind];

      if ((row->taken == CARPACE_TAKEN_AS_FACT) == fact && row->script != NULL && strcmp (row->script, word) == 0)
        return (CarpaceEventKind) kind;
    }
  return CARPACE_N_EVENTS;
}

const char *
carpace_command_word (int index)
{
  for (int kind = 0; kind < CARPACE_N_EVENTS; kind++)
    {
      const char *word = carpace_event_kinds[kind].script;

      if (word != NULL && kind_of (word, false) == (CarpaceEventKind) kind && index-- == 0)
        return word;
    }
  return NULL;
}

static bool
read_words (Words *words, CarpaceEventKind kind, CarpaceEvent *ret_event)
{
  CarpaceEvent event;

  if (kind == CARPACE_N_EVENTS)
    return false;
  words->wording->fault = CARPACE_WORDING_OK;
  carpace_event_init (&event, kind);
  if (!(readers[kind] != NULL ? readers[kind] : read_no_more) (words, &event))
    return false;
  *ret_event = event;
  return true;
}

static bool
read (int n_words, const char *const *word, bool fact, CarpaceEvent *ret_event, CarpaceWording *ret_wording)
{
  CarpaceWording wording = { .fault = n_words > 0 ? CARPACE_WORDING_UNKNOWN : CARPACE_WORDING_MISSING };
  Words words = { n_words, word, &wording };
  bool good = read_words (&words, n_words > 0 ? kind_of (word[0], fact) : CARPACE_N_EVENTS, ret_event);

  if (!good)
    *ret_wording = wording;
  return good;
}

bool
carpace_fact_read (int n_words, const char *const *words, int64_t at_ms, CarpaceEvent *ret_event,
                   CarpaceWording *ret_wording)
{
  if (!read (n_words, words, true, ret_event, ret_wording))
    return false;
  if (carpace_event_kinds[ret_event->kind].says == CARPACE_SAYS_FACT)
    ret_event->fact.since_ms = at_ms;
  return true;
}

bool
carpace_command_read (int n_words, const char *const *words, CarpaceEvent *ret_event, CarpaceWording *ret_wording)
{
  return read (n_words, words, false, ret_event, ret_wording);
}
