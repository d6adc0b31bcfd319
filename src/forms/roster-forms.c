/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "forms/roster-forms.h"

#include <csv.h>
#include <string.h>

#include "carpace/names.h"
#include "forms/diary-csv-private.h"
#include "forms/json.h"

static const char *const look_words[CARPACE_N_LOOKS] = {
  [CARPACE_LOOK_CAUTION] = "caution-open",
  [CARPACE_LOOK_TWO_RISING] = "two-rising-weeks",
  [CARPACE_LOOK_CUT_TWICE] = "cut-twice",
  [CARPACE_LOOK_LEVEL_DOWN] = "level-down-twice",
  [CARPACE_LOOK_SILENT] = "silent",
  [CARPACE_LOOK_MISSING] = "bundle-missing",
  [CARPACE_LOOK_NOT_IN_FORCE] = "plan-not-in-force",
  [CARPACE_LOOK_CEILING] = "at-ceiling",
};

const char *
carpace_look_word (CarpaceLook look)
{
  return look_words[look];
}

/* One column: a text, or a number, or neither where it is not known. */
typedef struct
{
  const char *name;
  char text[256];
  bool is_text, known;
  int64_t number;
} Column;

#define COLUMNS 16

static void
add_text (Column *columns, int *n, const char *name, const char *text)
{
  columns[*n] = (Column) { .name = name, .is_text = true, .known = text != NULL };
  g_strlcpy (columns[(*n)++].text, text != NULL ? text : "", sizeof columns[0].text);
}

static void
add_number (Column *columns, int *n, const char *name, bool known, int64_t number)
{
  columns[(*n)++] = (Column) { .name = name, .known = known, .number = number };
}

static void
add_day (Column *columns, int *n, const char *name, bool known, CarpaceDay day)
{
  char text[CARPACE_DAY_BYTES];

  carpace_day_write (day, text);
  add_text (columns, n, name, known ? text : NULL);
}

/* The looks, as the one column that CSV has of them. */
static void
join_looks (const CarpaceRosterRow *row, char *text, size_t n)
{
  text[0] = '\0';
  for (int look = 0; look < CARPACE_N_LOOKS; look++)
    if ((row->looks & 1u << look) != 0)
      {
        g_strlcat (text, text[0] != '\0' ? " " : "", n);
        g_strlcat (text, look_words[look], n);
      }
}

/* What both forms have of a row: one list of names. @return how many */
static int
columns_of (const CarpaceRosterRow *row, Column columns[COLUMNS])
{
  const CarpaceLoadWeek *week = row->n_weeks > 0 ? &row->week[row->n_weeks - 1] : NULL;
  char looks[256];
  int n = 0;

  join_looks (row, looks, sizeof looks);
  add_text (columns, &n, "name", row->who.name);
  add_text (columns, &n, "looks", looks);
  add_text (columns, &n, "what", carpace_name (CARPACE_WORDS_GRANT_WHAT, (int32_t) row->who.grant.what));
  add_number (columns, &n, "holds", true, row->holds == CARPACE_TEAM_FINE);
  add_day (columns, &n, "load_made", row->load && row->who.made_s[CARPACE_BUNDLE_LOAD] > 0, (CarpaceDay) (row->who.made_s[CARPACE_BUNDLE_LOAD] / 86400));
  add_day (columns, &n, "hand_made", row->hand && row->who.made_s[CARPACE_BUNDLE_HAND] > 0, (CarpaceDay) (row->who.made_s[CARPACE_BUNDLE_HAND] / 86400));
  add_day (columns, &n, "erased", row->who.erased_s > 0, (CarpaceDay) (row->who.erased_s / 86400));
  add_text (columns, &n, "plan", row->head.plan_name[0] != '\0' ? row->head.plan_name : NULL);
  add_number (columns, &n, "plan_version", row->head.plan_version > 0, row->head.plan_version);
  add_day (columns, &n, "in_force", row->head.in_force_s > 0, (CarpaceDay) (row->head.in_force_s / 86400));
  add_day (columns, &n, "week", week != NULL, week != NULL ? week->monday : 0);
  add_number (columns, &n, "planned_ms", week != NULL, week != NULL ? week->planned_ms : 0);
  add_number (columns, &n, "done_ms", week != NULL, week != NULL ? week->done_ms : 0);
  add_number (columns, &n, "days", week != NULL, week != NULL ? week->days : 0);
  add_number (columns, &n, "rests", week != NULL, week != NULL ? week->rests : 0);
  add_number (columns, &n, "highest", row->hand && row->highest >= 0, row->highest);
  return n;
}

/* ---- CSV ---- */

static void
add_quoted (GString *out, const char *text)
{
  size_t n = strlen (text);
  g_autofree char *quoted = g_malloc (2 * n + 3);

  g_string_append_len (out, quoted, (gssize) csv_write (quoted, 2 * n + 3, text, n));
}

void
carpace_roster_csv_head (GString *out)
{
  static const CarpaceRosterRow none = { .n_weeks = 0 };
  Column columns[COLUMNS];
  int n = columns_of (&none, columns);

  for (int i = 0; i < n; i++)
    g_string_append_printf (out, "%s%s", i > 0 ? "," : "", columns[i].name);
  g_string_append (out, "\r\n");
}

static void
add_csv (const Column *columns, int n, GString *out)
{
  for (int i = 0; i < n; i++)
    {
      g_string_append (out, i > 0 ? "," : "");
      if (columns[i].known && columns[i].is_text)
        {
          g_autofree char *defused = carpace_csv_defused (columns[i].text); /* a player chose that name */

          add_quoted (out, defused);
        }
      else if (columns[i].known)
        g_string_append_printf (out, "%" G_GINT64_FORMAT, columns[i].number);
    }
  g_string_append (out, "\r\n");
}

/* ---- JSON ---- */

static void
add_weeks (const CarpaceRosterRow *row, GString *out)
{
  int32_t n;
  const CarpaceTeamField *field = carpace_team_fields (CARPACE_TEAM_LOAD_WEEK, &n, NULL);

  carpace_json_key (out, "weeks");
  carpace_json_open (out, '[');
  for (int32_t w = 0; w < row->n_weeks; w++)
    {
      carpace_json_open (out, '{');
      for (int32_t i = 0; i < n; i++)
        {
          char day[CARPACE_DAY_BYTES];

          carpace_json_key (out, field[i].field.name);
          carpace_day_write (row->week[w].monday, day);
          if (field[i].field.type == CARPACE_FIELD_DAY)
            carpace_json_string (out, day);
          else
            carpace_json_int (out, carpace_field_get (&field[i].field, &row->week[w]));
        }
      carpace_json_close (out, '}');
    }
  carpace_json_close (out, ']');
}

static void
add_json (const CarpaceRosterRow *row, const Column *columns, int n, GString *out)
{
  GString *line = g_string_new (NULL);

  carpace_json_open (line, '{');
  for (int i = 0; i < n; i++)
    {
      carpace_json_key (line, columns[i].name);
      if (!columns[i].known)
        carpace_json_null (line);
      else if (columns[i].is_text)
        carpace_json_string (line, columns[i].text);
      else
        carpace_json_int (line, columns[i].number);
    }
  add_weeks (row, line);
  carpace_json_close (line, '}');
  g_string_append_printf (out, "%s\n", line->str);
  g_string_free (line, TRUE);
}

void
carpace_roster_form (const CarpaceRosterRow *row, CarpaceRosterForm form, GString *out)
{
  Column columns[COLUMNS];
  int n = columns_of (row, columns);

  if (form == CARPACE_ROSTER_CSV)
    add_csv (columns, n, out);
  else
    add_json (row, columns, n, out);
}
