/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE /* ppoll */
#include "cli/team.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <poll.h>
#include <signal.h>
#include <string.h>
#include <sys/stat.h>
#include <termios.h>
#include <unistd.h>

#include "cli/files.h"
#include "cli/keep.h"
#include "cli/options.h"
#include "cli/remote.h"
#include "files/in.h"
#include "team/shelf.h"
#include "team/words.h"
#include "text/quoted.h"
#include "text/team-text.h"

#define PHRASE_MOST 1024

int
carpace_cli_team_fault (CarpaceCli *cli, CarpaceTeamFault fault, const char *what)
{
  g_autofree char *sentence = carpace_text_team_fault (fault, what);

  return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, "%s", sentence);
}

bool
carpace_cli_own_card (CarpaceCli *cli, CarpaceCard *ret_card)
{
  CarpaceTeamFault fault = carpace_team_ready () ? carpace_shelf_card (&cli->shelf, ret_card, NULL) : CARPACE_TEAM_FAILED;

  if (fault == CARPACE_TEAM_NO_FILE)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("There are no keys of yours yet: “carpace key new NAME” makes them."));
  else if (fault != CARPACE_TEAM_FINE)
    carpace_cli_team_fault (cli, fault, "person.card");
  return fault == CARPACE_TEAM_FINE;
}

/* ---- pass phrases ---- */

static const int ends[] = { SIGINT, SIGTERM, SIGQUIT, SIGHUP, SIGTSTP }; /* while a terminal shows nothing */
static volatile sig_atomic_t ended;

static void
note_end (int number)
{
  ended = number;
}

/* A terminal that shows nothing of what is typed, and what it was before. */
typedef struct
{
  int fd;
  struct termios seen;
  struct sigaction before[G_N_ELEMENTS (ends)];
  sigset_t mask;
} Unseen;

/* Before the question is there, so that nothing is typed in sight. Whatever ends the program meanwhile ends the reading only. */
static bool
begin_unseen (int fd, Unseen *unseen)
{
  struct sigaction noted = { .sa_handler = note_end };
  struct termios mode;
  sigset_t held;

  if (fd < 0 || !isatty (fd) || tcgetattr (fd, &unseen->seen) != 0)
    return false;
  unseen->fd = fd;
  ended = 0;
  sigemptyset (&noted.sa_mask);
  sigemptyset (&held);
  for (size_t i = 0; i < G_N_ELEMENTS (ends); i++)
    sigaddset (&held, ends[i]);
  sigprocmask (SIG_BLOCK, &held, &unseen->mask);
  for (size_t i = 0; i < G_N_ELEMENTS (ends); i++)
    sigaction (ends[i], &noted, &unseen->before[i]);
  mode = unseen->seen;
  mode.c_lflag &= ~(tcflag_t) ECHO;
  tcsetattr (fd, TCSAFLUSH, &mode);
  return true;
}

/* Waits for a line, or for what ends it: signals come through here only, so that none is missed before the reading.
 * @return whether there is a line, or the end of them */
static bool
wait_unseen (const Unseen *unseen)
{
  struct pollfd terminal = { .fd = unseen->fd, .events = POLLIN };

  while (ended == 0)
    if (ppoll (&terminal, 1, NULL, &unseen->mask) > 0)
      return true;
    else if (errno != EINTR)
      return false;
  return false;
}

/* What was to end the program does so now that the terminal is as it was. */
static void
end_unseen (const Unseen *unseen)
{
  tcsetattr (unseen->fd, TCSAFLUSH, &unseen->seen);
  for (size_t i = 0; i < G_N_ELEMENTS (ends); i++)
    sigaction (ends[i], &unseen->before[i], NULL);
  sigprocmask (SIG_SETMASK, &unseen->mask, NULL);
  if (ended != 0)
    raise (ended);
}

/* One line of what is typed, unseen where that is a terminal. */
static char *
ask_unseen (CarpaceCli *cli, const char *question)
{
  char line[PHRASE_MOST], *phrase;
  Unseen unseen;
  bool terminal = begin_unseen (fileno (cli->in), &unseen), read;

  if (terminal)
    {
      fprintf (cli->err, "%s ", question);
      fflush (cli->err);
    }
  read = (!terminal || wait_unseen (&unseen)) && fgets (line, sizeof line, cli->in) != NULL;
  if (terminal)
    {
      fprintf (cli->err, "\n");
      end_unseen (&unseen);
    }
  line[read ? strcspn (line, "\n") : 0] = '\0';
  phrase = g_strdup (line);
  carpace_wipe (line, sizeof line);
  return phrase;
}

/* The first line of a file that is nobody else's. */
static char *
phrase_of_file (CarpaceCli *cli, const char *path)
{
  struct stat is;
  GString *bytes;
  char *phrase;

  if (stat (path, &is) == 0 && S_ISREG (is.st_mode) && ((is.st_mode & 077) != 0 || is.st_uid != geteuid ()))
    {
      carpace_cli_team_fault (cli, CARPACE_TEAM_LOOSE, path);
      return NULL;
    }
  bytes = carpace_cli_read_file (cli, path, PHRASE_MOST);
  if (bytes == NULL)
    return NULL;
  phrase = g_strndup (bytes->str, strcspn (bytes->str, "\n"));
  carpace_wipe (bytes->str, bytes->len);
  g_string_free (bytes, TRUE);
  return phrase;
}

void
carpace_cli_forget_phrase (char *phrase)
{
  if (phrase != NULL)
    carpace_wipe (phrase, strlen (phrase));
  g_free (phrase);
}

char *
carpace_cli_phrase (CarpaceCli *cli, const char *phrase_file)
{
  cli->phrase_asked = phrase_file == NULL;
  return phrase_file != NULL ? phrase_of_file (cli, phrase_file) : ask_unseen (cli, _("Pass phrase of your key:"));
}

CarpaceTeamFault
carpace_cli_opens (CarpaceCli *cli, const CarpaceCard *card, const char *phrase, CarpacePerson *ret_person)
{
  CarpaceTeamFault fault = carpace_shelf_unlock (&cli->shelf, phrase, ret_person);

  if (fault != CARPACE_TEAM_FINE || carpace_key_equal (&ret_person->signer.key, &card->sign))
    return fault;
  carpace_person_wipe (ret_person);
  return CARPACE_TEAM_OTHER_SIGNER;
}

bool
carpace_cli_unlock (CarpaceCli *cli, const char *phrase_file, CarpacePerson *ret_person)
{
  CarpaceCard card;
  char *phrase;
  CarpaceTeamFault fault;

  if (!carpace_cli_own_card (cli, &card))
    return false;
  if (phrase_file == NULL && carpace_cli_unlock_kept (cli, &card, ret_person))
    return true;
  phrase = carpace_cli_phrase (cli, phrase_file);
  if (phrase == NULL)
    return false;
  fault = carpace_cli_opens (cli, &card, phrase, ret_person);
  carpace_cli_forget_phrase (phrase);
  if (fault != CARPACE_TEAM_FINE)
    carpace_cli_team_fault (cli, fault, "person.key");
  return fault == CARPACE_TEAM_FINE;
}

char *
carpace_cli_new_phrase (CarpaceCli *cli, const char *phrase_file)
{
  char *phrase = phrase_file != NULL ? phrase_of_file (cli, phrase_file) : ask_unseen (cli, _("A new pass phrase, 12 characters or more:"));
  char *again = NULL;

  if (phrase == NULL)
    return NULL;
  if (phrase_file == NULL && isatty (fileno (cli->in)))
    again = ask_unseen (cli, _("Once more:"));
  if (strlen (phrase) < CARPACE_PHRASE_LEAST)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                        _("A pass phrase has 12 characters or more: four or five words that do not belong together are easy to keep."));
  else if (again != NULL && strcmp (again, phrase) != 0)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("The two pass phrases differ; nothing was made."));
  else
    {
      carpace_cli_forget_phrase (again);
      return phrase;
    }
  carpace_cli_forget_phrase (again);
  carpace_cli_forget_phrase (phrase);
  return NULL;
}

/* ---- people ---- */

bool
carpace_cli_find_person (CarpaceCli *cli, const char *who, CarpaceCard *ret_card)
{
  int n = carpace_shelf_find (&cli->shelf, who, ret_card);
  g_autofree char *shown = carpace_text_quoted (who);

  if (n == 0)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("You have accepted no one called %s: “carpace key accept FILE” takes their card."), shown);
  else if (n > 1)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                        _("%d people are called %s: name one by the beginning of the key, as “carpace key list” shows it."), n, shown);
  return n == 1;
}

GByteArray *
carpace_cli_read_team (CarpaceCli *cli, const char *path)
{
  g_autoptr (GString) bytes = carpace_cli_read_file (cli, path, CARPACE_TEAM_FILE_MOST);
  GByteArray *file = bytes != NULL ? g_byte_array_new () : NULL;

  if (file != NULL)
    g_byte_array_append (file, (const uint8_t *) bytes->str, (guint) bytes->len);
  return file;
}

bool
carpace_cli_is_card (CarpaceCli *cli, const char *path, const GByteArray *file, CarpaceCard *ret_card)
{
  CarpaceTeamFault fault = carpace_team_ready () ? carpace_card_read (file->data, file->len, ret_card) : CARPACE_TEAM_FAILED;

  if (fault != CARPACE_TEAM_FINE)
    carpace_cli_team_fault (cli, fault, path);
  return fault == CARPACE_TEAM_FINE;
}

GByteArray *
carpace_cli_read_card (CarpaceCli *cli, const char *path, CarpaceCard *ret_card)
{
  g_autoptr (GByteArray) file = carpace_cli_read_team (cli, path);

  return file != NULL && carpace_cli_is_card (cli, path, file, ret_card) ? g_steal_pointer (&file) : NULL;
}

bool
carpace_cli_accept (CarpaceCli *cli, const GByteArray *file, const CarpaceCard *card, const char *words)
{
  g_autofree char *name = carpace_text_quoted (card->name), *typed = NULL;
  char line[256];

  if (words == NULL)
    {
      fprintf (cli->out, _("This card says it is of %s (%s). Have them read their six words to you, where you know it is them, and "
                           "type what you hear:\n"), name, carpace_text_role (card->role));
      fflush (cli->out);
      typed = g_strdup (fgets (line, sizeof line, cli->in) != NULL ? line : "");
      words = typed;
    }
  if (!carpace_spoken_are (words, &card->sign, &card->seal))
    {
      carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                          _("Those are not the words of this card: it may be somebody else's. It was not accepted."));
      return false;
    }
  if (!carpace_shelf_accept (&cli->shelf, file))
    {
      carpace_cli_team_fault (cli, CARPACE_TEAM_FAILED, card->name);
      return false;
    }
  fprintf (cli->out, _("%s (%s) is accepted.\n"), name, carpace_text_role (card->role));
  return true;
}

/* ---- folders ---- */

bool
carpace_cli_shared (CarpaceCli *cli, const char *path, CarpaceFolder *ret_shared)
{
  g_autofree char *kept = path == NULL ? carpace_shelf_text (&cli->shelf, CARPACE_SHELF_SHARE) : NULL;

  if (path == NULL && kept == NULL)
    {
      carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("No folder is shared yet: “carpace share folder DIR” names it."));
      return false;
    }
  *ret_shared = cli->open_shared (cli, path != NULL ? path : kept);
  return true;
}

bool
carpace_cli_team_on_air (CarpaceCli *cli)
{
  carpace_remote_says (cli, CARPACE_EXIT_REFUSED, "");
  if (cli->air == CARPACE_AIR_ON)
    carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("On air nothing is shared; it waits for the end of it."));
  return cli->air == CARPACE_AIR_ON;
}
