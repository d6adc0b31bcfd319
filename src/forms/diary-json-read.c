/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-json-read.c: a diary read from JSON lines that anybody may have written. */
#include "forms/diary-json-private.h"

#include <string.h>

#include <json-glib/json-glib.h>

#include "forms/json-guard.h"
#include "forms/records.h"

/* a plan stands in one line, each of its bytes an escape at most */
#define LONGEST_LINE (2 * 1024 * 1024)

/** A file under way. */
typedef struct
{
  const CarpaceDiaryKeeper *keeper;
  CarpaceIntake *intake;
  JsonParser *parser;
  JsonObject *object;  /* of the line at hand */
  GHashTable *texts;   /* of its keys, as they are asked for */
  bool begun;          /* the first line has been read */
  CarpaceIntakeFault fault;
  const char *key;
  char *value;
  char guarded[CARPACE_JSON_KEY_BYTES];
} Reading;

static char *
joined (JsonArray *array)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      JsonNode *item = json_array_get_element (array, i);
      const char *word = JSON_NODE_HOLDS_VALUE (item) ? json_node_get_string (item) : NULL;

      g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", word != NULL ? word : "?");
    }
  return g_string_free (text, FALSE);
}

/* What is no text, whole number, truth or list becomes one that nothing accepts. */
static char *
text_of (JsonNode *node)
{
  if (node == NULL || JSON_NODE_HOLDS_NULL (node))
    return NULL;
  if (JSON_NODE_HOLDS_ARRAY (node))
    return joined (json_node_get_array (node));
  if (!JSON_NODE_HOLDS_VALUE (node))
    return g_strdup ("{}");
  switch (json_node_get_value_type (node))
    {
    case G_TYPE_STRING:
      return g_strdup (json_node_get_string (node));
    case G_TYPE_INT64:
      return g_strdup_printf ("%" G_GINT64_FORMAT, json_node_get_int (node));
    case G_TYPE_BOOLEAN:
      return g_strdup (json_node_get_boolean (node) ? "1" : "0");
    default:
      return g_strdup_printf ("%g", json_node_get_double (node));
    }
}

static const char *
member (void *user, const char *key)
{
  Reading *reading = user;
  char *text = g_hash_table_lookup (reading->texts, key);

  if (text != NULL || !json_object_has_member (reading->object, key))
    return text;
  text = text_of (json_object_get_member (reading->object, key));
  if (text != NULL)
    g_hash_table_insert (reading->texts, g_strdup (key), text);
  return text;
}

static void
fail (Reading *reading, CarpaceIntakeFault fault, const char *key)
{
  reading->fault = fault;
  reading->key = key;
  reading->value = key != NULL && reading->object != NULL ? g_strdup (member (reading, key)) : NULL;
}

/* A version that there is, and whose diary it is. */
static void
read_first (Reading *reading)
{
  const char *kind = member (reading, "kind"), *version = member (reading, "version"), *key = NULL;
  gint64 number = version != NULL ? g_ascii_strtoll (version, NULL, 10) : 0;
  CarpaceIdentity identity;
  CarpaceIntakeFault fault = CARPACE_INTAKE_FINE;

  reading->begun = true;
  if (g_strcmp0 (kind, CARPACE_KIND_DIARY) != 0 || version == NULL)
    fail (reading, CARPACE_INTAKE_NOT_THE_FORM, NULL);
  else if (number > CARPACE_FORMAT_JSON_VERSION)
    fail (reading, CARPACE_INTAKE_NEWER, NULL);
  else if (number < 1)
    fail (reading, CARPACE_INTAKE_NO_VERSION, "version");
  else if ((fault = carpace_line_whose (member, reading, &identity, &key)) != CARPACE_INTAKE_FINE)
    fail (reading, fault, key);
}

static void
read_object (Reading *reading)
{
  CarpaceLine line;
  const char *key = NULL;
  CarpaceIntakeFault fault;

  if (!reading->begun)
    {
      read_first (reading);
      return;
    }
  fault = carpace_line_read (member, reading, &line, &key);
  if (fault == CARPACE_INTAKE_FINE)
    fault = carpace_line_keep (&line, reading->keeper, reading->intake);
  if (fault != CARPACE_INTAKE_FINE)
    fail (reading, fault, key);
}

static void
read_line (Reading *reading, const char *text)
{
  JsonNode *root;
  CarpaceIntakeFault fault = carpace_json_guard (text, reading->guarded, &reading->value);

  if (fault != CARPACE_INTAKE_FINE)
    {
      reading->fault = fault;
      reading->key = reading->guarded;
      return;
    }
  root = json_parser_load_from_data (reading->parser, text, -1, NULL) ? json_parser_get_root (reading->parser) : NULL;
  if (root == NULL || !JSON_NODE_HOLDS_OBJECT (root))
    {
      fail (reading, CARPACE_INTAKE_NOT_THE_FORM, NULL);
      return;
    }
  reading->object = json_node_get_object (root);
  read_object (reading);
  g_hash_table_remove_all (reading->texts);
  reading->object = NULL;
}

/* @return the line on which it ended */
static int32_t
read_lines (Reading *reading, const char *bytes, size_t n)
{
  int32_t line = 0;

  for (size_t at = 0; at < n && reading->fault == CARPACE_INTAKE_FINE; line++)
    {
      const char *end = memchr (bytes + at, '\n', n - at);
      size_t length = end != NULL ? (size_t) (end - bytes) - at : n - at;
      g_autofree char *text = length <= LONGEST_LINE ? g_strndup (bytes + at, length) : NULL;

      if (text == NULL)
        fail (reading, CARPACE_INTAKE_TOO_LONG, NULL);
      else if (!g_utf8_validate (bytes + at, (gssize) length, NULL))
        fail (reading, CARPACE_INTAKE_NOT_TEXT, NULL);
      else if (g_strstrip (text)[0] != '\0')
        read_line (reading, text);
      at += length + 1;
    }
  if (reading->fault == CARPACE_INTAKE_FINE && !reading->begun)
    fail (reading, CARPACE_INTAKE_NOT_THE_FORM, NULL);
  return line;
}

bool
carpace_json_is_like (const char *bytes, size_t n)
{
  static const char first[] = "\"kind\":\"diary\"";

  return n > 0 && bytes[0] == '{' && g_strstr_len (bytes, (gssize) MIN (n, 200), first) != NULL;
}

bool
carpace_json_read (const char *bytes, size_t n, const CarpaceDiaryKeeper *keeper, CarpaceIntake *ret_intake)
{
  Reading reading = { .keeper = keeper, .intake = ret_intake };
  int32_t line;
  bool kept;

  memset (ret_intake, 0, sizeof *ret_intake);
  if (!keeper->take_in_begin (keeper->self))
    {
      ret_intake->fault = carpace_text_intake_fault (CARPACE_INTAKE_NOT_KEPT, NULL, NULL);
      return false;
    }
  reading.parser = json_parser_new ();
  reading.texts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  line = read_lines (&reading, bytes, n);
  kept = carpace_intake_end (keeper, reading.fault, reading.key, reading.value, line, ret_intake);
  g_object_unref (reading.parser);
  g_hash_table_unref (reading.texts);
  g_free (reading.value);
  return kept;
}

/* The first line by itself, as read() takes it. */
bool
carpace_json_whose (const char *bytes, size_t n, CarpaceIdentity *ret_identity)
{
  Reading reading = { 0 };
  const char *end = memchr (bytes, '\n', n), *key;
  size_t length = end != NULL ? (size_t) (end - bytes) : n;
  g_autofree char *text = length <= LONGEST_LINE ? g_strndup (bytes, length) : NULL;
  JsonNode *root = NULL;
  bool read = false;

  memset (ret_identity, 0, sizeof *ret_identity);
  if (text == NULL || !g_utf8_validate (text, -1, NULL)
      || carpace_json_guard (text, reading.guarded, &reading.value) != CARPACE_INTAKE_FINE)
    {
      g_free (reading.value);
      return false;
    }
  reading.parser = json_parser_new ();
  reading.texts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  if (json_parser_load_from_data (reading.parser, text, -1, NULL))
    root = json_parser_get_root (reading.parser);
  if (root != NULL && JSON_NODE_HOLDS_OBJECT (root))
    {
      reading.object = json_node_get_object (root);
      read = carpace_line_whose (member, &reading, ret_identity, &key) == CARPACE_INTAKE_FINE;
    }
  g_object_unref (reading.parser);
  g_hash_table_unref (reading.texts);
  return read;
}
