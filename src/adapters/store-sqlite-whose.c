/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-whose.c: whose diary it is. */
#include "store-sqlite-private.h"

#include <string.h>

bool
carpace_store_read_whose (CarpaceDiaryStore *store, CarpaceIdentity *ret_identity)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_WHOSE);

  memset (ret_identity, 0, sizeof *ret_identity);
  if (statement == NULL)
    return store->db == NULL;
  while (sqlite3_step (statement) == SQLITE_ROW)
    {
      const char *id = (const char *) sqlite3_column_text (statement, 0);

      if (id != NULL && carpace_identity_is_one (id))
        carpace_identity_add (ret_identity, id);
    }
  sqlite3_reset (statement);
  return true;
}

static bool
write_whose (CarpaceDiaryStore *store, const CarpaceIdentity *identity)
{
  bool ok = carpace_store_run_sql (store, SQL_WHOSE_CLEAR);

  for (int32_t i = 0; ok && i < identity->n; i++)
    {
      sqlite3_stmt *statement = carpace_store_sql (store, SQL_WHOSE_ADD);

      if (statement == NULL)
        return false;
      sqlite3_bind_text (statement, 1, identity->id[i], -1, SQLITE_STATIC);
      sqlite3_bind_int (statement, 2, i);
      ok = carpace_store_done (statement);
    }
  return ok;
}

/* 122 bits by chance in the form of a UUID (RFC 9562, version 4), without its dashes. */
static void
by_chance (char ret_id[CARPACE_IDENTITY_BYTES])
{
  g_autofree char *uuid = g_uuid_string_random ();
  size_t n = 0;

  for (const char *at = uuid; *at != '\0' && n < CARPACE_IDENTITY_CHARACTERS; at++)
    if (*at != '-')
      ret_id[n++] = *at;
  ret_id[n] = '\0';
}

bool
carpace_store_ensure_whose (CarpaceDiaryStore *store)
{
  CarpaceIdentity identity;

  if (!carpace_store_read_whose (store, &identity))
    return false;
  if (identity.n > 0)
    return true;
  identity.n = 1;
  by_chance (identity.id[0]);
  return write_whose (store, &identity);
}

bool
carpace_store_become (CarpaceDiaryStore *store, bool was_empty)
{
  CarpaceIdentity identity = { 0 };

  if (store->becomes.n == 0)
    return true;
  if (!was_empty && !carpace_store_read_whose (store, &identity))
    return false;
  for (int32_t i = 0; i < store->becomes.n; i++)
    if (!carpace_identity_add (&identity, store->becomes.id[i]))
      return false;
  return write_whose (store, &identity);
}
