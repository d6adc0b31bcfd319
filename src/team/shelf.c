/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/shelf.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#define LOCKED "person.key"
#define CARD "person.card"
#define DEVICE "device.key"
#define WORD "device.word"
#define SMALL 4096 /* bytes of any of them, at most */

static const char known_end[] = ".card", grant_end[] = ".grant";

GByteArray *
carpace_folder_file (const CarpaceFolder *folder, const char *name, CarpaceTeamFault *ret_fault)
{
  size_t n;
  uint8_t *bytes = folder->read (folder->self, name, CARPACE_TEAM_FILE_MOST, &n, ret_fault);
  GByteArray *file;

  if (bytes == NULL)
    return NULL;
  file = g_byte_array_sized_new ((guint) n);
  g_byte_array_append (file, bytes, (guint) n);
  carpace_wipe (bytes, n);
  free (bytes);
  return file;
}

static bool
write_file (const CarpaceFolder *shelf, const char *name, const GByteArray *file)
{
  return shelf->write (shelf->self, name, file->data, file->len);
}

/* ---- own keys ---- */

CarpaceTeamFault
carpace_shelf_has_keys (const CarpaceFolder *shelf)
{
  CarpaceTeamFault fault = CARPACE_TEAM_FINE;
  g_autoptr (GByteArray) file = carpace_folder_file (shelf, LOCKED, &fault);

  return file != NULL ? CARPACE_TEAM_FINE : fault;
}

bool
carpace_shelf_is_name (const char *name)
{
  size_t n = strlen (name);

  return n > 0 && n < CARPACE_TEAM_NAME_BYTES && strchr (name, '/') == NULL && carpace_record_is_text ((const uint8_t *) name, n);
}

/* The secret comes last: until it is there, nothing is, and what was written by then is taken away again. */
static bool
keep_keys (const CarpaceFolder *shelf, const GByteArray *card, const GByteArray *device, const GByteArray *word, const GByteArray *locked)
{
  static const char *const names[] = { CARD, DEVICE, WORD, LOCKED };
  const GByteArray *const files[] = { card, device, word, locked };
  size_t kept = 0;
  int error;

  while (kept < G_N_ELEMENTS (names) && write_file (shelf, names[kept], files[kept]))
    kept++;
  if (kept == G_N_ELEMENTS (names))
    return true;
  error = errno;
  for (size_t i = 0; i < kept; i++)
    shelf->remove (shelf->self, names[i]);
  errno = error;
  return false;
}

CarpaceTeamFault
carpace_shelf_begin (const CarpaceFolder *shelf, const char *name, CarpaceRole role, const char *phrase, CarpaceLock lock,
                     int64_t now_s)
{
  CarpaceTeamFault fault = carpace_shelf_has_keys (shelf);
  g_autoptr (GByteArray) locked = NULL, card = NULL, word = NULL;
  GByteArray *device;
  CarpacePerson person;
  CarpaceSigner signer;
  CarpaceCard read;

  if (fault != CARPACE_TEAM_NO_FILE)
    return fault == CARPACE_TEAM_FINE ? CARPACE_TEAM_DAMAGED : fault;
  if (!carpace_shelf_is_name (name))
    return CARPACE_TEAM_DAMAGED;
  carpace_person_new (&person);
  carpace_signer_new (&signer);
  locked = carpace_person_lock (&person, phrase, lock);
  card = carpace_card_write (&person, name, role, now_s);
  device = carpace_signer_write (&signer);
  word = carpace_device_write (&person, &signer.key, now_s);
  carpace_person_wipe (&person);
  carpace_signer_wipe (&signer);
  fault = locked == NULL ? CARPACE_TEAM_NO_MEMORY : carpace_card_read (card->data, card->len, &read);
  if (fault == CARPACE_TEAM_FINE && !keep_keys (shelf, card, device, word, locked))
    fault = CARPACE_TEAM_FAILED;
  carpace_wipe_file (device);
  return fault;
}

CarpaceTeamFault
carpace_shelf_card (const CarpaceFolder *shelf, CarpaceCard *ret_card, GByteArray **ret_file)
{
  CarpaceTeamFault fault;
  g_autoptr (GByteArray) file = carpace_folder_file (shelf, CARD, &fault);

  if (file != NULL)
    fault = carpace_card_read (file->data, file->len, ret_card);
  if (fault == CARPACE_TEAM_FINE && ret_file != NULL)
    *ret_file = g_steal_pointer (&file);
  return fault;
}

CarpaceTeamFault
carpace_shelf_unlock (const CarpaceFolder *shelf, const char *phrase, CarpacePerson *ret_person)
{
  CarpaceTeamFault fault;
  g_autoptr (GByteArray) file = carpace_folder_file (shelf, LOCKED, &fault);

  return file != NULL ? carpace_person_unlock (file->data, file->len, phrase, ret_person) : fault;
}

CarpaceTeamFault
carpace_shelf_device (const CarpaceFolder *shelf, CarpaceSigner *ret_device, GByteArray **ret_word)
{
  CarpaceTeamFault fault;
  GByteArray *secret = carpace_folder_file (shelf, DEVICE, &fault);
  g_autoptr (GByteArray) word = NULL;
  CarpaceDevice device;

  if (secret != NULL)
    word = carpace_folder_file (shelf, WORD, &fault);
  if (word != NULL)
    fault = carpace_signer_read (secret->data, secret->len, ret_device);
  carpace_wipe_file (secret);
  if (word != NULL && fault == CARPACE_TEAM_FINE)
    fault = carpace_device_read (word->data, word->len, &device);
  if (word != NULL && fault == CARPACE_TEAM_FINE && !carpace_key_equal (&device.device, &ret_device->key))
    fault = CARPACE_TEAM_OTHER_SIGNER;
  if (fault == CARPACE_TEAM_FINE)
    *ret_word = g_steal_pointer (&word);
  return fault;
}

/* ---- names of files ---- */

char *
carpace_shelf_name (const char *begin, const CarpaceKey *key, const char *end)
{
  char digits[CARPACE_KEY_SHORT_BYTES];

  carpace_key_short (key, digits);
  return g_strconcat (begin, digits, end, NULL);
}

typedef struct
{
  const char *begin, *end;
  GPtrArray *names;
} Named;

static bool
note_name (void *user, const char *name)
{
  Named *named = user;

  if (g_str_has_prefix (name, named->begin) && g_str_has_suffix (name, named->end))
    g_ptr_array_add (named->names, g_strdup (name));
  return true;
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

GPtrArray *
carpace_folder_names (const CarpaceFolder *folder, const char *begin, const char *end)
{
  Named named = { begin, end, g_ptr_array_new_with_free_func (g_free) };

  if (!folder->list (folder->self, note_name, &named))
    {
      int error = errno;

      g_ptr_array_unref (named.names);
      errno = error;
      return NULL;
    }
  g_ptr_array_sort (named.names, by_name);
  return named.names;
}

/* ---- those who were accepted ---- */

bool
carpace_shelf_known (const CarpaceFolder *shelf, CarpaceCardVisitor visit, void *user)
{
  g_autoptr (GPtrArray) names = carpace_folder_names (shelf, "known-", known_end);
  bool more = true;

  for (guint i = 0; names != NULL && more && i < names->len; i++)
    {
      CarpaceTeamFault fault;
      g_autoptr (GByteArray) file = carpace_folder_file (shelf, names->pdata[i], &fault);
      CarpaceCard card;

      if (file != NULL && carpace_card_read (file->data, file->len, &card) == CARPACE_TEAM_FINE)
        more = visit (user, &card);
    }
  return names != NULL;
}

bool
carpace_shelf_knows (const CarpaceFolder *shelf, const CarpaceKey *sign, CarpaceCard *ret_card)
{
  g_autofree char *name = carpace_shelf_name ("known-", sign, known_end);
  CarpaceTeamFault fault;
  g_autoptr (GByteArray) file = carpace_folder_file (shelf, name, &fault);

  return file != NULL && carpace_card_read (file->data, file->len, ret_card) == CARPACE_TEAM_FINE
         && carpace_key_equal (&ret_card->sign, sign);
}

bool
carpace_shelf_accept (const CarpaceFolder *shelf, const GByteArray *card)
{
  CarpaceCard read;
  g_autofree char *name = NULL;

  errno = EINVAL;
  if (carpace_card_read (card->data, card->len, &read) != CARPACE_TEAM_FINE)
    return false;
  name = carpace_shelf_name ("known-", &read.sign, known_end);
  return write_file (shelf, name, card);
}

bool
carpace_shelf_forget (const CarpaceFolder *shelf, const CarpaceKey *sign)
{
  g_autofree char *name = carpace_shelf_name ("known-", sign, known_end);

  return shelf->remove (shelf->self, name);
}

typedef struct
{
  const char *who;
  int n;
  CarpaceCard *card;
  CarpaceGrant *grant;
} Finding;

static bool
is_called (const char *who, const char *name, const CarpaceKey *key)
{
  char digits[CARPACE_KEY_SHORT_BYTES];

  carpace_key_short (key, digits);
  return strcmp (name, who) == 0 || (strlen (who) >= 4 && g_str_has_prefix (digits, who));
}

static bool
compare_card (void *user, const CarpaceCard *card)
{
  Finding *finding = user;

  if (is_called (finding->who, card->name, &card->sign))
    {
      finding->n++;
      *finding->card = *card;
    }
  return true;
}

int
carpace_shelf_find (const CarpaceFolder *shelf, const char *who, CarpaceCard *ret_card)
{
  Finding finding = { .who = who, .card = ret_card };

  carpace_shelf_known (shelf, compare_card, &finding);
  return finding.n;
}

/* ---- grants ---- */

bool
carpace_shelf_grants (const CarpaceFolder *shelf, CarpaceGrantVisitor visit, void *user)
{
  g_autoptr (GPtrArray) names = carpace_folder_names (shelf, "to-", grant_end);
  bool more = true;

  for (guint i = 0; names != NULL && more && i < names->len; i++)
    {
      CarpaceTeamFault fault;
      g_autoptr (GByteArray) file = carpace_folder_file (shelf, names->pdata[i], &fault);
      CarpaceGrant grant;
      bool guarded;

      if (file != NULL && carpace_grant_read (file->data, file->len, &grant, &guarded) == CARPACE_TEAM_FINE)
        more = visit (user, &grant, guarded, file);
    }
  return names != NULL;
}

/* @return FINE, or why nothing can be read of it */
static CarpaceTeamFault
grant_fault (const CarpaceFolder *shelf, const char *name)
{
  CarpaceTeamFault fault;
  g_autoptr (GByteArray) file = carpace_folder_file (shelf, name, &fault);
  CarpaceGrant grant;
  bool guarded;

  return file == NULL ? fault : carpace_grant_read (file->data, file->len, &grant, &guarded);
}

void
carpace_shelf_damaged_grants (const CarpaceFolder *shelf, CarpaceGrantDamaged visit, void *user)
{
  g_autoptr (GPtrArray) names = carpace_folder_names (shelf, "to-", grant_end);

  for (guint i = 0; names != NULL && i < names->len; i++)
    {
      CarpaceTeamFault fault = grant_fault (shelf, names->pdata[i]);

      if (fault != CARPACE_TEAM_FINE && fault != CARPACE_TEAM_NO_FILE)
        visit (user, names->pdata[i], fault);
    }
}

bool
carpace_shelf_grant_is_damaged (const CarpaceFolder *shelf, const CarpaceKey *reader)
{
  g_autofree char *name = carpace_shelf_name ("to-", reader, grant_end);
  CarpaceTeamFault fault = grant_fault (shelf, name);

  return fault != CARPACE_TEAM_FINE && fault != CARPACE_TEAM_NO_FILE;
}

static bool
compare_grant (void *user, const CarpaceGrant *grant, bool guarded, const GByteArray *file)
{
  Finding *finding = user;

  if (grant->what != CARPACE_GRANT_NONE && is_called (finding->who, grant->reader_name, &grant->reader))
    {
      finding->n++;
      *finding->grant = *grant;
    }
  return true;
}

int
carpace_shelf_find_granted (const CarpaceFolder *shelf, const char *who, CarpaceGrant *ret_grant)
{
  Finding finding = { .who = who, .grant = ret_grant };

  carpace_shelf_grants (shelf, compare_grant, &finding);
  return finding.n;
}

bool
carpace_shelf_grant_to (const CarpaceFolder *shelf, const CarpaceKey *reader, CarpaceGrant *ret_grant, bool *ret_guarded)
{
  g_autofree char *name = carpace_shelf_name ("to-", reader, grant_end);
  CarpaceTeamFault fault;
  g_autoptr (GByteArray) file = carpace_folder_file (shelf, name, &fault);

  return file != NULL && carpace_grant_read (file->data, file->len, ret_grant, ret_guarded) == CARPACE_TEAM_FINE
         && carpace_key_equal (&ret_grant->reader, reader);
}

bool
carpace_shelf_keep_grant (const CarpaceFolder *shelf, const CarpaceGrant *grant, const GByteArray *file)
{
  g_autofree char *name = carpace_shelf_name ("to-", &grant->reader, grant_end);

  return write_file (shelf, name, file);
}

/* ---- chains ---- */

static char *
chain_name (CarpaceBundleKind kind)
{
  return g_strconcat ("chain-", carpace_name (CARPACE_WORDS_BUNDLE, (int32_t) kind), NULL);
}

CarpaceTeamFault
carpace_shelf_chain (const CarpaceFolder *shelf, CarpaceBundleKind kind, CarpaceChain *ret_chain)
{
  g_autofree char *name = chain_name (kind);
  CarpaceTeamFault fault;
  g_autoptr (GByteArray) file = carpace_folder_file (shelf, name, &fault);
  CarpaceSignatures none;

  *ret_chain = (CarpaceChain) { .kind = kind };
  if (file == NULL)
    return fault == CARPACE_TEAM_NO_FILE ? CARPACE_TEAM_FINE : fault;
  return carpace_signed_read (CARPACE_TEAM_CHAIN, file->data, file->len, ret_chain, &none);
}

bool
carpace_shelf_keep_chain (const CarpaceFolder *shelf, const CarpaceChain *chain)
{
  g_autofree char *name = chain_name (chain->kind);
  g_autoptr (GByteArray) file = carpace_signed_write (CARPACE_TEAM_CHAIN, chain, NULL, 0);

  return write_file (shelf, name, file);
}

/* ---- texts ---- */

char *
carpace_shelf_text (const CarpaceFolder *shelf, const char *name)
{
  CarpaceTeamFault fault;
  g_autoptr (GByteArray) file = carpace_folder_file (shelf, name, &fault);

  return file != NULL && file->len > 0 && file->len < SMALL ? g_strndup ((const char *) file->data, file->len) : NULL;
}

bool
carpace_shelf_keep_text (const CarpaceFolder *shelf, const char *name, const char *text)
{
  return shelf->write (shelf->self, name, (const uint8_t *) text, strlen (text));
}
