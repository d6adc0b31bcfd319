/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-yaml-tree.h: a YAML document as nodes with their places, and the faults found in it. */
#ifndef CARPACE_PLAN_YAML_TREE_H
#define CARPACE_PLAN_YAML_TREE_H

#include <glib.h>

#include "carpace/ports.h"
#include "text/plan-flaws.h"

/** Faults that are told of a file; further ones are counted. */
#define CARPACE_YAML_FAULTS 256

typedef enum
{
  CARPACE_YAML_VALUE,
  CARPACE_YAML_LIST,
  CARPACE_YAML_MAPPING, /**< children: key, value, key, value, ... */
  CARPACE_YAML_UNREAD   /**< its fault has been told */
} CarpaceYamlKind;

/** How a node is written. */
typedef enum
{
  CARPACE_YAML_PLAIN,
  CARPACE_YAML_SINGLE, /**< in quotation marks */
  CARPACE_YAML_DOUBLE,
  CARPACE_YAML_LINES,  /**< a text behind | or > */
  CARPACE_YAML_FLOW,   /**< a list or mapping in brackets */
  CARPACE_YAML_BLOCK   /**< or by indentation */
} CarpaceYamlStyle;

#define CARPACE_YAML_NO_NODE (-1)

typedef struct
{
  CarpaceYamlKind kind;
  CarpaceYamlStyle style;
  const char *text;   /**< of a value */
  bool fixed;         /**< `!fixed`, and nobody has made use of it yet */
  int32_t line, column;
  int32_t first, next; /**< indices of nodes */
  int32_t depth;       /**< 0: the root */
  int32_t from, to;    /**< its bytes with quotation marks or brackets, without its tag; the same where nothing is */
  int32_t tag, tag_to; /**< the bytes of its tag; the same where it has none */
} CarpaceYamlNode;

typedef struct
{
  GArray *nodes;      /**< CarpaceYamlNode, each behind what it is in; the first is the root */
  GStringChunk *texts;
  GArray *faults;     /**< of struct CarpaceYamlFault, in the file's order once sorted */
  int32_t n_faults;   /**< without warnings */
  int32_t n_untold;
} CarpaceYamlTree;

void carpace_yaml_tree_init (CarpaceYamlTree *tree);
void carpace_yaml_tree_clear (CarpaceYamlTree *tree);

CarpaceYamlNode *carpace_yaml_node (const CarpaceYamlTree *tree, int32_t node);

/** Whether another fault would be told, so that its sentence is worth making. Counts it where not. */
bool carpace_yaml_fault_is_told (CarpaceYamlTree *tree, bool warning);

/** @param message is taken */
void carpace_yaml_fault (CarpaceYamlTree *tree, int32_t line, int32_t column, bool warning, char *message);

void carpace_yaml_read_fault (CarpaceYamlTree *tree, int32_t line, int32_t column, CarpaceReadFault fault);

/** Tells the faults in the order of the file. */
void carpace_yaml_visit_faults (CarpaceYamlTree *tree, CarpaceFileFaultVisitor visit, void *user);

/** Looks at the bytes. @return whether they can be parsed; else a fault has been told */
bool carpace_yaml_guard (CarpaceYamlTree *tree, const char *bytes, size_t n_bytes);

/** Where a parser stopped. */
typedef struct
{
  const char *bytes;
  int32_t n_bytes;
  const int32_t *open;   /**< nodes that were begun and not ended, the outermost first */
  int32_t depth;         /**< how many */
  int32_t line, column;  /**< 0: it did not say */
  const char *message;   /**< its own, NULL where it had none */
} CarpaceYamlStop;

/** Tells why: an open bracket, one that closes nothing, a missing comma; else what the parser says. */
void carpace_yaml_tell_unread (CarpaceYamlTree *tree, const CarpaceYamlStop *stop);

/** Parses what carpace_yaml_guard() let through.
 * @return whether there is a root to look at */
bool carpace_yaml_parse (CarpaceYamlTree *tree, const char *bytes, size_t n_bytes);

/** Hands the tree to @builder, with nodes' index + 1 as places. */
void carpace_yaml_build (CarpaceYamlTree *tree, CarpacePlanBuilder *builder);

#endif
