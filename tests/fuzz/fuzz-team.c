/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fuzz-team.c: any file of a team, read as each kind that comes from strangers; and its bytes as the rows of a bundle,
 * which only whoever is let in could have made, but which are believed no more for it. */
#include <glib.h>
#include <string.h>

#include "target.h"
#include "team/bundle.h"
#include "team/content.h"
#include "team/hand-out.h"
#include "team/note.h"
#include "team/share.h"

static bool
check_row (void *user, const CarpaceHandRow *row, const CarpaceEntry *entry)
{
  g_assert_true (entry->kind < CARPACE_N_ENTRIES);
  g_assert_true (row->day >= CARPACE_FIELD_DAY_FIRST && row->day <= CARPACE_FIELD_DAY_LAST);
  return true;
}

static void
read_rows (const uint8_t *data, size_t n)
{
  g_autoptr (GByteArray) rows = g_byte_array_new ();
  CarpaceLoad load;

  g_byte_array_append (rows, data, (guint) n);
  if (carpace_load_read (rows, &load) == CARPACE_TEAM_FINE)
    g_assert_true (load.n_weeks >= 0 && load.n_weeks <= CARPACE_TEAM_WEEKS);
  carpace_hand_read (rows, check_row, NULL);
}

/* What a note is once opened: a text that may be shown, or nothing. */
static void
read_note_text (const uint8_t *data, size_t n)
{
  CarpaceNoteText text;
  size_t used;

  if (carpace_record_read (CARPACE_TEAM_NOTE_TEXT, data, n, &text, &used) == CARPACE_TEAM_FINE)
    g_assert_true (g_utf8_validate (text.text, -1, NULL) && strlen (text.text) < sizeof text.text);
}

/* Opened where it can be, by the device that the corpus' notes are sealed to. */
static void
read_note (const uint8_t *data, size_t n)
{
  uint8_t seed[CARPACE_KEY_BYTES];
  CarpaceSigner device;
  CarpaceNote note;
  CarpaceNoteText text;

  memset (seed, 4, sizeof seed);
  carpace_signer_of (seed, &device);
  if (carpace_note_read (data, n, &note) == CARPACE_TEAM_FINE && carpace_note_open (&note, &device, &text) == CARPACE_TEAM_FINE)
    g_assert_true (carpace_note_is_text (text.text));
}

/* What is read as a record is written as the same bytes: there is one form. */
static void
read_any (const uint8_t *data, size_t n)
{
  int32_t kind = carpace_signed_kind (data, n), n_fields;
  g_autofree void *record = NULL;
  g_autoptr (GByteArray) again = g_byte_array_new ();
  CarpaceSignatures signatures;
  size_t size;

  if (kind < 0)
    return;
  carpace_team_fields ((CarpaceTeamKind) kind, &n_fields, &size);
  record = g_malloc (size);
  if (carpace_signed_read ((CarpaceTeamKind) kind, data, n, record, &signatures) != CARPACE_TEAM_FINE)
    return;
  carpace_record_write ((CarpaceTeamKind) kind, record, again);
  g_assert_true (8 + again->len + 1 + (size_t) signatures.n * 96 == n);
  g_assert_true (memcmp (again->data, data + 8, again->len) == 0);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t n)
{
  CarpaceBundleSeen seen;
  CarpaceGrant grant;
  CarpaceCard card;
  CarpaceErasure erasure;
  CarpaceHeir heir;
  CarpaceHandOut hand_out;
  CarpaceSigner signer;
  bool guarded;

  g_assert_true (carpace_team_ready ());
  read_any (data, n);
  carpace_bundle_read (data, n, &seen);
  carpace_grant_read (data, n, &grant, &guarded);
  carpace_card_read (data, n, &card);
  carpace_erasure_read (data, n, &erasure);
  carpace_heir_read (data, n, &heir);
  carpace_signer_read (data, n, &signer);
  carpace_hand_out_read ((const char *) data, n, &hand_out);
  read_rows (data, n);
  read_note (data, n);
  read_note_text (data, n);
  return 0;
}
