/* SPDX-License-Identifier: GPL-3.0-or-later */
/* json-guard.c: one object a line, and what parsers pass over in silence. */
#include "forms/json-guard.h"

#include <errno.h>
#include <stdbool.h>
#include <string.h>

#include <glib.h>

/** A line under way. */
typedef struct
{
  const char *at;
  char *key; /* the one at hand */
  char **value;
  GHashTable *keys;
} Guarding;

static void
skip_blanks (Guarding *g)
{
  g->at += strspn (g->at, " \t\r\n");
}

static bool
take (Guarding *g, char c)
{
  skip_blanks (g);
  if (*g->at != c)
    return false;
  g->at++;
  return true;
}

/* To its end; escapes are the parser's affair. */
static bool
take_string (Guarding *g)
{
  if (!take (g, '"'))
    return false;
  for (; *g->at != '"'; g->at++)
    {
      if (*g->at == '\\' && g->at[1] != '\0')
        g->at++;
      if (*g->at == '\0' || (unsigned char) *g->at < 0x20)
        return false;
    }
  g->at++;
  return true;
}

/* A key is written out: with escapes, one key could be written in two ways. */
static CarpaceIntakeFault
take_key (Guarding *g)
{
  const char *begin;
  size_t n;

  skip_blanks (g);
  begin = g->at + 1;
  if (!take_string (g))
    return CARPACE_INTAKE_NOT_THE_FORM;
  n = (size_t) (g->at - begin) - 1;
  if (n >= CARPACE_JSON_KEY_BYTES || memchr (begin, '\\', n) != NULL)
    return CARPACE_INTAKE_NOT_THE_FORM;
  memcpy (g->key, begin, n);
  g->key[n] = '\0';
  if (!g_hash_table_add (g->keys, g_strdup (g->key)))
    return CARPACE_INTAKE_TWICE;
  return take (g, ':') ? CARPACE_INTAKE_FINE : CARPACE_INTAKE_NOT_THE_FORM;
}

static CarpaceIntakeFault
number_at_fault (Guarding *g, const char *begin, CarpaceIntakeFault fault)
{
  *g->value = g_strndup (begin, (gsize) (g->at - begin));
  return fault;
}

/* RFC 8259, number. What is no whole number is told of by whoever reads the key. */
static CarpaceIntakeFault
take_number (Guarding *g)
{
  const char *begin = g->at;
  size_t digits;
  gint64 number;

  g->at += *g->at == '-';
  digits = strspn (g->at, "0123456789");
  if (digits == 0 || (digits > 1 && *g->at == '0'))
    return CARPACE_INTAKE_NOT_THE_FORM;
  g->at += digits;
  if (strchr (".eE", *g->at) != NULL && *g->at != '\0')
    {
      g->at += strspn (g->at, "0123456789.eE+-");
      return number_at_fault (g, begin, CARPACE_INTAKE_NOT_A_NUMBER);
    }
  errno = 0;
  number = g_ascii_strtoll (begin, NULL, 10);
  if (errno == ERANGE && (number == G_MAXINT64 || number == G_MININT64))
    return number_at_fault (g, begin, CARPACE_INTAKE_OUT_OF_RANGE);
  return CARPACE_INTAKE_FINE;
}

static bool
take_word (Guarding *g, const char *word)
{
  size_t n = strlen (word);

  if (strncmp (g->at, word, n) != 0)
    return false;
  g->at += n;
  return true;
}

static CarpaceIntakeFault
take_plain (Guarding *g)
{
  skip_blanks (g);
  if (*g->at == '{' || *g->at == '[')
    return CARPACE_INTAKE_TOO_DEEP;
  if (*g->at == '"')
    return take_string (g) ? CARPACE_INTAKE_FINE : CARPACE_INTAKE_NOT_THE_FORM;
  if (take_word (g, "true") || take_word (g, "false") || take_word (g, "null"))
    return CARPACE_INTAKE_FINE;
  return take_number (g);
}

static CarpaceIntakeFault
take_list (Guarding *g)
{
  CarpaceIntakeFault fault;

  if (take (g, ']'))
    return CARPACE_INTAKE_FINE;
  do
    if ((fault = take_plain (g)) != CARPACE_INTAKE_FINE)
      return fault;
  while (take (g, ','));
  return take (g, ']') ? CARPACE_INTAKE_FINE : CARPACE_INTAKE_NOT_THE_FORM;
}

static CarpaceIntakeFault
take_object (Guarding *g)
{
  CarpaceIntakeFault fault;

  if (!take (g, '{'))
    return CARPACE_INTAKE_NOT_THE_FORM;
  if (take (g, '}'))
    return CARPACE_INTAKE_FINE;
  do
    if ((fault = take_key (g)) != CARPACE_INTAKE_FINE
        || (fault = take (g, '[') ? take_list (g) : take_plain (g)) != CARPACE_INTAKE_FINE)
      return fault;
  while (take (g, ','));
  return take (g, '}') ? CARPACE_INTAKE_FINE : CARPACE_INTAKE_NOT_THE_FORM;
}

CarpaceIntakeFault
carpace_json_guard (const char *text, char ret_key[CARPACE_JSON_KEY_BYTES], char **ret_value)
{
  Guarding g = { .at = text, .key = ret_key, .value = ret_value };
  CarpaceIntakeFault fault;

  ret_key[0] = '\0';
  *ret_value = NULL;
  g.keys = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  fault = take_object (&g);
  skip_blanks (&g);
  if (fault == CARPACE_INTAKE_FINE && *g.at != '\0')
    {
      fault = CARPACE_INTAKE_MORE;
      ret_key[0] = '\0';
    }
  g_hash_table_unref (g.keys);
  return fault;
}
