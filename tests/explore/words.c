/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "words.h"

#include <stdlib.h>
#include <string.h>

#include "app/commands.h"

#define MOST_WORDS 64

static void
read_command (const char *words, CarpaceEvent *ret_event)
{
  char copy[80];
  const char *word[8];
  int n = 0;
  CarpaceWording wording;

  strcpy (copy, words);
  for (char *at = strtok (copy, " "); at != NULL; at = strtok (NULL, " "))
    word[n++] = at;
  if (!carpace_command_read (n, word, ret_event, &wording))
    abort ();
}

CarpaceEvent
words_read (const char *words, int64_t now_ms)
{
  CarpaceEvent event;
  CarpaceWording wording;

  if (carpace_fact_read (1, &words, now_ms, &event, &wording))
    return event;
  read_command (words, &event);
  return event;
}

const CarpaceEvent *
words_event (const char *words)
{
  static struct { const char *words; CarpaceEvent event; } known[MOST_WORDS];
  int i = 0;

  while (known[i].words != NULL && known[i].words != words)
    if (++i == MOST_WORDS)
      abort ();
  if (known[i].words == NULL)
    read_command (words, &known[i].event);
  known[i].words = words;
  return &known[i].event;
}
