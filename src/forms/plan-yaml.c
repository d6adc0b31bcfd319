/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-yaml.c: bytes to plan, every fault told in one go. */
#include "forms/plan-yaml.h"

#include <string.h>

#include "forms/plan-yaml-tree.h"

static CarpaceFilePlace
file_place (const CarpaceYamlTree *tree, CarpacePlace place)
{
  const CarpaceYamlNode *node = place > 0 ? carpace_yaml_node (tree, place - 1) : NULL;

  return node ? (CarpaceFilePlace){ node->line, node->column } : (CarpaceFilePlace){ 0, 0 };
}

/* A flaw of nowhere is told at the document's beginning. */
static void
tell_flaws (CarpaceYamlTree *tree, const CarpacePlanBuilder *builder)
{
  for (int32_t i = 0; i < builder->n_flaws; i++)
    {
      const CarpaceFlaw *flaw = &builder->flaws[i];
      const CarpaceYamlNode *node = carpace_yaml_node (tree, flaw->place > 0 ? flaw->place - 1 : 0);
      const char *word = node->kind == CARPACE_YAML_VALUE ? node->text : NULL;
      bool warning = carpace_flaw_is_warning (flaw->kind);

      if (carpace_yaml_fault_is_told (tree, warning))
        carpace_yaml_fault (tree, node->line, node->column, warning,
                            carpace_text_plan_flaw (flaw, &builder->plan, word));
    }
  tree->n_untold += builder->n_flaws_untold;
}

static void
tell_places (const CarpaceYamlTree *tree, const CarpacePlanBuilder *builder, CarpacePlanPlaces *ret_places)
{
  memset (ret_places, 0, sizeof *ret_places);
  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    ret_places->key[key] = file_place (tree, builder->key_place[key]);
  ret_places->blocks = file_place (tree, builder->blocks_place);
  ret_places->split = file_place (tree, builder->split_place);
  for (int32_t block = 0; block < builder->plan.n_blocks && builder->plan.split_into == 0; block++)
    ret_places->block[block] = file_place (tree, builder->block_limit_place[block]);
}

/* A document that is no mapping has told so already. */
static bool
build (CarpaceYamlTree *tree, bool unsplit, const CarpacePlan *known, CarpacePlan *ret_plan, CarpacePlanPlaces *ret_places)
{
  g_autofree CarpacePlanBuilder *builder = g_new (CarpacePlanBuilder, 1);
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);
  bool sound;

  carpace_plan_builder_init (builder);
  builder->unsplit = unsplit;
  builder->known = known;
  carpace_yaml_build (tree, builder);
  if (carpace_yaml_node (tree, 0)->kind != CARPACE_YAML_MAPPING)
    return false;
  sound = carpace_plan_builder_finish (builder, plan) && tree->n_faults == 0;
  tell_flaws (tree, builder);
  if (!sound)
    return false;
  *ret_plan = *plan;
  if (ret_places)
    tell_places (tree, builder, ret_places);
  return true;
}

static bool
read_plan (void *self, const char *bytes, size_t n_bytes, const CarpacePlan *known, CarpacePlan *ret_plan,
           CarpacePlanPlaces *ret_places, CarpaceFileFaultVisitor visit, void *user)
{
  CarpaceYamlTree tree;
  bool sound;

  carpace_yaml_tree_init (&tree);
  sound = carpace_yaml_guard (&tree, bytes, n_bytes) && carpace_yaml_parse (&tree, bytes, n_bytes)
          && build (&tree, false, known, ret_plan, ret_places);
  carpace_yaml_visit_faults (&tree, visit, user);
  carpace_yaml_tree_clear (&tree);
  return sound;
}

static bool
look (void *self, const char *bytes, size_t n_bytes, CarpacePlan *ret_plan)
{
  CarpaceYamlTree tree;
  bool sound;

  carpace_yaml_tree_init (&tree);
  sound = carpace_yaml_guard (&tree, bytes, n_bytes) && carpace_yaml_parse (&tree, bytes, n_bytes)
          && build (&tree, true, NULL, ret_plan, NULL);
  carpace_yaml_tree_clear (&tree);
  return sound;
}

CarpacePlanReader
carpace_plan_yaml (void)
{
  return (CarpacePlanReader){ .read = read_plan, .look = look };
}
