/* SPDX-License-Identifier: GPL-3.0-or-later */
/* shortcuts.c: the table of shortcuts. */
#include "carpace/shortcuts.h"

#include <string.h>

const CarpaceShortcut carpace_shortcuts[] = {
  { "rate-0", "rate 0", "0" },
  { "rate-1", "rate 1", "1" },
  { "rate-2", "rate 2", "2" },
  { "rate-3", "rate 3", "3" },
  { "rate-4", "rate 4", "4" },
  { "rate-5", "rate 5", "5" },
  { "rate-6", "rate 6", "6" },
  { "rate-7", "rate 7", "7" },
  { "rate-8", "rate 8", "8" },
  { "rate-9", "rate 9", "9" },
  { "rate-10", "rate 10", "minus" },
  { "rest", "rest", "r" },
  { "after-run", "after-run", "e" },
  { "play-on", "play-on", "o" },
  { "pause", "pause", "p" },
  { "continue", "continue", "c" },
};
const int32_t carpace_n_shortcuts = sizeof carpace_shortcuts / sizeof carpace_shortcuts[0];

const CarpaceShortcut *
carpace_shortcut_of (const char *id)
{
  for (int32_t i = 0; i < carpace_n_shortcuts; i++)
    if (strcmp (carpace_shortcuts[i].id, id) == 0)
      return &carpace_shortcuts[i];
  return NULL;
}
