/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/share.h"

#include <errno.h>
#include <string.h>

#include "team/bundle.h"

#define WAITING "out-" /* what is not in the folder yet, on the shelf */

typedef struct
{
  const CarpaceSharing *sharing;
  CarpaceShared *shared;
  CarpaceCard card;
  char player[CARPACE_KEY_SHORT_BYTES];
  CarpaceTeamFault fault;
  int error;
  GArray *seal[CARPACE_N_BUNDLES]; /* CarpaceKey of each reader */
} Share;

static bool
failed (Share *share, CarpaceTeamFault fault, const char *what)
{
  if (share->fault == CARPACE_TEAM_FINE)
    {
      share->fault = fault;
      share->error = errno;
      g_strlcpy (share->shared->what, what, sizeof share->shared->what);
    }
  return false;
}

/* Writes what is not there, or is another one: a folder that is synchronised is left alone. */
static bool
leave (Share *share, const char *name, const GByteArray *file)
{
  const CarpaceFolder *shared = share->sharing->shared;
  CarpaceTeamFault fault;
  g_autoptr (GByteArray) there = carpace_folder_file (shared, name, &fault);

  if (there != NULL && there->len == file->len && memcmp (there->data, file->data, file->len) == 0)
    return true;
  if (there == NULL && fault == CARPACE_TEAM_NOT_ORDINARY)
    return failed (share, fault, name);
  return shared->write (shared->self, name, file->data, file->len) || failed (share, CARPACE_TEAM_FAILED, name);
}

/* ---- grants ---- */

/* What the guardian signed in the folder comes back to the shelf. @return the file that counts */
static GByteArray *
with_guardian (Share *share, const char *name, const CarpaceGrant *grant, bool *guarded, const GByteArray *own)
{
  CarpaceTeamFault fault;
  GByteArray *there = NULL;
  CarpaceGrant signed_grant;
  bool signed_too = false;

  if (grant->under_age && !*guarded)
    there = carpace_folder_file (share->sharing->shared, name, &fault);
  /* Byte by byte the own one, but for the second signature and the number of them. */
  if (there != NULL
      && (there->len <= own->len || carpace_grant_read (there->data, there->len, &signed_grant, &signed_too) != CARPACE_TEAM_FINE
          || !signed_too || !carpace_record_same (CARPACE_TEAM_GRANT, &signed_grant, grant)
          || !carpace_shelf_keep_grant (share->sharing->shelf, &signed_grant, there)))
    g_clear_pointer (&there, g_byte_array_unref);
  *guarded = *guarded || there != NULL;
  return there != NULL ? there : g_byte_array_ref ((GByteArray *) own);
}

typedef struct
{
  GPtrArray *files;
  GArray *grants, *guarded;
} Grants;

static bool
note_grant (void *user, const CarpaceGrant *grant, bool guarded, const GByteArray *file)
{
  Grants *grants = user;

  g_ptr_array_add (grants->files, g_byte_array_ref ((GByteArray *) file));
  g_array_append_val (grants->grants, *grant);
  g_array_append_val (grants->guarded, guarded);
  return true;
}

static bool
leave_grant (Share *share, const CarpaceGrant *grant, bool guarded, const GByteArray *own)
{
  char reader[CARPACE_KEY_SHORT_BYTES];
  g_autofree char *name = NULL;
  g_autoptr (GByteArray) file = NULL;
  CarpaceTeamFault holds;

  if (!carpace_key_equal (&grant->player, &share->card.sign))
    return true; /* of keys that were there before */
  carpace_key_short (&grant->reader, reader);
  name = g_strconcat (share->player, "-", reader, CARPACE_GRANT_END, NULL);
  file = with_guardian (share, name, grant, &guarded, own);
  holds = carpace_grant_holds (grant, guarded, share->sharing->now_s, share->sharing->today);
  share->shared->waiting += holds == CARPACE_TEAM_UNGUARDED;
  share->shared->later += holds == CARPACE_TEAM_NOT_YET;
  for (int kind = 0; holds == CARPACE_TEAM_FINE && kind < CARPACE_N_BUNDLES; kind++)
    if (carpace_grant_covers (grant->what, (CarpaceBundleKind) kind) && share->seal[kind]->len < CARPACE_TEAM_READERS)
      g_array_append_val (share->seal[kind], grant->reader_seal);
  return leave (share, name, file);
}

static bool
leave_grants (Share *share)
{
  Grants grants = { g_ptr_array_new_with_free_func ((GDestroyNotify) g_byte_array_unref),
                    g_array_new (FALSE, FALSE, sizeof (CarpaceGrant)), g_array_new (FALSE, FALSE, sizeof (bool)) };
  bool good = carpace_shelf_grants (share->sharing->shelf, note_grant, &grants) || failed (share, CARPACE_TEAM_FAILED, "");

  for (guint i = 0; good && i < grants.files->len; i++)
    good = leave_grant (share, &g_array_index (grants.grants, CarpaceGrant, i), g_array_index (grants.guarded, bool, i),
                        grants.files->pdata[i]);
  g_ptr_array_unref (grants.files);
  g_array_unref (grants.grants);
  g_array_unref (grants.guarded);
  return good;
}

static bool
begin (Share *share, const CarpaceSharing *sharing, CarpaceShared *shared)
{
  g_autoptr (GByteArray) file = NULL;
  g_autofree char *name = NULL;
  CarpaceTeamFault fault;

  *shared = (CarpaceShared) { .waiting = 0 };
  *share = (Share) { .sharing = sharing, .shared = shared };
  for (int kind = 0; kind < CARPACE_N_BUNDLES; kind++)
    share->seal[kind] = g_array_new (FALSE, FALSE, sizeof (CarpaceKey));
  fault = carpace_shelf_card (sharing->shelf, &share->card, &file);
  if (fault != CARPACE_TEAM_FINE)
    return failed (share, fault, "person.card");
  carpace_key_short (&share->card.sign, share->player);
  name = g_strconcat (share->player, CARPACE_CARD_END, NULL);
  return leave (share, name, file) && leave_grants (share);
}

static CarpaceTeamFault
end (Share *share)
{
  for (int kind = 0; kind < CARPACE_N_BUNDLES; kind++)
    g_array_unref (share->seal[kind]);
  errno = share->error;
  return share->fault;
}

/* ---- bundles ---- */

/* When this computer made its last bundle; 0: never. */
static int64_t
last_made_s (const CarpaceFolder *shelf)
{
  int64_t last_s = 0;
  CarpaceChain chain;

  for (int kind = 0; kind < CARPACE_N_BUNDLES; kind++)
    if (carpace_shelf_chain (shelf, (CarpaceBundleKind) kind, &chain) == CARPACE_TEAM_FINE)
      last_s = MAX (last_s, chain.made_s);
  return last_s;
}

static char *
bundle_begin (const Share *share, const CarpaceKey *device, CarpaceBundleKind kind)
{
  char digits[CARPACE_KEY_SHORT_BYTES];

  carpace_key_short (device, digits);
  return g_strconcat (share->player, "-", digits, "-", carpace_name (CARPACE_WORDS_BUNDLE, (int32_t) kind), "-", NULL);
}

static bool
write_rows (Share *share, CarpaceBundleKind kind, GByteArray *rows)
{
  const CarpaceSharing *sharing = share->sharing;
  bool written = kind == CARPACE_BUNDLE_LOAD ? carpace_load_write (sharing->diary, &sharing->plan, sharing->today, rows)
                                             : carpace_hand_write (sharing->diary, sharing->today, rows);

  return written || failed (share, CARPACE_TEAM_FAILED, "");
}

/* One that is on the shelf, and its number: then nothing of it is lost. */
static bool
make_bundle (Share *share, CarpaceBundleKind kind, const CarpaceSigner *device, const GByteArray *word)
{
  const CarpaceSharing *sharing = share->sharing;
  g_autofree char *begins = bundle_begin (share, &device->key, kind), *name = NULL;
  g_autoptr (GByteArray) rows = g_byte_array_new (), file = NULL;
  CarpaceBundling bundling = { .player = share->card.sign, .kind = kind, .made_s = sharing->now_s, .device = word, .signer = device,
                               .seal = (const CarpaceKey *) share->seal[kind]->data, .n_readers = (int32_t) share->seal[kind]->len,
                               .rows = rows };
  CarpaceChain chain;
  CarpaceTeamFault fault = carpace_shelf_chain (sharing->shelf, kind, &chain);

  if (fault != CARPACE_TEAM_FINE)
    return failed (share, fault, "chain");
  if (!write_rows (share, kind, rows))
    return false;
  file = carpace_bundle_write (&bundling, &chain);
  if (file == NULL)
    return failed (share, CARPACE_TEAM_TOO_LARGE, begins);
  name = g_strdup_printf (WAITING "%s%09" G_GINT64_FORMAT CARPACE_BUNDLE_END, begins, chain.number);
  return (sharing->shelf->write (sharing->shelf->self, name, file->data, file->len)
          && carpace_shelf_keep_chain (sharing->shelf, &chain))
         || failed (share, CARPACE_TEAM_FAILED, name);
}

/* ---- what is in a folder, in the order of names, so of numbers ---- */

static bool
deliver (Share *share)
{
  const CarpaceFolder *shelf = share->sharing->shelf;
  g_autoptr (GPtrArray) names = carpace_folder_names (shelf, WAITING, CARPACE_BUNDLE_END);
  bool good = names != NULL || failed (share, CARPACE_TEAM_FAILED, "");

  for (guint i = 0; good && i < names->len; i++)
    {
      const char *name = names->pdata[i];
      CarpaceTeamFault fault;
      g_autoptr (GByteArray) file = carpace_folder_file (shelf, name, &fault);

      good = file != NULL ? leave (share, name + strlen (WAITING), file) : failed (share, fault, name);
      if (good)
        shelf->remove (shelf->self, name);
    }
  return good;
}

/* All but the last @kept of those that begin so. */
static void
take_away (const CarpaceFolder *folder, const char *begins, guint kept)
{
  g_autoptr (GPtrArray) names = carpace_folder_names (folder, begins, CARPACE_BUNDLE_END);

  for (guint i = 0; names != NULL && i + kept < names->len; i++)
    folder->remove (folder->self, names->pdata[i]);
}

static void
take_away_old (const Share *share, const CarpaceKey *device)
{
  for (int kind = 0; kind < CARPACE_N_BUNDLES; kind++)
    {
      g_autofree char *begins = bundle_begin (share, device, (CarpaceBundleKind) kind);
      g_autofree char *waiting = g_strconcat (WAITING, begins, NULL);

      take_away (share->sharing->shared, begins, CARPACE_SHARE_KEPT);
      take_away (share->sharing->shelf, waiting, CARPACE_SHARE_KEPT);
    }
}

CarpaceTeamFault
carpace_share_grants (const CarpaceSharing *sharing, CarpaceShared *ret_shared)
{
  Share share;

  begin (&share, sharing, ret_shared);
  return end (&share);
}

CarpaceTeamFault
carpace_share_now (const CarpaceSharing *sharing, CarpaceShared *ret_shared)
{
  Share share;
  CarpaceSigner device = { .secret = { 0 } };
  g_autoptr (GByteArray) word = NULL;
  CarpaceTeamFault fault = carpace_shelf_device (sharing->shelf, &device, &word);
  bool there = fault == CARPACE_TEAM_FINE, made = there;
  int64_t last_s = last_made_s (sharing->shelf);

  begin (&share, sharing, ret_shared);
  ret_shared->ahead_s = last_s > sharing->now_s + CARPACE_TEAM_CLOCKS_APART_S ? last_s : 0;
  if (!there)
    failed (&share, fault, "device.key");
  for (int kind = 0; made && kind < CARPACE_N_BUNDLES; kind++)
    {
      made = share.seal[kind]->len == 0 || make_bundle (&share, (CarpaceBundleKind) kind, &device, word);
      ret_shared->readers[kind] = made ? (int32_t) share.seal[kind]->len : 0;
    }
  if (made && share.fault == CARPACE_TEAM_FINE)
    deliver (&share);
  if (there)
    take_away_old (&share, &device.key);
  carpace_signer_wipe (&device);
  return end (&share);
}

/* ---- once a day ---- */

#define SHARED_ON "shared-on"

bool
carpace_share_note_day (const CarpaceFolder *shelf, CarpaceDay day)
{
  char text[CARPACE_DAY_BYTES];

  carpace_day_write (day, text);
  return carpace_shelf_keep_text (shelf, SHARED_ON, text);
}

bool
carpace_share_due (const CarpaceFolder *shelf, CarpaceDay today)
{
  g_autofree char *folder = carpace_shelf_text (shelf, CARPACE_SHELF_SHARE), *on = carpace_shelf_text (shelf, SHARED_ON);
  CarpaceDay day;

  return folder != NULL && (on == NULL || !carpace_day_read (on, &day) || day != today);
}

/* ---- erasure ---- */

CarpaceTeamFault
carpace_share_erasure (const CarpaceSharing *sharing, const CarpacePerson *player, CarpaceShared *ret_shared)
{
  const CarpaceErasure erasure = { .player = player->signer.key, .made_s = MAX (sharing->now_s, last_made_s (sharing->shelf)) };
  g_autoptr (GByteArray) file = carpace_signed_write (CARPACE_TEAM_ERASURE, &erasure, &player->signer, 1);
  g_autofree char *name = NULL, *begins = NULL, *waiting = NULL;
  Share share;

  if (begin (&share, sharing, ret_shared))
    {
      name = g_strconcat (share.player, CARPACE_ERASURE_END, NULL);
      begins = g_strconcat (share.player, "-", NULL);
      waiting = g_strconcat (WAITING, begins, NULL);
      if (leave (&share, name, file))
        {
          take_away (sharing->shared, begins, 0);
          take_away (sharing->shelf, waiting, 0);
        }
    }
  return end (&share);
}

CarpaceTeamFault
carpace_erasure_read (const uint8_t *from, size_t n, CarpaceErasure *ret_erasure)
{
  return carpace_signed_read_own (CARPACE_TEAM_ERASURE, from, n, ret_erasure, &ret_erasure->player);
}
