/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/notes.h"

#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"
#include "cli/clock.h"
#include "cli/options.h"
#include "cli/team.h"
#include "forms/json.h"
#include "team/note.h"
#include "text/quoted.h"
#include "text/team-text.h"

/* ---- writing one ---- */

/* @return the exit status, told */
static int
tell_left (CarpaceCli *cli, CarpaceTeamFault fault, const CarpaceCard *player, const char *path)
{
  g_autofree char *name = carpace_text_quoted (player->name);

  if (fault == CARPACE_TEAM_NO_FILE)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                               _("No computer of %s's has left anything in the folder yet: there is none that a note could be sealed to."), name);
  if (fault != CARPACE_TEAM_FINE)
    return carpace_cli_team_fault (cli, fault, path != NULL ? path : "");
  fprintf (cli->out, _("The note is in the folder, sealed to %s: they see it when their program looks next, mostly within a day.\n"), name);
  return CARPACE_EXIT_DONE;
}

static int
leave (CarpaceCli *cli, const CarpaceCard *player, const char *text, const char *path, const char *phrase_file)
{
  g_autofree char *kept = path == NULL ? carpace_shelf_text (&cli->shelf, CARPACE_SHELF_SHARE) : NULL;
  CarpaceFolder shared;
  CarpacePerson person;
  CarpaceTeamFault fault;

  if (!carpace_cli_shared (cli, path, &shared))
    return CARPACE_EXIT_REFUSED;
  if (!carpace_cli_unlock (cli, phrase_file, &person))
    {
      shared.free (shared.self);
      return CARPACE_EXIT_REFUSED;
    }
  fault = carpace_note_leave (&shared, &person, &player->sign, text, carpace_cli_now (cli).wall_ms / 1000);
  carpace_person_wipe (&person);
  shared.free (shared.self);
  return tell_left (cli, fault, player, path != NULL ? path : kept);
}

int
carpace_cli_note (CarpaceCli *cli, int argc, char **argv)
{
  const char *phrase_file = NULL, *words[3];
  const CarpaceOption options[] = { { .name = "phrase-file", .value = &phrase_file } };
  CarpaceCard own, player;
  int n = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 3);

  if (n >= 0 && n < 2)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Say to whom and what: carpace roster note NAME “…”."));
  if (n < 0)
    return CARPACE_EXIT_WORDS;
  if (!carpace_note_is_text (words[1]))
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("A note is one line of 1 to %d characters."), CARPACE_TEAM_NOTE_CHARACTERS);
  if (carpace_cli_team_on_air (cli) || !carpace_cli_own_card (cli, &own) || !carpace_cli_find_person (cli, words[0], &player))
    return CARPACE_EXIT_REFUSED;
  if (own.role != CARPACE_ROLE_COACH && own.role != CARPACE_ROLE_CLINICIAN)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("Notes are taken from coaches and clinicians only: your key was made as something else."));
  return leave (cli, &player, words[1], words[2], phrase_file);
}

/* ---- reading them ---- */

typedef struct
{
  CarpaceCli *cli;
  bool json;
  int n;
} Printing;

static void
print_json (FILE *to, const CarpaceNoteRead *note)
{
  g_autoptr (GString) out = g_string_new (NULL);

  carpace_json_open (out, '{');
  carpace_json_key (out, "name");
  carpace_json_string (out, note->from.name);
  carpace_json_key (out, "role");
  carpace_json_string (out, carpace_name (CARPACE_WORDS_ROLE, (int32_t) note->from.role));
  carpace_json_key (out, "made_s");
  carpace_json_int (out, note->made_s);
  carpace_json_key (out, "text");
  carpace_json_string (out, note->text);
  carpace_json_close (out, '}');
  fprintf (to, "%s\n", out->str);
}

static bool
print_one (void *user, const CarpaceNoteRead *note)
{
  Printing *printing = user;
  g_autofree char *head = NULL;

  printing->n++;
  if (!note->told)
    carpace_note_put_told (&printing->cli->shelf, note); /* it is read here */
  if (printing->json)
    {
      print_json (printing->cli->out, note);
      return true;
    }
  head = carpace_text_note_by (&note->from, note->made_s);
  fprintf (printing->cli->out, "%s\n  %s\n", head, note->text);
  return true;
}

int
carpace_cli_print_notes (CarpaceCli *cli, bool json)
{
  Printing printing = { .cli = cli, .json = json };

  carpace_notes (&cli->shelf, print_one, &printing);
  return printing.n;
}

/* In the folder, too, where it can be reached: else the copy there is known, and stays away. */
static int
erase (CarpaceCli *cli, const char *who)
{
  g_autofree char *path = carpace_shelf_text (&cli->shelf, CARPACE_SHELF_SHARE), *name = NULL;
  CarpaceFolder shared;
  CarpaceCard from;
  bool erased;

  if (!carpace_cli_find_person (cli, who, &from))
    return CARPACE_EXIT_REFUSED;
  if (path != NULL)
    shared = cli->open_shared (cli, path);
  erased = carpace_note_erase (&cli->shelf, path != NULL ? &shared : NULL, &from.sign);
  if (path != NULL)
    shared.free (shared.self);
  name = carpace_text_quoted (from.name);
  if (!erased)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There is no note by %s."), name);
  fprintf (cli->out, _("The note by %s is erased.\n"), name);
  return CARPACE_EXIT_DONE;
}

int
carpace_cli_notes (CarpaceCli *cli, int argc, char **argv)
{
  const char *who = NULL, *format = NULL;
  bool json;
  const CarpaceOption options[] = { { .name = "erase", .value = &who }, { .name = "format", .value = &format } };

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), NULL, 0) < 0
      || !carpace_option_format (cli, format, &json))
    return CARPACE_EXIT_WORDS;
  if (carpace_cli_team_on_air (cli))
    return CARPACE_EXIT_REFUSED;
  if (!carpace_team_ready ())
    return carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, "team");
  if (who != NULL)
    return erase (cli, who);
  if (carpace_cli_print_notes (cli, json) == 0 && !json)
    fprintf (cli->out, "%s\n", _("There is no note to you."));
  return CARPACE_EXIT_DONE;
}

/* ---- taking them in ---- */

static void
tell_refused (void *user, const char *file, CarpaceTeamFault fault)
{
  g_autofree char *sentence = carpace_text_team_fault (fault, file);

  fprintf (((CarpaceCli *) user)->err, "%s\n", sentence);
}

void
carpace_cli_take_notes (CarpaceCli *cli, const CarpaceFolder *shared)
{
  int32_t n = carpace_notes_take (&cli->shelf, shared, carpace_cli_now (cli).wall_ms / 1000, tell_refused, cli);

  if (n > 0)
    fprintf (cli->out, ngettext ("%d note came: “carpace share notes” shows it.\n",
                                 "%d notes came: “carpace share notes” shows them.\n", (unsigned long) n), n);
}
