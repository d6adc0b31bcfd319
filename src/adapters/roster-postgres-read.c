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

/* @return NULL, told */
static GArray *
all_players (Roster *roster)
{
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_GRANT);
  g_autofree char *sql = g_strdup_printf ("SELECT name, guarded, erased_s, load_made_s, load_missing, hand_made_s, hand_missing, %s "
                                          "FROM club.players () ORDER BY name COLLATE \"C\", player", columns);
  PGresult *result = carpace_postgres_ask (roster, sql, NULL);
  GArray *all = g_array_new (FALSE, FALSE, sizeof (CarpaceRosterPlayer));
  bool good = result != NULL;

  for (int row = 0; good && row < PQntuples (result); row++)
    {
      CarpaceRosterPlayer player;

      good = take_player (result, row, 7, &player) || damaged (roster);
      g_array_append_val (all, player);
    }
  PQclear (result);
  if (!good)
    g_clear_pointer (&all, g_array_unref);
  return all;
}

static bool
players (void *self, CarpaceRosterPlayerVisitor visit, void *user)
{
  Roster *roster = self;
  g_autoptr (GArray) all = all_players (roster);

  roster->listed = all;
  for (guint i = 0; all != NULL && i < all->len; i++)
    {
      roster->listed_at = i;
      if (!visit (user, &g_array_index (all, CarpaceRosterPlayer, i)))
        break;
    }
  roster->listed = NULL;
  carpace_postgres_forget_hands (roster);
  return all != NULL;
}

/* ---- when it is ---- */

static bool
now (void *self, int64_t *ret_wall_ms)
{
  bool any;

  return carpace_postgres_number (self, "SELECT floor (extract (epoch FROM now ()) * 1000)::bigint", NULL, ret_wall_ms, &any) && any;
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

/* ---- the hand: of one player, or, while all are gone through, of the next ones with it ---- */

#define TOGETHER 20 /* players: of 3000 at once the answer would be hundreds of megabytes */

void
carpace_postgres_forget_hands (Roster *roster)
{
  g_clear_pointer (&roster->hands, PQclear);
  g_clear_pointer (&roster->hand_at, g_hash_table_unref);
}

/* @param keys an array, as a text. @return NULL, told; else PQclear() it: a column for the player, and those of a row */
static PGresult *
ask_hands (Roster *roster, const GString *keys, const CarpaceHandAsk *ask)
{
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_HAND_ROW);
  g_autofree char *sql = g_strdup_printf ("SELECT player, %s FROM club.hands ($1, $2, $3, $4)", columns);
  GPtrArray *values = carpace_postgres_values ();

  carpace_postgres_add_text (values, keys->str);
  carpace_postgres_add_number (values, ask->since);
  carpace_postgres_add_number (values, ask->until);
  carpace_postgres_add_number (values, ask->kinds);
  return carpace_postgres_ask (roster, sql, values);
}

static void
add_to_array (GString *keys, const CarpaceKey *key)
{
  g_autoptr (GPtrArray) values = carpace_postgres_values ();

  carpace_postgres_add_key (values, key);
  g_string_append_printf (keys, "%s\"\\%s\"}", keys->len > 1 ? "," : "", (const char *) values->pdata[0]);
}

/* Of the player that is being told and of those after it. @return false, told */
static bool
ask_next_hands (Roster *roster, const CarpaceHandAsk *ask)
{
  guint end = MIN (roster->listed_at + TOGETHER, roster->listed->len);
  g_autoptr (GString) keys = g_string_new ("{");
  bool good;

  carpace_postgres_forget_hands (roster);
  roster->hand_at = g_hash_table_new_full (carpace_key_hash, carpace_key_same, g_free, NULL);
  roster->hands_ask = *ask;
  for (guint i = roster->listed_at; i < end; i++)
    {
      const CarpaceKey *key = &g_array_index (roster->listed, CarpaceRosterPlayer, i).player;

      g_string_truncate (keys, MAX (keys->len - 1, 1)); /* its end */
      add_to_array (keys, key);
      g_hash_table_insert (roster->hand_at, g_memdup2 (key, sizeof *key), GINT_TO_POINTER (0));
    }
  roster->hands = ask_hands (roster, keys, ask);
  good = roster->hands != NULL;
  for (int row = good ? PQntuples (roster->hands) - 1 : -1; good && row >= 0; row--)
    {
      CarpaceKey key;

      good = carpace_postgres_take_key (roster->hands, row, 0, &key) || damaged (roster);
      if (good)
        g_hash_table_insert (roster->hand_at, g_memdup2 (&key, sizeof key), GINT_TO_POINTER (row + 1));
    }
  if (!good)
    carpace_postgres_forget_hands (roster);
  return good;
}

/* Tells the rows of one player, from @first on. */
static bool
tell_rows (Roster *roster, const PGresult *result, int first, CarpaceHandRowVisitor visit, void *user)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  bool good = true, more = true;

  for (int row = first; good && more && row < PQntuples (result); row++)
    {
      CarpaceHandRow entry;

      if (strcmp (PQgetvalue (result, row, 0), PQgetvalue (result, first, 0)) != 0)
        break;
      good = carpace_postgres_take (result, row, 1, CARPACE_TEAM_HAND_ROW, &entry, bytes) || damaged (roster);
      more = good && visit (user, &entry);
    }
  return good;
}

static bool
rows_of_one (Roster *roster, const CarpaceKey *player, const CarpaceHandAsk *ask, CarpaceHandRowVisitor visit, void *user)
{
  g_autoptr (GString) keys = g_string_new ("{");
  PGresult *result;
  bool good;

  add_to_array (keys, player);
  result = ask_hands (roster, keys, ask);
  good = result != NULL && tell_rows (roster, result, 0, visit, user);
  PQclear (result);
  return good;
}

static bool
rows_of (void *self, const CarpaceKey *player, CarpaceDay since, CarpaceDay until, uint32_t kinds, CarpaceHandRowVisitor visit, void *user)
{
  Roster *roster = self;
  const CarpaceHandAsk ask = { since, until, kinds };
  void *at;

  if (roster->login.role != CARPACE_ROLE_CLINICIAN)
    return true; /* the database would refuse it */
  if (roster->listed == NULL || !carpace_key_equal (player, &g_array_index (roster->listed, CarpaceRosterPlayer, roster->listed_at).player))
    return rows_of_one (roster, player, &ask, visit, user);
  if ((roster->hand_at == NULL || !g_hash_table_contains (roster->hand_at, player) || memcmp (&ask, &roster->hands_ask, sizeof ask) != 0)
      && !ask_next_hands (roster, &ask))
    return false;
  at = g_hash_table_lookup (roster->hand_at, player);
  return at == NULL || tell_rows (roster, roster->hands, GPOINTER_TO_INT (at) - 1, visit, user);
}

void
carpace_postgres_reading (CarpaceRosterStore *store)
{
  store->now = now;
  store->players = players;
  store->head = head_of;
  store->weeks = weeks_of;
  store->rows = rows_of;
}
