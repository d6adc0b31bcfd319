/* SPDX-License-Identifier: GPL-3.0-or-later */
/* zones-glib.c: GTimeZone, for names of the installed database only. */
#include "zones-glib.h"

#include <glib.h>
#include <string.h>

#define NAME_BYTES 64

/* GLib would also take "+02:00", rules ("XYZ3") and any path; a script is a
 * stranger's, so only names that are a file of the database pass. */
static bool
is_zone_name (const char *name)
{
  size_t length = strlen (name);
  if (length == 0 || length > NAME_BYTES || !g_ascii_isalpha (name[0]) || name[length - 1] == '/')
    return false;
  for (const char *c = name; *c != '\0'; c++)
    if (!g_ascii_isalnum (*c) && strchr ("_+-", *c) == NULL && !(*c == '/' && g_ascii_isalpha (c[1])))
      return false;
  return true;
}

static bool
is_installed (const char *name)
{
  const char *folder = g_getenv ("TZDIR");
  char *path = g_build_filename (folder != NULL && folder[0] != '\0' ? folder : "/usr/share/zoneinfo", name, NULL);
  bool installed = g_file_test (path, G_FILE_TEST_IS_REGULAR);
  g_free (path);
  return installed;
}

bool
carpace_zone_offset (const char *name, int64_t wall_ms, int32_t *ret_offset_s)
{
  if (name == NULL || !is_zone_name (name) || !is_installed (name))
    return false;
  GTimeZone *zone = g_time_zone_new_identifier (name);
  if (zone == NULL)
    return false;
  gint64 wall_s = wall_ms / 1000 - (wall_ms % 1000 < 0);
  gint interval = g_time_zone_find_interval (zone, G_TIME_TYPE_UNIVERSAL, wall_s);
  if (interval >= 0)
    *ret_offset_s = g_time_zone_get_offset (zone, interval);
  g_time_zone_unref (zone);
  return interval >= 0;
}

static bool
offset (void *self, const char *name, int64_t wall_ms, int32_t *ret_offset_s)
{
  return carpace_zone_offset (name, wall_ms, ret_offset_s);
}

CarpaceZones
carpace_zones_glib_port (void)
{
  return (CarpaceZones) { .offset = offset };
}
