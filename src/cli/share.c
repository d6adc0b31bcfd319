/* SPDX-License-Identifier: GPL-3.0-or-later */
/* share.c: `carpace share`. */
#define _GNU_SOURCE /* realpath */
#include <errno.h>
#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#include "carpace/names.h"
#include "cli/cli.h"
#include "cli/clock.h"
#include "cli/dates.h"
#include "cli/notes.h"
#include "cli/options.h"
#include "cli/share-window.h"
#include "cli/team.h"
#include "forms/json.h"
#include "team/share.h"
#include "text/diary-text.h"
#include "text/file-text.h"
#include "text/quoted.h"
#include "text/team-text.h"

/* ---- what is left in the folder ---- */

static void
tell_waiting (CarpaceCli *cli, const CarpaceShared *shared)
{
  if (shared->waiting > 0)
    fprintf (cli->out, ngettext ("%d grant waits for a guardian's signature: “carpace share countersign” on their computer.\n",
                                 "%d grants wait for a guardian's signature: “carpace share countersign” on their computer.\n",
                                 (unsigned long) shared->waiting), shared->waiting);
}

/* What tells of a clock that is wrong. */
static void
tell_clock (CarpaceCli *cli, const CarpaceShared *shared, int64_t now_s)
{
  g_autofree char *today = carpace_text_date (carpace_grant_day (now_s)), *last = carpace_text_date (carpace_grant_day (shared->ahead_s));

  if (shared->later > 0)
    fprintf (cli->out, ngettext ("%d grant begins later than today, which is %s by this computer's clock.\n",
                                 "%d grants begin later than today, which is %s by this computer's clock.\n",
                                 (unsigned long) shared->later), shared->later, today);
  if (shared->ahead_s > 0)
    fprintf (cli->out, _("This computer's clock says %s, and the last bundle was made on %s: it was wrong then, or is now.\n"), today, last);
}

static int
tell_fault (CarpaceCli *cli, CarpaceTeamFault fault, const CarpaceShared *shared)
{
  int error = errno;
  g_autofree char *folder = carpace_shelf_text (&cli->shelf, CARPACE_SHELF_SHARE);

  errno = error;
  return carpace_cli_team_fault (cli, fault, shared->what[0] != '\0' || folder == NULL ? shared->what : folder);
}

static CarpaceSharing
sharing_of (CarpaceCli *cli, const CarpaceFolder *shared)
{
  return (CarpaceSharing) { .shelf = &cli->shelf, .shared = shared, .now_s = carpace_cli_now (cli).wall_ms / 1000,
                            .today = carpace_cli_today (cli, NULL) };
}

static void
tell_one_damaged (void *user, const char *file, CarpaceTeamFault fault)
{
  CarpaceCli *cli = user;
  g_autofree char *sentence = carpace_text_team_fault (fault, file);

  fprintf (cli->err, "%s %s\n", sentence, _("What it lets be read is not known here: “carpace share stop” or “share with” makes it anew."));
}

/* Grants alone, where a folder is shared already: a withdrawal bites at once. */
static int
leave_grants (CarpaceCli *cli)
{
  g_autofree char *path = carpace_shelf_text (&cli->shelf, CARPACE_SHELF_SHARE);
  CarpaceFolder shared;
  CarpaceSharing sharing;
  CarpaceShared done;
  CarpaceTeamFault fault;

  if (path == NULL)
    {
      fprintf (cli->out, "%s\n", _("Nothing goes out yet: “carpace share folder DIR” names the folder."));
      return CARPACE_EXIT_DONE;
    }
  shared = cli->open_shared (cli, path);
  sharing = sharing_of (cli, &shared);
  fault = carpace_share_grants (&sharing, &done);
  if (fault != CARPACE_TEAM_FINE)
    tell_fault (cli, fault, &done);
  else
    {
      tell_waiting (cli, &done);
      tell_clock (cli, &done, sharing.now_s);
    }
  shared.free (shared.self);
  return fault == CARPACE_TEAM_FINE ? CARPACE_EXIT_DONE : CARPACE_EXIT_REFUSED;
}

static int
share_now (CarpaceCli *cli, int argc, char **argv)
{
  g_autofree CarpacePlan *plan = NULL;
  CarpaceDiary diary;
  CarpaceFolder shared;
  CarpaceCard card;
  CarpaceSharing sharing;
  CarpaceShared done;
  CarpaceTeamFault fault;

  if (carpace_options_read (cli, argc, argv, NULL, 0, NULL, 0) < 0)
    return CARPACE_EXIT_WORDS;
  if (carpace_cli_team_on_air (cli) || !carpace_cli_own_card (cli, &card) || !carpace_cli_shared (cli, NULL, &shared))
    return CARPACE_EXIT_REFUSED;
  if (!cli->open_diary (cli, &diary))
    {
      shared.free (shared.self);
      return CARPACE_EXIT_REFUSED;
    }
  plan = carpace_cli_plan_in_use (cli);
  sharing = sharing_of (cli, &shared);
  sharing.today = carpace_cli_today (cli, plan);
  sharing.diary = &diary;
  carpace_team_plan_read (&diary, plan != NULL ? plan->at_most_ms : 0, &sharing.plan);
  cli->shelf.lock (cli->shelf.self, true);
  fault = carpace_share_now (&sharing, &done);
  if (fault == CARPACE_TEAM_FINE)
    carpace_share_note_day (&cli->shelf, sharing.today);
  carpace_shelf_damaged_grants (&cli->shelf, tell_one_damaged, cli);
  carpace_cli_take_notes (cli, &shared);
  cli->shelf.lock (cli->shelf.self, false);
  shared.free (shared.self);
  if (fault != CARPACE_TEAM_FINE)
    return tell_fault (cli, fault, &done);
  if (done.readers[CARPACE_BUNDLE_LOAD] == 0 && done.readers[CARPACE_BUNDLE_HAND] == 0)
    fprintf (cli->out, "%s\n", _("No bundle was made: there are no readers today."));
  else
    fprintf (cli->out, _("In the folder now: weeks of practice for %d, how the hand is for %d.\n"), done.readers[CARPACE_BUNDLE_LOAD],
             done.readers[CARPACE_BUNDLE_HAND]);
  tell_waiting (cli, &done);
  tell_clock (cli, &done, sharing.now_s);
  return CARPACE_EXIT_DONE;
}

static int
folder (CarpaceCli *cli, int argc, char **argv)
{
  const char *words[1];
  g_autofree char *kept = NULL, *shown = NULL;
  char *path;
  int n = carpace_options_read (cli, argc, argv, NULL, 0, words, 1);

  if (n < 0)
    return CARPACE_EXIT_WORDS;
  if (n == 0)
    {
      kept = carpace_shelf_text (&cli->shelf, CARPACE_SHELF_SHARE);
      shown = kept != NULL ? carpace_text_path (kept) : NULL;
      fprintf (cli->out, "%s\n", shown != NULL ? shown : _("No folder is shared."));
      return CARPACE_EXIT_DONE;
    }
  path = realpath (words[0], NULL);
  if (path == NULL || !g_file_test (path, G_FILE_TEST_IS_DIR))
    {
      errno = path != NULL ? ENOTDIR : errno;
      free (path);
      return carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, words[0]);
    }
  if (!carpace_shelf_keep_text (&cli->shelf, CARPACE_SHELF_SHARE, path))
    {
      free (path);
      return carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, CARPACE_SHELF_SHARE);
    }
  shown = carpace_text_path (path);
  free (path);
  fprintf (cli->out, _("%s is shared: once a day the tray program leaves there what you let others read, sealed to them.\n"), shown);
  return CARPACE_EXIT_DONE;
}

/* ---- grants ---- */

typedef struct
{
  const char *what, *since, *until, *guardian, *phrase_file, *said;
  bool yes;
} With;

/* The card of @who: of somebody known, or in a file, which is compared first. */
static bool
reader_of (CarpaceCli *cli, const char *who, const With *with, CarpaceCard *ret_card)
{
  g_autoptr (GByteArray) file = NULL;

  if (carpace_shelf_find (&cli->shelf, who, ret_card) != 0 || !g_file_test (who, G_FILE_TEST_EXISTS))
    return carpace_cli_find_person (cli, who, ret_card);
  file = carpace_cli_read_card (cli, who, ret_card);
  return file != NULL && carpace_cli_accept (cli, file, ret_card, with->said);
}

/* What a role reads where nothing else is said. The hand is never a coach's by itself. */
static CarpaceGrantWhat
usual_of (CarpaceRole role)
{
  switch (role)
    {
    case CARPACE_ROLE_COACH: return CARPACE_GRANT_LOAD;
    case CARPACE_ROLE_CLINICIAN: return CARPACE_GRANT_ALL;
    case CARPACE_ROLE_PLAYER:
    case CARPACE_ROLE_GUARDIAN:
    case CARPACE_N_ROLES: break;
    }
  return CARPACE_GRANT_NONE;
}

/* The last grant that named a guardian; user: it, number 0 where none did. */
static bool
note_guarded (void *user, const CarpaceGrant *grant, bool guarded, const GByteArray *file)
{
  CarpaceGrant *last = user;

  if (grant->under_age && (last->number == 0 || grant->made_s > last->made_s))
    *last = *grant;
  return true;
}

/* Whoever named one does so again, until a plan says that they are 16. @return false, told */
static bool
find_guardian (CarpaceCli *cli, const With *with, CarpaceGrant *grant)
{
  g_autofree CarpacePlan *plan = carpace_cli_plan_in_use (cli);
  CarpaceAge age = plan != NULL ? plan->age : CARPACE_AGE_NOT_SAID;
  CarpaceGrant last = { .number = 0 };
  CarpaceCard guardian;

  if (with->guardian == NULL && age != CARPACE_AGE_16_OR_OVER)
    carpace_shelf_grants (&cli->shelf, note_guarded, &last);
  grant->under_age = with->guardian != NULL || age == CARPACE_AGE_UNDER_16 || last.number > 0;
  if (!grant->under_age)
    return true;
  if (last.number > 0 && carpace_shelf_knows (&cli->shelf, &last.guardian, &guardian) && guardian.role == CARPACE_ROLE_GUARDIAN)
    {
      g_autofree char *name = carpace_text_quoted (guardian.name);

      fprintf (cli->out, _("%s has to agree, too, as before.\n"), name);
      grant->guardian = last.guardian;
      return true;
    }
  if (with->guardian == NULL && age != CARPACE_AGE_UNDER_16)
    {
      carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("A parent or guardian had to agree before: accept their key, then name them with --guardian."));
      return false;
    }
  if (with->guardian == NULL)
    {
      carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                          _("Your plan says that you are under 16: a parent or guardian has to agree. Accept their key, then name them with --guardian."));
      return false;
    }
  if (!carpace_cli_find_person (cli, with->guardian, &guardian))
    return false;
  if (guardian.role != CARPACE_ROLE_GUARDIAN)
    {
      carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("%s made their key as something else than a parent or guardian."), with->guardian);
      return false;
    }
  grant->guardian = guardian.sign;
  return true;
}

/* Says what it means; asks. @param player NULL: it is the player who is asked; else their guardian, who cannot stop it */
static bool
agrees (CarpaceCli *cli, const CarpaceGrant *grant, const char *player, bool yes)
{
  g_autofree char *name = carpace_text_quoted (grant->reader_name), *since = carpace_text_date (grant->since);
  g_autofree char *whose = player != NULL ? carpace_text_quoted (player) : NULL, *until = NULL, *stop = NULL;

  if (grant->until != 0)
    until = carpace_text_date (grant->until);
  else
    until = whose != NULL ? g_strdup_printf (_("%s stops it"), whose) : g_strdup (_("you stop it"));
  fprintf (cli->out, _("%s (%s) may read, from %s until %s:\n%s\n"), name, carpace_text_role (grant->reader_role), since, until,
           carpace_text_grant_means (grant->what, whose == NULL));
  if (grant->reader_role == CARPACE_ROLE_COACH && carpace_grant_covers (grant->what, CARPACE_BUNDLE_HAND))
    fprintf (cli->out, "%s\n", whose == NULL ? _("A coach does not need to know how your hand is, and must not make it a condition.")
                                             : _("A coach does not need to know how the player's hand is, and must not make it a condition."));
  /* Translators: a player's name */
  stop = whose != NULL ? g_strdup_printf (_("%s can stop it at any time (carpace share stop, on the player's own computer); you cannot."), whose)
                       : g_strdup (_("You can stop it at any time (carpace share stop)."));
  fprintf (cli->out, "%s%s", stop, yes ? "\n" : " ");
  if (!yes)
    fprintf (cli->out, _("Type %s to agree: "), _("share"));
  return yes || carpace_cli_says (cli, _("share"));
}

/* The number that the last one may have had. Of one that cannot be read it is not known, but it is a count, which the clock's
 * minutes are far above: a lower one would be refused by its reader, and a withdrawal with it. */
static int64_t
number_before (CarpaceCli *cli, const CarpaceGrant *grant)
{
  CarpaceGrant before;
  bool guarded;

  if (carpace_shelf_grant_to (&cli->shelf, &grant->reader, &before, &guarded))
    return before.number;
  return carpace_shelf_grant_is_damaged (&cli->shelf, &grant->reader) ? grant->made_s / 60 : 0;
}

/* Its number is one more than that of the one before, which nobody else may change meanwhile. */
static int
sign_grant (CarpaceCli *cli, CarpaceGrant *grant, const CarpacePerson *person)
{
  g_autoptr (GByteArray) file = NULL;
  int status;

  cli->shelf.lock (cli->shelf.self, true);

  grant->player = person->signer.key;
  grant->made_s = carpace_cli_now (cli).wall_ms / 1000;
  grant->number = number_before (cli, grant) + 1;
  grant->wording = CARPACE_GRANT_WORDING;
  file = carpace_grant_write (person, grant);
  status = carpace_shelf_keep_grant (&cli->shelf, grant, file) ? leave_grants (cli)
                                                              : carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, grant->reader_name);
  cli->shelf.lock (cli->shelf.self, false);
  return status;
}

static CarpaceGrant
grant_for (const CarpaceCard *reader)
{
  CarpaceGrant grant = { .reader = reader->sign, .reader_seal = reader->seal, .reader_role = reader->role };

  g_strlcpy (grant.reader_name, reader->name, sizeof grant.reader_name);
  return grant;
}

static int
share_with (CarpaceCli *cli, int argc, char **argv)
{
  static const char *const whats[] = { "usual", "load", "hand", "all", NULL };
  const char *words[1];
  With with = { .what = NULL };
  const CarpaceOption options[] = {
    { .name = "what", .value = &with.what }, { .name = "since", .value = &with.since }, { .name = "until", .value = &with.until },
    { .name = "guardian", .value = &with.guardian }, { .name = "phrase-file", .value = &with.phrase_file },
    { .name = "words", .value = &with.said }, { .name = "yes", .flag = &with.yes },
  };
  int64_t now_s = carpace_cli_now (cli).wall_ms / 1000;
  CarpaceDay today = carpace_cli_today (cli, NULL), since = MIN (today, carpace_grant_day (now_s)), until = 0; /* it holds at once */
  CarpacePerson person;
  CarpaceCard own, reader;
  CarpaceGrant grant;
  int choice, status, n = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1);

  if (n == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Say with whom: carpace share with NAME, or the file of their card."));
  if (n < 0 || (choice = carpace_option_choice (cli, "what", with.what, whats)) < 0
      || !carpace_option_day (cli, "since", with.since, &since) || !carpace_option_day (cli, "until", with.until, &until))
    return CARPACE_EXIT_WORDS;
  if (carpace_cli_team_on_air (cli) || !carpace_cli_own_card (cli, &own) || !reader_of (cli, words[0], &with, &reader))
    return CARPACE_EXIT_REFUSED;
  grant = grant_for (&reader);
  grant.what = choice > 0 ? (CarpaceGrantWhat) choice : usual_of (reader.role);
  grant.since = since;
  grant.until = until;
  if (grant.what == CARPACE_GRANT_NONE)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Say what they may read: --what load, hand or all."));
  if (until != 0 && (until < since || carpace_grant_holds (&grant, true, now_s, today) == CARPACE_TEAM_ENDED))
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("--until is before --since, or over already: it would let no one read anything."));
  if (!find_guardian (cli, &with, &grant))
    return CARPACE_EXIT_REFUSED;
  if (!agrees (cli, &grant, NULL, with.yes))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("Nothing was shared."));
  if (!carpace_cli_unlock (cli, with.phrase_file, &person))
    return CARPACE_EXIT_REFUSED;
  status = sign_grant (cli, &grant, &person);
  carpace_person_wipe (&person);
  return status;
}

/* Asks, in the folder, that what was read until now be erased. */
static int
ask_erasure (CarpaceCli *cli, const CarpacePerson *person)
{
  CarpaceFolder shared;
  CarpaceSharing sharing;
  CarpaceShared done;
  CarpaceTeamFault fault;

  if (!carpace_cli_shared (cli, NULL, &shared))
    return CARPACE_EXIT_REFUSED;
  sharing = sharing_of (cli, &shared);
  fault = carpace_share_erasure (&sharing, person, &done);
  shared.free (shared.self);
  if (fault != CARPACE_TEAM_FINE)
    return tell_fault (cli, fault, &done);
  fprintf (cli->out, "%s\n", _("All readers' programs are asked to erase what you let them read until now; copies elsewhere they cannot reach."));
  return CARPACE_EXIT_DONE;
}

/* Whom @who is let read, also by a grant that cannot be read any more. @return how many there are */
static int
find_granted (CarpaceCli *cli, const char *who, CarpaceGrant *ret_grant)
{
  CarpaceCard reader;
  int found = carpace_shelf_find_granted (&cli->shelf, who, ret_grant);

  if (found > 0 || carpace_shelf_find (&cli->shelf, who, &reader) != 1 || !carpace_shelf_grant_is_damaged (&cli->shelf, &reader.sign))
    return found;
  *ret_grant = grant_for (&reader);
  ret_grant->since = carpace_grant_day (carpace_cli_now (cli).wall_ms / 1000);
  return 1;
}

static int
stop (CarpaceCli *cli, int argc, char **argv)
{
  const char *phrase_file = NULL, *words[1];
  bool erase = false;
  const CarpaceOption options[] = { { .name = "phrase-file", .value = &phrase_file }, { .name = "erase", .flag = &erase } };
  CarpacePerson person;
  CarpaceGrant grant;
  int status, found, n = carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1);

  if (n == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Say with whom to stop: carpace share stop NAME."));
  if (n < 0)
    return CARPACE_EXIT_WORDS;
  if (carpace_cli_team_on_air (cli) || !carpace_team_ready ())
    return CARPACE_EXIT_REFUSED;
  found = find_granted (cli, words[0], &grant);
  if (found == 0)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("Nothing is shared with %s."), words[0]);
  if (found > 1)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                               _("You share with %d people called %s: name one by the beginning of the key, as their card has it."), found, words[0]);
  if (!carpace_cli_unlock (cli, phrase_file, &person))
    return CARPACE_EXIT_REFUSED;
  grant.what = CARPACE_GRANT_NONE;
  status = sign_grant (cli, &grant, &person);
  if (status == CARPACE_EXIT_DONE)
    fprintf (cli->out, "%s\n", carpace_text_grant_means (CARPACE_GRANT_NONE, true));
  if (erase && status == CARPACE_EXIT_DONE)
    status = ask_erasure (cli, &person);
  carpace_person_wipe (&person);
  return status;
}

/* ---- what is let ---- */

typedef struct
{
  CarpaceCli *cli;
  bool json;
  int64_t now_s;
  CarpaceDay today;
  int n;
} Listing;

static void
list_json (FILE *to, const CarpaceGrant *grant, bool holds)
{
  GString *out = g_string_new (NULL);
  char day[CARPACE_DAY_BYTES];

  carpace_json_open (out, '{');
  carpace_json_key (out, "name");
  carpace_json_string (out, grant->reader_name);
  carpace_json_key (out, "role");
  carpace_json_string (out, carpace_name (CARPACE_WORDS_ROLE, (int32_t) grant->reader_role));
  carpace_json_key (out, "what");
  carpace_json_string (out, carpace_name (CARPACE_WORDS_GRANT_WHAT, (int32_t) grant->what));
  carpace_day_write (grant->since, day);
  carpace_json_key (out, "since");
  carpace_json_string (out, day);
  carpace_day_write (grant->until, day);
  carpace_json_key (out, "until");
  carpace_json_string (out, grant->until != 0 ? day : NULL);
  carpace_json_key (out, "holds");
  carpace_json_bool (out, holds);
  carpace_json_close (out, '}');
  fprintf (to, "%s\n", out->str);
  g_string_free (out, TRUE);
}

static bool
list_one (void *user, const CarpaceGrant *grant, bool guarded, const GByteArray *file)
{
  Listing *listing = user;
  CarpaceTeamFault holds = carpace_grant_holds (grant, guarded, listing->now_s, listing->today);
  g_autofree char *name = carpace_text_harmless (grant->reader_name), *row = carpace_text_grant_row (grant, holds);

  listing->n++;
  if (listing->json)
    {
      list_json (listing->cli->out, grant, holds == CARPACE_TEAM_FINE);
      return true;
    }
  fprintf (listing->cli->out, "%-16s %s\n", name, row);
  return true;
}

static int
list (CarpaceCli *cli, int argc, char **argv)
{
  const char *format = NULL;
  const CarpaceOption options[] = { { .name = "format", .value = &format } };
  Listing listing = { .cli = cli, .now_s = carpace_cli_now (cli).wall_ms / 1000, .today = carpace_cli_today (cli, NULL) };

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), NULL, 0) < 0
      || !carpace_option_format (cli, format, &listing.json))
    return CARPACE_EXIT_WORDS;
  if (carpace_cli_team_on_air (cli))
    return CARPACE_EXIT_REFUSED;
  if (!carpace_team_ready () || !carpace_shelf_grants (&cli->shelf, list_one, &listing))
    return carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, "team");
  carpace_shelf_damaged_grants (&cli->shelf, tell_one_damaged, cli);
  if (listing.n == 0 && !listing.json)
    fprintf (cli->out, "%s\n", _("You share with no one."));
  if (!listing.json)
    carpace_cli_print_notes (cli, false);
  return CARPACE_EXIT_DONE;
}

/* ---- a guardian ---- */

typedef struct
{
  CarpaceCli *cli;
  CarpaceFolder shared;
  CarpacePerson person;
  bool yes;
  GPtrArray *names;
  int n;
} Signing;

static bool
note_grant (void *user, const char *name)
{
  if (g_str_has_suffix (name, CARPACE_GRANT_END))
    g_ptr_array_add (((Signing *) user)->names, g_strdup (name));
  return true;
}

/* @return false, told, where it cannot be written */
static bool
countersign_one (Signing *signing, const char *name)
{
  CarpaceCli *cli = signing->cli;
  CarpaceTeamFault fault;
  g_autoptr (GByteArray) file = carpace_folder_file (&signing->shared, name, &fault), both = NULL;
  g_autofree char *shown = NULL;
  CarpaceGrant grant;
  CarpaceCard player;
  bool guarded;

  if (file == NULL || carpace_grant_read (file->data, file->len, &grant, &guarded) != CARPACE_TEAM_FINE || guarded
      || grant.what == CARPACE_GRANT_NONE || !carpace_key_equal (&grant.guardian, &signing->person.signer.key)
      || !carpace_shelf_knows (&cli->shelf, &grant.player, &player))
    return true;
  shown = carpace_text_harmless (player.name);
  fprintf (cli->out, _("For %s: "), shown);
  if (!agrees (cli, &grant, shown, signing->yes))
    return true;
  both = carpace_grant_countersign (file->data, file->len, &signing->person);
  if (both == NULL || !signing->shared.write (signing->shared.self, name, both->data, both->len))
    {
      carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, name);
      return false;
    }
  signing->n++;
  return true;
}

static int
countersign (CarpaceCli *cli, int argc, char **argv)
{
  const char *phrase_file = NULL;
  Signing signing = { .cli = cli };
  const CarpaceOption options[] = { { .name = "phrase-file", .value = &phrase_file }, { .name = "yes", .flag = &signing.yes } };
  bool good = true;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), NULL, 0) < 0)
    return CARPACE_EXIT_WORDS;
  if (carpace_cli_team_on_air (cli) || !carpace_cli_unlock (cli, phrase_file, &signing.person))
    return CARPACE_EXIT_REFUSED;
  good = carpace_cli_shared (cli, NULL, &signing.shared);
  if (good)
    {
      signing.names = g_ptr_array_new_with_free_func (g_free);
      good = signing.shared.list (signing.shared.self, note_grant, &signing);
      if (!good)
        carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, "");
      for (guint i = 0; good && i < signing.names->len; i++)
        good = countersign_one (&signing, signing.names->pdata[i]);
      g_ptr_array_unref (signing.names);
      signing.shared.free (signing.shared.self);
    }
  carpace_person_wipe (&signing.person);
  if (good)
    fprintf (cli->out, ngettext ("%d grant signed.\n", "%d grants signed.\n", (unsigned long) signing.n), signing.n);
  return good ? CARPACE_EXIT_DONE : CARPACE_EXIT_REFUSED;
}

int
carpace_cli_share (CarpaceCli *cli, int argc, char **argv)
{
  static const CarpaceCliPart parts[] = {
    { "with", share_with }, { "stop", stop }, { "list", list }, { "notes", carpace_cli_notes }, { "window", carpace_cli_share_window }, { "folder", folder }, { "now", share_now },
    { "countersign", countersign },
  };

  return carpace_cli_run_part (cli, argc, argv, parts, G_N_ELEMENTS (parts));
}
