/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A diary goes out and comes in again the same; what is no diary does no harm.
 *
 * With `csv FILE`, `json FILE` or `fhir FILE` it writes the sample diary there,
 * for checks by other programs. */
#include "../adapters/store-samples.h"

#include "forms/diary-csv.h"
#include "forms/diary-fhir.h"
#include "forms/diary-json.h"
#include "../fakes/rounds.h"

static const CarpaceDiaryFormat *const both[] = { &carpace_format_csv, &carpace_format_json };

/* Notes that forms and spreadsheets stumble over. */
static const char *const hard_notes[] = {
  "plain", "=1+1", "+49 bottles", "-2", "@SUM(A1)", "\tbegins with a tab", "\rbegins with a return",
  "\nbegins with a new line", "'quoted for a spreadsheet", "''twice", "comma, semicolon; \"quotes\" and \"\"more\"\"",
  "two\nlines", "two\r\nlines", " spaces around ", "Übung mit Händen 手 \U0001f590", "\uff1dfull width",
  "=HYPERLINK(\"http://example.invalid\";\"click\")", "\\ back / slash \\n", "{\"kind\":\"diary\"}", "\"", "'", ",", "\x7f",
  "\xe2\x80\xa8line separator",
};

static bool
to_string (void *self, const char *bytes, size_t n)
{
  g_string_append_len (self, bytes, (gssize) n);
  return true;
}

static CarpaceDiaryExtract
everything (void)
{
  return (CarpaceDiaryExtract) { .since = INT32_MIN, .until = INT32_MAX, .player = "K7", .side_known = true,
                                 .side = CARPACE_SIDE_RIGHT };
}

static GString *
written (const CarpaceDiaryFormat *format, CarpaceDiaryStore *store, const CarpaceDiaryExtract *what)
{
  CarpaceDiary diary = carpace_store_diary (store);
  GString *text = g_string_new (NULL);
  CarpaceBytesOut to = { text, to_string };

  assert_true (format->write (&diary, what, &to));
  return text;
}

/* What was written of a diary, taken into another as the program does it: the diary becomes that one. */
static bool
take_in (const CarpaceDiaryFormat *format, const GString *text, CarpaceDiaryStore *store, CarpaceIntake *ret_intake)
{
  CarpaceDiaryKeeper keeper = carpace_store_keeper (store);
  CarpaceIdentity identity;

  assert_true (format->whose (text->str, text->len, &identity));
  assert_int_equal (identity.n, 1);
  keeper.become (keeper.self, &identity);
  return format->read (text->str, text->len, &keeper, ret_intake);
}

static int64_t
any_value (GRand *rand, const CarpaceField *field)
{
  if (field->type == CARPACE_FIELD_DAY)
    return g_rand_int_range (rand, 0, 40000);
  if (g_rand_int_range (rand, 0, 8) == 0)
    return g_rand_boolean (rand) ? field->least : field->most;
  return field->least + (int64_t) (g_rand_double (rand) * (double) (MIN (field->most, 100000) - field->least));
}

/* Entries of every kind with any values that there can be, on ten days. */
static void
fill_with_anything (CarpaceDiaryStore *store, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  CarpaceDiaryKeeper keeper = carpace_store_keeper (store);

  assert_true (keeper.take_in_begin (keeper.self));
  for (int i = 0; i < 400; i++)
    {
      CarpaceInstant at = { .elapsed_ms = g_rand_int (rand), .wall_ms = SAMPLE_WALL_MS + g_rand_int_range (rand, -1000000, 900000000),
                            .offset_s = 900 * g_rand_int_range (rand, -48, 57) };
      CarpaceEntry entry = entry_of (g_rand_int_range (rand, 0, CARPACE_N_ENTRIES), at);
      const char *note = g_rand_boolean (rand) ? hard_notes[g_rand_int_range (rand, 0, G_N_ELEMENTS (hard_notes))] : NULL;
      int32_t n;
      const CarpaceField *field = carpace_entry_fields (entry.kind, &n);

      for (int32_t j = 0; j < n; j++)
        assert_true (carpace_field_set (&field[j], &entry, any_value (rand, &field[j])));
      for (int copies = 1 + (i % 50 == 0); copies > 0; copies--)
        assert_int_equal (keeper.take_in_record (keeper.self, SAMPLE_DAY + i / 40, &entry, note), 1);
    }
  for (guint i = 0; i < G_N_ELEMENTS (hard_notes); i++)
    assert_int_equal (keeper.take_in_day (keeper.self, SAMPLE_DAY + (CarpaceDay) i, i % 2 == 0 ? (int64_t) i * 1000 : -1,
                                          hard_notes[i]), 1);
  assert_true (keeper.take_in_end (keeper.self, true));
}

static CarpaceDiaryStore *
new_store (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  CarpaceDiaryStore *store = carpace_store_open (path, CARPACE_STORE_WRITING, NULL, NULL);

  assert_non_null (store);
  return store;
}

static void
out_and_in_again (void **state)
{
  for (guint32 seed = 1; seed <= (guint32) carpace_test_rounds (5); seed++)
    for (size_t i = 0; i < G_N_ELEMENTS (both); i++)
      {
        char *folder = folder_new ();
        CarpaceDiaryStore *store = new_store (folder, "one.sqlite"), *copy = new_store (folder, "two.sqlite");
        CarpaceDiaryExtract what = everything ();
        CarpaceIntake intake;
        GString *first, *again;

        fill_with_anything (store, seed);
        what.code = "K7";
        first = written (both[i], store, &what);
        assert_true (both[i]->is_like (first->str, first->len));
        assert_false (both[1 - i]->is_like (first->str, first->len));
        if (!take_in (both[i], first, copy, &intake))
          fail_msg ("%s, seed %u: line %d: %s", both[i]->name, seed, intake.line, intake.fault);
        assert_int_equal (intake.known, 0);
        assert_same_diary (store, copy);
        again = written (both[i], copy, &what);
        assert_string_equal (first->str, again->str);
        /* twice changes nothing */
        assert_true (take_in (both[i], first, copy, &intake));
        assert_int_equal (intake.added, 0);
        assert_in_range (intake.known, 408 + G_N_ELEMENTS (hard_notes), 408 + G_N_ELEMENTS (hard_notes));
        assert_same_diary (store, copy);
        g_string_free (first, TRUE);
        g_string_free (again, TRUE);
        carpace_store_close (store, true);
        carpace_store_close (copy, true);
        folder_free (folder);
      }
}

static void
a_period_without_notes (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (both); i++)
    {
      char *folder = folder_new ();
      CarpaceDiaryStore *store = new_store (folder, "one.sqlite"), *copy = new_store (folder, "two.sqlite");
      CarpaceDiaryKeeper keeper = carpace_store_keeper (copy);
      CarpaceDiaryExtract what = everything ();
      CarpaceIntake intake;
      GString *text;
      Seen seen;

      fill_with_anything (store, 3);
      what.since = SAMPLE_DAY + 2;
      what.until = SAMPLE_DAY + 3;
      what.without_notes = true;
      text = written (both[i], store, &what);
      for (size_t j = 0; j < G_N_ELEMENTS (hard_notes); j++)
        if (strlen (hard_notes[j]) > 5)
          assert_null (strstr (text->str, hard_notes[j]));
      assert_true (both[i]->read (text->str, text->len, &keeper, &intake));
      seen = see (copy);
      assert_in_range (seen.records->len, 80, 82);
      assert_int_equal (seen.sums->len, 2);
      assert_int_equal (seen.notes->len, 0);
      seen_free (&seen);
      g_string_free (text, TRUE);
      carpace_store_close (store, true);
      carpace_store_close (copy, true);
      folder_free (folder);
    }
}

#define CSV_HEAD "day,at,elapsed_ms,kind,note,other_ms,block,discomfort,site,late,corrects\n"
#define CSV_GOOD CSV_HEAD "2027-03-01,2027-03-01T18:00:00+01:00,1,rating,,,1,2,none,0,\n"
#define CSV_ROW(day, at, kind, rest) CSV_HEAD day "," at ",1," kind ",,," rest "\n"
#define A_DAY "2027-03-01"
#define A_TIME "2027-03-01T18:00:00+01:00"
#define JSON_HEAD "{\"kind\":\"diary\",\"version\":1}\n"
#define JSON_ROW(rest) JSON_HEAD "{\"kind\":\"rating\",\"day\":\"" A_DAY "\",\"at\":\"" A_TIME "\"" rest "}\n"

#define AN_IDENTITY "0123456789abcdef0123456789abcdef"
#define GOOD_RATING "{\"kind\":\"rating\",\"day\":\"" A_DAY "\",\"at\":\"" A_TIME "\",\"block\":1,\"discomfort\":2," \
                    "\"site\":\"none\",\"late\":false}"
#define BLOCK_OF(ms) "{\"kind\":\"block\",\"day\":\"" A_DAY "\",\"at\":\"" A_TIME "\",\"what\":\"ended\",\"number\":1," \
                     "\"match\":false,\"limit_ms\":0,\"after_ms\":0,\"rest_ms\":0,\"early_ms\":0,\"beyond\":false," \
                     "\"active_ms\":" ms ",\"overrun_ms\":0,\"runs\":1}"
#define NOTE_ON(day) "{\"kind\":\"rating\",\"day\":\"" day "\",\"at\":\"" A_TIME "\",\"block\":1,\"discomfort\":2," \
                     "\"site\":\"none\",\"late\":false}"

static const struct
{
  const char *name;
  const CarpaceDiaryFormat *format;
  const char *text, *says; /* says: NULL where it is taken in */
  int32_t line;
} intake_rows[] = {
  { .name = "good csv", .format = &carpace_format_csv, .text = CSV_GOOD },
  { .name = "with a byte order mark", .format = &carpace_format_csv, .text = "\xef\xbb\xbf" CSV_GOOD },
  { .name = "columns in another order, one unknown", .format = &carpace_format_csv,
    .text = "kind,shoe,day,at,note,other_ms,elapsed_ms,block,discomfort,site,late,corrects\r\n"
            "rating,42,2027-03-01,2027-03-01T18:00:00Z,\"a, note\",,5,1,2,none,0,\r\n" },
  { .name = "an unanswered rating", .format = &carpace_format_csv, .text = CSV_ROW (A_DAY, A_TIME, "rating", "1,,none,0,") },
  { .name = "nothing", .format = &carpace_format_csv, .text = "", .says = "export", .line = 1 },
  { .name = "no kind column", .format = &carpace_format_csv, .text = "day,at,elapsed_ms,note,other_ms\n", .says = "kind is missing",
    .line = 1 },
  { .name = "a column twice", .format = &carpace_format_csv, .text = "day,at,day\n", .says = "day is here twice", .line = 1 },
  { .name = "not a date", .format = &carpace_format_csv, .text = CSV_ROW ("2027-02-30", A_TIME, "rating", "1,2,none,0,"),
    .says = "“2027-02-30”; a date", .line = 2 },
  { .name = "not a time", .format = &carpace_format_csv, .text = CSV_ROW (A_DAY, "yesterday", "rating", "1,2,none,0,"),
    .says = "“yesterday”; a time", .line = 2 },
  { .name = "not a kind", .format = &carpace_format_csv, .text = CSV_ROW (A_DAY, A_TIME, "mood", "1,2,none,0,"),
    .says = "“mood” is no kind", .line = 2 },
  { .name = "eleven", .format = &carpace_format_csv, .text = CSV_ROW (A_DAY, A_TIME, "rating", "1,11,none,0,"),
    .says = "discomfort is “11”, which cannot be", .line = 2 },
  { .name = "minus one is not silence", .format = &carpace_format_csv, .text = CSV_ROW (A_DAY, A_TIME, "rating", "1,-2,none,0,"),
    .says = "discomfort is “-2”", .line = 2 },
  { .name = "a number of letters", .format = &carpace_format_csv, .text = CSV_ROW (A_DAY, A_TIME, "rating", "1,2x,none,0,"),
    .says = "whole number", .line = 2 },
  { .name = "a number past all numbers", .format = &carpace_format_csv,
    .text = CSV_ROW (A_DAY, A_TIME, "rating", "1,99999999999999999999,none,0,"), .says = "which cannot be", .line = 2 },
  { .name = "no word for a site", .format = &carpace_format_csv, .text = CSV_ROW (A_DAY, A_TIME, "rating", "1,2,toe,0,"),
    .says = "“toe” is no word for site", .line = 2 },
  { .name = "a field is missing", .format = &carpace_format_csv, .text = CSV_ROW (A_DAY, A_TIME, "rating", ",2,none,0,"),
    .says = "block is missing", .line = 2 },
  { .name = "quotes in the middle", .format = &carpace_format_csv, .text = CSV_ROW (A_DAY, A_TIME, "rating", "1,2,no\"ne,0,"),
    .says = "export", .line = 2 },
  { .name = "a quote that does not end", .format = &carpace_format_csv, .text = CSV_ROW (A_DAY, A_TIME, "rating", "1,2,\"none,0,"),
    .says = "export", .line = 2 },
  { .name = "the good line before the bad is taken back", .format = &carpace_format_csv,
    .text = CSV_GOOD "2027-03-02,,,rating,,,1,2,none,0,\n", .says = "at is missing", .line = 3 },
  { .name = "two faults on a line that holds two rows: the first is told, once", .format = &carpace_format_csv,
    .text = CSV_HEAD ",,,,\ra\"b\n", .says = "is missing", .line = 2 },
  { .name = "no UTF-8", .format = &carpace_format_csv, .text = CSV_GOOD "\xff\n", .says = "UTF-8", .line = 1 },
  { .name = "good json", .format = &carpace_format_json,
    .text = JSON_ROW (",\"block\":1,\"discomfort\":2,\"site\":\"none\",\"late\":false") },
  { .name = "a later version", .format = &carpace_format_json, .text = "{\"kind\":\"diary\",\"version\":3}\n", .says = "newer",
    .line = 1 },
  { .name = "no first line", .format = &carpace_format_json, .text = "{\"kind\":\"rating\"}\n", .says = "export", .line = 1 },
  { .name = "not JSON", .format = &carpace_format_json, .text = JSON_HEAD "{\"kind\"\n", .says = "export", .line = 2 },
  { .name = "two objects on a line", .format = &carpace_format_json, .text = JSON_HEAD "{} {}\n", .says = "more than one record",
    .line = 2 },
  { .name = "two good objects on a line", .format = &carpace_format_json,
    .text = JSON_HEAD GOOD_RATING " " GOOD_RATING "\n", .says = "more than one record", .line = 2 },
  { .name = "a key twice", .format = &carpace_format_json,
    .text = JSON_ROW (",\"block\":1,\"discomfort\":2,\"discomfort\":9,\"site\":\"none\",\"late\":false"),
    .says = "discomfort is here twice", .line = 2 },
  { .name = "a key twice, once with an escape", .format = &carpace_format_json,
    .text = JSON_ROW (",\"block\":1,\"discomfort\":2,\"d\\u0069scomfort\":9,\"site\":\"none\",\"late\":false"),
    .says = "export", .line = 2 },
  { .name = "past 64 bits", .format = &carpace_format_json,
    .text = JSON_ROW (",\"block\":9223372036854775808,\"discomfort\":2,\"site\":\"none\",\"late\":false"),
    .says = "block is “9223372036854775808”, which cannot be", .line = 2 },
  { .name = "past 64 bits, where 32 would be left over", .format = &carpace_format_json,
    .text = JSON_ROW (",\"block\":18446744073709551617,\"discomfort\":2,\"site\":\"none\",\"late\":false"),
    .says = "block is “18446744073709551617”, which cannot be", .line = 2 },
  { .name = "a version before the first", .format = &carpace_format_json, .text = "{\"kind\":\"diary\",\"version\":0}\n",
    .says = "“0” is no version", .line = 1 },
  { .name = "half a version", .format = &carpace_format_json, .text = "{\"kind\":\"diary\",\"version\":1.5}\n",
    .says = "version is “1.5”; a whole number", .line = 1 },
  { .name = "version 2, of somebody", .format = &carpace_format_json,
    .text = "{\"kind\":\"diary\",\"version\":2,\"diary\":\"" AN_IDENTITY "\"}\n" GOOD_RATING "\n" },
  { .name = "of nobody", .format = &carpace_format_json, .text = "{\"kind\":\"diary\",\"version\":2,\"diary\":\"me\"}\n",
    .says = "“me”, which is no diary's identity", .line = 1 },
  { .name = "a block of a week", .format = &carpace_format_json, .text = JSON_HEAD BLOCK_OF ("604800000") "\n" },
  { .name = "a block of a week and 1 ms", .format = &carpace_format_json, .text = JSON_HEAD BLOCK_OF ("604800001") "\n",
    .says = "active_ms is “604800001”, which cannot be", .line = 2 },
  { .name = "a block of 200 years", .format = &carpace_format_json, .text = JSON_HEAD BLOCK_OF ("6311347200000") "\n",
    .says = "active_ms is “6311347200000”, which cannot be", .line = 2 },
  { .name = "the last day there is", .format = &carpace_format_json, .text = JSON_HEAD NOTE_ON ("2199-12-31") "\n" },
  { .name = "the day after it", .format = &carpace_format_json, .text = JSON_HEAD NOTE_ON ("2200-01-01") "\n",
    .says = "day is “2200-01-01”, which cannot be", .line = 2 },
  { .name = "the day before the first", .format = &carpace_format_json, .text = JSON_HEAD NOTE_ON ("1969-12-31") "\n",
    .says = "day is “1969-12-31”, which cannot be", .line = 2 },
  { .name = "an event that is none", .format = &carpace_format_json,
    .text = JSON_HEAD "{\"kind\":\"event\",\"at\":\"" A_TIME "\",\"event\":\"deadline\"}\n",
    .says = "“deadline” is no word for event", .line = 2 },
  { .name = "two diaries in a sheet", .format = &carpace_format_csv,
    .text = "day,at,elapsed_ms,kind,note,other_ms,diary\n2027-03-01,,,about-day,,5," AN_IDENTITY "\n"
            "2027-03-02,,,about-day,,5,ffffffffffffffffffffffffffffffff\n",
    .says = "another diary", .line = 3 },
  { .name = "a list, not an object", .format = &carpace_format_json, .text = JSON_HEAD "[1]\n", .says = "export", .line = 2 },
  { .name = "too deep", .format = &carpace_format_json, .text = JSON_HEAD "{\"day\":[[[[[[]]]]]]}\n", .says = "lists within lists",
    .line = 2 },
  { .name = "a number with a fraction", .format = &carpace_format_json,
    .text = JSON_ROW (",\"block\":1,\"discomfort\":2.5,\"site\":\"none\",\"late\":false"), .says = "“2.5”; a whole number",
    .line = 2 },
  { .name = "an object for a number", .format = &carpace_format_json,
    .text = JSON_ROW (",\"block\":1,\"discomfort\":{},\"site\":\"none\",\"late\":false"), .says = "within lists", .line = 2 },
  { .name = "no such sign", .format = &carpace_format_json,
    .text = JSON_HEAD "{\"kind\":\"caution\",\"day\":\"" A_DAY "\",\"at\":\"" A_TIME "\",\"what\":\"opened\",\"signs\":[\"numb\",\"blue\"]}\n",
    .says = "“numb blue” is no word for signs", .line = 2 },
  { .name = "more than 20 years outside practice", .format = &carpace_format_json,
    .text = JSON_HEAD "{\"kind\":\"about-day\",\"day\":\"" A_DAY "\",\"other_ms\":632448000001}\n",
    .says = "other_ms is “632448000001”", .line = 2 },
};

static void
what_is_wrong_is_told_and_nothing_taken_in (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (intake_rows); i++)
    {
      char *folder = folder_new ();
      CarpaceDiaryStore *store = new_store (folder, "one.sqlite");
      CarpaceDiaryKeeper keeper = carpace_store_keeper (store);
      CarpaceIntake intake;
      bool taken = intake_rows[i].format->read (intake_rows[i].text, strlen (intake_rows[i].text), &keeper, &intake);
      Seen seen = see (store);

      if (taken != (intake_rows[i].says == NULL))
        fail_msg ("%s: %s", intake_rows[i].name, taken ? "taken in" : intake.fault);
      if (!taken && (strstr (intake.fault, intake_rows[i].says) == NULL || intake.line != intake_rows[i].line))
        fail_msg ("%s: line %d: %s", intake_rows[i].name, intake.line, intake.fault);
      if (seen.records->len != (guint) taken || intake.added != taken)
        fail_msg ("%s: %u records", intake_rows[i].name, seen.records->len);
      g_free (intake.fault);
      seen_free (&seen);
      carpace_store_close (store, true);
      folder_free (folder);
    }
}

/* Bytes changed, taken out and doubled: it is taken in whole or not at all, and
 * nothing falls. */
static void
mangled_files_do_no_harm (void **state)
{
  guint32 seed = 71;
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  char *folder = folder_new ();
  CarpaceDiaryStore *store = new_store (folder, "one.sqlite"), *copy = new_store (folder, "two.sqlite");
  CarpaceDiaryKeeper keeper = carpace_store_keeper (copy);
  CarpaceDiaryExtract what = everything ();
  CarpaceIntake intake;
  int taken = 0, rounds = carpace_test_rounds (1500);

  print_message ("seed %u\n", seed);
  fill_with_anything (store, seed);
  what.until = SAMPLE_DAY;
  for (size_t i = 0; i < G_N_ELEMENTS (both); i++)
    {
      GString *good = written (both[i], store, &what);

      for (int round = 0; round < rounds; round++)
        {
          GString *bad = g_string_new_len (good->str, (gssize) good->len);

          for (int change = g_rand_int_range (rand, 1, 4); change > 0; change--)
            {
              gsize at = (gsize) g_rand_int_range (rand, 0, (gint32) bad->len);
              gssize n = g_rand_int_range (rand, 1, 200);

              if (g_rand_boolean (rand))
                bad->str[at] = (char) g_rand_int_range (rand, 0, 256);
              else if (g_rand_boolean (rand))
                g_string_erase (bad, (gssize) at, MIN (n, (gssize) (bad->len - at)));
              else
                g_string_insert_len (bad, (gssize) at, good->str, n);
            }
          if (both[i]->read (bad->str, bad->len, &keeper, &intake))
            taken++;
          else
            assert_non_null (intake.fault);
          g_free (intake.fault);
          g_string_free (bad, TRUE);
        }
      g_string_free (good, TRUE);
    }
  print_message ("%d of %d could still be taken in\n", taken, 2 * rounds);
  assert_in_range (taken, 1, 2 * rounds - 1);
  carpace_store_close (store, true);
  carpace_store_close (copy, true);
  folder_free (folder);
}

static int
count_of (const GString *text, const char *piece)
{
  int n = 0;

  for (const char *at = strstr (text->str, piece); at != NULL; at = strstr (at + 1, piece))
    n++;
  return n;
}

/* A check told once more takes the place of the first, and its site stands where something is felt. */
static void
a_morning_with_its_site_goes_out_as_an_observation (void **state)
{
  char *folder = folder_new ();
  CarpaceDiaryStore *store = new_store (folder, "one.sqlite");
  CarpaceStore port = carpace_store_port (store);
  CarpaceDiaryExtract what = everything ();
  CarpaceEntry morning = entry_of (CARPACE_ENTRY_MORNING, moment (CARPACE_MINUTE_MS));
  GString *text;

  keep_evening (&port, SAMPLE_DAY, 0, 0, 0);
  morning.morning = (CarpaceMorning){ .waking = 1, .stiffness = CARPACE_STIFFNESS_USUAL, .now = 0, .site = CARPACE_SITE_ELBOW };
  keep (&port, CARPACE_EVENT_MORNING, &morning);
  text = written (&carpace_format_fhir, store, &what);
  assert_int_equal (count_of (text, "\"on waking\""), 2);
  assert_int_equal (count_of (text, "\"entered-in-error\""), 1);
  assert_int_equal (count_of (text, "\"bodySite\":{\"text\":\"elbow\"}"), 1);
  assert_int_equal (count_of (text, "\"bodySite\""), 1); /* none of the 0 at the check */
  g_string_free (text, TRUE);
  carpace_store_close (store, true);
  folder_free (folder);
}

static int
write_sample (const char *form, const char *path)
{
  const CarpaceDiaryFormat *formats[] = { &carpace_format_csv, &carpace_format_json, &carpace_format_fhir };
  char *folder = folder_new ();
  CarpaceDiaryStore *store = new_store (folder, "one.sqlite");
  CarpaceStore port = carpace_store_port (store);
  CarpaceDiaryKeeper keeper = carpace_store_keeper (store);
  CarpaceDiaryExtract what = everything ();
  CarpaceEntry late;
  int status;

  keep_evening (&port, SAMPLE_DAY, 0, 1, -1);
  late = rating_of (moment (3 * CARPACE_HOUR_MS), 2, 4);
  late.rating.late = true;
  late.rating.site = CARPACE_SITE_THUMB_SIDE;
  keep (&port, CARPACE_EVENT_RATE, &late);
  keep_evening (&port, SAMPLE_DAY + 1, CARPACE_DAY_MS, 8, -1);
  status = !keeper.correct (keeper.self, 28, 3, CARPACE_SITE_NONE, moment (2 * CARPACE_DAY_MS));
  for (guint i = 0; i < G_N_ELEMENTS (hard_notes); i++)
    keeper.note_day (keeper.self, SAMPLE_DAY + (CarpaceDay) i, hard_notes[i]);
  for (size_t i = 0; i < G_N_ELEMENTS (formats); i++)
    if (strcmp (formats[i]->name, form) == 0)
      {
        GString *text = written (formats[i], store, &what);

        status |= !g_file_set_contents (path, text->str, (gssize) text->len, NULL);
        g_string_free (text, TRUE);
      }
  carpace_store_close (store, true);
  folder_free (folder);
  return status;
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (out_and_in_again),
    cmocka_unit_test (a_morning_with_its_site_goes_out_as_an_observation),
    cmocka_unit_test (a_period_without_notes),
    cmocka_unit_test (what_is_wrong_is_told_and_nothing_taken_in),
    cmocka_unit_test (mangled_files_do_no_harm),
  };

  if (argc == 3)
    return write_sample (argv[1], argv[2]);
  return cmocka_run_group_tests (tests, NULL, NULL);
}
