/* SPDX-License-Identifier: GPL-3.0-or-later */
/* team-fields.c: one table a kind of record that goes between a player and a team. */
#include "carpace/team.h"

#include <string.h>

#include "carpace/diary.h"
#include "carpace/entry-fields.h"

#define TIME_MOST INT64_C (7289654399) /* 2200-12-31T23:59:59Z */
#define NUMBER_MOST INT64_C (1000000000)

#define AT(member) offsetof (OF, member), sizeof (((OF *) NULL)->member)
#define WHOLE(label, type, words, low, high, member) \
  { .field = { label, type, words, low, high, AT (member) }, .shape = CARPACE_TEAM_NUMBER }
#define NUMBER(label, member, low, high) WHOLE (label, CARPACE_FIELD_NUMBER, CARPACE_N_WORDS, low, high, member)
#define MS(label, member) WHOLE (label, CARPACE_FIELD_MS, CARPACE_N_WORDS, 0, CARPACE_FIELD_LENGTH_MS, member)
#define TIME(label, member) NUMBER (label, member, 0, TIME_MOST)
#define DAY(label, member) \
  WHOLE (label, CARPACE_FIELD_DAY, CARPACE_N_WORDS, CARPACE_FIELD_DAY_FIRST, CARPACE_FIELD_DAY_LAST, member)
#define FLAG(label, member) WHOLE (label, CARPACE_FIELD_FLAG, CARPACE_N_WORDS, 0, 1, member)
#define WORD(label, member, words, n) WHOLE (label, CARPACE_FIELD_WORD, words, 0, (n) - 1, member)
#define ROLE(label, member) WORD (label, member, CARPACE_WORDS_ROLE, CARPACE_N_ROLES)
#define OTHER(label, kind, member, n) \
  { .field = { label, CARPACE_FIELD_NUMBER, CARPACE_N_WORDS, 0, 0, AT (member) }, .shape = kind, .most = n }
#define KEY(label, member) OTHER (label, CARPACE_TEAM_KEY, member, CARPACE_KEY_BYTES)
#define TEXT(label, member) OTHER (label, CARPACE_TEAM_TEXT, member, sizeof (((OF *) NULL)->member) - 1)
#define BYTES(label, member, n) OTHER (label, CARPACE_TEAM_BYTES, member, n)

#define OF CarpaceCard
static const CarpaceTeamField card_fields[] = {
  TEXT ("name", name),
  ROLE ("role", role),
  KEY ("sign", sign),
  KEY ("seal", seal),
  TIME ("made_s", made_s),
};
#undef OF
#define OF CarpaceDevice
static const CarpaceTeamField device_fields[] = {
  KEY ("person", person),
  KEY ("device", device),
  TIME ("made_s", made_s),
};
#undef OF
#define OF CarpaceGrant
static const CarpaceTeamField grant_fields[] = {
  KEY ("player", player),
  KEY ("reader", reader),
  KEY ("reader_seal", reader_seal),
  TEXT ("reader_name", reader_name),
  ROLE ("reader_role", reader_role),
  WORD ("what", what, CARPACE_WORDS_GRANT_WHAT, CARPACE_N_GRANT_WHATS),
  DAY ("since", since),
  DAY ("until", until),
  NUMBER ("number", number, 1, NUMBER_MOST),
  TIME ("made_s", made_s),
  FLAG ("under_age", under_age),
  KEY ("guardian", guardian),
  NUMBER ("wording", wording, 1, 9999),
};
#undef OF
#define OF CarpaceHandOut
static const CarpaceTeamField hand_out_fields[] = {
  KEY ("giver", giver),
  TEXT ("giver_name", giver_name),
  ROLE ("giver_role", giver_role),
  KEY ("player", player),
  KEY ("plan", plan),
  TIME ("made_s", made_s),
};
#undef OF
#define OF CarpaceBundle
static const CarpaceTeamField bundle_fields[] = {
  KEY ("player", player),
  WORD ("kind", kind, CARPACE_WORDS_BUNDLE, CARPACE_N_BUNDLES),
  NUMBER ("number", number, 1, NUMBER_MOST),
  KEY ("before", before),
  TIME ("made_s", made_s),
  BYTES ("device", device, 1024),
  BYTES ("readers", readers, CARPACE_TEAM_READERS * CARPACE_TEAM_SEALED_KEY),
  BYTES ("content", content, CARPACE_TEAM_CONTENT_MOST),
};
#undef OF
#define OF CarpaceErasure
static const CarpaceTeamField erasure_fields[] = {
  KEY ("player", player),
  TIME ("made_s", made_s),
};
#undef OF
#define OF CarpaceHeir
static const CarpaceTeamField heir_fields[] = {
  KEY ("before", before),
  KEY ("sign", sign),
  KEY ("seal", seal),
  TIME ("made_s", made_s),
};
#undef OF
#define OF CarpaceLocked
static const CarpaceTeamField locked_fields[] = {
  NUMBER ("passes", passes, 1, 64),
  NUMBER ("memory_bytes", memory_bytes, 8192, INT64_C (1) << 30),
  BYTES ("salt", salt, 16),
  BYTES ("nonce", nonce, 24),
  BYTES ("box", box, 48),
};
#undef OF
#define OF CarpaceChain
static const CarpaceTeamField chain_fields[] = {
  WORD ("kind", kind, CARPACE_WORDS_BUNDLE, CARPACE_N_BUNDLES),
  NUMBER ("number", number, 1, NUMBER_MOST),
  KEY ("last", last),
  TIME ("made_s", made_s),
};
#undef OF
#define OF CarpaceLoadHead
static const CarpaceTeamField load_head_fields[] = {
  TEXT ("plan_name", plan_name),
  NUMBER ("plan_version", plan_version, 0, CARPACE_PLAN_VERSIONS),
  KEY ("plan", plan),
  TIME ("in_force_s", in_force_s),
  FLAG ("at_ceiling", at_ceiling),
};
#undef OF
#define OF CarpaceLoadWeek
static const CarpaceTeamField load_week_fields[] = {
  DAY ("monday", monday),
  MS ("planned_ms", planned_ms),
  MS ("done_ms", done_ms),
  NUMBER ("days", days, 0, 7),
  NUMBER ("rests", rests, 0, 100000),
};
#undef OF
#define OF CarpaceHandRow
static const CarpaceTeamField hand_row_fields[] = {
  NUMBER ("id", id, 0, INT64_MAX),
  DAY ("day", day),
  NUMBER ("elapsed_ms", elapsed_ms, -CARPACE_FIELD_ELAPSED_MS, CARPACE_FIELD_ELAPSED_MS),
  NUMBER ("wall_ms", wall_ms, 0, TIME_MOST * 1000),
  NUMBER ("offset_s", offset_s, -86400, 86400),
  NUMBER ("kind", kind, 0, 9999), /* a newer program has more of them: whoever reads passes those over */
  BYTES ("values", values, 10 * CARPACE_ENTRY_FIELDS),
};
#undef OF
#define OF CarpaceNote
static const CarpaceTeamField note_fields[] = {
  KEY ("from", from),
  KEY ("player", player),
  TIME ("made_s", made_s),
  BYTES ("readers", readers, CARPACE_TEAM_NOTE_DEVICES * CARPACE_TEAM_SEALED_KEY),
  BYTES ("content", content, CARPACE_TEAM_NOTE_SEALED),
};
#undef OF
#define OF CarpaceNoteText
static const CarpaceTeamField note_text_fields[] = {
  KEY ("from", from),
  TEXT ("text", text),
};
#undef OF

#define ROW(fields, type) { fields, (int32_t) (sizeof (fields) / sizeof ((fields)[0])), sizeof (type) }

static const struct { const CarpaceTeamField *field; int32_t n; size_t size; } kinds[CARPACE_N_TEAM_KINDS] = {
  [CARPACE_TEAM_CARD] = ROW (card_fields, CarpaceCard),
  [CARPACE_TEAM_DEVICE] = ROW (device_fields, CarpaceDevice),
  [CARPACE_TEAM_GRANT] = ROW (grant_fields, CarpaceGrant),
  [CARPACE_TEAM_HAND_OUT] = ROW (hand_out_fields, CarpaceHandOut),
  [CARPACE_TEAM_BUNDLE] = ROW (bundle_fields, CarpaceBundle),
  [CARPACE_TEAM_ERASURE] = ROW (erasure_fields, CarpaceErasure),
  [CARPACE_TEAM_HEIR] = ROW (heir_fields, CarpaceHeir),
  [CARPACE_TEAM_LOCKED] = ROW (locked_fields, CarpaceLocked),
  [CARPACE_TEAM_CHAIN] = ROW (chain_fields, CarpaceChain),
  [CARPACE_TEAM_LOAD_HEAD] = ROW (load_head_fields, CarpaceLoadHead),
  [CARPACE_TEAM_LOAD_WEEK] = ROW (load_week_fields, CarpaceLoadWeek),
  [CARPACE_TEAM_HAND_ROW] = ROW (hand_row_fields, CarpaceHandRow),
  [CARPACE_TEAM_NOTE] = ROW (note_fields, CarpaceNote),
  [CARPACE_TEAM_NOTE_TEXT] = ROW (note_text_fields, CarpaceNoteText),
};

const CarpaceTeamField *
carpace_team_fields (CarpaceTeamKind kind, int32_t *ret_n, size_t *ret_size)
{
  bool known = (uint32_t) kind < CARPACE_N_TEAM_KINDS;

  *ret_n = known ? kinds[kind].n : 0;
  if (ret_size != NULL)
    *ret_size = known ? kinds[kind].size : 0;
  return known ? kinds[kind].field : NULL;
}

bool
carpace_key_is_one (const CarpaceKey *key)
{
  const CarpaceKey none = { { 0 } };

  return !carpace_key_equal (key, &none);
}

bool
carpace_key_equal (const CarpaceKey *a, const CarpaceKey *b)
{
  return memcmp (a->byte, b->byte, CARPACE_KEY_BYTES) == 0;
}

unsigned
carpace_key_hash (const void *key)
{
  unsigned hash;

  memcpy (&hash, key, sizeof hash); /* one part of a public key is as good as another */
  return hash;
}

int
carpace_key_same (const void *a, const void *b)
{
  return carpace_key_equal (a, b);
}

void
carpace_key_short (const CarpaceKey *key, char ret_text[CARPACE_KEY_SHORT_BYTES])
{
  static const char digit[] = "0123456789abcdef";

  for (int i = 0; i < CARPACE_KEY_SHORT_BYTES / 2; i++)
    {
      ret_text[2 * i] = digit[key->byte[i] >> 4];
      ret_text[2 * i + 1] = digit[key->byte[i] & 15];
    }
  ret_text[CARPACE_KEY_SHORT_BYTES - 1] = '\0';
}

bool
carpace_grant_covers (CarpaceGrantWhat what, CarpaceBundleKind kind)
{
  switch (what)
    {
    case CARPACE_GRANT_NONE: return false;
    case CARPACE_GRANT_LOAD: return kind == CARPACE_BUNDLE_LOAD;
    case CARPACE_GRANT_HAND: return kind == CARPACE_BUNDLE_HAND;
    case CARPACE_GRANT_ALL: return true;
    case CARPACE_N_GRANT_WHATS: break;
    }
  return false;
}
