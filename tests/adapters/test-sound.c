/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Without a sound server, which is what a bus of its own has: nothing differs. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glib.h>

#include "sound.h"

static void
asking_takes_no_time (void **state)
{
  CarpaceSound sound = carpace_sound_gsound ();
  gint64 longest = 0;
  for (int i = 0; i < 50; i++)
    {
      gint64 asked = g_get_monotonic_time ();
      sound.play (sound.self, i % 2 == 0);
      longest = MAX (longest, g_get_monotonic_time () - asked);
      g_usleep (2000);
    }
  print_message ("sound asked for: %.2f ms at most\n", (double) longest / 1000);
  assert_true (longest < 100000);
  sound.free (sound.self);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (asking_takes_no_time) };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
