/* SPDX-License-Identifier: GPL-3.0-or-later */
/* complete.c: what may stand at the cursor of a half-typed line, read from the forms of the table. */
#include <glib/gi18n.h>
#include <string.h>

#include "app/hands.h"
#include "app/players.h"
#include "carpace/names.h"
#include "cli/table.h"

#define ANY_FILE "/"

/* A part of a form. */
typedef struct
{
  char *option; /* with its dashes; NULL: a word in its place */
  char *words;  /* what may stand there; NULL: an option without a value */
  bool optional;
} Part;

/* A line that is being typed. */
typedef struct
{
  CarpaceCli *cli;
  GPtrArray *words;    /* before the one at the cursor: in their places, options and values left out */
  GHashTable *used;    /* options that stand there */
  GHashTable *offered;
  const char *stem;    /* what is begun at the cursor */
  char *before;        /* what stands before it in the same word: "--format=" */
} Line;

static void
part_clear (gpointer part)
{
  g_free (((Part *) part)->option);
  g_free (((Part *) part)->words);
}

/* Takes "--name", "--name VALUE" or a word. */
static void
add_part (GArray *parts, const char *text, bool optional)
{
  g_auto (GStrv) words = g_strsplit (text, " ", 2);
  bool option = g_str_has_prefix (text, "--");
  Part part = { option ? g_strdup (words[0]) : NULL, g_strdup (option ? words[1] : text), optional };

  g_array_append_val (parts, part);
}

/* What may be left out; @text begins behind its bracket. @return behind its end */
static const char *
add_optional (GArray *parts, const char *text)
{
  size_t length = strcspn (text, "]");
  g_autofree char *inside = g_strndup (text, length);
  g_auto (GStrv) either = g_strsplit (inside, " | ", -1);

  for (int i = 0; either[i]; i++)
    add_part (parts, either[i], true);
  return text + length + (text[length] != '\0');
}

/* A word, or an option that must be there, with its value if it has one. @return behind it */
static const char *
add_word (GArray *parts, const char *text)
{
  size_t length = strcspn (text, " ");

  if (g_str_has_prefix (text, "--") && text[length] != '\0' && strchr ("[-", text[length + 1]) == NULL)
    length += 1 + strcspn (text + length + 1, " ");
  g_autofree char *word = g_strndup (text, length);
  if (strcmp (word, "...") != 0)
    add_part (parts, word, false);
  return text + length;
}

/* Of one form, behind the command's own word. */
static GArray *
parts_of (const char *form)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (Part));

  g_array_set_clear_func (parts, part_clear);
  form += strcspn (form, " ");
  while (*form != '\0')
    if (*form == ' ')
      form++;
    else if (*form == '[')
      form = add_optional (parts, form + 1);
    else
      form = add_word (parts, form);
  return parts;
}

/* ---- what is offered ---- */

static void
offer (Line *line, const char *word, const char *what)
{
  if (!g_str_has_prefix (word, line->stem) || g_hash_table_contains (line->used, word)
      || !g_hash_table_add (line->offered, g_strconcat (line->before, word, NULL)))
    return;
  fprintf (line->cli->out, "%s%s%s%s\n", line->before, word, what != NULL ? "\t" : "", what != NULL ? what : "");
}

static void
offer_file (Line *line)
{
  if (g_hash_table_add (line->offered, g_strdup (ANY_FILE)))
    fprintf (line->cli->out, "%s\n", ANY_FILE);
}

static void
offer_plan (void *user, const CarpacePlanItem *item)
{
  offer (user, item->word, item->name);
}

static void
offer_plans (Line *line)
{
  if (line->cli->plans.list != NULL)
    line->cli->plans.list (line->cli->plans.self, offer_plan, line);
}

static void
offer_plans_and_files (Line *line)
{
  offer_plans (line);
  offer_file (line);
}

static void
offer_set (Line *line, CarpaceWords set, int32_t from)
{
  for (int32_t i = from; i < carpace_names_count (set); i++)
    if (carpace_name (set, i) != NULL)
      offer (line, carpace_name (set, i), NULL);
}

static void
offer_keys (Line *line)
{
  offer_set (line, CARPACE_WORDS_PLAN_KEY, 0);
}

static void
offer_sites (Line *line)
{
  offer_set (line, CARPACE_WORDS_SITE, CARPACE_SITE_NONE + 1);
}

static void
offer_signs (Line *line)
{
  offer_set (line, CARPACE_WORDS_SIGN, 0);
}

static void
offer_players (Line *line)
{
  for (int i = 0; i < CARPACE_N_PLAYERS; i++)
    offer (line, carpace_player_word ((CarpacePlayerKind) i), NULL);
}

static void
offer_hands (Line *line)
{
  for (int i = 0; i < CARPACE_N_HAND_MODELS; i++)
    offer (line, carpace_hand_model_word ((CarpaceHandModel) i), NULL);
}

static void
offer_ratings (Line *line)
{
  for (int i = 0; i <= 10; i++)
    {
      char number[12];
      g_snprintf (number, sizeof number, "%d", i);
      offer (line, number, NULL);
    }
}

/* What words in capitals stand for. Of numbers, times, days and codes nothing can be offered. */
static const struct { const char *stands; void (*offer) (Line *line); } stands_for[] = {
  { "KEY", offer_keys },
  { "FILE", offer_file },       { "FOLDER", offer_file },       { "PLAN", offer_plans_and_files }, { "TEMPLATE", offer_plans }, { "SITE", offer_sites },
  { "SIGN", offer_signs },      { "KIND", offer_players },         { "HAND", offer_hands },     { "RATING", offer_ratings },
  { "WAKING", offer_ratings },
};

/* One of "a", "a,b", "NAME", each with "..." or without. */
static void
offer_one (Line *line, const char *one)
{
  g_autofree char *word = g_strndup (one, strcspn (one, "."));

  for (size_t i = 0; i < G_N_ELEMENTS (stands_for); i++)
    if (strcmp (stands_for[i].stands, word) == 0)
      stands_for[i].offer (line);
  if (!g_ascii_isupper (word[0]))
    offer (line, word, NULL);
}

static void
offer_any_of (Line *line, const char *words)
{
  g_auto (GStrv) any = g_strsplit (words, ",", -1);
  const char *comma = strrchr (line->stem, ',');

  if (comma != NULL)
    {
      g_autofree char *before = line->before;
      line->before = g_strdup_printf ("%s%.*s", before, (int) (comma + 1 - line->stem), line->stem);
      line->stem = comma + 1;
    }
  for (int i = 0; any[i]; i++)
    offer (line, any[i], NULL);
}

static void
offer_words (Line *line, const char *words)
{
  g_auto (GStrv) either = g_strsplit (words, "|", -1);

  if (strchr (words, ',') != NULL)
    offer_any_of (line, words);
  else
    for (int i = 0; either[i]; i++)
      offer_one (line, either[i]);
}

/* ---- where the cursor is ---- */

static bool
is_literal (const char *words)
{
  return !g_ascii_isupper (words[0]) && strchr (words, '|') == NULL;
}

/* The part of the @n-th word in its place; a last one with "..." is that of all further ones. */
static const Part *
part_at (const GArray *parts, guint n)
{
  const Part *last = NULL;

  for (guint i = 0; i < parts->len; i++)
    {
      const Part *part = &g_array_index (parts, Part, i);
      if (part->option == NULL && n-- == 0)
        return part;
      last = part->option == NULL ? part : last;
    }
  return last != NULL && strstr (last->words, "...") != NULL ? last : NULL;
}

/* Whether what was typed so far can be this form. */
static bool
fits (const GArray *parts, const Line *line)
{
  for (guint i = 0; i < line->words->len; i++)
    {
      const Part *part = part_at (parts, i);
      if (part == NULL || (is_literal (part->words) && strcmp (part->words, line->words->pdata[i]) != 0))
        return false;
    }
  return true;
}

static const Part *
find_option (const GPtrArray *forms, const char *word)
{
  size_t length = strcspn (word, "=");

  for (guint i = 0; i < forms->len; i++)
    for (guint j = 0; j < ((GArray *) forms->pdata[i])->len; j++)
      {
        const Part *part = &g_array_index ((GArray *) forms->pdata[i], Part, j);
        if (part->option != NULL && strlen (part->option) == length && strncmp (part->option, word, length) == 0)
          return part;
      }
  return NULL;
}

static void
offer_places (Line *line, const GPtrArray *forms)
{
  for (guint i = 0; i < forms->len; i++)
    for (guint at = line->words->len; fits (forms->pdata[i], line); at++)
      {
        const Part *part = part_at (forms->pdata[i], at);
        if (part != NULL)
          offer_words (line, part->words);
        if (part == NULL || !part->optional || strstr (part->words, "...") != NULL)
          break;
      }
}

static void
offer_options (Line *line, const GPtrArray *forms)
{
  for (guint i = 0; i < forms->len; i++)
    for (guint j = 0; fits (forms->pdata[i], line) && j < ((GArray *) forms->pdata[i])->len; j++)
      {
        const Part *part = &g_array_index ((GArray *) forms->pdata[i], Part, j);
        if (part->option != NULL)
          offer (line, part->option, NULL);
      }
  if (line->stem[0] != '\0')
    offer (line, "--help", NULL);
}

/* bash cuts `--format=json` in three words. */
static bool
is_cut (int i, char **argv)
{
  return i > 1 && strcmp (argv[i], "=") == 0 && g_str_has_prefix (argv[i - 1], "--");
}

/* Sorts the words before the cursor. @return the option whose value is at the cursor, or NULL */
static const Part *
read_line (Line *line, const GPtrArray *forms, int argc, char **argv, bool *ret_only_words)
{
  const Part *waits = NULL;

  *ret_only_words = false;
  for (int i = 2; i < argc - 1; i++)
    {
      const Part *option = *ret_only_words ? NULL : find_option (forms, argv[i]);
      if (is_cut (i, argv))
        continue;
      if (waits != NULL)
        waits = NULL;
      else if (option != NULL)
        {
          g_hash_table_add (line->used, g_strdup (option->option));
          waits = option->words != NULL && strchr (argv[i], '=') == NULL ? option : NULL;
        }
      else if (strcmp (argv[i], "--") == 0)
        *ret_only_words = true;
      else if (*ret_only_words || argv[i][0] != '-')
        g_ptr_array_add (line->words, argv[i]);
    }
  return waits;
}

static void
complete_form (Line *line, const GPtrArray *forms, int argc, char **argv)
{
  bool only_words;
  const Part *option = read_line (line, forms, argc, argv, &only_words);
  const char *value = strchr (line->stem, '=');

  if (option == NULL && !only_words && value != NULL && (option = find_option (forms, line->stem)) != NULL)
    {
      g_free (line->before);
      line->before = g_strndup (line->stem, (gsize) (value + 1 - line->stem));
      line->stem = value + 1;
    }
  if (option != NULL)
    {
      if (option->words != NULL)
        offer_words (line, option->words);
      return;
    }
  if (only_words || line->stem[0] != '-')
    offer_places (line, forms);
  if (!only_words && (line->stem[0] == '-' || (line->stem[0] == '\0' && g_hash_table_size (line->offered) == 0)))
    offer_options (line, forms);
}

static void
complete_row (Line *line, const CarpaceCliRow *row, int argc, char **argv)
{
  g_auto (GStrv) texts = g_strsplit (row->forms, "\n", -1);
  g_autoptr (GPtrArray) forms = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);

  for (int i = 0; texts[i]; i++)
    g_ptr_array_add (forms, parts_of (texts[i]));
  complete_form (line, forms, argc, argv);
}

static void
complete_command (Line *line, const CarpaceCliRow *rows, size_t n_rows)
{
  for (size_t i = 0; i < n_rows; i++)
    offer (line, rows[i].word, _(rows[i].does));
  if (line->stem[0] == '-')
    {
      offer (line, "--help", NULL);
      offer (line, "--version", NULL);
    }
}

int
carpace_cli_complete (CarpaceCli *cli, const CarpaceCliRow *rows, size_t n_rows, int argc, char **argv)
{
  Line line = { .cli = cli, .stem = argc > 1 && !is_cut (argc - 1, argv) ? argv[argc - 1] : "", .before = g_strdup ("") };

  line.words = g_ptr_array_new ();
  line.used = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  line.offered = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  if (argc <= 2)
    complete_command (&line, rows, n_rows);
  for (size_t i = 0; argc > 2 && i < n_rows; i++)
    if (strcmp (rows[i].word, argv[1]) == 0)
      complete_row (&line, &rows[i], argc, argv);
  g_hash_table_unref (line.offered);
  g_hash_table_unref (line.used);
  g_ptr_array_unref (line.words);
  g_free (line.before);
  return CARPACE_EXIT_DONE;
}
