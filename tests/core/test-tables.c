/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every table of words, fields, events and cues, walked: a row that is missing,
 * doubled or out of step with its enum is named here. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>
#include <cmocka.h>

#include "carpace/cues.h"
#include "carpace/entry-fields.h"
#include "carpace/event-kinds.h"
#include "carpace/shortcuts.h"
#include "random-fields.h"

static void
each_word_is_there_and_no_other (void **state)
{
  for (int set = 0; set < CARPACE_N_WORDS; set++)
    {
      int32_t n = carpace_names_count ((CarpaceWords) set);

      if (n <= 0)
        fail_msg ("set %d has no words", set);
      for (int32_t value = 0; value < n; value++)
        if (carpace_name ((CarpaceWords) set, value) == NULL || carpace_name ((CarpaceWords) set, value)[0] == '\0')
          fail_msg ("set %d has no word for %d", set, (int) value);
      for (int32_t value = 0; value < n; value++)
        {
          const char *word = carpace_name ((CarpaceWords) set, value);

          if (carpace_name_value ((CarpaceWords) set, word) != value)
            fail_msg ("set %d: “%s” stands for two", set, word);
          assert_int_equal (carpace_name_nearest ((CarpaceWords) set, word), value);
        }
      assert_null (carpace_name ((CarpaceWords) set, n));
      assert_null (carpace_name ((CarpaceWords) set, -1));
      assert_int_equal (carpace_name_value ((CarpaceWords) set, ""), -1);
    }
}

/* One field by itself, in a value of @bytes at @value. */
static void
check_field (const CarpaceField *field, const char *kind, void *value, size_t bytes)
{
  const int64_t tried[] = { field->least, field->most, field->least < 0 ? 0 : field->least };

  if (field->name == NULL || field->name[0] == '\0')
    fail_msg ("a field of %s has no name", kind);
  assert_true (field->offset + field->bytes <= bytes);
  assert_true (field->bytes == sizeof (int64_t) || field->bytes == sizeof (int32_t) || field->bytes == sizeof (bool));
  for (size_t i = 0; i < sizeof tried / sizeof tried[0]; i++)
    {
      if (!carpace_field_set (field, value, tried[i]) || carpace_field_get (field, value) != tried[i])
        fail_msg ("%s.%s does not hold %lld", kind, field->name, (long long) tried[i]);
    }
  assert_false (carpace_field_set (field, value, field->least - 1));
  assert_false (carpace_field_set (field, value, field->most + 1));
  assert_int_equal (carpace_field_get (field, value), tried[2]);
  if (field->type == CARPACE_FIELD_WORD && field->most != carpace_names_count (field->words) - 1)
    fail_msg ("%s.%s goes to %lld, its words to %d", kind, field->name, (long long) field->most,
              (int) carpace_names_count (field->words) - 1);
}

/* No two fields of a kind share a name or a byte. */
static void
check_fields (const CarpaceField *field, int32_t n, const char *kind, void *value, size_t bytes)
{
  for (int32_t i = 0; i < n; i++)
    {
      check_field (&field[i], kind, value, bytes);
      for (int32_t j = 0; j < i; j++)
        if (strcmp (field[i].name, field[j].name) == 0
            || (field[i].offset < field[j].offset + field[j].bytes && field[j].offset < field[i].offset + field[i].bytes))
          fail_msg ("%s: %s and %s are one", kind, field[i].name, field[j].name);
    }
}

static void
each_field_of_entries_holds_its_range (void **state)
{
  for (int kind = 0; kind < CARPACE_N_ENTRIES; kind++)
    {
      CarpaceEntry entry = { .kind = (CarpaceEntryKind) kind };
      int32_t n;
      const CarpaceField *field = carpace_entry_fields ((CarpaceEntryKind) kind, &n);

      assert_true (n > 0 && n <= CARPACE_ENTRY_FIELDS);
      check_fields (field, n, carpace_name (CARPACE_WORDS_ENTRY, kind), &entry, sizeof entry);
    }
}

/* The fields of all events are columns of one table: a name means one type. */
static void
check_columns (const CarpaceField *field, int32_t n)
{
  for (int kind = 0; kind < CARPACE_N_EVENTS; kind++)
    for (int32_t i = 0; i < n; i++)
      {
        const CarpaceField *same = carpace_event_field ((CarpaceEventKind) kind, field[i].name);

        if (same != NULL && (same->type != field[i].type || same->words != field[i].words))
          fail_msg ("%s is two things", same->name);
      }
}

static void
each_event_has_its_row (void **state)
{
  for (int kind = 0; kind < CARPACE_N_EVENTS; kind++)
    {
      const CarpaceEventRow *row = &carpace_event_kinds[kind];
      CarpaceEvent event = { .kind = (CarpaceEventKind) kind };
      int32_t n;
      const CarpaceField *field = carpace_event_fields ((CarpaceEventKind) kind, &n);

      assert_true (row->taken <= CARPACE_TAKEN_BY_STATE && row->says < CARPACE_N_SAYS);
      assert_int_equal (n > 0, row->says != CARPACE_SAYS_NOTHING && row->says != CARPACE_SAYS_OPEN);
      if (row->says == CARPACE_SAYS_FACT)
        assert_int_equal (row->taken, CARPACE_TAKEN_AS_FACT);
      if (row->script != NULL && strcspn (row->script, " \t#") != strlen (row->script))
        fail_msg ("“%s” is no word of a script", row->script);
      check_fields (field, n, row->word, &event, sizeof event);
      check_columns (field, n);
    }
}

/* Changing any one field makes two events unequal, and nothing else does. */
static void
events_are_compared_by_what_they_say (void **state)
{
  Random random = { 8 };

  for (int round = 0; round < 2000; round++)
    {
      CarpaceEventKind kind = (CarpaceEventKind) (round % CARPACE_N_EVENTS);
      CarpaceEvent a, b;
      int32_t n, at;
      const CarpaceField *field = carpace_event_fields (kind, &n);

      memset (&b, 0xa5, sizeof b); /* bytes that no field owns differ */
      b.kind = kind;
      carpace_event_init (&a, kind);
      random_fields (&random, field, n, &a);
      for (int32_t i = 0; i < n; i++)
        carpace_field_set (&field[i], &b, carpace_field_get (&field[i], &a));
      assert_true (carpace_event_equal (&a, &b));
      at = n > 0 ? random_whole (&random, 0, n - 1) : -1;
      if (at < 0)
        continue;
      carpace_field_set (&field[at], &b, carpace_field_get (&field[at], &a) == field[at].most ? field[at].least : field[at].most);
      assert_false (carpace_event_equal (&a, &b));
    }
}

/* An event with nothing said gives no number that nobody gave. */
static void
what_is_unsaid_is_no_number (void **state)
{
  CarpaceEvent event;

  carpace_event_init (&event, CARPACE_EVENT_RATE);
  assert_int_equal (event.rate.discomfort, -1);
  assert_int_equal (event.rate.site, CARPACE_SITE_NONE);
  carpace_event_init (&event, CARPACE_EVENT_MORNING);
  assert_int_equal (event.morning.waking, -1);
  assert_int_equal (event.morning.now, -1);
  assert_int_equal (event.morning.stiffness, CARPACE_STIFFNESS_UNSAID);
}

/* Fills @value with what an entry or event of no field is to be. */
static void
fill_unsaid (const CarpaceField *field, int32_t n, void *value)
{
  for (int32_t i = 0; i < n; i++)
    assert_true (carpace_field_set (&field[i], value, field[i].type == CARPACE_FIELD_MAYBE ? -1 : 0));
}

static void
nothing_is_said_at_first (void **state)
{
  const CarpaceInstant at = { .elapsed_ms = 1, .wall_ms = 2, .offset_s = 3 };
  int32_t n;

  for (int kind = 0; kind < CARPACE_N_ENTRIES; kind++)
    {
      CarpaceEntry expected, entry;
      const CarpaceField *field = carpace_entry_fields ((CarpaceEntryKind) kind, &n);
      memset (&expected, 0, sizeof expected);
      memset (&entry, 0xa5, sizeof entry);
      expected.kind = (CarpaceEntryKind) kind;
      expected.at = at;
      fill_unsaid (field, n, &expected);
      carpace_entry_init (&entry, (CarpaceEntryKind) kind, at);
      assert_memory_equal (&entry, &expected, sizeof entry);
    }
  for (int kind = 0; kind < CARPACE_N_EVENTS; kind++)
    {
      CarpaceEvent expected, event;
      const CarpaceField *field = carpace_event_fields ((CarpaceEventKind) kind, &n);
      memset (&expected, 0, sizeof expected);
      memset (&event, 0xa5, sizeof event);
      expected.kind = (CarpaceEventKind) kind;
      fill_unsaid (field, n, &expected);
      carpace_event_init (&event, (CarpaceEventKind) kind);
      assert_memory_equal (&event, &expected, sizeof event);
    }
}

/* A number from elsewhere may be of no kind. */
static void
what_is_of_no_kind_has_no_fields (void **state)
{
  static const int no_kinds[] = { -1, CARPACE_N_ENTRIES + CARPACE_N_EVENTS, INT32_MAX };
  int32_t first = 99;

  for (size_t i = 0; i < sizeof no_kinds / sizeof no_kinds[0]; i++)
    {
      int32_t n = 99, m = 99;
      assert_null (carpace_entry_fields ((CarpaceEntryKind) no_kinds[i], &n));
      assert_null (carpace_event_fields ((CarpaceEventKind) no_kinds[i], &m));
      assert_int_equal (n, 0);
      assert_int_equal (m, 0);
    }
  assert_null (carpace_entry_fields (CARPACE_N_ENTRIES, &first)); /* the first that there is not */
  assert_int_equal (first, 0);
  first = 99;
  assert_null (carpace_event_fields (CARPACE_N_EVENTS, &first));
  assert_int_equal (first, 0);
}

static void
a_field_is_found_by_its_name (void **state)
{
  for (int kind = 0; kind < CARPACE_N_ENTRIES; kind++)
    {
      int32_t n;
      const CarpaceField *field = carpace_entry_fields ((CarpaceEntryKind) kind, &n);
      for (int32_t i = 0; i < n; i++)
        assert_ptr_equal (carpace_entry_field ((CarpaceEntryKind) kind, field[i].name), &field[i]);
      assert_null (carpace_entry_field ((CarpaceEntryKind) kind, "no such field"));
    }
}

/* When it was, of what kind it is, and each of its fields. */
static void
entries_are_compared_by_all_they_say (void **state)
{
  const CarpaceInstant at = { .elapsed_ms = 1, .wall_ms = 2, .offset_s = 3 };

  for (int kind = 0; kind < CARPACE_N_ENTRIES; kind++)
    {
      int32_t n;
      const CarpaceField *field = carpace_entry_fields ((CarpaceEntryKind) kind, &n);
      CarpaceEntry a, b;
      carpace_entry_init (&a, (CarpaceEntryKind) kind, at);
      b = a;
      assert_true (carpace_entry_equal (&a, &b));
      b.at.elapsed_ms++;
      assert_false (carpace_entry_equal (&a, &b));
      b = a;
      b.at.wall_ms++;
      assert_false (carpace_entry_equal (&a, &b));
      b = a;
      b.at.offset_s++;
      assert_false (carpace_entry_equal (&a, &b));
      carpace_entry_init (&b, (CarpaceEntryKind) ((kind + 1) % CARPACE_N_ENTRIES), at);
      assert_false (carpace_entry_equal (&a, &b));
      for (int32_t i = 0; i < n; i++)
        {
          b = a;
          carpace_field_set (&field[i], &b, field[i].most);
          assert_false (carpace_entry_equal (&a, &b));
        }
    }
}

static void
each_cue_has_its_rows (void **state)
{
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    {
      if (carpace_told ((CarpaceCue) cue, CARPACE_CUE_SHOWN) == CARPACE_N_TOLD)
        fail_msg ("nothing is known of “%s”, shown", carpace_name (CARPACE_WORDS_CUE, cue));
      assert_int_equal (carpace_told ((CarpaceCue) cue, CARPACE_CUE_WITHDRAWN), CARPACE_N_TOLD);
    }
  for (int told = 0; told < CARPACE_N_TOLD; told++)
    {
      const CarpaceToldRow *row = &carpace_told_rows[told];

      if (carpace_told (row->cue, row->what) != (CarpaceTold) told)
        fail_msg ("row %d, “%s”, is there twice or not at all", told, carpace_name (CARPACE_WORDS_CUE, row->cue));
      assert_true (row->by < CARPACE_N_SHOWN_BY && row->opens < CARPACE_N_OPENS && row->on_air < CARPACE_N_ON_AIR_SAYS);
      if (row->by != CARPACE_SHOWN_BY_NOTICE) /* what has a card opens it */
        assert_int_equal (row->opens, CARPACE_OPENS_CARD);
    }
}

/* A key says what a script could say, too; the numbers of a rating come first, each in its place. */
static void
each_shortcut_says_a_command (void **state)
{
  for (int32_t i = 0; i < carpace_n_shortcuts; i++)
    {
      const CarpaceShortcut *shortcut = &carpace_shortcuts[i];
      size_t n = strcspn (shortcut->words, " ");
      char number[16];
      int32_t known = 0;

      assert_ptr_equal (carpace_shortcut_of (shortcut->id), shortcut);
      for (int32_t j = 0; j < i; j++)
        assert_string_not_equal (carpace_shortcuts[j].key, shortcut->key);
      for (int32_t kind = 0; kind < CARPACE_N_EVENTS; kind++)
        {
          const char *script = carpace_event_kinds[kind].script;

          known += script != NULL && strlen (script) == n && strncmp (script, shortcut->words, n) == 0;
        }
      if (known == 0)
        fail_msg ("no event is told by “%s”", shortcut->words);
      snprintf (number, sizeof number, "rate %d", (int) i);
      assert_int_equal (strcmp (shortcut->words, number) == 0, i < CARPACE_SHORTCUT_NUMBERS);
    }
  assert_null (carpace_shortcut_of (""));
  assert_null (carpace_shortcut_of ("rate-11"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_word_is_there_and_no_other),
    cmocka_unit_test (each_field_of_entries_holds_its_range),
    cmocka_unit_test (each_event_has_its_row),
    cmocka_unit_test (events_are_compared_by_what_they_say),
    cmocka_unit_test (what_is_unsaid_is_no_number),
    cmocka_unit_test (nothing_is_said_at_first),
    cmocka_unit_test (what_is_of_no_kind_has_no_fields),
    cmocka_unit_test (a_field_is_found_by_its_name),
    cmocka_unit_test (entries_are_compared_by_all_they_say),
    cmocka_unit_test (each_cue_has_its_rows),
    cmocka_unit_test (each_shortcut_says_a_command),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
