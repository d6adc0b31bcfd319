/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fuzz-words.c: a command's words, cut at zero bytes and at spaces before the first of them. */
#include <glib.h>
#include <string.h>

#include "app/commands.h"
#include "carpace/event-kinds.h"
#include "target.h"
#include "text/text.h"

#define MOST_WORDS 40

static void
check_event (const CarpaceEvent *event)
{
  int32_t n;
  const CarpaceField *field = carpace_event_fields (event->kind, &n);

  g_assert_true (event->kind < CARPACE_N_EVENTS);
  for (int32_t i = 0; i < n; i++)
    {
      int64_t value = carpace_field_get (&field[i], event);

      g_assert_true (value >= field[i].least && value <= field[i].most);
    }
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t n)
{
  g_autofree char *text = g_malloc (n + 1);
  const char *words[MOST_WORDS];
  int n_words = 0;
  CarpaceEvent event;
  CarpaceWording wording;

  memcpy (text, data, n);
  text[n] = '\0';
  g_strdelimit (text, " ", '\0');
  for (size_t i = 0; i < n && n_words < MOST_WORDS; i += strlen (text + i) + 1)
    words[n_words++] = text + i;
  if (carpace_command_read (n_words, words, &event, &wording))
    {
      check_event (&event);
      return 0;
    }
  g_assert_true (wording.fault > CARPACE_WORDING_OK && wording.fault < CARPACE_N_WORDINGS);
  g_assert_true (wording.at >= 0 && wording.at <= n_words);
  g_autofree char *sentence = carpace_text_wording (&wording, n_words, words, NULL);
  g_assert_true (*sentence != '\0' && g_utf8_validate (sentence, -1, NULL) && strchr (sentence, '\n') == NULL);
  return 0;
}
