/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-yaml-tree.c: libfyaml's events become nodes. */
#include "forms/plan-yaml-tree.h"

#include <libfyaml.h>
#include <string.h>

#define DEPTH 16

/* Where the next node goes. */
typedef struct
{
  CarpaceYamlTree *tree;
  const char *bytes;
  int32_t n_bytes;
  int32_t open[DEPTH];  /* lists and mappings begun and not ended */
  int32_t last[DEPTH];  /* the last child of each */
  int32_t depth;
  int32_t below;        /* levels too deep that are begun */
  int32_t documents;
  int32_t line, column; /* of the latest token */
  int32_t to;           /* where the latest token ends */
  bool over;
} Growth;

CarpaceYamlNode *
carpace_yaml_node (const CarpaceYamlTree *tree, int32_t node)
{
  return &g_array_index (tree->nodes, CarpaceYamlNode, (guint) node);
}

static void
fault_here (Growth *growth, CarpaceReadKind kind, const char *word)
{
  carpace_yaml_read_fault (growth->tree, growth->line, growth->column,
                           (CarpaceReadFault){ .kind = kind, .word = word });
}

/* A quoted value's token begins behind its mark. */
static void
move_to (Growth *growth, struct fy_token *token, bool quoted)
{
  const struct fy_mark *mark = token ? fy_token_start_mark (token) : NULL;

  if (mark == NULL)
    return;
  growth->line = mark->line + 1;
  growth->column = mark->column + 1 - (quoted && mark->column > 0);
}

/* The bytes of a token. */
static void
bytes_of (struct fy_token *token, int32_t *ret_from, int32_t *ret_to)
{
  const struct fy_mark *from = token ? fy_token_start_mark (token) : NULL;
  const struct fy_mark *to = token ? fy_token_end_mark (token) : NULL;

  if (from == NULL || to == NULL)
    return;
  *ret_from = (int32_t) from->input_pos;
  *ret_to = (int32_t) to->input_pos;
}

/* A text of lines is known from its first line on: back to its | or >, behind the
 * token before, and without the ends of lines behind it. */
static void
widen_lines (const Growth *growth, CarpaceYamlNode *node)
{
  int32_t at = growth->to;
  bool remark = false;

  for (; at < node->from && (remark || !strchr ("|>", growth->bytes[at])); at++)
    remark = growth->bytes[at] == '#' || (remark && !strchr ("\r\n", growth->bytes[at]));
  while (node->to > node->from && strchr ("\r\n", growth->bytes[node->to - 1]))
    node->to--;
  node->from = MIN (at, node->from);
}

/* Where nothing stands for a value, its place is behind its key's colon, if that has one. */
static void
place_nothing (const Growth *growth, CarpaceYamlNode *node)
{
  int32_t at = growth->to;

  while (at < growth->n_bytes && strchr (" \t\r\n", growth->bytes[at]))
    at++;
  node->from = node->to = at < growth->n_bytes && growth->bytes[at] == ':' ? at + 1 : growth->to;
}

static void
place (Growth *growth, CarpaceYamlNode *node, struct fy_token *token, struct fy_token *tag)
{
  bytes_of (tag, &node->tag, &node->tag_to);
  if (node->tag_to > growth->to)
    growth->to = node->tag_to;
  if (token == NULL)
    place_nothing (growth, node);
  bytes_of (token, &node->from, &node->to);
  if (node->style == CARPACE_YAML_SINGLE || node->style == CARPACE_YAML_DOUBLE)
    {
      node->from--;
      node->to++;
    }
  if (node->style == CARPACE_YAML_LINES)
    widen_lines (growth, node);
  growth->to = MAX (growth->to, node->to);
}

static int32_t
add_node (Growth *growth, CarpaceYamlKind kind)
{
  CarpaceYamlNode node = { .kind = kind, .line = growth->line, .column = growth->column, .depth = growth->depth,
                           .first = CARPACE_YAML_NO_NODE, .next = CARPACE_YAML_NO_NODE };
  int32_t index = (int32_t) growth->tree->nodes->len, at = growth->depth - 1;

  g_array_append_val (growth->tree->nodes, node);
  if (at < 0)
    return index;
  if (growth->last[at] == CARPACE_YAML_NO_NODE)
    carpace_yaml_node (growth->tree, growth->open[at])->first = index;
  else
    carpace_yaml_node (growth->tree, growth->last[at])->next = index;
  growth->last[at] = index;
  return index;
}

/* A token's text piece by piece: fy_token_get_text() of libfyaml 0.7.12 does not
 * free what it needs for a text of many pieces. */
static GString *
text_of (struct fy_token *token)
{
  struct fy_token_iter *pieces = fy_token_iter_create (token);
  const struct fy_iter_chunk *piece = NULL;
  GString *text = g_string_new (NULL);

  while ((piece = fy_token_iter_chunk_next (pieces, piece, NULL)) != NULL)
    g_string_append_len (text, piece->str, (gssize) piece->len);
  fy_token_iter_destroy (pieces);
  return text;
}

/* Anchors are refused; of tags only `!fixed` is known. @return whether it is there */
static bool
properties (Growth *growth, struct fy_token *anchor, struct fy_token *tag)
{
  GString *text = tag ? text_of (tag) : NULL;
  bool fixed = text && strcmp (text->str, "!fixed") == 0 && text->len == strlen ("!fixed");

  if (anchor)
    fault_here (growth, CARPACE_READ_ANCHOR, NULL);
  if (text && !fixed)
    fault_here (growth, CARPACE_READ_TAG, text->str);
  if (text)
    g_string_free (text, TRUE);
  return fixed;
}

static CarpaceYamlStyle
style_of (enum fy_scalar_style style)
{
  switch ((int) style)
    {
    case FYSS_SINGLE_QUOTED: return CARPACE_YAML_SINGLE;
    case FYSS_DOUBLE_QUOTED: return CARPACE_YAML_DOUBLE;
    case FYSS_LITERAL:
    case FYSS_FOLDED: return CARPACE_YAML_LINES;
    default: return CARPACE_YAML_PLAIN;
    }
}

static void
add_value (Growth *growth, const struct fy_event_scalar_data *scalar)
{
  CarpaceYamlStyle style = style_of (scalar->value ? fy_scalar_token_get_style (scalar->value) : FYSS_PLAIN);
  GString *text = scalar->value ? text_of (scalar->value) : g_string_new (NULL);
  bool sound = memchr (text->str, '\0', text->len) == NULL && g_utf8_validate_len (text->str, text->len, NULL);
  CarpaceYamlNode *node;
  bool fixed;

  move_to (growth, scalar->value, style == CARPACE_YAML_SINGLE || style == CARPACE_YAML_DOUBLE);
  fixed = properties (growth, scalar->anchor, scalar->tag);
  if (growth->below == 0)
    {
      node = carpace_yaml_node (growth->tree, add_node (growth, sound ? CARPACE_YAML_VALUE : CARPACE_YAML_UNREAD));
      node->text = sound ? g_string_chunk_insert_len (growth->tree->texts, text->str, (gssize) text->len) : "";
      node->style = style;
      node->fixed = fixed;
      place (growth, node, scalar->value, scalar->tag);
      if (!sound)
        fault_here (growth, CARPACE_READ_UNFIT_TEXT, NULL);
    }
  g_string_free (text, TRUE);
}

static void
begin (Growth *growth, CarpaceYamlKind kind, struct fy_token *start, struct fy_token *anchor, struct fy_token *tag)
{
  CarpaceYamlNode *node;
  int32_t index;
  bool fixed;

  move_to (growth, start, false);
  fixed = properties (growth, anchor, tag);
  if (growth->below > 0 || growth->depth == DEPTH)
    {
      if (growth->below++ > 0)
        return;
      add_node (growth, CARPACE_YAML_UNREAD);
      fault_here (growth, CARPACE_READ_TOO_DEEP, NULL);
      return;
    }
  index = add_node (growth, kind);
  node = carpace_yaml_node (growth->tree, index);
  node->fixed = fixed;
  place (growth, node, start, tag);
  node->style = node->to > node->from ? CARPACE_YAML_FLOW : CARPACE_YAML_BLOCK; /* nothing stands where it begins */
  growth->open[growth->depth] = index;
  growth->last[growth->depth++] = CARPACE_YAML_NO_NODE;
}

/* A block ends with the last thing in it, brackets where they close. */
static void
end (Growth *growth, struct fy_token *close)
{
  CarpaceYamlNode *node;
  int32_t from = 0, to = 0;

  if (growth->below > 0)
    {
      growth->below--;
      return;
    }
  node = carpace_yaml_node (growth->tree, growth->open[--growth->depth]);
  bytes_of (close, &from, &to);
  if (node->style == CARPACE_YAML_FLOW)
    growth->to = MAX (growth->to, to);
  node->to = growth->to;
}

static void
add_alias (Growth *growth, struct fy_token *anchor)
{
  move_to (growth, anchor, true);
  fault_here (growth, CARPACE_READ_ALIAS, NULL);
  if (growth->below == 0)
    add_node (growth, CARPACE_YAML_UNREAD);
}

static void
begin_document (Growth *growth, struct fy_token *start)
{
  move_to (growth, start, false);
  if (growth->documents++ == 0)
    return;
  fault_here (growth, CARPACE_READ_SECOND_DOCUMENT, NULL);
  growth->over = true;
}

static void
grow (Growth *growth, const struct fy_event *event)
{
  switch (event->type)
    {
    case FYET_DOCUMENT_START: begin_document (growth, event->document_start.document_start); break;
    case FYET_SCALAR: add_value (growth, &event->scalar); break;
    case FYET_ALIAS: add_alias (growth, event->alias.anchor); break;
    case FYET_MAPPING_START:
      begin (growth, CARPACE_YAML_MAPPING, event->mapping_start.mapping_start, event->mapping_start.anchor,
             event->mapping_start.tag);
      break;
    case FYET_SEQUENCE_START:
      begin (growth, CARPACE_YAML_LIST, event->sequence_start.sequence_start, event->sequence_start.anchor,
             event->sequence_start.tag);
      break;
    case FYET_MAPPING_END: end (growth, event->mapping_end.mapping_end); break;
    case FYET_SEQUENCE_END: end (growth, event->sequence_end.sequence_end); break;
    case FYET_NONE:
    case FYET_STREAM_START:
    case FYET_STREAM_END:
    case FYET_DOCUMENT_END:
      break;
    }
}

/* The parser stops at the first place that it cannot read. */
static void
tell_unread (const Growth *growth, struct fy_diag *diag)
{
  void *at = NULL;
  const struct fy_diag_error *error = fy_diag_errors_iterate (diag, &at);
  const CarpaceYamlStop stop = { .bytes = growth->bytes, .n_bytes = growth->n_bytes, .open = growth->open,
                                 .depth = growth->depth, .line = error ? MAX (error->line, 0) : 0,
                                 .column = error ? MAX (error->column, 0) : 0, .message = error ? error->msg : NULL };

  carpace_yaml_tell_unread (growth->tree, &stop);
}

static struct fy_diag *
quiet_diag (void)
{
  struct fy_diag_cfg config;
  struct fy_diag *diag;

  fy_diag_cfg_default (&config);
  config.fp = NULL;
  config.level = FYET_ERROR;
  diag = fy_diag_create (&config);
  fy_diag_set_collect_errors (diag, true);
  return diag;
}

bool
carpace_yaml_parse (CarpaceYamlTree *tree, const char *bytes, size_t n_bytes)
{
  struct fy_diag *diag = quiet_diag ();
  struct fy_parse_cfg config = { .flags = FYPCF_QUIET | FYPCF_DEFAULT_VERSION_1_2 | FYPCF_JSON_NONE, .diag = diag };
  struct fy_parser *parser = fy_parser_create (&config);
  Growth growth = { .tree = tree, .bytes = bytes, .n_bytes = (int32_t) n_bytes, .line = 1, .column = 1 };
  struct fy_event *event;
  bool sound;

  fy_parser_set_string (parser, bytes, n_bytes);
  while (!growth.over && (event = fy_parser_parse (parser)) != NULL)
    {
      grow (&growth, event);
      fy_parser_event_free (parser, event);
    }
  sound = growth.over || !fy_parser_get_stream_error (parser);
  if (!sound)
    tell_unread (&growth, diag);
  else if (tree->nodes->len == 0)
    carpace_yaml_read_fault (tree, 0, 0, (CarpaceReadFault){ .kind = CARPACE_READ_EMPTY });
  fy_parser_destroy (parser);
  fy_diag_destroy (diag);
  return sound && tree->nodes->len > 0;
}
