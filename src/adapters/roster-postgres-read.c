/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster-postgres-read.c: what a reader's login is shown: by the database's functions, and nothing else. */
#include "adapters/roster-postgres-private.h"

#include <string.h>

static bool
damaged (Roster *roster)
{
  return carpace_postgres_fail (roster, CARPACE_CLUB_DAMAGED, NULL);
}

/* ---- players ---- */

/* What is beside the grant: from the column @at on. */
static bool
take_player (const PGresult *result, int row, int at, CarpaceRosterPlayer *ret_player)
{
  int64_t guarded;

  memset (ret_player, 0, sizeof *ret_player);
  if (!carpace_postgres_take (result, row, at, CARPACE_TEAM_GRANT, &ret_player->grant, NULL)
      || strlen (PQgetvalue (result, row, 0)) >= sizeof ret_player->name || !carpace_postgres_take_number (result, row, 1, &guarded)
      || !carpace_postgres_take_number (result, row, 2, &ret_player->erased_s))
    return false;
  for (int kind = 0; kind < CARPACE_N_BUNDLES; kind++)
    if (!carpace_postgres_take_number (result, row, 3 + 2 * kind, &ret_player->made_s[kind])
        || !carpace_postgres_take_number (result, row, 4 + 2 * kind, &ret_player->missing[kind]))
      return false;
  g_strlcpy (ret_player->name, PQgetvalue (result, row, 0), sizeof ret_player->name);
  ret_player->player = ret_player->grant.player;
  ret_player->guarded = guarded != 0;
  return true;
}

static bool
players (void *self, CarpaceRosterPlayerVisitor visit, void *user)
{
  Roster *roster = self;
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_GRANT);
  g_autofree char *sql = g_strdup_printf ("SELECT name, guarded, erased_s, load_made_s, load_missing, hand_made_s, hand_missing, %s "
                                          "FROM club.players () ORDER BY name COLLATE \"C\", player", columns);
  PGresult *result = carpace_postgres_ask (roster, sql, NULL);
  bool good = result != NULL, more = true;

  for (int row = 0; good && more && row < PQntuples (result); row++)
    {
      CarpaceRosterPlayer player;

      good = take_player (result, row, 7, &player) || damaged (roster);
      more = good && visit (user, &player);
    }
  PQclear (result);
  return good;
}

/* ---- load: of all players at once, when it is first asked for ---- */

static bool
have_heads (Roster *roster)
{
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_LOAD_HEAD), *sql = NULL;
  PGresult *result;
  bool good;

  if (roster->heads != NULL)
    return true;
  sql = g_strdup_printf ("SELECT player, %s FROM club.heads ()", columns);
  result = carpace_postgres_ask (roster, sql, NULL);
  good = result != NULL;
  roster->heads = g_hash_table_new_full (carpace_key_hash, carpace_key_same, g_free, g_free);
  for (int row = 0; good && row < PQntuples (result); row++)
    {
      CarpaceKey *player = g_new (CarpaceKey, 1);
      CarpaceLoadHead *head = g_new (CarpaceLoadHead, 1);

      good = (carpace_postgres_take_key (result, row, 0, player) && carpace_postgres_take (result, row, 1, CARPACE_TEAM_LOAD_HEAD, head, NULL))
             || damaged (roster);
      g_hash_table_insert (roster->heads, player, head);
    }
  PQclear (result);
  return good;
}

static bool
head_of (void *self, const CarpaceKey *player, CarpaceLoadHead *ret_head)
{
  Roster *roster = self;
  const CarpaceLoadHead *head;

  memset (ret_head, 0, sizeof *ret_head);
  if (!have_heads (roster))
    return false;
  head = g_hash_table_lookup (roster->heads, player);
  if (head != NULL)
    *ret_head = *head;
  return true;
}

static void
free_weeks (void *weeks)
{
  g_array_unref (weeks);
}

static bool
have_weeks (Roster *roster, int32_t since)
{
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_LOAD_WEEK), *sql = NULL;
  GPtrArray *values;
  PGresult *result;
  bool good;

  if (roster->weeks != NULL && since == roster->weeks_since)
    return true;
  g_clear_pointer (&roster->weeks, g_hash_table_unref);
  sql = g_strdup_printf ("SELECT player, %s FROM club.weeks ($1)", columns);
  values = carpace_postgres_values ();
  carpace_postgres_add_number (values, since);
  result = carpace_postgres_ask (roster, sql, values);
  good = result != NULL;
  roster->weeks = g_hash_table_new_full (carpace_key_hash, carpace_key_same, g_free, free_weeks);
  roster->weeks_since = since;
  for (int row = 0; good && row < PQntuples (result); row++)
    {
      CarpaceKey player;
      CarpaceLoadWeek week;
      GArray *weeks;

      good = (carpace_postgres_take_key (result, row, 0, &player) && carpace_postgres_take (result, row, 1, CARPACE_TEAM_LOAD_WEEK, &week, NULL))
             || damaged (roster);
      if (!good)
        break;
      weeks = g_hash_table_lookup (roster->weeks, &player);
      if (weeks == NULL)
        g_hash_table_insert (roster->weeks, g_memdup2 (&player, sizeof player), weeks = g_array_new (FALSE, FALSE, sizeof week));
      g_array_append_val (weeks, week);
    }
  PQclear (result);
  return good;
}

static bool
weeks_of (void *self, const CarpaceKey *player, int32_t since, CarpaceLoadWeekVisitor visit, void *user)
{
  Roster *roster = self;
  const GArray *weeks;
  bool more = true;

  if (!have_weeks (roster, since))
    return false;
  weeks = g_hash_table_lookup (roster->weeks, player);
  for (guint i = 0; weeks != NULL && more && i < weeks->len; i++)
    more = visit (user, &g_array_index (weeks, CarpaceLoadWeek, i));
  return true;
}

/* ---- the hand ---- */

static bool
rows_of (void *self, const CarpaceKey *player, CarpaceDay since, CarpaceDay until, uint32_t kinds, CarpaceHandRowVisitor visit, void *user)
{
  Roster *roster = self;
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_HAND_ROW);
  g_autofree char *sql = g_strdup_printf ("SELECT %s FROM club.hand ($1, $2, $3, $4)", columns);
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  GPtrArray *values;
  PGresult *result;
  bool good, more = true;

  if (roster->login.role != CARPACE_ROLE_CLINICIAN)
    return true; /* the database would refuse it */
  values = carpace_postgres_values ();
  carpace_postgres_add_key (values, player);
  carpace_postgres_add_number (values, since);
  carpace_postgres_add_number (values, until);
  carpace_postgres_add_number (values, kinds);
  result = carpace_postgres_ask (roster, sql, values);
  good = result != NULL;
  for (int row = 0; good && more && row < PQntuples (result); row++)
    {
      CarpaceHandRow entry;

      good = carpace_postgres_take (result, row, 0, CARPACE_TEAM_HAND_ROW, &entry, bytes) || damaged (roster);
      more = good && visit (user, &entry);
    }
  PQclear (result);
  return good;
}

void
carpace_postgres_reading (CarpaceRosterStore *store)
{
  store->players = players;
  store->head = head_of;
  store->weeks = weeks_of;
  store->rows = rows_of;
}
