/* SPDX-License-Identifier: GPL-3.0-or-later */
/* deck.c: the cards, one up at a time; a table says which is the more pressing. */
#include "ui/deck.h"

#include "ui/caution-card.h"
#include "ui/morning-card.h"
#include "ui/notice-card.h"
#include "ui/pause-card.h"
#include "ui/rating-card.h"
#include "ui/rest-card.h"
#include "ui/screens.h"

struct CarpaceDeck
{
  const CarpaceOwner *owner;
  bool waits[CARPACE_N_CUES]; /* a cue's card: for the hand to be still, or for another card to go */
  bool was_up[CARPACE_N_CUES], away[CARPACE_N_CUES]; /* when last drawn; put away by the player, and still asked */
  CarpacePresence presence;   /* of the card that is up */
  CarpaceCardWay way;
  CarpaceBeneath beneath;     /* what lies where cards come */
  bool looked;                /* whether that is as of now */
  GdkRectangle area;
  bool armed;
  CarpaceRatingCard *rating;
  CarpaceRestCard *rest;
  CarpaceMorningCard *morning;
  CarpaceCautionCard *caution;
  CarpaceNoticeCard *notice;
  CarpacePauseCard *pause;
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
    case CARPACE_CUE_UNSTARTED:
    case CARPACE_CUE_BEGUN:
    case CARPACE_N_CUES: break;
    }
  return NULL;
}

static void
make (CarpaceDeck *deck, CarpaceCue cue)
{
  switch (cue)
    {
    case CARPACE_CUE_CAUTION: MADE (deck, caution); break;
    case CARPACE_CUE_RATING: MADE (deck, rating); break;
    case CARPACE_CUE_MICRO_REST: MADE (deck, rest); break;
    case CARPACE_CUE_MORNING: MADE (deck, morning); break;
    case CARPACE_CUE_LIMIT:
    case CARPACE_CUE_NEXT_BLOCK:
    case CARPACE_CUE_DAY_DONE:
    case CARPACE_CUE_UNSTARTED:
    case CARPACE_CUE_BEGUN:
    case CARPACE_N_CUES: break;
    }
}

static void
put_up (CarpaceDeck *deck, CarpaceCue cue, CarpaceCardWay way, const CarpaceView *view, CarpaceInstant now)
{
  switch (cue)
    {
    case CARPACE_CUE_CAUTION: carpace_caution_card_show (deck->caution, way, view); break;
    case CARPACE_CUE_RATING: carpace_rating_card_show (deck->rating, way, view, now); break;
    case CARPACE_CUE_MICRO_REST: carpace_rest_card_show (deck->rest, way, view); break;
    case CARPACE_CUE_MORNING: carpace_morning_card_show (deck->morning, way, view); break;
    case CARPACE_CUE_LIMIT:
    case CARPACE_CUE_NEXT_BLOCK:
    case CARPACE_CUE_DAY_DONE:
    case CARPACE_CUE_UNSTARTED:
    case CARPACE_CUE_BEGUN:
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
    case CARPACE_CUE_UNSTARTED:
    case CARPACE_CUE_BEGUN:
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

static bool
pause_is_up (CarpaceDeck *deck)
{
  return deck->pause && carpace_card_is_shown (carpace_pause_card_card (deck->pause));
}

/* The card that is up, of a cue, a pause or a notice; NULL where none is. */
static CarpaceCard *
card_up (CarpaceDeck *deck)
{
  size_t rank = rank_up (deck);

  if (rank < G_N_ELEMENTS (carded))
    return card_of (deck, carded[rank]);
  if (pause_is_up (deck))
    return carpace_pause_card_card (deck->pause);
  return deck->notice && carpace_card_is_shown (carpace_notice_card_card (deck->notice)) ? carpace_notice_card_card (deck->notice)
                                                                                         : NULL;
}

/* ---- how it stands ---- */

static void
screens_changed (void *user)
{
  CarpaceDeck *deck = user;

  deck->looked = false;
  deck->owner->redraw (deck->owner->self);
}

static void
look_at_screens (CarpaceDeck *deck)
{
  if (!deck->looked)
    deck->beneath = carpace_screens_choose (gdk_display_get_default (), carpace_card_other_monitor (), &deck->area);
  deck->looked = true;
}

/* By itself. */
static bool
covers_what_comes (const CarpaceDeck *deck)
{
  return carpace_screens_covered (deck->beneath, CARPACE_CARD_BY_ITSELF);
}

bool
carpace_deck_is_covered (CarpaceDeck *deck)
{
  deck->looked = false;
  look_at_screens (deck);
  return covers_what_comes (deck);
}

static CarpaceCardWay
way_of (const CarpaceDeck *deck, CarpaceCard *card)
{
  return carpace_card_window (card) ? carpace_card_way (card) : deck->way;
}

/* What the player opened has the size that it needs, but for the small ones over a full-screen client. */
static CarpaceForm
form_of (CarpaceDeck *deck, CarpaceCard *card, const CarpaceView *view, CarpaceInstant now)
{
  bool long_one = card == card_of (deck, CARPACE_CUE_MORNING) || card == card_of (deck, CARPACE_CUE_CAUTION);
  bool covered = carpace_screens_covered (deck->beneath, way_of (deck, card));

  if (way_of (deck, card) == CARPACE_CARD_BY_PLAYER)
    return covered && !long_one ? CARPACE_FORM_SMALL : CARPACE_FORM_FULL;
  if (deck->armed && covered)
    return CARPACE_FORM_SMALL;
  return carpace_presence_form (&deck->presence, covered, view->input_ms, now);
}

/* What comes in the middle of a run is a bar from the start. */
static void
begin_presence (CarpaceDeck *deck, const CarpaceView *view, CarpaceInstant now)
{
  bool in_run = view->input_ms >= CARPACE_INPUT_MAKES_BAR_MS
                || (view->input_ms >= 0 && (view->ticking || view->rating.hand_moving));

  carpace_presence_begin (&deck->presence, in_run, now);
}

static void
stand (CarpaceDeck *deck, CarpaceCard *card, const CarpaceView *view, CarpaceInstant now)
{
  look_at_screens (deck);
  carpace_card_stand (card, form_of (deck, card, view, now), carpace_screens_covered (deck->beneath, way_of (deck, card)), &deck->area);
}

/* While a card is up the desktop's own events say when a full-screen client comes or goes. */
static void
follow_screens (CarpaceDeck *deck)
{
  bool up = card_up (deck) != NULL;

  carpace_screens_watch (gdk_display_get_default (), up ? screens_changed : NULL, deck);
  if (!up)
    deck->looked = false;
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
  deck->way = way;
  if (up == G_N_ELEMENTS (carded) || carded[up] != cue)
    begin_presence (deck, view, now);
  deck->looked = false;
  make (deck, cue);
  stand (deck, card_of (deck, cue), view, now);
  put_up (deck, cue, way, view, now);
  stand (deck, card_of (deck, cue), view, now);
  follow_screens (deck);
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

/* A card that went and still asks was put away, unless it waits for another to go. */
static void
note_what_is_away (CarpaceDeck *deck, const CarpaceView *view)
{
  for (size_t i = 0; i < G_N_ELEMENTS (carded); i++)
    {
      CarpaceCue cue = carded[i];
      bool up = is_up (deck, cue);

      deck->away[cue] = !up && !deck->waits[cue] && (deck->away[cue] || deck->was_up[cue]) && still_asked (cue, view, true);
      deck->was_up[cue] = up;
    }
}

CarpaceCue
carpace_deck_put_away_cue (const CarpaceDeck *deck)
{
  for (size_t i = 0; i < G_N_ELEMENTS (carded); i++)
    if (deck->away[carded[i]])
      return carded[i];
  return CARPACE_N_CUES;
}

void
carpace_deck_draw (CarpaceDeck *deck, const CarpaceView *view, CarpaceInstant now, bool rests_offered)
{
  CarpaceCard *card;

  if (deck->rating)
    carpace_rating_card_draw (deck->rating, view, now);
  if (deck->rest)
    carpace_rest_card_draw (deck->rest, view);
  if (deck->morning)
    carpace_morning_card_draw (deck->morning, view);
  if (deck->caution)
    carpace_caution_card_draw (deck->caution, view);
  if (deck->pause)
    carpace_pause_card_draw (deck->pause, view);
  if (!view->on_air)
    bring_what_waits (deck, view, now, rests_offered || covers_what_comes (deck));
  note_what_is_away (deck, view);
  card = card_up (deck);
  if (card)
    stand (deck, card, view, now);
  follow_screens (deck);
}

int64_t
carpace_deck_next_ms (CarpaceDeck *deck, const CarpaceView *view, CarpaceInstant now)
{
  CarpaceCard *card = card_up (deck);
  int64_t countdown_ms = pause_is_up (deck) ? carpace_pause_card_next_ms (deck->pause, view)
                         : deck->rest       ? carpace_rest_card_next_ms (deck->rest, view)
                                            : CARPACE_NEVER;
  int64_t form_ms = CARPACE_NEVER;

  if (card && carpace_card_way (card) == CARPACE_CARD_BY_ITSELF)
    form_ms = carpace_presence_next_ms (&deck->presence, covers_what_comes (deck), view->input_ms, now);
  return MIN (countdown_ms, form_ms);
}

void
carpace_deck_close (CarpaceDeck *deck)
{
  for (size_t i = 0; i < G_N_ELEMENTS (carded); i++)
    {
      deck->waits[carded[i]] = deck->was_up[carded[i]] = deck->away[carded[i]] = false;
      take_down (deck, carded[i]);
    }
  hide_notice (deck);
  if (deck->pause)
    carpace_pause_card_hide (deck->pause);
  follow_screens (deck);
}

void
carpace_deck_bring_pause (CarpaceDeck *deck, const CarpaceView *view, CarpaceInstant now)
{
  hide_notice (deck);
  deck->way = CARPACE_CARD_BY_ITSELF;
  if (!pause_is_up (deck))
    begin_presence (deck, view, now);
  deck->looked = false;
  MADE (deck, pause);
  stand (deck, carpace_pause_card_card (deck->pause), view, now);
  carpace_pause_card_show (deck->pause, view);
  stand (deck, carpace_pause_card_card (deck->pause), view, now);
  follow_screens (deck);
}

bool
carpace_deck_notice (CarpaceDeck *deck, const CarpaceNotice *notice, const char *icon, const CarpaceView *view, CarpaceInstant now)
{
  if (rank_up (deck) < G_N_ELEMENTS (carded) || pause_is_up (deck))
    return false;
  deck->way = CARPACE_CARD_BY_ITSELF;
  begin_presence (deck, view, now);
  deck->looked = false;
  MADE (deck, notice);
  stand (deck, carpace_notice_card_card (deck->notice), view, now);
  carpace_notice_card_show (deck->notice, notice, icon);
  stand (deck, carpace_notice_card_card (deck->notice), view, now);
  follow_screens (deck);
  return true;
}

void
carpace_deck_end_notice (CarpaceDeck *deck, CarpaceCue cue)
{
  if (deck->notice)
    carpace_notice_card_end (deck->notice, cue);
}

/* ---- keys ---- */

bool
carpace_deck_holds (CarpaceDeck *deck, const CarpaceView *view)
{
  return is_up (deck, CARPACE_CUE_RATING) && view->plan && !view->rating.open && view->rating.given > view->plan->stop_above
         && view->rating.changeable_for_ms > 0;
}

bool
carpace_deck_has_card (CarpaceDeck *deck)
{
  return card_up (deck) != NULL;
}

void
carpace_deck_arm (CarpaceDeck *deck, bool armed, const CarpaceView *view, CarpaceInstant now)
{
  CarpaceCard *card = card_up (deck);

  deck->armed = armed;
  if (!card)
    return;
  stand (deck, card, view, now);
  if (is_up (deck, CARPACE_CUE_RATING))
    carpace_rating_card_arm (deck->rating, armed);
  else
    carpace_card_arm (card, armed);
}

bool
carpace_deck_digit (CarpaceDeck *deck, int digit)
{
  CarpaceCard *card = card_up (deck);

  if (card == NULL)
    return false;
  if (is_up (deck, CARPACE_CUE_RATING))
    return carpace_rating_card_digit (deck->rating, digit);
  if (is_up (deck, CARPACE_CUE_MORNING))
    return carpace_morning_card_digit (deck->morning, digit);
  return carpace_card_digit (card, digit);
}

void
carpace_deck_put_away (CarpaceDeck *deck)
{
  CarpaceCard *card = card_up (deck);

  if (card)
    carpace_card_put_away (card);
}

bool
carpace_deck_asks_on (CarpaceDeck *deck)
{
  return is_up (deck, CARPACE_CUE_MORNING) && carpace_morning_card_asks_on (deck->morning);
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
  carpace_screens_watch (gdk_display_get_default (), NULL, deck);
  g_clear_pointer (&deck->rating, carpace_rating_card_free);
  g_clear_pointer (&deck->rest, carpace_rest_card_free);
  g_clear_pointer (&deck->morning, carpace_morning_card_free);
  g_clear_pointer (&deck->caution, carpace_caution_card_free);
  g_clear_pointer (&deck->notice, carpace_notice_card_free);
  g_clear_pointer (&deck->pause, carpace_pause_card_free);
  g_free (deck);
}
