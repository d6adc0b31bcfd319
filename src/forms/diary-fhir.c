/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-fhir.c: ratings and morning checks as FHIR R4 Observations.
 *
 * Source: HL7 FHIR R4 (4.0.1), resource Observation, data types Quantity,
 * CodeableConcept and dateTime; LOINC 72514-3, "Pain severity - 0-10 verbal
 * numeric rating [Score] - Reported"; UCUM annotation {score}. The numbers are
 * the player's own answers to "How does your hand feel?"; nothing is derived. */
#include "forms/diary-fhir.h"

#include <string.h>

#include <glib.h>

#include "carpace/names.h"
#include "forms/fhir-parts.h"
#include "forms/json.h"

#define LOINC "http://loinc.org"
#define ABSENT "http://terminology.hl7.org/CodeSystem/data-absent-reason"

/* Block numbers that no rating has. */
#define MORNING -1
#define BESIDE -2

/** A rating, or one of the two numbers of a morning check. */
typedef struct
{
  int64_t id;
  const char *part;       /* of the id: "", "w", "n" */
  CarpaceInstant at;
  int32_t discomfort;     /* -1 where not answered */
  CarpaceSite site;
  CarpaceStiffness stiffness;
  bool pain_relief;
  char *moment;           /* when in the day, in words that do not change */
  const char *status;
  int32_t block, of_block; /* its own, whatever stands beside it */
  int64_t given_ms;       /* of the first answer */
} Answer;

static void
answer_clear (void *answer)
{
  g_free (((Answer *) answer)->moment);
}

static void
add_component (GString *out, const char *name, const char *value)
{
  carpace_json_open (out, '{');
  carpace_json_key (out, "code");
  carpace_fhir_concept (out, NULL, NULL, NULL, name);
  carpace_fhir_text (out, "valueString", value);
  carpace_json_close (out, '}');
}

static void
add_components (GString *out, const Answer *answer, const CarpaceDiaryExtract *what)
{
  carpace_json_key (out, "component");
  carpace_json_open (out, '[');
  add_component (out, "moment", answer->moment);
  if (what->side_known)
    add_component (out, "side", carpace_name (CARPACE_WORDS_SIDE, (int32_t) what->side));
  if (answer->stiffness != CARPACE_STIFFNESS_UNSAID)
    add_component (out, "stiffness against usual", carpace_name (CARPACE_WORDS_STIFFNESS, (int32_t) answer->stiffness));
  if (answer->pain_relief)
    add_component (out, "pain relief", "taken");
  carpace_json_close (out, ']');
}

static void
add_value (GString *out, const Answer *answer)
{
  if (answer->discomfort < 0)
    {
      carpace_json_key (out, "dataAbsentReason");
      carpace_fhir_concept (out, ABSENT, "unknown", "Unknown", "asked, not answered");
      return;
    }
  carpace_json_key (out, "valueQuantity");
  carpace_json_open (out, '{');
  carpace_json_key (out, "value");
  carpace_json_int (out, answer->discomfort);
  carpace_fhir_text (out, "unit", "{score}");
  carpace_fhir_text (out, "system", CARPACE_FHIR_UCUM);
  carpace_fhir_text (out, "code", "{score}");
  carpace_json_close (out, '}');
}

static void
add_meaning (GString *out)
{
  carpace_fhir_category (out, "survey", "Survey");
  carpace_json_key (out, "code");
  carpace_fhir_concept (out, LOINC, "72514-3", "Pain severity - 0-10 verbal numeric rating [Score] - Reported",
               "Discomfort in the hand, 0 none to 10 worst imaginable");
}

/* Whose it is, when it was answered, and about what: the same from each of the
 * player's computers, at each export. FHIR R4, id: 64 letters, digits, - and . at most. */
static char *
id_of (const Answer *answer, const char *whose)
{
  return g_strdup_printf ("%s-%" G_GINT64_FORMAT "-%d%s", whose[0] != '\0' ? whose : "carpace", answer->at.wall_ms,
                          answer->of_block, answer->part);
}

static GString *
observation_of (const Answer *answer, const CarpaceDiaryExtract *what, const char *patient, const char *id)
{
  const CarpaceFhirSubject subject = { what->player, patient };
  GString *out = g_string_new (NULL);
  char at[CARPACE_INSTANT_BYTES];

  carpace_instant_write (answer->at, at);
  carpace_json_open (out, '{');
  carpace_fhir_text (out, "resourceType", "Observation");
  carpace_fhir_text (out, "id", id);
  carpace_fhir_text (out, "status", answer->status);
  add_meaning (out);
  carpace_fhir_subject (out, &subject);
  carpace_fhir_text (out, "effectiveDateTime", at);
  add_value (out, answer);
  if (answer->site != CARPACE_SITE_NONE)
    {
      carpace_json_key (out, "bodySite");
      carpace_fhir_concept (out, NULL, NULL, NULL, carpace_name (CARPACE_WORDS_SITE, (int32_t) answer->site));
    }
  add_components (out, answer, what);
  carpace_json_close (out, '}');
  return out;
}

/* The answer that @entry is about; NULL where there is none. */
static Answer *
earlier_answer (GArray *answers, const CarpaceEntry *entry)
{
  for (guint i = answers->len; i > 0; i--)
    {
      Answer *earlier = &g_array_index (answers, Answer, i - 1);

      if (earlier->block == entry->rating.block && earlier->discomfort == entry->rating.corrects
          && strcmp (earlier->status, "entered-in-error") != 0)
        return earlier;
    }
  return NULL;
}

/* What a correction takes the place of was entered in error; a silence that a
 * late answer ended is no answer at all any more; a lower number told later on
 * stands beside the first. @return false where it only stands beside */
static bool
take_place (GArray *answers, Answer *answer, const CarpaceEntry *entry)
{
  Answer *earlier = earlier_answer (answers, entry);

  if (earlier == NULL)
    return true;
  if (entry->rating.corrects < 0)
    {
      g_array_remove_index (answers, (guint) (earlier - (Answer *) (void *) answers->data));
      return true;
    }
  answer->given_ms = earlier->given_ms;
  if (!carpace_correction_counts (entry->at.elapsed_ms - earlier->given_ms, earlier->discomfort, answer->discomfort))
    return false;
  earlier->status = "entered-in-error";
  answer->status = "corrected";
  return true;
}

static void
add_rating (GArray *answers, const CarpaceRecord *record)
{
  const CarpaceEntry *entry = &record->entry;
  Answer answer = { .id = record->id, .part = "", .at = entry->at, .discomfort = entry->rating.discomfort,
                    .site = entry->rating.site, .block = entry->rating.block, .of_block = entry->rating.block, .status = "final",
                    .given_ms = entry->at.elapsed_ms };
  bool in_place = (entry->rating.corrects < 0 && !entry->rating.late) || take_place (answers, &answer, entry);
  g_autofree char *after = entry->rating.block > 0 ? g_strdup_printf ("after block %d", entry->rating.block)
                                                   : g_strdup ("after a match");

  answer.moment = g_strconcat (after, in_place ? "" : ", told again later, beside the first", NULL);
  if (!in_place)
    answer.block = BESIDE;
  g_array_append_val (answers, answer);
}

/* A check takes the place of what one before it on the same day told. */
static void
take_morning_place (GArray *answers, Answer *waking)
{
  for (guint i = 0; i < answers->len; i++)
    if (g_array_index (answers, Answer, i).block == MORNING)
      {
        g_array_index (answers, Answer, i).status = "entered-in-error";
        waking->status = "corrected";
      }
}

static void
add_morning (GArray *answers, const CarpaceRecord *record)
{
  const CarpaceMorning *morning = &record->entry.morning;
  Answer waking = { .id = record->id, .part = "w", .at = record->entry.at, .discomfort = morning->waking,
                    .site = morning->waking > 0 ? morning->site : CARPACE_SITE_NONE,
                    .stiffness = morning->stiffness, .pain_relief = morning->pain_relief, .status = "final", .block = MORNING };
  Answer now = waking;

  take_morning_place (answers, &waking);
  waking.moment = g_strdup ("on waking");
  g_array_append_val (answers, waking);
  if (morning->now < 0)
    return;
  now.part = "n";
  now.discomfort = morning->now;
  now.site = morning->now > 0 ? morning->site : CARPACE_SITE_NONE;
  now.stiffness = CARPACE_STIFFNESS_UNSAID;
  now.moment = g_strdup ("before practice");
  g_array_append_val (answers, now);
}

/** A day at a time: a correction is of the same day. */
typedef struct
{
  const CarpaceDiaryExtract *what;
  const CarpaceBytesOut *to;
  CarpaceIdentity whose;
  const char *patient; /* a line a resource, beside the Patient of that id; NULL: entries of a Bundle */
  GHashTable *ids; /* of the day */
  GArray *answers;
  CarpaceDay day;
  bool any, ok;
} Writing;

static void
put (Writing *writing, const char *text)
{
  writing->ok = writing->ok && writing->to->write (writing->to->self, text, strlen (text));
}

static const char *
whose_ids (const Writing *writing)
{
  return writing->patient != NULL ? writing->patient : carpace_identity_outside (&writing->whose);
}

/* Two answers of one moment about one block are numbered. */
static char *
unique_id (Writing *writing, const Answer *answer)
{
  char *id = id_of (answer, whose_ids (writing));

  for (int n = 2; !g_hash_table_add (writing->ids, g_strdup (id)); n++)
    {
      g_autofree char *before = id_of (answer, whose_ids (writing));

      g_free (id);
      id = g_strdup_printf ("%s.%d", before, n);
    }
  return id;
}

static void
write_one (Writing *writing, const char *id, const GString *observation)
{
  g_autofree char *url = writing->patient == NULL ? carpace_fhir_full_url ("Observation", id) : NULL;

  if (url != NULL)
    {
      put (writing, writing->any ? ",\n{\"fullUrl\":\"" : "\n{\"fullUrl\":\"");
      put (writing, url);
      put (writing, "\",\"resource\":");
    }
  put (writing, observation->str);
  put (writing, url != NULL ? "}" : "\n");
  writing->any = true;
}

static void
write_day (Writing *writing)
{
  for (guint i = 0; i < writing->answers->len; i++)
    {
      const Answer *answer = &g_array_index (writing->answers, Answer, i);
      g_autofree char *id = unique_id (writing, answer);
      g_autoptr (GString) observation = observation_of (answer, writing->what, writing->patient, id);

      write_one (writing, id, observation);
    }
  g_array_set_size (writing->answers, 0);
  g_hash_table_remove_all (writing->ids);
}

static bool
see_record (void *user, const CarpaceRecord *record)
{
  Writing *writing = user;

  if (record->day != writing->day)
    write_day (writing);
  writing->day = record->day;
  if (record->entry.kind == CARPACE_ENTRY_RATING)
    add_rating (writing->answers, record);
  else
    add_morning (writing->answers, record);
  return writing->ok;
}

static bool
write_answers (Writing *writing, const CarpaceDiary *diary)
{
  const uint32_t kinds = CARPACE_KIND (CARPACE_ENTRY_RATING) | CARPACE_KIND (CARPACE_ENTRY_MORNING);
  bool read;

  writing->answers = g_array_new (FALSE, FALSE, sizeof (Answer));
  writing->ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  writing->day = CARPACE_NO_DAY;
  g_array_set_clear_func (writing->answers, answer_clear);
  read = diary->records_of (diary->self, writing->what->since, writing->what->until, kinds, see_record, writing);
  write_day (writing);
  g_array_unref (writing->answers);
  g_hash_table_unref (writing->ids);
  return read && writing->ok;
}

static bool
write_fhir (const CarpaceDiary *diary, const CarpaceDiaryExtract *what, const CarpaceBytesOut *to)
{
  Writing writing = { .what = what, .to = to, .ok = true };
  bool read;

  if (diary->whose != NULL)
    writing.ok = diary->whose (diary->self, &writing.whose);
  put (&writing, "{\"resourceType\":\"Bundle\",\"type\":\"collection\",\"entry\":[");
  read = write_answers (&writing, diary);
  put (&writing, "\n]}\n");
  return read && writing.ok;
}

bool
carpace_fhir_answers (const CarpaceDiary *diary, const CarpaceDiaryExtract *what, const char *patient, const CarpaceBytesOut *to)
{
  Writing writing = { .what = what, .to = to, .patient = patient, .ok = true };

  return write_answers (&writing, diary);
}

static bool
is_like_fhir (const char *bytes, size_t n)
{
  return n > 0 && bytes[0] == '{' && g_strstr_len (bytes, (gssize) MIN (n, 400), "\"resourceType\"") != NULL;
}

const CarpaceDiaryFormat carpace_format_fhir = { .name = "fhir", .write = write_fhir, .is_like = is_like_fhir };
