/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-cases.h: reads the plans of tests/data. */
#ifndef CARPACE_TEST_PLAN_CASES_H
#define CARPACE_TEST_PLAN_CASES_H

#include <glib.h>
#include <string.h>

#include "carpace/ports.h"

/** Faults as lines "LINE:COLUMN fault|warning MESSAGE". */
static inline void
collect_fault (void *user, const CarpaceFileFault *fault)
{
  g_string_append_printf (user, "%d:%d %s %s\n", fault->line, fault->column, fault->warning ? "warning" : "fault",
                          fault->message);
}

static inline int
compare_paths (const void *a, const void *b)
{
  return strcmp (*(char *const *) a, *(char *const *) b);
}

/** Names of the files in tests/data/@folder that end in @ending, sorted. */
static inline GPtrArray *
case_files (const char *folder, const char *ending)
{
  g_autofree char *path = g_build_filename (CARPACE_TEST_DATA, folder, NULL);
  GDir *dir = g_dir_open (path, 0, NULL);
  GPtrArray *found = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  while (dir && (name = g_dir_read_name (dir)))
    if (g_str_has_suffix (name, ending))
      g_ptr_array_add (found, g_build_filename (path, name, NULL));
  g_clear_pointer (&dir, g_dir_close);
  g_ptr_array_sort (found, compare_paths);
  return found;
}

#endif
