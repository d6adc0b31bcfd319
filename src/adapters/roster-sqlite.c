/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE /* O_NOFOLLOW */
#include "adapters/roster-sqlite.h"

#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "adapters/roster-sqlite-private.h"
#include "text/team-text.h"

#define VERSION 2 /* 1 had nothing worked out */

static void
finalize (void *statement)
{
  sqlite3_finalize (statement);
}

static void
free_roster (void *self)
{
  Roster *roster = self;

  g_hash_table_unref (roster->prepared);
  sqlite3_close_v2 (roster->db);
  g_free (roster);
}

static bool
run (Roster *roster, const char *sql)
{
  return sqlite3_exec (roster->db, sql, NULL, NULL, NULL) == SQLITE_OK;
}

/* ---- writing ---- */

static bool
begin (void *self)
{
  return run (self, "BEGIN IMMEDIATE");
}

static bool
end (void *self, bool keep)
{
  bool kept = run (self, keep ? "COMMIT" : "ROLLBACK");

  if (keep && !kept)
    run (self, "ROLLBACK");
  return kept;
}

static bool
was_seen (void *self, const char *file)
{
  sqlite3_stmt *select = carpace_roster_statement (self, "SELECT 1 FROM seen WHERE file = ?");
  bool seen;

  sqlite3_bind_text (select, 1, file, -1, SQLITE_TRANSIENT);
  seen = select != NULL && sqlite3_step (select) == SQLITE_ROW;
  sqlite3_reset (select);
  return seen;
}

static bool
mark_seen (void *self, const char *file)
{
  sqlite3_stmt *insert = carpace_roster_statement (self, "INSERT OR IGNORE INTO seen (file) VALUES (?)");

  sqlite3_bind_text (insert, 1, file, -1, SQLITE_TRANSIENT);
  return carpace_roster_done (insert);
}

/* One statement about one player. */
static bool
about (Roster *roster, const char *sql, const CarpaceKey *player)
{
  sqlite3_stmt *statement = carpace_roster_statement (roster, sql);

  carpace_roster_bind_key (statement, 1, player);
  return carpace_roster_done (statement);
}

static bool
drop_load (Roster *roster, const CarpaceKey *player)
{
  return about (roster, "DELETE FROM head WHERE player = ?", player) && about (roster, "DELETE FROM week WHERE player = ?", player);
}

/* What was worked out of a hand goes with each change of it. */
static bool
drop_worked_out (Roster *roster, const CarpaceKey *player)
{
  return about (roster, "DELETE FROM worked_out WHERE player = ?", player);
}

/* What a grant does not cover is not kept either. */
static bool
drop_uncovered (Roster *roster, const CarpaceGrant *grant)
{
  return (carpace_grant_covers (grant->what, CARPACE_BUNDLE_LOAD) || drop_load (roster, &grant->player))
         && (carpace_grant_covers (grant->what, CARPACE_BUNDLE_HAND)
             || (about (roster, "DELETE FROM entry WHERE player = ?", &grant->player) && drop_worked_out (roster, &grant->player)));
}

/* @return false where there is none, or it cannot be read */
static bool
read_grant (Roster *roster, const CarpaceKey *player, CarpaceGrant *ret_grant, bool *ret_guarded)
{
  sqlite3_stmt *select = carpace_roster_of_kind (roster,
    "SELECT guarded, COLUMNS FROM permit WHERE player = ?", CARPACE_TEAM_GRANT);
  bool there;

  carpace_roster_bind_key (select, 1, player);
  there = select != NULL && sqlite3_step (select) == SQLITE_ROW
          && carpace_roster_take (select, 1, CARPACE_TEAM_GRANT, ret_grant);
  if (there)
    *ret_guarded = sqlite3_column_int (select, 0) != 0;
  sqlite3_reset (select);
  return there;
}

static bool
keep_grant (void *self, const char *name, const CarpaceGrant *grant, bool guarded, const uint8_t *file, size_t n, int64_t *ret_last)
{
  sqlite3_stmt *replace;
  CarpaceGrant before;
  bool was_guarded = false, any = read_grant (self, &grant->player, &before, &was_guarded);
  int at;

  *ret_last = any ? before.number : 0;
  if (any
      && (before.number > grant->number || (before.number == grant->number && was_guarded >= guarded)))
    return true;
  replace = carpace_roster_of_kind (self, "REPLACE INTO permit (COLUMNS, name, guarded) VALUES (MARKS, ?, ?)", CARPACE_TEAM_GRANT);
  at = carpace_roster_bind (replace, 1, CARPACE_TEAM_GRANT, grant);
  sqlite3_bind_text (replace, at, name, -1, SQLITE_TRANSIENT);
  sqlite3_bind_int (replace, at + 1, guarded);
  return carpace_roster_done (replace) && drop_uncovered (self, grant);
}

static bool
erase (void *self, const CarpaceKey *player, int64_t until_s)
{
  Roster *roster = self;
  sqlite3_stmt *note = carpace_roster_statement (roster,
    "INSERT INTO erased (player, until_s) VALUES (?, ?) ON CONFLICT (player) DO UPDATE SET until_s = max (until_s, excluded.until_s)");
  static const char *const dropped[] = { "DELETE FROM head WHERE player = ? AND made_s <= ?",
                                         "DELETE FROM week WHERE player = ? AND made_s <= ?",
                                         "DELETE FROM entry WHERE player = ? AND made_s <= ?" };
  bool done;

  carpace_roster_bind_key (note, 1, player);
  sqlite3_bind_int64 (note, 2, until_s);
  done = carpace_roster_done (note);
  for (size_t i = 0; done && i < G_N_ELEMENTS (dropped); i++)
    {
      sqlite3_stmt *drop = carpace_roster_statement (roster, dropped[i]);

      carpace_roster_bind_key (drop, 1, player);
      sqlite3_bind_int64 (drop, 2, until_s);
      done = carpace_roster_done (drop);
    }
  return done && drop_worked_out (roster, player);
}

static bool
chain_of (void *self, const CarpaceKey *player, const CarpaceKey *device, CarpaceBundleKind kind, CarpaceChain *ret_chain)
{
  sqlite3_stmt *select = carpace_roster_of_kind (self,
    "SELECT COLUMNS FROM chain WHERE player = ? AND device = ? AND kind = ?", CARPACE_TEAM_CHAIN);
  int result;
  bool good;

  *ret_chain = (CarpaceChain) { .kind = kind };
  carpace_roster_bind_key (select, 1, player);
  carpace_roster_bind_key (select, 2, device);
  sqlite3_bind_int (select, 3, (int) kind);
  result = select != NULL ? sqlite3_step (select) : SQLITE_ERROR;
  good = result == SQLITE_DONE || (result == SQLITE_ROW && carpace_roster_take (select, 0, CARPACE_TEAM_CHAIN, ret_chain));
  sqlite3_reset (select);
  return good;
}

static bool
keep_chain (void *self, const CarpaceKey *player, const CarpaceKey *device, const CarpaceChain *chain, int64_t missing)
{
  sqlite3_stmt *replace = carpace_roster_of_kind (self,
    "INSERT INTO chain (COLUMNS, player, device, missing) VALUES (MARKS, ?, ?, ?) ON CONFLICT (player, device, kind) DO UPDATE SET "
    "number = excluded.number, last = excluded.last, made_s = excluded.made_s, missing = missing + excluded.missing", CARPACE_TEAM_CHAIN);
  int at = carpace_roster_bind (replace, 1, CARPACE_TEAM_CHAIN, chain);

  carpace_roster_bind_key (replace, at, player);
  carpace_roster_bind_key (replace, at + 1, device);
  sqlite3_bind_int64 (replace, at + 2, missing);
  return carpace_roster_done (replace) && (chain->kind != CARPACE_BUNDLE_HAND || drop_worked_out (self, player));
}

static bool
keep_week (Roster *roster, const CarpaceKey *player, int64_t made_s, const CarpaceLoadWeek *week)
{
  sqlite3_stmt *insert = carpace_roster_of_kind (roster,
    /* of two computers of a player the fuller week counts */
    "INSERT INTO week (COLUMNS, player, made_s) VALUES (MARKS, ?, ?) ON CONFLICT (player, monday) DO UPDATE SET "
    "planned_ms = excluded.planned_ms, done_ms = excluded.done_ms, days = excluded.days, rests = excluded.rests, "
    "made_s = max (made_s, excluded.made_s) WHERE excluded.done_ms >= done_ms", CARPACE_TEAM_LOAD_WEEK);
  int at = carpace_roster_bind (insert, 1, CARPACE_TEAM_LOAD_WEEK, week);

  carpace_roster_bind_key (insert, at, player);
  sqlite3_bind_int64 (insert, at + 1, made_s);
  return carpace_roster_done (insert);
}

static bool
keep_load (void *self, const CarpaceKey *player, const CarpaceLoadHead *head, int64_t made_s, const CarpaceLoadWeek *week,
           int32_t n_weeks)
{
  sqlite3_stmt *older = carpace_roster_statement (self, "DELETE FROM head WHERE player = ? AND made_s <= ?");
  sqlite3_stmt *insert;
  bool kept;
  int at;

  carpace_roster_bind_key (older, 1, player);
  sqlite3_bind_int64 (older, 2, made_s);
  kept = carpace_roster_done (older);
  insert = carpace_roster_of_kind (self, "INSERT OR IGNORE INTO head (COLUMNS, player, made_s) VALUES (MARKS, ?, ?)", CARPACE_TEAM_LOAD_HEAD);
  at = carpace_roster_bind (insert, 1, CARPACE_TEAM_LOAD_HEAD, head);
  carpace_roster_bind_key (insert, at, player);
  sqlite3_bind_int64 (insert, at + 1, made_s);
  kept = kept && carpace_roster_done (insert);
  for (int32_t i = 0; kept && i < n_weeks; i++)
    kept = keep_week (self, player, made_s, &week[i]);
  return kept;
}

static bool
keep_hand (void *self, const CarpaceKey *player, int64_t made_s, const CarpaceHandRow *row)
{
  sqlite3_stmt *insert = carpace_roster_of_kind (self,
    "INSERT OR IGNORE INTO entry (COLUMNS, player, made_s) VALUES (MARKS, ?, ?)", CARPACE_TEAM_HAND_ROW);
  int at = carpace_roster_bind (insert, 1, CARPACE_TEAM_HAND_ROW, row);

  carpace_roster_bind_key (insert, at, player);
  sqlite3_bind_int64 (insert, at + 1, made_s);
  return carpace_roster_done (insert);
}

/* ---- reading ---- */

/* What is beside the grant. */
static bool
read_rest (Roster *roster, const CarpaceKey *key, CarpaceRosterPlayer *player)
{
  sqlite3_stmt *erased = carpace_roster_statement (roster, "SELECT until_s FROM erased WHERE player = ?");
  sqlite3_stmt *chains = carpace_roster_statement (roster,
    "SELECT kind, max (made_s), sum (missing) FROM chain WHERE player = ? GROUP BY kind");
  int result = SQLITE_ERROR;

  carpace_roster_bind_key (erased, 1, key);
  carpace_roster_bind_key (chains, 1, key);
  if (erased != NULL && sqlite3_step (erased) == SQLITE_ROW)
    player->erased_s = sqlite3_column_int64 (erased, 0);
  sqlite3_reset (erased);
  while (chains != NULL && (result = sqlite3_step (chains)) == SQLITE_ROW)
    {
      int kind = sqlite3_column_int (chains, 0);

      if (kind < 0 || kind >= CARPACE_N_BUNDLES)
        continue;
      player->made_s[kind] = sqlite3_column_int64 (chains, 1);
      player->missing[kind] = sqlite3_column_int64 (chains, 2);
    }
  sqlite3_reset (chains);
  return result == SQLITE_DONE;
}

static bool
read_player (void *self, const CarpaceKey *key, CarpaceRosterPlayer *ret_player)
{
  sqlite3_stmt *name;

  *ret_player = (CarpaceRosterPlayer) { .player = *key };
  if (read_grant (self, key, &ret_player->grant, &ret_player->guarded))
    {
      name = carpace_roster_statement (self, "SELECT name FROM permit WHERE player = ?");
      carpace_roster_bind_key (name, 1, key);
      if (name != NULL && sqlite3_step (name) == SQLITE_ROW)
        g_strlcpy (ret_player->name, (const char *) sqlite3_column_text (name, 0), sizeof ret_player->name);
      sqlite3_reset (name);
    }
  return read_rest (self, key, ret_player);
}

static bool
players (void *self, CarpaceRosterPlayerVisitor visit, void *user)
{
  sqlite3_stmt *select = carpace_roster_statement (self, "SELECT player FROM permit ORDER BY name, player");
  g_autoptr (GByteArray) keys = g_byte_array_new ();
  int result = SQLITE_ERROR;
  bool good, more = true;

  while (select != NULL && (result = sqlite3_step (select)) == SQLITE_ROW)
    if (sqlite3_column_bytes (select, 0) == CARPACE_KEY_BYTES)
      g_byte_array_append (keys, sqlite3_column_blob (select, 0), CARPACE_KEY_BYTES);
  sqlite3_reset (select);
  good = result == SQLITE_DONE;
  for (guint at = 0; good && more && at < keys->len; at += CARPACE_KEY_BYTES)
    {
      CarpaceRosterPlayer player;
      CarpaceKey key;

      memcpy (key.byte, keys->data + at, CARPACE_KEY_BYTES);
      good = read_player (self, &key, &player);
      if (good)
        more = visit (user, &player);
    }
  return good;
}

static bool
head_of (void *self, const CarpaceKey *player, CarpaceLoadHead *ret_head)
{
  sqlite3_stmt *select = carpace_roster_of_kind (self, "SELECT COLUMNS FROM head WHERE player = ?", CARPACE_TEAM_LOAD_HEAD);
  int result;

  memset (ret_head, 0, sizeof *ret_head);
  carpace_roster_bind_key (select, 1, player);
  result = select != NULL ? sqlite3_step (select) : SQLITE_ERROR;
  if (result == SQLITE_ROW && !carpace_roster_take (select, 0, CARPACE_TEAM_LOAD_HEAD, ret_head))
    result = SQLITE_ERROR;
  sqlite3_reset (select);
  return result == SQLITE_ROW || result == SQLITE_DONE;
}

static bool
weeks_of (void *self, const CarpaceKey *player, int32_t since, CarpaceLoadWeekVisitor visit, void *user)
{
  sqlite3_stmt *select = carpace_roster_of_kind (self,
    "SELECT COLUMNS FROM week WHERE player = ? AND monday >= ? ORDER BY monday", CARPACE_TEAM_LOAD_WEEK);
  int result = SQLITE_ERROR;
  bool more = true;

  carpace_roster_bind_key (select, 1, player);
  sqlite3_bind_int (select, 2, since);
  while (select != NULL && more && (result = sqlite3_step (select)) == SQLITE_ROW)
    {
      CarpaceLoadWeek week;

      more = !carpace_roster_take (select, 0, CARPACE_TEAM_LOAD_WEEK, &week) || visit (user, &week);
    }
  sqlite3_reset (select);
  return !more || result == SQLITE_DONE;
}

static bool
rows_of (void *self, const CarpaceKey *player, CarpaceDay since, CarpaceDay until, uint32_t kinds, CarpaceHandRowVisitor visit,
         void *user)
{
  sqlite3_stmt *select = carpace_roster_of_kind (self,
    "SELECT COLUMNS FROM entry WHERE player = ? AND day BETWEEN ? AND ? AND (? >> kind) & 1 ORDER BY wall_ms, id", CARPACE_TEAM_HAND_ROW);
  int result = SQLITE_ERROR;
  bool more = true;

  carpace_roster_bind_key (select, 1, player);
  sqlite3_bind_int (select, 2, since);
  sqlite3_bind_int (select, 3, until);
  sqlite3_bind_int64 (select, 4, kinds);
  while (select != NULL && more && (result = sqlite3_step (select)) == SQLITE_ROW)
    {
      CarpaceHandRow row;

      more = !carpace_roster_take (select, 0, CARPACE_TEAM_HAND_ROW, &row) || visit (user, &row);
    }
  sqlite3_reset (select);
  return !more || result == SQLITE_DONE;
}

/* ---- worked out ---- */

static bool
worked_out (void *self, const CarpaceKey *player, uint8_t ret_bytes[CARPACE_ROSTER_WORKED_OUT])
{
  sqlite3_stmt *select = carpace_roster_statement (self, "SELECT bytes FROM worked_out WHERE player = ?");
  bool there;

  carpace_roster_bind_key (select, 1, player);
  there = select != NULL && sqlite3_step (select) == SQLITE_ROW && sqlite3_column_bytes (select, 0) == CARPACE_ROSTER_WORKED_OUT;
  if (there)
    memcpy (ret_bytes, sqlite3_column_blob (select, 0), CARPACE_ROSTER_WORKED_OUT);
  sqlite3_reset (select);
  return there;
}

static bool
keep_worked_out (void *self, const CarpaceKey *player, const uint8_t bytes[CARPACE_ROSTER_WORKED_OUT])
{
  sqlite3_stmt *replace = carpace_roster_statement (self, "REPLACE INTO worked_out (player, bytes) VALUES (?, ?)");

  carpace_roster_bind_key (replace, 1, player);
  sqlite3_bind_blob (replace, 2, bytes, CARPACE_ROSTER_WORKED_OUT, SQLITE_TRANSIENT);
  return carpace_roster_done (replace);
}

/* ---- opening ---- */

static bool
make_worked_out (Roster *roster)
{
  return run (roster, "CREATE TABLE IF NOT EXISTS worked_out (player BLOB PRIMARY KEY, bytes BLOB NOT NULL) WITHOUT ROWID");
}

static bool
make_tables (Roster *roster)
{
  static const struct { CarpaceTeamKind kind; const char *table, *more; } tables[] = {
    { CARPACE_TEAM_GRANT, "permit", "name TEXT NOT NULL, guarded INTEGER NOT NULL, PRIMARY KEY (player)" },
    { CARPACE_TEAM_CHAIN, "chain", "player BLOB NOT NULL, device BLOB NOT NULL, missing INTEGER NOT NULL, PRIMARY KEY (player, device, kind)" },
    { CARPACE_TEAM_LOAD_HEAD, "head", "player BLOB NOT NULL, made_s INTEGER NOT NULL, PRIMARY KEY (player)" },
    { CARPACE_TEAM_LOAD_WEEK, "week", "player BLOB NOT NULL, made_s INTEGER NOT NULL, PRIMARY KEY (player, monday)" },
    /* the same thing from two computers of a player, whose diaries were joined, is one */
    { CARPACE_TEAM_HAND_ROW, "entry", "player BLOB NOT NULL, made_s INTEGER NOT NULL, PRIMARY KEY (player, day, wall_ms, kind, \"values\")" },
  };
  bool made = run (roster, "CREATE TABLE seen (file TEXT PRIMARY KEY) WITHOUT ROWID;"
                           "CREATE TABLE erased (player BLOB PRIMARY KEY, until_s INTEGER NOT NULL) WITHOUT ROWID");

  for (size_t i = 0; made && i < G_N_ELEMENTS (tables); i++)
    {
      g_autofree char *columns = carpace_roster_typed (tables[i].kind);
      g_autofree char *sql = g_strdup_printf ("CREATE TABLE %s (%s, %s) WITHOUT ROWID", tables[i].table, columns, tables[i].more);

      made = run (roster, sql);
    }
  return made;
}

/* @return -1 where it is no such file */
static int
version_of (Roster *roster)
{
  sqlite3_stmt *select = NULL;
  int version = -1;

  if (sqlite3_prepare_v2 (roster->db, "PRAGMA user_version", -1, &select, NULL) == SQLITE_OK && sqlite3_step (select) == SQLITE_ROW)
    version = sqlite3_column_int (select, 0);
  sqlite3_finalize (select);
  return version;
}

static CarpaceTeamFault
settle (Roster *roster)
{
  g_autofree char *set_version = g_strdup_printf ("PRAGMA user_version = %d", VERSION);
  int version;

  sqlite3_busy_timeout (roster->db, 5000);
  if (!run (roster, "PRAGMA secure_delete = ON; PRAGMA synchronous = NORMAL") || (version = version_of (roster)) < 0)
    return CARPACE_TEAM_DAMAGED;
  if (version > VERSION)
    return CARPACE_TEAM_NEWER;
  if (version == VERSION)
    return CARPACE_TEAM_FINE;
  if (begin (roster) && (version > 0 || make_tables (roster)) && make_worked_out (roster) && run (roster, set_version) && end (roster, true))
    return CARPACE_TEAM_FINE;
  return CARPACE_TEAM_FAILED;
}

/* Made before SQLite does: nobody else's from its first byte on. */
static bool
make_file (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  int fd = g_mkdir_with_parents (folder, 0700) == 0 ? open (path, O_RDWR | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0600) : -1;
  struct stat is;
  bool ordinary = fd >= 0 && fstat (fd, &is) == 0 && S_ISREG (is.st_mode);

  if (fd >= 0)
    close (fd);
  return ordinary;
}

bool
carpace_roster_sqlite_open (const char *path, CarpaceRosterTold told, void *user, CarpaceRosterStore *ret_store)
{
  g_autofree char *usual = path != NULL ? g_strdup (path) : g_build_filename (g_get_user_state_dir (), "carpace", "roster.sqlite", NULL);
  Roster *roster = g_new0 (Roster, 1);
  CarpaceTeamFault fault = CARPACE_TEAM_FAILED;
  bool in_memory = strcmp (usual, ":memory:") == 0;

  roster->prepared = g_hash_table_new_full (g_direct_hash, g_direct_equal, NULL, finalize);
  if ((in_memory || make_file (usual)) && sqlite3_open_v2 (usual, &roster->db, SQLITE_OPEN_READWRITE, NULL) == SQLITE_OK)
    fault = settle (roster);
  if (fault != CARPACE_TEAM_FINE)
    {
      g_autofree char *message = fault == CARPACE_TEAM_DAMAGED ? carpace_text_roster_damaged (usual) : carpace_text_team_fault (fault, usual);

      told (user, message);
      free_roster (roster);
      return false;
    }
  *ret_store = (CarpaceRosterStore) {
    .self = roster, .begin = begin, .end = end, .was_seen = was_seen, .mark_seen = mark_seen, .keep_grant = keep_grant,
    .player = read_player, .erase = erase, .chain = chain_of, .keep_chain = keep_chain, .keep_load = keep_load,
    .keep_hand = keep_hand, .players = players, .head = head_of, .weeks = weeks_of, .rows = rows_of, .worked_out = worked_out,
    .keep_worked_out = keep_worked_out, .free = free_roster,
  };
  return true;
}
