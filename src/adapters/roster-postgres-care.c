/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster-postgres-care.c: a club's database made, brought on, and who logs in: by whoever runs it. */
#include "adapters/roster-postgres-private.h"

#include <string.h>

/* The schema may be there and not be this login's to see. */
CarpaceClubFault
carpace_postgres_version (Roster *roster, int32_t *ret_done)
{
  int64_t schema = 0, table = 0, may = 0, n = 0, done = 0;
  bool any;

  *ret_done = 0;
  if (!carpace_postgres_number (roster, "SELECT count (*) FROM pg_catalog.pg_namespace WHERE nspname = 'club'", NULL, &schema, &any))
    return CARPACE_CLUB_REFUSED;
  if (schema == 0)
    return CARPACE_CLUB_NONE;
  if (!carpace_postgres_number (roster, "SELECT has_schema_privilege ('club', 'USAGE')::int", NULL, &may, &any))
    return CARPACE_CLUB_REFUSED;
  if (may == 0)
    return CARPACE_CLUB_NOT_ADMITTED;
  if (!carpace_postgres_number (roster, "SELECT count (*) FROM pg_catalog.pg_class c JOIN pg_catalog.pg_namespace n ON n.oid = c.relnamespace "
                                "WHERE n.nspname = 'club' AND c.relname = 'version'", NULL, &table, &any))
    return CARPACE_CLUB_REFUSED;
  if (table == 0)
    return CARPACE_CLUB_HALF;
  if (!carpace_postgres_number (roster, "SELECT count (*) FROM club.version", NULL, &n, &any)
      || !carpace_postgres_number (roster, "SELECT count (*) FROM club.version WHERE done AND number BETWEEN 1 AND (SELECT count (*) FROM club.version)",
                                   NULL, &done, &any))
    return CARPACE_CLUB_REFUSED;
  *ret_done = (int32_t) MIN (n, G_MAXINT32);
  if (done != n || n == 0)
    return CARPACE_CLUB_HALF;
  return n < carpace_club_n_steps ? CARPACE_CLUB_OLDER : n > carpace_club_n_steps ? CARPACE_CLUB_NEWER : CARPACE_CLUB_FINE;
}

static bool
make_all (Roster *roster, int32_t *ret_from)
{
  CarpaceClubFault fault = carpace_postgres_version (roster, ret_from);
  bool good = fault == CARPACE_CLUB_FINE || fault == CARPACE_CLUB_NONE || fault == CARPACE_CLUB_OLDER;

  if (!good)
    return carpace_postgres_fail (roster, fault, NULL);
  for (int32_t i = *ret_from; good && i < carpace_club_n_steps; i++)
    good = carpace_postgres_do (roster, carpace_club_steps[i].sql, NULL);
  return good;
}

bool
carpace_postgres_make (const char *address, CarpaceClubTold told, void *user, int32_t *ret_from, int32_t *ret_to)
{
  Roster *roster = carpace_postgres_open (address, told, user);
  bool good;

  *ret_from = *ret_to = 0;
  if (roster == NULL)
    return false;
  /* two at once: the second finds it made */
  good = carpace_postgres_do (roster, "BEGIN", NULL) && carpace_postgres_do (roster, "SELECT pg_advisory_xact_lock (7023147)", NULL)
         && make_all (roster, ret_from) && carpace_postgres_do (roster, "COMMIT", NULL);
  *ret_to = carpace_club_n_steps;
  carpace_postgres_free (roster);
  return good;
}

/* ---- who logs in ---- */

static const char *const groups[] = { "carpace_coach", "carpace_clinician", "carpace_gatherer" };

static bool
in_group (const CarpaceClubMember *member, size_t group)
{
  return group == 2 ? member->gathers : group == (member->role == CARPACE_ROLE_CLINICIAN ? 1 : 0);
}

/* @sql has the login's name in it, quoted, wherever it says %s. */
static bool
with_login (Roster *roster, const char *sql, const char *login)
{
  char *name = PQescapeIdentifier (roster->db, login, strlen (login));
  GString *statement = g_string_new (sql);
  bool done;

  g_string_replace (statement, "%s", name != NULL ? name : "\"\"", 0);
  done = name != NULL ? carpace_postgres_do (roster, statement->str, NULL) : carpace_postgres_fail (roster, CARPACE_CLUB_REFUSED, login);
  PQfreemem (name);
  g_string_free (statement, TRUE);
  return done;
}

static bool
have_login (Roster *roster, const char *login)
{
  GPtrArray *values = carpace_postgres_values ();
  int64_t one;
  bool any;

  carpace_postgres_add_text (values, login);
  return carpace_postgres_number (roster, "SELECT 1 FROM pg_catalog.pg_roles WHERE rolname = $1", values, &one, &any)
         && (any || with_login (roster, "CREATE ROLE %s LOGIN", login));
}

static bool
set_groups (Roster *roster, const char *login, const CarpaceClubMember *member)
{
  bool done = true;

  for (size_t i = 0; done && i < G_N_ELEMENTS (groups); i++)
    {
      bool in = member != NULL && in_group (member, i);
      g_autofree char *sql = g_strdup_printf (in ? "GRANT %s TO %%s" : "REVOKE %s FROM %%s", groups[i]);

      done = with_login (roster, sql, login);
    }
  return done;
}

static Roster *
begin_care (const char *address, CarpaceClubTold told, void *user)
{
  Roster *roster = carpace_postgres_open (address, told, user);
  CarpaceClubFault fault;
  int32_t done;

  if (roster == NULL)
    return NULL;
  fault = carpace_postgres_version (roster, &done);
  if (fault == CARPACE_CLUB_FINE && carpace_postgres_do (roster, "BEGIN", NULL))
    return roster;
  carpace_postgres_fail (roster, fault, NULL);
  carpace_postgres_free (roster);
  return NULL;
}

static bool
end_care (Roster *roster, bool good)
{
  good = good && carpace_postgres_do (roster, "COMMIT", NULL);
  carpace_postgres_free (roster); /* what was not committed is rolled back */
  return good;
}

bool
carpace_postgres_admit (const char *address, CarpaceClubTold told, void *user, const CarpaceClubMember *member)
{
  Roster *roster = begin_care (address, told, user);
  GPtrArray *values;

  if (roster == NULL)
    return false;
  values = carpace_postgres_values ();
  carpace_postgres_add_text (values, member->login);
  carpace_postgres_add_key (values, &member->key);
  carpace_postgres_add_text (values, member->role == CARPACE_ROLE_CLINICIAN ? "clinician" : "coach");
  carpace_postgres_add_text (values, member->gathers ? "true" : "false");
  if (!have_login (roster, member->login) || !set_groups (roster, member->login, member))
    {
      g_ptr_array_unref (values);
      return end_care (roster, false);
    }
  return end_care (roster, carpace_postgres_do (roster,
    "INSERT INTO club.person (login, key, role, gathers) VALUES ($1, $2, $3, $4) ON CONFLICT (login) DO UPDATE SET "
    "key = excluded.key, role = excluded.role, gathers = excluded.gathers", values));
}

bool
carpace_postgres_dismiss (const char *address, CarpaceClubTold told, void *user, const char *login)
{
  Roster *roster = begin_care (address, told, user);
  GPtrArray *values;
  PGresult *result;
  bool there;

  if (roster == NULL)
    return false;
  values = carpace_postgres_values ();
  carpace_postgres_add_text (values, login);
  result = carpace_postgres_ask (roster, "DELETE FROM club.person WHERE login = $1 RETURNING login", values);
  there = result != NULL && PQntuples (result) > 0;
  if (result != NULL && !there)
    carpace_postgres_fail (roster, CARPACE_CLUB_NO_LOGIN, login);
  PQclear (result);
  return end_care (roster, there && set_groups (roster, login, NULL));
}
