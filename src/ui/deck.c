/* SPDX-License-Identifier: GPL-3.0-or-later */
/* deck.c: the cards, one up at a time; a table says which is the more pressing. */
#include "ui/deck.h"

#include "ui/caution-card.h"
#include "ui/morning-card.h"
#include "ui/notice-card.h"
#include "ui/rating-card.h"
#include "ui/rest-card.h"

struct CarpaceDeck
{
  const CarpaceOwner *owner;
  bool waits[CARPACE_N_CUES]; /* a cue's card: for the hand to be still, or for another card to go */
  CarpaceRatingCard *rating;
  CarpaceRestCard *rest;
  CarpaceMorningCard *morning;
  CarpaceCautionCard *caution;
  CarpaceNoticeCard *notice;
};

/* Cues that have a card of their own, the more pressing first. */
static const CarpaceCue carded[] = { CARPACE_CUE_CAUTION, CARPACE_CUE_RATING, CARPACE_CUE_MICRO_REST, CARPACE_CUE_MORNING };

/* A card is made when it is first wanted. */
#define MADE(deck, card) ((deck)->card ? (deck)->card : ((deck)->card = carpace_##card##_card_new ((deck)->owner)))

/* ---- the card of a cue ---- */

static CarpaceCard *
card_of (CarpaceDeck *deck, CarpaceCue cue)
{
  switch (cue)
    {
    case CARPACE_CUE_CAUTION: return deck->caution ? carpace_caution_card_card (deck->caution) : NULL;
    case CARPACE_CUE_RATING: return deck->rating ? carpace_rating_card_card (deck->rating) : NULL;
    case CARPACE_CUE_MICRO_REST: return deck->rest ? carpace_rest_card_card (deck->rest) : NULL;
    case CARPACE_CUE_MORNING: return deck->morning ? carpace_morning_card_card (deck->morning) : NULL;
    case CARPACE_CUE_LIMIT:
    case CARPACE_CUE_NEXT_BLOCK:
    case CARPACE_CUE_DAY_DONE:
    case CARPACE_N_CUES: break;
    }
  return NULL;
}

static void
put_up (CarpaceDeck *deck, CarpaceCue cue, CarpaceCardWay way, const CarpaceView *view, CarpaceInstant now)
{
  switch (cue)
    {
    case CARPACE_CUE_CAUTION: carpace_caution_card_show (MADE (deck, caution), way, view); break;
    case CARPACE_CUE_RATING: carpace_rating_card_show (MADE (deck, rating), way, view, now); break;
    case CARPACE_CUE_MICRO_REST: carpace_rest_card_show (MADE (deck, rest), way, view); break;
    case CARPACE_CUE_MORNING: carpace_morning_card_show (MADE (deck, morning), way, view); break;
    case CARPACE_CUE_LIMIT:
    case CARPACE_CUE_NEXT_BLOCK:
    case CARPACE_CUE_DAY_DONE:
    case CARPACE_N_CUES: break;
    }
}

static void
take_down (CarpaceDeck *deck, CarpaceCue cue)
{
  if (!card_of (deck, cue))
    return;
  switch (cue)
    {
    case CARPACE_CUE_CAUTION: carpace_caution_card_hide (deck->caution); break;
    case CARPACE_CUE_RATING: carpace_rating_card_hide (deck->rating); break;
    case CARPACE_CUE_MICRO_REST: carpace_rest_card_hide (deck->rest); break;
    case CARPACE_CUE_MORNING: carpace_morning_card_hide (deck->morning); break;
    case CARPACE_CUE_LIMIT:
    case CARPACE_CUE_NEXT_BLOCK:
    case CARPACE_CUE_DAY_DONE:
    case CARPACE_N_CUES: break;
    }
}

static bool
is_up (CarpaceDeck *deck, CarpaceCue cue)
{
  CarpaceCard *card = card_of (deck, cue);

  return card && carpace_card_is_shown (card);
}

/* ---- one at a time ---- */

/* The rank of the card that is up; G_N_ELEMENTS (carded) where none is. */
static size_t
rank_up (CarpaceDeck *deck)
{
  size_t rank = 0;
  while (rank < G_N_ELEMENTS (carded) && !is_up (deck, carded[rank]))
    rank++;
  return rank;
}

static void
hide_notice (CarpaceDeck *deck)
{
  if (deck->notice)
    carpace_notice_card_hide (deck->notice);
}

void
carpace_deck_bring (CarpaceDeck *deck, CarpaceCue cue, CarpaceCardWay way, const CarpaceView *view, CarpaceInstant now)
{
  size_t up = rank_up (deck);

  if (way == CARPACE_CARD_BY_ITSELF && up < G_N_ELEMENTS (carded) && carded[up] != cue
      && (carded[up] == CARPACE_CUE_CAUTION || cue == CARPACE_CUE_MORNING
          || (cue == CARPACE_CUE_MICRO_REST && carded[up] == CARPACE_CUE_RATING)))
    {
      deck->waits[cue] = true;
      return;
    }
  if (up < G_N_ELEMENTS (carded) && carded[up] != cue)
    {
      deck->waits[carded[up]] = true;
      take_down (deck, carded[up]);
    }
  deck->waits[cue] = false;
  hide_notice (deck);
  put_up (deck, cue, way, view, now);
}

void
carpace_deck_let_wait (CarpaceDeck *deck, CarpaceCue cue)
{
  deck->waits[cue] = true;
}

static bool
still_asked (CarpaceCue cue, const CarpaceView *view, bool rests_offered)
{
  if (cue == CARPACE_CUE_MICRO_REST)
    return view->rest.running || (view->rest.offered && rests_offered);
  return cue == CARPACE_CUE_RATING ? view->rating.open : view->cue_on[cue];
}

/* What waited comes, one card at a time. */
static void
bring_what_waits (CarpaceDeck *deck, const CarpaceView *view, CarpaceInstant now, bool rests_offered)
{
  for (size_t i = 0; i < G_N_ELEMENTS (carded); i++)
    {
      CarpaceCue cue = carded[i];
      bool can_come = cue != CARPACE_CUE_RATING || !view->rating.hand_moving;
      deck->waits[cue] = deck->waits[cue] && still_asked (cue, view, rests_offered);
      if (deck->waits[cue] && can_come && rank_up (deck) == G_N_ELEMENTS (carded))
        carpace_deck_bring (deck, cue, CARPACE_CARD_BY_ITSELF, view, now);
    }
}

void
carpace_deck_draw (CarpaceDeck *deck, const CarpaceView *view, CarpaceInstant now, bool rests_offered)
{
  if (deck->rating)
    carpace_rating_card_draw (deck->rating, view, now);
  if (deck->rest)
    carpace_rest_card_draw (deck->rest, view);
  if (deck->morning)
    carpace_morning_card_draw (deck->morning, view);
  if (deck->caution)
    carpace_caution_card_draw (deck->caution, view);
  bring_what_waits (deck, view, now, rests_offered);
}

int64_t
carpace_deck_next_ms (const CarpaceDeck *deck, const CarpaceView *view)
{
  return deck->rest ? carpace_rest_card_next_ms (deck->rest, view) : CARPACE_NEVER;
}

void
carpace_deck_close (CarpaceDeck *deck)
{
  for (size_t i = 0; i < G_N_ELEMENTS (carded); i++)
    {
      deck->waits[carded[i]] = false;
      take_down (deck, carded[i]);
    }
  hide_notice (deck);
}

void
carpace_deck_notice (CarpaceDeck *deck, const CarpaceNotice *notice)
{
  carpace_notice_card_show (MADE (deck, notice), notice);
}

void
carpace_deck_end_notice (CarpaceDeck *deck, CarpaceCue cue)
{
  if (deck->notice)
    carpace_notice_card_end (deck->notice, cue);
}

void
carpace_deck_arm_rating (CarpaceDeck *deck, bool armed)
{
  if (deck->rating)
    carpace_rating_card_arm (deck->rating, armed);
}

CarpaceDeck *
carpace_deck_new (const CarpaceOwner *owner)
{
  CarpaceDeck *deck = g_new0 (CarpaceDeck, 1);

  deck->owner = owner;
  return deck;
}

void
carpace_deck_free (CarpaceDeck *deck)
{
  g_clear_pointer (&deck->rating, carpace_rating_card_free);
  g_clear_pointer (&deck->rest, carpace_rest_card_free);
  g_clear_pointer (&deck->morning, carpace_morning_card_free);
  g_clear_pointer (&deck->caution, carpace_caution_card_free);
  g_clear_pointer (&deck->notice, carpace_notice_card_free);
  g_free (deck);
}
