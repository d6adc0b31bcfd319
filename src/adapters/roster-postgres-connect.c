/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster-postgres-connect.c: the way to a club's database: what of an address is taken, and one statement at a time.
 *
 * libpq takes what an address leaves out from the environment and from service files, so what counts is what comes out
 * of all of them; and it is settled before a byte is sent. */
#include "adapters/roster-postgres-private.h"

#include <errno.h>
#include <string.h>

#define WITHIN_S "10"        /* to be reached */
#define SILENT_MS "30000"    /* a server that answers no more is gone */

/* ---- telling ---- */

bool
carpace_postgres_fail (Roster *roster, CarpaceClubFault fault, const char *why)
{
  g_autofree char *sentence = carpace_text_club_fault (fault, roster->place, why);

  if (!roster->has_told)
    roster->told (roster->user, sentence);
  roster->has_told = true;
  return false;
}

/* What the server said, without what is this program's: "ERROR: ...". */
static void
fail_by_server (Roster *roster, const PGresult *result)
{
  const char *state = result != NULL ? PQresultErrorField (result, PG_DIAG_SQLSTATE) : NULL;
  const char *message = result != NULL ? PQresultErrorField (result, PG_DIAG_MESSAGE_PRIMARY) : NULL;
  bool ends = state != NULL && (g_str_has_prefix (state, "57P") || g_str_has_prefix (state, "08")); /* shut down; connection */

  if (PQstatus (roster->db) != CONNECTION_OK || ends)
    carpace_postgres_fail (roster, CARPACE_CLUB_GONE, message != NULL ? message : PQerrorMessage (roster->db));
  else
    carpace_postgres_fail (roster, CARPACE_CLUB_REFUSED, message != NULL ? message : PQerrorMessage (roster->db));
}

/* ---- where to ---- */

static const char *
value_of (const PQconninfoOption *options, const char *keyword)
{
  for (; options->keyword != NULL; options++)
    if (strcmp (options->keyword, keyword) == 0)
      return options->val;
  return NULL;
}

/* Given in the address, else by the environment. */
static const char *
either (const PQconninfoOption *given, const PQconninfoOption *usual, const char *keyword)
{
  const char *value = value_of (given, keyword);

  return value != NULL && value[0] != '\0' ? value : value_of (usual, keyword);
}

static bool
is_here (const char *host)
{
  return host[0] == '\0' || host[0] == '/' || host[0] == '@' || strcmp (host, "localhost") == 0 || strcmp (host, "127.0.0.1") == 0
         || strcmp (host, "::1") == 0;
}

/* Every one of a list of hosts. */
static bool
all_here (const char *hosts)
{
  g_auto (GStrv) host = g_strsplit (hosts != NULL ? hosts : "", ",", -1);

  for (int i = 0; host[i] != NULL; i++)
    if (!is_here (host[i]))
      return false;
  return true;
}

/* @return the mode that is asked of libpq (here whatever is wanted; there is always one); NULL, told. A service may name any host: it is taken to be elsewhere. */
static const char *
mode_of (Roster *roster, const PQconninfoOption *given, const PQconninfoOption *usual)
{
  const char *service = either (given, usual, "service"), *mode = value_of (given, "sslmode");

  if ((service == NULL || service[0] == '\0') && all_here (either (given, usual, "host")) && all_here (either (given, usual, "hostaddr")))
    return either (given, usual, "sslmode");
  if (mode != NULL && strcmp (mode, "verify-full") != 0)
    {
      carpace_postgres_fail (roster, CARPACE_CLUB_OPEN_WIRE, mode);
      return NULL;
    }
  return "verify-full";
}

static bool
connect_with (Roster *roster, const char *address, const char *mode)
{
  /* what stands after the address counts instead of what stands in it */
  const char *const keywords[] = { "dbname", "sslmode", "gssencmode", "connect_timeout", "keepalives_idle", "tcp_user_timeout",
                                   "client_encoding", "application_name", NULL };
  const char *const values[] = { address, mode, "disable", WITHIN_S, "30", SILENT_MS, "UTF8", "carpace", NULL };

  roster->db = PQconnectdbParams (keywords, values, 1);
  if (PQstatus (roster->db) == CONNECTION_OK)
    return true;
  return carpace_postgres_fail (roster, CARPACE_CLUB_NOT_REACHED, PQerrorMessage (roster->db));
}

static bool
connect_to (Roster *roster, const char *address)
{
  char *why = NULL;
  PQconninfoOption *given = PQconninfoParse (address, &why), *usual = PQconndefaults ();
  const char *mode = NULL;
  bool good = false;

  if (given == NULL || (!g_str_has_prefix (address, "postgresql://") && !g_str_has_prefix (address, "postgres://")))
    carpace_postgres_fail (roster, CARPACE_CLUB_NO_ADDRESS, given == NULL && why != NULL ? why : "postgresql://…");
  else if (value_of (given, "password") != NULL)
    carpace_postgres_fail (roster, CARPACE_CLUB_PASSWORD, NULL);
  else if (usual == NULL)
    carpace_postgres_fail (roster, CARPACE_CLUB_NOT_REACHED, g_strerror (ENOMEM));
  else
    mode = mode_of (roster, given, usual);
  if (mode != NULL)
    good = connect_with (roster, address, mode);
  PQconninfoFree (given);
  PQconninfoFree (usual);
  PQfreemem (why);
  return good;
}

static void
unheard (void *user, const char *message)
{
}

Roster *
carpace_postgres_open (const char *address, CarpaceClubTold told, void *user)
{
  Roster *roster = g_new0 (Roster, 1);

  roster->told = told;
  roster->user = user;
  roster->place = carpace_text_club_place (address);
  if (!connect_to (roster, address))
    {
      carpace_postgres_free (roster);
      return NULL;
    }
  PQsetNoticeProcessor (roster->db, unheard, NULL);
  return roster;
}

void
carpace_postgres_free (void *self)
{
  Roster *roster = self;

  PQfinish (roster->db);
  g_clear_pointer (&roster->batch, g_ptr_array_unref);
  g_clear_pointer (&roster->heads, g_hash_table_unref);
  g_clear_pointer (&roster->weeks, g_hash_table_unref);
  carpace_postgres_forget_hands (roster);
  g_free (roster->place);
  g_free (roster);
}

/* ---- one statement ---- */

PGresult *
carpace_postgres_ask (Roster *roster, const char *sql, GPtrArray *values)
{
  PGresult *result = values == NULL ? PQexec (roster->db, sql)
                                    : PQexecParams (roster->db, sql, (int) values->len, NULL, (const char *const *) values->pdata, NULL, NULL, 0);
  ExecStatusType status = PQresultStatus (result);

  if (values != NULL)
    g_ptr_array_unref (values);
  if (status == PGRES_TUPLES_OK || status == PGRES_COMMAND_OK)
    return result;
  fail_by_server (roster, result);
  PQclear (result);
  return NULL;
}

bool
carpace_postgres_do (Roster *roster, const char *sql, GPtrArray *values)
{
  PGresult *result = carpace_postgres_ask (roster, sql, values);
  bool done = result != NULL;

  PQclear (result);
  return done;
}

bool
carpace_postgres_number (Roster *roster, const char *sql, GPtrArray *values, int64_t *ret_number, bool *ret_any)
{
  PGresult *result = carpace_postgres_ask (roster, sql, values);
  bool good = result != NULL;

  *ret_any = good && PQntuples (result) > 0;
  if (*ret_any)
    good = carpace_postgres_take_number (result, 0, 0, ret_number);
  PQclear (result);
  return good;
}
