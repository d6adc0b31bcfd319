/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-load.c: how long the largest plan takes to load, beside what libfyaml
 * alone takes to go through the same bytes.
 * usage: bench-plan-load FILE */
#include <glib.h>
#include <libfyaml.h>
#include <stdio.h>

#include "forms/plan-yaml.h"

#define TIMES 200

static void
count_fault (void *user, const CarpaceFileFault *fault)
{
  ++*(int *) user;
}

static double
parse_only_ms (const char *bytes, size_t n_bytes)
{
  gint64 begun = g_get_monotonic_time ();

  for (int i = 0; i < TIMES; i++)
    {
      struct fy_parse_cfg config = { .flags = FYPCF_QUIET };
      struct fy_parser *parser = fy_parser_create (&config);
      struct fy_event *event;

      fy_parser_set_string (parser, bytes, n_bytes);
      while ((event = fy_parser_parse (parser)) != NULL)
        fy_parser_event_free (parser, event);
      fy_parser_destroy (parser);
    }
  return (double) (g_get_monotonic_time () - begun) / 1000 / TIMES;
}

static double
load_ms (const char *bytes, size_t n_bytes, int *ret_n_faults)
{
  CarpacePlanReader reader = carpace_plan_yaml ();
  g_autofree CarpacePlan *plan = g_new (CarpacePlan, 1);
  gint64 begun = g_get_monotonic_time ();

  for (int i = 0; i < TIMES; i++)
    reader.read (reader.self, bytes, n_bytes, NULL, plan, NULL, count_fault, ret_n_faults);
  return (double) (g_get_monotonic_time () - begun) / 1000 / TIMES;
}

int
main (int argc, char **argv)
{
  g_autofree char *bytes = NULL;
  gsize n_bytes;
  int n_faults = 0;
  double alone_ms, whole_ms;

  if (argc < 2 || !g_file_get_contents (argv[1], &bytes, &n_bytes, NULL))
    return 1;
  alone_ms = parse_only_ms (bytes, n_bytes);
  whole_ms = load_ms (bytes, n_bytes, &n_faults);
  printf ("%zu bytes: libfyaml alone %.2f ms, the plan loaded %.2f ms, %.2f x\n", (size_t) n_bytes, alone_ms, whole_ms,
          whole_ms / alone_ms);
  return n_faults > 0;
}
