/* SPDX-License-Identifier: GPL-3.0-or-later */
/* options.c: options and choices, and sentences where they are not understood. */
#include "cli/options.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"
#include "cli/remote.h"
#include "text/file-text.h"
#include "text/quoted.h"
#include "text/text.h"

#define PARTS_MOST 16

int
carpace_cli_tell (CarpaceCli *cli, int status, const char *sentence)
{
  fprintf (cli->err, "%s\n", sentence);
  return status;
}

int
carpace_cli_refuse (CarpaceCli *cli, int status, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  g_autofree char *sentence = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  return carpace_cli_tell (cli, status, carpace_remote_says (cli, status, sentence));
}

bool
carpace_cli_flush (CarpaceCli *cli)
{
  g_autofree char *sentence = NULL;
  int error = fflush (cli->out) != 0 ? errno : ferror (cli->out) ? EIO : 0;

  if (error == 0 || cli->out_failed)
    return error == 0;
  cli->out_failed = true;
  sentence = carpace_text_no_output (error);
  carpace_cli_tell (cli, CARPACE_EXIT_REFUSED, sentence);
  return false;
}

static char *
listed (const CarpaceOption *options, int n)
{
  GString *all = g_string_new (NULL);

  for (int i = 0; i < n; i++)
    g_string_append_printf (all, "%s--%s", i > 0 ? ", " : "", options[i].name);
  return g_string_free (all, FALSE);
}

static void
tell_unknown (CarpaceCli *cli, const char *command, const char *word, const CarpaceOption *options, int n)
{
  g_autofree char *shown = carpace_text_shown_word (word);
  g_autofree char *all = listed (options, n);

  if (n > 0)
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace %s” knows no option “%s”; there are: %s."), command, shown, all);
  else
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace %s” knows no option “%s”, nor any other; leave it out."), command, shown);
}

/* The option that @word (without its dashes) names; its value after "=". */
static const CarpaceOption *
find (const CarpaceOption *options, int n, const char *word, const char **ret_value)
{
  size_t length = strcspn (word, "=");

  *ret_value = word[length] == '=' ? word + length + 1 : NULL;
  for (int i = 0; i < n; i++)
    if (strlen (options[i].name) == length && strncmp (options[i].name, word, length) == 0)
      return &options[i];
  return NULL;
}

/* Takes argv[*i], and the word after it where that is its value. */
static bool
take_option (CarpaceCli *cli, int argc, char **argv, int *i, const CarpaceOption *options, int n)
{
  const char *value;
  const CarpaceOption *option = find (options, n, argv[*i] + 2, &value);

  if (!option)
    {
      tell_unknown (cli, argv[0], argv[*i], options, n);
      return false;
    }
  if (option->flag)
    {
      *option->flag = true;
      if (value)
        carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“--%s” takes no value; leave out what follows “=”."), option->name);
      return value == NULL;
    }
  if (!value && *i + 1 < argc)
    value = argv[++*i];
  if (!value)
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“--%s” needs a value after it."), option->name);
  *option->value = value;
  return value != NULL;
}

int
carpace_options_read (CarpaceCli *cli, int argc, char **argv, const CarpaceOption *options, int n_options,
                      const char **ret_words, int most)
{
  int n = 0;
  bool only_words = false;

  for (int i = 0; i < most; i++)
    ret_words[i] = NULL;
  for (int i = 1; i < argc; i++)
    if (!only_words && strcmp (argv[i], "--") == 0)
      only_words = true;
    else if (!only_words && argv[i][0] == '-' && argv[i][1] == '-')
      {
        if (!take_option (cli, argc, argv, &i, options, n_options))
          return -1;
      }
    else if (n == most)
      {
        g_autofree char *shown = carpace_text_shown_word (argv[i]);
        carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“%s” is one word too many for “carpace %s”; leave it out."), shown, argv[0]);
        return -1;
      }
    else
      ret_words[n++] = argv[i];
  return n;
}

int
carpace_option_choice (CarpaceCli *cli, const char *name, const char *value, const char *const *words)
{
  if (!value)
    return 0;
  for (int i = 0; words[i]; i++)
    if (strcmp (words[i], value) == 0)
      return i;
  g_autofree char *shown = carpace_text_shown_word (value);
  g_autofree char *all = g_strjoinv (", ", (char **) words);
  carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“%s” is nothing that “%s” can be; there are: %s."), shown, name, all);
  return -1;
}

bool
carpace_option_format (CarpaceCli *cli, const char *value, bool *ret_json)
{
  static const char *const formats[] = { "text", "json", NULL };
  int format = carpace_option_choice (cli, "--format", value, formats);

  if (format >= 0)
    *ret_json = format == 1;
  return format >= 0;
}

bool
carpace_option_number (CarpaceCli *cli, const char *name, const char *value, int64_t least, int64_t most,
                       int64_t *ret_number)
{
  char *end;

  if (!value)
    return true;
  errno = 0;
  gint64 number = g_ascii_strtoll (value, &end, 10);
  if (errno == 0 && g_ascii_isdigit (value[0]) && *end == '\0' && number >= least && number <= most)
    {
      *ret_number = number;
      return true;
    }
  g_autofree char *shown = carpace_text_shown_word (value);
  g_autofree char *from = g_strdup_printf ("%" G_GINT64_FORMAT, least);
  g_autofree char *to = g_strdup_printf ("%" G_GINT64_FORMAT, most);
  carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“%s” does not fit “%s”; give a whole number from %s to %s."), shown, name, from, to);
  return false;
}

bool
carpace_cli_says (CarpaceCli *cli, const char *word)
{
  char line[64];

  fflush (cli->out);
  if (cli->in == NULL || fgets (line, sizeof line, cli->in) == NULL)
    return false;
  return strcmp (g_strstrip (line), word) == 0;
}

int
carpace_cli_run_part (CarpaceCli *cli, int argc, char **argv, const CarpaceCliPart *parts, size_t n)
{
  const char *words[PARTS_MOST + 1] = { NULL };
  g_autofree char *near = NULL, *shown = NULL;

  for (size_t i = 0; i < MIN (n, PARTS_MOST); i++)
    {
      words[i] = parts[i].word;
      if (argc > 1 && strcmp (argv[1], parts[i].word) == 0)
        {
          g_autofree char *both = g_strdup_printf ("%s %s", argv[0], argv[1]);
          g_autofree char **own = g_new0 (char *, argc);

          own[0] = both;
          for (int word = 2; word < argc; word++)
            own[word - 1] = argv[word];
          return parts[i].run (cli, argc - 1, own);
        }
    }
  near = carpace_text_suggestion (argc < 2 ? NULL : argv[1], words);
  if (argc < 2)
    return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace %s” needs a word after it; %s."), argv[0], near);
  shown = carpace_text_quoted (argv[1]);
  return carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“carpace %s” cannot be followed by %s; %s."), argv[0], shown, near);
}
