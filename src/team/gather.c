/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/gather.h"

#include <errno.h>
#include <string.h>

#include "team/bundle.h"

#define TOGETHER 256 /* bundles that are kept in one go */

typedef struct
{
  const CarpaceGathering *gathering;
  CarpaceRefusedVisitor told;
  void *user;
  CarpaceGathered *gathered;
  GHashTable *strangers, *ahead; /* CarpaceKey that was told of: not accepted; whose files are of the future */
} Gather;

/* What became of one file. */
typedef enum { TAKEN, KNOWN, PASSED, REFUSED, NOT_KEPT, NOT_FOR_US } Outcome;

static Outcome
refuse (Gather *gather, const char *file, const char *player, CarpaceTeamFault fault)
{
  gather->told (gather->user, file, player, fault);
  return REFUSED;
}

/* A stranger is told once, not for each file. */
static Outcome
refuse_stranger (Gather *gather, const char *file, const CarpaceKey *player)
{
  if (!g_hash_table_add (gather->strangers, g_memdup2 (player, sizeof *player)))
    return PASSED;
  return refuse (gather, file, "", CARPACE_TEAM_UNKNOWN);
}

static bool
is_ahead (const Gather *gather, int64_t made_s)
{
  return made_s > gather->gathering->now_s + CARPACE_TEAM_CLOCKS_APART_S;
}

/* One of two clocks is wrong: told once of a player. */
static Outcome
refuse_ahead (Gather *gather, const char *file, const CarpaceCard *player)
{
  if (!g_hash_table_add (gather->ahead, g_memdup2 (&player->sign, sizeof player->sign)))
    return PASSED;
  return refuse (gather, file, player->name, CARPACE_TEAM_AHEAD);
}

/* ---- grants ---- */

/* A guardian counts whose key the reader accepted as one. */
static bool
is_guardian (const Gather *gather, const CarpaceKey *key)
{
  CarpaceCard card;

  return carpace_shelf_knows (gather->gathering->shelf, key, &card) && card.role == CARPACE_ROLE_GUARDIAN;
}

static Outcome
take_grant (Gather *gather, const char *name, const GByteArray *file)
{
  const CarpaceGathering *g = gather->gathering;
  CarpaceGrant grant;
  CarpaceCard card;
  bool guarded, own;
  int64_t last;
  CarpaceTeamFault fault = carpace_grant_read (file->data, file->len, &grant, &guarded);

  if (fault != CARPACE_TEAM_FINE)
    return refuse (gather, name, "", fault);
  own = carpace_key_equal (&grant.reader, &g->reader->signer.key);
  if (!own && !g->store->of_all)
    return PASSED;
  if (!carpace_shelf_knows (g->shelf, &grant.player, &card))
    return refuse_stranger (gather, name, &grant.player);
  guarded = guarded && is_guardian (gather, &grant.guardian);
  if (!g->store->keep_grant (g->store->self, card.name, &grant, guarded, file->data, file->len, &last))
    return NOT_KEPT;
  if (grant.number < last)
    return refuse (gather, name, card.name, CARPACE_TEAM_ROLLED_BACK);
  if (is_ahead (gather, grant.made_s))
    return refuse_ahead (gather, name, &card); /* it is kept: a withdrawal bites, and a grant that begins in the future does not hold */
  fault = own ? carpace_grant_holds (&grant, guarded, g->now_s, g->today) : CARPACE_TEAM_FINE;
  return fault == CARPACE_TEAM_UNGUARDED ? refuse (gather, name, card.name, fault) : PASSED;
}

/* ---- erasures ---- */

/* Of one that is asked by a clock that is ahead, or read by one that is behind, what is wanted is plain: all that is kept goes,
 * and that once, so that what the player shares afterwards is read. */
static Outcome
erase_ahead (Gather *gather, const char *name, const CarpaceErasure *erasure, const CarpaceCard *card)
{
  const CarpaceGathering *g = gather->gathering;
  int64_t until_s = g->now_s;
  CarpaceRosterPlayer player;

  if (!g->store->player (g->store->self, &erasure->player, &player))
    return NOT_KEPT;
  for (int kind = 0; kind < CARPACE_N_BUNDLES; kind++)
    until_s = MAX (until_s, player.made_s[kind]);
  return g->store->erase (g->store->self, &erasure->player, until_s) ? refuse_ahead (gather, name, card) : NOT_KEPT;
}

static Outcome
take_erasure (Gather *gather, const char *name, const GByteArray *file)
{
  const CarpaceGathering *g = gather->gathering;
  CarpaceErasure erasure;
  CarpaceCard card;
  CarpaceTeamFault fault = carpace_erasure_read (file->data, file->len, &erasure);
  g_autofree char *done = NULL;
  Outcome outcome;

  if (fault != CARPACE_TEAM_FINE)
    return refuse (gather, name, "", fault);
  if (!carpace_shelf_knows (g->shelf, &erasure.player, &card))
    return refuse_stranger (gather, name, &erasure.player);
  done = g_strdup_printf ("%s %" G_GINT64_FORMAT, name, erasure.made_s);
  if (g->store->was_seen (g->store->self, done))
    return PASSED;
  if (!is_ahead (gather, erasure.made_s))
    return g->store->erase (g->store->self, &erasure.player, erasure.made_s) ? PASSED : NOT_KEPT;
  outcome = erase_ahead (gather, name, &erasure, &card);
  return outcome == NOT_KEPT || g->store->mark_seen (g->store->self, done) ? outcome : NOT_KEPT;
}

/* ---- bundles ---- */

typedef struct
{
  const CarpaceRosterStore *store;
  const CarpaceBundle *bundle;
} Keeping;

static bool
keep_row (void *user, const CarpaceHandRow *row, const CarpaceEntry *entry)
{
  const Keeping *keeping = user;

  return keeping->store->keep_hand (keeping->store->self, &keeping->bundle->player, keeping->bundle->made_s, row);
}

/* @return FINE, what is wrong with the rows, or FAILED where they are not kept */
static CarpaceTeamFault
keep_rows (const CarpaceRosterStore *store, const CarpaceBundle *bundle, const GByteArray *rows)
{
  Keeping keeping = { store, bundle };
  CarpaceLoad load;
  CarpaceTeamFault fault;

  if (bundle->kind == CARPACE_BUNDLE_HAND)
    return carpace_hand_read (rows, keep_row, &keeping);
  fault = carpace_load_read (rows, &load);
  if (fault == CARPACE_TEAM_FINE
      && !store->keep_load (store->self, &bundle->player, &load.head, bundle->made_s, load.week, load.n_weeks))
    fault = CARPACE_TEAM_FAILED;
  return fault;
}

/* Goes on behind @seen, which was made at @made_s as far as the roster is concerned. @return false where it is not kept */
static bool
go_on (const CarpaceGathering *g, const char *name, const CarpaceBundleSeen *seen, int64_t made_s, int64_t missing)
{
  const CarpaceChain chain = { .kind = seen->bundle.kind, .number = seen->bundle.number, .last = seen->hash, .made_s = made_s };

  return g->store->keep_chain (g->store->self, &seen->bundle.player, &seen->device.device, &chain, missing)
         && g->store->mark_seen (g->store->self, name);
}

/* One that is sealed to others is told of once, and not at all where it was made before the reader was let read: there will be
 * more of those than not, and they are neither missing nor an old copy. */
static Outcome
pass_by (Gather *gather, const char *name, const char *player, const CarpaceBundleSeen *seen, const CarpaceChain *last, int64_t granted_s)
{
  if (!go_on (gather->gathering, name, seen, last->made_s, 0))
    return NOT_KEPT;
  return seen->bundle.made_s < granted_s ? PASSED : refuse (gather, name, player, CARPACE_TEAM_NOT_FOR_YOU);
}

static Outcome
open_bundle (Gather *gather, const char *name, const char *player, const CarpaceBundleSeen *seen, int64_t missing)
{
  const CarpaceGathering *g = gather->gathering;
  const CarpaceBundle *bundle = &seen->bundle;
  GByteArray *rows = NULL;
  CarpaceTeamFault fault = carpace_bundle_open (seen, g->reader, &rows);

  if (fault == CARPACE_TEAM_NOT_FOR_YOU)
    return NOT_FOR_US;

  if (fault == CARPACE_TEAM_FINE)
    fault = keep_rows (g->store, bundle, rows);
  carpace_wipe_file (rows);
  if (fault != CARPACE_TEAM_FINE && fault != CARPACE_TEAM_FAILED)
    return refuse (gather, name, player, fault);
  return fault == CARPACE_TEAM_FINE && go_on (g, name, seen, bundle->made_s, missing) ? TAKEN : NOT_KEPT;
}

static Outcome
take_bundle (Gather *gather, const char *name, const GByteArray *file)
{
  const CarpaceGathering *g = gather->gathering;
  CarpaceBundleSeen seen;
  CarpaceRosterPlayer player;
  CarpaceCard card;
  CarpaceChain last;
  Outcome outcome;
  int64_t missing;
  CarpaceTeamFault fault = carpace_bundle_read (file->data, file->len, &seen);

  if (fault != CARPACE_TEAM_FINE)
    return refuse (gather, name, "", fault);
  if (!carpace_shelf_knows (g->shelf, &seen.bundle.player, &card))
    return refuse_stranger (gather, name, &seen.bundle.player);
  if (!g->store->player (g->store->self, &seen.bundle.player, &player)
      || !g->store->chain (g->store->self, &seen.bundle.player, &seen.device.device, seen.bundle.kind, &last))
    return NOT_KEPT;
  fault = player.grant.number == 0 ? CARPACE_TEAM_NOT_GRANTED
                                   : carpace_grant_holds (&player.grant, player.guarded, g->now_s, g->today);
  if (fault != CARPACE_TEAM_FINE || !carpace_grant_covers (player.grant.what, seen.bundle.kind))
    return PASSED; /* the row of the roster says how it is with the grant */
  if (seen.bundle.made_s <= player.erased_s)
    return refuse (gather, name, card.name, CARPACE_TEAM_ERASED);
  fault = carpace_bundle_follows (&seen, &last, g->now_s, &missing);
  if (fault == CARPACE_TEAM_AHEAD)
    return refuse_ahead (gather, name, &card);
  if (fault != CARPACE_TEAM_FINE)
    return refuse (gather, name, card.name, fault);
  if (seen.bundle.number == last.number)
    return KNOWN;
  if (last.made_s < player.grant.made_s)
    missing = 0; /* those in between were made while the grant was another */
  outcome = open_bundle (gather, name, card.name, &seen, missing);
  return outcome == NOT_FOR_US ? pass_by (gather, name, card.name, &seen, &last, player.grant.made_s) : outcome;
}

/* ---- the folder ---- */

typedef Outcome (*Take) (Gather *gather, const char *name, const GByteArray *file);

static Outcome
take_file (Gather *gather, const char *name, Take take)
{
  const CarpaceGathering *g = gather->gathering;
  CarpaceTeamFault fault;
  g_autoptr (GByteArray) file = NULL;

  if (take == take_bundle && g->store->was_seen (g->store->self, name))
    return KNOWN;
  file = carpace_folder_file (g->shared, name, &fault);
  if (file == NULL)
    return fault == CARPACE_TEAM_NO_FILE ? PASSED : refuse (gather, name, "", fault); /* gone meanwhile */
  return take (gather, name, file);
}

/* @return false where the store cannot be written any more */
static bool
take_all (Gather *gather, const GPtrArray *names, const char *ends, Take take)
{
  const CarpaceRosterStore *store = gather->gathering->store;
  int32_t *count[] = { &gather->gathered->taken, &gather->gathered->known, &gather->gathered->passed, &gather->gathered->refused };
  bool good = store->begin (store->self);
  int32_t under_way = 0;

  for (guint i = 0; good && i < names->len; i++)
    {
      Outcome outcome;

      if (!g_str_has_suffix (names->pdata[i], ends))
        continue;
      outcome = take_file (gather, names->pdata[i], take);
      good = outcome != NOT_KEPT;
      if (good)
        ++*count[outcome];
      if (good && outcome == TAKEN && ++under_way % TOGETHER == 0)
        good = store->end (store->self, true) && store->begin (store->self);
    }
  return store->end (store->self, good) && good;
}

CarpaceTeamFault
carpace_gather (const CarpaceGathering *gathering, CarpaceRefusedVisitor refused, void *user, CarpaceGathered *ret_gathered)
{
  static const struct { const char *ends; Take take; } kinds[] = {
    { CARPACE_GRANT_END, take_grant }, { CARPACE_ERASURE_END, take_erasure }, { CARPACE_BUNDLE_END, take_bundle },
  };
  Gather gather = { gathering, refused, user, ret_gathered, g_hash_table_new_full (carpace_key_hash, carpace_key_same, g_free, NULL),
                    g_hash_table_new_full (carpace_key_hash, carpace_key_same, g_free, NULL) };
  g_autoptr (GPtrArray) names = carpace_folder_names (gathering->shared, "", "");
  bool good = names != NULL;

  *ret_gathered = (CarpaceGathered) { .taken = 0 };
  for (size_t i = 0; good && i < G_N_ELEMENTS (kinds); i++)
    good = take_all (&gather, names, kinds[i].ends, kinds[i].take);
  g_hash_table_unref (gather.strangers);
  g_hash_table_unref (gather.ahead);
  return good ? CARPACE_TEAM_FINE : CARPACE_TEAM_FAILED;
}
