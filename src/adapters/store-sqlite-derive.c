/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-derive.c: what a session goes on from, derived anew from all
 * records: the history by folding them, the day under way by its events. */
#include "store-sqlite-private.h"

#include "carpace/history-fold.h"

static bool
fold_record (void *user, const CarpaceRecord *record)
{
  carpace_history_fold (user, &record->entry);
  return true;
}

/* Events as they happened; of one moment, as they came. */
static int
by_moment (gconstpointer a, gconstpointer b)
{
  int64_t x = ((const CarpaceStoreEvent *) a)->at.elapsed_ms, y = ((const CarpaceStoreEvent *) b)->at.elapsed_ms;

  return (x > y) - (x < y);
}

static GArray *
all_events (CarpaceDiaryStore *store, const GArray *further)
{
  GArray *events = g_array_new (FALSE, FALSE, sizeof (CarpaceStoreEvent));

  if (!carpace_store_read_events (store, INT64_MIN, events))
    g_clear_pointer (&events, g_array_unref);
  else if (further != NULL)
    g_array_append_vals (events, further->data, further->len);
  if (events != NULL)
    g_array_sort (events, by_moment); /* stable, as GLib says */
  return events;
}

/* Those before the opening tell what held then: a stream, a moving hand.
 * @return the id of the first since the opening, 0 where none was, -1 where it failed */
static int64_t
write_events (CarpaceDiaryStore *store, const GArray *events, const CarpaceHistoryFold *fold)
{
  int64_t first = 0, id;

  for (guint i = 0; i < events->len; i++)
    {
      const CarpaceStoreEvent *event = &g_array_index (events, CarpaceStoreEvent, i);

      if (!carpace_store_write_event (store, event, &id))
        return -1;
      if (first == 0 && (!fold->open || event->at.elapsed_ms >= fold->opened.elapsed_ms))
        first = id;
    }
  return first;
}

/* A day whose events did not come along is over: it is one of the days behind. */
static bool
write_opening (CarpaceDiaryStore *store, CarpaceHistoryFold *fold, int64_t first_event)
{
  CarpaceStoreStep step = { .opens = true, .day = fold->open ? fold->day.day : CARPACE_NO_DAY, .at = fold->opened };
  g_autofree CarpaceHistory *history = g_new (CarpaceHistory, 1);
  g_autofree char *text = g_malloc (CARPACE_HISTORY_BYTES);

  if (first_event == 0)
    carpace_history_fold_closed (fold, history);
  else if (fold->open)
    *history = fold->at_opening;
  else
    return true; /* before a first day was opened, the events are all there is */
  carpace_history_write (history, text, CARPACE_HISTORY_BYTES);
  step.history = text;
  store->day = step.day;
  return carpace_store_write_opening (store, &step, first_event);
}

bool
carpace_store_derive (CarpaceDiaryStore *store, const GArray *further)
{
  g_autofree CarpaceHistoryFold *fold = g_new (CarpaceHistoryFold, 1);
  g_autoptr (GArray) events = all_events (store, further);
  int64_t first;

  carpace_history_fold_init (fold);
  if (events == NULL
      || !carpace_store_read (store, INT32_MIN, INT32_MAX, CARPACE_FOLDED_KINDS, fold_record, fold)
      || !carpace_store_run_sql (store, SQL_CLEAR_EVENTS) || !carpace_store_run_sql (store, SQL_CLEAR_OPENINGS))
    return false;
  first = write_events (store, events, fold);
  return first >= 0 && write_opening (store, fold, first);
}
