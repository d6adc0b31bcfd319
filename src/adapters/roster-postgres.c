/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster-postgres.c: a club's roster opened, by whoever logs in. */
#include "adapters/roster-postgres.h"

#include <string.h>

#include "adapters/roster-postgres-private.h"

/* @return FINE, NOT_ADMITTED, or what else is wrong */
static CarpaceClubFault
read_login (Roster *roster)
{
  PGresult *result = carpace_postgres_ask (roster, "SELECT key, (role = 'clinician')::int, gathers::int FROM club.me ()", NULL);
  CarpaceClubFault fault = result == NULL ? CARPACE_CLUB_REFUSED : PQntuples (result) == 0 ? CARPACE_CLUB_NOT_ADMITTED : CARPACE_CLUB_FINE;
  int64_t clinician, gathers;

  if (fault == CARPACE_CLUB_FINE)
    {
      bool read = carpace_postgres_take_key (result, 0, 0, &roster->login.key) && carpace_postgres_take_number (result, 0, 1, &clinician)
                  && carpace_postgres_take_number (result, 0, 2, &gathers);

      fault = read ? CARPACE_CLUB_FINE : CARPACE_CLUB_DAMAGED;
      roster->login.role = read && clinician ? CARPACE_ROLE_CLINICIAN : CARPACE_ROLE_COACH;
      roster->login.gathers = read && gathers != 0;
    }
  PQclear (result);
  return fault;
}

static bool
open_club (const char *address, CarpaceClubTold told, void *user, CarpaceRosterStore *ret_store, CarpaceClubLogin *ret_login)
{
  Roster *roster = carpace_postgres_open (address, told, user);
  CarpaceClubFault fault;
  int32_t done;

  if (roster == NULL)
    return false;
  fault = carpace_postgres_version (roster, &done);
  if (fault == CARPACE_CLUB_FINE)
    fault = read_login (roster);
  if (fault != CARPACE_CLUB_FINE)
    {
      carpace_postgres_fail (roster, fault, NULL);
      carpace_postgres_free (roster);
      return false;
    }
  *ret_store = (CarpaceRosterStore) { .self = roster, .free = carpace_postgres_free };
  carpace_postgres_gathering (ret_store);
  carpace_postgres_reading (ret_store);
  *ret_login = roster->login;
  return true;
}

CarpaceClub
carpace_roster_postgres (void)
{
  return (CarpaceClub) { .open = open_club, .make = carpace_postgres_make, .admit = carpace_postgres_admit,
                         .dismiss = carpace_postgres_dismiss };
}
