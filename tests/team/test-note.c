/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A note from a coach to a player: whose words arrive, once, and what is done with all else that lies there. */
#include "said.h"

#include <errno.h>

#include "../fakes/fake-folder.h"
#include "team/bundle.h"
#include "team/note.h"
#include "team/sealed.h"

#define NOW INT64_C (1803970800)
#define PHRASE "five dull lamps hum"

typedef struct
{
  FakeFolder files;
  CarpaceFolder shelf;
  CarpacePerson person;
  CarpaceCard card;
} Member;

typedef struct
{
  Member player, coach, guardian;
  FakeFolder stick;
  CarpaceFolder shared;
  CarpaceKey device;
  GString *told; /* a fault's number each */
  CarpaceNoteRead read;
  int n_read;
} Team;

static void
begin_member (Member *member, const char *name, CarpaceRole role)
{
  fake_folder_begin (&member->files);
  member->shelf = fake_folder_port (&member->files);
  assert_int_equal (carpace_shelf_begin (&member->shelf, name, role, PHRASE, CARPACE_LOCK_LEAST, NOW - 86400), CARPACE_TEAM_FINE);
  assert_int_equal (carpace_shelf_unlock (&member->shelf, PHRASE, &member->person), CARPACE_TEAM_FINE);
  assert_int_equal (carpace_shelf_card (&member->shelf, &member->card, NULL), CARPACE_TEAM_FINE);
}

static void
know (Member *member, Member *other)
{
  assert_true (carpace_shelf_accept (&member->shelf, fake_folder_file (&other->files, "person.card")));
}

/* A bundle of the player's computer, sealed to whomever: what a note's reader is found by. */
static void
leave_bundle (Team *team)
{
  CarpaceChain chain = { .number = 0 };
  CarpaceSigner device;
  g_autoptr (GByteArray) word = NULL, rows = g_byte_array_new (), file = NULL;
  g_autofree char *begins = carpace_shelf_name ("", &team->player.card.sign, "-"), *name = NULL;

  assert_int_equal (carpace_shelf_device (&team->player.shelf, &device, &word), CARPACE_TEAM_FINE);
  team->device = device.key;
  file = carpace_bundle_write (&(CarpaceBundling) { .player = team->player.card.sign, .kind = CARPACE_BUNDLE_LOAD, .made_s = NOW,
                                                    .device = word, .signer = &device, .seal = &team->coach.card.seal,
                                                    .n_readers = 1, .rows = rows }, &chain);
  name = carpace_shelf_name (begins, &device.key, "-load-000000001.bundle");
  fake_folder_put (&team->stick, name, file->data, file->len);
}

static int
set_up (void **state)
{
  Team *team = g_new0 (Team, 1);

  begin_member (&team->player, "K7", CARPACE_ROLE_PLAYER);
  begin_member (&team->coach, "Coach", CARPACE_ROLE_COACH);
  begin_member (&team->guardian, "Parent", CARPACE_ROLE_GUARDIAN);
  know (&team->player, &team->coach);
  know (&team->player, &team->guardian);
  fake_folder_begin (&team->stick);
  team->shared = fake_folder_port (&team->stick);
  team->told = g_string_new (NULL);
  leave_bundle (team);
  *state = team;
  return 0;
}

static int
tear_down (void **state)
{
  Team *team = *state;

  fake_folder_end (&team->player.files);
  fake_folder_end (&team->coach.files);
  fake_folder_end (&team->guardian.files);
  fake_folder_end (&team->stick);
  g_string_free (team->told, TRUE);
  g_free (team);
  return 0;
}

static void
tell (void *user, const char *file, CarpaceTeamFault fault)
{
  g_string_append_printf (((Team *) user)->told, "%d ", (int) fault);
}

static int32_t
take (Team *team, int64_t now_s)
{
  g_string_truncate (team->told, 0);
  return carpace_notes_take (&team->player.shelf, &team->shared, now_s, tell, team);
}

static bool
note_read (void *user, const CarpaceNoteRead *note)
{
  Team *team = user;

  team->read = *note;
  team->n_read++;
  return true;
}

static int
read_all (Team *team)
{
  team->n_read = 0;
  carpace_notes (&team->player.shelf, note_read, team);
  return team->n_read;
}

static CarpaceTeamFault
leave (Team *team, const Member *from, const char *text, int64_t now_s)
{
  return carpace_note_leave (&team->shared, &from->person, &team->player.card.sign, text, now_s);
}

static char *
note_name (const Team *team, const Member *from)
{
  g_autofree char *begins = carpace_shelf_name ("", &team->player.card.sign, "-");

  return carpace_shelf_name (begins, &from->card.sign, ".note");
}

#define assert_refused(team, fault)                                  \
  do                                                                 \
    {                                                                \
      g_autofree char *told = g_strdup_printf ("%d ", (int) (fault)); \
      assert_int_equal (take (team, NOW), 0);                        \
      assert_string_equal ((team)->told->str, told);                 \
    }                                                                \
  while (0)

/* ---- what arrives ---- */

static void
a_note_arrives_once (void **state)
{
  Team *team = *state;

  assert_int_equal (leave (team, &team->coach, "Bring the tape on Friday – Jo Bär", NOW), CARPACE_TEAM_FINE);
  assert_int_equal (take (team, NOW), 1);
  assert_int_equal (read_all (team), 1);
  assert_string_equal (team->read.text, "Bring the tape on Friday – Jo Bär");
  assert_string_equal (team->read.from.name, "Coach");
  assert_int_equal (team->read.made_s, NOW);
  assert_false (team->read.away);
  assert_int_equal (take (team, NOW + 86400), 0);
  assert_string_equal (team->told->str, "");
}

/* Also within one second, and by a clock that was set back. */
static void
a_later_one_takes_its_place (void **state)
{
  Team *team = *state;

  assert_int_equal (leave (team, &team->coach, "one", NOW), CARPACE_TEAM_FINE);
  assert_int_equal (take (team, NOW), 1);
  assert_int_equal (leave (team, &team->coach, "two", NOW), CARPACE_TEAM_FINE);
  assert_int_equal (take (team, NOW), 1);
  assert_int_equal (leave (team, &team->coach, "three", NOW - 400000), CARPACE_TEAM_FINE);
  assert_int_equal (take (team, NOW), 1);
  assert_int_equal (read_all (team), 1);
  assert_string_equal (team->read.text, "three");
}

/* Written by a clock that is far ahead, refused; set right, the next one is not refused for as long. */
static void
one_of_the_far_future_is_not_followed (void **state)
{
  static const struct { int64_t ahead_s; int32_t taken; } rows[] = {
    { 30 * 86400, 0 }, { 30 * 86400 + 1, 1 }, { 365 * 86400, 1 },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      void *own;
      Team *team;

      set_up (&own);
      team = own;
      assert_int_equal (leave (team, &team->coach, "one", NOW + rows[i].ahead_s), CARPACE_TEAM_FINE);
      assert_int_equal (take (team, NOW), 0);
      assert_int_equal (leave (team, &team->coach, "two", NOW), CARPACE_TEAM_FINE);
      assert_int_equal (take (team, NOW), rows[i].taken);
      tear_down (&own);
    }
}

static void
it_is_put_away_and_a_later_one_is_not (void **state)
{
  Team *team = *state;

  leave (team, &team->coach, "one", NOW);
  take (team, NOW);
  read_all (team);
  assert_true (carpace_note_put_away (&team->player.shelf, &team->read));
  assert_int_equal (read_all (team), 1);
  assert_true (team->read.away);
  leave (team, &team->coach, "two", NOW + 60);
  take (team, NOW + 60);
  read_all (team);
  assert_false (team->read.away);
}

/* The next process knows, and of a later note nothing was told. */
static void
one_is_told_of_once (void **state)
{
  Team *team = *state;

  leave (team, &team->coach, "one", NOW);
  take (team, NOW);
  read_all (team);
  assert_false (team->read.told);
  assert_true (carpace_note_put_told (&team->player.shelf, &team->read));
  read_all (team);
  assert_true (team->read.told);
  assert_false (team->read.away);
  leave (team, &team->coach, "two", NOW + 60);
  take (team, NOW + 60);
  read_all (team);
  assert_false (team->read.told);
}

/* Erased it is gone in both places, and a copy that is put back does not come again. */
static void
what_is_erased_stays_away (void **state)
{
  Team *team = *state;
  g_autofree char *name = note_name (team, &team->coach);
  g_autoptr (GByteArray) copy = NULL;

  leave (team, &team->coach, "one", NOW);
  copy = g_byte_array_ref (fake_folder_file (&team->stick, name));
  take (team, NOW);
  assert_true (carpace_note_erase (&team->player.shelf, &team->shared, &team->coach.card.sign));
  assert_null (fake_folder_file (&team->stick, name));
  assert_int_equal (read_all (team), 0);
  assert_false (carpace_note_erase (&team->player.shelf, &team->shared, &team->coach.card.sign));
  fake_folder_put (&team->stick, name, copy->data, copy->len);
  assert_int_equal (take (team, NOW), 0);
  assert_int_equal (read_all (team), 0);
}

static void
who_is_forgotten_says_nothing_more (void **state)
{
  Team *team = *state;

  leave (team, &team->coach, "one", NOW);
  take (team, NOW);
  assert_true (carpace_shelf_forget (&team->player.shelf, &team->coach.card.sign));
  assert_int_equal (read_all (team), 0);
  leave (team, &team->coach, "two", NOW + 60);
  assert_refused (team, CARPACE_TEAM_UNKNOWN);
}

/* ---- how long, and of what ---- */

static void
it_is_a_text_of_1_to_500_characters (void **state)
{
  g_autoptr (GString) text = g_string_new (NULL);

  assert_false (carpace_note_is_text (""));
  for (int i = 0; i < CARPACE_TEAM_NOTE_CHARACTERS; i++)
    g_string_append (text, "𝄞"); /* four bytes */
  assert_true (carpace_note_is_text (text->str));
  g_string_append_c (text, '.');
  assert_false (carpace_note_is_text (text->str));
  assert_true (carpace_note_is_text ("."));
  for (const char *const *unfit = (const char *const[]) { "a\nb", "\x1b[2J", "a\xe2\x80\xae" "b", "\xff", "\x7f", NULL }; *unfit != NULL; unfit++)
    assert_false (carpace_note_is_text (*unfit));
}

static void
the_longest_one_arrives (void **state)
{
  Team *team = *state;
  g_autoptr (GString) text = g_string_new (NULL);

  for (int i = 0; i < CARPACE_TEAM_NOTE_CHARACTERS; i++)
    g_string_append (text, "𝄞");
  assert_int_equal (leave (team, &team->coach, text->str, NOW), CARPACE_TEAM_FINE);
  assert_int_equal (take (team, NOW), 1);
  read_all (team);
  assert_string_equal (team->read.text, text->str);
}

/* Whoever does not keep to it by their own program. */
static void
control_characters_do_not_arrive (void **state)
{
  Team *team = *state;
  static const char *const texts[] = { "a\nb", "\x1b[2J", "a\xe2\x80\xae" "b", "" };

  for (size_t i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      CarpaceNoteText inside = { .from = team->coach.card.sign };
      CarpaceNote note = { .from = team->coach.card.sign, .player = team->player.card.sign, .made_s = NOW };
      CarpaceKey seal;
      g_autoptr (GByteArray) rows = g_byte_array_new (), readers = NULL, content = NULL, file = NULL;
      g_autofree char *name = note_name (team, &team->coach);

      g_strlcpy (inside.text, texts[i], sizeof inside.text);
      carpace_record_write (CARPACE_TEAM_NOTE_TEXT, &inside, rows);
      assert_true (carpace_signer_seal (&team->device, &seal));
      assert_true (carpace_seal (&seal, 1, rows, &readers, &content));
      note.readers = (CarpaceTeamBytes) { readers->data, readers->len };
      note.content = (CarpaceTeamBytes) { content->data, content->len };
      file = carpace_signed_write (CARPACE_TEAM_NOTE, &note, &team->coach.person.signer, 1);
      fake_folder_put (&team->stick, name, file->data, file->len);
      assert_refused (team, CARPACE_TEAM_DAMAGED);
    }
}

/* ---- what lies there that should not ---- */

static void
all_else_is_refused_with_its_reason (void **state)
{
  Team *team = *state;
  g_autofree char *name = note_name (team, &team->coach), *others = note_name (team, &team->guardian);
  g_autoptr (GByteArray) good = NULL, old = NULL, huge = g_byte_array_new ();

  leave (team, &team->coach, "old", NOW - 60);
  old = g_byte_array_ref (fake_folder_file (&team->stick, name));
  leave (team, &team->coach, "good", NOW);
  good = g_byte_array_ref (fake_folder_file (&team->stick, name));

  fake_folder_put (&team->stick, name, good->data, good->len / 2);
  assert_refused (team, CARPACE_TEAM_CUT);
  good->data[good->len - 1] ^= 1;
  fake_folder_put (&team->stick, name, good->data, good->len);
  assert_refused (team, CARPACE_TEAM_FORGED);
  good->data[good->len - 1] ^= 1;
  g_byte_array_set_size (huge, 9000);
  memset (huge->data, 'x', huge->len);
  fake_folder_put (&team->stick, name, huge->data, huge->len);
  assert_refused (team, CARPACE_TEAM_TOO_LARGE);
  fake_folder_put (&team->stick, name, "x", 1);
  assert_refused (team, CARPACE_TEAM_FOREIGN);
  fake_folder_put (&team->stick, name, good->data, good->len);
  assert_int_equal (take (team, NOW), 1);
  fake_folder_put (&team->stick, name, old->data, old->len);
  assert_refused (team, CARPACE_TEAM_ROLLED_BACK);
  read_all (team);
  assert_string_equal (team->read.text, "good");

  team->stick.error = 0;
  fake_folder_put (&team->stick, name, good->data, good->len);
  leave (team, &team->guardian, "a guardian signs, and writes no notes", NOW);
  assert_non_null (fake_folder_file (&team->stick, others));
  assert_refused (team, CARPACE_TEAM_UNKNOWN);
}

/* One below, at, and above a day and two hours, the clocks' own difference. */
static void
one_from_the_future_waits (void **state)
{
  Team *team = *state;

  leave (team, &team->coach, "soon", NOW + CARPACE_TEAM_CLOCKS_APART_S + 1);
  assert_refused (team, CARPACE_TEAM_AHEAD);
  assert_int_equal (take (team, NOW + 1), 1);
}

/* A coach's words to somebody else, put under another name: who reads them is signed. */
static void
one_to_another_player_is_not_taken (void **state)
{
  Team *team = *state;
  CarpacePerson other = person_of (7);
  g_autoptr (GByteArray) file = carpace_note_write (&team->coach.person, &other.signer.key, &team->device, 1, "not for K7", NOW);
  g_autofree char *name = note_name (team, &team->coach);

  fake_folder_put (&team->stick, name, file->data, file->len);
  assert_refused (team, CARPACE_TEAM_OTHER_SIGNER);
}

/* Sealed words, taken out of one note and signed as one's own. */
static void
nobody_signs_anothers_words (void **state)
{
  Team *team = *state;
  Member clinic;
  CarpaceNote note;
  g_autoptr (GByteArray) file = NULL;
  g_autofree char *name = note_name (team, &team->coach);
  const GByteArray *good;

  begin_member (&clinic, "Clinic", CARPACE_ROLE_CLINICIAN);
  know (&team->player, &clinic);
  leave (team, &team->coach, "mine", NOW);
  good = fake_folder_file (&team->stick, name);
  assert_int_equal (carpace_note_read (good->data, good->len, &note), CARPACE_TEAM_FINE);
  note.from = clinic.card.sign;
  file = carpace_signed_write (CARPACE_TEAM_NOTE, &note, &clinic.person.signer, 1);
  fake_folder_put (&team->stick, name, file->data, file->len);
  assert_refused (team, CARPACE_TEAM_OTHER_SIGNER);
  fake_folder_end (&clinic.files);
}

/* ---- who it is sealed to ---- */

static void
without_a_computer_of_theirs_there_is_nobody_to_seal_to (void **state)
{
  Team *team = *state;
  CarpacePerson other = person_of (7);

  assert_int_equal (carpace_note_leave (&team->shared, &team->coach.person, &other.signer.key, "hello", NOW), CARPACE_TEAM_NO_FILE);
  assert_int_equal (leave (team, &team->coach, "a\nb", NOW), CARPACE_TEAM_DAMAGED);
  team->stick.error = ENOSPC;
  assert_int_equal (leave (team, &team->coach, "hello", NOW), CARPACE_TEAM_FAILED);
}

/* A bundle that somebody else made and called after the player gets no word. */
static void
a_strangers_device_reads_nothing (void **state)
{
  Team *team = *state;
  CarpacePerson stranger = person_of (9);
  CarpaceSigner device = device_of (8);
  CarpaceChain chain = { .number = 0 };
  g_autoptr (GByteArray) word = carpace_device_write (&stranger, &device.key, NOW), rows = g_byte_array_new (), file = NULL;
  g_autofree char *begins = carpace_shelf_name ("", &team->player.card.sign, "-"), *name = note_name (team, &team->coach);
  g_autofree char *put = carpace_shelf_name (begins, &device.key, "-load-000000001.bundle");
  CarpaceNote note;
  CarpaceNoteText text;
  const GByteArray *left;

  file = carpace_bundle_write (&(CarpaceBundling) { .player = stranger.signer.key, .kind = CARPACE_BUNDLE_LOAD, .made_s = NOW,
                                                    .device = word, .signer = &device, .seal = &stranger.seal, .n_readers = 1,
                                                    .rows = rows }, &chain);
  fake_folder_put (&team->stick, put, file->data, file->len);
  assert_int_equal (leave (team, &team->coach, "hello", NOW), CARPACE_TEAM_FINE);
  left = fake_folder_file (&team->stick, name);
  assert_int_equal (carpace_note_read (left->data, left->len, &note), CARPACE_TEAM_FINE);
  assert_int_equal (note.readers.n, CARPACE_TEAM_SEALED_KEY);
  assert_int_equal (carpace_note_open (&note, &device, &text), CARPACE_TEAM_NOT_FOR_YOU);
  assert_int_equal (take (team, NOW), 1);
}

/* Nothing is lost where the shelf is full: it comes with the next look. */
static void
a_full_shelf_takes_it_later (void **state)
{
  Team *team = *state;

  leave (team, &team->coach, "hello", NOW);
  team->player.files.error = ENOSPC;
  assert_int_equal (take (team, NOW), -1);
  team->player.files.error = 0;
  assert_int_equal (take (team, NOW), 1);
  team->stick.gone = true;
  assert_int_equal (take (team, NOW), -1);
}

int
main (void)
{
#define TEAM_TEST(name) cmocka_unit_test_setup_teardown (name, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    TEAM_TEST (a_note_arrives_once),
    TEAM_TEST (a_later_one_takes_its_place),
    TEAM_TEST (one_of_the_far_future_is_not_followed),
    TEAM_TEST (it_is_put_away_and_a_later_one_is_not),
    TEAM_TEST (one_is_told_of_once),
    TEAM_TEST (what_is_erased_stays_away),
    TEAM_TEST (who_is_forgotten_says_nothing_more),
    cmocka_unit_test (it_is_a_text_of_1_to_500_characters),
    TEAM_TEST (the_longest_one_arrives),
    TEAM_TEST (control_characters_do_not_arrive),
    TEAM_TEST (all_else_is_refused_with_its_reason),
    TEAM_TEST (one_from_the_future_waits),
    TEAM_TEST (one_to_another_player_is_not_taken),
    TEAM_TEST (nobody_signs_anothers_words),
    TEAM_TEST (without_a_computer_of_theirs_there_is_nobody_to_seal_to),
    TEAM_TEST (a_strangers_device_reads_nothing),
    TEAM_TEST (a_full_shelf_takes_it_later),
  };

  return !carpace_team_ready () || cmocka_run_group_tests (tests, NULL, NULL);
}
