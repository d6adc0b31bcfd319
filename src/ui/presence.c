/* SPDX-License-Identifier: GPL-3.0-or-later */
/* presence.c: card, bar, nothing; and where. */
#include "ui/presence.h"

/* A card is as wide as eleven squares of 44 with 6 between them, and its edges. */
#define WIDTH 592
#define WIDEST_PERCENT 48 /* of the screen's width, where that is more: still beside its middle */
#define SHARE 6      /* of the height, of an offer or a rating */
#define TALL_SHARE 3 /* of a rest that was begun */

void
carpace_presence_begin (CarpacePresence *presence, bool in_run, CarpaceInstant now)
{
  *presence = (CarpacePresence) { .is_bar = in_run, .bar_since_ms = now.elapsed_ms };
}

static bool
bar_is_over (const CarpacePresence *presence, int64_t input_ms, int64_t now_ms)
{
  return now_ms - presence->bar_since_ms >= CARPACE_BAR_STAYS_MS || (presence->shrank && input_ms >= CARPACE_INPUT_IS_RUN_MS);
}

CarpaceForm
carpace_presence_form (CarpacePresence *presence, bool covered, int64_t input_ms, CarpaceInstant now)
{
  if (input_ms < 0)
    *presence = (CarpacePresence) { .is_bar = false };
  else if (!presence->is_bar && input_ms >= CARPACE_INPUT_MAKES_BAR_MS)
    *presence = (CarpacePresence) { .is_bar = true, .shrank = true, .bar_since_ms = now.elapsed_ms };
  if (presence->is_bar && bar_is_over (presence, input_ms, now.elapsed_ms))
    presence->over = true;
  if (!covered)
    return CARPACE_FORM_FULL;
  return presence->over ? CARPACE_FORM_AWAY : presence->is_bar ? CARPACE_FORM_BAR : CARPACE_FORM_SMALL;
}

int64_t
carpace_presence_next_ms (const CarpacePresence *presence, bool covered, int64_t input_ms, CarpaceInstant now)
{
  int64_t bar_ms = presence->bar_since_ms + CARPACE_BAR_STAYS_MS - now.elapsed_ms;
  int64_t run_ms = presence->shrank ? CARPACE_INPUT_IS_RUN_MS - input_ms : CARPACE_NEVER;

  if (!covered || input_ms < 0 || presence->over)
    return CARPACE_NEVER;
  if (!presence->is_bar)
    return MAX (CARPACE_INPUT_MAKES_BAR_MS - input_ms, 0);
  return MAX (MIN (bar_ms, run_ms), 0);
}

int
carpace_card_widest (const GdkRectangle *area)
{
  return MAX (MIN (WIDTH, area->width - 2 * CARPACE_CARD_EDGE), area->width * WIDEST_PERCENT / 100);
}

void
carpace_card_most (const GdkRectangle *area, bool tall, int *ret_width, int *ret_height)
{
  *ret_width = MIN (WIDTH, area->width - 2 * CARPACE_CARD_EDGE);
  *ret_height = area->height / (tall ? TALL_SHARE : SHARE);
}

bool
carpace_corner_is_at_end (CarpaceCorner corner)
{
  return corner == CARPACE_CORNER_LOWER_END || corner == CARPACE_CORNER_UPPER_END;
}

bool
carpace_corner_is_low (CarpaceCorner corner)
{
  return corner == CARPACE_CORNER_LOWER_END || corner == CARPACE_CORNER_LOWER_START;
}

void
carpace_card_place (const GdkRectangle *area, CarpaceCorner corner, bool mirrored, int width, int height,
                    int *ret_left, int *ret_top)
{
  int left = carpace_corner_is_at_end (corner) != mirrored ? area->width - CARPACE_CARD_EDGE - width : CARPACE_CARD_EDGE;
  int top = carpace_corner_is_low (corner) ? area->height - CARPACE_CARD_EDGE - height : CARPACE_CARD_EDGE;

  *ret_left = area->x + MAX (MIN (left, area->width - width), 0);
  *ret_top = area->y + MAX (MIN (top, area->height - height), 0);
}
