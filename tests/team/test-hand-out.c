/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plans that were signed and given: what the signature covers, and whose key may follow whose. */
#include "said.h"

#include "../fakes/fake-folder.h"
#include "team/hand-out.h"

#define NOW INT64_C (1803970800)

static const char plan[] = "name: Team\nversion: 2\nday:\n  dose: 60min\n";

static GString *
signed_plan (const char *text, const CarpacePerson *giver, const CarpaceKey *player, GByteArray **ret_record)
{
  const CarpaceCard card = { .name = "Coach", .role = CARPACE_ROLE_COACH, .sign = giver->signer.key };

  return carpace_hand_out_sign (text, strlen (text), giver, &card, player, NOW, ret_record);
}

/* A comment at the end: whoever reads plans reads it as before. */
static void
a_signature_is_the_last_line (void **state)
{
  CarpacePerson coach = person_of (2);
  const CarpaceKey nobody = { { 0 } };
  g_autoptr (GByteArray) record = NULL, again = NULL;
  GString *text = signed_plan (plan, &coach, &nobody, &record), *twice;
  CarpaceHandOut read;
  CarpaceKey hash = carpace_hand_out_hash (plan, strlen (plan)), of_signed = carpace_hand_out_hash (text->str, text->len);

  assert_true (g_str_has_prefix (text->str, plan));
  assert_true (g_str_has_prefix (text->str + strlen (plan), "# signed: "));
  assert_ptr_equal (strchr (text->str + strlen (plan), '\n'), text->str + text->len - 1);
  assert_int_equal (carpace_hand_out_read (text->str, text->len, &read), CARPACE_TEAM_FINE);
  assert_true (carpace_key_equal (&read.giver, &coach.signer.key));
  assert_string_equal (read.giver_name, "Coach");
  assert_true (carpace_key_equal (&hash, &of_signed) && carpace_key_equal (&hash, &read.plan));
  assert_int_equal (carpace_hand_out_read (plan, strlen (plan), &read), CARPACE_TEAM_NO_FILE);
  twice = signed_plan (text->str, &coach, &nobody, &again); /* signed anew, not once more */
  assert_string_equal (twice->str, text->str);
  g_string_free (twice, TRUE);
  g_string_free (text, TRUE);
}

static void
whatever_is_changed_shows (void **state)
{
  CarpacePerson coach = person_of (2);
  const CarpaceKey player = person_of (1).signer.key;
  g_autoptr (GByteArray) record = NULL;
  GString *text = signed_plan (plan, &coach, &player, &record);
  CarpaceHandOut read;

  for (gsize i = 0; i < text->len - 2; i++) /* the last two of base64 can be padding */
    {
      text->str[i] ^= 1;
      assert_int_not_equal (carpace_hand_out_read (text->str, text->len, &read), CARPACE_TEAM_FINE);
      text->str[i] ^= 1;
    }
  g_string_append (text, "dose: 90min\n"); /* behind the signature it is no last line any more */
  assert_int_equal (carpace_hand_out_read (text->str, text->len, &read), CARPACE_TEAM_NO_FILE);
  g_string_free (text, TRUE);
}

static void
what_was_given_is_known_to_the_giver (void **state)
{
  FakeFolder files;
  CarpaceFolder shelf;
  CarpacePerson coach = person_of (2);
  const CarpaceKey player = person_of (1).signer.key, hash = carpace_hand_out_hash (plan, strlen (plan));
  g_autoptr (GByteArray) record = NULL;
  g_autoptr (GArray) given = NULL;

  fake_folder_begin (&files);
  shelf = fake_folder_port (&files);
  g_string_free (signed_plan (plan, &coach, &player, &record), TRUE);
  assert_true (carpace_hand_out_keep (&shelf, record));
  fake_folder_put (&files, "given-broken", "x", 1);
  given = carpace_hand_outs_given (&shelf);
  assert_int_equal (given->len, 1);
  assert_true (carpace_key_equal (&g_array_index (given, CarpaceRosterGiven, 0).player, &player));
  assert_true (carpace_key_equal (&g_array_index (given, CarpaceRosterGiven, 0).plan, &hash));
  fake_folder_end (&files);
}

/* A key that names another, which names a third; nobody names themselves. */
static void
keys_follow_those_that_named_them (void **state)
{
  FakeFolder files;
  CarpaceFolder shelf;
  CarpacePerson first = person_of (1), second = person_of (2), third = person_of (3);
  const CarpaceHeir stolen = { .before = first.signer.key, .sign = third.signer.key, .seal = third.seal, .made_s = NOW };
  g_autoptr (GByteArray) one = carpace_heir_write (&first, &second, NOW), two = carpace_heir_write (&second, &third, NOW);
  g_autoptr (GByteArray) forged = carpace_signed_write (CARPACE_TEAM_HEIR, &stolen, &third.signer, 1);

  fake_folder_begin (&files);
  shelf = fake_folder_port (&files);
  assert_true (carpace_key_follows (&shelf, &first.signer.key, &first.signer.key));
  assert_false (carpace_key_follows (&shelf, &first.signer.key, &second.signer.key));
  assert_false (carpace_heir_keep (&shelf, forged));
  assert_true (carpace_heir_keep (&shelf, one));
  assert_true (carpace_heir_keep (&shelf, two));
  assert_true (carpace_key_follows (&shelf, &first.signer.key, &third.signer.key));
  assert_false (carpace_key_follows (&shelf, &third.signer.key, &first.signer.key));
  fake_folder_end (&files);
}

/* An unsigned copy of the same version, or one by another key, does not make room for anybody; a key that was named does. */
static void
who_signed_first_is_not_forgotten (void **state)
{
  FakeFolder files;
  CarpaceFolder shelf;
  CarpacePerson coach = person_of (2), other = person_of (3), heir = person_of (4);
  const CarpaceKey nobody = { { 0 } };
  g_autoptr (GByteArray) one = NULL, two = NULL, three = NULL, word = carpace_heir_write (&coach, &heir, NOW);
  g_autoptr (GString) by_coach = signed_plan (plan, &coach, &nobody, &one), by_other = signed_plan (plan, &other, &nobody, &two);
  g_autoptr (GString) by_heir = signed_plan (plan, &heir, &nobody, &three);
  CarpaceHandOut of_other = { .giver = other.signer.key }, of_heir = { .giver = heir.signer.key }, of_coach = { .giver = coach.signer.key };
  CarpaceGivenBefore before;

  fake_folder_begin (&files);
  shelf = fake_folder_port (&files);
  before = (CarpaceGivenBefore) { .shelf = &shelf, .last_fault = CARPACE_TEAM_NO_FILE };
  assert_true (carpace_given_before_lets (&before, CARPACE_TEAM_NO_FILE, NULL)); /* nothing was given yet */
  carpace_given_before_add (&before, 2, plan);
  assert_true (carpace_given_before_lets (&before, CARPACE_TEAM_NO_FILE, NULL)); /* nor signed */
  carpace_given_before_add (&before, 3, by_coach->str);
  carpace_given_before_add (&before, 3, plan);
  assert_int_equal (before.last_fault, CARPACE_TEAM_NO_FILE);
  assert_false (carpace_given_before_lets (&before, CARPACE_TEAM_NO_FILE, NULL));
  carpace_given_before_add (&before, 1, by_other->str);
  assert_int_equal (before.version, 3); /* the highest, not the last */
  assert_int_equal (before.last_version, 1);
  assert_false (carpace_given_before_lets (&before, CARPACE_TEAM_FINE, &of_other));
  assert_true (carpace_given_before_lets (&before, CARPACE_TEAM_FINE, &of_coach));
  assert_false (carpace_given_before_lets (&before, CARPACE_TEAM_FINE, &of_heir));
  assert_true (carpace_heir_keep (&shelf, word));
  assert_true (carpace_given_before_lets (&before, CARPACE_TEAM_FINE, &of_heir));
  carpace_given_before_add (&before, 4, by_heir->str); /* from then on the old key is as anybody's */
  assert_false (carpace_given_before_lets (&before, CARPACE_TEAM_FINE, &of_coach));
  assert_true (carpace_given_before_lets (&before, CARPACE_TEAM_FINE, &of_heir));
  fake_folder_end (&files);
}

typedef struct
{
  const CarpacePlanRecord *record;
  size_t n;
} Kept;

static bool
tell_plans (void *self, CarpacePlanRecordVisitor visit, void *user)
{
  const Kept *kept = self;
  bool more = true;

  for (size_t i = 0; more && i < kept->n; i++)
    more = visit (user, &kept->record[i]);
  return true;
}

/* Only the last that was given under that name, of that version, and not what was released. */
static void
who_gave_the_plan_in_use_is_known (void **state)
{
  FakeFolder files;
  CarpaceFolder shelf;
  CarpacePerson coach = person_of (2);
  const CarpaceKey nobody = { { 0 } };
  g_autoptr (GByteArray) one = NULL;
  g_autoptr (GString) by_coach = signed_plan (plan, &coach, &nobody, &one);
  const CarpacePlanRecord records[] = {
    { .what = CARPACE_PLAN_GIVEN, .name = "Team", .version = 2, .text = by_coach->str },
    { .what = CARPACE_PLAN_GIVEN, .name = "Other", .version = 2, .text = plan },
    { .what = CARPACE_PLAN_RELEASED, .name = "Team", .version = 3, .text = plan },
    { .what = CARPACE_PLAN_GIVEN, .name = "Team", .version = 2, .text = plan },
  };
  Kept kept = { records, 3 };
  const CarpaceDiary diary = { .self = &kept, .plans = tell_plans };
  CarpaceGivenBefore before;

  fake_folder_begin (&files);
  shelf = fake_folder_port (&files);
  assert_true (carpace_given_before_read (&shelf, &diary, "Team", &before));
  assert_non_null (carpace_given_before_by (&before, 2));
  assert_string_equal (carpace_given_before_by (&before, 2)->giver_name, "Coach");
  assert_null (carpace_given_before_by (&before, 3));
  assert_true (carpace_given_before_read (&shelf, &diary, "Other", &before));
  assert_null (carpace_given_before_by (&before, 2));
  kept.n = 4; /* an own edit of the same version came after it */
  assert_true (carpace_given_before_read (&shelf, &diary, "Team", &before));
  assert_null (carpace_given_before_by (&before, 2));
  fake_folder_end (&files);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_signature_is_the_last_line),
    cmocka_unit_test (whatever_is_changed_shows),
    cmocka_unit_test (what_was_given_is_known_to_the_giver),
    cmocka_unit_test (keys_follow_those_that_named_them),
    cmocka_unit_test (who_signed_first_is_not_forgotten),
    cmocka_unit_test (who_gave_the_plan_in_use_is_known),
  };
  return carpace_team_ready () ? cmocka_run_group_tests (tests, NULL, NULL) : 1;
}
