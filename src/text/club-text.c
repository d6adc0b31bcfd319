/* SPDX-License-Identifier: GPL-3.0-or-later */
/* club-text.c: a club's database in words. */
#include "text/club-text.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <string.h>

#include "text/quoted.h"

static const char *const faults[CARPACE_N_CLUB_FAULTS] = {
  [CARPACE_CLUB_FINE] = N_("%s is as it should be."),
  [CARPACE_CLUB_NO_ADDRESS] = N_("%s is no address of a database, such as postgresql://club.example/carpace: %s."),
  [CARPACE_CLUB_PASSWORD] = N_("%s has a password in it, where other programs can read it: nothing was sent. Put it in the file .pgpass of your home folder (chmod 600)."),
  [CARPACE_CLUB_OPEN_WIRE] = N_("%s is on another computer and asks for sslmode=%s: nothing was sent. Only verify-full is used, so that no one between reads or answers for it."),
  [CARPACE_CLUB_NOT_REACHED] = N_("%s was not reached: %s."),
  [CARPACE_CLUB_NONE] = N_("%s holds no roster yet: whoever runs the database makes one with “carpace club make”."),
  [CARPACE_CLUB_HALF] = N_("%s was left half made, by hand: whoever runs the database takes its last backup back, or drops the schema “club” if it is new and runs “carpace club make”."),
  [CARPACE_CLUB_OLDER] = N_("%s is of an older Carpace: whoever runs the database brings it on with “carpace club make”, after a backup."),
  [CARPACE_CLUB_NEWER] = N_("%s is of a newer Carpace: install that one to read it."),
  [CARPACE_CLUB_NOT_ADMITTED] = N_("%s does not know this login: whoever runs the database admits it with “carpace club admit”."),
  [CARPACE_CLUB_NO_LOGIN] = N_("%s has admitted no login called %s."),
  [CARPACE_CLUB_NO_GATHERER] = N_("%s lets this login read, but not take in what players left: leave the folder out."),
  [CARPACE_CLUB_GONE] = N_("%s went away in the middle: what was complete by then is kept, and doing it again takes in the rest (%s)."),
  [CARPACE_CLUB_REFUSED] = N_("%s refused: %s."),
  [CARPACE_CLUB_DAMAGED] = N_("%s holds something that does not read as it should: ask whoever runs the database to look at it."),
};

/* What a server says is a stranger's: one line of it, nothing that steers a terminal, without its last stop. */
static char *
one_line (const char *why)
{
  g_autofree char *valid = g_utf8_make_valid (why != NULL ? why : "", -1), *line = NULL;
  char *shown;

  g_strstrip (valid);
  line = g_strdelimit (g_strdup (valid), "\n\r\t", ' ');
  shown = carpace_text_harmless (line);
  while (shown[0] != '\0' && shown[strlen (shown) - 1] == '.')
    shown[strlen (shown) - 1] = '\0';
  return shown;
}

char *
carpace_text_club_fault (CarpaceClubFault fault, const char *place, const char *why)
{
  g_autofree char *line = one_line (why), *shown = carpace_text_harmless (place);
  g_auto (GStrv) part = g_strsplit (_(faults[fault]), "%s", 3);
  guint n = g_strv_length (part);

  return g_strconcat (part[0], shown, n > 1 ? part[1] : "", n > 2 ? line : "", n > 2 ? part[2] : "", NULL);
}

char *
carpace_text_club_place (const char *address)
{
  const char *scheme = strstr (address, "://"), *rest = scheme != NULL ? scheme + 3 : address, *at = strchr (rest, '@');

  rest = at != NULL ? at + 1 : rest;
  return g_strdup_printf ("postgresql://%.*s", (int) MIN (strcspn (rest, "?"), 200), rest);
}
