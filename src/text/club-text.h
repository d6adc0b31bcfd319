/* SPDX-License-Identifier: GPL-3.0-or-later */
/** club-text.h: a club's database in words. */
#ifndef CARPACE_TEXT_CLUB_TEXT_H
#define CARPACE_TEXT_CLUB_TEXT_H

#include "carpace/club.h"

/** What is wrong with a club's database. */
typedef enum
{
  CARPACE_CLUB_FINE,
  CARPACE_CLUB_NO_ADDRESS,   /**< it does not read as one; why: how */
  CARPACE_CLUB_PASSWORD,     /**< a password stands in it */
  CARPACE_CLUB_OPEN_WIRE,    /**< elsewhere, without a checked TLS; why: the mode that was asked for */
  CARPACE_CLUB_NOT_REACHED,  /**< why: by the server or its library */
  CARPACE_CLUB_NONE,         /**< no roster in it */
  CARPACE_CLUB_HALF,         /**< made by hand and broken off */
  CARPACE_CLUB_OLDER,
  CARPACE_CLUB_NEWER,
  CARPACE_CLUB_NOT_ADMITTED,
  CARPACE_CLUB_NO_LOGIN,     /**< nobody is admitted by that; why: the login */
  CARPACE_CLUB_NO_GATHERER,  /**< this login may not take in what players left */
  CARPACE_CLUB_GONE,         /**< the connection ended in the middle; why */
  CARPACE_CLUB_REFUSED,      /**< the server refused something; why */
  CARPACE_CLUB_DAMAGED,      /**< what it holds does not read as it should */
  CARPACE_N_CLUB_FAULTS
} CarpaceClubFault;

/** The address @address as it is shown: without who logs in and without what stands after the database. g_free() it */
char *carpace_text_club_place (const char *address);

/** One sentence: where, what, and what to do. @param place as it is shown, @param why may be NULL. g_free() it */
char *carpace_text_club_fault (CarpaceClubFault fault, const char *place, const char *why);

#endif
