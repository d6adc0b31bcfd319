/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "front.h"

#include <glib.h>
#include <string.h>

#define DELETED " (deleted)" /* what the kernel puts behind a file that is gone */

char *
carpace_front_program (uint32_t pid)
{
  g_autofree char *link = g_strdup_printf ("/proc/%u/exe", pid);
  g_autofree char *path = pid > 0 ? g_file_read_link (link, NULL) : NULL;
  char *name = path != NULL && g_utf8_validate (path, -1, NULL) ? g_path_get_basename (path) : NULL;

  if (name != NULL && g_str_has_suffix (name, DELETED))
    name[strlen (name) - strlen (DELETED)] = '\0';
  return name;
}
