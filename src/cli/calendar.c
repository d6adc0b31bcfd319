/* SPDX-License-Identifier: GPL-3.0-or-later */
/* calendar.c: `carpace calendar`: the coming blocks and intermissions. */
#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#include "app/on-air.h"
#include "carpace/dose.h"
#include "cli/clock.h"
#include "cli/files.h"
#include "cli/options.h"
#include "cli/plan-use.h"
#include "text/text.h"

#define MOST_DAYS 31
#define MOST_ENTRIES 4096

typedef struct
{
  GArray *entries; /* CarpaceCalendarEntry */
  GPtrArray *texts;
  CarpaceIdentity whose;
} Entries;

static const char *
keep (Entries *entries, char *text)
{
  g_ptr_array_add (entries->texts, text);
  return text;
}

static void
add (Entries *entries, const char *kind, int number, char *summary, CarpaceInstant begins, int64_t length_ms)
{
  char day[CARPACE_DAY_BYTES];
  CarpaceCalendarEntry entry = { .summary = keep (entries, summary), .begins = begins, .length_ms = length_ms };

  carpace_day_write (carpace_day_of (begins, 0), day);
  entry.uid = keep (entries, g_strdup_printf ("%s-%s-%d-%s@carpace", day, kind, number,
                                               carpace_identity_outside (&entries->whose)));
  if (entries->entries->len < MOST_ENTRIES)
    g_array_append_val (entries->entries, entry);
}

/* The day's blocks one after another with their waits, from @begins on.
 * @return when the last one ends */
static CarpaceInstant
add_blocks (Entries *entries, const CarpacePlan *plan, int64_t dose_ms, CarpaceInstant begins)
{
  int64_t limits_ms[CARPACE_DAY_BLOCKS];
  int32_t n = carpace_dose_limits (plan, dose_ms, limits_ms);
  CarpaceInstant at = begins, end = begins;

  for (int32_t i = 0; i < n; i++)
    {
      add (entries, "block", i + 1, g_strdup_printf (_("Block %d of %d"), i + 1, n), at, limits_ms[i]);
      end = carpace_instant_after (at, limits_ms[i]);
      at = carpace_instant_after (end, plan->between_blocks_ms);
    }
  return end;
}

static void
add_intermissions (Entries *entries, const CarpacePlan *plan, CarpaceInstant begins, CarpaceInstant end)
{
  CarpaceOnAir air;
  CarpaceInstant at = begins;
  int number = 0;

  carpace_on_air_init (&air);
  carpace_on_air_begin (&air, plan, begins);
  for (;;)
    {
      CarpaceIntermission next = carpace_on_air_at (&air, at);

      if (next.phase == CARPACE_INTERMISSION_NONE || next.begins_ms >= end.elapsed_ms)
        return;
      add (entries, "intermission", ++number, g_strdup (_("Intermission")),
           carpace_instant_after (begins, next.begins_ms - begins.elapsed_ms), next.ends_ms - next.begins_ms);
      at = carpace_instant_after (begins, next.ends_ms + 1 - begins.elapsed_ms);
    }
}

/* Local @minute of the day that is @days after @now's, with the offset that holds then. */
static CarpaceInstant
local_time (CarpaceInstant now, int64_t days, int32_t minute)
{
  int64_t local_ms = now.wall_ms + (int64_t) now.offset_s * CARPACE_SECOND_MS;
  int32_t year, month, day;
  g_autoptr (GDateTime) at = NULL;

  carpace_day_to_civil ((CarpaceDay) (local_ms / CARPACE_DAY_MS + days), &year, &month, &day);
  at = g_date_time_new_local (year, month, day, minute / 60, minute % 60, 0);
  return (CarpaceInstant) { .wall_ms = g_date_time_to_unix (at) * CARPACE_SECOND_MS,
                            .offset_s = (int32_t) (g_date_time_get_utc_offset (at) / G_USEC_PER_SEC) };
}

/* "18:00" or "18"; the next full hour where @value is NULL. */
static bool
read_time (CarpaceCli *cli, const char *value, CarpaceInstant now, int32_t *ret_minute)
{
  g_autofree char *shown = NULL;
  int hour, minute = 0, end = 0;

  if (value == NULL)
    {
      int64_t local_ms = now.wall_ms + (int64_t) now.offset_s * CARPACE_SECOND_MS;

      *ret_minute = (int32_t) (local_ms % CARPACE_DAY_MS / CARPACE_HOUR_MS + 1) % 24 * 60;
      return true;
    }
  if (((sscanf (value, "%2d:%2d%n", &hour, &minute, &end) == 2 && value[end] == '\0')
       || (sscanf (value, "%2d%n", &hour, &end) == 1 && value[end] == '\0'))
      && hour >= 0 && hour < 24 && minute >= 0 && minute < 60)
    {
      *ret_minute = hour * 60 + minute;
      return true;
    }
  shown = carpace_text_shown_word (value);
  carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("“%s” is no time of day for --at; write it as in 18:00."), shown);
  return false;
}

static int
write_entries (CarpaceCli *cli, const Entries *entries, CarpaceInstant now, const char *file, bool force)
{
  char *text = cli->calendar.write == NULL
                 ? NULL
                 : cli->calendar.write (cli->calendar.self, (const CarpaceCalendarEntry *) (void *) entries->entries->data,
                                        entries->entries->len, now);
  bool written;

  if (text == NULL)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED,
                               _("The calendar could not be made; nothing was written. Where Carpace came in packages, "
                                 "install carpace-calendar."));
  written = carpace_cli_write_file (cli, file, force, text, strlen (text));
  free (text);
  return written ? CARPACE_EXIT_DONE : CARPACE_EXIT_REFUSED;
}

/* The dose as it stood last: of the last day the diary has, else the plan's. */
static bool
last_dose (void *user, const CarpaceDaySum *sum)
{
  if (sum->dose_ms > 0)
    *(int64_t *) user = sum->dose_ms;
  return true;
}

static int64_t
dose_of (CarpaceCli *cli, const CarpacePlan *plan, CarpaceIdentity *ret_whose)
{
  CarpaceDay today = carpace_cli_today (cli, plan);
  int64_t dose_ms = plan->dose_ms;
  CarpaceDiary diary;

  if (cli->open_diary != NULL && cli->open_diary (cli, &diary))
    {
      diary.days (diary.self, today - 60, today, last_dose, &dose_ms);
      if (diary.whose != NULL)
        diary.whose (diary.self, ret_whose);
    }
  return dose_ms;
}

static int
make_calendar (CarpaceCli *cli, const CarpacePlan *plan, int64_t days, int32_t minute, const char *file, bool force)
{
  Entries entries = { .entries = g_array_new (FALSE, TRUE, sizeof (CarpaceCalendarEntry)),
                      .texts = g_ptr_array_new_with_free_func (g_free) };
  CarpaceInstant now = carpace_cli_now (cli);
  int64_t dose_ms = dose_of (cli, plan, &entries.whose);
  int status;

  for (int64_t day = 0, made = 0; made < days; day++)
    {
      CarpaceInstant begins = local_time (now, day, minute);

      if (begins.wall_ms <= now.wall_ms)
        continue;
      made++;
      if (carpace_plan_is_without (plan, carpace_day_of (begins, plan->starts_at_min)))
        continue;
      add_intermissions (&entries, plan, begins, add_blocks (&entries, plan, dose_ms, begins));
    }
  status = write_entries (cli, &entries, now, file, force);
  g_array_unref (entries.entries);
  g_ptr_array_unref (entries.texts);
  return status;
}

int
carpace_cli_calendar (CarpaceCli *cli, int argc, char **argv)
{
  const char *days_word = NULL, *at = NULL, *file[1] = { NULL };
  bool force = false;
  const CarpaceOption options[] = { { "days", &days_word, NULL }, { "at", &at, NULL }, { "force", NULL, &force } };
  int64_t days = 1;
  int32_t minute;
  g_autofree CarpacePlan *plan = g_new0 (CarpacePlan, 1);
  CarpaceFaultTeller teller = { .cli = cli, .skip_warnings = true };

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), file, 1) < 0
      || !carpace_option_number (cli, "days", days_word, 1, MOST_DAYS, &days)
      || !read_time (cli, at, carpace_cli_now (cli), &minute))
    return CARPACE_EXIT_WORDS;
  if (!carpace_cli_load_in_use (&teller, plan))
    return CARPACE_EXIT_REFUSED;
  return make_calendar (cli, plan, days, minute, file[0], force);
}
