/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every kind of record there and back, and every way in which its bytes can be wrong. */
#include "said.h"

#include "carpace/entry-fields.h"
#include "team/content.h"

#define ROOM 2560 /* of the largest struct */

static const uint8_t filling[] = { 3, 1, 4, 1, 5, 9, 2, 6 };

/* The middle of each range, so that no field is what an empty record has. */
static void
fill (CarpaceTeamKind kind, void *record)
{
  int32_t n;
  size_t size;
  const CarpaceTeamField *field = carpace_team_fields (kind, &n, &size);
  const CarpaceTeamBytes bytes = { filling, sizeof filling };

  assert_in_range (size, 1, ROOM);
  memset (record, 0, size);
  for (int32_t i = 0; i < n; i++)
    {
      char *place = (char *) record + field[i].field.offset;

      switch (field[i].shape)
        {
        case CARPACE_TEAM_NUMBER:
          assert_true (carpace_field_set (&field[i].field, record, field[i].field.most));
          break;
        case CARPACE_TEAM_KEY:
          memset (place, 17 + i, CARPACE_KEY_BYTES);
          break;
        case CARPACE_TEAM_TEXT:
          g_strlcpy (place, "Jo Bär", field[i].most + 1);
          break;
        case CARPACE_TEAM_BYTES:
          memcpy (place, &bytes, sizeof bytes);
          break;
        }
    }
}

static void
assert_same (CarpaceTeamKind kind, const void *a, const void *b)
{
  g_autoptr (GByteArray) one = g_byte_array_new (), other = g_byte_array_new ();

  carpace_record_write (kind, a, one);
  carpace_record_write (kind, b, other);
  assert_int_equal (one->len, other->len);
  assert_memory_equal (one->data, other->data, one->len);
}

static void
each_kind_is_read_as_it_was_written (void **state)
{
  CarpaceSigner signer = device_of (5);

  for (int32_t kind = 0; kind < CARPACE_N_TEAM_KINDS; kind++)
    {
      uint64_t record[ROOM / 8], read[ROOM / 8];
      CarpaceSignatures signatures;
      g_autoptr (GByteArray) file = NULL;

      fill ((CarpaceTeamKind) kind, record);
      file = carpace_signed_write ((CarpaceTeamKind) kind, record, &signer, 1);
      assert_int_equal (carpace_signed_kind (file->data, file->len), kind);
      assert_int_equal (carpace_signed_read ((CarpaceTeamKind) kind, file->data, file->len, read, &signatures), CARPACE_TEAM_FINE);
      assert_same ((CarpaceTeamKind) kind, record, read);
      assert_int_equal (signatures.n, 1);
      assert_true (carpace_signed_by (&signatures, &signer.key));
    }
}

/* No byte can be another one, none be missing, none be added. */
static void
whatever_is_changed_is_refused (void **state)
{
  CarpaceSigner signer = device_of (5);

  for (int32_t kind = 0; kind < CARPACE_N_TEAM_KINDS; kind++)
    {
      uint64_t record[ROOM / 8], read[ROOM / 8];
      CarpaceSignatures signatures;
      g_autoptr (GByteArray) file = NULL;
      const uint8_t more = 0;

      fill ((CarpaceTeamKind) kind, record);
      file = carpace_signed_write ((CarpaceTeamKind) kind, record, &signer, 1);
      for (guint i = 0; i < file->len; i++)
        {
          file->data[i] ^= 1;
          assert_int_not_equal (carpace_signed_read ((CarpaceTeamKind) kind, file->data, file->len, read, &signatures), CARPACE_TEAM_FINE);
          file->data[i] ^= 1;
          assert_int_not_equal (carpace_signed_read ((CarpaceTeamKind) kind, file->data, i, read, &signatures), CARPACE_TEAM_FINE);
        }
      g_byte_array_append (file, &more, 1);
      assert_int_equal (carpace_signed_read ((CarpaceTeamKind) kind, file->data, file->len, read, &signatures), CARPACE_TEAM_DAMAGED);
    }
}

/* The same number in more bytes than it takes would be another form of the same record. */
static void
there_is_one_way_to_write_a_number (void **state)
{
  const uint8_t short_one[] = { CARPACE_TEAM_LOAD_WEEK, 5, 2, 2, 2, 2, 2 };
  const uint8_t long_one[] = { CARPACE_TEAM_LOAD_WEEK, 5, 130, 0, 2, 2, 2, 2 };
  const uint8_t endless[] = { CARPACE_TEAM_LOAD_WEEK, 5, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 1 };
  CarpaceLoadWeek week;
  size_t used;

  assert_int_equal (carpace_record_read (CARPACE_TEAM_LOAD_WEEK, short_one, sizeof short_one, &week, &used), CARPACE_TEAM_FINE);
  assert_int_equal (used, sizeof short_one);
  assert_int_equal (week.monday, 1);
  assert_int_equal (carpace_record_read (CARPACE_TEAM_LOAD_WEEK, long_one, sizeof long_one, &week, &used), CARPACE_TEAM_DAMAGED);
  assert_int_equal (carpace_record_read (CARPACE_TEAM_LOAD_WEEK, endless, sizeof endless, &week, &used), CARPACE_TEAM_DAMAGED);
}

static void
a_number_keeps_to_its_range (void **state)
{
  static const struct { const char *what; int64_t days; CarpaceTeamFault fault; } rows[] = {
    { "below", -1, CARPACE_TEAM_DAMAGED }, { "the least", 0, CARPACE_TEAM_FINE },
    { "the most", 7, CARPACE_TEAM_FINE }, { "above", 8, CARPACE_TEAM_DAMAGED },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceLoadWeek week = { .monday = 20000, .days = (int32_t) rows[i].days };
      g_autoptr (GByteArray) bytes = g_byte_array_new ();
      size_t used;

      carpace_record_write (CARPACE_TEAM_LOAD_WEEK, &week, bytes);
      assert_int_equal (carpace_record_read (CARPACE_TEAM_LOAD_WEEK, bytes->data, bytes->len, &week, &used), rows[i].fault);
    }
}

/* A name goes onto a terminal: nothing in it moves a cursor. */
static void
a_text_has_no_control_characters (void **state)
{
  static const char *const names[] = { "K7\n", "K\x1b[2J", "K\x7f", "K\xff", "\xc3" };
  CarpacePerson person = person_of (1);

  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (GByteArray) file = carpace_card_write (&person, names[i], CARPACE_ROLE_PLAYER, 1800000000);
      CarpaceCard card;

      assert_int_equal (carpace_card_read (file->data, file->len, &card), CARPACE_TEAM_DAMAGED);
      assert_string_equal (card.name, "");
    }
}

static void
what_it_is_not_is_told (void **state)
{
  CarpacePerson person = person_of (1);
  CarpaceSignatures signatures;
  CarpaceDevice device;
  g_autoptr (GByteArray) card = carpace_card_write (&person, "K7", CARPACE_ROLE_PLAYER, 1800000000);
  g_autoptr (GByteArray) large = g_byte_array_sized_new (CARPACE_TEAM_FILE_MOST + 1);

  assert_int_equal (carpace_device_read (card->data, card->len, &device), CARPACE_TEAM_OTHER_KIND);
  assert_int_equal (carpace_device_read ((const uint8_t *) "%PDF-1.4 and more", 17, &device), CARPACE_TEAM_FOREIGN);
  assert_int_equal (carpace_device_read ((const uint8_t *) "", 0, &device), CARPACE_TEAM_FOREIGN);
  assert_int_equal (carpace_device_read ((const uint8_t *) "CARPA", 5, &device), CARPACE_TEAM_CUT);
  card->data[7] = 2; /* the form's number */
  assert_int_equal (carpace_device_read (card->data, card->len, &device), CARPACE_TEAM_NEWER);
  g_byte_array_append (large, card->data, card->len);
  g_byte_array_set_size (large, CARPACE_TEAM_FILE_MOST + 1);
  assert_int_equal (carpace_signed_read (CARPACE_TEAM_CARD, large->data, large->len, &(CarpaceCard) { .role = 0 }, &signatures),
                    CARPACE_TEAM_TOO_LARGE);
}

/* What a guardian adds leaves what the player said as it was. */
static void
a_second_signature_is_added (void **state)
{
  CarpacePerson player = person_of (1), guardian = person_of (2), third = person_of (3);
  CarpaceGrant grant;
  CarpaceSignatures signatures;
  g_autoptr (GByteArray) one = NULL, two = NULL;

  fill (CARPACE_TEAM_GRANT, &grant);
  one = carpace_signed_write (CARPACE_TEAM_GRANT, &grant, &player.signer, 1);
  two = carpace_signed_add (CARPACE_TEAM_GRANT, one->data, one->len, &guardian.signer);
  assert_int_equal (carpace_signed_read (CARPACE_TEAM_GRANT, two->data, two->len, &grant, &signatures), CARPACE_TEAM_FINE);
  assert_true (carpace_signed_by (&signatures, &player.signer.key));
  assert_true (carpace_signed_by (&signatures, &guardian.signer.key));
  assert_false (carpace_signed_by (&signatures, &third.signer.key));
  assert_null (carpace_signed_add (CARPACE_TEAM_GRANT, two->data, two->len, &third.signer));
  one->data[20] ^= 1;
  assert_null (carpace_signed_add (CARPACE_TEAM_GRANT, one->data, one->len, &guardian.signer));
}

/* An entry of each kind that a diary has, by its own table; an older one lacks the later fields. */
static void
values_of_entries_go_there_and_back (void **state)
{
  for (int32_t kind = 0; kind < CARPACE_N_ENTRIES; kind++)
    {
      int32_t n;
      const CarpaceField *field = carpace_entry_fields ((CarpaceEntryKind) kind, &n);
      CarpaceEntry entry, read;
      g_autoptr (GByteArray) bytes = g_byte_array_new ();
      CarpaceTeamBytes from;

      carpace_entry_init (&entry, (CarpaceEntryKind) kind, (CarpaceInstant) { 0 });
      for (int32_t i = 0; i < n; i++)
        assert_true (carpace_field_set (&field[i], &entry, field[i].most));
      carpace_values_write (field, n, &entry, bytes);
      from = (CarpaceTeamBytes) { bytes->data, bytes->len };
      carpace_entry_init (&read, (CarpaceEntryKind) kind, (CarpaceInstant) { 0 });
      assert_true (carpace_values_read (field, n, from, &read));
      assert_true (carpace_entry_equal (&entry, &read));
      from.n--;
      /* cut within a number, or before a field that every Carpace wrote */
      assert_int_equal (carpace_values_read (field, n, from, &read), field[n - 1].later && (bytes->data[from.n - 1] & 128) == 0);
    }
}

static bool
count_row (void *user, const CarpaceHandRow *row, const CarpaceEntry *entry)
{
  ++*(int *) user;
  return true;
}

/* A newer program's bundle has kinds of entries that are not known here: those are passed over, the others are not lost. */
static void
entries_of_a_newer_program_are_passed_over (void **state)
{
  static const struct { int64_t kind; int told; CarpaceTeamFault fault; } rows[] = {
    { CARPACE_ENTRY_MORNING, 2, CARPACE_TEAM_FINE }, { CARPACE_N_ENTRIES, 1, CARPACE_TEAM_FINE }, { 9999, 1, CARPACE_TEAM_FINE },
    { 10000, 0, CARPACE_TEAM_DAMAGED }, { -1, 0, CARPACE_TEAM_DAMAGED },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GByteArray) bytes = g_byte_array_new (), values = g_byte_array_new ();
      CarpaceEntry entry;
      CarpaceHandRow row = { .id = 1, .day = 20879, .wall_ms = INT64_C (1803970800000), .kind = CARPACE_ENTRY_MORNING };
      int32_t n, told = 0;
      const CarpaceField *field = carpace_entry_fields (CARPACE_ENTRY_MORNING, &n);

      carpace_entry_init (&entry, CARPACE_ENTRY_MORNING, (CarpaceInstant) { 0, 0, 0 });
      carpace_values_write (field, n, &entry, values);
      row.values = (CarpaceTeamBytes) { values->data, values->len };
      carpace_record_write (CARPACE_TEAM_HAND_ROW, &row, bytes);
      row.kind = (int32_t) rows[i].kind;
      carpace_record_write (CARPACE_TEAM_HAND_ROW, &row, bytes);
      assert_int_equal (carpace_hand_read (bytes, count_row, &told), rows[i].fault);
      assert_int_equal (told, rows[i].told);
    }
}

/* A name with a control of either set, or with what turns the direction of text, would do something on a terminal. */
static void
names_have_no_controls_and_turn_nothing (void **state)
{
  static const struct { const char *name; bool fits; } rows[] = {
    { "Jo Bär", true }, { "日本", true }, { "", true }, { "\x1f", false }, { " ", true }, { "~", true }, { "\x7f", false },
    { "\xc2\x80", false }, { "\xc2\x9b" "2J", false }, { "\xc2\x9f", false }, { "\xc2\xa0", true },
    { "\u2027", true }, { "\u2028", false }, { "\u202e" "7K", false }, { "\u202f", true },
    { "\u2065", true }, { "\u2066", false }, { "\u2069", false }, { "\u206a", true }, { "\xc2", false },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceCard card = { .role = CARPACE_ROLE_PLAYER }, read;
      g_autoptr (GByteArray) bytes = g_byte_array_new ();
      size_t used;

      g_strlcpy (card.name, rows[i].name, sizeof card.name);
      carpace_record_write (CARPACE_TEAM_CARD, &card, bytes);
      if (carpace_record_read (CARPACE_TEAM_CARD, bytes->data, bytes->len, &read, &used)
          != (rows[i].fits ? CARPACE_TEAM_FINE : CARPACE_TEAM_DAMAGED))
        fail_msg ("row %zu", i);
    }
}

static void
records_are_the_same_field_by_field (void **state)
{
  for (int32_t kind = 0; kind < CARPACE_N_TEAM_KINDS; kind++)
    {
      uint64_t one[ROOM / 8], other[ROOM / 8];
      int32_t n;
      const CarpaceTeamField *field = carpace_team_fields ((CarpaceTeamKind) kind, &n, NULL);

      fill ((CarpaceTeamKind) kind, one);
      for (int32_t i = 0; i < n; i++)
        {
          char *place = (char *) other + field[i].field.offset;

          fill ((CarpaceTeamKind) kind, other);
          assert_true (carpace_record_same ((CarpaceTeamKind) kind, one, other));
          if (field[i].shape == CARPACE_TEAM_NUMBER)
            assert_true (carpace_field_set (&field[i].field, other, field[i].field.least));
          else
            place[0] ^= 1;
          if (field[i].shape != CARPACE_TEAM_BYTES) /* that is a pointer */
            assert_false (carpace_record_same ((CarpaceTeamKind) kind, one, other));
        }
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (entries_of_a_newer_program_are_passed_over),
    cmocka_unit_test (names_have_no_controls_and_turn_nothing),
    cmocka_unit_test (records_are_the_same_field_by_field),
    cmocka_unit_test (each_kind_is_read_as_it_was_written),
    cmocka_unit_test (whatever_is_changed_is_refused),
    cmocka_unit_test (there_is_one_way_to_write_a_number),
    cmocka_unit_test (a_number_keeps_to_its_range),
    cmocka_unit_test (a_text_has_no_control_characters),
    cmocka_unit_test (what_it_is_not_is_told),
    cmocka_unit_test (a_second_signature_is_added),
    cmocka_unit_test (values_of_entries_go_there_and_back),
  };
  return carpace_team_ready () ? cmocka_run_group_tests (tests, NULL, NULL) : 1;
}
