/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * roster-postgres.h: a club's roster in PostgreSQL, 15 or later, by libpq.
 *
 * A module that `carpace roster --database` and `carpace club` open; the tray knows nothing of it. What is kept, and who
 * may read it, is in src/data/club. To another computer it goes by TLS that is checked (sslmode verify-full), or not at all.
 */
#ifndef CARPACE_ROSTER_POSTGRES_H
#define CARPACE_ROSTER_POSTGRES_H

#include "carpace/club.h"

CarpaceClub carpace_roster_postgres (void);

#endif
