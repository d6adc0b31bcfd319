/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-model.c: sums at once, days when asked for. */
#include "diary-day.h"

/* Dates read at a time, and how many such stretches are kept. */
#define CHUNK_DAYS 14
#define CHUNKS 48

/* Dates without a record that are told in one row. */
#define GAP_DAYS 3

typedef struct
{
  CarpaceDay first;
  CarpaceDiaryDay days[CHUNK_DAYS];
  bool read;
} Chunk;

struct CarpaceDiaryModel
{
  CarpaceDiary diary;
  CarpaceDay since, until;
  bool from_first;     /* since is the first day recorded */
  GArray *sums;        /* CarpaceDaySum, their notes in texts */
  GStringChunk *texts;
  GArray *rows; /* CarpaceDiaryRow */
  GQueue chunks; /* Chunk, the one asked for last at the head */
};

static void
chunk_free (void *pointer)
{
  Chunk *chunk = pointer;

  for (int i = 0; i < CHUNK_DAYS; i++)
    carpace_diary_day_clear (&chunk->days[i]);
  g_free (chunk);
}

static bool
chunk_record (void *user, const CarpaceRecord *record)
{
  Chunk *chunk = user;
  CarpaceDay index = record->day - chunk->first;

  if (index >= 0 && index < CHUNK_DAYS)
    carpace_diary_day_take (&chunk->days[index], record);
  return true;
}

#define KINDS_TAKEN                                                                                                \
  (CARPACE_KIND (CARPACE_ENTRY_DAY) | CARPACE_KIND (CARPACE_ENTRY_BLOCK) | CARPACE_KIND (CARPACE_ENTRY_OVERRUN)     \
   | CARPACE_KIND (CARPACE_ENTRY_RATING) | CARPACE_KIND (CARPACE_ENTRY_MORNING)                                     \
   | CARPACE_KIND (CARPACE_ENTRY_DECISION) | CARPACE_KIND (CARPACE_ENTRY_CAUTION))

static Chunk *
chunk_new (CarpaceDiaryModel *model, CarpaceDay first)
{
  Chunk *chunk = g_new0 (Chunk, 1);

  chunk->first = first;
  for (int i = 0; i < CHUNK_DAYS; i++)
    carpace_diary_day_init (&chunk->days[i], first + i);
  chunk->read = model->diary.records_of (model->diary.self, first, first + CHUNK_DAYS - 1, KINDS_TAKEN, chunk_record,
                                         chunk);
  if (model->chunks.length >= CHUNKS)
    chunk_free (g_queue_pop_tail (&model->chunks));
  g_queue_push_head (&model->chunks, chunk);
  return chunk;
}

static Chunk *
chunk_of (CarpaceDiaryModel *model, CarpaceDay day)
{
  CarpaceDay index = (day - model->since) / CHUNK_DAYS;
  CarpaceDay first = model->since + index * CHUNK_DAYS;

  for (GList *link = model->chunks.head; link != NULL; link = link->next)
    {
      Chunk *chunk = link->data;

      if (chunk->first != first)
        continue;
      g_queue_unlink (&model->chunks, link);
      g_queue_push_head_link (&model->chunks, link);
      return chunk;
    }
  return chunk_new (model, first);
}

/* A day of which the diary says no more than that the mouse was moved. */
static bool
is_blank (const CarpaceDaySum *sum)
{
  return sum->dose_ms <= 0 && sum->done_ms <= 0 && sum->match_ms <= 0 && sum->blocks == 0 && sum->n_ratings == 0
         && sum->unanswered == 0 && !sum->morning_known && !sum->no_practice && !sum->caution && sum->note == NULL;
}

static int32_t
sum_at (const CarpaceDiaryModel *model, CarpaceDay day)
{
  guint low = 0, high = model->sums->len;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (g_array_index (model->sums, CarpaceDaySum, middle).day < day)
        low = middle + 1;
      else
        high = middle;
    }
  if (low < model->sums->len && g_array_index (model->sums, CarpaceDaySum, low).day == day)
    return (int32_t) low;
  return -1;
}

const CarpaceDiaryDay *
carpace_diary_model_day (CarpaceDiaryModel *model, CarpaceDay day)
{
  Chunk *chunk;

  if (day < model->since || day > model->until || sum_at (model, day) < 0)
    return NULL;
  chunk = chunk_of (model, day);
  return chunk->read ? &chunk->days[day - chunk->first] : NULL;
}

/* Rows */

static void
append_row (CarpaceDiaryModel *model, CarpaceDiaryRowKind kind, CarpaceDay first, CarpaceDay last, int32_t sum)
{
  CarpaceDiaryRow row = { .kind = kind, .first = first, .last = last, .sum = sum };

  g_array_append_val (model->rows, row);
}

/* Rows for @first to @last, dates without a record; they join a gap before them. */
static void
append_blank (CarpaceDiaryModel *model, CarpaceDay first, CarpaceDay last)
{
  CarpaceDiaryRow *before = model->rows->len == 0 ? NULL
                                                  : &g_array_index (model->rows, CarpaceDiaryRow, model->rows->len - 1);

  if (first > last)
    return;
  if (before != NULL && before->kind == CARPACE_DIARY_ROW_GAP && before->last == first - 1)
    before->last = last;
  else if (last - first + 1 >= GAP_DAYS)
    append_row (model, CARPACE_DIARY_ROW_GAP, first, last, -1);
  else
    for (CarpaceDay day = first; day <= last; day++)
      append_row (model, CARPACE_DIARY_ROW_DAY, day, day, -1);
}

/* The rows of one week: its days, and the week itself where any was recorded. */
static void
append_week (CarpaceDiaryModel *model, CarpaceDay monday, guint *at)
{
  CarpaceDay next = MAX (monday, model->since);
  CarpaceDay sunday = MIN (monday + 6, model->until);
  bool any = false;

  for (; *at < model->sums->len; (*at)++)
    {
      CarpaceDay day = g_array_index (model->sums, CarpaceDaySum, *at).day;

      if (day > sunday)
        break;
      if (is_blank (&g_array_index (model->sums, CarpaceDaySum, *at)))
        continue;
      append_blank (model, next, day - 1);
      append_row (model, CARPACE_DIARY_ROW_DAY, day, day, (int32_t) *at);
      next = day + 1;
      any = true;
    }
  append_blank (model, next, sunday);
  if (any && sunday == monday + 6)
    append_row (model, CARPACE_DIARY_ROW_WEEK, monday, sunday, -1);
}

static void
build_rows (CarpaceDiaryModel *model)
{
  guint at = 0;

  g_array_set_size (model->rows, 0);
  if (model->from_first && model->sums->len == 0)
    return;
  for (CarpaceDay monday = carpace_diary_monday (model->since); monday <= model->until; monday += 7)
    append_week (model, monday, &at);
}

/* The model */

typedef struct
{
  GArray *sums;
  GStringChunk *texts;
} Sums;

static bool
append_sum (void *user, const CarpaceDaySum *sum)
{
  Sums *into = user;
  CarpaceDaySum copy = *sum;

  if (copy.note != NULL)
    copy.note = *copy.note == '\0' ? NULL : g_string_chunk_insert (into->texts, copy.note);
  g_array_append_val (into->sums, copy);
  return true;
}

bool
carpace_diary_model_reread (CarpaceDiaryModel *model)
{
  Sums fresh = { .sums = g_array_new (FALSE, TRUE, sizeof (CarpaceDaySum)), .texts = g_string_chunk_new (1024) };
  CarpaceDay since = model->from_first ? CARPACE_NO_DAY : model->since;

  if (!model->diary.days (model->diary.self, since, model->until, append_sum, &fresh))
    {
      g_array_unref (fresh.sums);
      g_string_chunk_free (fresh.texts);
      return false;
    }
  g_array_unref (model->sums);
  g_string_chunk_free (model->texts);
  model->sums = fresh.sums;
  model->texts = fresh.texts;
  if (model->from_first)
    model->since = fresh.sums->len > 0 ? g_array_index (fresh.sums, CarpaceDaySum, 0).day : model->until;
  g_queue_clear_full (&model->chunks, chunk_free);
  build_rows (model);
  return true;
}

CarpaceDiaryModel *
carpace_diary_model_new (const CarpaceDiary *diary, CarpaceDay since, CarpaceDay until)
{
  CarpaceDiaryModel *model = g_new0 (CarpaceDiaryModel, 1);

  model->diary = *diary;
  model->from_first = since == CARPACE_NO_DAY;
  model->since = since;
  model->until = MAX (until, since);
  model->texts = g_string_chunk_new (64);
  model->sums = g_array_new (FALSE, TRUE, sizeof (CarpaceDaySum));
  model->rows = g_array_new (FALSE, TRUE, sizeof (CarpaceDiaryRow));
  g_queue_init (&model->chunks);
  if (carpace_diary_model_reread (model))
    return model;
  carpace_diary_model_free (model);
  return NULL;
}

void
carpace_diary_model_free (CarpaceDiaryModel *model)
{
  if (model == NULL)
    return;
  g_queue_clear_full (&model->chunks, chunk_free);
  g_array_unref (model->sums);
  g_string_chunk_free (model->texts);
  g_array_unref (model->rows);
  g_free (model);
}

int32_t
carpace_diary_model_n_rows (const CarpaceDiaryModel *model)
{
  return (int32_t) model->rows->len;
}

const CarpaceDiaryRow *
carpace_diary_model_row (const CarpaceDiaryModel *model, int32_t row)
{
  return &g_array_index (model->rows, CarpaceDiaryRow, row);
}

int32_t
carpace_diary_model_row_of (const CarpaceDiaryModel *model, CarpaceDay day)
{
  guint low = 0, high = model->rows->len;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (g_array_index (model->rows, CarpaceDiaryRow, middle).last < day)
        low = middle + 1;
      else
        high = middle;
    }
  if (low >= model->rows->len || g_array_index (model->rows, CarpaceDiaryRow, low).first > day)
    return -1;
  return (int32_t) low;
}

int32_t
carpace_diary_model_n_sums (const CarpaceDiaryModel *model)
{
  return (int32_t) model->sums->len;
}

const CarpaceDaySum *
carpace_diary_model_sum (const CarpaceDiaryModel *model, int32_t index)
{
  return &g_array_index (model->sums, CarpaceDaySum, index);
}

int64_t
carpace_diary_model_longest_ms (const CarpaceDiaryModel *model)
{
  int64_t longest_ms = 15 * CARPACE_MINUTE_MS;

  for (guint i = 0; i < model->sums->len; i++)
    {
      const CarpaceDaySum *sum = &g_array_index (model->sums, CarpaceDaySum, i);

      longest_ms = MAX (longest_ms, MAX (sum->dose_ms, sum->done_ms));
    }
  return longest_ms;
}

const CarpaceDaySum *
carpace_diary_model_sum_of (const CarpaceDiaryModel *model, CarpaceDay day)
{
  int32_t index = sum_at (model, day);

  return index < 0 ? NULL : carpace_diary_model_sum (model, index);
}
