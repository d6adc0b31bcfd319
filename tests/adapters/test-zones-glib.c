/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Without arguments: rows. With `MS NAME...`: prints the offset of each zone at
 * MS, for zones-against-python. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>

#include "zones-glib.h"

/* Summer time by Directive 2000/84/EC (2027-03-28 01:00 UTC) and by 15 U.S.C.
 * 260a (2027-03-14 02:00 local); Kathmandu is at +05:45, Lord Howe turns by
 * half an hour, Apia left out 2011-12-30. */
static void
known_zones (void **state)
{
  static const struct { const char *name; int64_t wall_ms; int32_t offset_s; } rows[] = {
    { "Europe/Berlin", 1806195599999, 3600 },
    { "Europe/Berlin", 1806195600000, 7200 },
    { "America/New_York", 1805007599999, -18000 },
    { "America/New_York", 1805007600000, -14400 },
    { "Asia/Kathmandu", 0, 19800 },
    { "Asia/Kathmandu", 1806195600000, 20700 },
    { "Australia/Lord_Howe", 1798761600000, 39600 },
    { "Australia/Lord_Howe", 1814400000000, 37800 },
    { "Pacific/Apia", 1325239199999, -36000 },
    { "Pacific/Apia", 1325239200000, 50400 },
    { "Etc/GMT-14", 0, 50400 },
    { "UTC", -1, 0 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      int32_t offset_s = INT32_MIN;
      if (!carpace_zone_offset (rows[i].name, rows[i].wall_ms, &offset_s) || offset_s != rows[i].offset_s)
        fail_msg ("%s at %lld: %d, not %d", rows[i].name, (long long) rows[i].wall_ms, offset_s, rows[i].offset_s);
    }
}

static void
names_refused (void **state)
{
  static const char *const names[] = {
    NULL, "", "Nowhere/City", "Europe", "Europe/", "/etc/localtime", "../../../etc/passwd", "Europe/../UTC", "+02:00",
    "XYZ3", "CET-1CEST,M3.5.0,M10.5.0/3", "europe/berlin ", "Europe/Berlin\n", "tzdata.zi", "zone.tab",
    "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA",
  };
  for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
    {
      int32_t offset_s = 77;
      if (carpace_zone_offset (names[i], 0, &offset_s) || offset_s != 77)
        fail_msg ("%s is taken", names[i]);
    }
}

static int
print_offsets (int n, char **words)
{
  for (int i = 1; i < n; i++)
    {
      int32_t offset_s = 0;
      if (!carpace_zone_offset (words[i], strtoll (words[0], NULL, 10), &offset_s))
        return 1;
      printf ("%d\n", offset_s);
    }
  return 0;
}

int
main (int argc, char **argv)
{
  if (argc > 2)
    return print_offsets (argc - 1, argv + 1);
  const struct CMUnitTest tests[] = { cmocka_unit_test (known_zones), cmocka_unit_test (names_refused) };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
