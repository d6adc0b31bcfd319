/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster.c: `carpace roster`. */
#include <errno.h>
#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"
#include "cli/cli.h"
#include "cli/by-window.h"
#include "cli/clock.h"
#include "cli/club.h"
#include "cli/keep.h"
#include "cli/notes.h"
#include "cli/options.h"
#include "cli/team.h"
#include "forms/roster-fhir.h"
#include "forms/roster-forms.h"
#include "team/content.h"
#include "team/gather.h"
#include "team/hand-out.h"
#include "team/roster.h"
#include "text/quoted.h"
#include "text/roster-text.h"
#include "text/team-text.h"

#define FHIR 3 /* among the formats */

typedef struct
{
  CarpaceCli *cli;
  GString *told; /* a line each */
} Refusals;

static void
tell_refusal (void *user, const char *file, const char *player, CarpaceTeamFault fault)
{
  Refusals *refusals = user;
  g_autofree char *sentence = carpace_text_team_fault (fault, file), *name = carpace_text_quoted (player);
  g_autofree char *line = player[0] != '\0' ? g_strdup_printf ("%s (%s)\n", sentence, name) : g_strconcat (sentence, "\n", NULL);

  fputs (line, refusals->cli->err);
  g_string_append (refusals->told, line);
}

/* A store may have told what it could not do. */
static void
tell_fault (CarpaceCli *cli, const CarpaceRosterStore *store, CarpaceTeamFault fault, const char *what)
{
  if (store->has_told == NULL || !store->has_told (store->self))
    carpace_cli_team_fault (cli, fault, what);
}

/* Of two clocks the one that judges what may be read: a club's server's, else this machine's. @return false, told */
static bool
moment_of (CarpaceCli *cli, const CarpaceRosterStore *store, CarpaceInstant *ret_moment)
{
  *ret_moment = carpace_cli_now (cli);
  if (store->now == NULL || store->now (store->self, &ret_moment->wall_ms))
    return true;
  tell_fault (cli, store, CARPACE_TEAM_FAILED, "");
  return false;
}

/* @param told what is refused, too, for the window. @return false, told */
static bool
gather (CarpaceCli *cli, const char *path, const CarpacePerson *person, const CarpaceRosterStore *store, GString *told)
{
  CarpaceFolder shared;
  CarpaceGathering gathering = { .shelf = &cli->shelf, .shared = &shared, .reader = person, .store = store };
  CarpaceInstant now;
  CarpaceGathered gathered;
  Refusals refusals = { cli, told };
  CarpaceTeamFault fault;

  if (!moment_of (cli, store, &now) || !carpace_cli_shared (cli, path, &shared))
    return false;
  gathering.now_s = now.wall_ms / 1000;
  gathering.today = carpace_cli_day (now, NULL);
  fault = carpace_gather (&gathering, tell_refusal, &refusals, &gathered);
  shared.free (shared.self);
  if (fault != CARPACE_TEAM_FINE)
    tell_fault (cli, store, fault, path != NULL ? path : "");
  return fault == CARPACE_TEAM_FINE;
}

/* The reader's own store, with what is in the folder now. @return false, told */
static bool
open_own (CarpaceCli *cli, const char *path, const char *phrase_file, GString *told, CarpaceRosterStore *ret_store)
{
  CarpacePerson person;
  bool opened, gathered;

  if (!carpace_cli_unlock (cli, phrase_file, &person))
    return false;
  opened = cli->open_roster (cli, ret_store);
  gathered = opened && gather (cli, path, &person, ret_store, told);
  carpace_person_wipe (&person);
  if (opened && !gathered)
    ret_store->free (ret_store->self);
  return gathered;
}

/* A club's, into which a gatherer takes what is in a folder. Who only reads needs no key here: their login tells who they are. */
static bool
open_club (CarpaceCli *cli, const char *address, const char *path, const char *phrase_file, GString *told, CarpaceRosterStore *ret_store)
{
  CarpacePerson person;
  CarpaceClubLogin login;
  bool unlocked, gathered;

  if (!carpace_cli_open_club (cli, address, path, ret_store, &login))
    return false;
  if (path == NULL)
    return true;
  unlocked = carpace_cli_unlock (cli, phrase_file, &person);
  gathered = unlocked && carpace_key_equal (&person.signer.key, &login.key);
  if (unlocked && !gathered)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("This login is bound to another key than yours: nothing was taken in."));
  gathered = gathered && gather (cli, path, &person, ret_store, told);
  if (unlocked)
    carpace_person_wipe (&person);
  if (!gathered)
    ret_store->free (ret_store->self);
  return gathered;
}

static int
print_rows (CarpaceCli *cli, const GArray *rows, int format)
{
  g_autoptr (GString) out = g_string_new (NULL);

  if (format == CARPACE_ROSTER_CSV)
    carpace_roster_csv_head (out);
  if (format == CARPACE_ROSTER_TEXT)
    carpace_text_roster (rows, out);
  else
    for (guint i = 0; i < rows->len; i++)
      carpace_roster_form (&g_array_index (rows, CarpaceRosterRow, i), (CarpaceRosterForm) format, out);
  fputs (out->str, cli->out);
  return CARPACE_EXIT_DONE;
}

/* What is let be read of hands, for a clinic's server. */
static int
print_fhir (CarpaceCli *cli, const CarpaceRosterStore *store, const GArray *rows, CarpaceDay today)
{
  g_autoptr (GString) out = g_string_new (NULL);
  bool read = true;

  for (guint i = 0; read && i < rows->len; i++)
    {
      const CarpaceRosterRow *row = &g_array_index (rows, CarpaceRosterRow, i);
      CarpaceDiary diary;

      if (!row->hand)
        continue;
      diary = carpace_roster_diary (store, &row->who.player);
      read = carpace_roster_fhir (row, &diary, today - CARPACE_TEAM_DAYS, today, out);
      diary.free (diary.self);
    }
  if (!read)
    {
      tell_fault (cli, store, CARPACE_TEAM_DAMAGED, "roster.sqlite");
      return CARPACE_EXIT_REFUSED;
    }
  if (out->len == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("No one lets you read how their hand is: there is nothing for a clinic's server."));
  fputs (out->str, cli->out);
  return CARPACE_EXIT_DONE;
}

/* ---- the window ---- */

typedef struct
{
  CarpaceCli *cli;
  CarpaceRosterStore *store;
  const char *path; /* of the folder; NULL: the one that is shared */
} Desk;

static CarpaceDiary
diary_of (void *self, const CarpaceKey *player)
{
  return carpace_roster_diary (((Desk *) self)->store, player);
}

static char *
leave_note (void *self, const CarpaceKey *player, const char *text, const char *phrase, bool *ret_done)
{
  const Desk *desk = self;
  char key[CARPACE_KEY_SHORT_BYTES];
  const char *const words[] = { "note", "--", key, text, desk->path, NULL };

  carpace_key_short (player, key);
  return carpace_cli_by_window (desk->cli, carpace_cli_note, words, phrase, ret_done);
}

/* @return false where there is no display: then it is printed */
static bool
show_window (CarpaceCli *cli, CarpaceRosterStore *store, const char *path, const GArray *rows, CarpaceDay today, GString *told)
{
  Desk desk = { cli, store, path };
  const CarpaceKeptPhrase kept = carpace_cli_kept_phrase (cli);
  const CarpaceRosterShown shown = { .row = (const CarpaceRosterRow *) (void *) rows->data, .n_rows = rows->len, .today = today,
                                     .last_monday = carpace_team_monday (today) - 7, .refused = g_strchomp (told->str), .self = &desk,
                                     .diary = diary_of, .note = leave_note, .kept = &kept };

  return cli->show_roster != NULL && cli->show_roster (&shown);
}

static int
roster (CarpaceCli *cli, int argc, char **argv)
{
  static const char *const formats[] = { "text", "json", "csv", "fhir", NULL };
  const char *format = NULL, *phrase_file = NULL, *database = NULL, *words[1];
  const CarpaceOption options[] = { { .name = "format", .value = &format }, { .name = "phrase-file", .value = &phrase_file },
                                    { .name = "database", .value = &database } };
  CarpaceRosterAsk ask = { .now_s = 0 };
  CarpaceInstant now;
  g_autoptr (GArray) rows = NULL, given = NULL;
  g_autoptr (GString) told = g_string_new (NULL);
  CarpaceRosterStore store;
  int status = CARPACE_EXIT_REFUSED, choice, n = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1);

  if (n < 0 || (choice = carpace_option_choice (cli, "format", format, formats)) < 0)
    return CARPACE_EXIT_WORDS;
  if (carpace_cli_team_on_air (cli)
      || !(database != NULL ? open_club (cli, database, words[0], phrase_file, told, &store)
                             : open_own (cli, words[0], phrase_file, told, &store)))
    return CARPACE_EXIT_REFUSED;
  if (!moment_of (cli, &store, &now))
    {
      store.free (store.self);
      return CARPACE_EXIT_REFUSED;
    }
  ask.now_s = now.wall_ms / 1000;
  ask.today = carpace_cli_day (now, NULL);
  given = carpace_hand_outs_given (&cli->shelf);
  ask.given = (const CarpaceRosterGiven *) given->data;
  ask.n_given = given->len;
  rows = carpace_roster_rows (&store, &ask);
  if (rows == NULL)
    tell_fault (cli, &store, CARPACE_TEAM_DAMAGED, "roster.sqlite");
  if (rows != NULL && choice == FHIR)
    status = print_fhir (cli, &store, rows, ask.today);
  else if (rows != NULL)
    status = format == NULL && show_window (cli, &store, words[0], rows, ask.today, told) ? CARPACE_EXIT_DONE : print_rows (cli, rows, choice);
  store.free (store.self);
  return status;
}

int
carpace_cli_roster (CarpaceCli *cli, int argc, char **argv)
{
  bool note = argc > 1 && strcmp (argv[1], "note") == 0; /* a folder of that name is ./note */

  return note ? carpace_cli_note (cli, argc - 1, argv + 1) : roster (cli, argc, argv);
}
