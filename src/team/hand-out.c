/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/hand-out.h"

#include <string.h>

#define LINE "# signed: "
#define HEIRS 8 /* keys in a row, at most */

/* Where the line of a signature begins; @n where there is none. */
static size_t
signed_until (const char *text, size_t n)
{
  size_t end = n > 0 && text[n - 1] == '\n' ? n - 1 : n;

  while (end > 0 && text[end - 1] != '\n')
    end--;
  return n - end > strlen (LINE) && strncmp (text + end, LINE, strlen (LINE)) == 0 ? end : n;
}

CarpaceKey
carpace_hand_out_hash (const char *text, size_t n)
{
  return carpace_team_hash (text, signed_until (text, n));
}

GString *
carpace_hand_out_sign (const char *text, size_t n, const CarpacePerson *giver, const CarpaceCard *card, const CarpaceKey *player,
                       int64_t made_s, GByteArray **ret_record)
{
  GString *out = g_string_new_len (text, (gssize) signed_until (text, n));
  CarpaceHandOut hand_out = { .giver = giver->signer.key, .giver_role = card->role, .player = *player, .made_s = made_s };
  g_autofree char *line = NULL;

  if (out->len > 0 && out->str[out->len - 1] != '\n')
    g_string_append_c (out, '\n');
  g_strlcpy (hand_out.giver_name, card->name, sizeof hand_out.giver_name);
  hand_out.plan = carpace_team_hash (out->str, out->len);
  *ret_record = carpace_signed_write (CARPACE_TEAM_HAND_OUT, &hand_out, &giver->signer, 1);
  line = g_base64_encode ((*ret_record)->data, (*ret_record)->len);
  g_string_append_printf (out, LINE "%s\n", line);
  return out;
}

static CarpaceTeamFault
read_record (const uint8_t *from, size_t n, CarpaceHandOut *ret_hand_out)
{
  return carpace_signed_read_own (CARPACE_TEAM_HAND_OUT, from, n, ret_hand_out, &ret_hand_out->giver);
}

CarpaceTeamFault
carpace_hand_out_read (const char *text, size_t n, CarpaceHandOut *ret_hand_out)
{
  size_t end = signed_until (text, n), n_record;
  g_autofree char *line = NULL;
  g_autofree guchar *record = NULL;
  CarpaceKey hash;
  CarpaceTeamFault fault;

  if (end == n)
    return CARPACE_TEAM_NO_FILE;
  if (!carpace_team_ready ())
    return CARPACE_TEAM_FAILED;
  line = g_strndup (text + end + strlen (LINE), n - end - strlen (LINE));
  record = g_base64_decode (g_strchomp (line), &n_record);
  fault = read_record (record, n_record, ret_hand_out);
  hash = carpace_team_hash (text, end);
  return fault == CARPACE_TEAM_FINE && !carpace_key_equal (&hash, &ret_hand_out->plan) ? CARPACE_TEAM_FORGED : fault;
}

/* ---- what a giver keeps ---- */

bool
carpace_hand_out_keep (const CarpaceFolder *shelf, const GByteArray *record)
{
  CarpaceKey hash = carpace_team_hash (record->data, record->len);
  g_autofree char *name = carpace_shelf_name ("given-", &hash, "");

  return shelf->write (shelf->self, name, record->data, record->len);
}

GArray *
carpace_hand_outs_given (const CarpaceFolder *shelf)
{
  g_autoptr (GPtrArray) names = carpace_folder_names (shelf, "given-", "");
  GArray *given = g_array_new (FALSE, FALSE, sizeof (CarpaceRosterGiven));

  for (guint i = 0; names != NULL && i < names->len; i++)
    {
      CarpaceTeamFault fault;
      g_autoptr (GByteArray) file = carpace_folder_file (shelf, names->pdata[i], &fault);
      CarpaceHandOut hand_out;
      CarpaceRosterGiven one;

      if (file == NULL || read_record (file->data, file->len, &hand_out) != CARPACE_TEAM_FINE)
        continue;
      one = (CarpaceRosterGiven) { hand_out.player, hand_out.plan, hand_out.made_s };
      g_array_append_val (given, one);
    }
  return given;
}

/* ---- keys in place of others ---- */

bool
carpace_heir_keep (const CarpaceFolder *shelf, const GByteArray *heir)
{
  CarpaceHeir read;
  g_autofree char *name = NULL;

  if (carpace_heir_read (heir->data, heir->len, &read) != CARPACE_TEAM_FINE)
    return false;
  name = carpace_shelf_name ("heir-", &read.before, "");
  return shelf->write (shelf->self, name, heir->data, heir->len);
}

bool
carpace_key_follows (const CarpaceFolder *shelf, const CarpaceKey *before, const CarpaceKey *key)
{
  CarpaceKey now = *before;

  for (int i = 0; i < HEIRS && !carpace_key_equal (&now, key); i++)
    {
      g_autofree char *name = carpace_shelf_name ("heir-", &now, "");
      CarpaceTeamFault fault;
      g_autoptr (GByteArray) file = carpace_folder_file (shelf, name, &fault);
      CarpaceHeir heir;

      if (file == NULL || carpace_heir_read (file->data, file->len, &heir) != CARPACE_TEAM_FINE
          || !carpace_key_equal (&heir.before, &now))
        return false;
      now = heir.sign;
    }
  return carpace_key_equal (&now, key);
}

/* ---- what was given before ---- */

void
carpace_given_before_add (CarpaceGivenBefore *before, int32_t version, const char *text)
{
  before->version = before->any ? MAX (before->version, version) : version;
  before->any = true;
  before->last_version = version;
  before->last_fault = carpace_hand_out_read (text, strlen (text), &before->last);
  if (before->last_fault == CARPACE_TEAM_FINE
      && (!before->pinned || carpace_key_follows (before->shelf, &before->pin.giver, &before->last.giver)))
    {
      before->pinned = true;
      before->pin = before->last;
    }
}

typedef struct
{
  const char *name;
  CarpaceGivenBefore *before;
} Reading;

static bool
add_given (void *user, const CarpacePlanRecord *record)
{
  const Reading *reading = user;

  if (record->what == CARPACE_PLAN_GIVEN && strcmp (record->name, reading->name) == 0)
    carpace_given_before_add (reading->before, record->version, record->text);
  return true;
}

bool
carpace_given_before_read (const CarpaceFolder *shelf, const CarpaceDiary *diary, const char *name, CarpaceGivenBefore *ret_before)
{
  Reading reading = { name, ret_before };

  *ret_before = (CarpaceGivenBefore) { .shelf = shelf, .last_fault = CARPACE_TEAM_NO_FILE };
  return diary->plans == NULL || diary->plans (diary->self, add_given, &reading);
}

const CarpaceHandOut *
carpace_given_before_by (const CarpaceGivenBefore *before, int32_t version)
{
  return before->last_fault == CARPACE_TEAM_FINE && before->last_version == version ? &before->last : NULL;
}

bool
carpace_given_before_lets (const CarpaceGivenBefore *before, CarpaceTeamFault fault, const CarpaceHandOut *hand_out)
{
  return !before->pinned
         || (fault == CARPACE_TEAM_FINE && carpace_key_follows (before->shelf, &before->pin.giver, &hand_out->giver));
}
