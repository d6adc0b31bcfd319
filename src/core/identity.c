/* SPDX-License-Identifier: GPL-3.0-or-later */
/* identity.c: whose diaries are of one player. */
#include "carpace/diary.h"

#include <string.h>

bool
carpace_identity_is_one (const char *text)
{
  return strlen (text) == CARPACE_IDENTITY_CHARACTERS
         && strspn (text, "0123456789abcdef") == CARPACE_IDENTITY_CHARACTERS;
}

static bool
has (const CarpaceIdentity *identity, const char *id)
{
  for (int32_t i = 0; i < identity->n; i++)
    if (strcmp (identity->id[i], id) == 0)
      return true;
  return false;
}

bool
carpace_identity_same (const CarpaceIdentity *a, const CarpaceIdentity *b)
{
  for (int32_t i = 0; i < b->n; i++)
    if (has (a, b->id[i]))
      return true;
  return false;
}

bool
carpace_identity_add (CarpaceIdentity *identity, const char *id)
{
  if (has (identity, id))
    return true;
  if (identity->n == CARPACE_IDENTITIES)
    return false;
  memcpy (identity->id[identity->n++], id, CARPACE_IDENTITY_BYTES);
  return true;
}

const char *
carpace_identity_outside (const CarpaceIdentity *identity)
{
  const char *least = identity->n > 0 ? identity->id[0] : "";

  for (int32_t i = 1; i < identity->n; i++)
    if (strcmp (identity->id[i], least) < 0)
      least = identity->id[i];
  return least;
}
