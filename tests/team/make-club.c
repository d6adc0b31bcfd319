/* SPDX-License-Identifier: GPL-3.0-or-later */
/* make-club.c: a club made up: a home for each of its people, and the folder that they share.
 *
 *   make-club FOLDER PLAYERS DAYS
 *
 * Keeper (a clinician, who gathers), Coach, Clinic and players P00, P01, ..., each with what they keep of a team and a pass
 * phrase in their own home; in FOLDER/shared grants, and bundles of the last DAYS days. All players let Keeper read all. To
 * Coach every fourth grants nothing; to Clinic one of three grants all, one the hand, one nothing. P05 is under age and has
 * no guardian yet, P06's grant to Clinic has ended, P07 was silent for nine days, P10's last bundle is
 * eight days old; P00 has an open caution, P01 one that was closed. */
#include <errno.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../fakes/fake-diary.h"
#include "adapters/folder-files.h"
#include "carpace/ports.h"
#include "team/share.h"

#define PHRASE "five dull lamps hum"
#define SEASON 60

typedef struct
{
  char name[16];
  CarpaceFolder shelf;
  CarpacePerson person;
  CarpaceCard card;
  GByteArray *file;
} Member;

static void
must (bool good, const char *what)
{
  if (!good)
    {
      fprintf (stderr, "%s: %s\n", what, g_strerror (errno));
      exit (1);
    }
}

static void
begin (Member *member, const char *folder, const char *name, CarpaceRole role, int64_t now_s)
{
  g_autofree char *home = g_build_filename (folder, name, NULL), *team = g_build_filename (home, ".local/share/carpace/team", NULL);
  g_autofree char *phrase = g_build_filename (home, "phrase", NULL), *shared = g_build_filename (folder, "shared", NULL);

  g_strlcpy (member->name, name, sizeof member->name);
  must (g_mkdir_with_parents (home, 0700) == 0, home);
  must (g_file_set_contents (phrase, PHRASE "\n", -1, NULL) && g_chmod (phrase, 0600) == 0, phrase);
  member->shelf = carpace_folder_own (team);
  must (carpace_shelf_begin (&member->shelf, name, role, PHRASE, CARPACE_LOCK_LEAST, now_s - 86400 * 100) == CARPACE_TEAM_FINE, name);
  must (carpace_shelf_unlock (&member->shelf, PHRASE, &member->person) == CARPACE_TEAM_FINE, name);
  must (carpace_shelf_card (&member->shelf, &member->card, &member->file) == CARPACE_TEAM_FINE, name);
  must (carpace_shelf_keep_text (&member->shelf, CARPACE_SHELF_SHARE, shared), shared);
}

static void
end (Member *member)
{
  CARPACE_PORT_FREE (member->shelf);
  g_byte_array_unref (member->file);
}

static void
let (Member *player, const Member *reader, CarpaceGrantWhat what, CarpaceDay since, CarpaceDay until, bool under_age)
{
  CarpaceGrant grant = { .player = player->card.sign, .reader = reader->card.sign, .reader_seal = reader->card.seal,
                         .reader_role = reader->card.role, .what = what, .since = since, .until = until, .number = 1,
                         .made_s = (int64_t) since * 86400, .under_age = under_age, .wording = CARPACE_GRANT_WORDING };
  g_autoptr (GByteArray) file = NULL;

  if (what == CARPACE_GRANT_NONE)
    return;
  if (under_age)
    memset (grant.guardian.byte, 7, sizeof grant.guardian.byte);
  g_strlcpy (grant.reader_name, reader->name, sizeof grant.reader_name);
  file = carpace_grant_write (&player->person, &grant);
  must (carpace_shelf_keep_grant (&player->shelf, &grant, file), player->name);
}

static void
add_caution (CarpaceFakeDiary *fake, CarpaceDay day, bool closed)
{
  CarpaceEntry entry = { .kind = CARPACE_ENTRY_CAUTION,
                         .at = { .wall_ms = (int64_t) day * CARPACE_DAY_MS + 20 * CARPACE_HOUR_MS, .elapsed_ms = 100 * CARPACE_DAY_MS } };

  entry.caution.what = CARPACE_CAUTION_OPENED;
  entry.caution.signs = 1;
  entry.caution.date = day;
  carpace_fake_diary_add (fake, day, &entry, NULL);
  if (!closed)
    return;
  entry.at.wall_ms += CARPACE_HOUR_MS;
  entry.at.elapsed_ms += CARPACE_HOUR_MS;
  entry.caution.what = CARPACE_CAUTION_CLOSED;
  entry.caution.signs = 0;
  entry.caution.how = CARPACE_CAUTION_SEEN;
  carpace_fake_diary_add (fake, day, &entry, NULL);
}

static void
leave_days (Member *player, const CarpaceFolder *shared, int seed, int days, int silent, int64_t now_s, CarpaceDay today)
{
  CarpaceFakeDiary *fake = carpace_fake_diary_season ((uint64_t) seed, today - SEASON, SEASON - silent);
  CarpaceDiary diary = carpace_fake_diary_port (fake);

  if (seed <= 2) /* an open caution, and one that was closed */
    add_caution (fake, today - 1, seed == 2);
  for (int day = days - 1; day >= 0; day--)
    {
      CarpaceSharing sharing = { .shelf = &player->shelf, .shared = shared, .diary = &diary, .now_s = now_s - day * 86400, .today = today - day,
                                 .plan = { .name = "League week", .version = 1 + seed % 3, .hash = carpace_team_hash ("plan", 4),
                                           .in_force_s = now_s - 86400 * 20 } };
      CarpaceShared done;

      must (carpace_share_now (&sharing, &done) == CARPACE_TEAM_FINE, player->name);
    }
  CARPACE_PORT_FREE (diary);
  carpace_fake_diary_free (fake);
}

int
main (int argc, char **argv)
{
  static const CarpaceGrantWhat to_clinic[] = { CARPACE_GRANT_ALL, CARPACE_GRANT_HAND, CARPACE_GRANT_NONE };
  int64_t now_s = g_get_real_time () / G_USEC_PER_SEC;
  CarpaceDay today = (CarpaceDay) (now_s / 86400);
  Member keeper, coach, clinic, *readers[] = { &keeper, &coach, &clinic };
  g_autofree char *path = NULL;
  CarpaceFolder shared;
  int n;

  if (argc != 4 || !carpace_team_ready ())
    return 2;
  path = g_build_filename (argv[1], "shared", NULL);
  must (g_mkdir_with_parents (path, 0755) == 0, path);
  shared = carpace_folder_shared (path);
  begin (&keeper, argv[1], "Keeper", CARPACE_ROLE_CLINICIAN, now_s);
  begin (&coach, argv[1], "Coach", CARPACE_ROLE_COACH, now_s);
  begin (&clinic, argv[1], "Clinic", CARPACE_ROLE_CLINICIAN, now_s);
  must (carpace_shelf_accept (&keeper.shelf, coach.file) && carpace_shelf_accept (&keeper.shelf, clinic.file), "cards");
  n = atoi (argv[2]);
  for (int i = 0; i < n; i++)
    {
      Member player;
      g_autofree char *name = g_strdup_printf ("P%02d", i);
      CarpaceDay since = today - 30;

      begin (&player, argv[1], name, CARPACE_ROLE_PLAYER, now_s);
      for (size_t reader = 0; reader < G_N_ELEMENTS (readers); reader++)
        must (carpace_shelf_accept (&readers[reader]->shelf, player.file) && carpace_shelf_accept (&player.shelf, readers[reader]->file), name);
      let (&player, &keeper, CARPACE_GRANT_ALL, since, 0, false);
      let (&player, &coach, i % 4 == 3 ? CARPACE_GRANT_NONE : CARPACE_GRANT_LOAD, since, 0, i == 5);
      let (&player, &clinic, to_clinic[i % 3], since, i == 6 ? today - 1 : 0, false);
      leave_days (&player, &shared, i + 1, atoi (argv[3]), i == 7 ? 9 : 0, now_s - (i == 10 ? 8 * 86400 : 0), today - (i == 10 ? 8 : 0));
      end (&player);
    }
  for (size_t reader = 0; reader < G_N_ELEMENTS (readers); reader++)
    end (readers[reader]);
  CARPACE_PORT_FREE (shared);
  return 0;
}
