/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the window for sharing asks is what the commands do: who is let read, for how long, and who no longer. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <glib.h>
#include <glib/gstdio.h>

#include "../fakes/fake-folder.h"
#include "cli/share-window.h"
#include "said.h"
#include "team/shelf.h"
#include "team/words.h"

#define NOW INT64_C (1803970800)
#define PHRASE "five dull lamps hum"

static struct
{
  Said said;
  FakeFolder player, coach, stick;
  CarpaceFolder coach_shelf;
  CarpaceCard card;
  char who[CARPACE_KEY_SHORT_BYTES], words[CARPACE_SPOKEN * CARPACE_SPOKEN_BYTES], *path;
  void (*act) (const CarpaceSharingShown *shown);
  bool on_air, shown;
  CarpaceInstant now;
  char *secret;           /* what the keyring has */
  bool absent, locked;    /* it is not on this desktop; it gives and takes nothing */
} world;

static CarpaceInstant
now (void *self)
{
  return world.now;
}

static bool
no_plan (void *self, CarpacePlan *ret_plan, CarpaceFileFaultVisitor visit, void *user)
{
  return false;
}

static CarpaceFolder
open_shared (CarpaceCli *cli, const char *path)
{
  CarpaceFolder folder = fake_folder_port (&world.stick);

  return folder;
}

static int
remote (void *self, int n_words, const char *const *words, char **ret_message)
{
  *ret_message = world.on_air ? strdup ("on-air") : NULL;
  return CARPACE_EXIT_DONE;
}

static bool
is_there (void)
{
  return !world.absent;
}

static CarpaceKeyringEnd
keep_secret (const char *key, const char *label, const char *phrase)
{
  if (world.locked || world.absent)
    return CARPACE_KEYRING_FAILED;
  g_free (world.secret);
  world.secret = g_strdup (phrase);
  return CARPACE_KEYRING_DONE;
}

static CarpaceKeyringEnd
find_secret (const char *key, char **ret_phrase)
{
  if (world.absent)
    return CARPACE_KEYRING_FAILED;
  if (world.locked || world.secret == NULL)
    return CARPACE_KEYRING_NOTHING;
  *ret_phrase = g_strdup (world.secret);
  return CARPACE_KEYRING_DONE;
}

static CarpaceKeyringEnd
forget_secret (const char *key)
{
  g_clear_pointer (&world.secret, g_free);
  return CARPACE_KEYRING_DONE;
}

static bool
find_keyring (CarpaceKeyring *ret_keyring)
{
  *ret_keyring = (CarpaceKeyring) { is_there, keep_secret, find_secret, forget_secret };
  return true;
}

static bool
show (const CarpaceSharingShown *shown)
{
  world.shown = true;
  world.act (shown);
  return true;
}

static void
begin_member (FakeFolder *files, const char *name, CarpaceRole role)
{
  CarpaceFolder shelf;

  fake_folder_begin (files);
  shelf = fake_folder_port (files);
  assert_int_equal (carpace_shelf_begin (&shelf, name, role, PHRASE, CARPACE_LOCK_LEAST, NOW - 86400), CARPACE_TEAM_FINE);
}

static int
set_up (void **state)
{
  const GByteArray *card;

  memset (&world, 0, sizeof world);
  world.now.wall_ms = NOW * 1000;
  said_begin (&world.said);
  begin_member (&world.player, "K7", CARPACE_ROLE_PLAYER);
  begin_member (&world.coach, "Coach", CARPACE_ROLE_COACH);
  fake_folder_begin (&world.stick);
  world.coach_shelf = fake_folder_port (&world.coach);
  assert_int_equal (carpace_shelf_card (&world.coach_shelf, &world.card, NULL), CARPACE_TEAM_FINE);
  carpace_key_short (&world.card.sign, world.who);
  carpace_spoken (&world.card.sign, &world.card.seal, world.words);
  card = fake_folder_file (&world.coach, "person.card");
  world.path = g_strdup_printf ("%s/carpace-XXXXXX", g_get_tmp_dir ());
  close (g_mkstemp (world.path));
  assert_true (g_file_set_contents (world.path, (const char *) card->data, (gssize) card->len, NULL));
  world.said.cli.shelf = fake_folder_port (&world.player);
  world.said.cli.open_shared = open_shared;
  world.said.cli.plans.load_in_use = no_plan;
  world.said.cli.clock.now = now;
  world.said.cli.remote.command = remote;
  world.said.cli.show_sharing = show;
  world.said.cli.find_keyring = find_keyring;
  carpace_shelf_keep_text (&world.said.cli.shelf, CARPACE_SHELF_SHARE, "/stick");
  return 0;
}

static int
tear_down (void **state)
{
  fake_folder_end (&world.player);
  fake_folder_end (&world.coach);
  fake_folder_end (&world.stick);
  g_unlink (world.path);
  g_free (world.path);
  g_free (world.secret);
  said_end (&world.said);
  return 0;
}

static int
open_window (void (*act) (const CarpaceSharingShown *shown))
{
  world.act = act;
  return said_run (&world.said, carpace_cli_share, "share window");
}

static bool
last_grant (void *user, const CarpaceGrant *grant, CarpaceTeamFault holds)
{
  *(CarpaceGrant *) user = *grant;
  return true;
}

static bool
how_it_holds (void *user, const CarpaceGrant *grant, CarpaceTeamFault holds)
{
  *(CarpaceTeamFault *) user = holds;
  return true;
}

static CarpaceGrant
grant_of (const CarpaceSharingShown *shown)
{
  CarpaceGrant grant = { .number = 0 };

  shown->grants (shown->self, last_grant, &grant);
  return grant;
}

static CarpaceSharingAsk
ask (void)
{
  return (CarpaceSharingAsk) { .who = world.path, .words = world.words, .what = CARPACE_GRANT_LOAD, .until = "", .phrase = PHRASE };
}

/* What was asked, and that nothing came of it. */
static void
assert_refused (const CarpaceSharingShown *shown, CarpaceSharingAsk asked, const char *says)
{
  bool done = false;
  g_autofree char *said = shown->add (shown->self, &asked, &done);

  assert_false (done);
  assert_non_null (strstr (said, says));
  assert_int_equal (grant_of (shown).number, 0);
}

static void
let_read_and_stop (const CarpaceSharingShown *shown)
{
  CarpaceSharingAsk asked = ask ();
  bool done = false;
  g_autofree char *said = NULL, *again = NULL, *stopped = NULL, *wrong = NULL;

  asked.until = "2027-06-30";
  said = shown->add (shown->self, &asked, &done);
  assert_true (done);
  assert_non_null (strstr (said, "No single days and nothing about the hand"));
  assert_int_equal (grant_of (shown).what, CARPACE_GRANT_LOAD);
  assert_int_equal (grant_of (shown).until, 20999);
  asked = (CarpaceSharingAsk) { .who = world.who, .what = CARPACE_GRANT_ALL, .until = "", .phrase = PHRASE }; /* accepted now */
  again = shown->add (shown->self, &asked, &done);
  assert_int_equal (grant_of (shown).what, CARPACE_GRANT_ALL);
  assert_int_equal (grant_of (shown).until, 0);
  assert_int_equal (grant_of (shown).number, 2);
  done = false;
  wrong = shown->stop (shown->self, world.who, "not the phrase", &done);
  assert_false (done);
  assert_int_equal (grant_of (shown).what, CARPACE_GRANT_ALL);
  stopped = shown->stop (shown->self, world.who, PHRASE, &done);
  assert_true (done);
  assert_non_null (strstr (stopped, "no program takes that back"));
  assert_int_equal (grant_of (shown).what, CARPACE_GRANT_NONE);
}

static void
one_is_let_read_and_stopped (void **state)
{
  g_autoptr (GPtrArray) left = NULL;

  assert_int_equal (open_window (let_read_and_stop), CARPACE_EXIT_DONE);
  left = fake_folder_names (&world.stick, ".grant");
  assert_int_equal (left->len, 1); /* it bites at once */
}

static void
refuse_what_does_not_fit (const CarpaceSharingShown *shown)
{
  CarpaceSharingAsk asked = ask ();

  asked.phrase = "";
  assert_refused (shown, asked, "does not open");
  asked = ask ();
  asked.until = "soon";
  assert_refused (shown, asked, "--until");
  asked = ask ();
  asked.until = "2020-01-01";
  assert_refused (shown, asked, "--until is before --since");
  asked = ask ();
  asked.who = "--yes"; /* what was chosen is never an option */
  asked.words = NULL;
  assert_refused (shown, asked, "--yes");
}

static void
what_does_not_fit_is_refused (void **state)
{
  open_window (refuse_what_does_not_fit);
}

/* At a place and an hour where UTC's day and the practice day differ, 20879 and the next or the one before. */
static void
let_read_at_night (const CarpaceSharingShown *shown)
{
  CarpaceSharingAsk asked = ask ();
  CarpaceTeamFault holds;
  bool done = false;
  g_autofree char *said = NULL;

  asked.until = "2027-03-02"; /* over by UTC's day in the west, by the practice day in the east */
  assert_refused (shown, asked, "over already");
  asked.until = "2027-03-03";
  said = shown->add (shown->self, &asked, &done);
  assert_true (done);
  shown->grants (shown->self, how_it_holds, &holds);
  assert_int_equal (holds, CARPACE_TEAM_FINE); /* at once, wherever */
  assert_int_equal (grant_of (shown).since, 20879);
}

static void
a_grant_of_the_night_holds_at_once (void **state)
{
  world.now = (CarpaceInstant) { .wall_ms = INT64_C (20880) * 86400000 + 1800000, .offset_s = 3600 }; /* half past one, local */
  open_window (let_read_at_night);
  tear_down (state);
  set_up (state);
  world.now = (CarpaceInstant) { .wall_ms = INT64_C (20879) * 86400000 + 22 * INT64_C (3600000), .offset_s = 36000 }; /* eight */
  open_window (let_read_at_night);
  assert_true (world.shown);
}

static void
look_at_cards (const CarpaceSharingShown *shown)
{
  bool is = false;
  g_autofree char *said = shown->card (shown->self, world.path, &is), *none = NULL, *other = NULL;

  assert_true (is);
  assert_string_equal (said, "This card says it is of “Coach” (coach).");
  none = shown->card (shown->self, "/nowhere/coach.card", &is);
  assert_false (is);
  assert_string_not_equal (none, "");
  assert_true (g_file_set_contents (world.path, "no card", -1, NULL));
  is = true;
  other = shown->card (shown->self, world.path, &is);
  assert_false (is);
  assert_string_not_equal (other, "");
}

/* Nobody is accepted by that: it is what a file says of itself. */
static void
a_card_says_whose_it_is (void **state)
{
  CarpaceCard card;

  open_window (look_at_cards);
  assert_int_equal (carpace_shelf_find (&world.said.cli.shelf, "Coach", &card), 0);
}

static void
refuse_other_words (const CarpaceSharingShown *shown)
{
  CarpaceSharingAsk asked = ask ();

  asked.words = "";
  assert_refused (shown, asked, "not the words of this card");
}

static void
a_card_without_its_words_is_nobodys (void **state)
{
  open_window (refuse_other_words);
}

/* Shares, once more or anew. @return what is said */
static char *
share_by (const CarpaceSharingShown *shown, const char *phrase, bool *ret_done)
{
  CarpaceSharingAsk asked = ask ();

  asked.phrase = phrase;
  *ret_done = false;
  return shown->add (shown->self, &asked, ret_done);
}

static void
keep_share_and_forget (const CarpaceSharingShown *shown)
{
  const CarpaceKeptPhrase *kept = shown->kept;
  bool done = false;
  g_autofree char *wrong = NULL, *taken = NULL, *shared = NULL, *locked = NULL, *typed = NULL, *out = NULL, *asked = NULL;

  assert_true (kept->can (kept->self));
  wrong = kept->keep (kept->self, "not the phrase", &done);
  assert_true (!done && world.secret == NULL && !kept->is_kept (kept->self)); /* one that opens nothing is never there */
  taken = kept->keep (kept->self, PHRASE, &done);
  assert_true (done && kept->is_kept (kept->self));
  assert_string_equal (world.secret, PHRASE);
  shared = share_by (shown, "", &done);
  assert_true (done && !kept->lacked (kept->self));
  world.locked = true;
  locked = share_by (shown, "", &done);
  assert_true (!done && kept->lacked (kept->self)); /* so the window asks for it */
  typed = share_by (shown, PHRASE, &done);
  assert_true (done && kept->lacked (kept->self));
  assert_non_null (strstr (typed, "keyring gave no pass phrase")); /* told, and done all the same */
  world.locked = false;
  out = kept->forget (kept->self, &done);
  assert_true (done && world.secret == NULL && !kept->is_kept (kept->self));
  asked = share_by (shown, "", &done);
  assert_false (done);
}

static void
the_pass_phrase_goes_into_the_keyring_and_out (void **state)
{
  assert_int_equal (open_window (keep_share_and_forget), CARPACE_EXIT_DONE);
}

static void
keep_without_one (const CarpaceSharingShown *shown)
{
  bool done = true;
  g_autofree char *said = shown->kept->keep (shown->kept->self, PHRASE, &done);

  assert_false (shown->kept->can (shown->kept->self) || done || shown->kept->is_kept (shown->kept->self));
  assert_string_equal (said, "The desktop's keyring did not take it: your pass phrase is asked for, as before.");
}

static void
without_a_keyring_none_is_offered (void **state)
{
  world.absent = true;
  assert_int_equal (open_window (keep_without_one), CARPACE_EXIT_DONE);
}

/* A stream that began since the window came. */
static void
ask_on_air (const CarpaceSharingShown *shown)
{
  bool is = true;
  g_autofree char *said = NULL;

  world.on_air = true;
  said = shown->card (shown->self, world.path, &is);
  assert_false (is);
  assert_null (strstr (said, "Coach"));
  assert_refused (shown, ask (), ""); /* in words for then */
}

static void
on_air_nothing_is_shared (void **state)
{
  open_window (ask_on_air);
  assert_true (world.shown);
  world.shown = false;
  world.said.cli.air = CARPACE_AIR_NOT_ASKED;
  assert_int_equal (open_window (ask_on_air), CARPACE_EXIT_REFUSED);
  assert_false (world.shown);
}

int
main (void)
{
#define WINDOW_TEST(name) cmocka_unit_test_setup_teardown (name, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    WINDOW_TEST (one_is_let_read_and_stopped),
    WINDOW_TEST (what_does_not_fit_is_refused),
    WINDOW_TEST (a_grant_of_the_night_holds_at_once),
    WINDOW_TEST (a_card_says_whose_it_is),
    WINDOW_TEST (a_card_without_its_words_is_nobodys),
    WINDOW_TEST (the_pass_phrase_goes_into_the_keyring_and_out),
    WINDOW_TEST (without_a_keyring_none_is_offered),
    WINDOW_TEST (on_air_nothing_is_shared),
  };

  return !carpace_team_ready () || cmocka_run_group_tests (tests, NULL, NULL);
}
