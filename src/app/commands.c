/* SPDX-License-Identifier: GPL-3.0-or-later */
/* commands.c: one table of command words, one reader for what follows each. */
#include "app/commands.h"

#include <string.h>

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
  if (!read_rating (words->word[1], &event->discomfort))
    return fault (words, CARPACE_WORDING_NOT_A_RATING, 1);
  if (words->n == 2)
    return true;
  int32_t site = carpace_name_value (CARPACE_WORDS_SITE, words->word[2]);
  if (site < 0)
    return not_of_set (words, CARPACE_WORDS_SITE, 2);
  event->site = (CarpaceSite) site;
  return words->n == 3 || fault (words, CARPACE_WORDING_TOO_MANY, 3);
}

static bool
looks_like_a_number (const char *word)
{
  if (*word == '-' || *word == '+')
    word++;
  return *word >= '0' && *word <= '9';
}

/* "--now N" and "--now=N"; *i is moved to the last word used. */
static bool
read_now (Words *words, int *i, CarpaceMorning *morning)
{
  const char *number = words->word[*i] + strlen ("--now");

  if (morning->now >= 0)
    return fault (words, CARPACE_WORDING_TWICE, *i);
  if (*number == '=')
    number++;
  else if (++*i < words->n)
    number = words->word[*i];
  else
    return fault (words, CARPACE_WORDING_MISSING, *i);
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
read_morning_option (Words *words, int *i, CarpaceMorning *morning)
{
  const char *word = words->word[*i];

  if (strcmp (word, "--now") == 0 || strncmp (word, "--now=", strlen ("--now=")) == 0)
    return read_now (words, i, morning);
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
  event->morning = (CarpaceMorning) { .waking = -1, .now = -1 };
  for (int i = 1; i < words->n; i++)
    if (!read_morning_word (words, &i, &event->morning))
      return false;
  return true;
}

static bool
read_caution_answer (const char *word, CarpaceCautionAnswer *ret_answer)
{
  if (strcmp (word, "none") == 0)
    *ret_answer = CARPACE_CAUTION_SIGNS;
  else if (strcmp (word, "seen") == 0)
    *ret_answer = CARPACE_CAUTION_SEEN;
  else if (strcmp (word, "gone") == 0)
    *ret_answer = CARPACE_CAUTION_GONE;
  else
    return false;
  return true;
}

static bool
read_caution (Words *words, CarpaceEvent *event)
{
  event->caution = CARPACE_CAUTION_ASK;
  if (words->n == 1)
    return true;
  if (read_caution_answer (words->word[1], &event->caution))
    return words->n == 2 || fault (words, CARPACE_WORDING_TOO_MANY, 2);
  event->caution = CARPACE_CAUTION_SIGNS;
  for (int i = 1; i < words->n; i++)
    {
      int32_t sign = carpace_name_value (CARPACE_WORDS_SIGN, words->word[i]);
      if (sign < 0)
        return not_of_set (words, CARPACE_WORDS_SIGN, i);
      event->signs |= UINT32_C (1) << sign;
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

static const struct { const char *word; CarpaceEventKind kind; Reader read; } commands[] = {
  { "start", CARPACE_EVENT_START, read_start },
  { "end", CARPACE_EVENT_END, read_no_more },
  { "pause", CARPACE_EVENT_PAUSE, read_no_more },
  { "continue", CARPACE_EVENT_CONTINUE, read_no_more },
  { "rest", CARPACE_EVENT_REST, read_no_more },
  { "after-run", CARPACE_EVENT_AFTER_RUN, read_no_more },
  { "play-on", CARPACE_EVENT_PLAY_ON, read_no_more },
  { "rate", CARPACE_EVENT_RATE, read_rate },
  { "morning", CARPACE_EVENT_MORNING, read_morning },
  { "caution", CARPACE_EVENT_CAUTION, read_caution },
  { "on-air", CARPACE_EVENT_ON_AIR, read_on_air },
};

#define N_COMMANDS ((int) (sizeof commands / sizeof commands[0]))

const char *
carpace_command_word (int index)
{
  return index >= 0 && index < N_COMMANDS ? commands[index].word : NULL;
}

bool
carpace_command_read (int n_words, const char *const *words, CarpaceEvent *ret_event, CarpaceWording *ret_wording)
{
  CarpaceWording wording = { .fault = CARPACE_WORDING_OK };
  Words all = { n_words, words, &wording };
  CarpaceEvent event = { .site = CARPACE_SITE_NONE };

  for (int i = 0; n_words > 0 && i < N_COMMANDS; i++)
    if (strcmp (commands[i].word, words[0]) == 0)
      {
        event.kind = commands[i].kind;
        if (commands[i].read (&all, &event))
          {
            *ret_event = event;
            return true;
          }
        *ret_wording = wording;
        return false;
      }
  *ret_wording = (CarpaceWording) { .fault = n_words > 0 ? CARPACE_WORDING_UNKNOWN : CARPACE_WORDING_MISSING };
  return false;
}
