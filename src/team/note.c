/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/note.h"

#include <stdlib.h>
#include <string.h>

#include "team/bundle.h"
#include "team/sealed.h"
#include "team/share.h"

#define TAKEN "note-"
#define LAST "noted-"
#define AWAY "noted-away-"
#define TOLD "noted-told-"
#define FILE_MOST 8192 /* bytes: more than the longest takes */
#define SET_BACK_S (30 * 24 * 60 * 60) /* further than that a clock is not set back, but was wrong */

/* ---- one note ---- */

bool
carpace_note_is_text (const char *text)
{
  size_t n = strlen (text);

  return n > 0 && n < CARPACE_TEAM_NOTE_BYTES && carpace_record_is_text ((const uint8_t *) text, n)
         && g_utf8_strlen (text, -1) <= CARPACE_TEAM_NOTE_CHARACTERS;
}

GByteArray *
carpace_note_write (const CarpacePerson *from, const CarpaceKey *player, const CarpaceKey *device, int32_t n, const char *text,
                    int64_t made_s)
{
  CarpaceNote note = { .from = from->signer.key, .player = *player, .made_s = made_s };
  CarpaceNoteText inside = { .from = from->signer.key };
  CarpaceKey seal[CARPACE_TEAM_NOTE_DEVICES];
  g_autoptr (GByteArray) rows = NULL, readers = NULL, content = NULL;

  if (n < 1 || n > CARPACE_TEAM_NOTE_DEVICES || !carpace_note_is_text (text))
    return NULL;
  for (int32_t i = 0; i < n; i++)
    if (!carpace_signer_seal (&device[i], &seal[i]))
      return NULL;
  g_strlcpy (inside.text, text, sizeof inside.text);
  rows = g_byte_array_new ();
  carpace_record_write (CARPACE_TEAM_NOTE_TEXT, &inside, rows);
  if (!carpace_seal (seal, n, rows, &readers, &content))
    return NULL;
  note.readers = (CarpaceTeamBytes) { readers->data, readers->len };
  note.content = (CarpaceTeamBytes) { content->data, content->len };
  return carpace_signed_write (CARPACE_TEAM_NOTE, &note, &from->signer, 1);
}

CarpaceTeamFault
carpace_note_read (const uint8_t *from, size_t n, CarpaceNote *ret_note)
{
  CarpaceTeamFault fault = carpace_signed_read_own (CARPACE_TEAM_NOTE, from, n, ret_note, &ret_note->from);

  return fault == CARPACE_TEAM_FINE && !carpace_sealed_is_whole (&ret_note->readers) ? CARPACE_TEAM_DAMAGED : fault;
}

CarpaceTeamFault
carpace_note_open (const CarpaceNote *note, const CarpaceSigner *device, CarpaceNoteText *ret_text)
{
  CarpaceKey seal;
  uint8_t secret[CARPACE_KEY_BYTES];
  GByteArray *rows = NULL;
  CarpaceTeamFault fault;
  size_t used;

  if (!carpace_signer_seal_secret (device, &seal, secret))
    return CARPACE_TEAM_NOT_FOR_YOU;
  fault = carpace_unseal (&note->readers, &note->content, &seal, secret, &rows);
  carpace_wipe (secret, sizeof secret);
  if (fault != CARPACE_TEAM_FINE)
    return fault;
  fault = carpace_record_read (CARPACE_TEAM_NOTE_TEXT, rows->data, rows->len, ret_text, &used);
  if (fault == CARPACE_TEAM_FINE && (used != rows->len || !carpace_note_is_text (ret_text->text)))
    fault = CARPACE_TEAM_DAMAGED;
  if (fault == CARPACE_TEAM_FINE && !carpace_key_equal (&ret_text->from, &note->from))
    fault = CARPACE_TEAM_OTHER_SIGNER;
  carpace_wipe_file (rows);
  return fault;
}

/* ---- leaving one ---- */

static char *
name_in_folder (const CarpaceKey *player, const CarpaceKey *from)
{
  g_autofree char *begins = carpace_shelf_name ("", player, "-");

  return carpace_shelf_name (begins, from, CARPACE_TEAM_NOTE_END);
}

/* The device that made a bundle, where that is one of @player's. */
static bool
device_of (const CarpaceFolder *shared, const char *name, const CarpaceKey *player, CarpaceKey *ret_device)
{
  CarpaceTeamFault fault;
  g_autoptr (GByteArray) file = carpace_folder_file (shared, name, &fault);
  CarpaceBundleSeen seen;

  if (file == NULL || carpace_bundle_read (file->data, file->len, &seen) != CARPACE_TEAM_FINE
      || !carpace_key_equal (&seen.bundle.player, player))
    return false;
  *ret_device = seen.device.device;
  return true;
}

/* Whether @name is of one of the @n devices. A name proves nothing: it only spares reading what is known. */
static bool
is_known (const char *name, size_t at, const CarpaceKey *device, int32_t n)
{
  for (int32_t i = 0; i < n; i++)
    {
      char digits[CARPACE_KEY_SHORT_BYTES];

      carpace_key_short (&device[i], digits);
      if (strncmp (name + at, digits, strlen (digits)) == 0)
        return true;
    }
  return false;
}

static bool
has_device (const CarpaceKey *device, int32_t n, const CarpaceKey *one)
{
  for (int32_t i = 0; i < n; i++)
    if (carpace_key_equal (&device[i], one))
      return true;
  return false;
}

/* @return how many, -1 where the folder cannot be read */
static int32_t
find_devices (const CarpaceFolder *shared, const CarpaceKey *player, CarpaceKey device[CARPACE_TEAM_NOTE_DEVICES])
{
  g_autofree char *begins = carpace_shelf_name ("", player, "-");
  g_autoptr (GPtrArray) names = carpace_folder_names (shared, begins, CARPACE_BUNDLE_END);
  int32_t n = 0;

  if (names == NULL)
    return -1;
  for (guint i = 0; i < names->len && n < CARPACE_TEAM_NOTE_DEVICES; i++)
    {
      CarpaceKey one;

      if (!is_known (names->pdata[i], strlen (begins), device, n) && device_of (shared, names->pdata[i], player, &one)
          && !has_device (device, n, &one))
        device[n++] = one;
    }
  return n;
}

/* A file that a note can be. */
static GByteArray *
small_file (const CarpaceFolder *folder, const char *name, CarpaceTeamFault *ret_fault)
{
  size_t n;
  uint8_t *bytes = folder->read (folder->self, name, FILE_MOST, &n, ret_fault);
  GByteArray *file = bytes != NULL ? g_byte_array_new () : NULL;

  if (file != NULL)
    g_byte_array_append (file, bytes, (guint) n);
  free (bytes);
  return file;
}

/* Later than the own one that is there, also where the clock was set back: else it would be taken for an old one. One that is
 * far in the future was refused, and would have this one refused, too. */
static int64_t
made_after (const CarpaceFolder *shared, const char *name, const CarpaceKey *from, int64_t now_s)
{
  CarpaceTeamFault fault;
  g_autoptr (GByteArray) file = small_file (shared, name, &fault);
  CarpaceNote note;

  if (file == NULL || carpace_note_read (file->data, file->len, &note) != CARPACE_TEAM_FINE || !carpace_key_equal (&note.from, from)
      || note.made_s > now_s + SET_BACK_S)
    return now_s;
  return MAX (now_s, note.made_s + 1);
}

CarpaceTeamFault
carpace_note_leave (const CarpaceFolder *shared, const CarpacePerson *from, const CarpaceKey *player, const char *text, int64_t now_s)
{
  CarpaceKey device[CARPACE_TEAM_NOTE_DEVICES];
  g_autofree char *name = name_in_folder (player, &from->signer.key);
  g_autoptr (GByteArray) file = NULL;
  int32_t n = find_devices (shared, player, device);

  if (n <= 0)
    return n < 0 ? CARPACE_TEAM_FAILED : CARPACE_TEAM_NO_FILE;
  file = carpace_note_write (from, player, device, n, text, made_after (shared, name, &from->signer.key, now_s));
  if (file == NULL)
    return CARPACE_TEAM_DAMAGED;
  return shared->write (shared->self, name, file->data, file->len) ? CARPACE_TEAM_FINE : CARPACE_TEAM_FAILED;
}

/* ---- what is kept of them ---- */

static bool
keep_time (const CarpaceFolder *shelf, const char *begin, const CarpaceKey *from, int64_t made_s)
{
  g_autofree char *name = carpace_shelf_name (begin, from, ""), *text = g_strdup_printf ("%" G_GINT64_FORMAT, made_s);

  return carpace_shelf_keep_text (shelf, name, text);
}

/* -1 where none is kept. */
static int64_t
kept_time (const CarpaceFolder *shelf, const char *begin, const CarpaceKey *from)
{
  g_autofree char *name = carpace_shelf_name (begin, from, ""), *text = carpace_shelf_text (shelf, name);

  return text != NULL ? g_ascii_strtoll (text, NULL, 10) : -1;
}

/* Whose words reach a player: a coach or clinician whose key was accepted. */
static bool
may_write (const CarpaceFolder *shelf, const CarpaceKey *from, CarpaceCard *ret_card)
{
  return carpace_shelf_knows (shelf, from, ret_card)
         && (ret_card->role == CARPACE_ROLE_COACH || ret_card->role == CARPACE_ROLE_CLINICIAN);
}

/* ---- taking them in ---- */

typedef struct
{
  const CarpaceFolder *shelf, *shared;
  CarpaceKey player;
  CarpaceSigner device;
  int64_t now_s;
  int32_t n_new;
  bool kept; /* false: the shelf cannot be written */
} Taking;

/* @return FINE also where it was taken before, or is sealed to another computer of the same player */
static CarpaceTeamFault
take (Taking *taking, const GByteArray *file)
{
  CarpaceNote note;
  CarpaceNoteText text;
  CarpaceCard card;
  CarpaceTeamFault fault = carpace_note_read (file->data, file->len, &note);
  g_autofree char *name = NULL;
  int64_t last;

  if (fault != CARPACE_TEAM_FINE)
    return fault;
  if (!carpace_key_equal (&note.player, &taking->player))
    return CARPACE_TEAM_OTHER_SIGNER;
  if (!may_write (taking->shelf, &note.from, &card))
    return CARPACE_TEAM_UNKNOWN;
  if (note.made_s > taking->now_s + CARPACE_TEAM_CLOCKS_APART_S)
    return CARPACE_TEAM_AHEAD;
  last = kept_time (taking->shelf, LAST, &note.from);
  if (note.made_s <= last)
    return note.made_s == last ? CARPACE_TEAM_FINE : CARPACE_TEAM_ROLLED_BACK;
  fault = carpace_note_open (&note, &taking->device, &text);
  carpace_wipe (&text, sizeof text);
  if (fault != CARPACE_TEAM_FINE)
    return fault == CARPACE_TEAM_NOT_FOR_YOU ? CARPACE_TEAM_FINE : fault;
  name = carpace_shelf_name (TAKEN, &note.from, CARPACE_TEAM_NOTE_END);
  taking->kept = taking->shelf->write (taking->shelf->self, name, file->data, file->len)
                 && keep_time (taking->shelf, LAST, &note.from, note.made_s);
  taking->n_new += taking->kept;
  return CARPACE_TEAM_FINE;
}

static bool
begin (const CarpaceFolder *shelf, Taking *taking)
{
  CarpaceCard card;
  g_autoptr (GByteArray) word = NULL;

  if (carpace_shelf_card (shelf, &card, NULL) != CARPACE_TEAM_FINE
      || carpace_shelf_device (shelf, &taking->device, &word) != CARPACE_TEAM_FINE)
    return false;
  taking->player = card.sign;
  return true;
}

int32_t
carpace_notes_take (const CarpaceFolder *shelf, const CarpaceFolder *shared, int64_t now_s, CarpaceNoteRefused refused, void *user)
{
  Taking taking = { .shelf = shelf, .shared = shared, .now_s = now_s, .kept = true };
  g_autofree char *begins = NULL;
  g_autoptr (GPtrArray) names = NULL;

  if (!begin (shelf, &taking))
    return 0; /* what is left for others tells why */
  begins = carpace_shelf_name ("", &taking.player, "-");
  names = carpace_folder_names (shared, begins, CARPACE_TEAM_NOTE_END);
  for (guint i = 0; names != NULL && taking.kept && i < MIN (names->len, CARPACE_NOTES_MOST); i++)
    {
      CarpaceTeamFault fault;
      g_autoptr (GByteArray) file = small_file (shared, names->pdata[i], &fault);

      if (file != NULL)
        fault = take (&taking, file);
      if (fault != CARPACE_TEAM_FINE && fault != CARPACE_TEAM_NO_FILE)
        refused (user, names->pdata[i], fault);
    }
  carpace_signer_wipe (&taking.device);
  return names != NULL && taking.kept ? taking.n_new : -1;
}

/* ---- reading what was taken ---- */

static bool
read_one (const Taking *taking, const GByteArray *file, CarpaceNoteRead *ret_read)
{
  CarpaceNote note;
  CarpaceNoteText text;

  if (carpace_note_read (file->data, file->len, &note) != CARPACE_TEAM_FINE || !may_write (taking->shelf, &note.from, &ret_read->from)
      || carpace_note_open (&note, &taking->device, &text) != CARPACE_TEAM_FINE)
    return false;
  memcpy (ret_read->text, text.text, sizeof ret_read->text);
  ret_read->made_s = note.made_s;
  ret_read->away = kept_time (taking->shelf, AWAY, &note.from) == note.made_s;
  ret_read->told = kept_time (taking->shelf, TOLD, &note.from) == note.made_s;
  return true;
}

void
carpace_notes (const CarpaceFolder *shelf, CarpaceNoteVisitor visit, void *user)
{
  Taking reading = { .shelf = shelf };
  g_autoptr (GPtrArray) names = carpace_folder_names (shelf, TAKEN, CARPACE_TEAM_NOTE_END);
  bool more = names != NULL && names->len > 0 && carpace_team_ready () && begin (shelf, &reading);

  for (guint i = 0; more && i < names->len; i++)
    {
      CarpaceTeamFault fault;
      g_autoptr (GByteArray) file = small_file (shelf, names->pdata[i], &fault);
      CarpaceNoteRead read;

      if (file != NULL && read_one (&reading, file, &read))
        more = visit (user, &read);
    }
  carpace_signer_wipe (&reading.device);
}

bool
carpace_note_put_away (const CarpaceFolder *shelf, const CarpaceNoteRead *note)
{
  return keep_time (shelf, AWAY, &note->from.sign, note->made_s);
}

bool
carpace_note_put_told (const CarpaceFolder *shelf, const CarpaceNoteRead *note)
{
  return keep_time (shelf, TOLD, &note->from.sign, note->made_s);
}

bool
carpace_note_erase (const CarpaceFolder *shelf, const CarpaceFolder *shared, const CarpaceKey *from)
{
  g_autofree char *kept = carpace_shelf_name (TAKEN, from, CARPACE_TEAM_NOTE_END), *name = NULL;
  CarpaceCard card;

  if (shared != NULL && carpace_shelf_card (shelf, &card, NULL) == CARPACE_TEAM_FINE)
    {
      name = name_in_folder (&card.sign, from);
      shared->remove (shared->self, name);
    }
  return shelf->remove (shelf->self, kept);
}
