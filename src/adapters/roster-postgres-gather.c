/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster-postgres-gather.c: what a gatherer writes: as gather.c verified it, in its own right on the tables. */
#include "adapters/roster-postgres-private.h"

#include <string.h>

#define TURN "SELECT pg_advisory_xact_lock (7023146)" /* of gatherers: one writes at a time, the next sees what it wrote */
#define TOGETHER 1000 /* hand rows in one statement */

/* A statement with the names of a kind's columns in it; frees @sql. */
static bool
write_down (Roster *roster, char *sql, GPtrArray *values)
{
  bool done = carpace_postgres_do (roster, sql, values);

  g_free (sql);
  return done;
}

static GPtrArray *
about (const CarpaceKey *player)
{
  GPtrArray *values = carpace_postgres_values ();

  carpace_postgres_add_key (values, player);
  return values;
}

/* ---- hand rows, many at a time: a column is one array ---- */

static void
forget_batch (Roster *roster)
{
  g_clear_pointer (&roster->batch, g_ptr_array_unref);
  roster->n_batch = 0;
}

static void
free_column (void *column)
{
  g_string_free (column, TRUE);
}

static bool
send_batch (Roster *roster)
{
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_HAND_ROW);
  GString *arrays = g_string_new (NULL);
  GPtrArray *values;
  int32_t n;
  const CarpaceTeamField *field = carpace_team_fields (CARPACE_TEAM_HAND_ROW, &n, NULL);
  char *sql;

  if (roster->n_batch == 0)
    {
      g_string_free (arrays, TRUE);
      return true;
    }
  values = about (&roster->batch_player);
  carpace_postgres_add_number (values, roster->batch_made_s);
  for (int32_t i = 0; i < n; i++)
    {
      GString *column = roster->batch->pdata[i];

      g_string_append_c (column, '}');
      carpace_postgres_add_text (values, column->str);
      g_string_append_printf (arrays, "%s$%d::%s[]", i > 0 ? ", " : "", (int) i + 3, field[i].shape == CARPACE_TEAM_BYTES ? "bytea" : "bigint");
    }
  forget_batch (roster);
  sql = g_strdup_printf ("INSERT INTO club.entry (%s, player, made_s) SELECT u.*, $1, $2 FROM unnest (%s) AS u ON CONFLICT DO NOTHING",
                         columns, arrays->str);
  g_string_free (arrays, TRUE);
  return write_down (roster, sql, values);
}

/* One more element of a column's array; bytes stand in quotes, with their backslash doubled. */
static void
add_element (GString *column, const char *text)
{
  g_string_append_c (column, column->len == 0 ? '{' : ',');
  if (text[0] == '\\')
    g_string_append_printf (column, "\"\\%s\"", text);
  else
    g_string_append (column, text);
}

static bool
keep_hand (void *self, const CarpaceKey *player, int64_t made_s, const CarpaceHandRow *row)
{
  Roster *roster = self;
  g_autoptr (GPtrArray) values = carpace_postgres_values ();

  if (roster->n_batch > 0 && (!carpace_key_equal (player, &roster->batch_player) || made_s != roster->batch_made_s || roster->n_batch == TOGETHER)
      && !send_batch (roster))
    return false;
  carpace_postgres_add (values, CARPACE_TEAM_HAND_ROW, row);
  if (roster->batch == NULL)
    {
      roster->batch = g_ptr_array_new_with_free_func (free_column);
      for (guint i = 0; i < values->len; i++)
        g_ptr_array_add (roster->batch, g_string_new (NULL));
    }
  for (guint i = 0; i < values->len; i++)
    add_element (roster->batch->pdata[i], values->pdata[i]);
  roster->batch_player = *player;
  roster->batch_made_s = made_s;
  roster->n_batch++;
  return true;
}

/* ---- together ---- */

static bool
begin (void *self)
{
  return carpace_postgres_do (self, "BEGIN", NULL) && carpace_postgres_do (self, TURN, NULL);
}

static bool
end (void *self, bool keep)
{
  Roster *roster = self;
  bool good = keep && send_batch (roster);

  forget_batch (roster);
  if (good)
    return carpace_postgres_do (roster, "COMMIT", NULL);
  if (PQstatus (roster->db) == CONNECTION_OK && PQtransactionStatus (roster->db) != PQTRANS_IDLE)
    PQclear (PQexec (roster->db, "ROLLBACK"));
  return !keep;
}

static bool
has_told (void *self)
{
  return ((Roster *) self)->has_told;
}

/* ---- files ---- */

static bool
was_seen (void *self, const char *file)
{
  GPtrArray *values = carpace_postgres_values ();
  int64_t one;
  bool seen;

  carpace_postgres_add_text (values, file);
  return carpace_postgres_number (self, "SELECT 1 FROM club.seen WHERE file = $1", values, &one, &seen) && seen;
}

static bool
mark_seen (void *self, const char *file)
{
  GPtrArray *values = carpace_postgres_values ();

  carpace_postgres_add_text (values, file);
  return carpace_postgres_do (self, "INSERT INTO club.seen (file) VALUES ($1) ON CONFLICT DO NOTHING", values);
}

/* ---- grants ---- */

static bool
drop_load (Roster *roster, const CarpaceKey *player)
{
  return carpace_postgres_do (roster, "DELETE FROM club.head WHERE player = $1", about (player))
         && carpace_postgres_do (roster, "DELETE FROM club.week WHERE player = $1", about (player));
}

/* What the gatherer itself may not have any more is nobody's in this club. */
static bool
drop_uncovered (Roster *roster, const CarpaceGrant *grant)
{
  return (carpace_grant_covers (grant->what, CARPACE_BUNDLE_LOAD) || drop_load (roster, &grant->player))
         && (carpace_grant_covers (grant->what, CARPACE_BUNDLE_HAND)
             || carpace_postgres_do (roster, "DELETE FROM club.entry WHERE player = $1", about (&grant->player)));
}

static bool
keep_grant (void *self, const char *name, const CarpaceGrant *grant, bool guarded, const uint8_t *file, size_t n, int64_t *ret_last)
{
  Roster *roster = self;
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_GRANT), *marks = carpace_postgres_marks (CARPACE_TEAM_GRANT, 4);
  g_autofree char *excluded = carpace_postgres_excluded (CARPACE_TEAM_GRANT);
  GPtrArray *values = about (&grant->player);
  bool any;

  *ret_last = 0;
  carpace_postgres_add_key (values, &grant->reader);
  if (!carpace_postgres_number (roster, "SELECT number FROM club.permit WHERE player = $1 AND reader = $2", values, ret_last, &any))
    return false;
  if (grant->number < *ret_last)
    return true;
  values = carpace_postgres_values ();
  carpace_postgres_add_text (values, name);
  carpace_postgres_add_number (values, guarded);
  carpace_postgres_add_bytes (values, file, n);
  carpace_postgres_add (values, CARPACE_TEAM_GRANT, grant);
  /* one that is there already changes nothing, but by the guardian's signature */
  return write_down (roster, g_strdup_printf (
           "INSERT INTO club.permit AS p (name, guarded, file, %s) VALUES ($1, $2, $3, %s) ON CONFLICT (player, reader) DO UPDATE SET "
           "name = excluded.name, guarded = excluded.guarded, file = excluded.file, %s "
           "WHERE excluded.number > p.number OR (excluded.number = p.number AND excluded.guarded > p.guarded)", columns, marks, excluded), values)
         && (!carpace_key_equal (&grant->reader, &roster->login.key) || drop_uncovered (roster, grant));
}

/* ---- erasure ---- */

static bool
erase (void *self, const CarpaceKey *player, int64_t until_s)
{
  static const char *const statements[] = {
    "INSERT INTO club.erased AS e (player, until_s) VALUES ($1, $2) ON CONFLICT (player) DO UPDATE SET until_s = excluded.until_s "
    "WHERE excluded.until_s > e.until_s",
    "DELETE FROM club.head WHERE player = $1 AND made_s <= $2",
    "DELETE FROM club.week WHERE player = $1 AND made_s <= $2",
    "DELETE FROM club.entry WHERE player = $1 AND made_s <= $2",
  };
  bool done = true;

  for (size_t i = 0; done && i < G_N_ELEMENTS (statements); i++)
    {
      GPtrArray *values = about (player);

      carpace_postgres_add_number (values, until_s);
      done = carpace_postgres_do (self, statements[i], values);
    }
  return done;
}

/* ---- chains ---- */

static GPtrArray *
device_of (const CarpaceKey *player, const CarpaceKey *device, CarpaceBundleKind kind)
{
  GPtrArray *values = about (player);

  carpace_postgres_add_key (values, device);
  carpace_postgres_add_number (values, (int64_t) kind);
  return values;
}

static bool
chain_of (void *self, const CarpaceKey *player, const CarpaceKey *device, CarpaceBundleKind kind, CarpaceChain *ret_chain)
{
  Roster *roster = self;
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_CHAIN);
  g_autofree char *sql = g_strdup_printf ("SELECT %s FROM club.chain WHERE player = $1 AND device = $2 AND kind = $3", columns);
  PGresult *result = carpace_postgres_ask (roster, sql, device_of (player, device, kind));
  bool good = result != NULL;

  *ret_chain = (CarpaceChain) { .kind = kind };
  if (good && PQntuples (result) > 0 && !carpace_postgres_take (result, 0, 0, CARPACE_TEAM_CHAIN, ret_chain, NULL))
    good = carpace_postgres_fail (roster, CARPACE_CLUB_DAMAGED, NULL);
  PQclear (result);
  return good;
}

static bool
keep_chain (void *self, const CarpaceKey *player, const CarpaceKey *device, const CarpaceChain *chain, int64_t missing)
{
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_CHAIN), *marks = carpace_postgres_marks (CARPACE_TEAM_CHAIN, 4);
  GPtrArray *values = about (player);

  carpace_postgres_add_key (values, device);
  carpace_postgres_add_number (values, missing);
  carpace_postgres_add (values, CARPACE_TEAM_CHAIN, chain);
  return write_down (self, g_strdup_printf (
    "INSERT INTO club.chain AS c (player, device, missing, %s) VALUES ($1, $2, $3, %s) ON CONFLICT (player, device, kind) DO UPDATE SET "
    "number = excluded.number, last = excluded.last, made_s = excluded.made_s, missing = c.missing + excluded.missing", columns, marks), values);
}

/* ---- load ---- */

static bool
keep_week (Roster *roster, const CarpaceKey *player, int64_t made_s, const CarpaceLoadWeek *week)
{
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_LOAD_WEEK), *marks = carpace_postgres_marks (CARPACE_TEAM_LOAD_WEEK, 3);
  GPtrArray *values = about (player);

  carpace_postgres_add_number (values, made_s);
  carpace_postgres_add (values, CARPACE_TEAM_LOAD_WEEK, week);
  return write_down (roster, g_strdup_printf (
    /* of two computers of a player the fuller week counts */
    "INSERT INTO club.week AS w (player, made_s, %s) VALUES ($1, $2, %s) ON CONFLICT (player, monday) DO UPDATE SET "
    "planned_ms = excluded.planned_ms, done_ms = excluded.done_ms, days = excluded.days, rests = excluded.rests, "
    "made_s = greatest (w.made_s, excluded.made_s) WHERE excluded.done_ms >= w.done_ms", columns, marks), values);
}

static bool
keep_load (void *self, const CarpaceKey *player, const CarpaceLoadHead *head, int64_t made_s, const CarpaceLoadWeek *week, int32_t n_weeks)
{
  Roster *roster = self;
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_LOAD_HEAD), *marks = carpace_postgres_marks (CARPACE_TEAM_LOAD_HEAD, 3);
  g_autofree char *excluded = carpace_postgres_excluded (CARPACE_TEAM_LOAD_HEAD);
  GPtrArray *values = about (player);
  bool kept;

  carpace_postgres_add_number (values, made_s);
  carpace_postgres_add (values, CARPACE_TEAM_LOAD_HEAD, head);
  kept = write_down (roster, g_strdup_printf (
    "INSERT INTO club.head AS h (player, made_s, %s) VALUES ($1, $2, %s) ON CONFLICT (player) DO UPDATE SET made_s = excluded.made_s, %s "
    "WHERE excluded.made_s >= h.made_s", columns, marks, excluded), values);
  for (int32_t i = 0; kept && i < n_weeks; i++)
    kept = keep_week (roster, player, made_s, &week[i]);
  return kept;
}

/* ---- what is known of one player, as the gatherer is let read them ---- */

static bool
take_rest (Roster *roster, CarpaceRosterPlayer *player)
{
  PGresult *result = carpace_postgres_ask (roster, "SELECT kind, max (made_s), sum (missing) FROM club.chain WHERE player = $1 GROUP BY kind",
                                           about (&player->player));
  bool good = result != NULL, any;

  for (int row = 0; good && row < PQntuples (result); row++)
    {
      int64_t kind;

      good = carpace_postgres_take_number (result, row, 0, &kind) && kind >= 0 && kind < CARPACE_N_BUNDLES
             && carpace_postgres_take_number (result, row, 1, &player->made_s[kind])
             && carpace_postgres_take_number (result, row, 2, &player->missing[kind]);
    }
  PQclear (result);
  return good && carpace_postgres_number (roster, "SELECT until_s FROM club.erased WHERE player = $1", about (&player->player),
                                          &player->erased_s, &any);
}

static bool
player_of (void *self, const CarpaceKey *key, CarpaceRosterPlayer *ret_player)
{
  Roster *roster = self;
  g_autofree char *columns = carpace_postgres_columns (CARPACE_TEAM_GRANT);
  g_autofree char *sql = g_strdup_printf ("SELECT guarded, name, %s FROM club.permit WHERE player = $1 AND reader = $2", columns);
  GPtrArray *values = about (key);
  PGresult *result;
  int64_t guarded = 0;
  bool good;

  *ret_player = (CarpaceRosterPlayer) { .player = *key };
  carpace_postgres_add_key (values, &roster->login.key);
  result = carpace_postgres_ask (roster, sql, values);
  good = result != NULL;
  if (good && PQntuples (result) > 0)
    {
      good = carpace_postgres_take_number (result, 0, 0, &guarded)
             && carpace_postgres_take (result, 0, 2, CARPACE_TEAM_GRANT, &ret_player->grant, NULL);
      ret_player->guarded = guarded != 0;
      g_strlcpy (ret_player->name, PQgetvalue (result, 0, 1), sizeof ret_player->name);
    }
  PQclear (result);
  return good ? take_rest (roster, ret_player) : carpace_postgres_fail (roster, CARPACE_CLUB_DAMAGED, NULL);
}

void
carpace_postgres_gathering (CarpaceRosterStore *store)
{
  store->begin = begin;
  store->end = end;
  store->was_seen = was_seen;
  store->mark_seen = mark_seen;
  store->of_all = true;
  store->keep_grant = keep_grant;
  store->has_told = has_told;
  store->player = player_of;
  store->erase = erase;
  store->chain = chain_of;
  store->keep_chain = keep_chain;
  store->keep_load = keep_load;
  store->keep_hand = keep_hand;
}
