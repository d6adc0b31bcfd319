/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-model.c: sums at once, days when asked for. */
#include "diary-model.h"

#include <string.h>

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

/* Days */

static void
clear_note (void *note)
{
  g_free (((CarpaceDiaryNote *) note)->text);
}

static void
day_init (CarpaceDiaryDay *day, CarpaceDay date)
{
  *day = (CarpaceDiaryDay) { .day = date };
  day->blocks = g_array_new (FALSE, TRUE, sizeof (CarpaceDiaryBlock));
  day->decisions = g_array_new (FALSE, TRUE, sizeof (CarpaceDiaryDecision));
  day->cautions = g_array_new (FALSE, TRUE, sizeof (CarpaceDiaryCaution));
  day->notes = g_array_new (FALSE, TRUE, sizeof (CarpaceDiaryNote));
  day->mornings = g_array_new (FALSE, TRUE, sizeof (CarpaceMorning));
  g_array_set_clear_func (day->notes, clear_note);
}

static void
day_clear (CarpaceDiaryDay *day)
{
  g_array_unref (day->blocks);
  g_array_unref (day->decisions);
  g_array_unref (day->cautions);
  g_array_unref (day->notes);
  g_array_unref (day->mornings);
}

static void
chunk_free (void *pointer)
{
  Chunk *chunk = pointer;

  for (int i = 0; i < CHUNK_DAYS; i++)
    day_clear (&chunk->days[i]);
  g_free (chunk);
}

/* What a late rating or a correction is about: the last block of that number
 * that has the number it takes the place of. */
static CarpaceDiaryBlock *
block_corrected (CarpaceDiaryDay *day, const CarpaceEntry *entry)
{
  for (guint i = day->blocks->len; i > 0; i--)
    {
      CarpaceDiaryBlock *block = &g_array_index (day->blocks, CarpaceDiaryBlock, i - 1);

      if (block->number == entry->rating.block && block->rated && block->discomfort == entry->rating.corrects)
        return block;
    }
  return NULL;
}

/* The last block of @number that was begun, begun now where there is none. */
static CarpaceDiaryBlock *
block_of (CarpaceDiaryDay *day, int32_t number)
{
  CarpaceDiaryBlock fresh = { .number = number, .match = number == 0, .discomfort = -1, .corrected_from = -1,
                              .to_tap_ms = -1 };

  for (guint i = day->blocks->len; i > 0; i--)
    {
      CarpaceDiaryBlock *block = &g_array_index (day->blocks, CarpaceDiaryBlock, i - 1);

      if (block->number == number)
        return block;
    }
  g_array_append_val (day->blocks, fresh);
  return &g_array_index (day->blocks, CarpaceDiaryBlock, day->blocks->len - 1);
}

static void
begin_block (CarpaceDiaryDay *day, const CarpaceEntry *entry)
{
  CarpaceDiaryBlock block = { .number = entry->block.number, .match = entry->block.match, .beyond = entry->block.beyond,
                              .limit_ms = entry->block.limit_ms, .early_ms = entry->block.early_ms,
                              .began = entry->at, .discomfort = -1, .corrected_from = -1, .to_tap_ms = -1 };

  g_array_append_val (day->blocks, block);
}

static void
end_block (CarpaceDiaryDay *day, const CarpaceEntry *entry)
{
  CarpaceDiaryBlock *block = block_of (day, entry->block.number);

  block->ended = true;
  block->dropped = entry->block.what == CARPACE_BLOCK_DROPPED;
  block->match = entry->block.match;
  block->limit_ms = entry->block.limit_ms;
  block->active_ms = entry->block.active_ms;
  block->overrun_ms = entry->block.overrun_ms;
  block->runs = entry->block.runs;
  block->over = entry->at;
}

static bool
decided_on (const CarpaceDiaryDay *day, int32_t block)
{
  for (guint i = 0; i < day->decisions->len; i++)
    {
      const CarpaceDecision *decision = &g_array_index (day->decisions, CarpaceDiaryDecision, i).decision;

      if (decision->scope == CARPACE_SCOPE_BLOCK && decision->block == block)
        return true;
    }
  return false;
}

static void
rate_block (CarpaceDiaryDay *day, const CarpaceRecord *record)
{
  const CarpaceEntry *entry = &record->entry;
  bool instead = entry->rating.late || entry->rating.corrects >= 0;
  CarpaceDiaryBlock *block = instead ? block_corrected (day, entry) : NULL;

  if (block == NULL)
    block = block_of (day, entry->rating.block);
  if (entry->rating.corrects >= 0)
    {
      if (block->corrected_from < 0)
        block->corrected_from = entry->rating.corrects;
      if (entry->rating.discomfort >= 0 && entry->rating.discomfort < entry->rating.corrects
          && decided_on (day, entry->rating.block))
        block->lowered_after_decision = true;
    }
  else if (!block->rated && entry->rating.discomfort >= 0 && block->ended && !entry->rating.late)
    block->to_tap_ms = entry->at.elapsed_ms - block->over.elapsed_ms;
  block->rated = true;
  block->rating_id = record->id;
  block->discomfort = entry->rating.discomfort;
  block->site = entry->rating.site;
  block->late = entry->rating.late;
}

static void
take_record (CarpaceDiaryDay *day, const CarpaceRecord *record)
{
  const CarpaceEntry *entry = &record->entry;

  switch (entry->kind)
    {
    case CARPACE_ENTRY_DAY:
      if (entry->day.what == CARPACE_DAY_OPENED)
        day->opened_id = record->id;
      break;
    case CARPACE_ENTRY_BLOCK:
      if (entry->block.what == CARPACE_BLOCK_STARTED)
        begin_block (day, entry);
      else
        end_block (day, entry);
      break;
    case CARPACE_ENTRY_OVERRUN:
      block_of (day, entry->overrun.block)->overrun_ms += entry->overrun.ms;
      break;
    case CARPACE_ENTRY_RATING:
      rate_block (day, record);
      break;
    case CARPACE_ENTRY_MORNING:
      g_array_append_val (day->mornings, entry->morning);
      break;
    case CARPACE_ENTRY_DECISION:
      {
        CarpaceDiaryDecision decision = { .at = entry->at, .decision = entry->decision };

        g_array_append_val (day->decisions, decision);
        break;
      }
    case CARPACE_ENTRY_CAUTION:
      {
        CarpaceDiaryCaution caution = { .at = entry->at, .what = entry->caution.what, .signs = entry->caution.signs };

        g_array_append_val (day->cautions, caution);
        break;
      }
    case CARPACE_ENTRY_STATE:
    case CARPACE_ENTRY_CUE:
    case CARPACE_ENTRY_REST:
    case CARPACE_ENTRY_FAULT:
    case CARPACE_N_ENTRIES:
      break;
    }
  if (record->note != NULL && *record->note != '\0')
    {
      CarpaceDiaryNote note = { .record_id = record->id, .at = entry->at, .text = g_strdup (record->note) };

      g_array_append_val (day->notes, note);
    }
}

static bool
chunk_record (void *user, const CarpaceRecord *record)
{
  Chunk *chunk = user;
  CarpaceDay index = record->day - chunk->first;

  if (index >= 0 && index < CHUNK_DAYS)
    take_record (&chunk->days[index], record);
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
    day_init (&chunk->days[i], first + i);
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

CarpaceDay
carpace_diary_monday (CarpaceDay day)
{
  /* 1970-01-01 was a Thursday: day 4 was the first Monday after it. */
  int32_t past = (day - 4) % 7;

  return day - (past < 0 ? past + 7 : past);
}

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

/* Weeks and mornings */

bool
carpace_diary_rising (int32_t sum, int32_t n, int32_t sum_before, int32_t n_before)
{
  if (n < 6 || n_before < 6)
    return false;
  return 2 * ((int64_t) sum * n_before - (int64_t) sum_before * n) > (int64_t) n * n_before;
}

static void
week_add (CarpaceWeekNumbers *week, const CarpaceDaySum *sum)
{
  if (sum->day < week->monday)
    {
      week->n_before += sum->n_ratings;
      week->sum_before += sum->rating_sum;
      return;
    }
  week->practised += sum->done_ms > 0;
  week->dose_ms += sum->dose_ms;
  week->done_ms += sum->done_ms;
  week->match_ms += sum->match_ms;
  week->offered += sum->offered;
  week->taken += sum->taken;
  week->n_ratings += sum->n_ratings;
  week->rating_sum += sum->rating_sum;
  week->unanswered += sum->unanswered;
  if (sum->morning_known && sum->morning.waking >= 0)
    {
      week->n_waking++;
      week->waking_sum += sum->morning.waking;
    }
}

CarpaceWeekNumbers
carpace_diary_model_week (const CarpaceDiaryModel *model, CarpaceDay monday)
{
  CarpaceWeekNumbers week = { .monday = monday };

  for (CarpaceDay day = monday - 7; day < monday + 7; day++)
    {
      int32_t index = sum_at (model, day);

      if (index >= 0)
        week_add (&week, carpace_diary_model_sum (model, index));
    }
  week.rising = carpace_diary_rising (week.rating_sum, week.n_ratings, week.sum_before, week.n_before);
  return week;
}

GArray *
carpace_diary_model_mornings_after (const CarpaceDiaryModel *model, CarpaceDay since, CarpaceDay until)
{
  GArray *mornings = g_array_new (FALSE, TRUE, sizeof (CarpaceMorningAfter));

  for (guint i = 1; i < model->sums->len; i++)
    {
      const CarpaceDaySum *sum = &g_array_index (model->sums, CarpaceDaySum, i);
      const CarpaceDaySum *before = sum - 1;
      CarpaceMorningAfter after = { .morning = sum->day, .done_ms = before->done_ms, .waking = sum->morning.waking };

      if (sum->day < since || sum->day > until || before->day != sum->day - 1)
        continue;
      if (sum->morning_known && sum->morning.waking >= 0)
        g_array_append_val (mornings, after);
    }
  return mornings;
}
