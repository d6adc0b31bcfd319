/* SPDX-License-Identifier: GPL-3.0-or-later */
/** kept-double.h: a keyring of a test's own, as windows see it. */
#ifndef CARPACE_TESTS_UI_KEPT_DOUBLE_H
#define CARPACE_TESTS_UI_KEPT_DOUBLE_H

#include <glib.h>
#include <string.h>

#include "carpace/kept-phrase.h"

#define KEPT_OPENS "five dull lamps hum"
#define KEPT_REFUSED "The keyring did not take it."
#define KEPT_TAKEN_OUT "It is out of the keyring."

typedef struct
{
  CarpaceKeptPhrase port;
  bool absent, refuses; /* there is none; it takes nothing */
  bool kept, lacked;
  int tries;            /* how often it was to keep one */
} KeptDouble;

static bool
kept_can (void *self)
{
  return !((KeptDouble *) self)->absent;
}

static bool
kept_is (void *self)
{
  return ((KeptDouble *) self)->kept;
}

static bool
kept_lacked (void *self)
{
  return ((KeptDouble *) self)->lacked;
}

static char *
kept_keep (void *self, const char *phrase, bool *ret_done)
{
  KeptDouble *kept = self;

  kept->tries++;
  *ret_done = kept->kept = !kept->refuses && strcmp (phrase, KEPT_OPENS) == 0;
  return g_strdup (*ret_done ? "Kept, says the command." : KEPT_REFUSED);
}

static char *
kept_forget (void *self, bool *ret_done)
{
  ((KeptDouble *) self)->kept = false;
  *ret_done = true;
  return g_strdup (KEPT_TAKEN_OUT);
}

static inline void
kept_begin (KeptDouble *kept)
{
  *kept = (KeptDouble) { .port = { kept, kept_can, kept_is, kept_lacked, kept_keep, kept_forget } };
}

#endif
