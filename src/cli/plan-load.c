/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-load.c: the numbers of `plan check` and `plan split`. */
#include "cli/plan-load.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "carpace/names.h"
#include "carpace/quantity.h"
#include "carpace/split.h"
#include "cli/options.h"
#include "forms/json.h"
#include "text/duration.h"
#include "text/load-text.h"
#include "text/quoted.h"
#include "text/split-text.h"
#include "text/text.h"

/* ---- JSON ---- */

static GString *
begin (const char *kind)
{
  GString *out = g_string_new (NULL);

  carpace_json_open (out, '{');
  carpace_json_key (out, "kind");
  carpace_json_string (out, kind);
  return out;
}

static void
member (GString *out, const char *key, double number)
{
  carpace_json_key (out, key);
  carpace_json_double (out, number);
}

static void
drill_id (GString *out, const CarpacePlan *plan, int32_t drill)
{
  carpace_json_key (out, "id");
  carpace_json_string (out, plan->drills[drill].id);
}

static void
end (CarpaceCli *cli, GString *out)
{
  carpace_json_close (out, '}');
  fprintf (cli->out, "%s\n", out->str);
  g_string_free (out, TRUE);
}

static void
drill_json (CarpaceCli *cli, const CarpacePlan *plan, const CarpaceDrillLoad *load)
{
  GString *out = begin ("drill");

  member (out, "block", load->block + 1);
  drill_id (out, plan, load->drill);
  member (out, "strain_index", load->strain.index);
  member (out, "im", load->strain.im);
  member (out, "em", load->strain.em);
  member (out, "dm", load->strain.dm);
  member (out, "pm", load->strain.pm);
  member (out, "hm", load->strain.hm);
  end (cli, out);
}

static void
block_members (GString *out, int32_t block, const CarpaceBlockLoad *load)
{
  member (out, "number", block + 1);
  member (out, "strain_index", load->strain_index);
  member (out, "lowest_reserve", load->lowest_reserve);
  carpace_json_key (out, "group");
  carpace_json_string (out, carpace_name (CARPACE_WORDS_GROUP, load->group));
  carpace_json_key (out, "at_ms");
  carpace_json_int (out, load->at_ms);
}

static void
decides_json (CarpaceCli *cli, const CarpacePlan *plan, const CarpaceBlockLoad *of_block)
{
  static const char *const by[] = { "intensity", "efforts", "effort-duration", "hours" };
  CarpaceDecides decides = carpace_load_decides (plan, of_block);
  GString *out = begin ("decides");

  member (out, "block", decides.block + 1);
  drill_id (out, plan, plan->blocks[decides.block].parts[decides.part].drill);
  carpace_json_key (out, "by");
  carpace_json_string (out, by[decides.by]);
  end (cli, out);
}

static void
ease_json (CarpaceCli *cli, const CarpacePlan *plan)
{
  static const char *const changes[] = { "limit", "share", "rest", "run" };
  CarpaceEase ease;
  GString *out;

  G_STATIC_ASSERT (G_N_ELEMENTS (changes) == CARPACE_N_EASES);
  if (!carpace_load_ease (plan, &ease))
    return;
  out = begin ("ease");
  carpace_json_key (out, "change");
  carpace_json_string (out, changes[ease.kind]);
  if (ease.block >= 0)
    member (out, "block", ease.block + 1);
  if (ease.drill >= 0)
    drill_id (out, plan, ease.drill);
  member (out, "strain_index", ease.day_index);
  member (out, "lowest_reserve", ease.lowest_reserve);
  end (cli, out);
}

static void
load_json (CarpaceCli *cli, const CarpacePlan *plan, const CarpaceBlockLoad *of_block)
{
  GString *day;

  for (int32_t block = 0; block < plan->n_blocks; block++)
    {
      GString *out;

      for (int32_t part = 0; part < plan->blocks[block].n_parts; part++)
        {
          CarpaceDrillLoad load;
          carpace_load_part (plan, block, part, &load);
          drill_json (cli, plan, &load);
        }
      out = begin ("block");
      block_members (out, block, &of_block[block]);
      end (cli, out);
    }
  day = begin ("day");
  member (day, "strain_index", carpace_load_day (plan));
  end (cli, day);
  decides_json (cli, plan, of_block);
  ease_json (cli, plan);
}

/* ---- text ---- */

static void
drill_text (CarpaceCli *cli, const CarpacePlan *plan, const CarpaceDrillLoad *load)
{
  g_autofree char *name = carpace_text_harmless (plan->drills[load->drill].name);
  const CarpaceStrain *of = &load->strain;

  fprintf (cli->out, _("  %s: %.2f = intensity %.3f × efforts %.3f × length %.3f × wrist %.3f × hours %.3f\n"), name,
           of->index, of->im, of->em, of->dm, of->pm, of->hm);
}

static void
block_text (CarpaceCli *cli, const CarpacePlan *plan, int32_t block, const CarpaceBlockLoad *load)
{
  g_autofree char *limit = carpace_text_duration (plan->blocks[block].limit_ms);
  g_autofree char *at = carpace_text_duration (load->at_ms);

  fprintf (cli->out, _("Block %d, %s: strain index %.2f; lowest residual capacity about %.0f %% (estimate), of the %s, "
                       "%s into it\n"),
           block + 1, limit, load->strain_index, 100 * load->lowest_reserve, carpace_text_group (load->group), at);
}

static void
ease_text (CarpaceCli *cli, const CarpacePlan *plan, double day_index, double lowest)
{
  CarpaceEase ease;

  if (!carpace_load_ease (plan, &ease))
    return;
  g_autofree char *change = carpace_text_ease (plan, &ease);
  g_autofree char *effect = carpace_text_ease_effect (&ease, day_index, lowest);

  fprintf (cli->out, _("What would ease it most: %s. %s\n"), change, effect);
}

static void
load_text (CarpaceCli *cli, const CarpacePlan *plan, const CarpaceBlockLoad *of_block)
{
  double day_index = carpace_load_day (plan), lowest = 1;

  for (int32_t block = 0; block < plan->n_blocks; block++)
    {
      block_text (cli, plan, block, &of_block[block]);
      for (int32_t part = 0; part < plan->blocks[block].n_parts; part++)
        {
          CarpaceDrillLoad of_part;
          carpace_load_part (plan, block, part, &of_part);
          drill_text (cli, plan, &of_part);
        }
      lowest = fmin (lowest, of_block[block].lowest_reserve);
    }
  if (isfinite (day_index))
    fprintf (cli->out, _("Day: strain index %.2f\n"), day_index);
  else
    fprintf (cli->out, "%s\n", _("Day: no strain index, the blocks add up to more than 24 hours"));
  CarpaceDecides decides = carpace_load_decides (plan, of_block);
  g_autofree char *decided = carpace_text_decides (plan, &decides);
  fprintf (cli->out, "%s\n", decided);
  ease_text (cli, plan, day_index, lowest);
  fprintf (cli->out, "%s\n", carpace_text_load_estimates ());
}

int
carpace_cli_plan_load (CarpaceCli *cli, const CarpacePlan *plan, bool json)
{
  CarpaceBlockLoad of_block[CARPACE_PLAN_BLOCKS];

  for (int32_t i = 0; i < plan->n_blocks; i++)
    carpace_load_block (plan, i, &of_block[i]);
  if (json)
    load_json (cli, plan, of_block);
  else
    load_text (cli, plan, of_block);
  return CARPACE_EXIT_DONE;
}

/* ---- plan split ---- */

/* `whole`, `halves`, `quarters`, or a number. -1, with a sentence, where it is none. */
static int32_t
read_into (CarpaceCli *cli, const CarpacePlan *plan, const char *into)
{
  int64_t number = 0;

  if (!into)
    return plan->split_into > 0 ? plan->split_into : plan->n_blocks;
  if (carpace_name_split (into) > 0)
    return carpace_name_split (into);
  if (g_ascii_string_to_signed (into, 10, 1, CARPACE_PLAN_BLOCKS, &number, NULL))
    return (int32_t) number;
  g_autofree char *shown = carpace_text_shown_word (into);
  carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("--into: “%s” is no way to split; there are whole, halves, quarters, or a number from 1 to %d."),
                      shown, CARPACE_PLAN_BLOCKS);
  return -1;
}

static double
runs_of (const CarpacePlan *plan, const CarpaceBlock *block, int32_t part)
{
  double ms = (double) block->limit_ms * block->parts[part].share / CARPACE_WHOLE;

  return round (ms / (double) carpace_split_run_ms (plan, block->parts[part].drill));
}

static void
split_block_json (CarpaceCli *cli, const CarpacePlan *plan, int32_t number)
{
  const CarpaceBlock *block = &plan->blocks[number];
  CarpaceBlockLoad load;
  GString *out = begin ("block");

  carpace_load_block (plan, number, &load);
  block_members (out, number, &load);
  carpace_json_key (out, "limit_ms");
  carpace_json_int (out, block->limit_ms);
  carpace_json_key (out, "drills");
  carpace_json_open (out, '[');
  for (int32_t i = 0; i < block->n_parts; i++)
    {
      carpace_json_open (out, '{');
      drill_id (out, plan, block->parts[i].drill);
      member (out, "share_pct", (double) block->parts[i].share / CARPACE_PERCENT);
      member (out, "runs", runs_of (plan, block, i));
      carpace_json_close (out, '}');
    }
  carpace_json_close (out, ']');
  end (cli, out);
}

static void
split_json (CarpaceCli *cli, const CarpacePlan *plan, const CarpaceSplitFound *found)
{
  GString *out;

  for (int32_t i = 0; i < plan->n_blocks; i++)
    split_block_json (cli, plan, i);
  out = begin ("split");
  member (out, "blocks", plan->n_blocks);
  member (out, "strain_index", carpace_load_day (plan));
  member (out, "highest_strain_index", found->highest_index);
  member (out, "lowest_reserve", found->lowest_reserve);
  carpace_json_key (out, "exact");
  carpace_json_bool (out, found->exact);
  carpace_json_key (out, "proven");
  carpace_json_bool (out, found->proven);
  member (out, "bound", found->bound);
  end (cli, out);
}

/* The blocks as a plan file writes them, what is said about them in comments. */
static void
split_text (CarpaceCli *cli, const CarpacePlan *plan, const CarpaceSplitFound *found)
{
  char written[CARPACE_QUANTITY_BYTES];

  fprintf (cli->out, "blocks:\n");
  for (int32_t number = 0; number < plan->n_blocks; number++)
    {
      const CarpaceBlock *block = &plan->blocks[number];
      CarpaceBlockLoad load;

      carpace_load_block (plan, number, &load);
      carpace_quantity_write (CARPACE_UNIT_DURATION, (double) block->limit_ms, written);
      fprintf (cli->out, "  - limit: %s", written);
      fprintf (cli->out, _("   # strain index %.2f; lowest residual capacity about %.0f %% (estimate), of the "
                           "%s\n"), load.strain_index,
               100 * load.lowest_reserve, carpace_text_group (load.group));
      fprintf (cli->out, "    drills:\n");
      for (int32_t i = 0; i < block->n_parts; i++)
        {
          int runs = (int) runs_of (plan, block, i);
          carpace_quantity_write (CARPACE_UNIT_SHARE, block->parts[i].share, written);
          fprintf (cli->out, "      - {id: %s, share: %s}", plan->drills[block->parts[i].drill].id, written);
          fprintf (cli->out, ngettext ("   # %d run\n", "   # %d runs\n", (gulong) runs), runs);
        }
    }
  fprintf (cli->out, _("# Strain index of the hardest block %.3f, of the day %.3f.\n"), found->highest_index, carpace_load_day (plan));
  g_autofree char *proof = carpace_text_split_proof (found);
  fprintf (cli->out, "# %s\n", proof);
}

int
carpace_cli_plan_split (CarpaceCli *cli, const CarpacePlan *plan, int argc, char **argv)
{
  const char *into = NULL, *format = NULL, *words[1];
  CarpaceOption options[] = { { .name = "into", .value = &into }, { .name = "format", .value = &format } };
  CarpacePlan split = *plan;
  CarpaceSplitFound found;
  int32_t blocks;
  bool json;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), words, 1) < 0
      || !carpace_option_format (cli, format, &json))
    return CARPACE_EXIT_WORDS;
  blocks = read_into (cli, plan, into);
  if (blocks < 0)
    return CARPACE_EXIT_WORDS;
  if (!carpace_split (&split, blocks, &found))
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                               _("The drills have fewer whole runs than %d blocks; give them more time, shorter runs, or ask for fewer blocks."), blocks);
  if ((double) carpace_plan_longest_limit_ms (&split) > carpace_block_limit_facts ()->high)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("In %d blocks, one would be longer than a block can be, 4 hours; ask for more blocks."), blocks);
  if (json)
    split_json (cli, &split, &found);
  else
    split_text (cli, &split, &found);
  return CARPACE_EXIT_DONE;
}
