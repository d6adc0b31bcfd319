/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-read.c: records and sums out of the file, and of what waits. */
#include "store-sqlite-private.h"

#define FIRST_FIELD 6

/* What a later or damaged file holds and this program does not know is left unsaid. */
static void
read_row (sqlite3_stmt *statement, CarpaceEntryKind kind, CarpaceRecord *ret_record)
{
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (kind, &n);

  ret_record->id = sqlite3_column_int64 (statement, 0);
  ret_record->day = sqlite3_column_int (statement, 1);
  carpace_entry_init (&ret_record->entry, kind, carpace_store_column_instant (statement, 2));
  ret_record->note = (const char *) sqlite3_column_text (statement, 5);
  for (int32_t i = 0; i < n; i++)
    carpace_store_read_field (statement, FIRST_FIELD + i, &field[i], &ret_record->entry);
}

/* One kind's records of the range, the next of them at hand. */
typedef struct
{
  CarpaceEntryKind kind;
  sqlite3_stmt *statement;
  bool own;
  bool there;
  CarpaceDay day;
  int64_t elapsed_ms, id;
} Stream;

static bool
stream_next (Stream *stream)
{
  int result = sqlite3_step (stream->statement);

  stream->there = result == SQLITE_ROW;
  if (stream->there)
    {
      stream->id = sqlite3_column_int64 (stream->statement, 0);
      stream->day = sqlite3_column_int (stream->statement, 1);
      stream->elapsed_ms = sqlite3_column_int64 (stream->statement, 2);
    }
  return result == SQLITE_ROW || result == SQLITE_DONE;
}

static bool
stream_open (CarpaceDiaryStore *store, Stream *stream, CarpaceDay since, CarpaceDay until)
{
  stream->statement = carpace_store_sql_read (store, stream->kind, &stream->own);
  if (stream->statement == NULL)
    return false;
  sqlite3_reset (stream->statement);
  sqlite3_bind_int64 (stream->statement, 1, since);
  sqlite3_bind_int64 (stream->statement, 2, until);
  return stream_next (stream);
}

static void
stream_close (Stream *stream)
{
  if (stream->own)
    sqlite3_finalize (stream->statement);
  else if (stream->statement != NULL)
    sqlite3_reset (stream->statement);
}

/* In the order of what happened: ids are that of being written down. */
static bool
is_before (const Stream *a, const Stream *b)
{
  if (a->day != b->day)
    return a->day < b->day;
  return a->elapsed_ms != b->elapsed_ms ? a->elapsed_ms < b->elapsed_ms : a->id < b->id;
}

static Stream *
earliest (Stream *stream, int n)
{
  Stream *first = NULL;

  for (int i = 0; i < n; i++)
    if (stream[i].there && (first == NULL || is_before (&stream[i], first)))
      first = &stream[i];
  return first;
}

bool
carpace_store_read (CarpaceDiaryStore *store, CarpaceDay since, CarpaceDay until, uint32_t kinds,
                    CarpaceRecordVisitor visit, void *user)
{
  Stream stream[CARPACE_N_ENTRIES] = { 0 }, *next;
  CarpaceRecord record;
  bool ok = store->db != NULL;
  int n = 0;

  for (int kind = 0; ok && kind < CARPACE_N_ENTRIES; kind++)
    if (kinds & CARPACE_KIND (kind))
      {
        stream[n].kind = kind;
        ok = stream_open (store, &stream[n++], since, until);
      }
  while (ok && (next = earliest (stream, n)) != NULL)
    {
      read_row (next->statement, next->kind, &record);
      if (!visit (user, &record))
        break;
      ok = stream_next (next);
    }
  for (int i = 0; i < n; i++)
    stream_close (&stream[i]);
  return ok;
}

bool
carpace_store_find (CarpaceDiaryStore *store, int64_t id, CarpaceRecord *ret_record)
{
  bool found = false;

  for (int kind = 0; store->db != NULL && !found && kind < CARPACE_N_ENTRIES; kind++)
    {
      sqlite3_stmt *statement = carpace_store_sql_one (store, kind);

      if (statement == NULL)
        continue;
      sqlite3_bind_int64 (statement, 1, id);
      if (sqlite3_step (statement) == SQLITE_ROW)
        {
          read_row (statement, kind, ret_record);
          ret_record->note = NULL;
          found = true;
        }
      sqlite3_finalize (statement);
    }
  return found;
}

static bool
write_sum (CarpaceDiaryStore *store, const CarpaceDaySum *sum)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_SUM_SET);
  const int64_t column[] = {
    sum->day, sum->dose_ms, sum->done_ms, sum->match_ms, sum->blocks, sum->offered, sum->taken, sum->declined,
    sum->n_ratings, sum->unanswered, sum->zeros, sum->rating_sum, sum->highest, sum->morning_known,
    sum->morning.waking, (int64_t) sum->morning.stiffness, sum->morning.now, sum->morning.other_load,
    sum->morning.pain_relief, sum->no_practice, sum->caution,
  };

  if (statement == NULL)
    return false;
  for (size_t i = 0; i < G_N_ELEMENTS (column); i++)
    sqlite3_bind_int64 (statement, (int) i + 1, column[i]);
  return carpace_store_done (statement);
}

static CarpaceDaySum
read_sum (sqlite3_stmt *statement)
{
  int64_t column[22];

  for (int i = 0; i < 22; i++)
    column[i] = sqlite3_column_int64 (statement, i);
  return (CarpaceDaySum) {
    .day = (CarpaceDay) column[0], .dose_ms = column[1], .done_ms = column[2], .match_ms = column[3],
    .blocks = (int32_t) column[4], .offered = (int32_t) column[5], .taken = (int32_t) column[6],
    .declined = (int32_t) column[7], .n_ratings = (int32_t) column[8], .unanswered = (int32_t) column[9],
    .zeros = (int32_t) column[10], .rating_sum = (int32_t) column[11], .highest = (int32_t) column[12],
    .morning_known = column[13] != 0,
    .morning = { .waking = (int32_t) column[14],
                 .stiffness = column[15] >= 0 && column[15] < CARPACE_N_STIFFNESSES ? (CarpaceStiffness) column[15]
                                                                                    : CARPACE_STIFFNESS_UNSAID,
                 .now = (int32_t) column[16], .other_load = column[17] != 0, .pain_relief = column[18] != 0 },
    .no_practice = column[19] != 0, .caution = column[20] != 0, .other_ms = column[21],
    .note = (const char *) sqlite3_column_text (statement, 22)
  };
}

static bool
sum_record (void *user, const CarpaceRecord *record)
{
  carpace_summing_add (user, &record->entry);
  return true;
}

bool
carpace_store_sum_up (CarpaceDiaryStore *store, CarpaceDay day)
{
  CarpaceSumming summing;
  CarpaceDaySum sum;

  carpace_summing_init (&summing, day);
  if (!carpace_store_read (store, day, day, CARPACE_SUMMED_KINDS, sum_record, &summing))
    return false;
  sum = carpace_summing_end (&summing);
  return write_sum (store, &sum);
}

bool
carpace_store_sum_up_days (CarpaceDiaryStore *store, GHashTable *days)
{
  GHashTableIter iter;
  gpointer day;

  g_hash_table_iter_init (&iter, days);
  while (g_hash_table_iter_next (&iter, &day, NULL))
    if (!carpace_store_sum_up (store, GPOINTER_TO_INT (day)))
      return false;
  return true;
}

typedef struct
{
  CarpaceDiaryStore *store;
  CarpaceSumming summing;
  bool any, ok;
} SummingAll;

static void
close_day (SummingAll *all)
{
  CarpaceDaySum sum = carpace_summing_end (&all->summing);

  if (all->any && !write_sum (all->store, &sum))
    all->ok = false;
}

static bool
sum_each (void *user, const CarpaceRecord *record)
{
  SummingAll *all = user;

  if (!all->any || record->day != all->summing.sum.day)
    {
      close_day (all);
      carpace_summing_init (&all->summing, record->day);
      all->any = true;
    }
  carpace_summing_add (&all->summing, &record->entry);
  return all->ok;
}

/* The reader joins notes, which schema 2 brings: so only from schema 3 on. */
bool
carpace_store_sum_up_all (CarpaceDiaryStore *store)
{
  SummingAll all = { .store = store, .ok = true };
  bool read = carpace_store_read (store, INT32_MIN, INT32_MAX, CARPACE_SUMMED_KINDS, sum_each, &all);

  close_day (&all);
  return read && all.ok;
}

typedef struct { CarpaceRecordVisitor visit; void *user; bool enough; } Passing;

static bool
pass_on (void *user, const CarpaceRecord *record)
{
  Passing *passing = user;

  passing->enough = !passing->visit (passing->user, record);
  return !passing->enough;
}

/* Records of steps that wait, as though they came next. */
static void
read_waiting (CarpaceDiaryStore *store, CarpaceDay since, CarpaceDay until, uint32_t kinds, Passing *passing)
{
  CarpaceRecord record = { .id = store->last_record };

  for (guint i = 0; i < store->waiting->len; i++)
    {
      const CarpaceStoreStep *step = g_ptr_array_index (store->waiting, i);

      for (guint j = 0; j < step->records->len && !passing->enough; j++)
        {
          const CarpaceStoreRecord *kept = &g_array_index (step->records, CarpaceStoreRecord, j);

          record.id++;
          record.day = kept->day;
          record.entry = kept->entry;
          if (kept->day >= since && kept->day <= until && (kinds & CARPACE_KIND (kept->entry.kind)))
            pass_on (passing, &record);
        }
    }
}

static bool
port_records_of (void *self, CarpaceDay since, CarpaceDay until, uint32_t kinds, CarpaceRecordVisitor visit, void *user)
{
  CarpaceDiaryStore *store = self;
  Passing passing = { visit, user, false };
  bool ok = store->db == NULL || carpace_store_read (store, since, until, kinds, pass_on, &passing);

  read_waiting (store, since, until, kinds, &passing);
  return ok;
}

static bool
port_records (void *self, CarpaceDay since, CarpaceDay until, CarpaceRecordVisitor visit, void *user)
{
  return port_records_of (self, since, until, CARPACE_ALL_KINDS, visit, user);
}

/* Days that steps wait for: summed up from file and memory. */
static GHashTable *
days_waiting (CarpaceDiaryStore *store)
{
  GHashTable *days = g_hash_table_new_full (NULL, NULL, NULL, g_free);

  for (guint i = 0; i < store->waiting->len; i++)
    {
      const CarpaceStoreStep *step = g_ptr_array_index (store->waiting, i);

      for (guint j = 0; j < step->records->len; j++)
        {
          CarpaceDay day = g_array_index (step->records, CarpaceStoreRecord, j).day;
          CarpaceSumming *summing = g_hash_table_lookup (days, GINT_TO_POINTER (day));

          if (summing != NULL)
            continue;
          summing = g_new (CarpaceSumming, 1);
          carpace_summing_init (summing, day);
          port_records_of (store, day, day, CARPACE_SUMMED_KINDS, sum_record, summing);
          g_hash_table_insert (days, GINT_TO_POINTER (day), summing);
        }
    }
  return days;
}

/* Visits the waiting days before @before, the earliest first. */
static bool
visit_waiting_days (GHashTable *days, CarpaceDay since, int64_t before, CarpaceDaySumVisitor visit, void *user)
{
  for (;;)
    {
      GHashTableIter iter;
      gpointer value;
      const CarpaceSumming *first = NULL;
      CarpaceDaySum sum;
      bool more;

      g_hash_table_iter_init (&iter, days);
      while (g_hash_table_iter_next (&iter, NULL, &value))
        {
          const CarpaceSumming *summing = value;

          if (summing->sum.day >= since && summing->sum.day < before
              && (first == NULL || summing->sum.day < first->sum.day))
            first = summing;
        }
      if (first == NULL)
        return true;
      sum = carpace_summing_end (first);
      more = visit (user, &sum);
      g_hash_table_remove (days, GINT_TO_POINTER (sum.day));
      if (!more)
        return false;
    }
}

static bool
port_days (void *self, CarpaceDay since, CarpaceDay until, CarpaceDaySumVisitor visit, void *user)
{
  CarpaceDiaryStore *store = self;
  g_autoptr (GHashTable) days = days_waiting (store);
  sqlite3_stmt *statement = NULL;
  int result = SQLITE_DONE;
  bool more = true;

  if (store->db != NULL)
    {
      statement = carpace_store_sql (store, SQL_SUMS);
      if (statement == NULL)
        return false;
      /* one of its own: a visitor may ask for days itself */
      store->statement[SQL_SUMS] = NULL;
      sqlite3_bind_int64 (statement, 1, since);
      sqlite3_bind_int64 (statement, 2, until);
    }
  while (more && statement != NULL && (result = sqlite3_step (statement)) == SQLITE_ROW)
    {
      CarpaceDaySum sum = read_sum (statement);
      const CarpaceSumming *waiting;

      more = visit_waiting_days (days, since, sum.day, visit, user);
      waiting = g_hash_table_lookup (days, GINT_TO_POINTER (sum.day));
      if (more && waiting != NULL)
        {
          CarpaceDaySum both = carpace_summing_end (waiting);

          both.other_ms = sum.other_ms;
          both.note = sum.note;
          sum = both;
        }
      g_hash_table_remove (days, GINT_TO_POINTER (sum.day));
      more = more && visit (user, &sum);
    }
  if (more)
    visit_waiting_days (days, since, (int64_t) until + 1, visit, user);
  sqlite3_finalize (statement);
  return !more || result == SQLITE_DONE;
}

static bool
port_whose (void *self, CarpaceIdentity *ret_identity)
{
  return carpace_store_read_whose (self, ret_identity);
}

static bool
port_events (void *self, CarpaceEventVisitor visit, void *user)
{
  CarpaceDiaryStore *store = self;
  g_autoptr (GArray) events = g_array_new (FALSE, FALSE, sizeof (CarpaceStoreEvent));

  if (!carpace_store_read_events (store, INT64_MIN, events))
    return false;
  for (guint i = 0; i < events->len; i++)
    {
      const CarpaceStoreEvent *event = &g_array_index (events, CarpaceStoreEvent, i);

      /* what a replay passes over: a plan in use, which the caller gives, and mere time */
      if (event->event.kind == CARPACE_EVENT_OPEN || event->event.kind == CARPACE_EVENT_DEADLINE)
        continue;
      if (!visit (user, &event->event, event->at))
        break;
    }
  return true;
}

static bool
port_alive (void *self, CarpaceInstant *ret_at, bool *ret_ended_well)
{
  return carpace_store_read_alive (self, ret_at, ret_ended_well);
}

CarpaceDiary
carpace_store_diary (CarpaceDiaryStore *store)
{
  return (CarpaceDiary) { .self = store, .records = port_records, .days = port_days, .records_of = port_records_of,
                          .whose = port_whose, .events = port_events, .alive = port_alive,
                          .plans = carpace_store_plans, .free = carpace_store_end };
}
