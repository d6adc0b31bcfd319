/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-edit-place.h: a plan's file as an edit sees it: its bytes, its nodes, and the one splice that changes both. */
#ifndef CARPACE_FORMS_PLAN_EDIT_PLACE_H
#define CARPACE_FORMS_PLAN_EDIT_PLACE_H

#include "forms/plan-edit-path.h"
#include "forms/plan-edit.h"
#include "forms/plan-yaml-tree.h"

/** What a node says, without how it is written. */
typedef struct
{
  int32_t depth;
  CarpaceYamlKind kind;
  bool fixed;
  const char *text; /* the tree's, or the edit's */
} CarpaceFlatNode;

typedef struct
{
  const char *bytes;
  int32_t n;
  const char *line_end; /* as the file has them */
  CarpaceYamlTree tree;
  CarpacePath path;
  const CarpacePlanEdit *edit;

  bool open; /* what is written has no brackets around it */

  /* the splice: bytes @from to @to become @text, nodes @at to @gone_to become @come */
  int32_t from, to;
  GString *text;
  int32_t at, gone_to;
  GArray *come; /* CarpaceFlatNode */
  GStringChunk *words;
} CarpaceEditing;

/** Where a path led. */
typedef struct
{
  int32_t in;    /* the list or mapping (or other node) that the last step found begins in */
  int32_t key;   /* its key there, NO_NODE for an item */
  int32_t node;  /* what it led to, NO_NODE where a step is missing */
  int32_t steps; /* those that were found */
  int32_t before; /* of a list: the item before it, NO_NODE at the first */
} CarpaceEditPlace;

/* nodes (plan-edit-flat.c) */
const CarpaceYamlNode *carpace_edit_node (const CarpaceEditing *editing, int32_t node);
int32_t carpace_edit_behind (const CarpaceEditing *editing, int32_t node); /* the first node that is not in it */
int32_t carpace_edit_item (const CarpaceEditing *editing, int32_t list, int32_t item); /* NO_NODE where there is none */
int32_t carpace_edit_count (const CarpaceEditing *editing, int32_t node);              /* its children */
CarpaceEditPlace carpace_edit_find (const CarpaceEditing *editing, int32_t steps);
void carpace_edit_come (CarpaceEditing *editing, int32_t depth, CarpaceYamlKind kind, const char *text);
void carpace_edit_come_from (CarpaceEditing *editing, int32_t node, int32_t to);       /* copies of nodes */
bool carpace_edit_is_as_asked (const CarpaceEditing *editing, const CarpaceYamlTree *now);

/* bytes (plan-edit-flat.c) */
int32_t carpace_edit_line (const CarpaceEditing *editing, int32_t at);        /* where its line begins */
int32_t carpace_edit_line_over (const CarpaceEditing *editing, int32_t at);   /* where the next begins, or the end */
bool carpace_edit_is_first (const CarpaceEditing *editing, int32_t at); /* nothing but spaces before it in its line */
bool carpace_edit_is_space (const CarpaceEditing *editing, int32_t from, int32_t to, bool lines_too);
void carpace_edit_append (CarpaceEditing *editing, int32_t from, int32_t to); /* those bytes, to the splice's text */
void carpace_edit_indent (CarpaceEditing *editing, int32_t as);               /* to the column of a byte */
int32_t carpace_edit_start (const CarpaceEditing *editing, int32_t node);     /* with its tag */
int32_t carpace_edit_colon_over (const CarpaceEditing *editing, int32_t key); /* behind its colon; -1: it has none */

/* what is written (plan-edit-list.c) */
void carpace_edit_write (CarpaceEditing *editing, const char *text, CarpacePathWritten written, CarpaceYamlStyle style,
                         bool marks);
void carpace_edit_write_list (CarpaceEditing *editing, const char *items, int32_t depth, bool marks);
bool carpace_edit_uses_marks (const CarpaceEditing *editing, int32_t mapping); /* its keys are in quotation marks */
void carpace_edit_separator (CarpaceEditing *editing, int32_t collection);     /* as between its last two entries */

/* lists (plan-edit-list.c) */
CarpacePlanEditEnd carpace_edit_insert (CarpaceEditing *editing);
CarpacePlanEditEnd carpace_edit_duplicate (CarpaceEditing *editing);
CarpacePlanEditEnd carpace_edit_move (CarpaceEditing *editing);
CarpacePlanEditEnd carpace_edit_take_out (CarpaceEditing *editing, int32_t in, int32_t first, int32_t last);

#endif
