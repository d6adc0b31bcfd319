/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster.c: made players, each with a key, a grant and twelve weeks in two bundles, in a folder on the disk: gathered by a
 * clinician from nothing, then once more where 30 left another, on the same day and on the next, then shown. Printed beside
 * what the roster is to take at most (30 s, 2 s, 200 MB), never judged: a disk that is shared is slower than its bench.
 * usage: bench-roster FOLDER [PLAYERS]; FOLDER is empty, and filled */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "../fakes/fake-diary.h"
#include "../ui/display.h"
#include "adapters/folder-files.h"
#include "adapters/roster-sqlite.h"
#include "team/bundle.h"
#include "team/content.h"
#include "team/gather.h"
#include "team/roster.h"
#include "ui/roster-window.h"

#define PLAYERS 3000
#define NEW 30
#define TODAY 20879 /* Tuesday, 2027-03-02 */
#define NOW INT64_C (1803970800)
#define DAYS CARPACE_TEAM_DAYS

typedef struct
{
  CarpaceFolder shelf, shared;
  CarpacePerson reader;
  CarpaceRosterStore store;
  GByteArray *rows[CARPACE_N_BUNDLES];
  const char *shared_path;
  size_t written; /* bytes in the shared folder */
  CarpaceDay today;
} Bench;

static double
now_s (void)
{
  struct timespec now;

  clock_gettime (CLOCK_MONOTONIC, &now);
  return (double) now.tv_sec + (double) now.tv_nsec / 1e9;
}

static void
must (bool good, const char *what)
{
  if (good)
    return;
  fprintf (stderr, "%s failed\n", what);
  exit (1);
}

static void
say_fault (void *user, const char *message)
{
  fprintf (stderr, "%s\n", message);
}

static CarpacePerson
player_of (int number)
{
  uint8_t secret[CARPACE_PERSON_SECRET_BYTES] = { (uint8_t) number, (uint8_t) (number >> 8), 1 };
  CarpacePerson person;

  carpace_person_of (secret, &person);
  return person;
}

/* What each of them did is the same: it is its length that costs. */
static void
make_rows (Bench *bench)
{
  CarpaceFakeDiary *fake = carpace_fake_diary_season (7, TODAY - DAYS, DAYS);
  CarpaceDiary diary = carpace_fake_diary_port (fake);
  const CarpaceTeamPlan plan = { .name = "Two halves", .version = 2, .hash = carpace_team_hash ("plan", 4), .in_force_s = NOW - 86400 * 20 };

  for (int kind = 0; kind < CARPACE_N_BUNDLES; kind++)
    bench->rows[kind] = g_byte_array_new ();
  must (carpace_load_write (&diary, &plan, TODAY, bench->rows[CARPACE_BUNDLE_LOAD]), "writing weeks");
  must (carpace_hand_write (&diary, TODAY, bench->rows[CARPACE_BUNDLE_HAND]), "writing days");
  carpace_fake_diary_free (fake);
}

static void
leave (Bench *bench, const char *name, const GByteArray *file)
{
  /* Not by the port: waiting for the disk each time is the player's, not the reader's. */
  g_autofree char *path = g_build_filename (bench->shared_path, name, NULL);

  must (g_file_set_contents_full (path, (const char *) file->data, file->len, G_FILE_SET_CONTENTS_NONE, 0644, NULL), name);
  bench->written += file->len;
}

static void
leave_bundles (Bench *bench, int number, int64_t bundle, CarpaceChain chain[CARPACE_N_BUNDLES])
{
  CarpacePerson player = player_of (number);
  CarpaceSigner device;
  uint8_t seed[CARPACE_KEY_BYTES] = { (uint8_t) number, (uint8_t) (number >> 8), 2 };
  g_autoptr (GByteArray) word = NULL;
  char key[CARPACE_KEY_SHORT_BYTES];

  carpace_signer_of (seed, &device);
  word = carpace_device_write (&player, &device.key, NOW);
  carpace_key_short (&player.signer.key, key);
  for (int kind = 0; kind < CARPACE_N_BUNDLES; kind++)
    {
      const CarpaceBundling bundling = { .player = player.signer.key, .kind = (CarpaceBundleKind) kind, .made_s = NOW + bundle, .device = word,
                                         .signer = &device, .seal = &bench->reader.seal, .n_readers = 1, .rows = bench->rows[kind] };
      g_autoptr (GByteArray) file = carpace_bundle_write (&bundling, &chain[kind]);
      g_autofree char *name = g_strdup_printf ("%s-d-%s-%09d.bundle", key, kind == CARPACE_BUNDLE_LOAD ? "load" : "hand", (int) bundle);

      leave (bench, name, file);
    }
}

static void
leave_grant (Bench *bench, int number)
{
  CarpacePerson player = player_of (number);
  CarpaceGrant grant = { .player = player.signer.key, .reader = bench->reader.signer.key, .reader_seal = bench->reader.seal,
                         .reader_name = "Clinic", .reader_role = CARPACE_ROLE_CLINICIAN, .what = CARPACE_GRANT_ALL, .since = TODAY - 90,
                         .number = 1, .made_s = NOW, .wording = CARPACE_GRANT_WORDING };
  g_autoptr (GByteArray) file = carpace_grant_write (&player, &grant), card = NULL;
  g_autofree char *code = g_strdup_printf ("K%d", number), *name = NULL;
  char key[CARPACE_KEY_SHORT_BYTES];

  carpace_key_short (&player.signer.key, key);
  name = g_strconcat (key, "-to", CARPACE_GRANT_END, NULL);
  leave (bench, name, file);
  card = carpace_card_write (&player, code, CARPACE_ROLE_PLAYER, NOW);
  must (carpace_shelf_accept (&bench->shelf, card), "accepting");
}

static void
refused (void *user, const char *file, const char *player, CarpaceTeamFault fault)
{
  fprintf (stderr, "%s was refused: %d\n", file, (int) fault);
}

static double
own_s (void)
{
  return (double) clock () / CLOCKS_PER_SEC;
}

/* Prints seconds, from the folder to rows: by the clock, and the process's own of them. */
static void
gather (Bench *bench, const char *what, int most_s, int32_t expected, GArray **ret_rows)
{
  const CarpaceGathering gathering = { .shelf = &bench->shelf, .shared = &bench->shared, .reader = &bench->reader, .store = &bench->store,
                                       .now_s = NOW + 86400 * (bench->today - TODAY), .today = bench->today };
  const CarpaceRosterAsk ask = { .now_s = gathering.now_s, .today = gathering.today };
  CarpaceGathered gathered;
  double begun = now_s (), own_begun = own_s (), gathered_s, own_gathered_s;

  must (carpace_gather (&gathering, refused, NULL, &gathered) == CARPACE_TEAM_FINE, "gathering");
  gathered_s = now_s () - begun;
  own_gathered_s = own_s () - own_begun;
  *ret_rows = carpace_roster_rows (&bench->store, &ask);
  must (*ret_rows != NULL && gathered.taken == expected && gathered.refused == 0, "taking all of them");
  printf ("%s: %.2f s (%d at most), %.2f s of them gathering; the process's own %.2f s, %.2f s of them gathering\n", what,
          now_s () - begun, most_s, gathered_s, own_s () - own_begun, own_gathered_s);
}

/* One in so many leaves the @bundle'th. */
static void
gather_more (Bench *bench, const char *what, int players, int64_t bundle, CarpaceChain (*chain)[CARPACE_N_BUNDLES], GArray **ret_rows)
{
  for (int i = 0; i < NEW; i++)
    leave_bundles (bench, i * (players / NEW), bundle, chain[i * (players / NEW)]);
  gather (bench, what, 2, 2 * NEW, ret_rows);
}

/* ---- shown ---- */

static CarpaceDiary
diary_of (void *self, const CarpaceKey *player)
{
  return carpace_roster_diary (self, player);
}

static void
closed (void *self)
{
}

static double
resident_mb (void)
{
  g_autofree char *text = NULL;
  long pages = 0;

  must (g_file_get_contents ("/proc/self/statm", &text, NULL, NULL) && sscanf (text, "%*d %ld", &pages) == 1, "reading statm");
  return (double) pages * 4096 / 1e6;
}

static void
show (Bench *bench, const GArray *rows)
{
  const CarpaceRosterShown shown = { .row = (const CarpaceRosterRow *) (void *) rows->data, .n_rows = rows->len, .today = bench->today,
                                     .last_monday = carpace_team_monday (bench->today) - 7, .refused = "", .self = &bench->store, .diary = diary_of };
  CarpaceRosterWindow *window;
  double begun, took;

  display_open ();
  begun = now_s ();
  window = carpace_roster_window_new (&shown, closed, NULL);
  carpace_roster_window_show (window);
  display_settle ();
  took = now_s () - begun;
  gtk_button_clicked (GTK_BUTTON (carpace_roster_window_diary_button (window)));
  display_settle ();
  printf ("window of all, drawn: %.2f s; with a diary open the process has %.0f MB (200 at most)\n", took, resident_mb ());
  carpace_roster_window_free (window);
}

int
main (int argc, char **argv)
{
  Bench bench = { .reader = player_of (65535), .today = TODAY };
  int players = argc > 2 ? atoi (argv[2]) : PLAYERS;
  CarpaceChain (*chain)[CARPACE_N_BUNDLES] = g_malloc0 ((size_t) players * sizeof *chain);
  g_autofree char *shared = NULL, *shelf = NULL, *store = NULL;
  g_autoptr (GArray) rows = NULL, again = NULL, next = NULL;

  must (argc > 1 && players >= NEW && carpace_team_ready (), "starting: bench-roster FOLDER [PLAYERS]");
  shared = g_build_filename (argv[1], "shared", NULL);
  shelf = g_build_filename (argv[1], "team", NULL);
  store = g_build_filename (argv[1], "roster.sqlite", NULL);
  must (g_mkdir_with_parents (shared, 0755) == 0, "making a folder");
  bench.shared_path = shared;
  bench.shared = carpace_folder_shared (shared);
  bench.shelf = carpace_folder_own (shelf);
  must (carpace_roster_sqlite_open (store, say_fault, NULL, &bench.store), "opening the roster");
  make_rows (&bench);
  for (int i = 0; i < players; i++)
    {
      chain[i][CARPACE_BUNDLE_HAND].kind = CARPACE_BUNDLE_HAND;
      leave_grant (&bench, i);
      leave_bundles (&bench, i, 1, chain[i]);
    }
  printf ("%d players, %.0f MB of bundles and grants\n", players, (double) bench.written / 1e6);
  gather (&bench, "all from nothing", 30, 2 * players, &rows);
  gather_more (&bench, "30 new ones", players, 2, chain, &again);
  bench.today++;
  gather_more (&bench, "30 new ones, the next day", players, 3, chain, &next);
  show (&bench, next);
  bench.store.free (bench.store.self);
  bench.shared.free (bench.shared.self);
  bench.shelf.free (bench.shelf.self);
  for (int kind = 0; kind < CARPACE_N_BUNDLES; kind++)
    g_byte_array_unref (bench.rows[kind]);
  g_free (chain);
  return 0;
}
